"""Edits applied to texts and files: nothing else changes, nothing gets worse, nothing is lost."""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from report_samples import at

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.files import decode
from mkdocs_stitchcheck.findings import Edit, Finding, Severity
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.hosts.saving import replace_file
from mkdocs_stitchcheck.mending import apply, mend, repairs, weight
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.source import Source, Span

CAP = """\
Title: Acorn cap
Terms: US
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-7: sc in each st around (24)
Rnd 8: (2 sc, dec) x 6 (18)
Rnd 9: (sc, dec) x 6 (12)
Rnd 10: dec x 6 (6)
Fasten off, and close the hole.
"""


# --- the text -----------------------------------------------------------------------------------------------------


def test_edits_leave_all_else_as_it_was() -> None:
    text = "\ufeffone\ttwo\r\n\u7de8\u307f x 5\x0c (6)\rthree\n"
    edits = [Edit(at(2, 6, 7), "6"), Edit(at(1, 5, 8), "2"), Edit(at(3, 1, 1), ">")]
    assert apply(text, edits) == "\ufeffone\t2\r\n\u7de8\u307f x 6\x0c (6)\r>three\n"


def test_new_lines_end_as_the_others_do() -> None:
    assert apply("a\r\nb", [Edit(at(2, 1, 1), "x\n")]) == "a\r\nx\r\nb"
    assert apply("b", [Edit(at(1, 1, 1), "x\n")]) == "x\nb"


@pytest.mark.parametrize(
    "edits",
    [
        [Edit(at(9, 1, 1), "x")],
        [Edit(at(1, 9, 9), "x")],
        [Edit(at(0, 1, 1), "x")],
        [Edit(Span(1, 3, 1, 2), "x")],
        [Edit(at(1, 1, 3), "x"), Edit(at(1, 2, 4), "y")],
    ],
)
def test_edits_that_cannot_be_made(edits: list[Edit]) -> None:
    with pytest.raises(ValueError, match=r"."):
        apply("abc\n", edits)


@given(st.text(st.sampled_from("ab \t\u00e9\U0001f9f6\r\n\u2028\x0c"), max_size=40), st.data())
def test_an_edit_changes_its_place_and_no_other(text: str, data: st.DataObject) -> None:
    source = Source(text)
    line = data.draw(st.integers(1, len(source.lines)))
    start = data.draw(st.integers(1, len(source.line(line)) + 1))
    end = data.draw(st.integers(start, len(source.line(line)) + 1))
    there = source.line(line)
    mended = Source(apply(text, [Edit(at(line, start, end), "XY")]))
    assert mended.lines == [
        *source.lines[: line - 1],
        there[: start - 1] + "XY" + there[end - 1 :],
        *source.lines[line:],
    ]
    assert apply(text, [Edit(at(line, start, end), there[start - 1 : end - 1])]) == text


# --- which edits --------------------------------------------------------------------------------------------------


def slip(line: int, text: str = "x", **more: Any) -> Finding:
    edit = (Edit(at(line, 1, 2), text),)
    return Finding("count-mismatch", Severity.ERROR, at(line, 1, 2), "?", edits=more.pop("edits", edit), **more)


def test_sure_and_likely_repairs() -> None:
    two_ways = ((Edit(at(4, 1, 2), "x"),), (Edit(at(4, 3, 4), "y"),))
    result = FileResult("a.md", [], [
        slip(1, sure=True), slip(2), slip(3, sure=True, excused="so"), slip(4, alternatives=two_ways), slip(5, edits=()),
        slip(1, sure=True), slip(6, sure=True, waits="draft"),
    ])  # fmt: skip
    assert [repair.edits[0].span.line for repair in repairs(result)] == [1, 6]
    assert [repair.edits[0].span.line for repair in repairs(result, even_unsure=True)] == [1, 2, 6]


def test_a_repair_that_does_harm_is_left_out() -> None:
    """Two of three repairs help; the one that makes things worse is left, and the others are still made."""

    def check(text: str) -> FileResult:
        lines = Source(text).lines
        found = [
            slip(number, "!" if line == "b" else "x", sure=True)
            for number, line in enumerate(lines, 1)
            if line in "abc"
        ]
        worse = [slip(number, edits=()) for number, line in enumerate(lines, 1) if line == "!" for _ in range(3)]
        return FileResult("a.md", [], found + worse)

    mended = mend("a\nb\nc", check)
    assert mended.text == "x\nb\nx"
    assert (len(mended.repairs), mended.left) == (2, 1)


def test_repairs_that_never_end_are_ended() -> None:
    mended = mend("a", lambda text: FileResult("a.md", [], [slip(1, chr(ord(text[0]) + 1), sure=True)]))
    assert mended.text == "a"


# --- with the checker itself --------------------------------------------------------------------------------------


def check(text: str) -> FileResult:
    return check_text(text, "cap.txt")


@st.composite
def slipped(draw: st.DrawFn) -> str:
    """The cap with one to three of its numbers or words changed, its line ends mixed."""
    import re

    text = CAP
    for _ in range(draw(st.integers(1, 3))):
        places = [match.span() for match in re.finditer(r"\d+|inc|dec|sc\b", text)]
        start, end = draw(st.sampled_from(places))
        old = text[start:end]
        new = draw(st.sampled_from(["inc", "dec", "sc", "scc", ""])) if not old.isdigit() else None
        text = (
            text[:start] + (str(int(old) + draw(st.sampled_from([-1, 1, 2, 10]))) if new is None else new) + text[end:]
        )
    return "".join(line + draw(st.sampled_from(["\n", "\r\n"])) for line in text.splitlines())


@settings(max_examples=60, deadline=None)
@given(slipped(), st.booleans())
def test_never_worse_than_before(text: str, even_unsure: bool) -> None:
    before = check(text)
    mended = mend(text, check, even_unsure)
    after = check(mended.text)
    assert weight(after) <= weight(before)
    assert (mended.text != text) == bool(mended.repairs)
    if mended.repairs:
        assert weight(after) < weight(before)
    changed = {edit.span.line for repair in mended.repairs for edit in repair.edits}
    old, new = text.splitlines(True), mended.text.splitlines(True)
    if len(old) == len(new):
        assert {number for number, (a, b) in enumerate(zip(old, new, strict=True), 1) if a != b} <= changed


@settings(max_examples=15, deadline=None)
@given(slipped())
def test_mending_again_changes_nothing(text: str) -> None:
    once = mend(text, check, True).text
    assert mend(once, check, True).text == once


def test_missing_counts_are_filled_in() -> None:
    """Where the words end: before a full stop and a film mark, and in the second line where there are two."""
    text = (
        "Terms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6.\nRnd 3: (sc, inc) x 6 @ 12:30\n"
        "Rnds 4-5: sc around,\n  join.  \nRnd 6: dec x 9\n"
    )
    mended = mend(text, check)
    assert mended.text == (
        "Terms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12).\nRnd 3: (sc, inc) x 6 (18) @ 12:30\n"
        "Rnds 4-5: sc around,\n  join (18).  \nRnd 6: dec x 9 (9)\n"
    )
    assert all(line.status == "checked" for pattern in check(mended.text).patterns for line in pattern.rounds)


def test_no_count_is_filled_in_beside_a_slip() -> None:
    """The round after it doesn't take what it would say: nothing is sure there."""
    text = "Terms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6\nRnd 3: (sc, inc) x 5 (15)\n"
    assert "Rnd 2: inc x 6\n" in mend(text, check).text


# --- files --------------------------------------------------------------------------------------------------------

SLIP = CAP.replace("inc) x 6 (18)", "inc) x 6 (19)")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def save(data: bytes, *options: str) -> bytes:
    Path("cap.txt").write_bytes(data)
    assert main(["fix", "cap.txt", "--save", "--even-unsure", *options]) == 0
    return Path("cap.txt").read_bytes()


def test_a_diff_and_nothing_written(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("cap.txt").write_text(SLIP)
    assert main(["fix", "cap.txt"]) == 0
    told = capsys.readouterr().out
    assert "-Rnd 3: (sc, inc) x 6 (19)\n+Rnd 3: (sc, inc) x 6 (18)\n" in told
    assert Path("cap.txt").read_text() == SLIP


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_bytes_elsewhere_stay(folder: Path, encoding: str, line_end: str) -> None:
    def written(text: str) -> bytes:
        return ("> L\u00f6we \U0001f981\t \n" + text).replace("\n", line_end).encode(encoding)

    assert save(written(SLIP)) == written(CAP)


def test_no_line_end_at_the_end(folder: Path) -> None:
    assert save(SLIP.rstrip("\n").encode()) == CAP.rstrip("\n").encode()


def test_a_right_file_is_not_touched(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("cap.txt").write_text(CAP)
    os.utime("cap.txt", (1, 1))
    assert main(["fix", "cap.txt", "--save", "--even-unsure"]) == 0
    assert Path("cap.txt").stat().st_mtime == 1
    assert capsys.readouterr().out == "Nothing to change.\n"


def test_a_file_that_is_no_text_is_left(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data = SLIP.replace("Acorn", "L\u00f6we").encode("latin-1")
    Path("cap.txt").write_bytes(data)
    assert main(["fix", "cap.txt", "--save"]) == 2
    assert Path("cap.txt").read_bytes() == data
    assert capsys.readouterr().err == "stitchcheck: cap.txt was left as it is: it is not UTF-8 text.\n"


def test_links_and_rights_are_kept(folder: Path) -> None:
    (folder / "real").mkdir()
    real = folder / "real/cap.txt"
    real.write_text(SLIP)
    real.chmod(0o640)
    (folder / "cap.txt").symlink_to(real)
    assert main(["fix", "cap.txt", "--save", "--even-unsure"]) == 0
    assert (folder / "cap.txt").is_symlink()
    assert real.read_text() == CAP
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert os.listdir(folder / "real") == ["cap.txt"]


def test_a_file_that_changed_meanwhile_is_left(folder: Path) -> None:
    Path("a.md").write_bytes(b"theirs")
    with pytest.raises(OSError, match="it changed while it was checked"):
        replace_file("a.md", b"before", b"after")
    assert Path("a.md").read_bytes() == b"theirs"


def test_a_crash_while_writing_loses_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("a.md").write_bytes(b"before")

    def crash(*_anything: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", crash)
    with pytest.raises(KeyboardInterrupt):
        replace_file("a.md", b"before", b"after")
    assert Path("a.md").read_bytes() == b"before"
    assert os.listdir(folder) == ["a.md"]


@given(st.binary(max_size=60))
def test_bytes_come_back_as_they_were(data: bytes) -> None:
    written = decode(data)
    if written.damage is None:
        assert written.to_bytes(written.text) == data
    else:
        assert written.damage.span.line >= 1
        assert "\ufffd" in written.text


def test_no_edit_is_sure_in_a_round_that_stands_twice() -> None:
    from mkdocs_stitchcheck import check_text

    page = (
        "```crochet\nRnd 1: 30 sc in magic ring (30)\nRnd 2: (sc 3, dec) x 6 (24)\nRnd 2: (sc 3, dec) x 6 (24)\n"
        "Rnd 3: (2 sc, dec) x 6 (18)\n```\n"
    )
    found = check_text(page, "page.md").findings
    assert {finding.rule for finding in found} >= {"round-twice", "stitches-run-out"}
    assert not any(finding.sure for finding in found)

"""One house style: golden pairs, and that no line ever works, makes or states anything else than before."""

from __future__ import annotations

import os
import re
import time
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from case_files import all_cases
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from oracle import generate
from tidy_cases import TidyCase, read_cases, rewrite

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.hosts.commands.tidy import said_of_the_rest
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.settings import HOUSE_STYLES, HouseStyle
from mkdocs_stitchcheck.tidying import Tidied, tidy

REWRITE = os.environ.get("STITCHCHECK_REWRITE") == "1"
SITE = Path(__file__).parent.parent / "site_example" / "docs"
ALL_SET = frozenset(HOUSE_STYLES)
STYLES = [
    HouseStyle(),
    HouseStyle("R", "square", "stitch first", "equals sign", "times", ALL_SET),
    HouseStyle("Round", "round", "number first", "dash", "x", ALL_SET),
    HouseStyle("Rnd", "square", "stitch first", "square brackets", "x", ALL_SET),
]


def check(text: str, path: str = "page.md") -> FileResult:
    return check_text(text, path)


def known(result: FileResult) -> list[tuple[Any, ...]]:
    """What is known of every written line, and where it stands."""
    return [
        (pattern.title, piece.name, line.kind, line.line, line.first, line.last, line.worked, line.uses, line.makes)
        + (line.stated, line.each, line.status, line.trust, line.colors, line.turned, line.stitches)
        for pattern in result.patterns
        for piece in pattern.pieces
        for line in piece.rounds
    ]


def reported(result: FileResult) -> Counter[tuple[Any, ...]]:
    """What is found, but for the one line on style: that is what tidying is there to change."""
    return Counter(
        (one.rule, one.severity, one.span.line, one.piece, one.round, one.excused)
        for one in result.findings
        if one.rule != "style"
    )


def words_of_the_writer(text: str, result: FileResult) -> dict[int, str]:
    """Every line that is no round: header, notes, steps, headings, prose."""
    rounds = {
        part.number
        for pattern in result.patterns
        for line in pattern.rounds
        if line.syntax.kind == "round"
        for part in line.syntax.statement.lines
    }
    return {number: line for number, line in enumerate(text.split("\n"), 1) if number not in rounds}


def holds(text: str, house: HouseStyle, path: str = "page.md") -> Tidied:
    """Tidies *text* and sees to all that is promised of it."""
    before = check(text, path)
    tidied = tidy(text, lambda written: check(written, path), house)
    after = check(tidied.text, path)
    assert known(after) == known(before)
    assert reported(after) == reported(before)
    assert words_of_the_writer(tidied.text, before) == words_of_the_writer(text, before)
    again = tidy(tidied.text, lambda written: check(written, path), house)
    assert again.text == tidied.text
    assert not again.changed
    assert again.left == tidied.left
    return tidied


# --- golden pairs -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("case", list(read_cases()), ids=lambda case: case.name)
def test_case(case: TidyCase) -> None:
    tidied = holds(case.before, case.house, "pattern.txt")
    stays = "".join(f"{sentence}\n" for sentence in said_of_the_rest(tidied))
    if REWRITE and (tidied.text, stays) != (case.after, case.stays):
        rewrite(case, tidied.text, stays)
        return
    assert tidied.text == case.after
    assert stays == case.stays


# --- always the same making ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("house", STYLES[:2], ids=lambda house: house.counts)
@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.name)
def test_the_cases_of_the_check(case: Any, house: HouseStyle) -> None:
    holds(case.text, house, case.path)


@pytest.mark.parametrize("house", STYLES, ids=lambda house: house.counts)
@pytest.mark.parametrize("page", sorted(SITE.rglob("*.md")), ids=lambda page: page.name)
def test_the_pages_of_the_site(page: Path, house: HouseStyle) -> None:
    assert not holds(page.read_text(encoding="utf-8"), house).left


@pytest.mark.parametrize("house", STYLES, ids=lambda house: house.counts)
@pytest.mark.parametrize("seed", range(12))
def test_right_patterns_at_random(seed: int, house: HouseStyle) -> None:
    case = generate(seed, 9)
    tidied = holds(case.text, house)
    assert len(tidied.left) <= len(case.expected) // 10


def test_most_of_a_pattern_is_tidied() -> None:
    """Leaving everything as it is would keep every promise, and be of no use."""
    changed = left = 0
    for seed in range(20, 30):
        tidied = tidy(generate(seed, 9).text, check, STYLES[1])
        changed, left = changed + len(tidied.changed), left + len(tidied.left)
    assert left * 50 <= changed


SIGNS = "()[]{}*,;.:-=x6 2\u00d7\u2013\tsc inc dec \\*`&times; RRnd"


@st.composite
def mistyped(draw: st.DrawFn) -> str:
    """A page of the oracle in which some places were typed anew."""
    text = generate(draw(st.integers(0, 40)), 4).text
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(st.text(st.sampled_from(SIGNS), max_size=4)) + text[at + draw(st.integers(0, 3)) :]
    return text


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mistyped(), st.sampled_from(STYLES))
def test_whatever_was_typed(text: str, house: HouseStyle) -> None:
    holds(text, house)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from(["Rnd 2: ", "(", ")", "*", "sc", " ", "x 6", "\n", ", ", "[", "]", "12", "> ", "inc"])))
def test_any_text(words: list[str]) -> None:
    holds("".join(words), STYLES[1], "pattern.txt")


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 2: " + "(sc, inc) x6, " * 1500,
        "Rnd 2: " + "(" * 60 + "sc,inc" + ") x1" * 60,
        "Rnd" + " " * 20000 + "2" + " " * 20000 + "-" + " " * 20000 + "inc" + " " * 20000 + "x6" + " " * 20000 + "(12)",
        "Rnd 2: " + "sc  ,  " * 3000,
        "Rnd 2: " + "SC " * 3000 + "(3000)",
        "Rnd 2: " + "*sc,inc* x2 " * 1000,
    ],
    ids=["repeats", "nested", "spaces", "commas", "capitals", "stars"],
)
def test_hostile_rounds_cost_no_more_than_reading_them(line: str) -> None:
    """Tidying checks a text a few times: it may take as many times as long, and no power of it (ratio in one run)."""
    text = f"Rnd 1: 6 sc in magic ring (6)\n{line}\n"
    begun = time.perf_counter()
    check(text, "a.txt")
    once = time.perf_counter() - begun
    begun = time.perf_counter()
    tidy(text, lambda written: check(written, "a.txt"), HouseStyle())
    assert time.perf_counter() - begun < 60 * once + 2


# --- what goes wrong is told ----------------------------------------------------------------------------------------


def test_a_line_that_would_be_read_otherwise_stays() -> None:
    """Here a check is made to read square brackets otherwise: only the round that has some is left."""
    text = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc,inc) x6 (18)\n"

    def strange(written: str) -> FileResult:
        result = check(written, "a.txt")
        for pattern in result.patterns:
            for line in pattern.rounds:
                if "[" in line.syntax.statement.text:
                    line.makes = (99,)
        return result

    tidied = tidy(text, strange, HouseStyle(brackets="square", chosen=frozenset({"brackets"})))
    assert tidied.text == "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc,inc) x6 (18)\n"
    assert tidied.left == (3,)
    assert said_of_the_rest(tidied) == ["Line 3 stays as written: in the house style it would be read in another way."]


def test_where_everything_would_be_read_otherwise_all_stays() -> None:
    text = "Rnd 1: 6 sc in magic ring [6]\nRnd 2: inc x6  (12)\nRnd 3: sc around (12)\n"

    def strange(written: str) -> FileResult:
        result = check(written, "a.txt")
        if written != text:
            result.patterns[0].title = "Another"
        return result

    tidied = tidy(text, strange, HouseStyle())
    assert tidied.text == text
    assert tidied.left == (1, 2)


# --- the command --------------------------------------------------------------------------------------------------

UNTIDY = "Rnd 1: 6 sc in magic ring (6)\nR2 - inc x6 = 12\n> A  note\nRnd 3: (sc,inc)x6 (18)\nRnd 4: blorp (18)\n"
TIDY = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n> A  note\nRnd 3: (sc, inc) x 6 (18)\nRnd 4: blorp (18)\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_diff_and_nothing_written(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("cap.txt").write_text(UNTIDY)
    assert main(["tidy", "cap.txt"]) == 0
    assert capsys.readouterr().out == (
        "cap.txt (--save writes this)\n--- cap.txt    as it is\n+++ cap.txt    tidy\n@@ -1,6 +1,6 @@\n"
        " Rnd 1: 6 sc in magic ring (6)\n-R2 - inc x6 = 12\n+Rnd 2: inc x 6 (12)\n > A  note\n"
        "-Rnd 3: (sc,inc)x6 (18)\n+Rnd 3: (sc, inc) x 6 (18)\n Rnd 4: blorp (18)\n \n"
        "cap.txt: Line 5 stays as written: I can't read all of it. stitchcheck check says why.\n"
    )
    assert Path("cap.txt").read_text() == UNTIDY


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_bytes_elsewhere_stay(folder: Path, encoding: str, line_end: str) -> None:
    def written(text: str) -> bytes:
        return ("> L\u00f6we \U0001f981\t \n" + text).replace("\n", line_end).encode(encoding)

    Path("cap.txt").write_bytes(written(UNTIDY))
    assert main(["tidy", "--save", "cap.txt"]) == 0
    assert Path("cap.txt").read_bytes() == written(TIDY)


def test_a_tidy_file_is_not_touched(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("cap.txt").write_text(TIDY.replace("Rnd 4: blorp (18)\n", ""))
    os.utime("cap.txt", (1, 1))
    assert main(["tidy", "--save", "cap.txt"]) == 0
    assert Path("cap.txt").stat().st_mtime == 1
    assert capsys.readouterr().out == "Nothing to change.\n"


def test_settings_of_the_project(folder: Path) -> None:
    Path("pyproject.toml").write_text('[tool.stitchcheck.house_style]\nlabels = "Round"\nrepeats = "times"\n')
    Path("a.md").write_text("```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n")
    assert main(["tidy", "--save", "."]) == 0
    assert Path("a.md").read_text() == "```crochet\nRound 1: 6 sc in magic ring (6)\nRound 2: inc 6 times (12)\n```\n"


def test_a_file_that_is_no_text_is_left(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data = ("> L\u00f6we\n" + UNTIDY).encode("latin-1")
    Path("cap.txt").write_bytes(data)
    assert main(["tidy", "cap.txt", "--save"]) == 2
    assert Path("cap.txt").read_bytes() == data
    assert capsys.readouterr().err == "stitchcheck: cap.txt was left as it is: it is not UTF-8 text.\n"


def test_lines_that_stay_are_named() -> None:
    assert said_of_the_rest(Tidied("", (), (7, 9), tuple(range(1, 21)))) == [
        "Lines 7 and 9 stay as written: in the house style they would be read in another way.",
        f"Lines {', '.join(map(str, range(1, 13)))} and 8 more stay as written: "
        + "I can't read all of them. stitchcheck check says why.",
    ]


def test_prose_of_the_page_stays() -> None:
    page = "R2 - [sc,inc]x6 is prose.\n\n> ```crochet\n> Rnd 1: 6 sc in magic ring [6]\n> Rnd 2: inc x6 (12)\n> ```\n"
    assert tidy(page, check, HouseStyle()).text == page.replace("[6]", "(6)").replace("x6 (", "x 6 (")
    assert re.match(r"R2 - \[", page)

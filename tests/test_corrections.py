"""What changed between two states of a pattern: planted changes, each told in its kind; mere words are no change."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.corrections import Compared, compare, paragraph
from mkdocs_stitchcheck.corrections.dates import corrected_on
from mkdocs_stitchcheck.corrections.sequence import sequence
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.retold import retold
from mkdocs_stitchcheck.settings import Settings

SITE = Path(__file__).parent.parent / "site_example" / "docs"

OLD = """```crochet
Title: Pip
Terms: US
Yarn: light (3), 50 g = 125 m
Color A: red, 10 g
Hook: 2.5 mm
Notions: 8 mm safety eyes (2)

# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-6: sc around (18)
> It looks like a bowl.
Rnd 7: *sc 4, dec; rep from * around (15)
Rnd 8: (3 sc, dec) x 3 (12)
Insert eyes between Rnds 4 and 5.
Rnd 9: dec x 6 (6)
Fasten off, leaving a 20 cm tail.

# Ear (make 2)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: sc in each st (6)
```
"""

GERMAN = """```crochet
Titel: Pip
Terms: de
Yarn: light (3), 50 g = 125 m
Color A: rot, 10 g
Hook: 2.5 mm
Notions: 2 Sicherheitsaugen, 8 mm

# Körper (color A)
Rd 1: 6 fM in Fadenring (6)
Rd 2: 6 Zun (12)
Rd 3: (1 fM, Zun) x 6 (18)
Rd 4-6: fM in jede M (18)
Rd 7: (4 fM, Abn) x 3 (15)
Rd 8: (3 fM, Abn) x 3 (12)
Augen zwischen Rd 4 und 5 befestigen.
Rd 9: 6 Abn (6)
Faden abschneiden und 20 cm hängen lassen.

# Ohr (2x)
Rd 1: 6 fM in Fadenring (6)
Rd 2: 6 fM (6)
```
"""


def result(text: str) -> FileResult:
    return check_text(text, "pip.md")


def between(new: str, old: str = OLD) -> Compared:
    [compared] = compare(result(old), result(new))
    return compared


def edited(*pairs: tuple[str, str]) -> str:
    text = OLD
    for before, after in pairs:
        assert before in text
        text = text.replace(before, after, 1)
    return text


@pytest.mark.parametrize(
    ("before", "after", "kind", "said"),
    [
        ("(12)\nRnd 3", "(13)\nRnd 3", "count", "Body, Rnd 2: the count is 13, not 12."),
        ("(3 sc, dec) x 3", "(dec, 3 sc) x 3", "round", "Body, Rnd 8 is now “(dec, 3 sc) x 3 (12)”; it was “(3 sc, dec) x 3 (12)”."),
        ("Rnds 4-6: sc around", "Rnds 4-6: BLO sc around", "round", "Body, Rnds 4-6 is now “BLO sc around (18)”"),
        ("Rnd 2: sc in each st (6)\n```", "Rnd 2: sc in each st (6)\nRnd 3: sc around (6)\n```", "new", "Ear, Rnd 3 is new: “sc around (6)”."),
        ("Rnd 2: sc in each st (6)\n```", "```", "gone", "Ear, Rnd 2 is no longer there: “sc in each st (6)”."),
        ("make 2", "make 4", "make", "Ear: make 4, not 2."),
        ("Hook: 2.5 mm", "Hook: 3 mm", "header", "Hook is now “3 mm”, not “2.5 mm”."),
        ("Color A: red, 10 g", "Color A: red, 20 g", "header", "Color A is now “red, 20 g”, not “red, 10 g”."),
        ("50 g = 125 m", "50 g = 105 m", "header", "Yarn is now"),
        ("Hook: 2.5 mm", "Hook: 2.5 mm\nSizes: S, M", "header", "Sizes is new: “S, M”."),
        ("Rnds 4 and 5.", "Rnds 5 and 6.", "step", "the step “Insert eyes between Rnds 4 and 5” is now “Insert eyes between Rnds 5 and 6”."),
        ("Fasten off, leaving a 20 cm tail.\n", "", "gone", "Body no longer has the step “Fasten off, leaving a 20 cm tail”."),
        ("# Ear (make 2)", "# Nose\nRnd 1: 6 sc in magic ring (6)\n\n# Ear (make 2)", "new", "The piece Nose is new."),
    ],
)  # fmt: skip
def test_a_planted_change_is_told_in_its_kind_and_alone(before: str, after: str, kind: str, said: str) -> None:
    compared = between(edited((before, after)))
    assert [change.kind for change in compared.changes] == [kind], compared.changes
    assert said in paragraph(compared)
    assert compared.words == 0


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("Rnd 2: inc x 6", "Rnd 2: 2 sc in each st around"),
        ("Rnd 3: (sc, inc) x 6", "Rnd 3: *1 sc, 2 sc in next st; rep from * to end"),
        ("Rnd 3: (sc, inc) x 6", "Round 3: *sc, inc; rep from * 5 more times"),
        ("Rnd 7: *sc 4, dec; rep from * around", "Rnd 7: (sc in next 4 sts, sc2tog) 3 times"),
        ("Rnd 9: dec x 6", "Rnd 9: dec around"),
        ("Rnds 4-6: sc around (18)", "Rnds 4-5: sc around (18)\nRnd 6: 18 sc (18)"),
        ("> It looks like a bowl.", "> By now it looks like a bowl."),
        ("Hook: 2.5 mm", "Hook: 2.5 mm (US C-2)"),
        ("Fasten off, leaving a 20 cm tail.", "Fasten off and leave a tail of 20 cm."),
        ("# Ear (make 2)", "# Ears (make 2)"),
    ],
)
def test_other_words_for_the_same_making_are_no_change(before: str, after: str) -> None:
    compared = between(edited((before, after)))
    assert compared.changes == []
    assert compared.same_making
    told = paragraph(compared)
    assert "what you make by them is the same" in told or told == "Nothing changed in what you make."


def test_a_round_put_in_between_moves_the_others_and_is_said_once() -> None:
    text = OLD
    for number in (9, 8, 7):
        text = text.replace(f"Rnd {number}:", f"Rnd {number + 1}:")
    text = text.replace("Rnd 8: *sc 4", "Rnd 7: sc, inc, 16 sc (19)\nRnd 8: *sc 4")
    compared = between(text)
    assert (compared.changes[0].kind, compared.changes[0].label) == ("new", "Rnd 7")
    assert "what was Rnds 7-9 is now Rnds 8-10, otherwise the same" in paragraph(compared)


def test_nothing_changed() -> None:
    assert paragraph(between(OLD)) == "Nothing changed in what you make."


def test_version_and_date_open_the_paragraph() -> None:
    text = edited(("Hook: 2.5 mm", "Hook: 3 mm\nVersion: 2\nCorrected 14 March 2026: the hook."))
    assert paragraph(between(text)) == "**Corrected 14 March 2026 (version 2).** Hook is now “3 mm”, not “2.5 mm”."


@pytest.mark.parametrize(
    ("lines", "date"),
    [
        (["Corrected 2026-03-20: Rnd 7 makes 12."], "2026-03-20"),
        (["Corrected on 14 March 2026: the hook."], "14 March 2026"),
        (["Corrected: 2026-03-21, the hook"], "2026-03-21"),
        (["Corrected 2026-04-01: b", "Corrected 2026-03-20: a"], "2026-04-01"),
        (["Corrected: nothing yet"], ""),
        (["Corrections (March 5, 2026): the ears"], ""),
    ],
)
def test_the_date_of_a_correction(lines: list[str], date: str) -> None:
    found = result("```crochet\n" + "\n".join(lines) + "\nRnd 1: 6 sc in magic ring (6)\n```\n")
    assert [finding.rule for finding in found.findings] == []
    assert corrected_on(found.patterns[0].syntax.header) == date


def test_another_language_is_the_same_making_in_other_words() -> None:
    compared = between(GERMAN)
    assert compared.changes == []
    assert paragraph(compared).endswith("The same making in other words: US terms before, German now.")


def test_another_language_names_the_rounds_that_differ() -> None:
    told = paragraph(between(GERMAN.replace("(3 fM, Abn) x 3", "(Abn, 3 fM) x 3").replace("2x", "3x")))
    assert "Besides the words, this changed: Körper, Rnd 8 is now “(Abn, 3 fM) x 3 (12)”" in told
    assert "Ohr: make 3, not 2." in told


@pytest.mark.parametrize("path", sorted((SITE / "patterns").glob("*.md")), ids=lambda path: path.stem)
def test_a_pattern_told_in_the_other_terms_is_the_same_making(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    before = result(text)
    for to in ("UK", "US"):
        after = retold(before, text, to, lambda written, terms: check_text(written, "pip.md", Settings(terms=terms)))
        for compared in compare(before, after.result):
            assert compared.changes == []


def test_the_order_of_stitches_is_told_however_they_are_written() -> None:
    def of(words: str, uses: int) -> object:
        page = f"```crochet\nTerms: US\nRnd 1: {uses} sc in magic ring\nRnd 2: {words}\n```\n"
        line = result(page).patterns[0].rounds[1]
        return sequence(line.syntax.steps, line.uses[0])

    once = of("(sc, inc) x 6", 12)
    assert once is not None
    for words in ("*sc, inc; rep from * around", "[1 sc, 2 sc in next st] 6 times", "*sc in next st, inc in next st* 6 times"):
        assert of(words, 12) == once
    assert of("(inc, sc) x 6", 12) != once
    assert of("sc 4, (2 hdc, dc) in next st, sc to end", 12) == of("4 sc, (2 hdc, dc) in next st, 7 sc", 12)


def test_the_command_reads_files_and_states_that_git_keeps(tmp_path: Path, capsys: pytest.CaptureFixture[str],
                                                           monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    git = ["git", "-c", "user.name=A", "-c", "user.email=a@example.org"]
    Path("docs").mkdir()
    Path("docs/pip.md").write_text(OLD, encoding="utf-8")
    for command in (["init", "-q"], ["add", "."], ["commit", "-qm", "one"]):
        subprocess.run([*git, *command], check=True, capture_output=True)
    Path("docs/pip.md").write_text(edited(("make 2", "make 4")), encoding="utf-8")
    assert main(["corrections", "HEAD:docs/pip.md", "docs/pip.md"]) == 0
    assert capsys.readouterr().out == "**Corrected.** Ear: make 4, not 2.\n"
    monkeypatch.chdir(tmp_path / "docs")
    assert main(["corrections", "HEAD:pip.md", "pip.md"]) == 0
    assert "make 4" in capsys.readouterr().out
    for missing in ("HEAD:nothing.md", "nowhere:pip.md", "nothing.md", "--version:pip.md"):
        assert main(["corrections", "--", missing, "pip.md"]) == 2
        assert f"{missing} can't be read" in capsys.readouterr().err

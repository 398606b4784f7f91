"""A writer's words put into the other terms and back: the same stitches, and nothing else changed."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from case_files import all_cases

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.language import vocabulary
from mkdocs_stitchcheck.language.swapped_terms import own_words, swapped
from mkdocs_stitchcheck.render.switching import switched_words
from mkdocs_stitchcheck.render.words import clean
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.retold import Retold, can_be_retold, retold
from mkdocs_stitchcheck.settings import Settings

SITE = Path(__file__).parent.parent / "site_example" / "docs"


# Craft Yarn Council, Standards & Guidelines for Knitting and Crochet (2018): US / UK differences (from memory).
@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("sc", "dc"), ("hdc", "htr"), ("dc", "tr"), ("tr", "dtr"), ("dtr", "trtr"), ("sl st", "sl st"),
        ("single crochet", "double crochet"), ("half double crochet", "half treble"), ("double crochet", "treble"),
        ("treble crochet", "double treble"), ("double treble crochet", "triple treble"),
        ("sc2tog", "dc2tog"), ("FPdc", "FPtr"), ("gauge", "tension"), ("skip", "miss"), ("yo", "yoh"),
    ],
)  # fmt: skip
def test_each_name_has_its_other_name(us: str, uk: str) -> None:
    assert swapped(us, "US", "UK") == uk
    if us not in ("gauge",):
        back = swapped(f"{uk} 2 sts", "UK", "US")
        assert back == f"{us} 2 sts"


@pytest.mark.parametrize(("system", "to"), [("US", "UK"), ("UK", "US")])
def test_every_word_of_the_vocabulary_names_the_same_stitch_in_the_other_terms(system: str, to: str) -> None:
    known = vocabulary.words(to)
    lost = []
    for words, stitch in vocabulary.words(system).items():
        name = " ".join(words)
        if swapped(name, system, to) == name and vocabulary.words(to).get(words) == stitch:
            continue
        if known.get(vocabulary.words_of(swapped(name, system, to))) != stitch:
            lost.append((name, swapped(name, system, to)))
    # Letters set apart ("s c") stand for plain stitches alone, in no other word; rscs and bsc are US alone; "half double" is no UK name.
    allowed = ("rscs", "bsc", "extended treble crochet", *vocabulary.RAISED)
    pairs = [pair for pair in lost if pair[0] not in allowed and not re.search(r"\b\w \w\b", pair[0])]
    assert [pair for pair in pairs if system == "US" or " ".join(pair).find("half double") < 0] == []


def test_a_sentence_keeps_all_its_other_words() -> None:
    us = "Rnd 3: *2sc, BLOsc in next dc; rep from * 5 times, Hdc 2, sc3tog; SC in the last (see https://sc.example/dc/sc)"
    uk = "Rnd 3: *2dc, BLOdc in next tr; rep from * 5 times, Htr 2, dc3tog; DC in the last (see https://sc.example/dc/sc)"
    assert swapped(us, "US", "UK") == uk
    assert swapped(uk, "UK", "US") == us


def test_one_also_misses_a_bus() -> None:
    assert swapped("Miss 2 sts. If you miss the bus, crochet on.", "UK", "US") == "Skip 2 sts. If you miss the bus, crochet on."


def test_a_word_with_a_meaning_of_its_own_stays_and_is_not_written_for_another() -> None:
    result = check_text("```crochet\nTerms: US\nAbbreviations: dc = decrease; sc = single crochet\nColor TR: red\n\n"
                        "Rnd 1: 6 sc in magic ring (6)\n```\n", "a.md")  # fmt: skip
    own = own_words(result.patterns[0].syntax.header, "US")
    assert own == {"dc", "tr"}
    assert swapped("sc 2, dc", "US", "UK", own) == "double crochet 2, dc"


def test_other_languages_are_left_alone() -> None:
    assert swapped("sc 2", "de", "UK") == "sc 2"


PAGE = """# A purse

Work 6 sc here, as I say in prose.

```crochet
Title: Cockle purse
Terms: US
Hook: 3 mm
Gauge: 20 sc x 22 rnds = 10 cm
Special stitch: shell = 5 dc in next st; uses 1, makes 5, yarn 5 dc

# Purse
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12 sc)
Rnd 3: *sc in next st, 2 dc in next st; rep from * around (18)
> Count your sc: there are six, and twelve dc.
Rnd 4: sk 1, hdc 2, skip next st, BLO sc in each st around (16)
Rnd 5: (sc2tog, 2 sc) x 4, change to white in last yo (12)
>> 12 sc are right here
Fasten off, and sew with the wrong side of the sc out.
```
"""


def _retold(text: str, to: str, terms: str = "") -> Retold:
    def check(written: str, site: str) -> FileResult:
        return check_text(written, "purse.md", Settings(terms=site))

    return retold(check(text, terms), text, to, check)


def test_a_whole_page_is_told_in_the_other_terms_and_back() -> None:
    uk = _retold(PAGE, "UK")
    assert uk.left == ()
    assert "Terms: UK" in uk.text and "Tension: 20 dc x 22 rnds" in uk.text
    assert "Rnd 4: miss 1, htr 2, miss next st, BLO dc in each st around (16)" in uk.text
    assert "shell = 5 tr in next st; uses 1, makes 5, yarn 5 tr" in uk.text
    assert "> Count your dc: there are six, and twelve tr." in uk.text
    assert "Work 6 sc here" in uk.text and ">> 12 sc are right here" in uk.text  # prose and private notes are no pattern
    assert [line.makes for line in uk.result.patterns[0].rounds] == [
        line.makes for line in check_text(PAGE, "purse.md").patterns[0].rounds
    ]
    us = _retold(uk.text, "US")
    assert us.text == PAGE.replace("sk 1", "skip 1")


def test_terms_that_only_the_site_declares_are_swapped_too() -> None:
    page = "```crochet\n# Cap\nRnd 1: 6 dc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n"
    us = _retold(page, "US", terms="UK")
    assert "Rnd 1: 6 sc in magic ring (6)" in us.text
    assert not [finding for finding in us.result.findings if finding.rule == "mixed-terms"]


def test_a_line_that_would_be_worked_otherwise_stays_and_is_named() -> None:
    page = "```crochet\nTerms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: 6 rscs (6)\n```\n"
    uk = _retold(page, "UK")
    assert uk.left == (4,)
    assert "Rnd 2: 6 rscs (6)" in uk.text


@pytest.mark.parametrize("path", sorted(SITE.rglob("*.md")), ids=lambda path: path.stem)
def test_every_page_of_the_example_site_can_be_told_in_both_terms(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    before = check_text(text, "page.md")
    for to in ("UK", "US"):
        after = _retold(text, to)
        assert after.left == ()
        assert [line.uses for p in after.result.patterns for line in p.rounds] == [
            line.uses for p in before.patterns for line in p.rounds
        ]


_APART = re.compile(r"\b([hdst]) (?=(?:[dt] )?[cr]\b)", re.IGNORECASE)  # "d c" comes back as "dc"
# Two of the US words for passing over a stitch have one UK word, so that only one of them can come back.
_ONE_WORD = {"sk": "skip", "miss": "skip"}
_WORDS = re.compile(r"\w+|\W")


def _right_pages() -> list[tuple[str, str, str]]:
    """(name, text, terms) of every case and page whose patterns are in one of the two terms and have no error."""
    texts = [(f"{case.file.stem}: {case.title}", case.text) for case in all_cases()]
    texts += [(path.name, path.read_text(encoding="utf-8")) for path in sorted(SITE.rglob("*.md"))]
    found = []
    for name, text in texts:
        result = check_text(text, "page.md")
        systems = {pattern.syntax.system for pattern in result.patterns if can_be_retold(pattern)}
        if len(systems) == 1 and not any(finding.severity is Severity.ERROR for finding in result.findings):
            found.append((name, text, systems.pop()))
    return found


def test_there_and_back_gives_every_pattern_s_own_words() -> None:
    looked = 0
    for name, text, system in _right_pages():
        other = "UK" if system == "US" else "US"
        there = _retold(text, other)
        if there.left:
            continue  # a line that can't be told in the other terms: nothing is printed from it
        back = _retold(there.text, system, terms=other)
        assert back.left == (), name
        ours, theirs = _WORDS.findall(_APART.sub(r"\1", text)), _WORDS.findall(_APART.sub(r"\1", back.text))
        assert len(ours) == len(theirs), name
        for one, two in zip(ours, theirs, strict=True):
            assert one == two or _ONE_WORD.get(one.lower()) == two.lower(), (name, one, two)
        again = _retold(back.text, other)
        assert _retold(again.text, system, terms=other).text == back.text, name
        looked += 1
    assert looked > 400


def test_what_the_page_s_switch_shows_is_what_the_sheet_in_the_other_terms_says() -> None:
    """The page swaps single words, the sheet whole patterns; of every round both must say the same."""
    looked = 0
    for name, text, system in _right_pages():
        other = "UK" if system == "US" else "US"
        there = _retold(text, other)
        before = check_text(text, "page.md")
        if there.left or len(before.patterns) != len(there.result.patterns):
            continue
        for pattern, told in zip(before.patterns, there.result.patterns, strict=True):
            words = switched_words(pattern)
            shown = _switched_as_by_the_script(words)
            for line, same in zip(pattern.rounds, told.rounds, strict=True):
                assert shown(clean(line.syntax.statement.written)) == clean(same.syntax.statement.written), name
                looked += 1
    assert looked > 2_000


def _switched_as_by_the_script(words: dict[str, str]) -> Callable[[str], str]:
    """What ``stitchcheck.js`` does to a text, word for word."""
    if not words:
        return str
    longest = sorted(words, key=len, reverse=True)
    find = re.compile(rf"(^|[\W\d_])({'|'.join(map(re.escape, longest))})(?![^\W\d_])")
    return lambda text: find.sub(lambda found: found[1] + words[found[2]], text)


@pytest.mark.parametrize(("terms", "label", "other"), [("UK", "Tension", "Gauge"), ("US", "Gauge", "Tension")])
def test_the_line_of_the_gauge_changes_its_name_both_ways(terms: str, label: str, other: str) -> None:
    page = f"```crochet\nTerms: {terms}\n{label}: 20 dc x 22 rnds = 10 cm\nRnd 1: 6 dc in magic ring (6)\n```\n"
    assert switched_words(check_text(page, "page.md").patterns[0])[label] == other


def test_what_is_said_of_the_terms_in_a_sentence_stays_a_sentence() -> None:
    page = "```crochet\nTitle: Newt\nAll instructions are written in UK terms.\nRnd 1: 6 dc in magic ring (6)\n```\n"
    assert "All instructions are written in US terms." in _retold(page, "US").text


def test_a_pattern_in_a_language_that_is_not_known_is_not_retold() -> None:
    page = "```crochet\nTerms: ja\n# Ball\nRnd 1: 6 sc in magic ring (6)\n```\n"
    assert _retold(page, "UK").text == page


def test_another_language_stays_as_it_is() -> None:
    page = "```crochet\nTerms: de\nRd 1: 6 fM in Fadenring (6)\n```\n"
    assert _retold(page, "UK").text == page


def test_a_pattern_s_own_abbreviations_are_read_in_the_terms_that_only_the_site_declares() -> None:
    page = "```crochet\nAbbreviations: pt = 3 dc in one stitch; rdc = reverse dc\n# Ball\nRnd 1: 6 dc in magic ring (6)\nRnd 2: rdc around (6)\n```\n"
    special = check_text(page, "page.md", Settings(terms="UK")).patterns[0].syntax.header.special
    assert special["rdc"].stitch is not None and special["rdc"].stitch.key == "rsc"  # UK double crochet is US single

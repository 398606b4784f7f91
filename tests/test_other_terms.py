"""Other languages and letter codes: declared, never guessed; every place leads back to the writer's own words."""

from __future__ import annotations

import re

import pytest
from case_files import all_cases

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.language.normalise import normalise
from mkdocs_stitchcheck.language.other_terms import OTHER_TERMS
from mkdocs_stitchcheck.language.translation import Translator
from mkdocs_stitchcheck.language.translators import translators
from mkdocs_stitchcheck.source import BlockLine

ALL_CASES = all_cases()
WHOLE = [case for case in ALL_CASES if "a whole" in case.title and case.file.stem == "other_languages"]


def _lines(text: str) -> list[BlockLine]:
    return [BlockLine(number, 1, line) for number, line in enumerate(text.splitlines(), 1)]


def _undeclared(text: str) -> bool:
    return not re.search(r"^\s*Terms:\s*(?!US|UK)", text, re.MULTILINE)


def test_nothing_is_translated_without_a_declaration() -> None:
    """Every pattern of every case that declares no other terms is read without any table."""
    undeclared = [case.text for case in ALL_CASES if _undeclared(case.text)]
    assert len(undeclared) > 200
    assert all(reader is None for text in undeclared for reader in translators([_lines(text)]))


def test_a_pattern_in_us_terms_is_read_alike_with_and_without_the_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    def told(text: str) -> str:
        result = check_text(text, "page.md")
        return repr([[(line.uses, line.makes, line.status) for p in pattern.pieces for line in p.rounds]
                     for pattern in result.patterns]) + repr([(f.rule, f.span, f.message) for f in result.findings
                                                              if f.rule != "terms-unknown"])

    texts = [case.text for case in ALL_CASES if _undeclared(case.text)]
    before = [told(text) for text in texts]
    monkeypatch.setattr("mkdocs_stitchcheck.language.translators.OTHER_TERMS", {})
    assert [told(text) for text in texts] == before


@pytest.mark.parametrize("code", sorted(OTHER_TERMS))
def test_every_number_keeps_its_own_place(code: str) -> None:
    """The digits of a reading stand for the same digits in the writer's text, unless a phrase brought its own."""
    translator = Translator(OTHER_TERMS[code])
    for case in ALL_CASES:
        for line in case.text.splitlines():
            text = normalise(line)
            reading = translator.line(text)
            if reading is None:
                continue
            assert "".join(reading.text[s.start : s.end] for s in reading.stretches) == reading.text
            for stretch in reading.stretches:
                assert 0 <= stretch.first <= stretch.last <= len(text)
                if stretch.exact:
                    assert reading.text[stretch.start : stretch.end] == text[stretch.first : stretch.last]


@pytest.mark.parametrize("code", sorted(OTHER_TERMS))
def test_the_table_names_its_stitches_in_words_that_it_reads(code: str) -> None:
    terms = OTHER_TERMS[code]
    translator = Translator(terms)
    for key, (word, _name) in terms.names.items():
        if key in ("sc", "hdc", "dc", "tr", "ch", "inc", "dec"):
            assert translator.meaning(word).lower() == key, f"{word} is read as {translator.meaning(word)}"


@pytest.mark.parametrize("case", WHOLE, ids=lambda case: case.title)
def test_slips_in_whole_patterns_are_found(case) -> None:  # type: ignore[no-untyped-def]
    """Every number of every round, one more: each is found at its round or the one after it."""
    lines = case.text.splitlines()
    tried = missed = 0
    for at, line in enumerate(lines):
        label = re.match(r"\s*(?:R\w*\.? ?\d+(?:-R?\d+)?|\d+\. Rd):", line)
        if label is None or ". M" in line:
            continue
        for number in re.finditer(r"\d+", line[label.end() :]):
            start, end = number.start() + label.end(), number.end() + label.end()
            changed = line[:start] + str(int(number[0]) + 1) + line[end:]
            result = check_text("\n".join([*lines[:at], changed, *lines[at + 1 :]]), "page.md")
            errors = [finding for finding in result.findings if finding.severity is Severity.ERROR]
            tried += 1
            missed += not any(finding.span.line in (at + 1, at + 2) for finding in errors)
    assert tried >= 50
    assert missed == 0


@pytest.mark.parametrize("length", [2_000, 20_000])
def test_a_long_line_is_read_in_time_that_grows_with_it(length: int) -> None:
    """No phrase is tried more often than the table has phrases: the work is counted, not timed."""
    translator = Translator(OTHER_TERMS["de"])
    calls = 0
    phrasebook = translator.phrasebook
    plain = phrasebook._fits

    def counted(*given):  # type: ignore[no-untyped-def]
        nonlocal calls
        calls += 1
        return plain(*given)

    phrasebook._fits = counted  # type: ignore[method-assign]
    translator.line("Rd 4: " + "in die nächste M " * (length // 17))
    assert calls < 150 * length / 3

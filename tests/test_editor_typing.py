"""Patterns typed and deleted in an editor: every half-typed state has its answers, all at places inside the text."""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from editor_client import URI
from lsprotocol import types
from pygls.workspace import PositionCodec

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.editor import completing, counts, fixes, hovering, outline, pace, problems, renaming
from mkdocs_stitchcheck.editor.page import Page
from mkdocs_stitchcheck.results import FileResult

SITE = Path(__file__).parent.parent / "site_example" / "docs"
PAGES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(SITE.rglob("*.md")) if "```crochet" in path.read_text(encoding="utf-8")}
SHORT = min(PAGES, key=lambda name: len(PAGES[name]))
YARN = "\U0001f9f6"  # two units of UTF-16


def with_emoji(text: str) -> str:
    """*text* with a sign of two UTF-16 units behind every second round's label, and before what follows in other lines."""
    text = re.sub(r"(?m)^((?:Rnd|Row) \d*[02468]: )", rf"\1{YARN} ", text)
    return re.sub(r"(?m)^(# \w+|Fasten off)", rf"{YARN} \1", text)


def answers(text: str, caret: int) -> None:
    """Everything an editor may ask with the caret behind *caret* characters of *text*, and what must hold of it."""

    def check(other: str) -> FileResult:
        return check_text(other, "cap.md")

    page = Page(URI, text, check(text), check, PositionCodec("utf-16"))
    lines = [line.encode("utf-16-le") for line in text.split("\n")]
    before = text[:caret]
    line = before.count("\n")
    here = types.Position(line, len(before[before.rfind("\n") + 1 :].encode("utf-16-le")) // 2)
    assert page.column_of(here) == caret - before.rfind("\n")

    ranges: list[types.Range] = []
    for found in problems.problems(page):
        assert found.code != "checker-fault", (found.message, before[-60:])
        ranges += [found.range, *(one.location.range for one in found.related_information or ())]
    hints = counts.hints(page, 1, len(lines))
    ranges += [types.Range(hint.position, hint.position) for hint in hints]
    ranges += outlined(outline.outline(page))
    for action in fixes.fixes(page, line + 1, line + 1):
        assert action.edit is not None and action.edit.changes is not None
        ranges += [edit.range for edit in action.edit.changes[URI]]
    hover = hovering.hover(page, here)
    ranges += [hover.range] if hover is not None and hover.range is not None else []
    assert all(item.label for item in completing.complete(page, here))
    named = renaming.name_at(page, here)
    ranges += [page.range_of(named.span)] if named is not None else []
    for place in ranges:
        assert (place.start.line, place.start.character) <= (place.end.line, place.end.character)
        for end in (place.start, place.end):
            assert 0 <= end.line < len(lines) and 0 <= 2 * end.character <= len(lines[end.line]), (end, before[-60:])
            lines[end.line][: 2 * end.character].decode("utf-16-le")  # raises within a sign of two units


def outlined(symbols: list[types.DocumentSymbol]) -> list[types.Range]:
    return [place for one in symbols for place in (one.range, one.selection_range, *outlined(list(one.children or ())))]


def halves(line: str) -> Iterator[int]:
    """Where somebody pauses in *line*: behind its first third, in its middle, before its last sign, at its end."""
    yield from sorted({len(line) // 3, len(line) // 2, max(len(line) - 1, 0), len(line)})


def test_a_pattern_typed_key_by_key() -> None:
    text = with_emoji(PAGES[SHORT])
    start = text.index("```crochet")
    for caret in range(start, len(text) + 1):
        answers(text[:caret], caret)


def test_a_pattern_deleted_from_its_first_line_on() -> None:
    """The first lines go key by key: what is left has half a header, or begins within a round."""
    text = with_emoji(PAGES[SHORT])
    start = text.index("```crochet\n") + len("```crochet\n")
    for gone in range(0, text.index("\n```", start) - start, 2):
        answers(text[:start] + text[start + gone :], start)


@pytest.mark.parametrize("name", PAGES)
def test_each_line_half_typed_among_the_others(name: str) -> None:
    """A line is deleted and typed again in its place, with the rest of the page below it."""
    text = with_emoji(PAGES[name])
    offset = 0
    for number, line in enumerate(text.split("\n")):
        if line.strip() and number % 3 == 0:
            for end in halves(line):
                answers(text[: offset + end] + text[offset + len(line) :], offset + end)
        offset += len(line) + 1


@pytest.mark.parametrize("name", PAGES)
def test_a_page_typed_line_by_line(name: str) -> None:
    text = with_emoji(PAGES[name])
    for match in re.finditer(r"\n", text[text.index("```crochet") :]):
        caret = text.index("```crochet") + match.end()
        answers(text[:caret], caret)


def test_the_search_for_litter_is_brief_in_a_server() -> None:
    before = gc.get_threshold()
    try:
        gc.set_threshold(100_000, 20, 20)  # as the command line has it
        pace.warm_up()
        assert gc.get_threshold()[0] <= 1_000 and gc.get_freeze_count() > 10_000
    finally:
        gc.unfreeze()
        gc.set_threshold(*before)


def test_a_moment_of_a_busy_machine_slows_no_typing() -> None:
    kept = pace.Pace()
    assert kept.rest(URI) == 0
    for took in (0.4, 0.01, 0.3):
        kept.took(URI, took)
    assert kept.rest(URI) == 0
    for _ in range(2):
        kept.took(URI, 0.2)
    assert kept.rest(URI) == pytest.approx(0.6)
    for _ in range(3):
        kept.took(URI, 9.0)
    assert kept.rest(URI) == 1.0
    kept.forget(URI)
    assert kept.rest(URI) == 0

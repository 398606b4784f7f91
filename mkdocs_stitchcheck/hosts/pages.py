"""A page's text as a site hands it over: checked once, its places led back to the file, its findings collected once.

A site gives Markdown without the file's front matter, often with macros and includes worked in, and gives the same text
again for every list of posts. What is checked is always the text given; what is reported are places in the file.
"""

from __future__ import annotations

import logging
from collections import OrderedDict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from threading import Lock
from typing import NamedTuple

from ..checker import check_text
from ..fences import Block, find_blocks
from ..findings import Edit, Finding, Findings, Label, Severity
from ..results import FileResult
from ..settings import Settings
from ..source import Source, Span

AFTER = "(after preprocessing)"  # stands behind a path where lines are counted in the text that the site made
# Below mkdocs' own name: MkDocs and ProperDocs format and count, for --strict, only what is logged there.
log = logging.getLogger("mkdocs.plugins.stitchcheck")

_KEPT_CHECKS = 2_000  # a blog's posts come again for every list that shows them; a long one takes a third of a MB
_MOST_LINES_ALIGNED = 5_000  # beyond that, lines of a changed page are not led back: the search is quadratic


# --- from a page's text to its file -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Placed:
    """A page's text with what is known of its places.

    ``text`` is what is checked: where the page is the file without its front matter, blank lines stand for that, so
    that places in it are those of the file. Otherwise ``lines`` holds for each line of ``text`` its line of the file,
    0 where there is none.
    """

    text: str
    file_text: str | None = None
    lines: tuple[int, ...] | None = None

    def in_file(self, line: int) -> int:
        """The file's line of *line* of the text; 0 where only preprocessing made it."""
        if self.lines is None:
            return line
        return self.lines[line - 1] if 0 < line <= len(self.lines) else 0


def place(text: str, file_text: str | None) -> Placed:
    """Lead *text*, a page's Markdown, back to *file_text*, the file as on disk (None where it isn't known)."""
    if file_text is None:
        return Placed(text)
    file_text = file_text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    rest, whole = text.rstrip(), file_text.rstrip()
    if rest and whole.endswith(rest):
        before = whole[: len(whole) - len(rest)]
        if not before or before.endswith("\n"):
            return Placed("\n" * before.count("\n") + text, file_text)
    return Placed(text, file_text, _align(text.split("\n"), file_text.split("\n")))


def _align(lines: list[str], file_lines: list[str]) -> tuple[int, ...]:
    """For each of *lines* the number of the equal line among *file_lines*, in order; 0 where there is none."""
    own, there = [line.rstrip() for line in lines], [line.rstrip() for line in file_lines]
    numbers = [0] * len(own)
    head = _alike(own, there)
    tail = min(_alike(own[::-1], there[::-1]), len(own) - head, len(there) - head)
    for at in range(head):
        numbers[at] = at + 1
    for at in range(1, tail + 1):
        numbers[-at] = len(there) - at + 1
    middle, there_middle = own[head : len(own) - tail], there[head : len(there) - tail]
    if len(middle) + len(there_middle) <= _MOST_LINES_ALIGNED:
        for start, there_start, size in SequenceMatcher(None, middle, there_middle, False).get_matching_blocks():
            for step in range(size):
                numbers[head + start + step] = head + there_start + step + 1
    return tuple(numbers)


def _alike(one: list[str], other: list[str]) -> int:
    """How many lines two texts begin with in common."""
    for at, (mine, theirs) in enumerate(zip(one, other, strict=False)):
        if mine != theirs:
            return at
    return min(len(one), len(other))


# --- a page, checked ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class PlacedFinding:
    """A finding with the path it is shown under, and the text in which its lines are counted (for the code frame)."""

    path: str
    finding: Finding
    source: Source

    @property
    def key(self) -> tuple[str, int, int, str]:
        """What makes it the same finding, however often the page is rendered."""
        return self.path, self.finding.span.line, self.finding.span.column, self.finding.rule


class Spot(NamedTuple):
    """Where the checked block number *block* stands in a text: ``lines[start:end]``, from *column*, all counted from 0."""

    start: int
    end: int
    column: int
    block: int


@dataclass(eq=False, slots=True)
class PageCheck:
    """A page's text with its result and blocks.

    For a page that is shown again, ``html`` keeps what was made of its blocks and ``spots`` where they stood in a text.
    """

    placed: Placed
    source: Source
    result: FileResult
    blocks: list[Block]
    html: dict[object, str] = field(default_factory=dict)
    spots: dict[str, list[Spot] | None] = field(default_factory=dict)
    file_source: Source | None = None  # the file, where its lines are not those of the text

    def findings(self) -> Iterator[PlacedFinding]:
        """The findings where the writer sees them."""
        for finding in self.result.findings:
            yield self.locate(finding)

    def locate(self, finding: Finding) -> PlacedFinding:
        """*finding* with its place in the file, or, if no line of the file says it, in the text after preprocessing."""
        if self.placed.lines is None:
            return PlacedFinding(self.result.path, finding, self.source)
        moved = _moved(finding, self.placed)
        if moved is None:
            return PlacedFinding(f"{self.result.path} {AFTER}", finding, self.source)
        return PlacedFinding(self.result.path, moved, self.file_source or self.source)


def _moved(finding: Finding, placed: Placed) -> Finding | None:
    """*finding* with every place moved to the file; None if its own place isn't there."""
    span = _moved_span(finding.span, placed)
    if span is None:
        return None
    edits = [_moved_edits(edits, placed) for edits in (finding.edits, *finding.alternatives)]
    also = [(label, _moved_span(label.span, placed)) for label in finding.also]
    return finding.with_(
        span=span,
        edits=edits[0] or (),
        alternatives=tuple(alternative for alternative in edits[1:] if alternative),
        also=tuple(Label(there, label.text) for label, there in also if there is not None),
    )


def _moved_edits(edits: tuple[Edit, ...], placed: Placed) -> tuple[Edit, ...] | None:
    spans = [_moved_span(edit.span, placed) for edit in edits]
    if any(span is None for span in spans):
        return None
    return tuple(Edit(span, edit.text) for span, edit in zip(spans, edits, strict=True) if span is not None)


def _moved_span(span: Span, placed: Placed) -> Span | None:
    first, last = placed.in_file(span.line), placed.in_file(span.end_line)
    if not first or last - first != span.end_line - span.line:
        return None
    return Span(first, span.column, last, span.end_column)


_checks: OrderedDict[tuple[str, Placed, Settings], PageCheck] = OrderedDict()
_keeping = Lock()  # a web server converts in several threads


def may_hold_pattern(text: str) -> bool:
    """Whether *text* has any fence at all; without one there is nothing to check."""
    return "```" in text or "~~~" in text


def check_page(text: str, path: str, file_text: str | None, settings: Settings) -> PageCheck:
    """Check the Markdown *text* of the page *path*; the same page again costs a look in a dictionary."""
    return check_placed(place(text, file_text), path, settings)


def check_placed(placed: Placed, path: str, settings: Settings) -> PageCheck:
    """As :func:`check_page`, for a text whose places are known."""
    key = (path, placed, settings)
    with _keeping:
        known = _checks.get(key)
        if known is not None:
            _checks.move_to_end(key)
            return known
    check = _guarded_check(placed, path, settings)
    if placed.lines is not None:
        check.file_source = Source(placed.file_text or "", path)
        check.source = Source(placed.text, f"{path} {AFTER}")
    with _keeping:
        _checks[key] = check
        while len(_checks) > _KEPT_CHECKS:
            _checks.popitem(last=False)
    return check


def _guarded_check(placed: Placed, path: str, settings: Settings) -> PageCheck:
    """Check a page; a bug of ours is one clear error on it, and its blocks are shown as the writer typed them."""
    source = Source(placed.text, path)
    try:
        return PageCheck(placed, source, check_text(placed.text, path, settings), find_blocks(source, Findings()))
    except Exception as error:  # noqa: BLE001 - whatever it is: a site is not lost for it, and nothing passes unsaid
        result = FileResult(path, text=placed.text, findings=[fault_at(Span(1, 1, 1, 1), "checked", error)])
        return PageCheck(placed, source, result, [])


def fault_at(span: Span, doing: str, error: Exception) -> Finding:
    """The finding for a bug of ours, met while something was *doing* ("checked", "shown")."""
    log.debug("A fault of stitchcheck", exc_info=error)
    return Finding(
        "checker-fault", Severity.ERROR, span, f"This can't be {doing}, by a fault of stitchcheck ({error!r:.200}).",
        "Please report it with the pattern. Nothing is known to be wrong with what you wrote.",
    )


def forget_checks() -> None:
    """Drop what is kept of earlier checks."""
    with _keeping:
        _checks.clear()


def forget_shown() -> None:
    """Drop what was made of pages, for a build with other choices; a page that is the same needs no other check."""
    with _keeping:
        for check in _checks.values():
            check.html.clear()


# --- what a build found -------------------------------------------------------------------------------------------


class Collection:
    """The findings of a build, each (path, line, column, rule) once, however often a page is rendered."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, int, int, str], PlacedFinding] = {}
        self._told = 0
        self.results: dict[str, FileResult] = {}

    def add(self, check: PageCheck) -> None:
        """Take in a page's findings and the sums of its result."""
        if check.result.path not in self.results:
            self.results[check.result.path] = check.result.lightened(rounds=False)
        self.add_found(check.findings())

    def add_found(self, findings: Iterable[PlacedFinding]) -> None:
        """Take in findings that were not there yet."""
        for found in findings:
            self._found.setdefault(found.key, found)

    def untold(self) -> list[PlacedFinding]:
        """The findings that this was not asked for before."""
        found = self.found[self._told :]
        self._told += len(found)
        return found

    @property
    def found(self) -> list[PlacedFinding]:
        """Everything found, in the order in which pages were shown."""
        return list(self._found.values())

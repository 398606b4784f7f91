"""A whole pattern in the other terms, US or UK, with every line worked again to see that it says the same making.

A line that would be worked otherwise in the other terms stays as its writer wrote it and is named, never guessed at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial

from . import late_re as re
from .findings import Edit
from .language.swapped_terms import can_be_swapped, own_words, swapped, swaps
from .mending import apply
from .results import FileResult, PatternResult, RoundResult
from .source import BlockLine, Span, Statement
from .tidying.sameness import facts, making

Check = Callable[[str, str], FileResult]  # a text, and the terms of patterns that declare none

_HEADERS = frozenset((
    "gauge", "swatch", "special stitch", "abbreviations", "turning chain", "slip stitches", "reading", "notes", "level",
))  # fmt: skip
_PASSES = 12


@dataclass(frozen=True, slots=True)
class Retold:
    """A file in the terms ``to``: its text, what the check says of it, and the lines that had to stay as written.

    While any had to stay, the text is no pattern in those terms, and nothing should be printed from it.
    """

    text: str
    result: FileResult
    to: str
    left: tuple[int, ...] = ()


def can_be_retold(pattern: PatternResult) -> bool:
    """Whether a pattern is in US or UK terms, so that it can be put into the others."""
    return can_be_swapped(pattern.syntax.header)


def retold(before: FileResult, text: str, to: str, check: Check) -> Retold:
    """The file *text*, checked as *before*, with its patterns in the terms *to* ("US" or "UK").

    Patterns in those terms already, or in letters or another language, stay as they are.
    """
    plan = {line: edits for pattern in before.patterns for line, edits in _plan(pattern, to)}
    fixed = [edit for pattern in before.patterns for edit in _declaration(pattern, to)]
    left: set[int] = set()
    for _ in range(_PASSES):
        written = apply(text, [*fixed, *(edit for edits in plan.values() for edit in edits)])
        after = check(written, to)
        otherwise = _otherwise(before, after, to)
        left |= otherwise
        if not otherwise.intersection(plan):
            break
        plan = {line: edits for line, edits in plan.items() if line not in otherwise}
    return Retold(written, after, to, tuple(sorted(left)))


def _plan(pattern: PatternResult, to: str) -> Iterator[tuple[int, list[Edit]]]:
    """The edits of each line of the file, by its number."""
    system = pattern.syntax.system
    if not can_be_retold(pattern) or system == to:
        return
    own = own_words(pattern.syntax.header, system)
    for statement, label in _statements(pattern):
        for line in statement.lines:
            edits = [
                Edit(Span(line.number, line.column + swap.start, line.number, line.column + swap.end), swap.words)
                for swap in swaps(line.text, system, to, own)
            ]
            if label == "gauge" and line is statement.lines[0]:
                edits += _gauge(line, to)
            if edits:
                yield line.number, sorted(edits, key=lambda edit: edit.span)


def _statements(pattern: PatternResult) -> Iterator[tuple[Statement, str]]:
    for header in pattern.syntax.header.lines:
        if header.key in _HEADERS:
            yield header.statement, header.key
    for piece in pattern.syntax.pieces:
        if piece.heading is not None:
            yield piece.heading, ""
        for line in piece.lines:
            if line.kind not in ("private", "excuse"):
                yield line.statement, ""


def _gauge(line: BlockLine, to: str) -> Iterable[Edit]:
    """The line's own name: the UK says tension. Gauge to tension is among the swapped words, and not the way back."""
    at = line.text.lower().find("tension")
    if to == "US" and 0 <= at < len(line.text) and not line.text[:at].strip(" \t*-+•"):
        yield Edit(Span(line.number, line.column + at, line.number, line.column + at + len("tension")), "GAUGE" if line.text[at : at + 7].isupper() else "Gauge")


def _declaration(pattern: PatternResult, to: str) -> Iterator[Edit]:
    """``Terms: US`` says the other; so does "written in US terms"."""
    line = pattern.syntax.header.first("terms")
    if line is not None and can_be_retold(pattern) and pattern.syntax.system != to:
        said = re.search(r"\b(?:US|UK)\b", line.statement.text[line.value_start :])
        start = line.value_start + (said.start() if said else 0)
        end = start + 2 if said else len(line.statement.text.rstrip())
        yield Edit(line.statement.span(start, end), to)


def _otherwise(before: FileResult, after: FileResult, to: str) -> set[int]:
    """The lines of the file that the check reads otherwise in the other terms, without those that only follow."""
    swap = {
        line.line: partial(swapped, system=pattern.syntax.system, to=to, own=own_words(pattern.syntax.header, pattern.syntax.system))
        for pattern in before.patterns
        for line in pattern.rounds
    }
    old, new = _by_line(before), _by_line(after)
    differ = {
        line for line, was in old.items()
        if line not in new or making(was.syntax, swap[line]) != making(new[line].syntax, str)
    }  # fmt: skip
    if differ:
        return {number for line in differ for number in _lines_of(old[line])}
    worked = sorted(line for line, was in old.items() if facts(was) != facts(new[line]))
    return set(_lines_of(old[worked[0]])) if worked else set()


def _by_line(result: FileResult) -> dict[int, RoundResult]:
    return {line.line: line for pattern in result.patterns for line in pattern.rounds}


def _lines_of(line: RoundResult) -> Iterator[int]:
    return (part.number for part in line.syntax.statement.lines)

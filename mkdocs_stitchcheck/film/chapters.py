"""Chapters of a film from the marks ``@ 12:30`` at headings, rounds and steps.

That the first chapter begins at 0:00, that times rise, and that a chapter lasts ten seconds at least is what players of
films ask for (common practice, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..language import syntax
from ..render.words import label_text, step_text
from ..results import PatternResult

SHORTEST = 10  # seconds
FEWEST = 3  # chapters
_LONGEST_NAME = 90


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter: where it begins, in seconds, its name, and the file line of its mark (0 for one of our own)."""

    start: int
    name: str
    line: int = 0


def clock(seconds: int) -> str:
    """"0:45", "12:30", "1:02:05"."""
    hours, rest = divmod(seconds, 3600)
    minutes, seconds = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"


def _marks(pattern: PatternResult) -> Iterator[Chapter]:
    for piece in pattern.syntax.pieces:
        if piece.moment is not None:
            yield Chapter(piece.moment, piece.name, piece.line)
        for line in piece.lines:
            if isinstance(line, syntax.RoundLine) and line.moment is not None:
                yield Chapter(line.moment, f"{piece.name}, {_of(line)}", line.line)


def _of(line: syntax.RoundLine) -> str:
    if line.label is not None:
        return label_text(line)
    words = step_text(line).strip(" .;,")
    return words[:1].lower() + words[1:]


def chapters(pattern: PatternResult) -> list[Chapter]:
    """The chapters in the order of their times, the first at 0:00; none where the pattern has no marks."""
    found = sorted(_marks(pattern), key=lambda chapter: chapter.start)
    if found and found[0].start > 0:
        found.insert(0, Chapter(0, pattern.title or "Welcome"))
    return [Chapter(one.start, _shortened(one.name), one.line) for one in found]


def _shortened(name: str) -> str:
    return name if len(name) <= _LONGEST_NAME else name[: _LONGEST_NAME - 1].rstrip() + "…"


def chapter_warnings(pattern: PatternResult) -> list[tuple[int, str]]:
    """(file line, sentence) for everything that a player may not take as a chapter."""
    marks = list(_marks(pattern))
    said = []
    latest = marks[0] if marks else None
    for one in marks[1:]:
        assert latest is not None
        here, there = clock(one.start), clock(latest.start)
        if one.start == latest.start:
            said.append((one.line, f"{here} stands at {one.name} and at {latest.name}; one moment is one chapter."))
        elif one.start < latest.start:
            why = f"{one.name} is at {here}, before {latest.name} at {there}"
            said.append((one.line, f"{why}; the chapters are put in the order of the film."))
        latest = max(latest, one, key=lambda mark: mark.start)
    for one, after in pairwise(chapters(pattern)):
        if 0 < after.start - one.start < SHORTEST:
            line = one.line or after.line
            said.append((line, f"{one.name} lasts {after.start - one.start} seconds; a chapter lasts at least {SHORTEST}."))
    if 0 < len(chapters(pattern)) < FEWEST:
        said.append((marks[0].line, f"There are fewer than {FEWEST} chapters; many players then show none."))
    return said

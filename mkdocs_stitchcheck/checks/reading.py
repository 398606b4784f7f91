"""What the checks read of a pattern: its statements by kind, its steps however deep, its words."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ..language import syntax
from ..results import PieceResult, RoundResult
from ..source import Statement

WORKED = ("round", "foundation", "step")


def worked_lines(pattern: syntax.Pattern) -> Iterator[tuple[syntax.Piece, syntax.Line]]:
    """Every round, foundation and step, with its piece, in order."""
    for piece in pattern.pieces:
        for line in piece.lines:
            if line.kind in WORKED:
                yield piece, line


_WITH_STEPS = (syntax.Repeat, syntax.Group, syntax.More)


def steps(line: syntax.Line) -> Iterator[syntax.Step]:
    """Every step of a line, those inside repeats and groups too, in no certain order."""
    waiting = list(getattr(line, "steps", None) or ())
    while waiting:
        step = waiting.pop()
        yield step
        if isinstance(step, _WITH_STEPS):
            waiting.extend(step.body)
            if isinstance(step, syntax.Repeat):
                waiting.extend(step.ending)


def said(pattern: syntax.Pattern) -> Iterator[Statement]:
    """Every statement that readers see in the pieces: headings, rounds, steps and notes, none to oneself."""
    for piece in pattern.pieces:
        if piece.heading is not None:
            yield piece.heading
        for line in piece.lines:
            if line.kind in (*WORKED, "note"):
                yield line.statement


@lru_cache(maxsize=1)
def heard(pattern: syntax.Pattern) -> str:
    """All that is said in the pieces, in small letters: to see at once that a word is nowhere, before lines are searched."""
    return "\n".join(statement.words for statement in said(pattern)).casefold()


@lru_cache(maxsize=1)
def all_words(pattern: syntax.Pattern) -> str:
    """The text of the pieces and of the header's notes, with the page's prose, one statement a line."""
    notes = [line.value for line in pattern.header.lines if line.key in ("notes", "care") or not line.known]
    return "\n".join([statement.words for statement in said(pattern)] + notes + [pattern.prose])


def piece_words(pattern: syntax.Pattern) -> str:
    """The names of the pieces, one a line."""
    return "\n".join(piece.name for piece in pattern.pieces)


def made(line: RoundResult) -> int | None:
    """What a line makes, else states, in the first size that is worked; None where that is not known."""
    return next((count for count in (*line.makes, *line.stated) if count is not None), None)


def last_round(piece: PieceResult) -> RoundResult | None:
    """The last round or row of a piece."""
    return next((line for line in reversed(piece.rounds) if line.counts), None)


def one_of(name: str) -> str:
    """A piece's name in lower case and in the singular, as far as its end shows it: "Ears" gives ear."""
    lowered = name.lower()
    for plural, single in (("ves", "f"), ("ies", "y"), ("feet", "foot"), ("shes", "sh"), ("ches", "ch"), ("ss", "ss"),
                           ("s", "")):
        if lowered.endswith(plural) and len(lowered) > len(plural) + 1 or lowered == plural:
            return lowered[: -len(plural)] + single
    return lowered


def is_whole(header: syntax.Header) -> bool:
    """Whether a header is that of a whole pattern, with title and materials, and not of an example or a part."""
    if header.title:
        return bool(header.yarns or header.colors or header.hooks or header.notions)
    return bool(header.yarns and header.hooks)

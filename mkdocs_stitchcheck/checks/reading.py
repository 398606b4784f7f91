"""What the checks read of a pattern: its statements by kind, its steps however deep, its words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..language import syntax
from ..source import Statement

WORKED = ("round", "foundation", "step")


def worked_lines(pattern: syntax.Pattern) -> Iterator[tuple[syntax.Piece, syntax.Line]]:
    """Every round, foundation and step, with its piece, in order."""
    for piece in pattern.pieces:
        for line in piece.lines:
            if line.kind in WORKED:
                yield piece, line


def steps(line: syntax.Line) -> Iterator[syntax.Step]:
    """Every step of a line, those inside repeats and groups too, in no certain order."""
    waiting = list(getattr(line, "steps", None) or ())
    while waiting:
        step = waiting.pop()
        yield step
        waiting.extend(getattr(step, "body", ()))
        waiting.extend(getattr(step, "ending", ()))


def said(pattern: syntax.Pattern) -> Iterator[Statement]:
    """Every statement that readers see in the pieces: headings, rounds, steps and notes, none to oneself."""
    for piece in pattern.pieces:
        if piece.heading is not None:
            yield piece.heading
        for line in piece.lines:
            if line.kind in (*WORKED, "note"):
                yield line.statement


def all_words(pattern: syntax.Pattern) -> str:
    """The text of the pieces and of the header's notes, with the page's prose, one statement a line."""
    notes = [line.value for line in pattern.header.lines if line.key in ("notes", "care") or not line.known]
    return "\n".join([statement.words for statement in said(pattern)] + notes + [pattern.prose])


_WORD = re.compile(r"[a-z]+")


def words_worked(pattern: syntax.Pattern) -> set[str]:
    """The words of all rounds, foundations and steps in lower case, to see at once what can be there."""
    found: set[str] = set()
    for _piece, line in worked_lines(pattern):
        found.update(_WORD.findall(line.statement.words.lower()))
    return found


def piece_words(pattern: syntax.Pattern) -> str:
    """The names of the pieces, one a line."""
    return "\n".join(piece.name for piece in pattern.pieces)

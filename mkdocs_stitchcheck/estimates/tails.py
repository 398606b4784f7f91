"""Yarn beside the stitches: starts, ends and tails for sewing on.

About 15 cm for each start and each end and 30 cm for each piece sewn on, times the copies: common practice, no source.
In a small toy they can be a third of a colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..language import syntax
from ..results import PatternResult, PieceResult

START_METRES = 0.15
END_METRES = 0.15
SEWN_ON_METRES = 0.30

_FOR_SEWING = re.compile(r"\b(?:for sewing|to sew (?:it |them )?(?:on|to)|for attaching)\b", re.IGNORECASE)
_SEW = re.compile(r"\b(?:sew|attach|stitch|whipstitch)(?: on| down)?\b", re.IGNORECASE)
_WHERE = re.compile(
    r"\b(?:over|to|on|onto|between|at|in|into|under|around|along|from|with|behind|above|below|down)\b", re.IGNORECASE
)
_CLAUSE = re.compile(r"[,.;]")
_WORD = re.compile(r"\w+")


def piece_tails(piece: PieceResult, colors: list[str], sewn_on: bool) -> dict[str, float]:
    """Metres of tails of one copy by colour: a start and an end of each of its *colors*, and the tail for sewing.

    That one is in the colour of the last stitches.
    """
    tails = {color: START_METRES + END_METRES for color in colors}
    if sewn_on and colors:
        tails[_last_color(piece, colors)] += SEWN_ON_METRES
    if piece.syntax.continued and colors:  # goes on with the yarn of the piece before
        tails[colors[0]] -= START_METRES
    return tails


def _last_color(piece: PieceResult, colors: list[str]) -> str:
    """The colour of the last stitches of a piece."""
    last = next((line for line in reversed(piece.rounds) if line.stitches), None)
    worked = [color for color in (last.colors if last else ()) if color in colors]
    return worked[-1] if worked else colors[-1]


def sewn_on(result: PatternResult) -> set[str]:
    """The names, in lower case, of the pieces that are sewn on: their lines say so, or a step names them to sew."""
    names = {piece.name.lower() for piece in result.pieces}
    found = {
        piece.name.lower() for piece in result.pieces
        if any(_FOR_SEWING.search(line.statement.words) for line in piece.syntax.lines if line.kind in ("step", "round"))
    }
    for piece in result.syntax.pieces:
        for line in piece.lines:
            if line.kind == "step":
                found.update(name for thing in _sewn_things(line) for name in names if _names(thing, name))
    return found


def _sewn_things(line: syntax.Line) -> Iterator[str]:
    """What a step sews: the words of each clause up to where they go, once "sew" has been said, between spaces."""
    text = line.statement.words
    verb = _SEW.search(text)
    if verb is None:
        return
    for clause in _CLAUSE.split(text[verb.end() :]):
        where = _WHERE.search(clause)
        yield _spaced(clause[: where.start()] if where else clause)


def _names(thing: str, name: str) -> bool:
    """Whether words name a piece, one or several of it ("the flippers" for Flipper)."""
    bare = _spaced(name).strip()
    forms = {bare, f"{bare}s", f"{bare}es", bare.removesuffix("s"), f"{bare.removesuffix('y')}ies"} - {""}
    return any(f" {form} " in thing for form in forms)


def _spaced(text: str) -> str:
    """The words in lower case, each between single spaces."""
    return f" {' '.join(_WORD.findall(text.lower()))} "

"""Stuffing from the room that the stuffed pieces enclose.

Polyester fibrefill weighs about 20, 35 and 50 g a litre in loose, medium and firm stuffing, 30 % either way: common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .. import late_re as re
from ..language import syntax
from ..results import PatternResult, PieceResult
from .size import PieceSize, SizeTable, size_table

GRAMS_PER_LITRE: dict[str, float] = {"loose": 20.0, "medium": 35.0, "firm": 50.0}
STUFFING_ERROR = 0.30

_STUFF = re.compile(r"\b(?:stuff(?:ed|ing)?|fill(?:ed|ing)?)\b", re.IGNORECASE)
_REFUSED = re.compile(r"\b(?:do not|don't|no|without|un)\W*(?:stuff\w*|fill\w*)|\bunstuffed\b", re.IGNORECASE)
_PARTLY = re.compile(r"\bonly\b|\b(?:half|bottom|lower|upper|top) (?:half|part|third)\b", re.IGNORECASE)
_AS_YOU_GO = re.compile(r"\bas you (?:go|work|crochet)\b", re.IGNORECASE)
_HOW = {
    "firm": re.compile(r"\b(?:firm|firmly|tight|tightly|well|hard)\b", re.IGNORECASE),
    "loose": re.compile(r"\b(?:loose|loosely|light|lightly|softly|a little)\b", re.IGNORECASE),
    "medium": re.compile(r"\b(?:medium|moderately)\b", re.IGNORECASE),
}


@dataclass(frozen=True, slots=True)
class Stuffing:
    """Grams of stuffing for all copies of the stuffed pieces of one size, loose, medium and firm.

    ``asked`` is what the text asks for, "" where it does not say. ``pieces`` are those counted in; ``partly`` those
    that are stuffed in part, and ``unknown`` those whose room is not known: neither is in the grams.
    """

    size: str
    litres: float
    pieces: tuple[str, ...]
    asked: str = ""
    partly: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()

    @property
    def grams(self) -> dict[str, float]:
        """The weight by firmness."""
        return {name: self.litres * density for name, density in GRAMS_PER_LITRE.items()}


def stuffing(result: PatternResult, sizes: SizeTable | None = None) -> tuple[Stuffing, ...]:
    """The stuffing of a pattern, one entry a size; () where nothing says that a piece is stuffed."""
    ways = {piece.name: _way(piece, result) for piece in result.pieces}
    stuffed = {name for name, way in ways.items() if way is not None}
    if not stuffed:
        return ()
    table = sizes if sizes is not None else size_table(result)
    names = dict.fromkeys(size.size for size in table.pieces)
    return tuple(_of_size(name, [s for s in table.pieces if s.size == name and s.piece in stuffed], ways)
                 for name in names)


def _of_size(name: str, sizes: list[PieceSize], ways: dict[str, str | None]) -> Stuffing:
    whole = [size for size in sizes if size.volume and ways[size.piece] != "partly"]
    asked = {way for size in whole if (way := ways[size.piece]) in GRAMS_PER_LITRE}
    return Stuffing(
        name,
        sum((size.volume or 0.0) * size.make for size in whole) / 1000,
        tuple(size.piece for size in whole),
        asked.pop() or "" if len(asked) == 1 else "",
        tuple(size.piece for size in sizes if ways[size.piece] == "partly"),
        tuple(size.piece for size in sizes if not size.volume and ways[size.piece] != "partly"),
    )


def _way(piece: PieceResult, result: PatternResult) -> str | None:
    """How a piece is stuffed: "firm", "partly", ... or "" where that is not said; None where it is not stuffed."""
    texts = [text for text in _texts(piece.syntax) if _STUFF.search(text)]
    if any(_REFUSED.search(text) for text in texts):
        return None
    if not texts:
        as_you_go = any(_STUFF.search(text) and _AS_YOU_GO.search(text) for text in _notes(result))
        return "" if as_you_go and piece.closed else None
    if any(_PARTLY.search(text) for text in texts):
        return "partly"
    return next((name for name, words in _HOW.items() if any(words.search(text) for text in texts)), "")


def _texts(piece: syntax.Piece) -> Iterator[str]:
    if piece.heading is not None:
        yield piece.heading.words
    for line in piece.lines:
        if line.kind in ("step", "round", "note"):
            yield from line.statement.words.split(".")


def _notes(result: PatternResult) -> Iterator[str]:
    yield from (line.value for line in result.syntax.header.lines if line.key in ("notes", "stuffing"))
    for piece in result.syntax.pieces:
        yield from (line.statement.words for line in piece.lines if line.kind == "note")
    yield from result.syntax.prose.splitlines()

"""Which pieces the text says are worked downwards, so that a drawing can show them the way they are worn."""

from __future__ import annotations

from .. import late_re as re
from ..language import syntax
from ..results import PatternResult

# "Worked top down", "from the neck down", "from the crown downwards": common practice, no source.
_DOWN = re.compile(
    r"\b(?:top|neck|neckline|crown|shoulders?|waist)(?: edge)?[- ]+(?:to[- ]\w+|down(?:wards?)?)\b(?![- ]*up)|\bworked down(?:wards?)?\b",
    re.IGNORECASE,
)
_UP = re.compile(r"\bbottom[- ]up\b", re.IGNORECASE)


def worked_downwards(result: PatternResult) -> set[int]:
    """The identities of the pieces, as written, that are: all where the pattern says it before its first piece, else
    each whose heading or notes say so."""
    if _says(" ".join(line.statement.words for line in result.syntax.header.lines)):
        return {id(piece) for piece in result.syntax.pieces}
    return {id(piece) for piece in result.syntax.pieces if _says(_words(piece))}


def _words(piece: syntax.Piece) -> str:
    heading = [piece.heading.words] if piece.heading is not None else []
    return " ".join([*heading, *(line.statement.words for line in piece.lines if line.kind == "note")])


def _says(words: str) -> bool:
    return bool(_DOWN.search(words)) and not _UP.search(words)

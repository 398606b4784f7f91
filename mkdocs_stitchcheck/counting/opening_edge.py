"""Work that goes into an opening of another piece or round: a thumb, a sleeve, taken up where stitches were skipped.

The edge is what the opening has: the stitches that were skipped and, on the other side, the chains over them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from .. import late_re as re
from ..language import syntax
from .edge import Edge
from .names import find_piece
from .places import flat
from .working import LARGEST_NUMBER

OPENING_WORDS = re.compile(
    r"\b(?:opening|arm ?hole|under ?arm|thumb ?hole|(?:skipped|missed|held|resting) (?:sts?|stitch(?:es)?|sc|hdc|dc))\b", re.IGNORECASE
)
_EVENLY = re.compile(r"\bevenly\b", re.IGNORECASE)
_OF_PIECE = re.compile(r"\bof (?:the )?([A-Za-z][\w' -]{1,40})")
_SMALLEST = 3  # of fewer skipped stitches nobody works a thumb


Known = dict[int, list[tuple[int, int, int]]]  # piece -> (line, skipped stitches, chains over them) of each opening


def opening_edge(line: syntax.RoundLine, pattern: syntax.Pattern, size: int, known: Known) -> Edge | None:
    """The edge of the opening that *line* takes up; None where it names none or there is none.

    With openings of several sizes the one of a piece that the line names, else the one that its count is of, else the
    largest is meant.
    """
    words = line.statement.words
    if OPENING_WORDS.search(words) is None or not _takes_up(line):
        return None
    named = _named_piece(words, pattern)
    found: list[tuple[int, int]] = []
    for other in pattern.pieces:
        if named is None or other is named:
            if id(other) not in known:
                known[id(other)] = list(_openings(other, size))
            found += [(skipped, chains) for number, skipped, chains in known[id(other)] if number < line.line]
    if not found:
        return None
    if _EVENLY.search(words):  # picked up evenly: as many as it says
        made = _said(line, size)
        return Edge(made) if made else None
    counts = [skipped + chains for skipped, chains in found]
    said = _said(line, size)
    return Edge(said if said in counts else max(counts))


def _takes_up(line: syntax.RoundLine) -> bool:
    """Whether the line works into the opening, and does not make it."""
    return not any(isinstance(step, syntax.Chain) and not step.turning for step in line.steps or ())


def _named_piece(words: str, pattern: syntax.Pattern) -> syntax.Piece | None:
    for match in _OF_PIECE.finditer(words):
        names = match[1].split()
        for length in range(len(names), 0, -1):
            found = find_piece(pattern, " ".join(names[:length]), None)
            if found is not None:
                return found
    return None


def _said(line: syntax.RoundLine, size: int) -> int | None:
    number = line.stated[-1].number if line.stated else None
    if number is None:
        return None
    return number.values[size if size < len(number.values) else 0]


def _openings(piece: syntax.Piece, size: int) -> Iterator[tuple[int, int, int]]:
    for line in piece.lines:
        if not isinstance(line, syntax.RoundLine) or line.only is not None and size not in line.only:
            continue
        for one, other in pairwise(flat(line.steps or ())):
            chain, skip = (one, other) if isinstance(one, syntax.Chain) else (other, one)
            if isinstance(chain, syntax.Chain) and isinstance(skip, syntax.Work) and skip.stitch.kind == "skip":
                skipped, chains = _skipped(skip, size), _value(chain.number, size)
                if skipped >= _SMALLEST:
                    yield line.line, skipped, chains


def _skipped(step: syntax.Work, size: int) -> int:
    number = step.place.number if step.place is not None and step.place.number is not None else step.count
    return _value(number, size) if number is not None else 1


def _value(number: syntax.Number, size: int) -> int:
    values = number.values
    return min(values[size if size < len(values) else 0] or 0, LARGEST_NUMBER)

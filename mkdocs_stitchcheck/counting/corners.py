"""Corners of a round that are not alike: a chain of 3 in one of four corners, of 2 in the others."""

from __future__ import annotations

from collections import Counter

from ..language import syntax
from .edge import CORNER
from .messages import number_word
from .places import flat
from .report import Reporter
from .working import Working

_FEWEST = 4  # of three corners one may well be the tip


def report_odd_corner(w: Working, line: syntax.RoundLine, piece: syntax.Piece, name: str, reporter: Reporter) -> None:
    """corner-differs: all corners but one have a chain of one length, between the same stitches."""
    found = _odd_corner(w) if w.setting.in_rounds else None
    if found is None:
        return
    length, usual, how_many = found
    written = next((step.number for step in flat(line.steps or ()) if isinstance(step, syntax.Group)
                    for step in step.body if isinstance(step, syntax.Chain) and w.value(step.number) == length), None)
    span = line.statement.span(written.start, written.end) if written is not None else line.statement.span(*line.body)
    reporter.add(
        "corner-differs", span, f"One corner of {name} has a chain of {length}, the other {number_word(how_many)} have one of {usual}.", piece, line,
        suggestion=f"Write ch {usual}, or say why this corner differs.",
    )


def _odd_corner(w: Working) -> tuple[int, int, int] | None:
    """The length of the chain of one corner, that of the others, and how many these are."""
    corners = [(place, length) for place, length, kind in w.tally.marks or () if kind == CORNER]
    lengths = Counter(length for _place, length in corners)
    if len(corners) < _FEWEST or len(lengths) != 2:
        return None
    (usual, many), (odd, one) = lengths.most_common()
    sizes = {size for place, _length in corners for start, size, _key in w.tally.clumps or () if start < place < start + size}
    return (odd, usual, many) if one == 1 and len(sizes) == 1 else None

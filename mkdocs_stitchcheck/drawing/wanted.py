"""Whether a chart says more than the words: for motifs, lace, mesh, ovals and colour grids, not for stuffed toys."""

from __future__ import annotations

from collections import Counter

from ..counting.places import flat
from ..estimates.size import chain_along
from ..language import syntax
from ..results import PieceResult, RoundResult


def asks_for_chart(piece: PieceResult) -> bool:
    """Whether a piece is one that charts are usual for."""
    lines = [line for line in piece.rounds if line.counts]
    return bool(lines) and (chain_along(piece) is not None or has_grid(piece) or any(map(_is_open, lines)))


def has_grid(piece: PieceResult) -> bool:
    """Whether colours change within rounds, not only at their end."""
    return sum(map(_is_colored, piece.rounds)) > 1


def _is_colored(line: RoundResult) -> bool:
    worked: Counter[str] = Counter()
    for (color, key), number in line.stitches.items():
        if key not in ("ch", "sl st"):
            worked[color] += number
    return line.counts and len(worked) > 1


def _is_open(line: RoundResult) -> bool:
    """Whether chains or several kinds in one place make a pattern of the stitches."""
    for step in flat(line.syntax.steps or ()):
        if isinstance(step, syntax.Chain) and not step.turning and step.counts_as is None:
            return True
        if isinstance(step, syntax.Group) and len(step.body) > 2 and step.place.kind != "ring":
            return True
    return False

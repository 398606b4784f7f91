"""How crocheted fabric measures: the height of a row, and how much a round must gain to lie flat.

Heights sc 1 : hdc 1.5 : dc 2 : tr 3 of real fabric, taller ones carried on: from memory. Gains that lie flat: sc 7, from
*Single Crochet Shaping 1: cones to ruffles* (six-round samples: 5 cup, 6 cup slightly, 7 and 8 lie flat, 9 crowd, 10
ruffle); hdc 8 and dc 12, seen in published patterns; tr 16, from memory.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass

from ..language import syntax
from ..language.vocabulary import Stitch
from ..results import RoundResult
from .stitch_yarn import stitch_of

# Idealised height in chains -> (height of real fabric in rows of sc, gain a round that lies flat).
_REAL: tuple[tuple[float, float, float], ...] = (
    (0.0, 0.3, 3.0), (1.0, 1.0, 7.0), (2.0, 1.5, 8.0), (3.0, 2.0, 12.0), (4.0, 3.0, 16.0), (5.0, 4.0, 20.0),
    (6.0, 5.0, 24.0),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Course:
    """Rounds or rows of one kind: ``height`` in rows of sc, ``flat`` the gain a round that lies flat."""

    height: float = 1.0
    flat: float = 7.0


def real_height(stitch: Stitch) -> float:
    """The height of a row of *stitch*, in rows of sc."""
    return _between(stitch.height, 1)


def flat_gain(stitch: Stitch) -> float:
    """How many stitches a round of *stitch* gains where it lies flat."""
    return _between(stitch.height, 2)


def _between(height: float, column: int) -> float:
    """The table's value for a height, between two entries in proportion."""
    heights = [row[0] for row in _REAL]
    at = bisect_left(heights, height)
    if at >= len(_REAL):
        return _REAL[-1][column]
    if at == 0 or heights[at] == height:
        return _REAL[at][column]
    low, high = _REAL[at - 1], _REAL[at]
    share = (height - low[0]) / (high[0] - low[0])
    return low[column] + share * (high[column] - low[column])


def course_of(line: RoundResult, header: syntax.Header) -> Course:
    """What a written line's rounds are like: the mean over its stitches. Chains, joins and skips add no height."""
    weighed = [(count * max(stitch.makes, 1), stitch) for count, stitch in _stitches(line, header)]
    total = sum(count for count, _stitch in weighed)
    if not total:
        return Course()
    return Course(
        sum(count * real_height(stitch) for count, stitch in weighed) / total,
        sum(count * flat_gain(stitch) for count, stitch in weighed) / total,
    )


def _stitches(line: RoundResult, header: syntax.Header) -> Iterable[tuple[int, Stitch]]:
    found = [(count, stitch_of(key, header)) for (_color, key), count in line.stitches.items() if count > 0]
    known = [(count, stitch) for count, stitch in found if stitch is not None]
    standing = [(count, stitch) for count, stitch in known if stitch.kind not in ("chain", "slip", "skip", "picot")]
    return standing or [(count, stitch) for count, stitch in known if stitch.kind == "slip"]

"""How crocheted fabric measures: the height of a row, and how much a round must gain to lie flat.

Heights are those of :mod:`..language.heights`. Gains that lie flat: sc 7, from
*Single Crochet Shaping 1: cones to ruffles* (six-round samples: 5 cup, 6 cup slightly, 7 and 8 lie flat, 9 crowd, 10
ruffle); hdc 8 and dc 12, seen in published patterns; tr 16, from memory.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from ..language import syntax
from ..language.heights import real_height
from ..language.vocabulary import Stitch
from ..results import RoundResult
from .stitch_yarn import stitch_of

# Idealised height in chains -> gain a round that lies flat.
_FLAT = ((0.0, 3.0), (1.0, 7.0), (2.0, 8.0), (3.0, 12.0), (4.0, 16.0), (5.0, 20.0), (6.0, 24.0))


@dataclass(frozen=True, slots=True)
class Course:
    """Rounds or rows of one kind: ``height`` in rows of sc, ``flat`` the gain a round that lies flat."""

    height: float = 1.0
    flat: float = 7.0


def flat_gain(stitch: Stitch) -> float:
    """How many stitches a round of *stitch* gains where it lies flat; between two entries in proportion."""
    return _flat_gain(stitch.height)


@lru_cache(maxsize=256)
def _flat_gain(height: float) -> float:
    heights = [row[0] for row in _FLAT]
    at = bisect_left(heights, height)
    if at >= len(_FLAT):
        return _FLAT[-1][1]
    if at == 0 or heights[at] == height:
        return _FLAT[at][1]
    low, high = _FLAT[at - 1], _FLAT[at]
    return low[1] + (height - low[0]) / (high[0] - low[0]) * (high[1] - low[1])


def course_of(line: RoundResult, header: syntax.Header) -> Course:
    """What a written line's rounds are like: the mean over its stitches. Chains, joins and skips add no height."""
    if any(special.special for special in header.special.values()):
        return _course(_stitches(line.stitches.items(), header))
    return _usual_course(tuple(line.stitches.items()))


_Worked = tuple[tuple[str, str], int]  # colour and stitch, and how many


@lru_cache(maxsize=1024)
def _usual_course(worked: tuple[_Worked, ...]) -> Course:
    """The course of stitches that no pattern declares: rounds of the same stitches come again and again."""
    return _course(_stitches(worked, syntax.Header()))


def _course(stitches: Iterable[tuple[int, Stitch]]) -> Course:
    weighed = [(count * max(stitch.makes, 1), stitch) for count, stitch in stitches]
    total = sum(count for count, _stitch in weighed)
    if not total:
        return Course()
    return Course(
        sum(count * real_height(stitch) for count, stitch in weighed) / total,
        sum(count * flat_gain(stitch) for count, stitch in weighed) / total,
    )


def _stitches(worked: Iterable[_Worked], header: syntax.Header) -> Iterable[tuple[int, Stitch]]:
    found = [(count, stitch_of(key, header)) for (_color, key), count in worked if count > 0]
    known = [(count, stitch) for count, stitch in found if stitch is not None]
    standing = [(count, stitch) for count, stitch in known if stitch.kind not in ("chain", "slip", "skip", "picot")]
    return standing or [(count, stitch) for count, stitch in known if stitch.kind == "slip"]

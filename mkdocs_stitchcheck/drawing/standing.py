"""Where the items of a round stand on those of the one before, and how a round is turned and straightened for it."""

from __future__ import annotations

import math

from ..counting.in_full import Course
from ..counting.replaying import Item
from .curves import Curve
from .rings import Ring
from .symbols import WIDTH

LEANING = 0.9  # stitches by which one may lean before the round is straightened
_KEPT = 0.78  # of its even share of the way around, that a stitch keeps where it moves towards its parent


def leans(found: list[float], stands: list[float | None], most: float) -> bool:
    """Whether an item is further than *most* from where it stands."""
    return any(s is not None and abs(within_half(s - at)) > most for s, at in zip(stands, found, strict=True))


def straightened(found: list[float], weights: list[float], seam: float, stands: list[float | None]) -> list[float]:
    """Moves items, evenly laid out in *found*, towards where they stand; each keeps most of its room.

    The nearest such places, in order: isotonic regression by pooling neighbours (Ayer et al. 1955).
    """
    room = (1 - seam) / sum(weights)
    low = [share - seam / 2 for share in found]
    pools: list[tuple[float, float, int]] = []  # (sum of wishes, weight, items)
    for (at, share), stand, one in zip(enumerate(found), stands, weights, strict=True):
        fellows = [k for k in (at - 2, at - 1, at, at + 1, at + 2) if 0 <= k < len(found) and stands[k] == stand]
        wish = share if stand is None else share + within_half(stand - share) + (at - sum(fellows) / len(fellows)) * room
        pools.append((wish - seam / 2 - low[at] * _KEPT, 1.0 if one and stand is not None else 0.3, 1))
        pools[-1] = (pools[-1][0] * pools[-1][1], pools[-1][1], 1)
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            last, before = pools.pop(), pools.pop()
            pools.append((last[0] + before[0], last[1] + before[1], last[2] + before[2]))
    most = (1 - seam) * (1 - _KEPT)
    slack = [min(max(wishes / weight_, 0.0), most) for wishes, weight_, number in pools for _ in range(number)]
    return [seam / 2 + place * _KEPT + by for place, by in zip(low, slack, strict=True)]


def phase_of(course: Course, before: Ring, curve: Curve, found: list[float], way: int, seam: float) -> float:
    """How far the round is turned so that its stitches stand above those they are worked into; 0 where that is near."""
    x = y = 0.0
    number = 0
    for item, share in zip(course.items, found, strict=True):
        if item.kind == "slip":
            continue
        stand = stand_of(item, before, course, curve)
        if stand is None:
            continue
        there = before.end + before.way * seamless(before.way * (stand - before.end), before.seam)
        angle = 2 * math.pi * (there - way * seamless(share, seam))
        x, y, number = x + math.cos(angle), y + math.sin(angle), number + 1
    if not number:
        return before.end if before.place_shares else 0.0
    phase = math.atan2(y, x) / (2 * math.pi)
    near = 2.2 / max(len(before.place_shares), 8)
    return before.end if abs(within_half(phase - before.end)) < near else phase


def seamless(share: float, seam: float) -> float:
    """A share of the way around as one of the stitches alone, without the seam where they begin and end."""
    return (share % 1.0 - seam / 2) / (1 - seam)


def with_seam(share: float, seam: float) -> float:
    """The other way round."""
    return seam / 2 + share * (1 - seam)


def within_half(share: float) -> float:
    """*share* brought between -1/2 and 1/2."""
    return (share + 0.5) % 1.0 - 0.5


def stand_of(item: Item, before: Ring, course: Course, curve: Curve) -> float | None:
    """The share at which an item stands, as the mean of its parents'; None for a ring."""
    if item.space is not None and item.space < len(before.space_shares):
        return before.space_shares[item.space]
    if not item.parents or not before.place_shares:
        return None
    if course.begins == "chain":
        length = curve.length(before.out)
        quarter = math.pi * before.out / 2
        along = item.parents[0] * WIDTH
        number = course.chains - course.skipped
        if item.parents[0] in (0, number - 1) and not item.far and item.parents[0]:
            return 0.5
        if item.parents[0] == 0:
            return 0.0
        return 1 - (quarter + along) / length if item.far else (quarter + along) / length
    first = before.place_shares[item.parents[0]]
    return first + sum(within_half(before.place_shares[p] - first) for p in item.parents) / len(item.parents)

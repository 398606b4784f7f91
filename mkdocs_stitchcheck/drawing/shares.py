"""How the items of a round share the way around, with room for the lettering, corners and the sides of an oval."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import Counter
from itertools import pairwise

from ..counting.in_full import Course
from .curves import Curve
from .rings import LEAST_ROOM, Ring, corners, course_height, weight
from .standing import LEANING, leans, phase_of, seamless, stand_of, straightened, with_seam
from .symbols import WIDTH, bulge


def ring_of(course: Course, before: Ring, curve: Curve, letters: float, out: float | None) -> Ring:
    weights = [weight(item) for item in course.items]
    total = sum(weights) + (0.5 if course.joined else 0.0)
    if out is not None:
        return _ring_at(out, course, before, curve, weights, letters)
    needed = curve.out_for(total * WIDTH * LEAST_ROOM + letters)
    out = max(before.out + course_height(course), needed)
    for _ in range(40):
        ring = _ring_at(out, course, before, curve, weights, letters)
        if ring.room >= WIDTH * LEAST_ROOM - 0.01:
            break
        out *= min(max((WIDTH * LEAST_ROOM / max(ring.room, 1.0)) ** 0.8, 1.02), 1.25)
    return ring


def _ring_at(
    out: float, course: Course, before: Ring, curve: Curve, weights: list[float], letters: float
) -> Ring:
    around = curve.length(out)
    way = -before.way if course.back else before.way
    sides = _sides(course, before) if curve.straight else []
    anchors = _anchors(course, curve, sides, out) if way == 1 else []
    seam = letters / around
    if anchors:
        seam = _seam(weights, anchors, seam)
    found = _along(weights, seam)
    seams = [seam / 2, 0.0]
    phase = 0.0
    if anchors:
        *moved, first, label = _to_anchors([*found, *seams], [(found[at], share) for at, share in anchors])
        if not sides or not leans(moved, [stand_of(item, before, course, curve) for item in course.items], 2.2 / sum(weights)):
            found, seams = moved, [first, label]
        else:
            anchors = []
    if not anchors:
        phase = phase_of(course, before, curve, found, way, seam)
        if letters:  # rounds in equal parts stay even, so that one part is like the others
            stands = [
                None if (stand := stand_of(item, before, course, curve)) is None
                else with_seam(seamless(way * (stand - phase), before.seam), seam)
                for item in course.items
            ]
            if leans(found, stands, LEANING / sum(weights)):
                found = straightened(found, weights, seam, stands)
    least = _least_room(found, weights, around, letters)
    start, label = (phase + way * seam for seam in seams)
    shares = [phase + way * share for share in found]
    ring = Ring(out, shares, least, start=start, end=phase, label=label, way=way, across=before.across, seam=seam)
    ring.widths = _widths(found, weights)
    for at, (item, share, step) in enumerate(zip(course.items, shares, ring.widths, strict=True)):
        for k in range(item.places):
            ring.place_shares.append(share + way * step * ((k + 0.5) / item.places - 0.5))
            ring.sides.append(sides[at] if sides else None)
        if item.kind == "space":
            ring.space_shares.append(share)
            ring.space_lifts.append(bulge(item.length) if not item.places else 0.0)
    return ring


def _widths(found: list[float], weights: list[float]) -> list[float]:
    """The share of the way around that each item has, up to its neighbours."""
    halves: list[list[float]] = [[] for _ in found]
    for at, after in pairwise(k for k, one in enumerate(weights) if one):
        gap, both = found[after] - found[at], weights[at] + weights[after]
        halves[at].append(gap * weights[at] / both)
        halves[after].append(gap * weights[after] / both)
    return [2 * sum(half) / len(half) if half else 0.0 for half in halves]


def _along(weights: list[float], seam: float) -> list[float]:
    """The middle of each item, one after the other around, with *seam* left free where they begin and end."""
    room = (1 - seam) / sum(weights)
    found, at = [], seam / 2
    for one in weights:
        found.append(at + one * room / 2)
        at += one * room
    return found


def _anchors(
    course: Course, curve: Curve, sides: list[tuple[float, bool] | None], out: float
) -> list[tuple[int, float]]:
    """Items whose place is given, (number, share): corners, and stitches straight beside an oval's chain."""
    if curve.corners:
        return [(at, k / curve.corners) for k, at in enumerate(corners(course))]
    return [(at, _beside(side, out, curve)) for at, side in enumerate(sides) if side is not None]


def _seam(weights: list[float], anchors: list[tuple[int, float]], wanted: float) -> float:
    """The share to leave free so that the seam is *wanted* wide once the anchors are in their places."""
    (first, first_share), (last, last_share) = anchors[0], anchors[-1]
    loose = sum(weights[:first]) + sum(weights[last + 1 :]) + (weights[first] + weights[last]) / 2
    room = first_share + 1 - last_share
    if wanted >= room * 0.9:
        return wanted
    units = loose * wanted / (room - wanted)
    return units / (sum(weights) + units)


def _least_room(found: list[float], weights: list[float], around: float, letters: float) -> float:
    """The width that a stitch has where it is narrowest."""
    standing = [(share, one) for share, one in zip(found, weights, strict=True) if one]
    gaps = [(b - a) * around / ((wa + wb) / 2) for (a, wa), (b, wb) in pairwise(standing)]
    (first, w_first), (last, w_last) = standing[0], standing[-1]
    gaps.append(((first + 1 - last) * around - letters * 0.98) / ((w_first + w_last) / 2))
    return min(gaps)


def _sides(course: Course, before: Ring) -> list[tuple[float, bool] | None]:
    """Of an oval's round, the stitches straight above or below the chain: the only ones on a stitch that is so."""
    children = Counter((item.parents, item.far) for item in course.items)
    found: list[tuple[float, bool] | None] = []
    for item in course.items:
        alone = item.kind == "stitch" and len(item.parents) == 1 and children[item.parents, item.far] == 1
        side = before.sides[item.parents[0]] if alone and before.sides else None
        found.append((side[0], item.far if course.begins == "chain" else side[1]) if side is not None else None)
    return found


def _beside(side: tuple[float, bool], out: float, curve: Curve) -> float:
    """The share of the way around an oval that lies straight above, or below, a place of its chain."""
    x, far = side
    quarter, half = math.pi * out / 2, curve.straight / 2
    along = 3 * quarter + curve.straight + (x + half) if far else quarter + (half - x)
    return along / curve.length(out)


def _to_anchors(shares: list[float], anchors: list[tuple[float, float]]) -> list[float]:
    """Moves the anchors (share, its new share), in order, to where they belong, what lies between them in proportion."""
    around = [(anchors[-1][0] - 1, anchors[-1][1] - 1), *anchors, (anchors[0][0] + 1, anchors[0][1] + 1)]
    found = []
    places = [place for place, _new in around]
    for share in shares:
        side = bisect_right(places, share) - 1
        side = min(max(side, 0), len(around) - 2)
        (low, new_low), (high, new_high) = around[side], around[side + 1]
        found.append(new_low + (share - low) / ((high - low) or 1.0) * (new_high - new_low))
    return found

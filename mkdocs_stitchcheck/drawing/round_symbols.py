"""The symbols of a round, each from its foot to its head; the lettering at its end and the triangle at the start."""

from __future__ import annotations

import math

from ..counting.in_full import Course
from ..counting.replaying import Item
from .curves import Curve
from .layout import Layout, Lettering, narrowed, triangle
from .rings import Ring, spot, weight
from .symbols import GAP, ROW, WIDTH, Point, Symbol


def put_symbols(layout: Layout, number: int, course: Course, before: Ring, ring: Ring, curve: Curve) -> None:
    into: dict[int, list[int]] = {}
    for at, item in enumerate(course.items):
        if item.space is not None and item.kind != "slip":
            into.setdefault(item.space, []).append(at)
    around = curve.length(ring.out)
    symbols: list[Symbol] = []
    lift = -1 if ring.across else 1  # closing rounds grow inward
    for at, (item, share) in enumerate(zip(course.items, ring.shares, strict=True)):
        head = spot(curve, ring, ring.out - lift * GAP / 2, share)
        feet = _feet(item, at, into, course, before, curve, share)
        if item.kind == "space":
            half = (ring.widths[at] if item.places else ring.room * weight(item) / around) / 2 * 0.94
            ends = [spot(curve, ring, ring.out - lift * GAP, share + by * ring.way) for by in (half, -half)]
            feet, head = (ends[0],), ends[1]
            if ring.way == -1:
                feet, head = (head,), feet[0]
        elif item.kind == "picot":
            near = ring.shares[at - 1] if at else share
            feet, head = (spot(curve, ring, ring.out, near),), spot(curve, ring, ring.out + lift * 8, near)
        elif item.kind == "slip":
            head = feet[0]
        elif item.kind == "height":
            inner = before.out + lift * GAP / 2
            reach = min(item.length * 12.0, abs(ring.out - before.out) - GAP)
            feet, head = (spot(curve, ring, inner, share),), spot(curve, ring, inner + lift * reach, share)
        symbols.append(Symbol(number, item, feet, head, ring.room))
    layout.symbols += narrowed(symbols)
    layout.smallest = min(layout.smallest, ring.room)
    if course.joined:
        layout.joins.append(spot(curve, ring, ring.out - lift * GAP, ring.start - ring.way * 5 / around))


def _feet(
    item: Item, at: int, into: dict[int, list[int]], course: Course, before: Ring, curve: Curve, share: float
) -> tuple[Point, ...]:
    inner = before.out + (-GAP / 2 if before.across else GAP / 2)
    if item.space is not None and item.space < len(before.space_shares):
        fellows = into.get(item.space, [at])
        place = fellows.index(at) - (len(fellows) - 1) / 2 if at in fellows else 0.0
        spread = min(7.0, 22.0 / len(fellows)) * place / curve.length(before.out) * before.way
        lift = before.space_lifts[item.space] * 0.8
        return (spot(curve, before, inner + lift, before.space_shares[item.space] + spread),)
    if not item.parents or not before.place_shares:
        return (spot(curve, before, inner, share),)
    if course.begins == "chain":
        return (_on_chain(item, curve, course, share),)
    return tuple(spot(curve, before, inner, before.place_shares[parent]) for parent in item.parents)


def _on_chain(item: Item, curve: Curve, course: Course, share: float) -> Point:
    """Above or below a chain, or around its end."""
    number = course.chains - course.skipped
    x = curve.straight / 2 - item.parents[0] * WIDTH
    if item.parents[0] in (0, number - 1):
        hx, hy = curve.point(34.0, share)
        length = math.hypot(hx - x, hy) or 1.0
        return x + (hx - x) / length * 9, hy / length * 7
    return x, 7.0 if item.far else -7.0


def put_lettering(layout: Layout, curve: Curve, ring: Ring, label: str, number: int, course: Course) -> None:
    """The number and count of a round in the room at its end."""
    aside = 9 * (number == 0) - 7 * course.joined if not (number == 0 and course.joined) else 4
    share = ring.label - ring.way * aside / curve.length(ring.out) * (1 if aside != -7 else -1)
    x, y = spot(curve, ring, ring.out - (-1 if ring.across else 1) * ROW / 2, share)
    layout.letters.append(Lettering(x, y, label, upright=bool(curve.straight)))


def start_triangle(curve: Curve, ring: Ring) -> tuple[Point, ...]:
    """The triangle before the first stitch, the way the work goes."""
    around = curve.length(ring.out)
    tip, tail = (curve.point(ring.out - ROW / 2, ring.start - ring.way * back / around) for back in (2.0, 14.0))
    return triangle(tip, tail)

"""A chart in the round: every stitch stands on the one it is worked into, and the rounds lie around each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..counting.in_full import Course
from .beginnings import base_of, line_of
from .curves import Curve
from .figures import text_width
from .folding import Drawn
from .layout import Layout
from .rings import LEAST_ROOM, RING, Ring, course_height, flipped_ring
from .round_symbols import put_lettering, put_symbols, start_triangle
from .shares import ring_of
from .symbols import ROW, WIDTH, height_key

_PARTS = (6, 8, 7, 5, 12, 10, 9, 4, 3)  # rounds that are alike in so many parts; six is the usual


def in_rounds(drawn: Sequence[Drawn], labels: bool = True, turn: float = 0.0) -> tuple[Layout, list[Ring], Curve]:
    """Places every item of the rounds *drawn*; with *labels* each round's number and count stand at its end.

    Rounds that close a ball go inward again, above those that open it. *turn* turns the whole, in degrees.
    """
    first = drawn[0].course
    curve = line_of([one.course for one in drawn], turn)
    layout = Layout()
    before = base_of(first, curve, layout)
    rings: list[Ring] = []
    closing = closing_from(drawn)
    outs: list[float] = []
    for number, one in enumerate(drawn):
        label = _label(one) if labels else ""
        letters = _label_room(label, number, one.course, bool(curve.corners or curve.straight))
        if number == closing:
            outs = _closing_outs(drawn[number:], labels)
            before = replace(before, out=outs[0], across=before.out + outs[0] + (2 * ROW if labels else ROW))
        out = outs[number - closing + 1] if outs else None
        ring = ring_of(one.course, before, curve, letters, out)
        put_symbols(layout, number, one.course, before, ring, curve)
        if label:
            put_lettering(layout, curve, ring, label, number, one.course)
        if number == 0 and labels:
            layout.start = start_triangle(curve, ring)
        rings.append(ring)
        before = flipped_ring(ring) if one.flipped else ring
    return layout, rings, curve


def closing_from(drawn: Sequence[Drawn]) -> int:
    """The first of the rounds that draw a ball shut; as many as there are rounds where none do."""
    counts = [one.course.count for one in drawn]
    number = len(drawn)
    if drawn[0].course.begins != "ring" or counts[-1] * 2 > max(counts) or number < 3:
        return number
    at = number - 1
    while at > 0 and counts[at] <= counts[at - 1]:
        at -= 1
    at += 1
    while at < number and counts[at] == counts[at - 1]:
        at += 1
    spaces = any(item.kind == "space" for one in drawn[at - 1 :] for item in one.course.items)
    return number if spaces or at >= number else at


def _closing_outs(closing: Sequence[Drawn], labels: bool) -> list[float]:
    """How far from its middle each closing round lies, that which it stands on first: reckoned from the hole outwards."""
    outs = [RING]
    for number in range(len(closing) - 1, -1, -1):
        course = closing[number].course
        letters = _label_room(_label(closing[number]) if labels else "", 1, course)
        around = len(course.items) * WIDTH * LEAST_ROOM + letters
        outs[0] = max(outs[0], around / (2 * math.pi))
        outs.insert(0, outs[0] + course_height(course))
    return outs


def _label(one: Drawn) -> str:
    said = f"{one.label} · {one.course.count}" if one.label else str(one.course.count)
    return f"{said} {one.color}" if one.color else said


def _label_room(label: str, number: int, course: Course, straight: bool = False) -> float:
    """The room that a round's lettering takes, with the triangle at the first one's and the dot that closes a round."""
    if not label:
        return 0.0
    room = text_width(label) + 12 + 14 * course.joined
    return (room + 16) * (1.0 if straight else 1.5) if number == 0 else room  # the first lies so near the middle that its line is short


def equal_parts(drawn: Sequence[Drawn]) -> int:
    """In how many equal parts every round falls; 0 where there is no such number."""
    if drawn[0].course.begins != "ring" or any(one.course.joined or one.course.back for one in drawn):
        return 0
    return next((parts for parts in _PARTS if all(_in_parts(one, drawn, at, parts) for at, one in enumerate(drawn))), 0)


def _in_parts(one: Drawn, drawn: Sequence[Drawn], at: int, parts: int) -> bool:
    items, total = one.course.items, len(one.course.items)
    below = drawn[at - 1].course.count if at else 0
    if total % parts or below % parts or any(item.kind != "stitch" for item in items):
        return False
    step, under = total // parts, below // parts
    for k, item in enumerate(items):
        other = items[(k + step) % total]
        if (item.kind, item.color, item.loop, item.length, height_key(item)) != (
            other.kind, other.color, other.loop, other.length, height_key(other)
        ):
            return False
        if below and tuple((parent + under) % below for parent in item.parents) != other.parents:
            return False
    return True

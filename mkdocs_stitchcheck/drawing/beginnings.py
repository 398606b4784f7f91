"""What a chart in the round begins with: its line (circle, corners, oval), and the ring or chain in its middle."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..counting.in_full import Course
from .curves import Curve
from .figures import num
from .layout import Layout
from .rings import RING, Ring, corners
from .symbols import WIDTH


def line_of(courses: Sequence[Course], turn: float) -> Curve:
    first = courses[0]
    if first.begins == "chain":
        return Curve(straight=max(first.chains - first.skipped - 1, 1) * WIDTH, turn=0.0)
    numbers = {len(corners(course)) for course in courses}
    if len(numbers) == 1 and 3 <= (number := numbers.pop()) <= 8:
        return Curve(corners=number, turn=90.0 + 180.0 / number)
    return Curve(turn=90.0 + turn)


def base_of(first: Course, curve: Curve, layout: Layout) -> Ring:
    """What the first round stands on."""
    if first.begins == "chain":
        return _chain_base(first, curve, layout)
    if first.begins == "loop":
        number = first.chains
        out = max(number * WIDTH * 0.8 / (2 * math.pi), RING)
        shares = [(k + 0.5) / number for k in range(number)]
        _chain_ring(layout, number, out)
        return Ring(out, shares, WIDTH, shares)
    if first.begins == "ring" and first.chains:
        out = max(first.chains * 10 / (2 * math.pi), RING)
        _chain_ring(layout, first.chains, out)
        return Ring(out + 3, [], WIDTH)
    layout.lines.append(f"M{num(-RING)} 0a{num(RING)} {num(RING)} 0 1 0 {num(2 * RING)} 0a{num(RING)} {num(RING)} 0 1 0 {num(-2 * RING)} 0")
    return Ring(RING, [], WIDTH)


def _chain_ring(layout: Layout, number: int, out: float) -> None:
    """Chains closed to a ring."""
    half = math.pi * out / number * 0.9
    for k in range(min(number, 400)):
        angle = 2 * math.pi * (k + 0.5) / number
        degrees = math.degrees(angle) + 90
        cx, cy = out * math.cos(angle), out * math.sin(angle)
        x, y = cx - half * math.cos(math.radians(degrees)), cy - half * math.sin(math.radians(degrees))
        layout.lines.append(_oval_at(x, y, half, 3.2, degrees))


def _oval_at(x: float, y: float, rx: float, ry: float, degrees: float) -> str:
    turn = math.radians(degrees)
    dx, dy = 2 * rx * math.cos(turn), 2 * rx * math.sin(turn)
    flags = f"a{num(rx)} {num(ry)} {num(degrees)} 1 0 "
    return f"M{num(x)} {num(y)}{flags}{num(dx)} {num(dy)}{flags}{num(-dx)} {num(-dy)}"


def _chain_base(first: Course, curve: Curve, layout: Layout) -> Ring:
    """The chain of an oval, its first stitch at the right."""
    number = first.chains - first.skipped
    for k in range(number):
        x = curve.straight / 2 - k * WIDTH
        layout.lines.append(_oval_at(x - WIDTH * 0.42, 0, WIDTH * 0.42, 4.5, 0))
    half = curve.straight / 2
    sides = [(half - k * WIDTH, False) if 0 < k < number - 1 else None for k in range(number)]
    return Ring(6.0, [], WIDTH, [0.0] * number, sides=sides)

"""The symbols of a chart, each drawn from its foot to its head.

A stitch is a stem; a bar across its middle makes it sc (+), a bar across its head hdc (T), slashes count the yarn overs
of taller ones. Two on one foot are an increase, two feet under one head a decrease; a cluster is closed at both ends, a
popcorn has an oval for a head, a puff is round; a hook at the foot goes around a post; an arc below the foot is a loop.
Common practice in charts: Craft Yarn Council, *Standards & Guidelines* (2018), and JIS L 0201-1995; details from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..counting.replaying import Item
from .figures import num

WIDTH = 26.0  # of a stitch, in units
ROW = 26.0  # the height of a row of sc
GAP = 4.0  # between a head and the foot upon it
BAR = 8.0  # half of a bar
_SLASH = 6.5
_SLASHES = {"dc": 1, "tr": 2, "dtr": 3, "trtr": 4}
_TALL = {"hdc", *_SLASHES}

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Symbol:
    """An item in its place. ``feet`` are where it stands (several under a decrease), ``head`` its top, ``room`` the width
    it has. ``course`` is the number of its course among those drawn, ``item`` what it is."""

    course: int
    item: Item
    feet: tuple[Point, ...]
    head: Point
    room: float = WIDTH

    @property
    def middle(self) -> Point:
        """The middle of the symbol."""
        x = sum(x for x, _y in self.feet) / len(self.feet)
        y = sum(y for _x, y in self.feet) / len(self.feet)
        return (x + self.head[0]) / 2, (y + self.head[1]) / 2


def height_key(item: Item) -> str:
    """The plain stitch that an item is drawn like: "sc", "dc" ..."""
    stitch = item.stitch
    if stitch is None:
        return "sc"
    key = stitch.base or stitch.key
    if key in _TALL or key == "sc":
        return key
    return ("sc", "sc", "hdc", "dc", "tr", "dtr", "trtr")[min(max(round(stitch.height), 0), 6)]


def drawn(symbol: Symbol) -> str:
    """Path data of a symbol in strokes; it begins with its only ``M``."""
    item = symbol.item
    if item.kind == "space":
        return _along(symbol)
    if item.kind in ("turning", "height"):
        return _stacked(symbol)
    if item.kind == "picot":
        return _picot(symbol)
    stitch = item.stitch
    if item.kind == "slip" or stitch is not None and stitch.kind == "slip":
        x, y = symbol.middle
        return f"M{num(x)} {num(y)}{_disc(2.6)}"
    pen = _Pen(symbol)
    if stitch is not None and stitch.kind == "group":
        return pen.group(stitch.key)
    return pen.stems()


class _Pen:
    """Draws stems: starts at the head, so that several feet hang from it."""

    def __init__(self, symbol: Symbol) -> None:
        self.symbol = symbol
        self.key = height_key(symbol.item)
        self.bar = min(BAR, symbol.room * 0.36)
        self.at = symbol.head
        self.d = [f"M{num(symbol.head[0])} {num(symbol.head[1])}"]

    def to(self, point: Point, draw: bool = True) -> None:
        """On to *point*."""
        step = (point[0] - self.at[0], point[1] - self.at[1])
        self.d.append(f"{'l' if draw else 'm'}{_pair(step)}")
        self.at = point

    def stems(self) -> str:
        """The stem or stems with what crosses them."""
        head = self.symbol.head
        slanted = len(self.symbol.feet) > 1
        for foot in self.symbol.feet:
            self.to(head, draw=False) if self.at != head else None
            self.to(foot)
            self._crossings(foot, head, slanted)
        if self.key in _TALL:
            self._bar_at_head()
        self._below()
        return "".join(self.d)

    def _crossings(self, foot: Point, head: Point, slanted: bool) -> None:
        along, across = _directions(foot, head)
        length = math.dist(foot, head)
        if self.key == "sc":
            half = self.bar * (0.62 if slanted else 1)
            middle = _on(foot, along, length * 0.5)
            self._line(_on(middle, across, -half), _on(middle, across, half))
            stitch = self.symbol.item.stitch
            if stitch is not None and stitch.key not in ("sc", "dec", "sc dec") and stitch.kind == "plain":
                upper = _on(foot, along, length * 0.8)  # another stitch of this height: a second, shorter bar
                self._line(_on(upper, across, -half * 0.55), _on(upper, across, half * 0.55))
        half = min(_SLASH, self.bar)
        number = _SLASHES.get(self.key, 0)
        for k in range(number):
            at = _on(foot, along, length * 0.52 + (k - (number - 1) / 2) * 6.5)
            self._line(_on(_on(at, across, -half), along, -half * 0.45), _on(_on(at, across, half), along, half * 0.45))

    def _bar_at_head(self) -> None:
        _along, across = _directions(self._foot(), self.symbol.head)
        self._line(_on(self.symbol.head, across, -self.bar), _on(self.symbol.head, across, self.bar))

    def _foot(self) -> Point:
        feet = self.symbol.feet
        return sum(x for x, _y in feet) / len(feet), sum(y for _x, y in feet) / len(feet)

    def _below(self) -> None:
        """The hook around a post, the arc of a loop."""
        item = self.symbol.item
        foot = self._foot()
        along, across = _directions(foot, self.symbol.head)
        if item.stitch is not None and item.stitch.kind == "post":
            side = 1 if item.stitch.key.startswith("FP") else -1
            self.to(foot, draw=False)
            self._curve(_on(_on(foot, along, -5), across, side * 7), _on(foot, across, side * 7))
        if item.loop in ("back", "front"):
            lift = -4.5 if item.loop == "back" else 4.5
            base = _on(foot, along, -3.5 if item.loop == "front" else 0)
            self.to(_on(base, across, -5.5), draw=False)
            self._curve(_on(base, along, lift * 1.6), _on(base, across, 5.5))

    def group(self, key: str) -> str:
        """Several stems in one place: a cluster, a bobble, a popcorn, a puff."""
        head, foot = self.symbol.head, self._foot()
        along, across = _directions(foot, head)
        wide = min(8.0, self.symbol.room * 0.34)
        middle = _on(foot, along, math.dist(foot, head) * 0.5)
        for side in (-1, 0, 1):
            self.to(head, draw=False) if self.at != head else None
            if side:
                self._curve(_on(middle, across, side * wide * 1.9), foot)
            else:
                self.to(foot)
        if key == "popcorn":
            self.to(_on(head, across, -wide), draw=False)
            self.d.append(_oval(wide, 3.2, _degrees(across)))
        elif key != "puff":
            self._bar_at_head()
            for side in (-1, 0, 1):
                at = _on(middle, across, side * wide * 0.95)
                self._line(_on(_on(at, across, -2.6), along, -1.6), _on(_on(at, across, 2.6), along, 1.6))
        self._below()
        return "".join(self.d)

    def _line(self, one: Point, other: Point) -> None:
        self.to(one, draw=False)
        self.to(other)

    def _curve(self, control: Point, end: Point) -> None:
        first = (control[0] - self.at[0], control[1] - self.at[1])
        second = (end[0] - self.at[0], end[1] - self.at[1])
        self.d.append(f"q{_pair(first)} {_pair(second)}")
        self.at = end


def _pair(step: Point) -> str:
    y = num(step[1])
    return f"{num(step[0])}{'' if y.startswith('-') else ' '}{y}"


def _directions(foot: Point, head: Point) -> tuple[Point, Point]:
    """Unit steps along a stem, from foot to head, and across it to the right."""
    length = math.dist(foot, head) or 1.0
    along = ((head[0] - foot[0]) / length, (head[1] - foot[1]) / length)
    return along, (-along[1], along[0])


def _on(point: Point, direction: Point, by: float) -> Point:
    return point[0] + direction[0] * by, point[1] + direction[1] * by


def _degrees(direction: Point) -> float:
    return math.degrees(math.atan2(direction[1], direction[0]))


def _oval(rx: float, ry: float, degrees: float) -> str:
    """An oval that begins at its end on the left of *degrees*."""
    turn = math.radians(degrees)
    step = (2 * rx * math.cos(turn), 2 * rx * math.sin(turn))
    back = (-step[0], -step[1])
    flags = f"a{num(rx)} {num(ry)} {num(degrees)} 1 0 "
    return f"{flags}{_pair(step)}{flags}{_pair(back)}"


def _disc(radius: float) -> str:
    """A dot, filled by going around in smaller and smaller rings."""
    return "".join(f"m{num(-r)} 0{_oval(r, r, 0)}m{num(r)} 0" for r in (radius, radius * 0.36))


def _along(symbol: Symbol) -> str:
    """Chains between stitches: ovals one after the other, bulging where they are many."""
    (start, *_), end = symbol.feet, symbol.head
    number = symbol.item.length
    shown = min(number, 12)
    along, across = _directions(start, end)
    room = math.dist(start, end) or 1.0
    rise = bulge(symbol.item.length)
    half = max(min(room / shown / 2 - 0.8, 8.0), 2.4)
    parts: list[str] = []
    at: Point | None = None
    for k in range(shown):
        share = (k + 0.5) / shown
        lift = rise * 4 * share * (1 - share)
        tilt = math.degrees(math.atan2(rise * 4 * (1 - 2 * share), room))
        middle = _on(_on(start, along, room * share), across, -lift)
        angle = _degrees(along) - tilt
        turn = math.radians(angle)
        first = (middle[0] - half * math.cos(turn), middle[1] - half * math.sin(turn))
        parts.append(f"M{_pair(first)}" if at is None else f"m{_pair((first[0] - at[0], first[1] - at[1]))}")
        parts.append(_oval(half, min(3.6, half * 0.62), angle))
        at = first
    return "".join(parts)


def bulge(length: int) -> float:
    """How far the middle of a chain of *length* stands out."""
    return 0.0 if length < 3 else min(3.0 + 2.0 * length, 18.0)


def _stacked(symbol: Symbol) -> str:
    """A turning chain: ovals from foot to head."""
    foot, head = symbol.feet[0], symbol.head
    number = max(min(symbol.item.length, 12), 1)
    along, _across = _directions(foot, head)
    length = math.dist(foot, head)
    half = length / number / 2 * 0.94
    parts: list[str] = []
    for k in range(number):
        first = _on(foot, along, length * k / number + (length / number / 2 - half))
        parts.append(f"M{_pair(first)}" if not parts else f"m{_pair(_on((0, 0), along, length / number))}")
        parts.append(_oval(half, min(3.8, max(half * 0.7, 2.6)), _degrees(along)))
    return "".join(parts)


def _picot(symbol: Symbol) -> str:
    """Three ovals around a dot on the head of the stitch before."""
    along, across = _directions(symbol.feet[0], symbol.head)
    start = symbol.feet[0]
    parts = [f"M{_pair(start)}"]
    for side in (-50.0, 0.0, 50.0):
        parts.append(_oval(4.2, 2.2, _degrees(along) + side))
    parts.append(_disc(1.6))
    del across
    return "".join(parts)

"""What a chart consists of once everything has its place."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from .figures import TEXT_HEIGHT, num, text_width
from .symbols import Symbol


@dataclass(frozen=True, slots=True)
class Lettering:
    """Words on a chart, their middle line at ``y``; ``anchor`` start, middle or end."""

    x: float
    y: float
    text: str
    anchor: str = "middle"
    upright: bool = False  # turned a quarter, read from below

    @property
    def span(self) -> tuple[float, float]:
        """From left to right."""
        width = TEXT_HEIGHT if self.upright else text_width(self.text)
        left = self.x - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return left, left + width


@dataclass(slots=True)
class Layout:
    """``symbols`` in order; ``lines`` are further strokes as path data (arrows, the ring, rules), ``dashes`` broken ones.
    ``joins`` are the dots that close rounds, ``start`` the triangle at the first stitch. ``smallest`` is the least room
    that a symbol has, ``reach`` further points that must be on the drawing."""

    symbols: list[Symbol] = field(default_factory=list)
    letters: list[Lettering] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)
    dashes: list[str] = field(default_factory=list)
    joins: list[tuple[float, float]] = field(default_factory=list)
    start: tuple[tuple[float, float], ...] = ()
    smallest: float = 26.0
    reach: list[tuple[float, float]] = field(default_factory=list)

    def box(self, margin: float = 8.0) -> tuple[float, float, float, float]:
        """Left, top, width and height of everything."""
        xs, ys = list(self._xs()), list(self._ys())
        left, top = min(xs) - margin, min(ys) - margin
        return left, top, max(xs) + margin - left, max(ys) + margin - top

    def _points(self) -> Iterable[tuple[float, float]]:
        for symbol in self.symbols:
            yield symbol.head
            yield from symbol.feet
        yield from self.reach

    def _xs(self) -> Iterable[float]:
        for x, _y in self._points():
            yield x - 10
            yield x + 10
        for words in self.letters:
            yield from words.span

    def _ys(self) -> Iterable[float]:
        for _x, y in self._points():
            yield y - 6
            yield y + 6
        for words in self.letters:
            half = text_width(words.text) / 2 if words.upright else TEXT_HEIGHT / 2
            yield words.y - half
            yield words.y + half


def narrowed(symbols: list[Symbol]) -> list[Symbol]:
    """The symbols of a round, each with no more room than its neighbours leave it where stems lean."""
    found = list(symbols)
    standing = [at for at, symbol in enumerate(symbols) if symbol.item.kind in ("stitch", "turning")]
    for at, after in zip(standing, standing[1:] + standing[:1], strict=True):
        one, other = symbols[at], symbols[after]
        if at == after or set(one.feet) & set(other.feet):
            continue
        room = 1.15 * min(_away(one.middle, other), _away(other.middle, one))
        for place in (at, after):
            if room < found[place].room:
                found[place] = replace(found[place], room=room)
    return found


def _away(point: tuple[float, float], symbol: Symbol) -> float:
    """How far *point* is from the nearest stem of *symbol*."""
    return min(_from_line(point, foot, symbol.head) for foot in symbol.feet)


def _from_line(point: tuple[float, float], one: tuple[float, float], other: tuple[float, float]) -> float:
    dx, dy = other[0] - one[0], other[1] - one[1]
    length = dx * dx + dy * dy
    share = ((point[0] - one[0]) * dx + (point[1] - one[1]) * dy) / length if length else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (one[0] + share * dx, one[1] + share * dy))


def arrow(tip: tuple[float, float], tail: tuple[float, float], size: float = 7.0) -> str:
    """An arrow as path data, from *tail* to *tip*."""
    wings = triangle(tip, tail, size)
    (tx, ty), (ax, ay), (bx, by) = wings
    return f"M{num(tail[0])} {num(tail[1])}L{num(tx)} {num(ty)}M{num(ax)} {num(ay)}L{num(tx)} {num(ty)}L{num(bx)} {num(by)}"


def triangle(tip: tuple[float, float], tail: tuple[float, float], size: float = 9.0) -> tuple[tuple[float, float], ...]:
    """A triangle with its point at *tip*, away from *tail*."""
    (tx, ty), (sx, sy) = tip, tail
    length = ((tx - sx) ** 2 + (ty - sy) ** 2) ** 0.5 or 1.0
    ux, uy = (tx - sx) / length, (ty - sy) / length
    half = size * 0.55
    return (tip, (tx - ux * size - uy * half, ty - uy * size + ux * half), (tx - ux * size + uy * half, ty - uy * size - ux * half))

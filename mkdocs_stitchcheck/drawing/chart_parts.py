"""One of the equal parts of a chart in the round, upright and large, with the whole of it small beside."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .curves import Curve
from .figures import Shape, num, path, shape, there
from .folding import Drawn
from .layout import Layout, Lettering
from .rings import Ring
from .rounds import in_rounds
from .symbols import ROW, Symbol


def part_of(parts: Sequence[Drawn], number: int) -> Part:
    """One part, turned so that its middle line goes through the first stitch."""
    _layout, rings, _curve = in_rounds(parts, labels=False)
    return Part(*in_rounds(parts, labels=False, turn=-360.0 * rings[0].shares[0]), parts, number)


class Part:
    """One of the equal parts of a chart in the round, upright and large, and the whole of it small."""

    def __init__(self, whole: Layout, rings: list[Ring], curve: Curve, drawn_: Sequence[Drawn], number: int) -> None:
        self.whole, self.rings, self.curve, self.drawn, self.number = whole, rings, curve, drawn_, number
        self.half = math.pi / number
        self.middle = rings[0].shares[0]
        self.opening = [ring for ring in rings if not ring.across]
        self.scale = min(0.24, 70.0 / self.opening[-1].out)
        self.at = (0.0, 0.0)

    def layout(self) -> Layout:
        """The part alone, its middle line upright, with the rounds' numbers and counts at its right edge."""
        found = Layout(smallest=self.whole.smallest)
        share = self.half / math.pi / 2
        for course, ring in enumerate(self.rings):
            symbols = [s for s in self.whole.symbols if s.course == course]
            wanted = len(symbols) // self.number
            # The part begins where the first stitch after its right edge stands; the rest follows in order.
            inside = [(at - self.middle + share + 1e-6) % 1.0 < 2 * share for at in ring.shares]
            start = next((k for k in range(len(symbols)) if inside[k] and not inside[k - 1]), 0)
            found.symbols += [symbols[(start + k) % len(symbols)] for k in range(wanted)]
            self._letter(found, course, ring)
        across = max((ring.across for ring in self.rings), default=0.0)
        for top, sign, out in ((0.0, -1, self.opening[-1].out), (-across, 1, across - self.opening[-1].out)):
            if sign < 0 or across:
                edge = out + 6 if sign < 0 else out - 6
                for side in (-1, 1):
                    x, y = edge * math.sin(self.half) * side, top + sign * edge * math.cos(self.half)
                    found.dashes.append(f"M0 {num(top)}L{num(x)} {num(y)}")
                    found.reach.append((x, y))
                found.reach.append((0.0, top))
        small = self.opening[-1].out * self.scale
        self.at = (-self.opening[-1].out * math.sin(self.half) + small * 0.7, -small - 2)
        found.reach += [(self.at[0] - small, self.at[1] - small), (self.at[0] + small, self.at[1] + small)]
        return found

    def _letter(self, found: Layout, course: int, ring: Ring) -> None:
        one = self.drawn[course]
        each = one.course.count // self.number
        label = f"{one.label} · " if one.label else ""
        out = ring.out + (ROW / 2 if ring.across else -ROW / 2)
        x, y = out * math.sin(self.half), -out * math.cos(self.half)
        y = -ring.across - y if ring.across else y
        found.letters.append(Lettering(x + 14, y, f"{label}{self.number} × {each} = {one.course.count}", "start"))

    def small(self) -> tuple[Shape, ...]:
        """The whole: its rounds as circles, a dot where stitches are added or taken away, this part marked."""
        x, y = self.at
        circles = [
            shape("circle", cx=x, cy=y, r=ring.out * self.scale, stroke_width=(0.7, 1.4)[at % 2])
            for at, ring in enumerate(self.opening)
        ]
        out = (self.opening[-1].out + 10) * self.scale
        dx, dy = out * math.sin(self.half), out * math.cos(self.half)
        edge = path(f"M{num(x)} {num(y)}l{num(dx)} {num(-dy)}A{num(out)} {num(out)} 0 0 0 {num(x - dx)} {num(y - dy)}Z",
                    stroke_width=2.4)
        dots = "".join(
            f"M{num(x + s.head[0] * self.scale)} {num(y + s.head[1] * self.scale)}h0"
            for s in self.whole.symbols if s.course < len(self.opening) and self._shapes(s)
        )
        return there((*circles, edge, path(dots, stroke_width=3.6, stroke_linecap="round")))

    def _shapes(self, symbol: Symbol) -> bool:
        """Whether it is a decrease, or the first of several in one place."""
        if len(symbol.item.parents) > 1:
            return True
        parents = symbol.item.parents
        if not parents or symbol.item.kind != "stitch":
            return False
        fellow = next((s for s in self.whole.symbols if s.course == symbol.course and s.item.parents == parents), symbol)
        return fellow is symbol and any(
            s is not symbol and s.course == symbol.course and s.item.parents == parents for s in self.whole.symbols
        )

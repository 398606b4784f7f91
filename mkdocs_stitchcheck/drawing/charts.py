"""The chart of a piece: laid out in the round or in rows, with its marks for colours, its key and its words."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from ..counting.in_full import Course, InFull
from ..counting.replaying import Item
from .curves import Curve
from .figures import TEXT_HEIGHT, Figure, Shape, num, path, shape, there, words_at
from .folding import Drawn, folded
from .layout import Layout, Lettering
from .rounds import Ring, equal_parts, in_rounds
from .rows import in_rows
from .symbols import ROW, WIDTH, Symbol, drawn

PAPER = (172.0, 225.0)  # the room on a sheet, in mm
LEAST_MM = 4.0
MOST_SYMBOLS = 2_500
LEAST_ROOM_LEFT = 3.0  # in units, that the neighbours of a symbol must leave it
_SYMBOL = 18.0  # the height of sc, in units
_PART_FROM = 200.0  # a chart that reaches further out is drawn in part
STROKES = (1.5, 2.5)  # of odd and even rounds
_PADS = ("circle", "square", "diamond", "triangle")


@dataclass(frozen=True, slots=True)
class Chart:
    """``figure`` as right-handers work, ``mirrored`` as left-handers do; ``symbols`` the kinds of items in it, for a key.

    ``pads`` say by which mark each further colour of a round is told: (colour key, "circle"), ``letters`` which colours
    stand as letters beside the rounds' counts. ``notes`` are sentences for readers;
    ``why_not`` is set, and there is no figure, where no chart can be drawn.
    """

    figure: Figure | None = None
    mirrored: Figure | None = None
    symbols: tuple[Item, ...] = ()
    pads: tuple[tuple[str, str], ...] = ()
    letters: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    why_not: str = ""
    layout: Layout | None = None
    drawn: tuple[Drawn, ...] = field(default=(), compare=False)


def chart_of(
    name: str, full: InFull, palette: Mapping[str, str | None], colors: Sequence[str] = (), address: str = ""
) -> Chart:
    """The chart of the piece *name*. *palette* gives each colour's value where it is known, *colors* their order. With an
    *address*, an id on the page, the mirrored edition shows the same strokes from the other side; else it has its own."""
    if full.why_not:
        return Chart(why_not=full.why_not)
    if not full.courses:
        return Chart(why_not="there are no rounds in it")
    parts = folded(full.courses)
    if sum(len(one.course.items) for one in parts) > MOST_SYMBOLS:
        return Chart(why_not="there are too many stitches in it to be told apart")
    parts = _lettered(parts)
    pads = _pads([one.course for one in parts if len(_colors(one.course)) > 1], colors)
    letters = tuple(dict.fromkeys(one.color for one in parts if one.color))
    flat = parts[0].course.kind == "row"
    notes: list[str] = []
    if flat:
        layout, view = in_rows(parts), None
    else:
        layout, rings, _curve = in_rounds(parts)
        number = equal_parts(parts) if max(ring.out for ring in rings) > _PART_FROM else 0
        view = _part(parts, number) if number else None
        if view is not None:
            layout = view.layout()
            notes.append(f"One of {number} equal parts, drawn large: work it {number} times around.")
    if any("–" in one.label for one in parts):
        alike = ", ".join(one.label for one in parts if "–" in one.label)
        notes.append(f"Rounds that are alike are drawn once: {alike}.")
    leaning = next((s for s in layout.symbols if s.room < LEAST_ROOM_LEFT and s.item.kind == "stitch"), None)
    if leaning is not None:
        one = parts[leaning.course].course
        return Chart(why_not=f"the stitches of {one.label} lean too far to be told apart")
    words = _words(name, full.courses, flat)
    picture = _Picture(layout, pads, palette, view.small() if view is not None else (), address, parts)
    figure = picture.figure(words, mirrored=False)
    if _SYMBOL * figure.unit_mm < LEAST_MM:
        notes.append("On paper its symbols come out smaller than 4 mm: there the words serve better.")
    return Chart(
        figure, picture.figure(f"{words} Mirrored, for left-handers.", mirrored=True), _kinds(layout.symbols),
        tuple(pads.items()), letters, tuple(notes), layout=layout, drawn=tuple(parts),
    )


def _kinds(symbols: Sequence[Symbol]) -> tuple[Item, ...]:
    """One item of each kind that a key explains, in order."""
    found: dict[tuple[str, str, str, int], Item] = {}
    for symbol in symbols:
        item = symbol.item
        key = item.stitch.key if item.stitch is not None else ""
        length = 0 if item.kind in ("space", "height", "turning", "picot") else min(len(item.parents), 3)
        kind = "chain" if item.kind in ("space", "height", "turning") else item.kind
        found.setdefault((kind, key, item.loop, length if length > 1 else 0), item)
    return tuple(found.values())


def _colors(course: Course) -> set[str]:
    return {item.color for item in course.items if item.places}


def _lettered(parts: Sequence[Drawn]) -> list[Drawn]:
    """The rounds with the letters of their colours, where there is more than one colour."""
    if len(set().union(*(_colors(one.course) for one in parts))) < 2:
        return list(parts)
    return [replace(one, color=next(iter(own))[:3] if len(own := _colors(one.course)) == 1 else "") for one in parts]


def _pads(courses: Sequence[Course], colors: Sequence[str]) -> dict[str, str]:
    """The mark of each colour but the one with most stitches; no more than there are marks."""
    used = Counter(item.color for course in courses for item in course.items if item.places)
    if len(used) < 2:
        return {}
    main = used.most_common(1)[0][0]
    order = [key for key in dict.fromkeys((*colors, *used)) if key in used and key != main]
    return dict(zip(order, _PADS, strict=False))


# --- words ---------------------------------------------------------------------------------------------------------


def _words(name: str, courses: Sequence[Course], flat: bool) -> str:
    """The chart in words: what it is, and the count of each round."""
    noun = "row" if flat else "round"
    begins = {"ring": "from a ring", "chain": "from a chain", "loop": "from a chain closed to a ring"}
    start = begins.get(courses[0].begins, "")
    said = f"Symbol chart of {name}, {len(courses)} {noun}{'s' if len(courses) != 1 else ''}"
    said += f" {'to and fro' if flat and len(courses) > 1 else ''}".rstrip() + (f", {start}" if start else "")
    counts = []
    at = 0
    while at < len(courses):
        last = at
        while last + 1 < len(courses) and courses[last + 1].count == courses[at].count:
            last += 1
        numbers = f"{noun} {courses[at].number or at + 1}"
        if last > at:
            numbers = f"{noun}s {courses[at].number or at + 1} to {courses[last].number or last + 1}"
        counts.append(f"{numbers}: {courses[at].count}")
        at = last + 1
    shown = counts if len(counts) <= 24 else [*counts[:20], f"and so on to {counts[-1]}"]
    return f"{said}. Stitches: {'; '.join(shown)}."


# --- one part of several -------------------------------------------------------------------------------------------


def _part(parts: Sequence[Drawn], number: int) -> _Part:
    """One part, turned so that its middle line goes through the first stitch."""
    _layout, rings, _curve = in_rounds(parts, labels=False)
    return _Part(*in_rounds(parts, labels=False, turn=-360.0 * rings[0].shares[0]), parts, number)


class _Part:
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


# --- drawing -------------------------------------------------------------------------------------------------------


class _Picture:
    """A layout as a figure."""

    def __init__(
        self, layout: Layout, pads: Mapping[str, str], palette: Mapping[str, str | None], further: tuple[Shape, ...],
        address: str, parts: Sequence[Drawn],
    ) -> None:
        self.parts = parts
        self.layout, self.pads, self.palette, self.further, self.address = layout, pads, palette, further, address
        self.box = layout.box()

    def figure(self, words: str, mirrored: bool) -> Figure:
        """The figure; *mirrored* left and right change places, letters stay readable."""
        left, top, width, height = self.box
        if mirrored and self.address:
            strokes = shape("use", href=f"#{self.address}", transform="scale(-1 1)")
        else:
            own = shape("g", *self._strokes(), id=None if mirrored else self.address or None)
            strokes = shape("g", own, transform="scale(-1 1)") if mirrored else own
        letters = shape("g", *[self._word(words_, mirrored) for words_ in self.layout.letters], fill="currentColor",
                        stroke="none", font_size=TEXT_HEIGHT)
        top_group = shape("g", strokes, letters, fill="none", stroke="currentColor", stroke_width=STROKES[0],
                          stroke_linecap="round", stroke_linejoin="round")
        if mirrored:
            left = -(left + width)
        unit_mm = min(PAPER[0] / width, PAPER[1] / height, 0.36)
        return Figure(left, top, width, height, (top_group,), words, unit_mm, 1.0 if width <= 760 else 0.8)

    def _word(self, words: Lettering, mirrored: bool) -> Shape:
        x = -words.x if mirrored else words.x
        anchor = {"start": "end", "end": "start"}.get(words.anchor, words.anchor) if mirrored else words.anchor
        turn = f"rotate(-90 {num(x)} {num(words.y)})" if words.upright else None
        return words_at(x, words.y, words.text, anchor, transform=turn)

    def _strokes(self) -> tuple[Shape, ...]:
        layout = self.layout
        parts: list[Shape | None] = [
            path("".join(layout.dashes), stroke_dasharray="5 5", stroke_width=1.2),
            path("".join(layout.lines), stroke_width=1.4),
        ]
        for key, mark in self.pads.items():
            parts += self._pads(key, mark)
        courses: dict[int, list[Symbol]] = {}
        for symbol in layout.symbols:
            courses.setdefault(symbol.course, []).append(symbol)
        for number, symbols in courses.items():
            parts.append(path("".join(map(drawn, symbols)), stroke_width=STROKES[number % 2] if number % 2 else None))
        joins = "".join(f"M{num(x)} {num(y)}h0" for x, y in layout.joins)
        parts.append(path(joins, stroke_width=7))
        if layout.start:
            corners = "L".join(f"{num(x)} {num(y)}" for x, y in layout.start)
            parts.append(path(f"M{corners}Z", fill="currentColor", stroke="none"))
        return there((*parts, *self.further))

    def _pads(self, key: str, mark: str) -> list[Shape | None]:
        """The marks around stitches of a colour: a ring of that colour between two thin lines."""
        mixed = {number for number, one in enumerate(self.parts) if not one.color}
        where = [s for s in self.layout.symbols if s.item.color == key and s.course in mixed
                 and s.item.kind in ("stitch", "turning")]
        d = "".join(_pad(mark, s.middle, min(1.0, max(s.room, 10.0) / WIDTH)) for s in where)
        value = self.palette.get(key)
        return [path(d, stroke_width=5.2), path(d, stroke=value, stroke_width=3.2) if value else None]


def _pad(mark: str, at: tuple[float, float], size: float = 1.0) -> str:
    """The outline of a mark, around a symbol."""
    x, y = at
    r = 11 * size
    if mark == "circle":
        return f"M{num(x - r)} {num(y)}a{num(r)} {num(r)} 0 1 0 {num(2 * r)} 0a{num(r)} {num(r)} 0 1 0 {num(-2 * r)} 0"
    if mark == "square":
        return f"M{num(x - r)} {num(y - r)}h{num(2 * r)}v{num(2 * r)}h{num(-2 * r)}z"
    if mark == "diamond":
        return f"M{num(x)} {num(y - 1.2 * r)}l{num(1.2 * r)} {num(1.2 * r)}l{num(-1.2 * r)} {num(1.2 * r)}l{num(-1.2 * r)} {num(-1.2 * r)}z"
    return f"M{num(x)} {num(y - 1.2 * r)}l{num(1.1 * r)} {num(1.9 * r)}h{num(-2.2 * r)}z"


def sample(item: Item) -> Figure:
    """A symbol by itself, for a key."""
    parents = item.parents if len(item.parents) > 1 else item.parents[:1]
    number = len(parents) or 1
    if item.kind in ("space", "height", "turning"):
        symbol = Symbol(0, Item("space", length=1), ((-8.0, 0.0),), (8.0, 0.0))
    elif item.kind in ("slip", "picot"):
        symbol = Symbol(0, item, ((0.0, 2.0),), (0.0, -4.0))
    else:
        tall = 18.0 if not item.stitch or item.stitch.height <= 1 else 34.0
        feet = tuple(((k - (number - 1) / 2) * 15.0, tall / 2) for k in range(number))
        symbol = Symbol(0, item, feet, (0.0, -tall / 2))
    line = path(drawn(symbol), fill="none", stroke="currentColor", stroke_width=STROKES[0], stroke_linecap="round",
                stroke_linejoin="round")
    return Figure(-20, -22, 40, 44, there((line,)), "")


def pad_sample(mark: str, value: str | None) -> Figure:
    """The mark of a colour, for a key."""
    d = _pad(mark, (0.0, 0.0))
    rings = [path(d, fill="none", stroke="currentColor", stroke_width=5.2),
             path(d, fill="none", stroke=value, stroke_width=3.2) if value else None]
    return Figure(-20, -22, 40, 44, there(rings), "")

"""The layout of a chart as a figure: its strokes, letters and marks of colours; symbols by themselves for a key."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..counting.replaying import Item
from .figures import TEXT_HEIGHT, Figure, Shape, num, path, shape, there, words_at
from .folding import Drawn
from .layout import Layout, Lettering
from .symbols import WIDTH, Symbol, drawn

PAPER = (172.0, 225.0)  # the room on a sheet, in mm
STROKES = (1.5, 2.5)  # of odd and even rounds


class Picture:
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

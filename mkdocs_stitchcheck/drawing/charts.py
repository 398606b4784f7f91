"""The chart of a piece: laid out in the round or in rows, with its marks for colours, its key and its words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from ..counting.in_full import Course, InFull
from ..counting.replaying import Item
from .chart_parts import part_of
from .chart_pictures import Picture
from .figures import Figure
from .folding import Drawn, folded
from .layout import Layout
from .rounds import equal_parts, in_rounds
from .rows import in_rows
from .symbols import Symbol

LEAST_MM = 4.0
MOST_SYMBOLS = 2_500
LEAST_ROOM_LEFT = 3.0  # in units, that the neighbours of a symbol must leave it
_SYMBOL = 18.0  # the height of sc, in units
_PART_FROM = 200.0  # a chart that reaches further out is drawn in part
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
        view = part_of(parts, number) if number else None
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
    picture = Picture(layout, pads, palette, view.small() if view is not None else (), address, parts)
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

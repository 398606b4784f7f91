"""A chart in rows: they go to and fro, each with an arrow, its number and its count, and turning chains at their start."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from statistics import median

from ..counting.in_full import Course
from ..counting.replaying import Item
from .figures import num
from .folding import Drawn
from .layout import Layout, Lettering, arrow
from .rings import course_height, weight
from .symbols import GAP, WIDTH, Point, Symbol, bulge

_NOTE_ROOM = 34.0
_LEAST_SPACE = 0.55  # of its width, that a chain space keeps where the row below is narrow


@dataclass(slots=True)
class Level:
    """A drawn row: ``y`` its top, where its places and spaces are, and the ``way`` it goes: -1 from right to left."""

    y: float
    way: int = -1
    places: list[float] = field(default_factory=list)
    spaces: list[float] = field(default_factory=list)
    lifts: list[float] = field(default_factory=list)
    room: float = WIDTH


def in_rows(drawn: Sequence[Drawn]) -> Layout:
    """Places every item of the rows *drawn*."""
    layout = Layout()
    before = _base(drawn[0].course, layout)
    mesh = _is_mesh([one.course for one in drawn])
    for number, one in enumerate(drawn):
        level = _row(layout, number, one, before, mesh)
        before = level
        if one.note:
            before = _left_out(layout, one, level)
        if one.flipped:
            before = Level(before.y, -before.way, before.places[::-1], before.spaces[::-1], before.lifts[::-1], before.room)
    return layout


def _base(first: Course, layout: Layout) -> Level:
    """The foundation chain, from right to left."""
    number = max(first.chains - first.skipped, 0)
    if first.begins != "chain":
        return Level(0.0, 1)
    for k in range(number):
        x = -k * WIDTH + WIDTH * 0.45
        layout.lines.append(
            f"M{num(x)} 5a{num(WIDTH * 0.45)} 4.5 0 1 0 {num(-WIDTH * 0.9)} 0a{num(WIDTH * 0.45)} 4.5 0 1 0 {num(WIDTH * 0.9)} 0"
        )
    layout.reach += [(WIDTH / 2, 10.0), (-(number - 0.5) * WIDTH, 10.0)]
    return Level(0.0, 1, [-k * WIDTH for k in range(number)])


def _is_mesh(courses: Sequence[Course]) -> bool:
    """Whether chains lie where stitches could stand, as in filet: stitches and chains come to one number in all rows."""
    totals = {sum(item.places or item.length * (item.kind == "space") for item in course.items) for course in courses}
    return len(totals) == 1 and any(item.kind == "space" for course in courses for item in course.items)


def _weights(course: Course, before: Level, mesh: bool) -> list[float]:
    """How wide each item is. Chains between stitches are as wide as the row below leaves them room, within reason."""
    weights = [weight(item) for item in course.items]
    spaces = [item.kind == "space" and not item.places for item in course.items]
    if mesh:
        return [float(item.length) if space else own for item, space, own in zip(course.items, spaces, weights, strict=True)]
    stands = [(at, stand) for at, item in enumerate(course.items) if item.kind != "slip" and (stand := _stand(item, before)) is not None]
    if not any(spaces) or len(stands) < 2:
        return weights
    (first, one), (last, other) = stands[0], stands[-1]
    between = sum(weights[first : last + 1]) - (weights[first] + weights[last]) / 2
    open_ = sum(own for own, space in zip(weights[first : last + 1], spaces[first : last + 1], strict=True) if space)
    if not open_:
        return weights
    share = (abs(other - one) / WIDTH - (between - open_)) / open_
    share = min(max(share, _LEAST_SPACE), 1.0)
    return [own * share if space else own for own, space in zip(weights, spaces, strict=True)]


def _row(layout: Layout, number: int, one: Drawn, before: Level, mesh: bool) -> Level:
    course = one.course
    way = -before.way if course.back or number == 0 else before.way
    weights = _weights(course, before, mesh)
    ends = [sum(weights[: k + 1]) for k in range(len(weights))]
    middles = [(end - one_weight / 2) for end, one_weight in zip(ends, weights, strict=True)]
    room = _room(course, before, middles)
    shift = _shift(course, before, middles, way, room)
    xs = [shift + way * middle * room for middle in middles]
    for at, item in enumerate(course.items):
        if item.kind == "height" and before.places:  # outside, whatever the first stitch is
            edge = before.places[-1] if course.back else before.places[0]
            outermost = min(way * edge, *(way * x for k, x in enumerate(xs) if k != at))
            xs[at] = way * (outermost - WIDTH * 0.8)
    level = Level(before.y - course_height(course), way, room=room)
    for item, x, one_weight in zip(course.items, xs, weights, strict=True):
        level.places += [x + way * room * one_weight * ((k + 0.5) / item.places - 0.5) for k in range(item.places)]
        if item.kind == "space":
            level.spaces.append(x)
            level.lifts.append(bulge(item.length) if not item.places else 0.0)
    _put(layout, number, course, before, level, xs, weights)
    _skipped_chains(layout, number, course, before, level)
    _letter(layout, number, one, level, xs, room)
    layout.smallest = min(layout.smallest, room)
    return level


def _stand(item: Item, before: Level) -> float | None:
    if item.space is not None and item.space < len(before.spaces):
        return before.spaces[item.space]
    if not item.parents or not before.places:
        return None
    return sum(before.places[parent] for parent in item.parents) / len(item.parents)


def _room(course: Course, before: Level, middles: list[float]) -> float:
    """The width of a stitch: as usual, but where chains lie between stitches the row must be as wide as the last one."""
    if not (before.spaces or any(item.kind == "space" and not item.places for item in course.items)):
        return before.room
    pairs = [(middle, stand) for item, middle in zip(course.items, middles, strict=True)
             if (stand := _stand(item, before)) is not None]
    if len(pairs) < 2 or pairs[-1][0] - pairs[0][0] < 1:
        return before.room
    wide = abs(pairs[-1][1] - pairs[0][1]) / (pairs[-1][0] - pairs[0][0])
    return min(max(wide, WIDTH * 0.75), WIDTH * 1.6)


def _shift(course: Course, before: Level, middles: list[float], way: int, room: float) -> float:
    """Where the row begins, so that most stitches stand straight; with chains between them, so that none leans far."""
    found = [stand - way * middle * room for item, middle in zip(course.items, middles, strict=True)
             if item.kind != "slip" and (stand := _stand(item, before)) is not None]
    if found:
        lace = any(item.kind == "space" and not item.places for item in course.items)
        return (min(found) + max(found)) / 2 if lace else median(found)
    return 0.5 * WIDTH if way < 0 else -(len(before.places) - 0.5) * WIDTH


def _put(
    layout: Layout, number: int, course: Course, before: Level, level: Level, xs: list[float], weights: list[float]
) -> None:
    into: dict[int, list[int]] = {}
    for at, item in enumerate(course.items):
        if item.space is not None:
            into.setdefault(item.space, []).append(at)
    top, floor = level.y + GAP / 2, before.y - GAP / 2
    for at, (item, x, one_weight) in enumerate(zip(course.items, xs, weights, strict=True)):
        head: Point = (x, top)
        feet = _feet(item, at, into, before, x, floor)
        if item.kind == "space":
            half = level.room * one_weight / 2 * 0.94
            feet, head = ((x - half, top + GAP),), (x + half, top + GAP)
        elif item.kind == "picot":
            near = xs[at - 1] if at else x
            feet, head = ((near, level.y),), (near, level.y - 8)
        elif item.kind == "height":
            feet, head = ((x, floor),), (x, max(floor - item.length * 13, top))
        elif item.kind == "slip":
            head = feet[0]
        layout.symbols.append(Symbol(number, item, feet, head, level.room))


def _feet(item: Item, at: int, into: dict[int, list[int]], before: Level, x: float, floor: float) -> tuple[Point, ...]:
    if item.space is not None and item.space < len(before.spaces):
        fellows = into[item.space]
        place = fellows.index(at) - (len(fellows) - 1) / 2
        return ((before.spaces[item.space] + before.way * -place * min(7.0, 22.0 / len(fellows)),
                 floor - before.lifts[item.space] * 0.8),)
    if not item.parents or not before.places:
        return ((x, floor),)
    return tuple((before.places[parent], floor) for parent in item.parents)


def _skipped_chains(layout: Layout, number: int, course: Course, before: Level, level: Level) -> None:
    """Chains of the foundation that the first row passes over stand up at its start."""
    if number or not course.skipped or any(item.kind in ("turning", "height") for item in course.items):
        return
    x, floor = before.places[0] + WIDTH * 0.8 if before.places else 0.0, before.y - GAP / 2
    item = Item("height", length=course.skipped)
    layout.symbols.append(Symbol(number, item, ((x, floor),), (x, max(floor - course.skipped * 13, level.y + GAP / 2))))


def _letter(layout: Layout, number: int, one: Drawn, level: Level, xs: list[float], room: float) -> None:
    """An arrow and the number where the row starts, the count where it ends."""
    course = one.course
    y = level.y + course_height(course) / 2
    way = level.way
    standing = [s.head[0] * way for s in layout.symbols if s.item.kind in ("height", "turning") and s.course == number]
    outer = (min([x * way for x in xs] + standing) - 16) * way
    end = (max(x * way for x in xs) + room * 0.5 + 8) * way
    tail = outer - level.way * 20
    layout.lines.append(arrow((outer, y), (tail, y)))
    layout.letters.append(Lettering(tail - level.way * 6, y, one.label, "start" if level.way < 0 else "end"))
    layout.letters.append(Lettering(end, y, f"({course.count}){f' {one.color}' if one.color else ''}", "end" if level.way < 0 else "start"))


def _left_out(layout: Layout, one: Drawn, level: Level) -> Level:
    """A broken line for the rows that are alike and left out, with what is said of them."""
    left, right = min(level.places) - WIDTH / 2, max(level.places) + WIDTH / 2
    y = level.y - _NOTE_ROOM
    layout.dashes.append(f"M{num(left)} {num(level.y - 3)}H{num(right)}M{num(left)} {num(y + 3)}H{num(right)}")
    layout.letters.append(Lettering((left + right) / 2, level.y - _NOTE_ROOM / 2, one.note))
    return Level(y, level.way, level.places, level.spaces, [0.0] * len(level.spaces), level.room)

"""A grid for colourwork: one square a stitch, filled and lettered by its colour, one line a round or row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..counting.in_full import Course, InFull
from .figures import TEXT_HEIGHT, Figure, Shape, num, path, shape, text_width, there, words_at

CELL = 26.0
MOST_CELLS = 6_000
_PAPER = (172.0, 225.0)


@dataclass(frozen=True, slots=True)
class Grid:
    """``figure`` with the colours filled in, ``plain`` with letters alone, for paper. ``colors`` are those in it; the
    first has no letter. ``repeat`` is how often the squares are worked side by side, ``first`` and ``last`` the rounds."""

    figure: Figure
    plain: Figure
    colors: tuple[str, ...]
    repeat: int
    rows: tuple[tuple[str, ...], ...]
    note: str


def grid_of(name: str, full: InFull, palette: Mapping[str, str | None], colors: Sequence[str]) -> Grid | None:
    """The grid of the rounds in which colours change; None where there is none that can be drawn."""
    stretch = _stretch(full.courses)
    if not stretch:
        return None
    cells = [tuple(item.color for item in course.items if item.places) for course in stretch]
    ways = _ways(full.courses, stretch)
    width = len(cells[0])
    period = next(p for p in range(1, width + 1)
                  if width % p == 0 and all(row == row[:p] * (width // p) for row in cells))
    shown = [row[:period] for row in cells]
    if period * len(shown) > MOST_CELLS:
        return None
    used = [key for key in dict.fromkeys((*colors, *(key for row in shown for key in row))) if any(key in row for row in shown)]
    main = max(used, key=lambda key: sum(row.count(key) for row in shown))
    used.sort(key=lambda key: key != main)
    words = _words(name, stretch, shown, width // period)
    pictures = [_picture(stretch, shown, ways, palette if filled else {}, used[0], words) for filled in (True, False)]
    return Grid(pictures[0], pictures[1], tuple(used), width // period, tuple(shown), _note(stretch, ways, width, period))


def _stretch(courses: Sequence[Course]) -> list[Course]:
    """The longest run of plain rounds of one count with colours changing in it."""
    changing = [at for at, course in enumerate(courses) if len({i.color for i in course.items if i.places}) > 1]
    best: list[Course] = []
    for at in changing:
        last = at
        while last + 1 < len(courses) and _goes_on(courses[last], courses[last + 1]):
            last += 1
        while last not in changing:
            last -= 1
        if last - at + 1 > len(best) and last > at:
            best = list(courses[at : last + 1])
    return best


def _goes_on(one: Course, other: Course) -> bool:
    return one.count == other.count and all(
        len(item.parents) == 1 for item in other.items if item.places and item.kind == "stitch"
    ) and all(item.kind in ("stitch", "height", "turning") for item in other.items)


def _ways(courses: Sequence[Course], stretch: Sequence[Course]) -> list[int]:
    """-1 for a row that is read from right to left, 1 for one from left to right."""
    way, found = -1, []
    for at, course in enumerate(courses):
        way = -way if course.back and at else way
        if any(course is one for one in stretch):
            found.append(way)
    return found


def _note(stretch: Sequence[Course], ways: Sequence[int], width: int, period: int) -> str:
    reading = "Read every round from right to left" if len(set(ways)) == 1 else "Read as the arrows point"
    times = f"; work the squares {width // period} times" if period < width else ""
    return f"{reading}, from below{times}."


def _words(name: str, stretch: Sequence[Course], shown: Sequence[tuple[str, ...]], times: int) -> str:
    """Every line in words: "round 9: 5 A, 5 B", in the order in which they are worked."""
    lines = []
    for course, row in zip(stretch, shown, strict=True):
        runs: list[tuple[str, int]] = []
        for key in row:
            if runs and runs[-1][0] == key:
                runs[-1] = key, runs[-1][1] + 1
            else:
                runs.append((key, 1))
        lines.append(f"{course.label}: {', '.join(f'{number} {key}' for key, number in runs[:60])}")
    again = f", each worked {times} times around" if times > 1 else ""
    return f"Colour grid of {name}{again}. {'; '.join(lines[:80])}."


def _picture(
    stretch: Sequence[Course], shown: Sequence[tuple[str, ...]], ways: Sequence[int], palette: Mapping[str, str | None],
    main: str, words: str,
) -> Figure:
    width, height = len(shown[0]) * CELL, len(shown) * CELL
    parts: list[Shape | None] = []
    letters: list[Shape] = []
    for line, (course, row, way) in enumerate(zip(stretch, shown, ways, strict=True)):
        y = height - (line + 1) * CELL
        ordered = row if way > 0 else row[::-1]
        parts += _fills(ordered, y, palette)
        letters += [_letter(key, column * CELL + CELL / 2, y + CELL / 2, palette) for column, key in enumerate(ordered) if key != main]
        side = width + 12 if way < 0 else -12.0
        number = str(course.number) if course.number is not None else ""
        letters.append(words_at(side, y + CELL / 2, f"← {number}" if way < 0 else f"{number} →", "start" if way < 0 else "end",
                                fill="currentColor"))
    thin = "".join(f"M0 {num(k * CELL)}h{num(width)}" for k in range(len(shown) + 1))
    thin += "".join(f"M{num(k * CELL)} 0v{num(height)}" for k in range(len(shown[0]) + 1))
    thick = "".join(f"M{num(width - k * CELL)} 0v{num(height)}" for k in range(0, len(shown[0]) + 1, 5))
    parts += [path(thin, stroke="currentColor", stroke_width=1, stroke_opacity=0.55, fill="none"),
              path(thick, stroke="currentColor", stroke_width=2.2, fill="none")]
    for k in range(5, len(shown[0]) + 1, 5):
        letters.append(words_at(width - k * CELL + CELL / 2, height + 16, str(k), fill="currentColor"))
    group = shape("g", *there(parts), shape("g", *letters, font_size=TEXT_HEIGHT))
    side = text_width("← 000") + 14
    both = len(set(ways)) > 1
    left, whole = -(side if both else 6.0), width + side + (side if both else 6.0)
    unit = min(_PAPER[0] / whole, _PAPER[1] / (height + 40), 0.36)
    return Figure(left, -6.0, whole, height + 40, (group,), words, unit, 1.0)


def _fills(row: Sequence[str], y: float, palette: Mapping[str, str | None]) -> list[Shape | None]:
    """One rectangle for each run of a colour."""
    found: list[Shape | None] = []
    start = 0
    for at in range(1, len(row) + 1):
        if at == len(row) or row[at] != row[start]:
            value = palette.get(row[start])
            if value:
                found.append(shape("rect", x=start * CELL, y=y, width=(at - start) * CELL, height=CELL, fill=value))
            start = at
    return found


def _letter(key: str, x: float, y: float, palette: Mapping[str, str | None]) -> Shape:
    """The colour's letter: dark on a light square, light on a dark one."""
    value = palette.get(key)
    ink = ("#000" if luminance(value) > 0.18 else "#fff") if value else "currentColor"
    return words_at(x, y, key[:2], fill=ink)


def luminance(value: str) -> float:
    """The relative luminance of a colour value (W3C, *Web Content Accessibility Guidelines 2.2*), 0 to 1; of a name, as
    that of a light colour."""
    digits = value.removeprefix("#")
    if len(digits) == 3:
        digits = "".join(c * 2 for c in digits)
    if not value.startswith("#") or len(digits) != 6:
        return 1.0
    red, green, blue = (_linear(int(digits[k : k + 2], 16) / 255) for k in (0, 2, 4))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(share: float) -> float:
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

"""The shape of each piece to scale: silhouettes of work in the round, schematics of work in rows, marks and a rule."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..estimates.contours import Contour
from ..estimates.words import measures
from .figures import TEXT_HEIGHT, Figure, Shape, num, path, shape, text_width, there, words_at

_RULES = (1, 2, 5, 10, 20, 50)  # cm
WIDEST, TALLEST = 250.0, 300.0  # units, of the largest piece
MOST_PER_CM = 60.0


@dataclass(frozen=True, slots=True)
class Mark:
    """Where the text places something: between ``low`` and ``high`` cm along the piece; ``apart`` degrees for a pair of
    eyes, None for what is sewn on or inserted otherwise. ``number`` leads to the words."""

    number: int
    low: float
    high: float
    apart: float | None = None


def scale_for(contours: Sequence[Contour]) -> float:
    """Units a cm at which the largest of them fits: the same for all that stand together."""
    widest = max((contour.width for contour in contours), default=1.0) or 1.0
    tallest = max((contour.height for contour in contours), default=1.0) or 1.0
    return min(WIDEST / widest, TALLEST / tallest, MOST_PER_CM)


def silhouette(
    contour: Contour, scale: float, palette: Mapping[str, str | None], marks: Sequence[Mark] = (), measured: bool = True
) -> Figure:
    """A piece at *scale* units a cm, its start below. *palette* fills bands of colour; their letters stand
    beside them. *measured*: with letters and measures, else the bare shape."""
    width, height = contour.width * scale, contour.height * scale
    points = [(x * scale, -y * scale) for x, y in contour.points]
    line = f"M{'L'.join(f'{num(x)} {num(y)}' for x, y in points)}Z"
    parts: list[Shape | None] = _rings(contour, scale, palette) if contour.rings else _bands(contour, scale, palette)
    parts.append(path(line, fill="none", stroke="currentColor", stroke_width=2, stroke_linejoin="round"))
    letters = _band_letters(contour, scale) if measured else []
    right = width / 2
    beside = 30.0 + (text_width("A+B") if letters else 0.0)
    taken: list[float] = []
    for mark in marks:
        parts += _mark(mark, contour, scale, right + beside - 10)
        y = -(mark.low + mark.high) / 2 * scale
        while any(abs(y - other) < TEXT_HEIGHT for other in taken):
            y += TEXT_HEIGHT
        taken.append(y)
        letters.append(words_at(right + beside, y, str(mark.number)))
    room = beside + 14 if marks else beside - 26
    below = 4.0
    if measured and contour.flat:
        below = 30.0
        parts.append(path(f"M{num(-right)} 8v10M{num(right)} 8v10M{num(-right)} 13h{num(width)}", fill="none",
                          stroke="currentColor", stroke_width=1.2))
        letters.append(words_at(0, 26, f"{contour.width:.0f} cm" if contour.width >= 10 else f"{contour.width:.1f} cm"))
    group = shape("g", *there(parts), shape("g", *letters, fill="currentColor", font_size=TEXT_HEIGHT))
    return Figure(-right - 4, -height - 4, width + 4 + room, height + 4 + below + 8, (group,), _words(contour), 0.26)


def _words(contour: Contour) -> str:
    said = ", ".join(measures(contour.size)) if contour.size is not None else ""
    return f"Shape of {contour.name}{': ' + said if said else ''}."


def _bands(contour: Contour, scale: float, palette: Mapping[str, str | None]) -> list[Shape | None]:
    """The outline cut across at each change of colour, filled with it."""
    found: list[Shape | None] = []
    for band in contour.bands:
        value = palette.get(band.color)
        inside = contour.between(band.low, band.high)
        if value and len(inside) > 2:
            corners = "L".join(f"{num(x * scale)} {num(-y * scale)}" for x, y in inside)
            found.append(path(f"M{corners}Z", fill=value, stroke="currentColor", stroke_width=0.8))
        elif len(contour.bands) > 1 and band.low > 0:
            half = contour.half_at(band.low) * scale
            found.append(path(f"M{num(-half)} {num(-band.low * scale)}h{num(2 * half)}", stroke="currentColor",
                              stroke_dasharray="4 4", stroke_width=1.2))
    return found


def _rings(contour: Contour, scale: float, palette: Mapping[str, str | None]) -> list[Shape | None]:
    """The colours of work that lies flat in the round, one within the other."""
    found: list[Shape | None] = []
    for color, reach in contour.rings:
        value = palette.get(color)
        if value or reach < 1:
            corners = "L".join(
                f"{num(x * reach * scale)} {num(-(contour.middle + (y - contour.middle) * reach) * scale)}" for x, y in contour.points
            )
            found.append(path(f"M{corners}Z", fill=value or "none", stroke="currentColor", stroke_width=0.8,
                              stroke_dasharray=None if value else "4 4"))
    return found


def _letters(contour: Contour) -> Iterator[tuple[str, float]]:
    """(colour, cm from below) of each stretch of a colour; of rings below the middle."""
    for band in contour.bands:
        yield band.color, (band.low + band.high) / 2
    inner = [reach for _color, reach in contour.rings[1:]] + [0.0]
    for (color, reach), within in zip(contour.rings, inner, strict=False):
        yield color, contour.middle * (1 - (reach + within) / 2)


def _band_letters(contour: Contour, scale: float) -> list[Shape]:
    """The letter of each band's colour beside it, where there is more than one."""
    stretches = list(_letters(contour))
    if len({color for color, _at in stretches}) < 2:
        return []
    found, last = [], math.inf
    for color, at in stretches:
        y = -at * scale
        if last - y >= TEXT_HEIGHT:
            found.append(words_at(contour.width * scale / 2 + 6, y, color[:5], "start"))
            last = y
    return found


def _mark(mark: Mark, contour: Contour, scale: float, reach: float) -> list[Shape | None]:
    """Eyes as two dots, all else as a bracket at the side, each with a line to its number."""
    middle = (mark.low + mark.high) / 2
    half = contour.half_at(middle) * scale
    y = -middle * scale
    line = path(f"M{num(half)} {num(y)}H{num(reach)}", fill="none", stroke="currentColor", stroke_width=1, stroke_dasharray="2 4")
    if mark.apart is not None:
        x = half * math.sin(math.radians(min(mark.apart / 2, 80.0)))
        eyes = "".join(f"M{num(side * x)} {num(y)}h0" for side in (-1, 1))
        return [path(eyes, stroke="var(--sc-bg, #fff)", stroke_width=13, stroke_linecap="round"),
                path(eyes, stroke="currentColor", stroke_width=9, stroke_linecap="round"), line]
    low, high = -mark.low * scale, -mark.high * scale
    if low - high < 6:
        low, high = y + 3, y - 3
    brackets = "".join(
        f"M{num(side * (half + 8))} {num(low)}h{num(-side * 5)}V{num(high)}h{num(side * 5)}" for side in (-1, 1)
    )
    return [path(brackets, fill="none", stroke="currentColor", stroke_width=2), line]


def rule(scale: float) -> Figure:
    """A rule to the same scale, as long as fits: 5 cm, 10 cm."""
    long = max((length for length in _RULES if length * scale <= WIDEST), default=_RULES[0])
    width = long * scale
    ticks = "".join(f"M{num(k * scale)} 0v{8 if k % 5 else 12}" for k in range(long + 1)) if scale * long / long >= 4 else "M0 0v12"
    line = path(f"M0 0h{num(width)}{ticks}M{num(width)} 0v12", fill="none", stroke="currentColor", stroke_width=1.5)
    label = words_at(width / 2, 24, f"{long} cm", fill="currentColor", font_size=TEXT_HEIGHT)
    side = max(text_width(f"{long} cm") - width, 0) / 2 + 2
    return Figure(-side, -3, width + 2 * side, 40, there((line, label)), f"A rule of {long} cm.", 0.26)

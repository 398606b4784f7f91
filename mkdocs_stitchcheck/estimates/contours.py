"""The contour of each piece as it lies before one: half widths along its axis, where its rounds lie, bands of colour.

Of work in the round the profile of :mod:`.profile`, of work in rows the outline of :mod:`.outline`; all in cm, y upwards
from where the piece begins.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from .downwards import worked_downwards
from .gauging import Measure, measure_of
from .motif import Motif, corner_points, extent, is_open
from .profile import Station, Stretch
from .size import PieceSize, piece_outline, piece_profile, size_and_motif

_CIRCLE = 48  # corners of half a circle
_MOST_LISTED = 2_000  # rounds of a stretch that are listed one by one


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of one colour, from ``low`` to ``high`` cm."""

    color: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Contour:
    """A piece seen from in front. ``halves`` are (y, left, right) from below; ``points`` the corners, around it.

    ``rounds`` says where each round lies, by its number: from, to. ``counts`` how many stitches it has. ``rings`` are the
    colours of work that lies flat in the round, from the edge inwards: (colour, how far of the whole it reaches).
    ``from_above`` where it begins above: as it is worn, of a piece worked downwards.
    """

    name: str
    make: int
    halves: tuple[tuple[float, float, float], ...]
    bands: tuple[Band, ...] = ()
    rounds: tuple[tuple[int, float, float, int], ...] = ()
    flat: bool = False
    size: PieceSize | None = None
    rings: tuple[tuple[str, float], ...] = ()
    from_above: bool = False

    @property
    def width(self) -> float:
        """Across, at the widest."""
        return max(right for _y, _left, right in self.halves) - min(left for _y, left, _right in self.halves)

    @property
    def height(self) -> float:
        """From below to the top."""
        return max(self.halves[-1][0], 0.05)

    @property
    def points(self) -> list[tuple[float, float]]:
        """Up the right side and down the left."""
        return [(right, y) for y, _left, right in self.halves] + [(left, y) for y, left, _right in reversed(self.halves)]

    @property
    def middle(self) -> float:
        """How far above its lowest point the middle of its area is."""
        levels = [(y, right - left) for y, left, right in self.halves]
        area = sum((high - low) * (one + other) / 2 for (low, one), (high, other) in pairwise(levels))
        moment = sum((high - low) * (low * (2 * one + other) + high * (one + 2 * other)) / 6
                     for (low, one), (high, other) in pairwise(levels))  # of trapezoids
        return moment / area if area else self.height / 2

    def half_at(self, y: float) -> float:
        """The right half of the width at height *y*."""
        return self._at(y)[1]

    def _at(self, y: float) -> tuple[float, float]:
        before = self.halves[0]
        for station in self.halves:
            if station[0] >= y:
                room = station[0] - before[0]
                share = (y - before[0]) / room if room else 1.0
                return tuple(a + (b - a) * share for a, b in zip(before[1:], station[1:], strict=True))  # type: ignore[return-value]
            before = station
        return before[1], before[2]

    def between(self, low: float, high: float) -> list[tuple[float, float]]:
        """The corners of the part between two heights."""
        inner = [s for s in self.halves if low < s[0] < high]
        (low_left, low_right), (high_left, high_right) = self._at(low), self._at(high)
        stations = [(low, low_left, low_right), *inner, (high, high_left, high_right)]
        return [(right, y) for y, _l, right in stations] + [(left, y) for y, left, _r in reversed(stations)]

    def where(self, first: int, last: int) -> tuple[float, float, int] | None:
        """From where to where rounds *first* to *last* lie, and the count of the first; None where they are not known."""
        found = [entry for entry in self.rounds if first <= entry[0] <= last]
        if not found or found[0][0] != first:
            return None
        return min(entry[1] for entry in found), max(entry[2] for entry in found), found[0][3]


def contours(result: PatternResult) -> list[Contour]:
    """The pieces whose shape is known, in order; of a pattern in sizes, its first."""
    measure = measure_of(result)
    if measure.stitch_cm is None or measure.row_cm is None:
        return []
    header = result.syntax.header
    downwards = worked_downwards(result)
    found = [(piece, contour_of(piece, result, header, measure)) for piece in result.pieces]
    return [_turned(one) if id(piece.syntax) in downwards else one for piece, one in found if one is not None]


def contour_of(piece: PieceResult, result: PatternResult, header: syntax.Header, measure: Measure) -> Contour | None:
    """The contour of one copy; None where a count or the gauge is not known."""
    size, motif = size_and_motif(piece, result, measure)
    if size is None or not size.known:
        return None
    if size.shape in ("disc", "motif"):
        return _lying(piece, size, motif) if motif is not None or not is_open(piece) else None
    if size.shape == "flat":
        return _from_rows(piece, header, measure, size)
    return _from_rounds(piece, header, measure, size)


def _from_rounds(piece: PieceResult, header: syntax.Header, measure: Measure, size: PieceSize) -> Contour | None:
    found = piece_profile(piece, header, measure)
    if found is None:
        return None
    shape, lines = found
    if size.shape == "flat oval":
        return _lying(piece, size)
    pressed = size.shape == "pressed"
    halves = []
    for station in shape.stations:
        half = station.girth / 4 if pressed else station.sides / 2 + station.radius
        halves.append((station.z, -half, half))
    for _ in range(2):
        halves = _rounder(halves)
    rounds = tuple(_levels(shape.stations[1:], lines, shape.length))
    return Contour(piece.name, piece.make, tuple(halves), _bands(piece, rounds, shape.length), rounds, False, size)


def _rounder(halves: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """The line with its corners cut, as yarn rounds them (Chaikin 1974); where it is straight it stays."""
    found = [halves[0]]
    for one, other in pairwise(halves):
        found += [tuple(a + (b - a) * share for a, b in zip(one, other, strict=True)) for share in (0.25, 0.75)]  # type: ignore[misc]
    return [*found, halves[-1]]


def _levels(
    stations: tuple[Station, ...], lines: list[tuple[RoundResult, Stretch]], length: float
) -> Iterator[tuple[int, float, float, int]]:
    """Where each round lies: (number, from, to, count)."""
    middles: list[tuple[int, float, int]] = []
    at, number = 0, 0
    before: RoundResult | None = None
    for line, stretch in lines:
        rounds = stretch.rounds
        first, last = stations[at].z, stations[at + (rounds > 1)].z
        at += 2 if rounds > 1 else 1
        number = line.first if line is not before and line.first is not None else number + 1
        before = line
        for k in range(min(rounds, _MOST_LISTED)):
            share = k / (rounds - 1) if rounds > 1 else 0.0
            middles.append((number + k, first + (last - first) * share, int(stretch.count)))
        number += rounds - 1
    for index, (round_number, z, count) in enumerate(middles):
        low = (middles[index - 1][1] + z) / 2 if index else 0.0
        high = (middles[index + 1][1] + z) / 2 if index + 1 < len(middles) else length
        yield round_number, low, high, count


def _lying(piece: PieceResult, size: PieceSize, motif: Motif | None = None) -> Contour:
    """A disc, a motif with its corners or a flat oval, seen from above."""
    width = size.width or 0.0
    deep = size.depth or width
    if motif is not None and motif.corners:
        halves = _polygon(motif.corners, width)
    else:
        radius, straight = deep / 2, max(width - deep, 0.0) / 2
        heights = [radius * (1 - math.cos(math.pi * k / _CIRCLE)) for k in range(_CIRCLE + 1)]
        widths = [straight + math.sqrt(max(radius**2 - (y - radius) ** 2, 0.0)) for y in heights]
        halves = tuple((y, -half, half) for y, half in zip(heights, widths, strict=True))
    around = motif.around if motif is not None else tuple(
        (line.colors[-1] if line.colors else line.color or "", line.makes[0] or 0) for line in piece.rounds if line.counts
    )
    rings = tuple(_rings(around)) if deep == width or motif is not None else ((around[-1][0], 1.0),)
    return Contour(piece.name, piece.make, halves, (), (), False, size, rings)


def _polygon(corners: int, width: float) -> tuple[tuple[float, float, float], ...]:
    """The half widths of an equal-sided polygon that lies on a side, from below."""
    low, _high, half = extent(corners)
    scale = width / (2 * half)
    levels = {round(y, 9): abs(x) for x, y in corner_points(corners)}
    return tuple(((y - low) * scale, -x * scale, x * scale) for y, x in sorted(levels.items()))


def _rings(around: tuple[tuple[str, int], ...]) -> Iterator[tuple[str, float]]:
    """The runs of rounds of one colour, from the edge inwards, and how far of the whole way around each reaches."""
    before: str | None = None
    reach = 1.0
    for color, number in reversed(around):
        reach = min(reach, number / around[-1][1]) if around[-1][1] else reach
        if color != before:
            yield color, reach
        before = color


def _turned(one: Contour) -> Contour:
    """The contour with its beginning above."""
    if one.rings:
        return one
    top = one.height
    halves = tuple((top - y, left, right) for y, left, right in reversed(one.halves))
    bands = tuple(Band(band.color, top - band.high, top - band.low) for band in reversed(one.bands))
    rounds = tuple((number, top - high, top - low, count) for number, low, high, count in one.rounds)
    return replace(one, halves=halves, bands=bands, rounds=rounds, from_above=True)


def _from_rows(piece: PieceResult, header: syntax.Header, measure: Measure, size: PieceSize) -> Contour | None:
    found = piece_outline(piece, header, measure)
    if found is None:
        return None
    shape, lines = found
    middle = (max(r for _y, _l, r in shape.levels) + min(left for _y, left, _r in shape.levels)) / 2
    halves = tuple((y, left - middle, right - middle) for y, left, right in shape.levels)
    rounds: list[tuple[int, float, float, int]] = []
    y = 0.0
    number = 0
    before: RoundResult | None = None
    for line, row in lines:
        number = line.first if line is not before and line.first is not None else number + 1
        before = line
        for k in range(min(row.rounds, _MOST_LISTED)):
            rounds.append((number + k, y + k * row.height, y + (k + 1) * row.height, int(row.count)))
        number += row.rounds - 1
        y += row.rounds * row.height
    return Contour(piece.name, piece.make, halves, _bands(piece, tuple(rounds), y), tuple(rounds), True, size)


def _bands(piece: PieceResult, rounds: tuple[tuple[int, float, float, int], ...], length: float) -> tuple[Band, ...]:
    """Runs of rounds of one colour; "A+B" where both are worked in one round."""
    begins = {}
    for line in piece.rounds:
        if line.counts and line.first is not None:
            used = {color for (color, key), count in line.stitches.items() if count and key not in ("sl st", "ch")}
            color = line.color or ""
            if used:
                color = "+".join(sorted(used))
            begins.update(dict.fromkeys(range(line.first, line.first + line.worked), color))
    found: list[Band] = []
    for number, low, high, _count in rounds:
        color = begins.get(number, found[-1].color if found else "")
        if found and found[-1].color == color:
            found[-1] = Band(color, found[-1].low, high)
        else:
            found.append(Band(color, low, high))
    if found:
        found[0] = Band(found[0].color, 0.0, found[0].high)
        found[-1] = Band(found[-1].color, found[-1].low, length)
    return tuple(found)

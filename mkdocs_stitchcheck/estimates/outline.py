"""The outline of work in rows, with its shaping at both edges: width, height and area.

Which edge a row gains or loses at is read from its first and last steps (``dec, sc 6`` at its start, ``sc to last 2,
dec`` at its end); the rest of a change is halved. Rows go to and fro, so the start of every other row is the other edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..language import syntax

MOST_SINGLE_ROWS = 4  # rows of one count only sway from edge to edge: the rest of a long stretch goes straight up


@dataclass(frozen=True, slots=True)
class Row:
    """Rows of one kind: ``count`` stitches each, ``rounds`` of them, ``height`` cm high each.

    ``at_start`` and ``at_end`` are the stitches by which a row goes further out at its first and last stitch.
    """

    count: float
    height: float
    rounds: int = 1
    at_start: float = 0.0
    at_end: float = 0.0


@dataclass(frozen=True, slots=True)
class Outline:
    """``levels`` are (height, left, right) at the top of rows, in cm; ``area`` in square cm."""

    levels: tuple[tuple[float, float, float], ...]
    area: float

    @property
    def width(self) -> float:
        """From the leftmost to the rightmost point, in cm."""
        return max(right for _y, _left, right in self.levels) - min(left for _y, left, _right in self.levels)

    @property
    def height(self) -> float:
        """From the first row to the top of the last, in cm."""
        return max(y for y, _left, _right in self.levels)

    @property
    def corners(self) -> list[tuple[float, float]]:
        """The outline as (x, y) points, up the right edge and down the left."""
        up = [(right, y) for y, _left, right in self.levels]
        return up + [(left, y) for y, left, _right in reversed(self.levels)]


def outline(rows: Sequence[Row], stitch_cm: float, begins: float | None = None) -> Outline:
    """The outline of *rows* with stitches *stitch_cm* wide on *begins* stitches (None: as many as the first row has).

    Raises ValueError without rows.
    """
    if not rows:
        raise ValueError("an outline needs rows")
    width = begins if begins is not None else rows[0].count
    left, right, y, area = 0.0, width, 0.0, 0.0
    levels = [(0.0, 0.0, width * stitch_cm)]
    row_number = 0
    for row in rows:
        singly = min(row.rounds, MOST_SINGLE_ROWS)
        for rows_here in (*[1] * singly, *([row.rounds - singly] if row.rounds > singly else [])):
            before = right - left
            shifts = rows_here == 1
            at_start, at_end = (row.at_start, row.at_end) if shifts else (0.0, 0.0)
            rest = row.count - before - at_start - at_end
            start, end = at_start + rest / 2, at_end + rest / 2
            if row_number % 2 == 0:  # a first row begins at the right
                right, left = right + start, left - end
            else:
                left, right = left - start, right + end
            area += (before + row.count) / 2 * stitch_cm * row.height * rows_here
            y += row.height * rows_here
            levels.append((y, left * stitch_cm, right * stitch_cm))
            row_number += rows_here
    return Outline(tuple(levels), area)


def edge_changes(line: syntax.RoundLine, place: int = 0) -> tuple[float, float]:
    """By how many stitches a row goes further out at its start and at its end; *place* is the size's number."""
    working = [step for step in line.steps or () if isinstance(step, syntax.Work | syntax.Leave | syntax.Group | syntax.Repeat)]
    if not working:
        return 0.0, 0.0
    first, last = working[0], working[-1]
    start = _change(first, place)
    return start, (_change(last, place) if last is not first else 0.0)


def _change(step: syntax.Step, place: int) -> float:
    """What a step adds to its edge: an increase, a decrease, skipped or left stitches; 0 for any other."""
    if isinstance(step, syntax.Leave):
        return -float(_number(step.number, place) or 0)
    if not isinstance(step, syntax.Work):
        return 0.0
    if step.stitch.kind == "skip":
        return -float(_number(step.count, place) or (_number(step.place.number, place) if step.place else 0) or 1)
    times = _number(step.count, place) or 1
    whole = step.place is not None and step.place.kind in ("rest", "to_last")
    several = step.place is not None and (_number(step.place.number, place) or 1) > 1
    if whole or several:
        return 0.0
    if step.stitch.kind in ("increase", "decrease") and times == 1:
        return float(step.stitch.makes - step.stitch.uses)
    if step.place is not None and step.stitch.plain and 1 < times <= 4:  # "2 sc in first st"
        return float(times - 1)
    return 0.0


def _number(number: syntax.Number | None, place: int) -> int | None:
    if number is None:
        return None
    return number.values[place if len(number.values) > place else 0]

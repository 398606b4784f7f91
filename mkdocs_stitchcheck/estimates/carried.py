"""What a page carries so that a reader's browser can reckon a pattern in another yarn: plain numbers.

All amounts and measures but one go in a straight line with the width of a stitch or the height of a row, so that two
reckonings at gauges of our own give them. The one is the height of a ball by design, which is such a ball
only between two ratios of row to stitch; for that its counts are carried.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ..language import syntax
from ..language.quantities import Gauge, PutUp
from ..results import PatternResult, PieceResult
from .another_yarn import worked_at
from .fabric import course_of
from .gauging import measure_of
from .profile import BALL_SLACK, MOST_BALL_ROUNDS
from .size import PieceSize, chain_along, drawn_shut, size_table
from .words import named_measures
from .yarn import hands_of, yarn_table
from .yarn_amounts import ColorYarn

_DIGITS = 10
_BALL = PutUp(100.0, 100.0)


def carried(result: PatternResult) -> dict[str, Any] | None:
    """The numbers of one making of a pattern, in its first size; None where no stitches are known.

    ``colors``: [letter and name, metres for each cm of stitch width, metres of tails, likely error, whether balls can be
    told]. ``pieces``: [name, likely error, measures, ball], each measure [word, whether it goes with the rows, cm for
    each cm of them], ``ball`` None or [least ratio, greatest ratio, [[count, height in rows], ...]]. ``row`` is the
    height, in rows of sc, of the row that the gauge counts. ``gauge`` [stitches, rows, cm] and ``yarn`` [grams, metres]
    are the pattern's own, to begin with; None where it has none.
    """
    header = result.syntax.header
    own = header.gauge or Gauge()
    square = replace(own, stitches=10.0, width_cm=10.0, rows=1.0, height_cm=10.0)
    wide = worked_at(result, _BALL, square)
    hands = hands_of(result)
    colors = yarn_table(wide, hands=hands).colors
    if not colors:
        return None
    narrow = yarn_table(worked_at(result, _BALL, replace(square, stitches=20.0)), hands=hands).colors
    row_cm = measure_of(wide).row_cm or 10.0
    pieces = {piece.name: piece for piece in result.pieces}
    put_up = header.yarns[0].put_up if header.yarns else None
    return {
        "colors": _colors(colors, narrow),
        "pieces": [_piece(size, pieces[size.piece], header, row_cm) for size in size_table(wide).pieces if size.known],
        "row": _short(10.0 / row_cm),
        "gauge": [own.stitches, _rows_over(own), own.width_cm] if own.stitches else None,
        "yarn": [_short(put_up.grams), _short(put_up.metres)] if put_up is not None else None,
    }


def _short(number: float) -> float:
    return float(f"{number:.{_DIGITS}g}")


def _rows_over(gauge: Gauge) -> float | None:
    """The rows over the width of the stitches."""
    return None if gauge.row_cm is None else _short(gauge.width_cm / gauge.row_cm)


def _colors(wide: Sequence[ColorYarn], narrow: Sequence[ColorYarn]) -> list[list[Any]]:
    """Lines through the lengths at stitches of 1 cm and of 0.5 cm."""
    found: list[list[Any]] = []
    for one, other in zip(wide, narrow, strict=True):
        slope = (one.metres - other.metres) / 0.5
        name = f"{one.color} {one.name}".strip() if one.name.lower() != one.color.lower() else one.name
        found.append([name or "Yarn", _short(slope), _short(one.metres - slope), one.error, one.balls is not None])
    return found


def _piece(size: PieceSize, piece: PieceResult, header: syntax.Header, row_cm: float) -> list[Any]:
    ball = _ball(piece, header) if size.shape == "round" else None
    if ball is not None and ball[0] <= row_cm <= ball[1]:
        ball = None  # rows ten times as high as stitches are wide: no such ball is made
    measures = [[word, name == "length", _short(value / (row_cm if name == "length" else 1.0))]
                for word, name, value in named_measures(size)]
    copies = f" × {size.make}" if size.make > 1 else ""
    name = size.piece + (f", {size.size}" if size.size else "") + copies
    return [name, size.error, measures, ball]


def _ball(piece: PieceResult, header: syntax.Header) -> list[Any] | None:
    """The ratios of row height to stitch width between which a piece is a ball by design, and its rounds; else None."""
    lines = [line for line in piece.rounds if line.counts]
    if chain_along(piece) is not None or not drawn_shut(piece) or not lines or lines[0].uses[0]:
        return None
    rounds: list[list[float]] = []
    for line in lines:
        height = _short(course_of(line, header).height)
        each = [made for _used, made in line.each] if len(line.each) == line.worked else [line.makes[0]] * min(line.worked, 401)
        if len(line.makes) != 1 or None in each:
            return None
        rounds += [[made, height] for made in each if made]
    ratios = _ball_ratios([count for count, _height in rounds])
    return [_short(ratios[0]), _short(ratios[1]), rounds] if ratios is not None else None


def _ball_ratios(counts: Sequence[float]) -> tuple[float, float] | None:
    """Where :func:`~.profile.is_ideal_ball` holds: between these two ratios; None where for none."""
    number = len(counts)
    if not 5 <= number <= MOST_BALL_ROUNDS:
        return None
    least, most = 0.0, math.inf
    for k, count in enumerate(counts):
        of_one = 2 * number * math.sin((k + 0.5) * math.pi / number)
        most = min(most, (count + BALL_SLACK) / of_one)
        if k not in (0, number - 1) or count > 6:
            least = max(least, (count - BALL_SLACK) / of_one)
    return (least, most) if least <= most else None

"""The width of a stitch and the height of a row, as the pattern's gauge gives them for each of its rounds."""

from __future__ import annotations

from dataclasses import dataclass

from ..language import syntax
from ..language.heights import of_any_stitch, real_height
from ..language.quantities import Gauge
from ..results import PatternResult
from .fabric import course_of
from .stitch_yarn import stitch_of

NEEDS_WIDTH = "Gauge: stitches over a width, as in 26 sc x 28 rnds = 10 cm"
NEEDS_ROWS = "Gauge: rows or rounds beside the stitches, as in 26 sc x 28 rnds = 10 cm"


@dataclass(frozen=True, slots=True)
class Measure:
    """``stitch_cm`` is the width of a stitch, ``row_cm`` the height of a row of sc; None where the gauge lacks it."""

    stitch_cm: float | None = None
    row_cm: float | None = None

    @property
    def missing(self) -> tuple[str, ...]:
        """What the gauge must say for a size, as header lines with an example."""
        if self.stitch_cm is None:
            return (NEEDS_WIDTH,)
        return () if self.row_cm is not None else (NEEDS_ROWS,)


def measure_of(result: PatternResult) -> Measure:
    """What the gauge of a pattern comes to. A gauge of just "stitches" is of the fabric as it is worked."""
    gauge = result.syntax.header.gauge
    if gauge is None:
        return Measure()
    row = gauge.row_cm
    if row is not None:
        row /= _reference(gauge, result)
    return Measure(gauge.stitch_cm, row)


def _reference(gauge: Gauge, result: PatternResult) -> float:
    """The height, in rows of sc, of the row that the gauge was counted in."""
    header = result.syntax.header
    if of_any_stitch(gauge):
        return _usual_height(result)
    stitch = stitch_of(gauge.stitch, header)
    return real_height(stitch) if stitch is not None else 1.0


def _usual_height(result: PatternResult) -> float:
    """The mean height over all stitches of a pattern, in rows of sc."""
    header: syntax.Header = result.syntax.header
    lines = [(sum(line.stitches.values()) * piece.make, course_of(line, header).height)
             for piece in result.pieces for line in piece.rounds if line.counts and line.stitches]
    total = sum(count for count, _height in lines)
    return sum(count * height for count, height in lines) / total if total else 1.0

"""How many rows "until it measures 20 cm" is, by the pattern's gauge and what the piece has so far."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..language import syntax
from ..language.heights import of_any_stitch, real_height
from ..language.units import SIZE
from ..language.vocabulary import Stitch, stitches
from .places import consumes, first_stitch, first_work, flat

if TYPE_CHECKING:
    from .program import Program, Programs

NO_GAUGE = "it is worked until it measures so much, and the gauge gives no rows"
THERE_ALREADY = "by the gauge it measures as much before this already"
_TOLD = (syntax.Shaping, syntax.Until)
_NO_HEIGHT = ("chain", "slip", "skip", "picot")


class Heights:
    """The height of each piece of a pattern line by line, in rows of sc; kept, since every "until" asks for it."""

    def __init__(self, programs: Programs) -> None:
        self.programs = programs
        self.places: dict[int, dict[int, int]] = {}  # piece -> line -> its place
        self.plain: dict[int, list[Stitch]] = {}  # piece -> the stitch before each of its lines
        self.reached: dict[tuple[int, int], tuple[int, float, int]] = {}  # piece, size -> lines passed, height, rows

    def rows_until(
        self, until: syntax.Until, steps: tuple[syntax.Step, ...], line: syntax.RoundLine, piece: syntax.Piece, size: int
    ) -> int | str:
        """The rows like *steps* that make the length that is asked for; a reason where that is not known.

        A size that the length leaves out works none.
        """
        row_cm = self._sc_row(steps)
        if row_cm is None:
            return NO_GAUGE
        length = until.length
        value = length.sizes[size] if size < len(length.sizes) else length.value
        if not value:
            return 0
        height, before = (0.0, 0) if until.more else self._before(line, piece, size)
        target = value * SIZE[length.unit] / SIZE["cm"]
        each = row_height(steps) * row_cm
        left = target - height * row_cm
        if left < each / 2:
            return THERE_ALREADY
        rows = max(round(left / each), 1)
        if until.rows and (before + rows) % 2 != (until.rows == "odd"):
            rows += 1 if left > rows * each or rows == 1 else -1
        return rows

    def place(self, line: syntax.RoundLine, piece: syntax.Piece) -> int:
        """The place of a line among its piece's."""
        if id(piece) not in self.places:
            self.places[id(piece)] = {id(other): place for place, other in enumerate(piece.lines)}
        return self.places[id(piece)].get(id(line), 0)

    def stitch_before(self, line: syntax.RoundLine, piece: syntax.Piece) -> Stitch:
        """The plain stitch that the piece was last worked in before *line*; "work even" itself says none."""
        if id(piece) not in self.plain:
            last = stitches()["sc"]
            found = self.plain[id(piece)] = []
            for other in piece.lines:
                found.append(last)
                if isinstance(other, syntax.RoundLine) and other.steps and not any(isinstance(s, _TOLD) for s in other.steps):
                    stitch = first_stitch(first_work(other.steps))
                    last = stitch if stitch is not None and stitch.kind == "plain" else last
        return self.plain[id(piece)][self.place(line, piece)]

    def _sc_row(self, steps: tuple[syntax.Step, ...]) -> float | None:
        """The height of a row of sc in cm."""
        gauge = self.programs.pattern.header.gauge
        if gauge is None or gauge.row_cm is None:
            return None
        if of_any_stitch(gauge):
            return gauge.row_cm / row_height(steps)
        known = self.programs.stitch(gauge.stitch)
        return gauge.row_cm / (real_height(known) if known is not None else 1.0)

    def _before(self, line: syntax.RoundLine, piece: syntax.Piece, size: int) -> tuple[float, int]:
        """The height in rows of sc, and the rows, before *line*."""
        key = (id(piece), size)
        at, height, rows = self.reached.get(key, (0, 0.0, 0))
        if self.place(line, piece) < at:
            at, height, rows = 0, 0.0, 0
        while at < len(piece.lines) and piece.lines[at] is not line:
            other = piece.lines[at]
            at += 1
            if not isinstance(other, syntax.RoundLine) or other.label is None or other.steps is None:
                continue
            if other.only is None or size in other.only:
                program = self.programs.of(other, piece, size)
                height += _height(program)
                rows += program.rounds
        self.reached[key] = (at, height, rows)
        return height, rows


def _height(program: Program) -> float:
    return sum(row_height(s.steps) * s.rounds * block.times for block in program.blocks for s in block.segments)


def row_height(steps: tuple[syntax.Step, ...]) -> float:
    """The height of a row, in rows of sc: the mean over its stitches, as they are written.

    "inc" and "dec" are as high as the stitches beside them.
    """
    heights: list[float] = []
    shaped: list[float] = []
    for step in flat(steps):
        for inner in step.body if isinstance(step, syntax.Group) else (step,):
            stitch = inner.stitch if isinstance(inner, (syntax.Work, syntax.Spread)) else None
            if stitch is not None and stitch.kind not in _NO_HEIGHT:
                (shaped if stitch.kind in ("increase", "decrease") else heights).append(real_height(stitch))
    heights = heights or shaped
    return sum(heights) / len(heights) if heights else 1.0 if any(map(consumes, steps)) else 0.0

"""A bare number at a round's end may be its count or stitches: the reading that comes out is the one that was meant."""

from __future__ import annotations

from ..language import syntax
from .judge import Outcome, Start, judge
from .program import Program, Programs
from .working import Setting


def second_reading(
    programs: Programs, line: syntax.RoundLine, piece: syntax.Piece, start: Start, setting: Setting, edge_of: str
) -> tuple[Program, Outcome] | None:
    """The line's second reading, taken over in *line*, where it comes out on *start*; None where it does not."""
    if line.otherwise is None or start.edge is None:
        return None
    first = line.steps or (), line.stated
    _take(programs, line, line.otherwise, setting.size)
    program = programs.of(line, piece, setting.size)
    if not program.trouble:
        outcome = judge(program, start, setting, line.stated, edge_of)
        if outcome.right:
            line.otherwise = first
            return program, outcome
    _take(programs, line, first, setting.size)
    return None


def _take(
    programs: Programs, line: syntax.RoundLine, reading: tuple[tuple[syntax.Step, ...], tuple[syntax.Stated, ...]], size: int
) -> None:
    line.steps, line.stated = reading
    programs.done.pop((id(line), size), None)

"""Rows told by how often they shape, and rows until a measure is reached, as programs of single rows."""

from __future__ import annotations

from ..language import syntax
from ..language.vocabulary import Stitch, decrease, increase
from .gauge_rows import row_height
from .places import first_stitch, first_work
from .program import Block, Program, Programs, Segment, Steps, cycled


def shaped(programs: Programs, shaping: syntax.Shaping, line: syntax.RoundLine, piece: syntax.Piece, size: int, count: int) -> Program:
    """The rows of "dec 1 st at each end of every 4th row 5 times"; more of *count* rows are worked even."""
    others = tuple(step for step in line.steps or () if step is not shaping)
    base = first_stitch(first_work(others)) or programs.heights.stitch_before(line, piece)
    whole = syntax.Work(shaping.start, shaping.end, base, None, syntax.Place(shaping.start, shaping.end, "rest"))
    plain: Steps = others if first_work(others) is not None else (*others, whole)
    row: Steps = (*(step for step in others if not isinstance(step, syntax.Work)), _row(shaping, base))
    blocks: list[Block] = []
    if shaping.after is not None:
        until = syntax.Until(shaping.start, shaping.end, shaping.after)
        even = programs.heights.rows_until(until, plain, line, piece, size)
        if isinstance(even, str):
            return on_trust(shaping, even)
        blocks.append(Block([Segment(plain, even)]))
    if shaping.first:
        blocks.append(Block([Segment(row, 1)]))
    for every, times in shaping.phases:
        often = times.values[size if size < len(times.values) else 0] or 0
        segments = [Segment(plain, every - 1)] if every > 1 else []
        blocks.append(Block([*segments, Segment(row, 1)], often))
    program = Program([block for block in blocks if block.rounds])
    if count > program.rounds and line.label is not None and line.label.end > line.label.start:
        program.blocks.append(Block([Segment(plain, count - program.rounds)]))
    return program


def _row(shaping: syntax.Shaping, base: Stitch) -> syntax.Spread:
    """One row that shapes at its ends."""
    stitch = increase(base) if shaping.stitch.kind == "increase" else decrease(base)
    each = shaping.number.values if shaping.number is not None else (1,)
    number = syntax.Number(shaping.start, shaping.end, tuple(None if n is None else n * shaping.ends for n in each))
    return syntax.Spread(shaping.start, shaping.end, number, stitch)


def until(programs: Programs, step: syntax.Until, once: Program, line: syntax.RoundLine, piece: syntax.Piece, size: int) -> Program:
    """*once* worked over and over until the measure is reached; on trust where that is not known."""
    if once.trouble or not once.rounds:
        return once
    steps = tuple(s for block in once.blocks for segment in block.segments for s in segment.steps)
    even = any(isinstance(s, syntax.Work) and s.end > s.start and s.stitch.key == "sc" for s in line.steps or ())
    if even and row_height(steps) == 1.0 and _worked_even(line):
        stitch = programs.heights.stitch_before(line, piece)
        steps = tuple(_as(s, stitch) for s in steps)
        once = Program([Block([Segment(steps, 1)])])
    rows = programs.heights.rows_until(step, steps, line, piece, size)
    if isinstance(rows, str):
        return on_trust(step, rows)
    if len(once.blocks) > 1 or once.blocks[0].times > 1:
        once = Program([Block([s for block in once.blocks for _ in range(min(block.times, 100)) for s in block.segments])])
    return cycled(once, rows)


def _worked_even(line: syntax.RoundLine) -> bool:
    return "even" in line.statement.words.lower().split() or "straight" in line.statement.words.lower().split()


def _as(step: syntax.Step, stitch: Stitch) -> syntax.Step:
    """"Work even": in the stitch that the piece is worked in."""
    if isinstance(step, syntax.Work) and step.stitch.key == "sc" and step.place is not None and step.place.kind == "rest":
        return syntax.Work(step.start, step.end, stitch, step.count, step.place)
    return step


def on_trust(step: syntax.Step, reason: str) -> Program:
    """A round that cannot be counted, for *reason*."""
    return Program([Block([Segment((syntax.Trust(step.start, step.end, reason),), 1)])], refers=False)

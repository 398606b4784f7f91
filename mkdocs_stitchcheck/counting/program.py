"""What a written line has one do, round by round: ranges, and references to earlier rounds, replayed."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..language import syntax
from ..language.vocabulary import Stitch, stitches
from .gauge_rows import Heights
from .names import find_piece
from .numbered import Rounds, covered
from .places import consumes

Steps = tuple[syntax.Step, ...]

MOST_ROUNDS = 10_000
_DEEPEST = 50


@dataclass(slots=True)
class Segment:
    """``rounds`` rounds of the same ``steps``."""

    steps: Steps
    rounds: int


@dataclass(slots=True)
class Block:
    """A stretch of rounds worked ``times`` over."""

    segments: list[Segment]
    times: int = 1

    @property
    def rounds(self) -> int:
        if len(self.segments) == 1:
            return self.segments[0].rounds * self.times
        return sum(segment.rounds for segment in self.segments) * self.times


@dataclass(slots=True)
class Program:
    """All rounds of a line. ``trouble`` is the rule that keeps it from being worked, with its message and place."""

    blocks: list[Block] = field(default_factory=list)
    trouble: str = ""
    message: str = ""
    place: syntax.Node | None = None
    refers: bool = True  # whether the line refers to other rounds

    @property
    def rounds(self) -> int:
        if len(self.blocks) == 1:
            return self.blocks[0].rounds
        return sum(block.rounds for block in self.blocks)

    def at(self, offset: int) -> tuple[Steps, int] | None:
        """The steps of the *offset*-th round (from 0), and how many rounds from there on are the same."""
        for block in self.blocks:
            once = sum(segment.rounds for segment in block.segments)
            if offset >= once * block.times:
                offset -= once * block.times
                continue
            inside = offset % once if once else 0
            for segment in block.segments:
                if inside < segment.rounds:
                    alone = len(block.segments) == 1
                    return segment.steps, (once * block.times - offset) if alone else segment.rounds - inside
                inside -= segment.rounds
        return None


class Programs:
    """Resolves the lines of a pattern into programs; each line once."""

    def __init__(self, pattern: syntax.Pattern) -> None:
        self.pattern = pattern
        self.rounds = {id(piece): Rounds(piece) for piece in pattern.pieces}
        self.done: dict[tuple[int, int], Program] = {}
        self.open: list[int] = []
        self.named: dict[str, syntax.Piece | None] = {}
        self.heights = Heights(self)

    def stitch(self, key: str) -> Stitch | None:
        """The stitch with this key, of the language or the pattern's own."""
        special = self.pattern.header.special.get(key)
        return stitches().get(key) or (special.stitch if special is not None else None)

    def of(self, line: syntax.RoundLine, piece: syntax.Piece, size: int = 0) -> Program:
        """The program of *line* in *piece*."""
        key = (id(line), size)
        found = self.done.get(key)
        if found is None:
            self.open.append(id(line))
            found = self._build(line, piece, size)
            if line.unwritten is not None and line.unwritten.steps and not found.trouble:
                found.blocks.insert(0, Block([Segment(line.unwritten.steps, 1)]))
            self.open.pop()
            self.done[key] = found
        return found

    def _build(self, line: syntax.RoundLine, piece: syntax.Piece, size: int) -> Program:
        steps = line.steps or ()
        count = covered(line, size) - (line.unwritten is not None)
        kinds = set(map(type, steps))
        if syntax.Until in kinds or syntax.Shaping in kinds:
            return self._told(line, piece, size, steps, count)
        return self._of_steps(line, piece, size, steps, count)

    def _told(self, line: syntax.RoundLine, piece: syntax.Piece, size: int, steps: Steps, count: int) -> Program:
        """Rows told by how often they shape, or by how far to go on."""
        from . import shaped_rows

        until = next((step for step in steps if isinstance(step, syntax.Until)), None)
        if until is None:
            shaping = next(step for step in steps if isinstance(step, syntax.Shaping))
            return shaped_rows.shaped(self, shaping, line, piece, size, count)
        once = self._of_steps(line, piece, size, tuple(step for step in steps if not isinstance(step, syntax.Until)), 1)
        return shaped_rows.until(self, until, once, line, piece, size)

    def _of_steps(self, line: syntax.RoundLine, piece: syntax.Piece, size: int, steps: Steps, count: int) -> Program:
        if syntax.Again not in map(type, steps):
            return Program([Block([Segment(steps, count)])], refers=False)
        again = [step for step in steps if isinstance(step, syntax.Again) and _whole(step)]
        if not again:
            return Program([Block([Segment(steps, count)])])
        others = [s for s in steps if s not in again]
        if count == 1 and all(_single(step) for step in again) and any(consumes(step) for step in others):
            return Program([Block([Segment(steps, 1)])])
        return self._replayed(line, piece, size, again, tuple(others), count)

    def _replayed(
        self, line: syntax.RoundLine, piece: syntax.Piece, size: int, again: list[syntax.Again], others: Steps, count: int
    ) -> Program:
        program = Program()
        for step in again:
            trouble = self._append(program, step, line, piece, size)
            if trouble is not None:
                return trouble
        if not program.rounds:
            return program
        if line.label is not None and line.label.numbers and program.rounds != count and count > 1:
            if len(again) == 1 and again[0].times is None and count % program.rounds == 0:
                program.blocks[0].times = count // program.rounds
            elif len(again) == 1 and again[0].times is None:
                program = cycled(program, count)
        if others:
            _dress(program, others)
        return program

    def _append(
        self, program: Program, step: syntax.Again, line: syntax.RoundLine, piece: syntax.Piece, size: int
    ) -> Program | None:
        target = self.piece_of(step.reference, piece)
        if target is None:
            return Program(trouble="unknown-piece", message=step.reference.piece, place=step.reference)
        ranges = step.reference.rounds or ((1, self.rounds[id(target)].last),)
        segments: list[Segment] = []
        for first, last in self._absolute(ranges, line, piece):
            if last - first + 1 > MOST_ROUNDS:
                return Program(trouble="number-out-of-range", message=str(last), place=step.reference)
            trouble = self._stretch(segments, first, last, step, line, target, size)
            if trouble is not None:
                return trouble
        program.blocks.append(Block(segments, _times(step, size)))
        return None

    def _absolute(
        self, ranges: tuple[tuple[int, int], ...], line: syntax.RoundLine, piece: syntax.Piece
    ) -> tuple[tuple[int, int], ...]:
        """"The last 2 rows", (-2, -1), as numbers."""
        if all(first >= 0 for first, _ in ranges):
            return ranges
        here = line.label.first if line.label is not None else None
        if here is None:
            here = self.rounds[id(piece)].before.get(id(line), 0) + 1
        return tuple((max(first + here, 1), max(last + here, 1)) if first < 0 else (first, last) for first, last in ranges)

    def _stretch(
        self, segments: list[Segment], first: int, last: int, step: syntax.Again, line: syntax.RoundLine,
        target: syntax.Piece, size: int,
    ) -> Program | None:  # fmt: skip
        number = first
        while number <= last:
            found = self.rounds[id(target)].find(number, line)
            if found is None:
                return Program(trouble="unknown-round", message=str(number), place=step.reference)
            source, offset = found
            if id(source) in self.open or len(self.open) > _DEEPEST:
                return Program(trouble="circular-reference", message=str(number), place=step.reference)
            inner = self.of(source, target, size)
            if inner.trouble:
                return Program(trouble="unread", message=str(number), place=step.reference)
            if source.steps is None:
                return Program(trouble="unread", message=str(number), place=step.reference)
            here = inner.at(offset)
            if here is None:
                return Program(trouble="unknown-round", message=str(number), place=step.reference)
            steps, same = here
            rounds = min(same, last - number + 1)
            segments.append(Segment(steps, rounds))
            number += rounds
        return None

    def piece_of(self, reference: syntax.Reference, piece: syntax.Piece) -> syntax.Piece | None:
        """The piece that *reference* names; *piece* itself where it names none."""
        return self.find(reference.piece) if reference.piece else piece

    def find(self, name: str) -> syntax.Piece | None:
        """The piece called *name*: see :func:`find_piece`."""
        if name not in self.named:
            self.named[name] = find_piece(self.pattern, name, None)
        return self.named[name]

    def single(self, step: syntax.Again, line: syntax.RoundLine, piece: syntax.Piece, size: int) -> Steps | None:
        """The steps of the one round that *step* refers to, inside a round."""
        target = self.piece_of(step.reference, piece)
        if target is None or not step.reference.rounds:
            return None
        found = self.rounds[id(target)].find(step.reference.rounds[0][0], line)
        if found is None or id(found[0]) in self.open or found[0] is line:
            return None
        here = self.of(found[0], target, size).at(found[1])
        return here[0] if here is not None else None


def cycled(program: Program, count: int) -> Program:
    """*count* rounds out of a stretch worked over and over; the last time perhaps not to its end."""
    whole, over = divmod(count, program.rounds)
    segments: list[Segment] = []
    for segment in program.blocks[0].segments:
        if over <= 0:
            break
        rounds = min(segment.rounds, over)
        segments.append(Segment(segment.steps, rounds))
        over -= rounds
    blocks = [Block(program.blocks[0].segments, whole)] if whole else []
    if over > 0 or len(program.blocks) > 1:
        return program
    return Program([*blocks, Block(segments)])


def _dress(program: Program, others: Steps) -> None:
    """"As Rnd 5, change to B in last st": what stands beside the reference belongs to its last round."""
    last = program.blocks[-1]
    if last.times > 1:
        program.blocks.append(Block([Segment(s.steps, s.rounds) for s in last.segments]))
        last.times -= 1
        last = program.blocks[-1]
    segment = last.segments[-1]
    if segment.rounds > 1:
        last.segments[-1] = Segment(segment.steps, segment.rounds - 1)
        last.segments.append(Segment((*segment.steps, *others), 1))
    else:
        last.segments[-1] = Segment((*segment.steps, *others), 1)


def _whole(step: syntax.Again) -> bool:
    return bool(step.reference.rounds or step.reference.piece not in ("", "other side"))


def _single(step: syntax.Again) -> bool:
    rounds = step.reference.rounds
    return len(rounds) == 1 and rounds[0][0] == rounds[0][1] and rounds[0][0] > 0


def _times(step: syntax.Again, size: int) -> int:
    if step.times is None:
        return 1
    values = step.times.values
    return max(values[size if size < len(values) else 0] or 0, 0)

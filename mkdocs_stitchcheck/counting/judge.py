"""Judges a written line on an edge: whether each of its rounds uses the edge up and makes the stated count."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ..language import syntax
from .clumps import alike
from .edge import Edge
from .evaluate import evaluate
from .facing import other_ways, way_after
from .program import MOST_ROUNDS, Program
from .stated import NONE_STATED, Verdict, compare
from .tally import Material, add_material
from .working import LARGEST_COUNT, Setting, Steps, Working


@dataclass(slots=True)
class Start:
    """Where a line begins: the edge (None: unknown), the colour, a turning chain made at the end of the row before."""

    edge: Edge | None
    color: str = ""
    pending: syntax.Chain | None = None
    budget: int = MOST_ROUNDS


@dataclass(slots=True)
class Outcome:
    """What came of a line.

    ``first`` and ``last`` are its first and last round as worked; ``stuck`` is the index of a round that does not fit
    (then ``last`` is that round). ``verdict`` is on the stated count. ``end`` is where the next line begins, taken
    from what the steps make. ``each`` holds (uses, makes) of every round where they differ.
    """

    first: Working
    last: Working
    verdict: Verdict
    end: Start
    before: Edge | None
    rounds: int = 1
    stuck: int | None = None
    stuck_edge: Edge | None = None
    each: list[tuple[int, int]] = field(default_factory=list)
    material: Material = field(default_factory=dict)
    wrong_each: int | None = None
    too_many: bool = False

    @property
    def fits(self) -> bool:
        return self.stuck is None

    @property
    def right(self) -> bool:
        """Whether the line passes both checks."""
        return self.stuck is None and self.verdict.right

    @property
    def makes(self) -> int:
        return self.last.tally.made


def fits(w: Working) -> bool:
    """Whether the steps used the whole edge, no more and no less."""
    if w.unknown:
        return True
    if w.remainder is not None or w.left or w.mismatch is not None or w.astray is not None or w.own_off is not None:
        return False
    return not (w.tally.used_spaces or w.missing) or not w.spaces or w.leaving and w.spaces > 0


def work_round(
    steps: Steps, start: Start, setting: Setting, stated: syntax.Stated | None, piece: str = ""
) -> tuple[Working, Verdict]:
    """Works one round. Where a form leaves a choice (both sides of a chain, an odd number of layers, stitches that
    wait), the first that fits and makes the stated count is taken."""
    edge = start.edge
    w = evaluate(steps, edge, setting, start.color, 0, start.pending, piece)
    verdict = compare(stated, w, edge)
    if fits(w) and verdict.right:
        return w, verdict
    tries = [(edge, choice) for choice in range(1, w.options)]
    if edge is not None:
        tries.extend((other, choice) for other in other_ways(edge, steps, setting) for choice in range(w.options))
    if edge is not None and edge.waiting and edge.kind == "stitches":
        whole = replace(edge, stitches=edge.stitches + edge.waiting, waiting=0)
        tries.extend((whole, choice) for choice in range(w.options))
        tries.append((replace(edge, stitches=edge.waiting, waiting=edge.stitches), 0))
    if edge is not None and edge.apart:
        anew = Edge(edge.trailing, kind="chain")
        tries.extend((anew, choice) for choice in range(4))
    for other, choice in tries:
        again = evaluate(steps, other, setting, start.color, choice, start.pending, piece)
        found = compare(stated, again, other)
        if fits(again) and found.right:
            if other is not edge and other is not None:
                again.waits -= (edge.waiting if edge is not None else 0) - other.waiting
            return again, found
    return w, verdict


def edge_after(w: Working, before: Edge | None) -> Edge | None:
    """The edge that a round leaves; None where it cannot be known."""
    if w.unknown and w.open_ended:
        return None
    if not w.worked and not w.tally.made:
        return before
    waiting = max(w.waits + (before.waiting if before is not None else 0), 0)
    spaces = tuple(sorted(w.tally.spaces.items())) if w.tally.spaces else ()
    trailing = w.value(w.pending.number) if w.pending is not None else 0
    marks = tuple(w.tally.marks) if w.tally.marks else ()
    clumps = alike(tuple(w.tally.clumps), marks) if w.tally.clumps else ()
    return Edge(w.tally.made, spaces, "stitches", waiting, trailing, marks, clumps=clumps, way=way_after(w))


def judge(
    program: Program, start: Start, setting: Setting, stated: tuple[syntax.Stated, ...], piece: str = ""
) -> Outcome:
    """Works every round of *program* from *start* and compares the counts. Pure: reports nothing."""
    total = program.rounds
    if total == 1:
        steps = program.blocks[0].segments[0].steps if len(program.blocks) == 1 else _only(program)
        w, verdict = work_round(steps, start, setting, stated[-1] if stated else None, piece)
        if verdict.right:  # of several counts of one round each must be right
            verdict = next((wrong for one in stated[:-1] if not (wrong := compare(one, w, start.edge)).right), verdict)
        outcome = Outcome(w, w, verdict, _next(w, start), start.edge, material=w.tally.material)
        outcome.too_many = w.tally.made > LARGEST_COUNT
        if not fits(w):
            outcome.stuck, outcome.stuck_edge = 0, start.edge
        return outcome
    return _Replay(program, start, setting, stated, piece).outcome()


def _only(program: Program) -> Steps:
    for block in program.blocks:
        for segment in block.segments:
            if block.times and segment.rounds:
                return segment.steps
    return ()


def _next(w: Working, start: Start) -> Start:
    color = w.next_color if w.next_color is not None else w.color
    return Start(edge_after(w, start.edge), color, w.pending, start.budget)


class _Replay:
    """Works the rounds of a range one by one, and stops as soon as nothing changes any more."""

    def __init__(
        self, program: Program, start: Start, setting: Setting, stated: tuple[syntax.Stated, ...], piece: str
    ) -> None:
        self.program, self.start, self.setting, self.piece = program, start, setting, piece
        self.total = program.rounds
        self.each_stated = stated if len(stated) == self.total and self.total > 1 else ()
        self.last_stated = stated[-1] if stated else None
        self.state = start
        self.done = 0
        self.first: Working | None = None
        self.last: Working | None = None
        self.verdict = NONE_STATED
        self.material: Material = {}
        self.each: list[tuple[int, int]] = []
        self.stuck: int | None = None
        self.stuck_edge: Edge | None = None
        self.wrong_each: int | None = None
        self.too_many = False

    def outcome(self) -> Outcome:
        for block in self.program.blocks:
            passed = 0
            while passed < block.times and not self._stopped():
                before, had, seen = self.state, dict(self.material), self.done
                for segment in block.segments:
                    self._segment(segment.steps, segment.rounds)
                    if self._stopped():
                        break
                passed += 1
                if self._same(before, self.state) and passed < block.times and not self._stopped():
                    self._again(had, seen, block.times - passed)
                    break
        if self.first is None or self.last is None:
            w, verdict = work_round((), self.start, self.setting, None, self.piece)
            return Outcome(w, w, verdict, self.start, self.start.edge, rounds=0)
        uniform = all(pair == self.each[0] for pair in self.each)
        return Outcome(
            self.first, self.last, self.verdict, self.state, self.start.edge, self.total, self.stuck, self.stuck_edge,
            [] if uniform else self.each, self.material, self.wrong_each, self.too_many,
        )  # fmt: skip

    def _stopped(self) -> bool:
        return self.stuck is not None or self.too_many

    def _segment(self, steps: Steps, rounds: int) -> None:
        worked = 0
        while worked < rounds and not self._stopped():
            before = self.state
            w = self._round(steps)
            worked += 1
            if worked < rounds and self._same(before, self.state) and not self._stopped() and not self.each_stated:
                rest = rounds - worked
                if self.done + rest >= self.total and self.last_stated is not None:
                    self.verdict = compare(self.last_stated, w, before.edge)
                add_material(self.material, w.tally.material, rest)
                self.done += rest
                return

    def _round(self, steps: Steps) -> Working:
        stated = self._stated_now()
        w, verdict = work_round(steps, self.state, self.setting, stated, self.piece)
        self.first = self.first or w
        self.last = w
        add_material(self.material, w.tally.material)
        if len(self.each) < MOST_ROUNDS:
            self.each.append((w.tally.used, w.tally.made))
        if not fits(w):
            self.stuck, self.stuck_edge = self.done, self.state.edge
        if stated is not None:
            if not verdict.right and self.wrong_each is None and self.each_stated:
                self.wrong_each, self.verdict = self.done, verdict
            elif self.wrong_each is None:
                self.verdict = verdict
        before = self.state
        self.state = _next(w, before)
        self.done += 1
        if w.tally.made > LARGEST_COUNT:
            self.too_many = True
        if not self._same(before, self.state):
            self.state.budget = before.budget - 1
            self.too_many = self.too_many or self.state.budget < 0
        return w

    def _stated_now(self) -> syntax.Stated | None:
        if self.each_stated:
            return self.each_stated[self.done]
        return self.last_stated if self.done == self.total - 1 else None

    def _again(self, had: Material, seen: int, times: int) -> None:
        """The rest of a block that leaves the edge as it was: the same material, as often as it is left."""
        once = {key: count - had.get(key, 0) for key, count in self.material.items()}
        add_material(self.material, once, times)
        self.done += (self.done - seen) * times
        if self.last is not None and self.last_stated is not None and self.done >= self.total:
            self.verdict = compare(self.last_stated, self.last, self.state.edge)

    @staticmethod
    def _same(before: Start, after: Start) -> bool:
        return before.edge == after.edge and before.color == after.color and before.edge is not None

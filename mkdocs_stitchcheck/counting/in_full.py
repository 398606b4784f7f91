"""The rounds of a piece stitch by stitch, for drawings: repeats and ranges expanded, within bounds.

Only what was checked is taken apart. Where a round is wrong, on trust, not read or too large, that round is named.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..findings import Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult, Status
from .edge import KEPT
from .facing import said_first
from .judge import Start, edge_after, fits, work_round
from .piece import PieceWalk
from .program import Block, Programs
from .questions import Answers, words
from .readings import declared
from .recording import Recording
from .records import Worked
from .replaying import Item, NotDrawable, Replay
from .report import Reporter
from .walk import walk_pieces
from .working import Steps

MOST_COURSES = 240
MOST_STITCHES = 600  # in one round
MOST_IN_ALL = 8_000  # in all rounds of a piece
_SAID = {
    Status.MISMATCH: "a wrong number",
    Status.UNREAD: "could not be read",
    Status.ON_TRUST: "taken on trust",
}


@dataclass(frozen=True, slots=True)
class Course:
    """One round or row. ``back`` where it runs against the one before (turned). ``begins``: what it stands on: ``ring``,
    ``chain`` (of ``chains``, the first ``skipped`` of which are passed over; both sides of it where items are ``far``),
    ``loop`` (a chain of ``chains`` closed to a large ring), ``none`` (foundation stitches), or ``course`` (the one before).
    ``joined`` where a slip stitch closes it.
    """

    label: str
    number: int | None
    kind: str
    items: tuple[Item, ...]
    count: int
    begins: str = "course"
    back: bool = False
    joined: bool = False
    chains: int = 0
    skipped: int = 0
    line: RoundResult | None = None

    @property
    def spaces(self) -> int:
        """How many chain spaces it has."""
        return sum(item.kind == "space" for item in self.items)


@dataclass(slots=True)
class InFull:
    """The courses of a piece in order; or, in words, which round keeps them from being known (``why_not``)."""

    courses: list[Course] = field(default_factory=list)
    why_not: str = ""


def in_full(result: PatternResult, pieces: list[PieceResult] | None = None) -> dict[int, InFull]:
    """Each of *pieces* (all of *result* where None) stitch by stitch, by the identity of the piece. Of a pattern with
    sizes, the first size. Never raises for what a writer typed."""
    wanted = {id(piece) for piece in (pieces if pieces is not None else result.pieces)}
    reporter = Reporter(Findings(), result.title)
    reporter.muted = True
    programs = Programs(result.syntax)
    walks = walk_pieces(result.syntax, programs, _answers(result), reporter)
    found: dict[int, InFull] = {}
    for piece, walk in zip(result.pieces, walks, strict=True):
        if id(piece) in wanted:
            found[id(piece)] = _piece(piece, walk)
    return found


def _answers(result: PatternResult) -> Answers:
    """How the open questions were read for the whole pattern."""
    base = declared(result.syntax.header)
    said = {reading.question: reading.answer for reading in result.readings}
    return base.but({question: answer == words(question, True) for question, answer in said.items()
                     if question not in base.given})


def _piece(piece: PieceResult, walk: PieceWalk) -> InFull:
    done = InFull()
    stitches = 0
    for line, worked in zip(piece.rounds, walk.worked, strict=True):
        if line.kind not in ("round", "row"):
            continue
        name = line.label or "a round without a label"
        if line.status in _SAID:
            return InFull([], f"{name}: {_SAID[line.status]}")
        if not worked.worked:
            continue  # not in the first size
        if max(line.makes[0] or 0, line.uses[0] or 0) > MOST_STITCHES:
            return InFull([], f"{name}: too large for a chart")
        stitches += max(line.makes[0] or 0, line.uses[0] or 0) * worked.worked
        if len(done.courses) + worked.worked > MOST_COURSES or stitches > MOST_IN_ALL:
            return InFull([], f"{name}: too many rounds for a chart")
        try:
            done.courses.extend(_courses(line, worked, walk, piece, done.courses[-1] if done.courses else None))
        except NotDrawable as reason:
            return InFull([], f"{name}: {reason}")
    return done


def _courses(
    line: RoundResult, worked: Worked, walk: PieceWalk, piece: PieceResult, before: Course | None
) -> Iterator[Course]:
    """The courses of one written line."""
    program = walk.shared.programs.of(line.syntax, walk.piece)
    setting = replace(walk.setting_of(line.syntax), working=Recording, asking=False)
    state, stated, total = worked.before, line.syntax.stated, worked.worked
    carried = state.pending
    for done, steps in enumerate(_rounds(program.blocks)):
        if done == total:
            return
        said = stated[done] if len(stated) == total > 1 else stated[-1] if stated and done == total - 1 else None
        w, verdict = work_round(steps, state, setting, said, walk.edge_of)
        if any(isinstance(step, syntax.Edging) for step in steps):
            raise NotDrawable("goes along the sides of the piece")
        if not isinstance(w, Recording) or not fits(w) or not verdict.right or w.joined or _goes_on(steps):
            raise NotDrawable("joins pieces, or goes on past its end" if w.joined or _goes_on(steps) else "does not add up")
        if (line.kind == "round" or not piece.flat) and (w.leaving or w.waits):
            raise NotDrawable("leaves stitches unworked, which a chart in the round can't show")
        course = _course(line, done, w, steps, before, w.value(carried.number) if carried is not None else 0,
                         state.edge.way if state.edge is not None else "")
        yield course
        before = course
        state = Start(edge_after(w, state.edge), w.next_color if w.next_color is not None else w.color, w.pending)
        carried = w.pending


def _rounds(blocks: list[Block]) -> Iterator[Steps]:
    for block in blocks:
        for _ in range(block.times):
            for segment in block.segments:
                for _again in range(segment.rounds):
                    yield segment.steps


def _goes_on(steps: Steps) -> bool:
    return any(isinstance(step, syntax.More) for step in steps)


def _course(
    line: RoundResult, nth: int, w: Recording, steps: Steps, before: Course | None, carried: int, way: str
) -> Course:
    replay = Replay(w, carried)
    items = replay.run()
    begins, chains, skipped = _beginning(w, before, items, replay.ring)
    back = before is not None and _turned(steps, before, line, said_first(steps) or way)
    items = [_placed(item, w, before, begins, back) for item in items]
    number = line.first + nth if line.first is not None else None
    noun = "Row" if line.kind == "row" else "Rnd"
    label = f"{noun} {number}" if number is not None else line.label
    joined = w.tally.material.get((w.color, "sl st"), 0) > sum(
        item.stitch is not None and item.stitch.key == "sl st" for item in items
    )
    return Course(label, number, line.kind, tuple(items), w.tally.made, begins, back, joined, chains, skipped, line)


def _beginning(w: Recording, before: Course | None, items: list[Item], ring: int) -> tuple[str, int, int]:
    """What a course stands on, with the chains of it and how many of these are passed over."""
    if w.chain or w.first_chain:
        if before is not None:
            raise NotDrawable("begins again at a chain")
        return "chain", w.chain + max(w.first_chain - 1, 0), max(w.first_chain - 1, 0)
    if w.in_ring:
        if before is not None:
            raise NotDrawable("begins again in a ring")
        return "ring", w.places or ring, 0
    if before is None:
        if any(item.parents or item.space is not None for item in items if item.kind == "stitch"):
            if not w.places:
                raise NotDrawable("does not say what it is worked into")
            return "loop", w.places, 0
        return "none", 0, 0
    if w.places != before.count:
        raise NotDrawable("does not go on from the round before")
    return "course", 0, 0


def _turned(steps: Steps, before: Course, line: RoundResult, way: str) -> bool:
    """Whether the work is turned between the course before and this one, where ``way`` is said of it."""
    if line.kind == "row":
        return way != KEPT
    own = before.line.syntax.steps if before.line is not None else ()
    return _turns(steps, at_start=True) or _turns(own or (), at_start=False)


def _turns(steps: Steps, at_start: bool) -> bool:
    """Whether *steps* turn before their first stitches, or after their last."""
    ordered = steps if at_start else tuple(reversed(steps))
    for step in ordered:
        if isinstance(step, syntax.Turn):
            return True
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat, syntax.Spread, syntax.Again)):
            return False
    return False


def _placed(item: Item, w: Recording, before: Course | None, begins: str, back: bool) -> Item:
    """An item with the numbers of its places as the course before counts them."""
    if begins == "chain":
        return _on_chain(item, w)
    if begins == "ring" or begins == "none":
        return replace(item, parents=(), space=None)
    total = w.places
    moved, spaces = w.turned_to[0], len(w.marks)
    if item.kind == "slip":
        moved = 0
    around = w.setting.in_rounds or moved  # slip stitches may have moved the start of a row, too
    parents = tuple((parent + moved) % total if around else parent for parent in item.parents)
    if any(not 0 <= parent < total for parent in parents):
        raise NotDrawable("worked in a way that a chart can't show")
    space = item.space
    if back:
        parents = tuple(total - 1 - parent for parent in parents)
        space = spaces - 1 - space if space is not None else None
    if space is not None and (before is None or not 0 <= space < before.spaces):
        raise NotDrawable("works into chain spaces whose order isn't known")
    return replace(item, parents=parents, space=space)


def _on_chain(item: Item, w: Recording) -> Item:
    """Places of a chain, from the hook's end: on the second side they come back."""
    length = w.chain
    side = w.side_used if w.side == 2 and w.side_used >= 0 else length if w.side == 2 else None
    parents, far = [], False
    for parent in item.parents:
        if side is None or parent < side:
            parents.append(min(parent, length - 1))
            continue
        second = w.tally.used - side
        start = length - 1 if second >= length or not w.corner and second == length - 1 and w.side_used < 0 else length - 2
        parents.append(max(start - (parent - side), 0))
        far = True
    return replace(item, parents=tuple(parents), space=None, far=far)

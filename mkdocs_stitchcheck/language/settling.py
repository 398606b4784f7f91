"""What is clear only when all steps of an instruction are read: turning chains, what goes into the ring, the other side."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from .counts import Tail
from .joined_spaces import join_last_space
from .syntax import (
    Again,
    Aside,
    Chain,
    ColorChange,
    Group,
    Join,
    Leave,
    More,
    Number,
    OtherSide,
    Place,
    Reference,
    Repeat,
    Ring,
    Spread,
    Step,
    Trust,
    Turn,
    Work,
)
from .vocabulary import stitches


def settle(steps: list[Step], tail: Tail) -> list[Step]:
    """Chains that give height are told from chains between stitches; a ring without stitches takes the stated count.

    "sc around, increasing 6 evenly" is one thing: the stitches around are among those that are spread.
    """
    kinds = {type(step) for step in steps}  # most rounds are of stitches and repeats, and there is little to settle
    _whole_round(steps, tail)
    _ring_for_all(steps)
    if Aside in kinds or Repeat in kinds:
        _through_held(steps)
    if Leave in kinds:
        _keep_back(steps)
    if OtherSide in kinds:
        _down_the_other(steps)
    if any(isinstance(step, Spread) or isinstance(step, Repeat) and step.mark == "every" for step in steps):
        steps = [s for s in steps if not (isinstance(s, Work) and s.place is not None and s.place.kind == "rest")]
    if Chain in kinds:
        _mark_turning(steps)
    if Chain in kinds or Repeat in kinds:
        steps = join_last_space(steps)
    if Chain in kinds:
        _first_chains(steps)
    only = [step for step in steps if not isinstance(step, (Aside, ColorChange))]
    if len(only) == 1 and isinstance(only[0], Ring) and only[0].chains is None and tail.counts and tail.counts[0].number is not None:
        ring, number = only[0], tail.counts[0].number
        place = Place(ring.start, ring.end, "ring")
        steps.append(Work(ring.start, ring.end, stitches()["sc"], Number(ring.end, ring.end, number.values), place))
    return steps


def _through_held(steps: Sequence[Step], held: Reference | None = None) -> None:
    """"Holding ears together, (sc through both) x 8": both are the pieces held."""
    for step in steps:
        if isinstance(step, Aside) and step.reference is not None:
            held = step.reference
        elif isinstance(step, Repeat):
            _through_held(step.body, held)
        elif isinstance(step, Work) and held is not None and step.place is not None and step.place.layers > 1 and step.place.reference is None:
            step.place.reference = held
            if not held.piece.lower().endswith("s"):
                step.place.kind = "piece"  # one piece held against the one at hand


def _keep_back(steps: list[Step]) -> None:
    """"sc across, work 1 st less each row": the stitches that stay are not among those worked across."""
    for before, step in pairwise(steps):
        if isinstance(step, Leave) and step.number is not None and isinstance(before, Work):
            place = before.place
            if place is not None and place.kind == "rest" and place.number is None and place.layers == 1:
                place.kind, place.number = "to_last", step.number


def _down_the_other(steps: list[Step]) -> None:
    """"sc up one side, 3 in tip, down the other", "sc down the other side": the rest of the chain's other side."""
    turned = next((i for i in range(len(steps) - 1, -1, -1) if isinstance(steps[i], OtherSide)), None)
    if turned is None:
        return
    if turned and isinstance(steps[turned - 1], Turn):
        del steps[turned - 1]  # "turn and continue along the other side": the work is only swung round
        turned -= 1
    rest = [step for step in steps[turned:] if isinstance(step, (*WORKING, Again))]
    before = [step for step in steps[:turned] if isinstance(step, Work) and step.place is not None and step.place.kind == "rest"]
    end = steps[turned].end
    if not rest and before:
        steps.insert(turned + 1, Work(end, end, before[-1].stitch, None, Place(end, end, "rest", noun="side")))
    elif len(rest) == 1 and isinstance(rest[0], Work) and rest[0].place is None and rest[0].count is None and rest[0].stitch.plain:
        rest[0].place = Place(end, end, "rest", noun="side")


def across_both(step: Work) -> None:
    """"sc through both layers": without a number the stitches go all the way across."""
    place = step.place
    if place is None or step.count is not None or step.times is not None or not step.stitch.plain:
        return
    if place.layers == 2 and place.kind == "next" and place.number is None and place.reference is None and place.noun == "layers":
        place.kind = "rest"


def _whole_round(steps: list[Step], tail: Tail) -> None:
    """"sc BLO (20)": one bare stitch as a whole round, with a count, is worked around."""
    works = [step for step in steps if isinstance(step, WORKING)]
    if len(works) != 1 or not isinstance(works[0], Work) or not tail.counts or tail.counts[0].number is None:
        return
    work = works[0]
    across_both(work)
    if work.stitch.plain and work.stitch.kind in ("plain", "post") and work.count is None and work.place is None and tail.counts[0].number.value > 1:
        work.place = Place(work.start, work.end, "rest")


def _ring_for_all(steps: list[Step]) -> None:
    """"6 sc + 1 bobble in magic ring": all of them go into the ring."""
    works = [step for step in steps if isinstance(step, (Work, Group))]
    if len(works) > 1 and works[-1].place is not None and works[-1].place.kind == "ring" and not any(isinstance(s, Ring) for s in steps):
        for work in works[:-1]:
            if isinstance(work, Work) and work.place is None and work.stitch.kind != "skip":
                work.place = Place(work.start, work.end, "ring")


def _first_chains(steps: list[Step]) -> None:
    """"Ch 2, 6 sc in first ch": the first chain that was made is the last one counted from the hook."""
    made: Chain | None = None
    for step in steps:
        if isinstance(step, Chain):
            made = step
        elif isinstance(step, (Work, Group)) and step.place is not None:
            place = step.place
            if made is not None and place.kind == "first" and place.noun == "chain" and place.number is None:
                place.kind, place.number = "chain", made.number
                made.turning = False
            made = None


WORKING = (Work, Group, Repeat, Spread, More, Trust)


def _mark_turning(steps: list[Step]) -> None:
    working = [i for i, step in enumerate(steps) if isinstance(step, WORKING)]
    moves = next((n for n, i in enumerate(working) if not _moves(steps[i])), 0)
    first = working[moves] if working else len(steps)
    last = working[-1] if working else -1
    for index, step in enumerate(steps):
        if not isinstance(step, Chain):
            continue
        if index < first and working:
            step.turning = _gives_height(steps, index, first)
        elif index > last and working:
            step.turning = any(isinstance(other, Turn) for other in steps[last + 1 :])
        elif not working and any(isinstance(other, Turn) for other in steps):
            step.turning = True


def _moves(step: Step) -> bool:
    """A slip stitch before anything else moves to where the round begins: the chain after it gives height."""
    return isinstance(step, Work) and step.stitch.kind == "slip" and step.place is not None


def _gives_height(steps: list[Step], index: int, first: int) -> bool:
    """Whether a chain before the first stitch gives height: not a foundation, a bridge to a leg, or an opening."""
    chain, following = steps[index], steps[first]
    assert isinstance(chain, Chain)
    between = steps[index + 1 : first]
    if any(isinstance(step, (OtherSide,)) or (isinstance(step, Join) and step.reference is not None) for step in between):
        return False
    if isinstance(following, (Work, Group)) and following.place is not None and following.place.kind == "chain":
        return False
    if isinstance(following, Work) and following.stitch.kind == "skip" and following.count is not None:
        return following.count.value != chain.number.value or chain.number.value == 1
    return True

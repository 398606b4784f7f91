"""Chains in a round: turning chains, chains between stitches, openings; and turns and stitches that stay."""

from __future__ import annotations

from ..language import syntax
from ..language.vocabulary import Stitch
from .edge import CORNER, OPENING, PLAIN
from .open_mesh import lies_over, pass_over
from .own_chain import leave as leave_own
from .own_chain import opens
from .places import HEIGHTS, consumes, first_stitch, first_work, flat, height_key, is_space
from .questions import CHAINS, TURNING
from .working import Steps, Working


def chain(w: Working, step: syntax.Chain, steps: Steps, index: int) -> None:
    """A chain: beside a turn it gives height, elsewhere it lies between stitches."""
    if w.own_made:
        leave_own(w)
    if opens(w, step, steps, index):
        return
    number = w.value(step.number)
    color = w.wear(None)
    if w.joined and not w.in_ring and not (step.turning and number == 1 and not w.worked):
        w.bridge += number
        w.tally.chain(color, number)
        return
    if step.turning and (not w.worked or w.depth):
        w.tally.chain(color, number)
        _turning(w, step, number, first_stitch(first_work(steps[index + 1 :])), steps[index + 1 :])
        if w.marks and step.counts_as is not None:
            pass_over(w, sum(many for kind, many in step.counts_as if kind == "ch"), steps, index)
    elif step.turning:
        w.tally.chain(color, number)
        w.pending = step  # it belongs to the next row
    elif step.counts_as is not None and not w.worked:
        w.tally.chain(color, number)
        _turning(w, step, number, first_stitch(first_work(steps[index + 1 :])))
    else:
        w.tally.chain(color, number)
        _between(w, step, number, steps, index)


def carry_over(w: Working, step: syntax.Chain, steps: Steps) -> None:
    """A turning chain made at the end of the last row stands for the first stitch of this one."""
    _turning(w, step, w.value(step.number), first_stitch(first_work(steps)))


def _turning(w: Working, step: syntax.Chain, number: int, stitch: Stitch | None, later: Steps = ()) -> None:
    key = height_key(stitch) if stitch is not None else ""
    if step.counts_as is not None:
        counted = sum(many for kind, many in step.counts_as if kind != "ch")
        if key and (counted or not step.counts_as):
            w.own += ((f"{TURNING} {key}", counted > 0, step.throughout),)
        if counted:
            _stands_for(w, counted, key or step.counts_as[0][0])
        for kind, many in step.counts_as:
            if kind == "ch":
                w.tally.space(many)
        return
    if not key or number < (1 if key == "sc" else 2):
        return
    if w.ask(f"{TURNING} {key}"):
        _stands_for(w, 1, key)
        beyond = number - HEIGHTS.index(key) - 1
        if beyond > 0 and any(isinstance(s, syntax.Chain) and w.value(s.number) == beyond for s in flat(later)):
            w.tally.space(beyond)  # "ch 5, (dc in next dc, ch 2) around": a dc and the first space


def _stands_for(w: Working, stitches: int, kind: str) -> None:
    if not w.in_ring:
        w.use(1)
    w.under_chain = True
    w.height_stitches = stitches
    w.tally.made += stitches
    w.tally.kinds[kind] = w.tally.kinds.get(kind, 0) + stitches


def _between(w: Working, step: syntax.Chain, number: int, steps: Steps, index: int) -> None:
    tally = w.tally
    if _is_picot(steps, index):
        return
    if not w.depth and not w.worked and w.tally.used == 0 and not any(consumes(later) for later in steps[index:]):
        w.pending = step
        return
    if w.marks and not w.in_group:
        pass_over(w, number, steps, index)
    opening = _is_opening(w, number, steps, index) or _is_underarm(w, number, steps, index)
    counts = opening or not step.counts_as and step.counts_as is None and w.ask(CHAINS)
    tally.space(number, OPENING if counts else CORNER if w.in_group else PLAIN)
    if opening:
        tally.openings += number
        tally.made += number
        return
    if step.counts_as:
        counted = sum(many for kind, many in step.counts_as if kind != "ch")
        tally.made += counted
        tally.kinds[step.counts_as[0][0]] = tally.kinds.get(step.counts_as[0][0], 0) + counted
        return
    tally.chains += number
    if counts:
        tally.made += number


def _is_picot(steps: Steps, index: int) -> bool:
    """"ch 3, sl st in first ch": a picot, neither a stitch nor a space."""
    following = steps[index + 1] if index + 1 < len(steps) else None
    return (
        isinstance(following, syntax.Work)
        and following.stitch.kind == "slip"
        and following.place is not None
        and following.place.noun == "chain"
        and following.place.kind in ("first", "chain", "next")
    )


def _is_opening(w: Working, number: int, steps: Steps, index: int) -> bool:
    """Chains beside as many skipped stitches bridge an opening: "ch 5, sk 5", "sk 1, ch 1"."""
    length = len(steps)
    neighbours = [index + 1, index - 1]
    for place in neighbours:
        if not 0 <= place < length:
            if not w.cyclic:
                continue
            place %= length
        beside = steps[place]
        if isinstance(beside, syntax.Work) and beside.stitch.kind == "skip":
            if beside.place is not None and (is_space(beside.place) or beside.place.kind in ("chain", "rest")):
                continue
            if lies_over(w, beside, steps, place):
                continue
            if _skip_number(w, beside) == number and not _taken_by_the_chain_before(w, steps, place, index, number):
                return True
    return False


_LEAST_UNDERARM = 6


def _is_underarm(w: Working, number: int, steps: Steps, index: int) -> bool:
    """"ch 4, sk next 24 sts": a few chains under an arm, over many stitches that wait for the sleeve, count as stitches
    (common practice, no source), unless only the stitches without them are what the round states."""
    if w.depth or w.choice or w.chain or w.in_ring:
        return False
    for place in (index + 1, index - 1):
        beside = steps[place] if 0 <= place < len(steps) else None
        if isinstance(beside, syntax.Work) and beside.stitch.kind == "skip" and not (beside.place and is_space(beside.place)):
            skipped = _skip_number(w, beside)
            if skipped >= _LEAST_UNDERARM and 0 < number < skipped and not _taken_by_the_chain_before(w, steps, place, index, number):
                w.options = max(w.options, 2)
                return True
    return False


def _skip_number(w: Working, step: syntax.Work) -> int:
    if step.place is None or step.place.number is None:
        return w.times(step.count) * w.times(step.times)
    return w.value(step.place.number) * w.times(step.times)


def _taken_by_the_chain_before(w: Working, steps: Steps, skip: int, index: int, number: int) -> bool:
    """One skip bridges one opening: in "ch 1, sk 1, ch 1" only the first chain lies over it."""
    if skip != index - 1 or skip == 0:
        return False
    before = steps[skip - 1]
    return isinstance(before, syntax.Chain) and not before.turning and w.value(before.number) == number


def opening_here(w: Working) -> int:
    """The chains over the opening that lies next: "sc in each ch across the gap"; 0 where there is none."""
    if not w.marks:
        return 0
    at = w.total - w.left
    for place, length, kind in w.marks:
        if kind == OPENING and place + length >= at:
            if at != place:
                w.astray = (at, place)
            return length
    return 0


def turn(w: Working, step: syntax.Turn, steps: Steps, index: int) -> None:
    """In rounds a turn before the end leaves the rest; in rows only "to last N ... turn" does."""
    w.turned = True
    if not w.worked or w.depth:
        return
    w.turned_last = True
    later = steps[index + 1 :]
    if any(consumes(other) for other in later):
        if w.left > 0 or w.setting.in_rounds:
            _turn_midway(w)
        return
    if w.left > 0 and (w.setting.in_rounds or w.kept == w.left):
        leave_rest(w)


def _turn_midway(w: Working) -> None:
    """Short rows on one line: what was just made is worked next, the rest waits."""
    w.turned_last = False
    w.waits += max(w.left, 0)
    w.left = w.tally.made
    w.tally.made = 0
    w.tally.kinds.clear()
    w.leaving = True
    w.worked = False


def leave_rest(w: Working) -> None:
    """All that is left stays and waits."""
    w.leaving = True
    if w.left > 0:
        w.waits += w.left
        w.left = 0
    w.spaces = 0


def leave(w: Working, step: syntax.Leave, steps: Steps, index: int) -> None:
    """"leave rem 6 sts unworked": so many wait; "work on these 20 sts only": all but so many."""
    if step.only is not None:
        others = w.left - w.value(step.only)
        w.leaving = True
        w.waits += max(others, 0)
        w.left -= max(others, 0)
        return
    if step.number is None:
        leave_rest(w)
        return
    number = w.value(step.number)
    if w.leaving and not w.left and w.waits >= number and any(isinstance(s, syntax.Turn) for s in steps[:index]):
        w.left = w.waits - number  # "turn, leave rem 6 sts unworked": the turn left them already; so many are meant
        w.waits = number
        return
    w.leaving = True
    w.waits += number
    w.left -= number

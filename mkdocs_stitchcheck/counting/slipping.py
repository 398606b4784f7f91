"""Slip stitches: as a join, as stitches among stitches, and to where the next round starts."""

from __future__ import annotations

from ..language import syntax
from .in_order import next_space, stitches_before, turn_to
from .places import is_space
from .questions import SLIP
from .taking import spaces, taken
from .working import Steps, Working


def slip(w: Working, step: syntax.Work, steps: Steps, index: int) -> None:
    """A slip stitch: a join where the edge is used up, a stitch among stitches."""
    place = step.place
    number = w.times(step.count) * w.times(step.times)
    color = w.wear(step.color)
    if place is not None and place.kind == "to_space" and place.upto is not None:
        if w.marks and not w.worked and not w.done:
            w.tally.stitch(color, step.stitch, max(stitches_before(w, place.upto), 0), 0)
            w.moved = True
            if (found := next_space(w, place.upto)) is not None:
                turn_to(w, found)
                w.left = w.total
        return
    following = steps[index + 1] if index + 1 < len(steps) else None
    moves = not w.worked and place is None and number == 1 and isinstance(following, syntax.Chain)
    join = not w.unknown and not w.in_ring and not w.depth and w.left <= 0
    if place is not None and (place.kind == "same" or place.kind == "first" and w.worked):
        join = True
    if place is not None and place.noun == "chain" and place.kind in ("first", "chain") and not w.chain:
        join = True  # into a chain just made, as for a picot
    if join or moves:
        w.closed = w.closed or join
        w.tally.stitch(color, step.stitch, number, 0)
        return
    if place is not None and place.noun == "chain" and place.kind == "next" and not w.chain and (w.marks or w.loose) and not w.worked:
        w.tally.stitch(color, step.stitch, w.times(place.number), 0)  # "sl st in next 2 ch": to the middle of a loop
        return
    if place is not None and is_space(place):
        if (w.marks or w.loose) and not w.worked and not w.done:
            _start_in(w, place)
        else:
            spaces(w, place, 1, 0)
        w.tally.stitch(color, step.stitch, number, 0)
        return
    if (w.marks or w.loose) and not w.worked and not w.done and _starts_later(steps, index):
        moved = taken(w, place, steps, index) if place is not None else number
        w.left, w.moved = w.left - moved, True
        w.tally.stitch(color, step.stitch, max(moved, number), 0)
        return
    if place is not None:
        places = taken(w, place, steps, index)
        number = places * w.times(step.times)
    w.worked = True
    counts = w.ask(SLIP)
    if not w.in_ring:
        w.use(number)
    w.tally.stitch(color, step.stitch, number, number if counts else 0)


def _start_in(w: Working, place: syntax.Place) -> None:
    """Slip stitches to where the round starts: they must reach up to the space, the stitch of the join counted."""
    if w.loose:
        w.moved = True
        return
    moved, found = w.total - w.left, next_space(w, place)
    w.left, w.moved = w.total, True
    if found is None:
        w.missing += 1
        w.lengths |= {place.chains}
        return
    short = w.marks[found][0] - moved - w.setting.in_rounds  # a round has joined in its first stitch
    stands = not w.setting.in_rounds and short == 1  # a row stands on its first one when it is turned: some count it, some don't
    if moved and short and not stands:
        w.over += abs(short)
    turn_to(w, found)


def _starts_later(steps: Steps, index: int) -> bool:
    """Whether these slip stitches only move to where the round starts: a chain or a space comes next."""
    for later in steps[index + 1 :]:
        if isinstance(later, syntax.Chain):
            return later.turning or later.counts_as is not None
        if isinstance(later, syntax.Work):
            if later.stitch.kind != "slip":
                return later.place is not None and is_space(later.place) and later.place.kind == "same"
        elif isinstance(later, syntax.Group):
            return later.place.kind == "same"
        elif not isinstance(later, (syntax.Aside, syntax.Join, syntax.ColorChange)):
            return False
    return False

"""Rounds that begin with, or work into, a chain: how many places it gives on one side and on both."""

from __future__ import annotations

from ..language import syntax
from ..language.vocabulary import Stitch
from .places import HEIGHTS, first_place, first_stitch, first_work, height_key
from .questions import TURNING
from .working import Steps, Working


def has_own_chain(steps: Steps) -> bool:
    for step in steps:
        if isinstance(step, syntax.Chain):
            return step.turning
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat)):
            return False
    return False


def begin(w: Working, steps: Steps) -> Steps:
    """A round that makes its own ring or chain before it works into it; gives the steps that remain."""
    for index, step in enumerate(steps):
        if isinstance(step, syntax.Ring):
            if step.chains is not None:
                w.left = w.value(step.chains)
                w.tally.chain(w.wear(None), w.left)
            w.in_ring = True
            return steps[index + 1 :]
        if isinstance(step, syntax.Chain):
            later = first_work(steps[index + 1 :])
            if later is None or later.place is not None and later.place.kind in ("ring", "piece"):
                break
            if any(isinstance(other, syntax.Join) and other.reference is not None for other in steps):
                break
            number = w.value(step.number)
            w.tally.chain(w.wear(None), number)
            w.left = w.chain = number
            rest = steps[index + 1 :]
            if rest and isinstance(rest[0], syntax.Join):
                w.chain = 0
            return rest
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat)):
            break
    place = first_place(steps)
    if place is not None and place.kind == "ring":
        w.in_ring = True
    return steps


def open_chain(w: Working, steps: Steps, pending: syntax.Chain | None) -> None:
    """How many places an open chain gives: n - k + 1 from the k-th chain on, one stitch more if the skipped count."""
    stitch = first_stitch(first_work(steps))
    place = first_place(steps)
    length = w.chain
    skip = next((s for s in steps if isinstance(s, (syntax.Work, syntax.Group, syntax.Repeat))), None)
    if place is not None and place.kind == "chain":
        k = w.times(place.number)
    elif place is not None and place.kind == "first" and place.noun == "chain":
        k = length if length == 2 else 1
    elif isinstance(skip, syntax.Work) and skip.stitch.kind == "skip":
        skipped = w.times(skip.place.number if skip.place is not None and skip.place.number else skip.count)
        w.first_chain = skipped + 1
        w.left = w.chain = max(length - skipped, 0)
        w.passed = skip
        _count_skipped(w, stitch, skipped)
        return
    elif pending is not None or has_own_chain(steps) or stitch is None or (place is not None and place.kind == "loops"):
        k = 1
    else:
        k = HEIGHTS.index(height_key(stitch)) + 2 if stitch.height else 2
    w.first_chain = k
    w.left = max(length - k + 1, 0)
    w.chain = w.left
    if stitch is not None and not has_own_chain(steps):
        _count_skipped(w, stitch, k - 1, place.counts_as if place is not None else None)
        if place is not None and place.within == "block":
            w.tally.clump(w.tally.made, w.left, "")


def _count_skipped(w: Working, stitch: Stitch | None, skipped: int, said: tuple[tuple[str, int], ...] | None = None) -> None:
    if stitch is None:
        return
    key = height_key(stitch)
    if said is not None:
        counted = sum(many for kind, many in said if kind != "ch")
        if counted or not said:
            w.own += ((f"{TURNING} {key}", counted > 0, False),)
        w.tally.made += counted
        w.tally.kinds[key] = w.tally.kinds.get(key, 0) + counted
        w.under_chain = counted > 0
        for kind, many in said:
            if kind == "ch":
                w.tally.space(many)
        return
    least = 1 if key == "sc" else 2
    if skipped >= least and w.ask(f"{TURNING} {key}"):
        w.tally.made += 1
        w.tally.kinds[key] = w.tally.kinds.get(key, 0) + 1
        w.under_chain = True


def extend(w: Working, steps: Steps) -> None:
    """Chains made at the end of the last row lengthen the next: "sc in 2nd ch from hook"."""
    place = first_place(steps)
    if place is not None and place.kind == "chain":
        w.left += max(w.trailing - w.times(place.number) + 1, 0)


def close_other_side(w: Working, steps: Steps) -> None:
    """Each chain between the two end ones is used once on each side, each end chain at least once."""
    used = w.tally.used - w.side_used
    least = w.chain - 2
    turned = max((i for i, step in enumerate(steps) if isinstance(step, syntax.OtherSide)), default=0)
    works = [s for s in steps[turned:] if isinstance(s, (syntax.Work, syntax.Group))]
    place = works[-1].place if works else None
    if place is not None and place.kind == "last":
        least += 1  # the last of them goes into an end chain
    short = least - used
    over = used - w.chain
    first_side = w.chain - w.side_used
    if first_side:
        w.left = first_side
    else:
        w.left = short if short > 0 else -over if over > 0 else 0

"""Chains made in the course of a round and worked along at once: strands, points, rows that grow, blocks.

"ch 15, sc in 2nd ch from hook and in each ch across, sl st in next st": n - k + 1 places of its own (first stitch in the
k-th chain), and none of the round before. Arithmetic as for a foundation chain.
"""

from __future__ import annotations

from ..language import syntax
from .places import HEIGHTS, first_stitch, height_key
from .questions import TURNING
from .working import Steps, Working

STRAND = "strand"  # what a count may call each of them, or a point, a petal ...


def opens(w: Working, step: syntax.Chain, steps: Steps, index: int) -> bool:
    """Whether the stitches behind this chain go along it; then it is open for them."""
    following = next((s for s in steps[index + 1 :] if not isinstance(s, (syntax.Turn, syntax.Aside, syntax.ColorChange))), None)
    if w.chain or w.in_group or not isinstance(following, (syntax.Work, syntax.Group)):
        return False
    place = following.place
    if place is None or place.kind != "chain" or place.number is None:
        return False
    number, first = w.value(step.number), w.value(place.number)
    if number < first or first < 2 or isinstance(following, syntax.Work) and following.stitch.kind == "slip" and not _goes_along(steps, following):
        return False
    w.tally.chain(w.wear(None), number)
    w.own_made = w.own_left = number - first + 1
    w.own_block = place.within == "block"
    w.own_counted = not (w.depth or w.worked)
    _skipped(w, following, place, first - 1)
    if w.own_block:
        w.tally.clump(w.tally.made, w.own_made, "")
    elif not w.own_counted:
        w.tally.named[STRAND] = w.tally.named.get(STRAND, 0) + 1
        w.options = max(w.options, 2)  # the stitches of a strand are counted, or only what it hangs on
    return True


def _goes_along(steps: Steps, first: syntax.Work) -> bool:
    """Behind a slip stitch into the chain, whether there are more along it: else it is a picot."""
    at = steps.index(first)
    following = steps[at + 1] if at + 1 < len(steps) else None
    place = following.place if isinstance(following, (syntax.Work, syntax.Group)) else None
    return place is not None and place.noun == "chain"


def _skipped(w: Working, following: syntax.Work | syntax.Group, place: syntax.Place, skipped: int) -> None:
    """What the chains that are passed over count for: as said; at the start of a row as a turning chain would."""
    stitch = first_stitch(following)
    if stitch is None:
        return
    key = height_key(stitch)
    counted = 0
    if place.counts_as is not None:
        counted = sum(many for kind, many in place.counts_as if kind != "ch")
    elif not w.worked and not w.depth and skipped >= HEIGHTS.index(key) + 1 >= 2 and w.ask(f"{TURNING} {key}"):
        counted = 1
    w.tally.made += counted
    w.tally.kinds[key] = w.tally.kinds.get(key, 0) + counted
    for kind, many in place.counts_as or ():
        if kind == "ch":
            w.tally.space(many)


def is_along(w: Working, place: syntax.Place | None, places: int) -> bool:
    """Whether stitches go along the chain that is open, or (*place* None) may go on along it."""
    if w.own_made == 0 or w.chain:
        return False
    if place is None or place.noun == "" and place.kind in ("next", "last") and place.layers == 1:
        return 0 < places <= w.own_left
    if place.kind == "rest" and place.noun == "" and not place.each:
        return w.own_left > 0
    return place.noun == "chain" and place.kind in ("chain", "next", "rest", "last", "to_last") and (w.own_left > 0 or w.own_block)


def along(w: Working, place: syntax.Place) -> int:
    """Takes places of the open chain and gives their number."""
    if place.kind == "chain":
        number = 1
    elif place.kind == "to_last":
        number = max(w.own_left - w.value(place.number) if place.number is not None else 0, 0)
    elif place.number is None and (place.kind == "rest" or place.each):
        number = w.own_left
    else:
        number = w.times(place.number)
    take(w, number)
    return number


def take(w: Working, number: int) -> None:
    """*number* places of the open chain are worked."""
    w.own_left -= number
    if w.own_left < 0:
        w.own_off = w.own_off or (w.own_made - w.own_left, w.own_made)


def leave(w: Working) -> None:
    """The work goes on elsewhere. A single chain left over is a slip, more are the stem of a leaf; a block has none."""
    if w.own_left == 1 or w.own_left > 1 and w.own_block:
        w.own_off = w.own_off or (w.own_made - w.own_left, w.own_made)
    w.own_made = w.own_left = 0

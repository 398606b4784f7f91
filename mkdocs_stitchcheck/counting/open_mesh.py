"""Open meshes over open meshes: "ch 2, dc in next dc" above a space of two chains passes over it without a word."""

from __future__ import annotations

from ..language import syntax
from .edge import OPENING, PLAIN
from .in_order import take_space
from .places import HEIGHTS
from .working import Steps, Working


def pass_over(w: Working, number: int, steps: Steps, index: int) -> None:
    """Where *number* chains lie over a space of as many and the next stitch goes into a stitch, the space is done."""
    later = next((step for step in steps[index + 1 :] if not isinstance(step, (syntax.Turn, syntax.Aside))), None)
    following = later if later is not None else steps[0] if w.cyclic and index else None
    if not isinstance(following, syntax.Work) or following.stitch.kind == "skip" or w.mark_at >= len(w.marks):
        return
    place = following.place
    if place is None or place.kind not in ("next", "last") or place.noun not in (*HEIGHTS, "turning chain"):
        return
    before, length, kind = w.marks[w.mark_at]
    if kind != PLAIN or length != number or before != w.total - w.left:
        return
    if take_space(w, syntax.Place(following.start, following.end, "space", chains=length)):
        w.tally.used_spaces += 1
        w.spaces -= 1


def lies_over(w: Working, step: syntax.Work, steps: Steps, index: int) -> bool:
    """"sk 2 ch, dc in next ch" above a space of two chains: that space is passed over, the turning chain is worked into."""
    if w.chain or w.mark_at >= len(w.marks):
        return False
    place = step.place
    if place is None:
        later = steps[index + 1] if index + 1 < len(steps) else None
        said = isinstance(later, (syntax.Work, syntax.Group)) and later.place is not None and later.place.noun == "chain"
        number = w.times(step.count)
    else:
        said = place.noun == "chain" and place.kind in ("next", "chain")
        number = w.value(place.number) if place.number is not None else w.times(step.count)
    before, length, kind = w.marks[w.mark_at]
    return said and kind != OPENING and length == number and before == w.total - w.left

"""Pieces worked in blocks from corner to corner: each block is a few chains and the stitches that lean on them.

"Ch 6, dc in 4th ch from hook and in next 2 ch, sl st in ch-3 sp of next block, ch 3, 3 dc in same sp": the chains of a
block are worked into as a space, whatever a pattern says of skipped chains elsewhere. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from .syntax import Chain, Group, Piece, Place, Repeat, RoundLine, Step, Work

BLOCK = "block"
_SPACES = ("space", "corner", "loop")


def mark_blocks(piece: Piece) -> None:
    """Says of the chains of *piece* which are those of a block, where it is worked in blocks."""
    if not works_in_blocks(piece):
        return
    for line in _lines(piece):
        for steps in stretches(line.steps or ()):
            _mark(steps)


def works_in_blocks(piece: Piece) -> bool:
    """Whether *piece* is worked in blocks."""
    return any(_begins_block(steps) for line in _lines(piece) for steps in stretches(line.steps or ()))


def _lines(piece: Piece) -> list[RoundLine]:
    return [line for line in piece.lines if isinstance(line, RoundLine) and line.steps]


def stretches(steps: Sequence[Step]) -> Iterator[Sequence[Step]]:
    """The steps of a round, of each of its repeats and of each of its groups."""
    yield steps
    for step in steps:
        if isinstance(step, (Repeat, Group)):
            yield from stretches(step.body)
        if isinstance(step, Repeat) and step.ending:
            yield from stretches(step.ending)


def _begins_block(steps: Sequence[Step]) -> bool:
    """Whether a slip stitch into a space, a chain, and stitches into the same space stand here, with work before them."""
    for index, (slip, chain) in enumerate(pairwise(steps)):
        following = steps[index + 2] if index + 2 < len(steps) else None
        if not (is_slip(slip) and isinstance(chain, Chain) and isinstance(following, (Work, Group))):
            continue
        assert isinstance(slip, Work)
        place = following.place
        if slip.place is None:
            # "(sl st, ch 3, 3 dc) in next ch-3 sp": all of it in one place
            if index == 0 and place is None and len(steps) == 3:
                return True
        elif place is not None and place.kind == "same" and (slip.place.within == BLOCK or _is_marked(chain) or index == 0 and not chain.turning):
            return True
    return False


def _is_marked(chain: Chain) -> bool:
    return chain.counts_as == (("ch", chain.number.value),)


def is_slip(step: Step) -> bool:
    """A slip stitch into a space, or into the place of the group it stands in."""
    return isinstance(step, Work) and step.stitch.kind == "slip" and (step.place is None or _is_space(step.place))


def _is_space(place: Place) -> bool:
    return place.kind == "space" or place.noun.startswith(_SPACES) or place.within == BLOCK


def _mark(steps: Sequence[Step]) -> None:
    for index, step in enumerate(steps):
        place = step.place if isinstance(step, (Work, Group)) else None
        if place is not None and place.within == BLOCK:
            place.within = ""
            if place.kind == "in_group" or not place.noun:
                place.kind, place.noun = "space", "space"
        if place is not None and place.kind == "chain" and place.number is not None and place.number.value > 2:
            place.counts_as = (*(place.counts_as or ()), ("ch", place.number.value - 1))
            place.within = BLOCK
        before = steps[index - 1] if index else None
        following = steps[index + 1] if index + 1 < len(steps) else None
        if isinstance(step, Chain) and before is not None and is_slip(before) and isinstance(following, (Work, Group)):
            if following.place is not None and following.place.kind == "space" and following.place.number is None:
                following.place.kind = "same"  # "sl st in ch-3 sp, ch 3, 3 dc in ch-3 sp"
            in_same = following.place is None or following.place.kind == "same"
            if in_same and not step.counts_as:
                step.counts_as = (("ch", step.number.value),)

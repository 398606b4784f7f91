"""How many places or spaces are taken: "next 3 sts", "around", "to last 2", "ch-3 sp", "through both layers", "sk 2"."""

from __future__ import annotations

from ..language import syntax
from .chains import opening_here
from .clumps import stitch_in_group
from .in_order import begin_in, length_of, stitches_before, take_all, take_space
from .joining import along_the_bridge, place_of_piece
from .open_mesh import lies_over
from .places import is_space
from .working import Steps, Working, reserved


def in_space(w: Working, place: syntax.Place) -> bool:
    """Whether stitches go into a chain space; "in same sp as join" on stitches alone is the stitch of the join."""
    return is_space(place) and not (place.kind == "same" and w.spaces <= 0)


def taken(w: Working, place: syntax.Place, steps: Steps, index: int) -> int:
    """How many places *place* takes; "all that are left" is open-ended."""
    kind = place.kind
    if w.bridge and kind == "rest" and place.noun == "chain" and place.number is None:
        return along_the_bridge(w, w.bridge)
    if kind == "rest" and place.noun == "chain" and place.number is None and (gap := opening_here(w)):
        return gap
    if kind == "to_space":
        w.open_ended = True
        return stitches_before(w, place.upto)
    if kind == "in_group":
        return stitch_in_group(w, place)
    if kind in ("rest", "to_last", "loops"):
        if place.number is not None and kind != "to_last":
            return w.value(place.number)
        if not w.open_ended and w.chain and w.side == 1:
            _around_a_chain(w, place, steps)
        w.open_ended = True
        kept = reserved(w, steps, index)
        if kind == "to_last":
            kept = w.kept = w.times(place.number)
        return max(w.left - kept, 0)
    if kind == "same":
        if w.choice == 1 and w.under_chain and w.tally.used == 1:
            return 0
        # Before any stitch, "same st" can only be the one under the chain or the join.
        return 0 if w.tally.used or w.depth or w.in_ring or w.worked else 1
    if kind == "chain" and w.chain and w.side == 1 and w.first_chain:
        return max(w.times(place.number) - w.first_chain + 1 - w.tally.used, 1)
    if kind == "piece":
        return place_of_piece(w, place)
    if w.joined and place.noun == "chain" and kind != "chain":
        return along_the_bridge(w, w.value(place.number) if place.number is not None else w.bridge)
    if w.in_ring and not w.left:
        return 0
    return w.times(place.number)


def _around_a_chain(w: Working, place: syntax.Place, steps: Steps) -> None:
    """"sc around" straight into a chain goes along both sides; the stated count has the last word."""
    if not w.setting.in_rounds or any(isinstance(step, syntax.OtherSide) for step in steps):
        return
    one = w.left + w.tally.used
    both = [2 * one, 2 * one - 1, 2 * one - 2]
    choices = [one, *both] if place.noun == "chain" else [*both, one]
    w.options = len(choices)
    w.left = choices[min(w.choice, len(choices) - 1)] - w.tally.used
    w.side = 2
    w.side_used = -1


def in_layers(w: Working, place: syntax.Place, kept: int) -> int:
    """Stitches through two layers: of an odd number, either a half more or a half less."""
    w.layered = True
    if place.number is None and place.kind in ("rest", "to_last", "next") and (place.kind != "next" or not place.noun):
        kept = max(kept, w.times(place.number)) if place.kind == "to_last" else kept
        w.open_ended = True
        half, odd = divmod(max(w.left - kept, 0), place.layers)
        if odd:
            w.options = 2
            half += w.choice and 1
        w.use(max(w.left - kept, 0))
        return half
    number = w.times(place.number)
    uses = number * place.layers
    w.use(uses - 1 if w.left == uses - 1 else uses)
    return number


def spaces(w: Working, place: syntax.Place, times: int, kept: int) -> int:
    """Takes chain spaces and gives their number; stitches before them are passed over."""
    if w.marks:
        return _spaces_in_order(w, place, times, kept)
    if place.number is None and (place.kind == "rest" or place.each):
        w.open_ended = True
        number = max(w.spaces - kept, 0)
    elif place.kind == "to_last":
        number = max(w.spaces - w.times(place.number), 0)
    elif place.kind == "same":
        return times
    else:
        number = w.times(place.number) * times
    w.tally.used_spaces += number
    w.spaces -= number
    return number


def _spaces_in_order(w: Working, place: syntax.Place, times: int, kept: int) -> int:
    """As :func:`spaces`, where their order is known."""
    if place.kind == "same":
        if not w.done and begin_in(w, place):
            w.tally.used_spaces += 1
        elif w.done and length_of(place) not in (None, w.marks[w.done[-1]][1]):
            w.missing += 1  # "in same ch-4 sp" behind one of three chains
        return times
    if place.number is None and (place.kind in ("rest", "to_space") or place.each):
        w.open_ended = True
        number = take_all(w, place, kept)
    elif place.kind == "to_last":
        number = take_all(w, place, w.times(place.number))
    else:
        number = w.times(place.number) * times
        for _ in range(min(number, len(w.marks) + 1)):
            if not take_space(w, place):
                break
    w.tally.used_spaces += number
    w.spaces -= number
    return number


def skipped(w: Working, step: syntax.Work, steps: Steps, index: int) -> int:
    """How many places are passed over; "skip first st" after a chain that counts is the stitch under it."""
    place = step.place
    times = w.times(step.times)
    if step is w.passed:
        return 0
    if lies_over(w, step, steps, index):
        spaces(w, syntax.Place(step.start, step.end, "space", noun="space"), times, 0)
        return 0
    if place is None:
        return w.times(step.count) * times
    if is_space(place):
        spaces(w, place, times, 0)
        return 0
    if place.kind == "first" and w.under_chain:
        w.under_chain = False
        return w.times(place.number) - 1
    if place.kind == "chain":
        return max(w.times(place.number) - w.tally.used, 1)
    places = taken(w, place, steps, index)
    if place.number is None and step.count is not None:
        places = w.value(step.count)
    return places * times

"""Stitches: what "2 sc in next 3 sts", "inc x 6", "dec around", "sk 2", "(sc, hdc) in next st" use and make."""

from __future__ import annotations

from dataclasses import replace

from ..language import syntax
from ..language.vocabulary import stitches
from . import own_chain
from .chains import opening_here
from .clumps import note, stitch_in_group
from .edge import MOST_MARKS, OPENING
from .in_order import (
    begin_in,
    in_clump,
    length_of,
    next_space,
    stitches_before,
    take_all,
    take_space,
    turn_to,
    walk_both,
)
from .joining import along_the_bridge, attach, place_of_piece, through_both
from .open_mesh import lies_over
from .places import HEIGHTS, is_space
from .questions import NUMBER, SLIP
from .sweeping import corners_on_the_way, sweep
from .working import Remainder, Steps, Working, reserved

PLAIN_KEYS = frozenset(HEIGHTS)
_NO_GROUPS = ("stitch", "chain", "turning chain", "side", "layers", "row-end")


def work(w: Working, step: syntax.Work, steps: Steps, index: int) -> None:
    """Stitches of one kind."""
    kind = step.stitch.kind
    if step.loop:
        w.loops |= {step.loop}
    if w.own_made and _along_own_chain(w, step):
        return
    if kind == "slip":
        _slip(w, step, steps, index)
    elif kind == "skip":
        w.use(skipped(w, step, steps, index))
    elif step.place is None and _shares_space(w, steps, index):
        count = w.times(step.count) * w.times(step.times)
        w.worked = True
        w.tally.stitch(w.wear(step.color), step.stitch, count, count * step.stitch.makes)
    elif step.place is None:
        _in_a_row(w, step)
    elif step.place.kind == "rest" and index + 1 < len(steps) and isinstance(steps[index + 1], syntax.Spread):
        w.worked = True  # "sc around, inc 6 evenly": the stitches between the increases
    elif _so_many_around(step, step.place) and w.times(step.count) >= 5:
        _in_a_row(w, step)
    else:
        _placed(w, step, step.place, steps, index)


def _shares_space(w: Working, steps: Steps, index: int) -> bool:
    """"3 dc, ch 3, 3 dc in next loop" without brackets: all of it may go into that loop. What fits, and is counted, decides."""
    if not w.marks or w.in_ring or index + 2 >= len(steps):
        return False
    chain, later = steps[index + 1], steps[index + 2]
    if not (isinstance(chain, syntax.Chain) and isinstance(later, syntax.Work) and later.place is not None and is_space(later.place)):
        return False
    w.options = max(w.options, 2)
    return w.choice == 1


def _along_own_chain(w: Working, step: syntax.Work) -> bool:
    """Stitches along a chain just made; False where they go elsewhere."""
    stitch, times = step.stitch, w.times(step.times)
    count = w.times(step.count)
    needed = count * stitch.uses * times if step.place is None else w.times(step.place.number) * times
    if not own_chain.is_along(w, step.place, needed):
        own_chain.leave(w)
        return False
    if stitch.kind == "skip":
        own_chain.take(w, needed if step.place is not None and step.place.number is not None else count * times)
        return True
    if step.place is None:
        own_chain.take(w, needed)
        number = count * times
    else:
        places = own_chain.along(w, step.place)
        number = (places if stitch.uses == 1 else places // stitch.uses) * count * times
    w.worked = True
    counts = w.own_block or w.own_counted or not w.choice
    w.tally.stitch(w.wear(step.color), stitch, number, number * stitch.makes if counts else 0)
    return True


def _so_many_around(step: syntax.Work, place: syntax.Place) -> bool:
    """"24 sc around": so many in all, since five and more do not go into every stitch ("2 sc around" may)."""
    return place.kind == "rest" and not (place.each or place.noun or place.number) and step.number_first and step.stitch.uses == 1


def _in_a_row(w: Working, step: syntax.Work) -> None:
    stitch, color = step.stitch, w.wear(step.color)
    count = w.times(step.count)
    times = w.times(step.times)
    w.worked = True
    if w.in_ring:
        start = w.tally.made
        w.tally.stitch(color, stitch, count * times, count * times * stitch.makes)
        if (count * stitch.makes > 1 or _beside_chain(w, start)) and not w.in_group:
            note(w, start, count * stitch.makes)
        return
    two_ways = count > 1 and (step.number_first or step.glued) and stitch.plain and stitch.kind in ("plain", "post")
    if two_ways and not w.has_increase and w.ask(NUMBER):
        w.use(times)
        w.tally.stitch(color, stitch, count * times, count * times)
        return
    number = count * times
    w.use(number * stitch.uses)
    if number > 1 and (w.marks or w.passed_over):
        w.stretch += number
    if stitch.makes > 2 and number < MOST_MARKS:
        w.tally.clump(w.tally.made, stitch.makes, stitch.key, number)
    w.tally.stitch(color, stitch, number, number * stitch.makes)


def _placed(w: Working, step: syntax.Work, place: syntax.Place, steps: Steps, index: int) -> None:
    stitch, color = step.stitch, w.wear(step.color)
    times = w.times(step.times)
    count = w.times(step.count)
    if place.also is not None and w.marks:
        _both(w, step, place, reserved(w, steps, index))
        return
    if corners := corners_on_the_way(w, step, steps, index):
        sweep(w, step, corners)
        return
    if place.kind == "first" and w.under_chain and w.tally.used == 1 and not w.depth and stitch.uses == 1 and not w.chain:
        w.options = max(w.options, 2)  # "ch 3, 2 dc in first sc": into the stitch on which the chain stands
        if w.choice == 1:
            place = replace(place, kind="same", noun="")
    place = _named_group(w, place)
    made, one = w.tally.made, False
    if stitch.uses == 0 or place.kind == "ring":
        number = count * times
        one = place.kind == "ring"
        if place.kind == "ring" and w.chain:
            w.left, w.in_ring = 0, True  # "Ch 4, join.": the chain was closed to a ring
    elif _in_space(w, place):
        number = spaces(w, place, times, reserved(w, steps, index, spaces=True)) * count
        one = True
    elif place.layers > 1 and place.reference is not None and place.kind == "piece":
        number = attach(w, place) * count * times
    elif place.layers > 1 and place.reference is not None:
        number = through_both(w, place, reserved(w, steps, index)) * count * times
    elif place.layers > 1:
        number = _layers(w, place, reserved(w, steps, index)) * count * times
    else:
        before = w.left
        _over_openings(w, place)
        places = taken(w, place, steps, index)
        if stitch.uses == 1:
            if place.number is not None and count == places > 1 and (count >= 5 or stitch.makes > 1):
                count = 1  # "work 6 sc in next 6 sts": one in each
            number = (max(places, 1) if place.kind == "same" else places) * count * times
            w.corner = count * stitch.makes > 1 and places == 1
            one = count * stitch.makes > 2 or place.kind == "same"
            if places != 1 and (w.marks or w.passed_over):
                w.stretch += places
        else:
            number = _together(w, step, place, places, before)
            exact = step.spread or place.number is not None and place.kind not in ("to_last", "rest")
            places = places if exact else number * stitch.uses
            number *= times
        w.use(places * times)
    w.worked = True
    w.tally.stitch(color, stitch, number, number * stitch.makes)
    if one and not w.in_group and (count * stitch.makes > 1 or place.kind == "ring" and _beside_chain(w, made)):
        _note_groups(w, made, number // count if count else 0, count * stitch.makes, stitch.key if stitch.makes > 1 else "")


def _beside_chain(w: Working, start: int) -> bool:
    """Whether one stitch from the *start*-th on stands beside the chain that counts: a group of two."""
    return w.under_chain and not w.depth and start == w.height_stitches


def _note_groups(w: Working, start: int, number: int, size: int, key: str) -> None:
    if number == 1:
        note(w, start, size, key)
    elif number > 1:
        w.tally.clump(start, size, key, number)


def _both(w: Working, step: syntax.Work, place: syntax.Place, kept: int) -> None:
    """Every stitch and every space on the way."""
    w.open_ended = w.worked = True
    if place.kind == "to_last":
        kept = w.kept = w.times(place.number)
    sts, sps = walk_both(w, place, kept)
    w.tally.used += sts
    w.tally.used_spaces += sps
    w.spaces -= sps
    number = (sts + sps) * w.times(step.count)
    w.tally.stitch(w.wear(step.color), step.stitch, number, number * step.stitch.makes)


def _named_group(w: Working, place: syntax.Place) -> syntax.Place:
    """"in next shell": the space in it, where its stitches have one between them, else its middle stitch."""
    if not w.clumps or place.kind not in ("next", "rest", "last", "first") or not place.noun:
        return place
    named = [clump for clump in w.clumps if clump[2] == place.noun]
    nouns_of_groups = not is_space(place) and (place.noun == "group" or place.noun not in stitches())  # a declared one may be written out: (dc, ch 1, dc)
    if not named and not nouns_of_groups or place.noun in (*PLAIN_KEYS, *_NO_GROUPS):
        return place
    if any(in_clump(w, mark[0], place.noun) for mark in w.marks):
        return replace(place, kind="rest" if place.each or place.kind == "rest" else "space", noun="space", within=place.noun)
    return replace(place, kind="in_group", within=place.noun, number=None) if place.kind == "next" and not place.each else place


def _over_openings(w: Working, place: syntax.Place) -> None:
    """"dc in next dc" never goes into the chains of an opening: they are passed over."""
    if not w.marks or place.kind not in ("next", "last") or place.noun not in PLAIN_KEYS or place.each:
        return
    here = w.total - w.left
    if w.mark_at < len(w.marks) and w.marks[w.mark_at][2] == OPENING and w.marks[w.mark_at][0] == here:
        w.options = max(w.options, 2)
        if w.choice != 1 and take_space(w, syntax.Place(place.start, place.end, "space", chains=w.marks[w.mark_at][1])):
            w.tally.used_spaces += 1
            w.spaces -= 1


def _in_space(w: Working, place: syntax.Place) -> bool:
    """Whether stitches go into a chain space; "in same sp as join" on stitches alone is the stitch of the join."""
    return is_space(place) and not (place.kind == "same" and w.spaces <= 0)


def _together(w: Working, step: syntax.Work, place: syntax.Place, places: int, before: int) -> int:
    """How many decreases *places* allow."""
    if step.spread:
        return 1
    uses = step.stitch.uses
    if not places and place.number is not None:
        return 0  # nothing in this size
    number, over = divmod(places, uses)
    if place.kind in ("rest", "to_last") and place.number is None or place.kind == "to_last":
        if over and not w.unknown:
            w.remainder = w.remainder or Remainder(step, uses, over, before, before - places)
        return max(number, 0)
    written = w.times(step.count) if step.count is not None else max(number, 1)
    return written if not number or over or step.count is not None else number


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


def _layers(w: Working, place: syntax.Place, kept: int) -> int:
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


def _slip(w: Working, step: syntax.Work, steps: Steps, index: int) -> None:
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


def group(w: Working, step: syntax.Group, steps: Steps, index: int) -> None:
    """Several kinds in one place, or the same in each of several."""
    place, times = step.place, w.times(step.times)
    w.worked = True
    if w.own_made and own_chain.is_along(w, place, w.times(place.number)):
        number, there = own_chain.along(w, place) * times, w.own_made
        w.own_made = 0
        w.tally.add(w.once(step.body, no_places=True), number)
        w.own_made = there
        return
    own_chain.leave(w)
    body = w.once(step.body, no_places=True)
    place, made = _named_group(w, place), w.tally.made
    if place.kind == "ring":
        number = 1
    elif _in_space(w, place):
        number = spaces(w, place, 1, reserved(w, steps, index, spaces=True))
    elif place.layers > 1:
        number = _layers(w, place, reserved(w, steps, index))
    else:
        number = taken(w, place, steps, index)
        w.use(number * times)
        number = max(number, 1) if place.kind == "same" else number
        w.corner = number == 1 and body.made > 1
    w.tally.add(body, number * times)
    w.tally.groups += number * times
    if step.name:
        w.tally.named[step.name] = w.tally.named.get(step.name, 0) + number * times
    if body.made > 1 and not w.in_group:
        _note_groups(w, made, number * times, body.made, step.name)


def spread(w: Working, step: syntax.Spread, steps: Steps, index: int) -> None:
    """"inc 6 evenly": the whole edge is used, so many more or fewer are made."""
    number, stitch = w.value(step.number), step.stitch
    w.open_ended = True
    w.worked = True
    places = max(w.left - reserved(w, steps, index), 0)
    color = w.wear(None)
    plain = stitches().get(stitch.base, stitches()["sc"])
    needed = number * stitch.uses
    if needed > places and not w.unknown:
        w.use(needed)
        w.tally.stitch(color, stitch, number, number * stitch.makes)
        return
    w.use(places)
    w.tally.stitch(color, stitch, number, number * stitch.makes)
    w.tally.stitch(color, plain, places - needed, places - needed)

"""Stitches: what "2 sc in next 3 sts", "inc x 6", "dec around", "sk 2", "(sc, hdc) in next st" use and make."""

from __future__ import annotations

from dataclasses import replace

from ..language import syntax
from ..language.vocabulary import stitches
from . import own_chain
from .clumps import note
from .edge import MOST_MARKS
from .group_places import beside_chain, named_group, note_groups, over_openings, stitches_and_spaces
from .joining import attach, through_both
from .places import is_space
from .questions import NUMBER
from .slipping import slip
from .sweeping import corners_on_the_way, sweep
from .taking import in_layers, in_space, skipped, spaces, taken
from .working import Remainder, Steps, Working, reserved


def work(w: Working, step: syntax.Work, steps: Steps, index: int) -> None:
    """Stitches of one kind."""
    kind = step.stitch.kind
    if step.loop:
        w.loops |= {step.loop}
    if w.own_made and _along_own_chain(w, step):
        return
    if kind == "slip":
        slip(w, step, steps, index)
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
        if (count * stitch.makes > 1 or beside_chain(w, start)) and not w.in_group:
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
        stitches_and_spaces(w, step, place, reserved(w, steps, index))
        return
    if corners := corners_on_the_way(w, step, steps, index):
        sweep(w, step, corners)
        return
    if place.kind == "first" and w.under_chain and w.tally.used == 1 and not w.depth and stitch.uses == 1 and not w.chain:
        w.options = max(w.options, 2)  # "ch 3, 2 dc in first sc": into the stitch on which the chain stands
        if w.choice == 1:
            place = replace(place, kind="same", noun="")
    place = named_group(w, place)
    made, one = w.tally.made, False
    if stitch.uses == 0 or place.kind == "ring":
        number = count * times
        one = place.kind == "ring"
        if place.kind == "ring" and w.chain:
            w.left, w.in_ring = 0, True  # "Ch 4, join.": the chain was closed to a ring
    elif in_space(w, place):
        number = spaces(w, place, times, reserved(w, steps, index, spaces=True)) * count
        one = True
    elif place.layers > 1 and place.reference is not None and place.kind == "piece":
        number = attach(w, place) * count * times
    elif place.layers > 1 and place.reference is not None:
        number = through_both(w, place, reserved(w, steps, index)) * count * times
    elif place.layers > 1:
        number = in_layers(w, place, reserved(w, steps, index)) * count * times
    else:
        before = w.left
        over_openings(w, place)
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
    if one and not w.in_group and (count * stitch.makes > 1 or place.kind == "ring" and beside_chain(w, made)):
        note_groups(w, made, number // count if count else 0, count * stitch.makes, stitch.key if stitch.makes > 1 else "")


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
    place, made = named_group(w, place), w.tally.made
    if place.kind == "ring":
        number = 1
    elif in_space(w, place):
        number = spaces(w, place, 1, reserved(w, steps, index, spaces=True))
    elif place.layers > 1:
        number = in_layers(w, place, reserved(w, steps, index))
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
        note_groups(w, made, number * times, body.made, step.name)


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

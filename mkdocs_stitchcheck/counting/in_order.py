"""Chain spaces taken in their order: "in next ch-2 sp" passes over the stitches before it, "sk next ch-1 sp" over it."""

from __future__ import annotations

from ..language import syntax
from .clumps import turned
from .edge import CORNER, GAP, OPENING
from .working import Steps, Working, run

_MOST_PASSES = 4_000
_RUN = 2  # stitches worked one after the other: then none is passed over in silence


def length_of(place: syntax.Place) -> int | None:
    """The length in chains of the spaces meant; None where it is not said."""
    if place.chains is not None:
        return place.chains
    last = place.noun.rsplit(" ", 1)[-1]
    return int(last) if last.isdigit() else None


def is_corner(place: syntax.Place) -> bool:
    return place.noun.startswith("corner") or place.within == "corner"


def meant(w: Working, place: syntax.Place, index: int) -> bool:
    """Whether *place* means the space *index*, by its group, length and kind."""
    before, length, kind = w.marks[index]
    if place.within and place.within != "corner" and not in_clump(w, before, place.within):
        return False
    if means_gap(w, place):
        return kind == GAP or any((start + size) % w.total == before % w.total for start, size, _ in w.clumps)
    if kind == GAP:
        return False
    wanted = length_of(place)
    if wanted is not None and length != wanted:
        return False
    if not is_corner(place):
        return True
    if any(other[2] == CORNER for other in w.marks):
        return kind == CORNER
    return length == max(other[1] for other in w.marks)


def means_gap(w: Working, place: syntax.Place) -> bool:
    """"between next 2 groups"; "next sp" where gaps are worked and the chains are all corners."""
    if place.kind == "gap":
        return True
    return place.kind != "same" and place.noun in ("space", "loop") and place.chains is None and any(mark[2] == GAP for mark in w.marks)


def in_clump(w: Working, position: int, name: str) -> bool:
    """Whether a place between stitches lies within a group of that name (or of any, where none has the name). A group of
    as many stitches without a name is one that was written out, at the start of a row."""
    sizes = {size for _start, size, key in w.clumps if key == name}
    return any(
        start < position < start + size or start < position + w.total < start + size
        for start, size, key in w.clumps if key == name or not sizes or not key and size in sizes
    )


def _note_length(w: Working, place: syntax.Place) -> None:
    wanted = 0 if means_gap(w, place) else length_of(place)
    if place.within or place.kind == "same" and wanted is None and not is_corner(place):
        return
    if is_corner(place) and wanted is None:
        wanted = max((mark[1] for mark in w.marks), default=None)
    if wanted not in w.lengths:
        w.lengths |= {wanted}


def next_space(w: Working, place: syntax.Place) -> int | None:
    """The next space that *place* means, not yet passed; None where there is none."""
    here = w.total - w.left
    for index in range(w.mark_at, len(w.marks)):
        if w.marks[index][0] >= here and meant(w, place, index):
            return index
    return None


def take_space(w: Working, place: syntax.Place) -> bool:
    """Works into, or passes over, the next space; the stitches before it are passed over."""
    _note_length(w, place)
    index = next_space(w, place)
    if index is None:
        w.missing += 1
        return False
    if not w.done and w.left == w.total and w.marks[index][0] and w.setting.in_rounds:
        turn_to(w, index)  # a round has no end: what stands before its first space comes last
        index = 0
    before, length, kind = w.marks[index]
    if (place.within or place.kind == "same") and length not in w.lengths:
        w.lengths |= {length}
    passed = before - (w.total - w.left)
    own_before, own_after = _own(w, before, place)
    if w.stretch >= _RUN:
        w.over += max(passed - own_before, 0) if place.within else passed
    w.left -= passed + (length if kind == OPENING else 0)
    if own_after:
        w.options = max(w.options, 2)
        w.left -= own_after if w.choice == 1 else 0  # "shell in next shell, dc in next 5 dc": those behind the shell
    w.mark_at, w.stretch = index + 1, 0
    w.done.append(index)
    return True


def _own(w: Working, position: int, place: syntax.Place) -> tuple[int, int]:
    """How many stitches of the named group in which a space lies stand before and behind it: who works into its space passes over them."""
    for start, size, key in w.clumps:
        inside = (position - start) % w.total if w.total else 0
        if 0 < inside < size and (key or place.within):
            return inside, size - inside
    return 0, 0


def take_all(w: Working, place: syntax.Place, but: int = 0) -> int:
    """"in each ch-1 sp around": all that come, over the stitches between and after; gives their number."""
    end = next_space(w, place.upto) if place.kind == "to_space" and place.upto is not None else None
    _note_length(w, place)
    here = w.total - w.left
    last = len(w.marks) if end is None else end
    found = [i for i in range(w.mark_at, last) if w.marks[i][0] >= here and meant(w, place, i)]
    found = found[: max(len(found) - but, 0)]
    for _ in found:
        take_space(w, place)
    return len(found)


def begin_in(w: Working, place: syntax.Place) -> bool:
    """The round begins in a space: "ch 3, 2 dc in same sp", "join in any corner sp": that space comes first."""
    if not w.marks or w.done:
        return False
    last = len(w.marks) - 1
    wanted = [index for index in range(len(w.marks)) if meant(w, place, index)]
    if not wanted:
        return False
    at_end = w.marks[last][0] == w.total and last in wanted and not w.moved
    turn_to(w, last if at_end else wanted[0])
    if w.under_chain and w.tally.used:
        w.tally.used -= 1  # the chain stands in the space, not on a stitch
    w.left = w.total
    return take_space(w, place)


def turn_to(w: Working, index: int) -> None:
    """The edge, seen from its *index*-th space on: the stitches passed over come last."""
    start = w.marks[index][0]
    total = w.total
    stitches, spaces = w.turned_to
    w.turned_to = stitches + start, spaces + index
    again = [(before - start, length, kind) for before, length, kind in w.marks[index:]]
    again += [(before - start + total, length, kind) for before, length, kind in w.marks[:index]]
    w.marks = tuple(again)
    w.clumps = turned(w.clumps, start, total)


def stitches_before(w: Working, upto: syntax.Place | None) -> int:
    """How many stitches stand before the next space that *upto* means: all that are left where none comes."""
    index = next_space(w, upto) if upto is not None else None
    here = w.total - w.left
    return w.marks[index][0] - here if index is not None else max(w.left, 0)


def walk_both(w: Working, place: syntax.Place, kept: int) -> tuple[int, int]:
    """"in each dc and in each ch-1 sp around": how many stitches and how many spaces come, each in its turn."""
    assert place.also is not None
    upto = next_space(w, place.upto) if place.upto is not None else None
    here = w.total - w.left
    end = w.marks[upto][0] if upto is not None else w.total - kept
    last = upto if upto is not None else len(w.marks)
    _note_length(w, place.also)
    inside = [i for i in range(w.mark_at, last) if here <= w.marks[i][0] <= end]
    found = [i for i in inside if meant(w, place.also, i)]
    bridged = sum(w.marks[i][1] for i in inside if w.marks[i][2] == OPENING)
    w.done.extend(found)
    w.mark_at, w.stretch = last, _RUN
    w.left -= end - here
    return max(end - here - bridged, 0), len(found)


def one_pass(w: Working, steps: Steps) -> None:
    """One repeat, worked where the work stands."""
    was, w.cyclic = w.cyclic, True
    w.depth += 1
    run(w, steps)
    w.depth -= 1
    w.cyclic = was


def passes(w: Working, steps: Steps, number: int) -> bool:
    """*number* repeats one after the other; False, and nothing done, where they are too many."""
    if number > _MOST_PASSES:
        return False
    for _ in range(number):
        one_pass(w, steps)
        if w.missing:
            break  # it only gets worse
    return True


def as_often_as_fits(w: Working, steps: Steps, keep: int, upto: syntax.Place | None = None, least: int = 0) -> int:
    """Repeats until no more fits but *keep* spaces and *least* stitches, or until the next space is the one before which it ends."""
    worked = 0
    while worked < _MOST_PASSES:
        place, tally = w.where(), w.tally
        if upto is not None and _is_next(w, upto):
            break
        here = len(w.done)
        w.tally = w.new_tally()
        one_pass(w, steps)
        done, w.tally = w.tally, tally
        if w.missing or w.left < least or len(w.done) == here or _remaining(w) < keep:
            w.go_back(place)
            break
        w.tally.add(done)
        worked += 1
    return worked


def _is_next(w: Working, place: syntax.Place) -> bool:
    """Whether the next space of the kinds that the round works is the one that *place* means."""
    here = w.total - w.left
    index = next((i for i in range(w.mark_at, len(w.marks)) if w.marks[i][0] >= here), None)
    return index is None or meant(w, place, index)


def _remaining(w: Working) -> int:
    return sum(1 for mark in w.marks[w.mark_at :] if None in w.lengths or mark[1] in w.lengths)


def unworked(w: Working) -> int:
    """Spaces of the lengths that the round works into which it has not worked into."""
    done = set(w.done)
    left = [mark for index, mark in enumerate(w.marks) if index not in done and (None in w.lengths or mark[1] in w.lengths)]
    worked = {w.marks[index][1:] for index in done}
    if None not in w.lengths and worked:
        left = [mark for mark in left if mark[1:] in worked]  # a corner's chains are no chains between groups
    return len(left)


def close_order(w: Working) -> None:
    """At the end: what is left of spaces and, where stitches were worked in a row, of stitches."""
    w.spaces = -w.missing if w.missing else unworked(w)
    if w.left > 0 and w.stretch < _RUN:
        w.left = 0
    if w.left >= 0:
        w.left += w.over

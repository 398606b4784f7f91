"""Groups of stitches worked into one place, in their order: the gaps between them, and the stitches within them."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from ..language import syntax
from .edge import CORNER, GAP, Clump, Edge, Mark
from .places import flat, is_space
from .working import Steps, Working


def note(w: Working, start: int, size: int, key: str = "") -> None:
    """*size* stitches from the *start*-th made on stand in one place; a chain that counts before them is one of them."""
    if not w.depth and w.under_chain and start == w.height_stitches:
        size, start = size + start, 0
    w.tally.clump(start, size, key)


def add_gaps(w: Working, edge: Edge, steps: Steps) -> None:
    """Where *steps* work between groups, the gaps between them are places like chain spaces, in their order."""
    if len(edge.clumps) < 2 or not _between_groups(steps, edge):
        return
    taken = {mark[0] for mark in edge.marks}
    rounds = w.setting.in_rounds
    gaps: list[Mark] = []
    for start, size, _key in edge.clumps:
        end = start + size
        if end not in taken and (rounds or end < edge.stitches):
            gaps.append((end, 0, GAP))
    w.marks = tuple(sorted((*edge.marks, *gaps)))
    w.spaces = len(w.marks)


def _between_groups(steps: Steps, edge: Edge) -> bool:
    plain = corners = gaps = False
    for step in flat(steps):
        place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
        if place is None:
            continue
        if place.kind == "gap" and place.noun == "group":
            gaps = True
        elif is_space(place) and place.kind != "same":
            named = place.chains is not None or place.noun.startswith("corner") or place.noun[-1:].isdigit()
            corners, plain = corners or named, plain or not named
    if gaps:
        return True
    # "3 dc in next sp" beside "in next ch-2 sp", where all chain spaces are corners: the space between two groups.
    only_corners = all(kind == CORNER for _before, _length, kind in edge.marks)
    return plain and (not edge.marks or corners and only_corners)


def stitch_in_group(w: Working, place: syntax.Place) -> int:
    """Takes one stitch of the next group; the stitches before it are passed over. Gives 1, or 0 where there is none."""
    here = w.total - w.left
    sizes = {size for _start, size, key in w.clumps if key == place.within}
    for start, size, key in w.clumps:
        if sizes and place.within != key and (key or size not in sizes):
            continue
        at = (size - 1) // 2 if place.number is None else w.value(place.number) - 1
        if start < here or at >= size:
            continue
        w.left -= start + at - here
        while w.mark_at < len(w.marks) and w.marks[w.mark_at][0] <= start + at:
            w.mark_at += 1
        w.stretch = 0
        w.passed_over = True
        return 1
    w.missing += 1
    return 0


def turned(clumps: tuple[Clump, ...], start: int, total: int) -> tuple[Clump, ...]:
    """The groups, seen from the *start*-th stitch on."""
    return tuple(sorted(((at - start) % total if total else 0, size, key) for at, size, key in clumps))


def alike(clumps: tuple[Clump, ...], marks: tuple[Mark, ...]) -> tuple[Clump, ...]:
    """The groups of a round, where one written out at its start ("ch 3, (dc, ch 2, 2 dc) in same sp") is like those of a name."""
    if all(key for _start, _size, key in clumps) or not any(key for _start, _size, key in clumps):
        return clumps
    places = [mark[0] for mark in marks]

    def make(start: int, size: int) -> tuple[int, ...]:
        inside = places[bisect_right(places, start) : bisect_left(places, start + size)]
        return (size, *(place - start for place in inside))

    names = {make(start, size): key for start, size, key in clumps if key}
    return tuple((start, size, key or names.get(make(start, size), "")) for start, size, key in clumps)

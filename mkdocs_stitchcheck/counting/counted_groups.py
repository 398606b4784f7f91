"""Counts of groups: "(6 shells)", "(4 groups of 3 dc)", "(5 blocks, 6 sps)", "(4 corner sps)"."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from itertools import pairwise

from .edge import CORNER
from .own_chain import STRAND
from .working import Working

# Names that writers give to groups of stitches of any make; they are held against the groups that were worked.
SOFT_KINDS = frozenset(("group", "shell", "v-st", "fan", "block", "motif", "petal", "point", "strand"))
_STRANDS = frozenset(("strand", "point", "petal", "fan"))  # each may be a chain that is worked along
_LOOSE = frozenset(("motif", "petal", "point"))  # one may be made of several groups


def corners(w: Working) -> int | None:
    """How many corner spaces a round makes: those among the stitches of a group, else the longest ones."""
    marks = w.tally.marks
    if marks is None:
        return None
    made = sum(1 for mark in marks if mark[2] == CORNER)
    if made:
        return made
    longest = max((mark[1] for mark in marks), default=0)
    return sum(1 for mark in marks if mark[1] == longest)


def groups(w: Working, kind: str, number: int) -> int | None:
    """How many groups of *kind* a round makes, as near to *number* as it can be read; None where nobody can tell."""
    clumps = w.tally.clumps
    if kind in _STRANDS and STRAND in w.tally.named:
        return w.tally.named[STRAND]
    if clumps is None:
        return None
    named = kind.rsplit(" ", 1)
    own = len([clump for clump in clumps if clump[2] == kind])
    if own:
        return own
    if len(named) == 2 and w.tally.named.get(named[1]):
        return None  # "2 half shells" beside whole ones
    parts = _parts(w)
    ways = {len(clumps), parts}
    if kind == "block" and _is_filet(w):
        filled = _filled(w)
        return number if number in filled else max(filled, default=0)
    if kind == "block":
        ways |= _filled(w)
    ways -= {0}
    if not ways:
        return None
    if number in ways or kind in _LOOSE and number and any(way % number == 0 for way in ways):
        return number
    return len(clumps) or next(iter(ways))


def named(w: Working, kind: str, number: int) -> int:
    """How many groups of a declared name: one that is written out at the start of a row may be counted among them."""
    there = w.tally.named[kind]
    clumps = w.tally.clumps or ()
    sizes = {size for _start, size, key in clumps if key == kind}
    written_out = sum(1 for _start, size, key in clumps if not key and size in sizes)
    return number if number == there + written_out else there


def beside_groups(w: Working, kind: str) -> set[int]:
    """How many stitches of *kind* stand beside the declared groups: "(5 shells, 2 dc)"."""
    clumps = w.tally.clumps or ()
    if not any(key for _start, _size, key in clumps):
        return set()
    inside = sum(size for _start, size, key in clumps if key)
    sizes = {size for _start, size, key in clumps if key}
    written_out = sum(size for _start, size, key in clumps if not key and size in sizes)
    total = w.tally.kinds.get(kind, 0)
    return {total - inside, total - inside - written_out}


def _parts(w: Working) -> int:
    """Groups, where a chain within one parts it: (3 dc, ch 2, 3 dc) are two."""
    marks = w.tally.marks or ()
    within = sum(
        1 for start, size, _key in w.tally.clumps or () for mark in marks if start < mark[0] < start + size and mark[1] > 1
    )
    return len(w.tally.clumps or ()) + within


def group_sizes(w: Working) -> list[Counter[int]]:
    """How many groups there are of each size: parted by chains of two and more among their stitches, by any chain, by none."""
    return [_sizes(w, least) for least in (1, 0, 100)]


def _sizes(w: Working, least: int) -> Counter[int]:
    """How many groups there are of each size; a chain longer than *least* parts two."""
    places = [mark[0] for mark in w.tally.marks or () if mark[1] > least]
    sizes: Counter[int] = Counter()
    for start, made, _key in w.tally.clumps or ():
        ends = [start, *places[bisect_right(places, start) : bisect_left(places, start + made)], start + made]
        sizes.update(one - other for other, one in pairwise(ends))
    return sizes


def _is_filet(w: Working) -> bool:
    """Whether blocks are filled meshes: spaces of one length, groups no larger than that, and bars beside them."""
    clumps = w.tally.clumps or ()
    lengths = set(w.tally.spaces)
    in_groups = sum(size for _start, size, _key in clumps)
    return len(lengths) == 1 and all(size <= max(lengths) for _start, size, _key in clumps) and in_groups + 1 < w.tally.made - w.tally.openings


def _filled(w: Working) -> set[int]:
    """Blocks of a filet row: each fills a mesh that a space of as many chains leaves open. stitches = blocks x (chains + 1)
    + spaces + 1, from the bars between them (arithmetic)."""
    spaces = w.tally.spaces
    lengths = set(spaces) or {1, 2}
    rest = w.tally.made - w.tally.openings - 1 - sum(spaces.values())
    return {rest // (length + 1) for length in lengths if rest >= 0 and rest % (length + 1) == 0}

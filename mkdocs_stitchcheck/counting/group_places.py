"""Places that are named by groups and kinds: "in next shell", "in next dc" behind an opening, every stitch and space."""

from __future__ import annotations

from dataclasses import replace

from ..language import syntax
from ..language.vocabulary import stitches
from .clumps import note
from .edge import OPENING
from .in_order import in_clump, take_space, walk_both
from .places import HEIGHTS, is_space
from .working import Working

PLAIN_KEYS = frozenset(HEIGHTS)
_NO_GROUPS = ("stitch", "chain", "turning chain", "side", "layers", "row-end")


def beside_chain(w: Working, start: int) -> bool:
    """Whether one stitch from the *start*-th on stands beside the chain that counts: a group of two."""
    return w.under_chain and not w.depth and start == w.height_stitches


def note_groups(w: Working, start: int, number: int, size: int, key: str) -> None:
    if number == 1:
        note(w, start, size, key)
    elif number > 1:
        w.tally.clump(start, size, key, number)


def stitches_and_spaces(w: Working, step: syntax.Work, place: syntax.Place, kept: int) -> None:
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


def named_group(w: Working, place: syntax.Place) -> syntax.Place:
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


def over_openings(w: Working, place: syntax.Place) -> None:
    """"dc in next dc" never goes into the chains of an opening: they are passed over."""
    if not w.marks or place.kind not in ("next", "last") or place.noun not in PLAIN_KEYS or place.each:
        return
    here = w.total - w.left
    if w.mark_at < len(w.marks) and w.marks[w.mark_at][2] == OPENING and w.marks[w.mark_at][0] == here:
        w.options = max(w.options, 2)
        if w.choice != 1 and take_space(w, syntax.Place(place.start, place.end, "space", chains=w.marks[w.mark_at][1])):
            w.tally.used_spaces += 1
            w.spaces -= 1

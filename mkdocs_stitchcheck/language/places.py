"""Where stitches go: "in next 5 sts", "around", "to last 2 sts", "in 2nd ch from hook", "through both layers"."""

from __future__ import annotations

from .cursor import Cursor
from .each_place import each_place
from .loops import LOOPS_STARTS, loops_place
from .named_pieces import both_pieces, piece_place
from .phrases import FirstWords, Phrases
from .round_ends import ONE_SIDE, ROUND_END, TO_LAST, UP_TO, read_to_last, round_end, until_remain
from .single_places import (
    TOPS,
    numbered_places,
    place_below,
    place_in_group,
    position,
    ring_place,
    same_place,
    space_place,
    stitch_place,
    top_place,
)
from .space_places import PLACE_STARTS, read_between, read_of_group, read_up_to
from .syntax import Place
from .words import (
    EACH,
    FIRST,
    LAST,
    NEXT,
    NUMBER_WORDS,
    ORDINAL_ENDINGS,
    ORDINAL_WORDS,
    REMAINING,
    RING_ADJECTIVES,
    RING_CODES,
    RING_NOUNS,
    SAME,
)

_LAYERS = Phrases((
    "through both layers", "through both sides", "through both", "thru both layers", "in both layers", "through the two layers",
    "across both layers", "through both edges", "through two layers", "through both pieces", "through both stitches",
    "through both thicknesses", "through the layers", "through 2 layers", "over both layers", "together through both layers",
))  # fmt: skip
_ROUND_WORDS_END = ("around", "across")
_PREPOSITIONS = ("in", "into", "on", "onto", "over", "across", "through", "thru", "along", "to", "around", "from", "between", "at", "of")
# Every word with which a place begins; a number begins one only where it is an ordinal.
_PLACE_STARTS = frozenset((
    *ROUND_END.index, *ONE_SIDE.index, *TO_LAST.index, *_LAYERS.index, *_PREPOSITIONS, *EACH, *SAME, *NEXT, *FIRST, *LAST, *REMAINING, *ORDINAL_WORDS,
    "until", "till", "evenly", "the", "a", "any", "base", "corner", "every", "each", "free", "unworked", "unused", "remaining",
    "leftover", "exposed", "front", "back", "flo", "fl", "blo", "bl", "loops", "loop", "lps", "between", "bet", "btw", "btwn",
))  # fmt: skip


def read_place(cursor: Cursor) -> Place | None:
    """place = layers | rest | to-last | [preposition] target ; None (and nothing read) where no place stands here."""
    first = cursor.token()
    if first is None or first.text not in _PLACE_STARTS and not (first.kind == "number" and cursor.peek(1) in ORDINAL_ENDINGS):
        return None
    at, start = cursor.at, cursor.start
    if first.text in ("through", "thru", "in", "into", "across") and (both := both_pieces(cursor, start)) is not None:
        return both
    if cursor.phrase(_LAYERS):
        rest = round_end(cursor)
        return _close(Place(start, cursor.end, "rest" if rest else "next", layers=2, noun="layers"), cursor)
    if cursor.phrase(TO_LAST):
        return read_to_last(cursor, start)
    if cursor.peek() in UP_TO and (found := read_up_to(cursor)):
        return found
    if cursor.peek() in ("between", "bet", "btw", "btwn"):
        found = read_between(cursor, start)
        if found is None:
            cursor.at = at
        return found
    if cursor.peek() in ("until", "till") and (found := until_remain(cursor, start)):
        return found
    if cursor.peek() in ("evenly",) and cursor.peek(1) in _ROUND_WORDS_END:
        cursor.at += 1
        start = cursor.start
    if round_end(cursor):
        if cursor.phrase(TO_LAST):
            return read_to_last(cursor, start)
        layers = 2 if cursor.phrase(_LAYERS) else 1
        return _close(Place(start, cursor.end, "rest", layers=layers), cursor)
    if cursor.peek() == "in" and cursor.peek(1) == "/" and cursor.peek(2) == "around":
        cursor.at += 2
    preposition = cursor.accept(*_PREPOSITIONS)
    word = cursor.tokens[cursor.at - 1].text if preposition else ""
    found = _target(cursor, start, word)
    if found is None:
        cursor.at = at
        return None
    if cursor.phrase(_LAYERS):
        found.layers = 2
    elif word and _may_be_of_group(found, cursor):
        found = read_of_group(cursor, found)
        if found.each and round_end(cursor):
            found.kind = "rest"
    if found.kind == "space" and cursor.peek() in ("between", "bet", "btw", "btwn") and (gap := read_between(cursor, start)):
        gap.each = gap.each or found.each
        found = gap
    return _close(found, cursor)


def _may_be_of_group(place: Place, cursor: Cursor) -> bool:
    return cursor.peek() in ("of", "in") and (place.noun.startswith(("space", "corner")) or place.kind == "space")


def _close(place: Place, cursor: Cursor) -> Place:
    place.end = cursor.end
    return place


def _target(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """target = ring | chain from hook | each ... | next ... | first | last | same | N noun | ordinal noun | free loops"""
    at = cursor.at
    for reader in _TARGETS.at(cursor.token()):
        found = reader(cursor, start, preposition)
        if found is not None:
            return found
        cursor.at = at
    return None


_TARGETS = FirstWords(
    (ring_place, ("the", "a", "center", "centre", *RING_ADJECTIVES, *RING_NOUNS, *RING_CODES)),
    (top_place, ("the", "t", *TOPS.index, *ORDINAL_WORDS)),
    (place_in_group, PLACE_STARTS | {"the"}),
    (each_place, ("the", *EACH)),
    (loops_place, ("the", "each", "every", *LOOPS_STARTS)),
    (same_place, ("the", "base", *SAME)),
    (piece_place, None),
    (position, ("the", "a", "any", "corner", "tip", "end", *NEXT, *FIRST, *LAST, *REMAINING, *ORDINAL_WORDS)),
    (space_place, ("the", "a", "any", "ch", "chain", "sp", "space", "lp", "sps")),
    (numbered_places, ("the", "these", *NUMBER_WORDS)),
    (place_below, ("the", "row", "round", "rnd", "rows", "st", "sts")),
    (stitch_place, None),
)

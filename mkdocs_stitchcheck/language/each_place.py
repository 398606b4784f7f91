"""Every place: "in each st around", "in each dc and ch-1 sp", "in each of next 5 sts", "in each st to last 2"."""

from __future__ import annotations

from .cursor import Cursor
from .named_pieces import joins_pieces, piece_here
from .place_nouns import place_noun
from .round_ends import TO_LAST, UP_TO, read_to_last, round_end, until_remain
from .space_places import read_between, read_of_group, read_space_name, read_up_to, space_ahead
from .syntax import Place, Reference
from .words import EACH, NEXT, REMAINING


def each_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """each = "each" ["of"] ["the"] ["next" | "remaining"] [N] noun ["around" | "to last N sts" ...] """
    cursor.accept("the")
    if not cursor.accept(*EACH):
        return None
    cursor.accept("of")
    cursor.accept("the", "these", "those")
    if cursor.peek(1) in ("ch", "chain", "-") and space_ahead(cursor):
        return _each_space(cursor, start)
    following = cursor.accept(*NEXT)
    first = not following and cursor.accept("first")
    last = not following and cursor.accept("last")
    remaining = cursor.accept(*REMAINING)
    number = cursor.number()
    at_noun = cursor.at
    noun = place_noun(cursor)
    if noun.startswith("space") and not following and cursor.peek() in ("between", "bet", "btw", "btwn"):
        if read_between(cursor, start) is None:
            return None
        between = _each_tail(cursor, start) or Place(start, cursor.end, "rest")
        between.each, between.noun = True, "space"
        return between
    also: Place | None = None
    if noun and cursor.peek() in ("and", "&") and not (following or number) and (also := _and_each(cursor, noun)):
        noun = "" if noun.startswith(("space", "corner")) else noun
    elif noun and cursor.peek() in ("and", "&") and cursor.peek(1) in ("ch", "chain", "st", "sp", "sc"):
        cursor.at += 1  # "in each st and ch around"
        place_noun(cursor)
    if not (following or number or noun or remaining or cursor.done or cursor.peek() in ("around", "across", ",", ".", "(")):
        return None
    if (piece := _behind_each(cursor, start)) is not None:
        piece.number = number
        return piece
    tail = _each_tail(cursor, start)
    if tail is not None:
        tail.each, tail.noun, tail.also = True, noun, also
        return tail
    if also is not None:
        return Place(start, cursor.end, "rest", None, True, noun, also=also)
    if number is not None or following or first or last:
        claim = cursor.tokens[at_noun - 1 if at_noun else 0].text == "all"
        kind = "last" if last else "first" if first else "next"
        all_of = any(t.text == "all" for t in cursor.tokens[: cursor.at] if t.start >= start) and not following
        return Place(start, cursor.end, "rest" if all_of or claim else kind, number, True, noun)
    return Place(start, cursor.end, "rest", None, True, noun)


def _behind_each(cursor: Cursor, start: int) -> Place | None:
    """"in each st around first leg", "in each st of the second leg": all that the piece has."""
    at = cursor.at
    if cursor.accept("around", "of", "on", "along", "across", "from") and cursor.peek() not in ("ch", "chain", "rnd", "round", "row"):
        name = piece_here(cursor)
        if name and joins_pieces(cursor):
            return Place(start, cursor.end, "piece", None, True, reference=Reference(start, cursor.end, (), name))
    cursor.at = at
    return None


def _each_space(cursor: Cursor, start: int) -> Place:
    """"each 2-ch sp around", "each ch-2 sp of each shell": behind "each"."""
    noun = read_space_name(cursor) or "space"
    place = _each_tail(cursor, start) or Place(start, cursor.end, "rest")
    place.each, place.noun = True, noun
    return read_of_group(cursor, place) if cursor.peek() in ("of", "in") else place


def _and_each(cursor: Cursor, noun: str) -> Place | None:
    """"in each dc and ch-1 sp", "in each ch-1 sp and dc": the spaces that are worked besides the stitches."""
    at = cursor.at
    cursor.at += 1
    cursor.accept("in", "into")
    cursor.accept(*EACH)
    start = cursor.start
    spaces = noun.startswith(("space", "corner"))
    other = read_space_name(cursor) if not spaces else place_noun(cursor)
    if other is None or spaces and (not other or other.startswith(("space", "corner", "loop"))):
        cursor.at = at
        return None
    return Place(start, cursor.end, "rest", None, True, noun if spaces else other)


def _each_tail(cursor: Cursor, start: int) -> Place | None:
    if cursor.peek() == "from" and cursor.peek(1) == "hook":
        cursor.at += 2
    if cursor.phrase(TO_LAST):
        return read_to_last(cursor, start)
    if cursor.peek() in UP_TO and (found := read_up_to(cursor)):
        return found
    cursor.phrase(("down", "along", "up")) if cursor.peek(1) in ("around", "across") else None
    if cursor.peek() in ("of", "in") and cursor.peek(1) in ("rnd", "round", "row", "the", "previous", "prev", "last"):
        cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row", "in rnd", "in row", "in the round", "of the previous round", "of previous round", "of prev rnd", "of the previous row", "of last round", "of previous row"))
    if round_end(cursor):
        if cursor.peek() in ("until", "till") and (found := until_remain(cursor, start)):
            return found
        return Place(start, cursor.end, "rest")
    if cursor.peek() in ("until", "till"):
        return until_remain(cursor, start)
    return None

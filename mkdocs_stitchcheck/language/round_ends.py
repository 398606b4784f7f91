"""All that is left of a round, "around", "across the gap", "to end", and nearly all, "to last 2 sts"."""

from __future__ import annotations

from .cursor import Cursor
from .named_pieces import joins_pieces
from .phrases import Phrases
from .place_nouns import place_noun
from .syntax import Place

ROUND_END = Phrases((
    "around", "all around", "all the way around", "around the whole way", "the whole way around", "the whole way round", "evenly around", "around the round", "round", "across", "all across",
    "evenly across", "across row", "across the row", "across round", "to end", "to the end", "until end", "until the end",
    "till end", "till the end", "to eor", "until eor", "to end of rnd", "to end of round", "to end of row",
    "to the end of the round", "to the end of the row", "to the end of the rnd", "to the end of rnd", "to the end of row",
    "until end of rnd", "until end of round", "until end of row", "until the end of the round", "until the end of the row",
    "until the end of rnd", "to end of the round", "to end of the row", "the entire round", "the whole round",
    "the entire row", "for the entire round", "for the whole round", "the entire way around", "all round", "all along",
    "to end of the rnd", "until the end of the rnd", "in the round", "entire round", "entire rnd", "all the way across",
    "all the way round", "around the whole round", "throughout", "for the rest of the round", "for the rest of the row",
    "the rest of the way around", "the rest of the round", "the rest of the row", "to marker", "to the marker", "to m",
    "all the way", "to side edge", "along the row", "along the round", "over the whole round", "around entire round",
    "until end of the round", "until end of the row", "to end of chain", "to end of ch", "to the end of the chain",
    "around both sides of the chain", "around both sides of the ch", "around both sides", "around both sides of ch",
    "along the ch", "to the end of the ch", "to end of the chain",
))  # fmt: skip
TO_LAST = Phrases(("to last", "to the last", "until last", "until the last", "up to last", "up to the last", "to within last", "till last", "till the last", "to within the last"))
ONE_SIDE = Phrases((
    "up one side", "down one side", "along one side", "up the first side", "down the first side", "up the side", "down the side",
    "up one side of the ch", "down one side of the ch", "up one side of the chain", "down one side of the chain",
    "along one side of the chain", "along one side of the ch",
))  # fmt: skip
_GAPS = ("gap", "opening", "buttonhole", "thumbhole", "armhole", "hole", "slit")


def round_end(cursor: Cursor) -> bool:
    """"around", "across", "to end": all that is left."""
    if cursor.peek() == "around" and _post_or_piece(cursor):
        return False
    if cursor.peek() == "along" and cursor.peek(1) in ("the", "ch") and joins_pieces(cursor):
        return False  # the bridge between two legs
    if cursor.peek() == "across" and cursor.peek(1) in ("next", "both", "the"):
        return _over_gap(cursor) or cursor.phrase(("across the row", "across the round")) is not None
    return cursor.phrase(ROUND_END) is not None or _over_gap(cursor) or cursor.phrase(ONE_SIDE) is not None


def _over_gap(cursor: Cursor) -> bool:
    """"across the gap", "over the buttonhole": the chains of an opening."""
    at = cursor.at
    if cursor.accept("across", "over", "along", "of", "at") and (cursor.accept("the") or True):
        if cursor.accept(*_GAPS):
            return True
        if cursor.accept("thumb", "arm", "button", "leg", "ear") and cursor.accept("hole", "opening", "gap"):
            return True
    cursor.at = at
    return False


def _post_or_piece(cursor: Cursor) -> bool:
    follows = [cursor.peek(ahead) for ahead in range(1, 4)]
    if follows[0] == "the":
        follows = follows[1:]
    return follows[0] in ("post", "posts", "next", "stem") or (
        follows[0] in ("first", "second", "other", "leg", "legs") and follows[0] != "" and "st" not in follows[1]
    )


def read_to_last(cursor: Cursor, start: int) -> Place:
    number = cursor.number()
    noun = "space" if cursor.accept("block", "blocks") else place_noun(cursor)
    cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row"))
    spaces = noun.startswith(("space", "corner")) or noun == "loop"
    return Place(start, cursor.end, "to_last", number, within="spaces" if spaces else "")


def until_remain(cursor: Cursor, start: int) -> Place | None:
    """"until 5 sts remain" is "to last 5 sts"."""
    at = cursor.at
    cursor.at += 1
    cursor.phrase(("there are", "you have", "only"))
    number = cursor.number()
    if number is not None:
        place_noun(cursor)
        cursor.accept("are")
        if cursor.accept("remain", "remaining", "rem", "left", "remains"):
            return Place(start, cursor.end, "to_last", number)
    cursor.at = at
    return None


UP_TO = ("to", "until", "till", "across", "along", "evenly", "over", "up")

"""Increases and decreases told over a round: "inc 6 evenly", "at each end", "in every 4th st", "dec to 6 sts"."""

from __future__ import annotations

from .cursor import Cursor
from .places import read_place
from .stitch_numbers import base_of
from .syntax import Number, Repeat, Spread, Trust, Work
from .vocabulary import Stitch

_ENDS = (
    "at each end", "at both ends", "each end", "each side", "at each side", "at beg and end", "at beginning and end",
    "at the beginning and end", "at beg and at end", "at the beg and end", "on each side", "at both sides", "both sides",
)  # fmt: skip


def at_ends(cursor: Cursor, start: int, stitch: Stitch) -> Spread | None:
    """"inc 1 st at each end (of row)": two more over the row."""
    at = cursor.at
    cursor.accept("1")
    cursor.accept("st", "sts")
    if cursor.phrase(_ENDS) is None:
        cursor.at = at
        return None
    cursor.phrase(("of row", "of the row", "of next row", "of this row", "of rnd", "of the next row"))
    if cursor.peek() in ("of", "every", "on"):
        cursor.at = at
        return None
    return Spread(start, cursor.end, Number(start, start, (2,)), stitch)


def every_so_many(cursor: Cursor, start: int, stitch: Stitch) -> Repeat | None:
    """"inc 1 st in every 4th st": three plain stitches and an increase, around."""
    at = cursor.at
    cursor.accept("1", "one")
    cursor.accept("st")
    if cursor.accept("in", "every") and (cursor.tokens[cursor.at - 1].text == "every" or cursor.accept("every", "each")):
        number = cursor.ordinal()
        if number is not None and cursor.accept("st", "stitch", "sc") and number.value > stitch.uses:
            read_place(cursor)
            plain = Number(number.start, number.end, (number.value - stitch.uses,))
            body = (Work(number.start, number.end, base_of(stitch), plain), Work(start, number.start, stitch))
            return Repeat(start, cursor.end, body, None, "rest", mark="every")
    cursor.at = at
    return None


def down_to(cursor: Cursor, start: int) -> Trust | None:
    """"dec to 6 sts", "continue to dec until 6 sts rem": over rounds that nobody counts."""
    at = cursor.at
    if cursor.accept("to", "until", "till", "down"):
        cursor.accept("to", "you", "there")
        cursor.accept("have", "are")
        if cursor.is_number():
            cursor.number()
            if cursor.accept("st", "sts", "stitches") and (cursor.accept("rem", "remain", "remaining", "left") or cursor.done):
                return Trust(start, cursor.end, "decreased to a number over rounds that are not counted")
    cursor.at = at
    return None


def read_spread(cursor: Cursor, start: int, stitch: Stitch, number: Number | None) -> Spread | None:
    at = cursor.at
    if number is None:
        return None
    cursor.accept("sts")
    if not cursor.phrase(("evenly spaced apart", "evenly spaced", "evenly")):
        cursor.at = at
        return None
    read_place(cursor)
    cursor.accept("spaced")
    return Spread(start, cursor.end, number, stitch)

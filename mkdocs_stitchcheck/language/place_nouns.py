"""What a place is called: "sts", "ch", "ch-2 sp", "next 2 sc", "corner sp", "skipped sts of the armhole"."""

from __future__ import annotations

from .cursor import Cursor
from .phrases import Phrases
from .space_places import read_space_name
from .syntax import Place
from .words import NOUNS


def place_noun(cursor: Cursor) -> str:
    """The noun of a place: "sts", "ch", a stitch's name ("next 2 sc"), "ch-2 sp"; "" where none stands."""
    word = cursor.peek()
    if word in _WAITING and (waiting := _waiting(cursor)):
        return waiting
    if word in _SPACE_STARTS and (space := read_space_name(cursor)) is not None:
        return space
    if word in ("corner", "corners") and (ahead := _corner(cursor)):
        return ahead
    if word == "-" and cursor.peek(1) in NOUNS:
        cursor.at += 1
        word = cursor.peek()
    if word in NOUNS and word != "s":
        if word in ("sl", "ss"):
            return ""
        cursor.at += 1
        if NOUNS[word] == "chain":
            cursor.accept("st", "sts", "sp")
        return NOUNS[word]
    matched = cursor.match_stitch()
    if matched is not None and matched[0].kind not in ("skip",):
        stitch, length = matched
        cursor.at += length
        cursor.accept("st", "sts", "stitch", "stitches")
        return stitch.key
    return ""


_WAITING = frozenset(("skipped", "missed", "unworked", "held", "waiting", "resting", "underarm", "sleeve", "thumb"))
_OF_OPENING = Phrases((
    "of the armhole", "of armhole", "around the armhole", "at the underarm", "at underarm", "of the underarm", "under the arm",
    "of the opening", "of the thumb opening", "around the opening", "around the thumb opening", "of the thumb hole",
    "for the sleeve", "for the thumb", "for sleeve", "for thumb", "over the gap", "across the gap",
))  # fmt: skip


def _waiting(cursor: Cursor) -> str:
    """"skipped sts (of the armhole)", "underarm ch": places of an opening; "" where no noun follows."""
    at = cursor.at
    while cursor.peek() in _WAITING:
        cursor.at += 1
    if cursor.peek() in ("loop", "loops", "lps", "lp") or not (noun := place_noun(cursor)):
        cursor.at = at
        return ""
    cursor.phrase(_OF_OPENING)
    return noun


def _corner(cursor: Cursor) -> str:
    """"corner sp", "corner ch-2 sp", "corner st"; "" where no noun follows."""
    at = cursor.at
    cursor.at += 1
    noun = place_noun(cursor) if cursor.peek() not in ("corner", "corners") else ""
    if not noun:
        cursor.at = at
        return ""
    return f"corner {noun}" if noun.startswith("space") else noun


def noun_end(cursor: Cursor) -> str:
    noun = place_noun(cursor)
    cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row"))
    return noun


def long_space(cursor: Cursor, start: int) -> Place | None:
    """"2-ch sp", "1ch-space", "3-ch-space": a space named by its length."""
    at = cursor.at
    number = cursor.number() if cursor.is_number(words=False) else None
    cursor.accept("-")
    if number is not None and cursor.accept("ch", "chain"):
        cursor.accept("-")
        if cursor.accept("sp", "space", "sps", "spaces", "loop", "lp"):
            return Place(start, cursor.end, "space", None, False, "space", chains=number.value)
    cursor.at = at
    return None


_SPACE_STARTS = ("corner", "corners", "ch", "chain", "sp", "sps", "space", "spaces")

"""The numbers at a stitch: how wide it is, "sc2tog", "inc3", and how often it is worked, "sc 5", "sc x 5"."""

from __future__ import annotations

from . import vocabulary
from .cursor import Cursor, Unreadable
from .multipliers import read_times
from .near import distance
from .syntax import Number
from .tokens import OPENING
from .vocabulary import Stitch
from .words import TIMES_WORDS


def read_family(cursor: Cursor, stitch: Stitch, number: Number | None, glued: bool) -> tuple[Stitch, Number | None, bool]:
    """"sc2tog", "sc 2 tog", "sc 3 in 1", "inc3", "dec3"; "2 dc cluster" takes the number as the group's own."""
    if cursor.is_number(words=False):
        ahead = 1 if cursor.peek(1) not in ("-",) else 2
        together = cursor.peek(ahead) in ("tog", "together", "togs")
        if together or cursor.peek(1).startswith("tog"):
            count = cursor.number()
            assert count is not None
            cursor.at += ahead
            cursor.accept("st", "sts")
            return vocabulary.together(base_of(stitch), width_of(cursor, count)), number, glued
        _mistyped_together(cursor)
        if cursor.tokens[cursor.at].glued and cursor.peek(1) in ("inc", "dec") and cursor.tokens[cursor.at + 1].glued:
            count = cursor.number()
            assert count is not None
            wide = vocabulary.increase if cursor.peek() == "inc" else vocabulary.together
            cursor.at += 1
            return wide(base_of(stitch), width_of(cursor, count)), number, glued
        if cursor.tokens[cursor.at].glued and stitch.key in ("inc", "dec") and cursor.peek() in ("2", "3", "4"):
            count = cursor.number()
            assert count is not None
            base = base_of(stitch)
            wide = vocabulary.increase if stitch.kind == "increase" else vocabulary.together
            return wide(base, width_of(cursor, count)), number, True
        if cursor.peek(1) in ("in",) and cursor.peek(2) in ("1", "one") and cursor.peek(3) not in ("st", "stitch"):
            count = cursor.number()
            assert count is not None
            cursor.at += 2
            return vocabulary.increase(base_of(stitch), width_of(cursor, count)), number, glued
    if number is not None and cursor.accept("tog", "together"):
        return vocabulary.together(base_of(stitch), width_of(cursor, number)), None, glued
    if number is not None and stitch.kind in ("plain", "post"):
        group = cursor.match_stitch()
        if group is not None and group[0].key in ("cluster", "bobble", "popcorn", "puff"):
            cursor.at += group[1]
            return group[0], None, False
    return stitch, number, glued


def _mistyped_together(cursor: Cursor) -> None:
    """"sc2tob": the whole word is named, not its end."""
    number, after = cursor.token(), cursor.token(1)
    if number is None or after is None or not (number.glued and after.glued) or after.kind != "word":
        return
    if after.text not in ("in", "x", "sts", "st") and distance(after.text, "tog") == 1:
        start = cursor.tokens[cursor.at - 1].start
        shown = cursor.statement.text[start : after.end]
        right = shown[: after.start - start] + "tog"
        raise Unreadable(
            "unknown-stitch", start, after.end, f"{shown} is no stitch that I know; did you mean {right}?",
            f"Write {right}.", right,
        )  # fmt: skip


def width_of(cursor: Cursor, number: Number) -> int:
    if not 2 <= number.value <= 100:
        raise Unreadable(
            "number-out-of-range", number.start, number.end,
            "So many stitches can't be worked together or into one; from 2 to 100 can.", "Write the number that is meant.",
        )  # fmt: skip
    return number.value


def base_of(stitch: Stitch) -> Stitch:
    return vocabulary.stitches().get(stitch.base or stitch.key, stitch)


def count_behind(cursor: Cursor, stitch: Stitch) -> tuple[Number, bool] | None:
    """"sc 5", "sc5", "sc x 5", "sc*5", "inc 6 times", "sc twice in next st" """
    at = cursor.at
    if stitch.kind == "picot" and cursor.accept("-"):
        cursor.number()  # "picot-3" is its name
        return None
    opening = cursor.token()
    if opening is not None and opening.text == "(" and opening.glued and opening.mate == cursor.at + 2 and opening.mate < cursor.stop:
        cursor.at += 1
        number = cursor.number()
        cursor.at = opening.mate + 1 if number is not None else at
        return (number, False) if number is not None else None
    if cursor.peek() in TIMES_WORDS and cursor.peek(1) in ("in", "into"):
        found = read_times(cursor)
        return (found[0], False) if found else None
    if cursor.accept("x", "*"):
        number = cursor.number()
        if number is not None and not (cursor.tokens[cursor.at - 2].text == "*" and _star_closes(cursor)):
            cursor.accept("times", "time")
            return number, False
        cursor.at = at
        return None
    if not cursor.is_number() or cursor.peek() in ("a", "an"):
        return None
    glued = cursor.tokens[cursor.at].glued
    number = cursor.number()
    if number is None:
        return None
    if cursor.accept("x"):
        if cursor.match_stitch() or cursor.peek() in OPENING:
            cursor.at = at
            return None
        return number, False
    if cursor.accept("times", "time"):
        cursor.accept("total")
        return number, False
    if cursor.peek() in ("more", "further") and cursor.peek(1) in ("times", "time"):
        cursor.at = at
        return None
    if number.word is False and cursor.match_stitch() and not glued and stitch.kind != "slip" and cursor.peek() not in ("sts", "st"):
        cursor.at = at
        return None
    return number, glued


def _star_closes(cursor: Cursor) -> bool:
    return cursor.peek() in ("times", "x", "around", "rep", "repeat")

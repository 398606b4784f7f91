"""Numbers and words of a round that are no stitches: measures, and what to say of a word that a round cannot use."""

from __future__ import annotations

from . import vocabulary
from .cursor import Cursor, Unreadable
from .near import all_nearest
from .words import PREPOSITIONS

_MEASURE = ("cm", "mm", "m", "in", "inch", "inches", "g", "oz", "yd", "yards", '"', "'", "%")
APART = ("apart", "between", "visible", "away", "free", "wide")
_LITTLE_WORDS = frozenset(PREPOSITIONS) | {"at", "for", "with", "by", "is", "it", "as", "up", "so", "st", "sts", "rnd", "row"}


def _before_word(cursor: Cursor) -> str:
    """The word behind a number that is no stitch: "12 foo"."""
    after = cursor.token(1)
    if after is None or after.kind != "word" or len(after.text) < 2 or after.text in _LITTLE_WORDS:
        return ""
    return f": “{cursor.statement.text[after.start : after.end]}” is no stitch that I know"


def unknown_word(cursor: Cursor) -> Unreadable:
    """The error at a word that a round cannot use, with the near stitch names."""
    token = cursor.tokens[cursor.at]
    shown = cursor.statement.text[token.start : token.end]
    if token.kind == "mark":
        return Unreadable("unreadable-line", token.start, token.end, f"I can't read the sign {shown} here.", "Take it out, or write the step in words.")
    if token.kind == "number":
        return Unreadable("unreadable-line", token.start, token.end, f"I can't tell what the number {shown} belongs to here{_before_word(cursor)}.", "Name the stitch beside it, or set the remark as a note that begins with >.")
    slips = vocabulary.SLIPS.get(token.text, ())
    near = [*slips] or all_nearest(token.text, [word for word in cursor.index if len(word) > 1] + list(cursor.context.special_words))
    near = [word for word in near if word != token.text]
    if near and token.text not in _LITTLE_WORDS:
        hint = f"; did you mean {' or '.join(near[:3])}?"
        return Unreadable("unknown-stitch", token.start, token.end, f"{shown} is no stitch that I know{hint}", f"Write {near[0]}, or declare {shown} under Abbreviations.", near[0] if len(near) == 1 else "")
    return Unreadable("unknown-stitch", token.start, token.end, f"I can't read the word “{shown}” in this round.", "If it is a stitch, declare it under Abbreviations or Special stitch; if it is a remark, put it on a line that begins with >.")


def is_measure(cursor: Cursor) -> bool:
    """"20 cm", "3 in", "15 x 15 cm", "6 sts apart": a number that is no stitch count."""
    if not cursor.is_number(words=False):
        return False
    ahead = 1
    while cursor.peek(ahead) in (".", ",", "-", "/") and cursor.is_number(ahead + 1, words=False):
        ahead += 2
    if cursor.peek(ahead) in ("x", "by") and cursor.is_number(ahead + 1, words=False):
        return is_measure(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + ahead + 1, cursor.stop))
    if cursor.peek(ahead) == "-":
        ahead += 1
        if cursor.peek(ahead + 1) == "-":
            return False
    unit = cursor.peek(ahead)
    if unit == "'" and cursor.match_stitch(ahead + 1) is not None:
        return False
    if unit in _MEASURE and not (unit == "in" and cursor.peek(ahead + 1) in ("next", "each", "same", "the", "a", "magic", "mr", "mc", "ring", "first", "last", "back", "front", "one", "circle", "loop", "tip", "end")):
        return True
    if unit in ("st", "sts", "stitches", "rnds", "rows", "rounds"):
        return cursor.peek(ahead + 1) in APART
    return False

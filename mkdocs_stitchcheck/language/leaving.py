"""Stitches that stay: "leave rem 6 sts unworked", "work on these 20 sts only", "work 1 st less each row"."""

from __future__ import annotations

from .clauses import clause_end
from .cursor import Cursor
from .phrases import Phrases
from .syntax import Leave, Step

REST_LEFT = Phrases((
    "rest left unworked", "the rest left unworked", "rest is left unworked", "the rest is left unworked", "rest unworked",
    "remaining sts left unworked", "remaining sts are left unworked", "rest of sts left unworked", "rem sts left unworked",
    "rest of the sts left unworked", "remaining stitches left unworked", "rest of round left unworked", "rest of row left unworked",
))  # fmt: skip


def read_only_these(cursor: Cursor) -> list[Step] | None:
    """"work on these 20 sts only": the others wait."""
    start = cursor.start
    if not cursor.accept("work", "working", "continue", "continuing") or not (cursor.accept("on", "over", "across") or cursor.accept("working") and cursor.accept("on", "over")):
        return None
    only = cursor.accept("only", "just")
    cursor.accept("these", "those", "the", "this")
    cursor.accept("first", "next", "last")
    number = cursor.number()
    if number is None or not cursor.accept("st", "sts", "stitches", "stitch", "sc", "dc", "hdc"):
        return None
    if not (cursor.accept("only", "alone", "for now") or only):
        return None
    return [Leave(start, cursor.end, None, number)]


def read_fewer(cursor: Cursor) -> list[Step] | None:
    """"work 1 st less each row": so many stay at the end of every row."""
    start = cursor.start
    cursor.accept("work", "working", "doing")
    number = cursor.number()
    if number is None:
        return None
    cursor.accept("st", "sts", "stitch", "stitches")
    if not cursor.accept("less", "fewer") or not cursor.phrase(("each row", "every row", "in each row", "in every row", "each time", "on each row", "each rnd", "each round")):
        return None
    return [Leave(start, cursor.end, number)]


def read_leave(cursor: Cursor) -> list[Step] | None:
    """leave = "leave" ["rem" | "last"] [N] noun ["unworked"] | "leaving the rest unworked"; a tail is no stitch."""
    start = cursor.start
    if cursor.phrase(REST_LEFT):
        return [Leave(start, cursor.end)]
    if not cursor.accept("leave", "leaving"):
        return None
    words = [token.text for token in cursor.tokens[cursor.at : clause_end(cursor)]]
    if any(word in ("tail", "tails", "yarn", "long", "cm", "inch", "inches", "end", "ends", "mm", "in", "thread") for word in words):
        return None
    if not any(word in ("rem", "remaining", "rest", "unworked", "last", "st", "sts", "stitches", "unused") or word.isdigit() for word in words):
        return None
    cursor.phrase(("the", "the rest of the", "the rest of", "rest of", "rest of the"))
    cursor.accept("rem", "remaining", "last", "final", "next", "rest", "other")
    number = cursor.number()
    matched = cursor.match_stitch()
    if matched is not None:
        cursor.at += matched[1]
    cursor.accept("st", "sts", "stitches", "stitch", "row", "round")
    cursor.phrase(("of row unworked", "of the row unworked", "of the sts unworked", "unworked", "unused", "free", "of round unworked", "of the round unworked", "of sts unworked", "unworked for now"))
    return [Leave(start, cursor.end, number)]

"""Where a clause of a sentence ends, and what of it may be passed over without being read."""

from __future__ import annotations

from .cursor import Cursor, Unreadable
from .no_stitches import is_measure
from .tokens import OPENING

BREAKS = (",", ";", ".", ":")


def clause_end(cursor: Cursor) -> int:
    """Where the clause at the cursor ends: the index of its comma, semicolon or full stop."""
    index = cursor.at
    while index < cursor.stop and cursor.tokens[index].text not in (",", ";", "."):
        index += 1
    return index


def to_break(cursor: Cursor, strict: bool = False) -> None:
    """Reads to the end of the clause, or to "and" before a stitch. With *strict*, a stitch or number in it is an error."""
    while not cursor.done:
        token = cursor.token()
        assert token is not None
        if token.text in BREAKS and not (token.text in ".," and cursor.is_number(1, words=False) and cursor.tokens[cursor.at + 1].glued):
            if token.text in ",:" and _clause_goes_on(cursor):
                cursor.at += 1
                continue
            return
        if token.text in ("and", "then", "&") and stitch_work(cursor, 2 if cursor.peek(1) in ("work", "make", "crochet", "then", "now") else 1):
            return
        if token.text in OPENING and token.mate > cursor.at:
            inner = cursor.tokens[cursor.at + 1 : token.mate]
            if any(t.kind == "number" for t in inner):
                return
            cursor.at = token.mate + 1
            continue
        if token.text in (")", "]", "}"):
            return
        if strict and (token.kind == "number" and not is_measure(cursor)):
            raise swallowed(cursor)
        cursor.at += 1


def _clause_goes_on(cursor: Cursor) -> bool:
    """"..., with 6 stitches between them", ", 6 sts apart": still the same doing."""
    following = cursor.peek(1)
    if following in ("with", "about", "leaving", "approximately", "approx") and not stitch_work(cursor, 2):
        return following != "leaving"
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, cursor.stop)
    return is_measure(probe)


def stitch_work(cursor: Cursor, ahead: int) -> bool:
    """Whether stitches to be worked begin so many tokens ahead."""
    if cursor.is_number(ahead):
        matched = cursor.match_stitch(ahead + 1)
        return matched is not None
    matched = cursor.match_stitch(ahead)
    return matched is not None and cursor.peek(ahead) not in ("loop", "close", "chain", "skip")


def swallowed(cursor: Cursor) -> Unreadable:
    """The error at a number that a remark would have passed over."""
    token = cursor.tokens[cursor.at]
    shown = cursor.statement.text[token.start : token.end]
    return Unreadable(
        "unreadable-line", token.start, token.end,
        f"I can't tell what the number {shown} counts here.",
        "Write it as a stitch, or put the remark on a line of its own that begins with >.",
    )  # fmt: skip

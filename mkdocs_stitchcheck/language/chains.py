"""Chains: "ch 3", "ch 10 + 1", what they count as, "(does not count as a st)", and "join to form a ring"."""

from __future__ import annotations

from .cursor import Cursor
from .phrases import Phrases
from .syntax import Chain, Number, Ring, Step, Trust

_NOT_COUNTED = Phrases((
    "does not count", "doesn't count", "do not count", "don't count", "not counted", "not a st", "not a stitch", "not count",
    "not counting", "does not", "never counts", "won't count", "is not counted", "are not counted", "not counts", "no st",
))  # fmt: skip
_COUNTED = Phrases((
    "counts as", "count as", "counting as", "counts", "count", "counted as", "=", "is", "equals", "acts as", "counted", "replaces",
    "for first", "for the first", "for 1st", "for the 1st", "in place of first", "in place of the first",
))  # fmt: skip


def read_chain(cursor: Cursor, start: int, number: Number | None) -> list[Step]:
    """chain = "ch" ["-"] N ["+" M] [counts] | N "ch" | "ch" ; closed to a ring by "join to form a ring"."""
    if number is None and cursor.phrase(_NO_NUMBER):
        number = _made_here(cursor)
        return [Chain(start, cursor.end, number) if number is not None else Trust(start, cursor.end, "a chain of no fixed number")]
    if number is None:
        at = cursor.at
        if cursor.peek() == "-" and cursor.tokens[cursor.at].glued and cursor.is_number(1, words=False):
            cursor.at += 1
        number = cursor.number()
        if number is None:
            cursor.at = at
            number = Number(cursor.end, cursor.end, (1,))
    cursor.accept("st", "sts", "stitches")
    if (plus := _plus(cursor)) is not None:
        number = Number(number.start, plus.end, (number.value + plus.value,))
    _pass_multiple(cursor)
    _pass_purpose(cursor)
    chain = Chain(start, cursor.end, number)
    read_counts_as(cursor, chain)
    chain.end = cursor.end
    ring = _closed_to_ring(cursor, chain)
    return [ring] if ring is not None else [chain]


_NO_NUMBER = Phrases((
    "an even number", "an odd number", "any number", "any even number", "any odd number", "a multiple of", "any multiple of", "multiple of",
    "as many as needed",
))  # fmt: skip
_HERE = ("here", "example", "sample", "made", "used", "shown")


def _made_here(cursor: Cursor) -> Number | None:
    """To the end of the sentence; the chain of "a multiple of 6 + 2, here 50", "any even number (sample shown: 32)"."""
    number: Number | None = None
    while not cursor.done and cursor.peek() not in (".", ";"):
        if cursor.peek() in _HERE:
            cursor.at += 1
            cursor.accept("is", "was", "has", "i", ":", "ch", "with", "with ch", "shown", "used", "uses", "made")
            cursor.accept(":", "ch")
            number = cursor.number() or number
        else:
            cursor.at += 1
    return number


def _pass_multiple(cursor: Cursor) -> None:
    """"Ch 50, or any multiple of 6 plus 2": the chain is said already."""
    at = cursor.at
    cursor.accept(",")
    if cursor.accept("or", "for") and cursor.phrase(_NO_NUMBER):
        while not cursor.done and cursor.peek() not in (",", ".", ";"):
            cursor.at += 1
        return
    cursor.at = at


def _pass_purpose(cursor: Cursor) -> None:
    """"Ch 12 for hanging loop", "ch 5 to make a buttonhole": what the chain is for, in words without number or stitch."""
    at = cursor.at
    if cursor.accept("for") or cursor.accept("to") and cursor.accept("make", "form", "create"):
        while not cursor.done and cursor.peek() not in _SENTENCE_MARKS:
            if cursor.is_number(words=False) or cursor.match_stitch() is not None or cursor.peek() in ("ring", "circle", "row", "rnd", "round", "rows", "rnds"):
                cursor.at = at
                return
            cursor.at += 1
        return
    cursor.at = at


_SENTENCE_MARKS = (",", ".", ";", "(", ")", "*", "and", "then", "[", "]")


def _plus(cursor: Cursor) -> Number | None:
    """"ch 10 + 1", "ch 10 (+1 for turning)" """
    at = cursor.at
    bracket = cursor.accept("(")
    if cursor.accept("+", "plus") and cursor.is_number():
        number = cursor.number()
        if not bracket:
            cursor.phrase(("for turning", "for turning chain", "for turning ch", "to turn"))
            return number
        while not cursor.done and not cursor.accept(")"):
            cursor.at += 1
        return number
    cursor.at = at
    return None


def read_counts_as(cursor: Cursor, chain: Chain) -> None:
    """counts = "(counts as dc, ch 2)" | "(does not count as a st)" | "(= 1st st)" | "(not a st)", or without brackets."""
    at = cursor.at
    opening = cursor.token()
    if opening is not None and opening.text in ("(", "[") and opening.mate > 0:
        inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
        if _counts(inside, chain, bracket=True):
            cursor.at = opening.mate + 1
        return
    cursor.accept(",")
    bare = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, cursor.stop)
    for ahead in range(cursor.at, min(cursor.stop, cursor.at + 14)):
        if cursor.tokens[ahead].text in (",", ";", ".", "("):
            bare.stop = ahead
            break
    if cursor.peek() != "=" and cursor.peek() not in ("is", "are") and _counts(bare, chain):
        cursor.at = bare.at
        return
    cursor.at = at


def _counts(inside: Cursor, chain: Chain, bracket: bool = False) -> bool:
    inside.accept("the", "first", "these")
    inside.number() if inside.is_number() and inside.peek(1) not in ("dc", "sc", "hdc", "tr", "htr") else None
    inside.accept("beg", "beginning", "skipped", "missed", "unworked")
    inside.accept("ch", "chs", "chains", "chain") if inside.peek(1) not in ("",) else None
    inside.phrase(("skipped chs", "skipped chains", "skipped", "the skipped chains", "this", "which", "it", "skipped ch", "they"))
    if inside.phrase(_NOT_COUNTED):
        chain.counts_as = ()
        chain.throughout = any(token.text == "throughout" for token in inside.tokens[inside.at : inside.stop])
        inside.at = inside.stop
        return True
    found = inside.phrase(_COUNTED)
    plain = bracket and found is None and inside.is_number() and inside.match_stitch(1) is not None
    if found is None and not plain:
        return False
    if found in ("is", "are") and not inside.is_number():
        return False
    parts: list[tuple[str, int]] = []
    while not inside.done:
        number = inside.number(article=True)
        matched = inside.match_stitch()
        if inside.accept("first", "1st", "1", "the", "beg", "as"):
            inside.accept("st") if inside.tokens[inside.at - 1].text == "1" else None
        elif matched is not None:
            inside.at += matched[1]
            if matched[0].kind == "chain" and number is None:
                number = inside.number()
            parts.append((matched[0].key, number.value if number else 1))
        elif inside.accept("st", "sts", "stitch", "stitches"):
            parts.append(("stitch", number.value if number else 1))
        elif inside.accept("throughout"):
            chain.throughout = True
        elif not inside.accept("here", "and", ",", "in", "each", "row", "rnd", "round", "of", "this", "every", "+", "a", "sp", "space", "always", "now", "on", "from"):
            return False
    if not parts:
        return False
    chain.counts_as = tuple(parts)
    return True


def _closed_to_ring(cursor: Cursor, chain: Chain) -> Ring | None:
    """"ch 4, sl st in first ch to form a ring", "Ch 4, join to form ring", "ch 4, join." only where a ring is named."""
    at = cursor.at
    cursor.accept(",", ";", ".", "and")
    cursor.accept(",", "and")
    if cursor.accept("join", "sl", "ss", "slst", "slip", "close"):
        for ahead in range(cursor.at, min(cursor.stop, cursor.at + 14)):
            text = cursor.tokens[ahead].text
            if text in (";", ":", ".") and ahead + 1 < cursor.stop and cursor.tokens[ahead - 1].text not in ("sl", "st"):
                break
            if text == "ring" or text == "circle":
                cursor.at = ahead + 1
                return Ring(chain.start, cursor.end, chain.number)
    cursor.at = at
    return None

"""Rounds and pieces that are named somewhere: "Rnds 7 and 8", "rounds 1-8 of the Head", "between Rnds 11 and 14"."""

from __future__ import annotations

from .cursor import Cursor
from .syntax import Number, Reference

_ROUND = ("rnd", "rnds", "round", "rounds", "rd", "rds", "row", "rows", "r", "rs")
_DASHES = ("-", "to", "through", "thru", "~")
_NAME_STOP = frozenset(
    ["with", "and", "then", ",", ".", ";", ":", "(", ")", "[", "]", "on", "at", "in", "to", "over", "from", "using", "leaving", "so", "about", "=", "through", "until", "for", "again", "except", "but", "twice", "once", "the"]
)


def round_word(cursor: Cursor) -> bool:
    """Reads "Rnds", "rounds", "R" (the last only where a number follows)."""
    if cursor.peek() in _ROUND and (len(cursor.peek()) > 1 and cursor.peek() != "rs" or cursor.is_number(1, words=False)):
        cursor.at += 1
        cursor.accept(".")
        return True
    return False


def read_reference(cursor: Cursor) -> Reference | None:
    """reference = "Rnds" n {("-" | "and" | ",") n} ["of" ["the"] piece] ; nothing is read where it is none."""
    at, start = cursor.at, cursor.start
    cursor.accept("the")
    if not round_word(cursor) or not cursor.is_number(words=False):
        cursor.at = at
        return None
    stretches, numbers = _stretches(cursor)
    reference = Reference(start, cursor.end, tuple(stretches), "", "", tuple(numbers))
    after = cursor.at
    if cursor.accept("of", "from", "on"):
        name = read_piece_name(cursor)
        if name:
            reference.piece, reference.end = name, cursor.end
        else:
            cursor.at = after
    return reference


def _stretches(cursor: Cursor) -> tuple[list[tuple[int, int]], list[Number]]:
    first = cursor.number(words=False)
    assert first is not None
    numbers, stretches = [first], [(first.value, first.value)]
    while True:
        at = cursor.at
        dash = cursor.accept(*_DASHES)
        comma = not dash and cursor.accept(",")
        joined = not dash and (cursor.accept("and", "&") or comma)
        if not (dash or joined):
            break
        round_word(cursor)
        number = cursor.number(words=False) if cursor.is_number(words=False) else None
        following = cursor.peek()
        if number is None or (joined and (following in ("st", "sts", "sc", "x", "times", "stitches", "cm", "mm") or cursor.known_word())):
            cursor.at = at
            break
        numbers.append(number)
        if dash:
            stretches[-1] = (stretches[-1][0], number.value)
        else:
            stretches.append((number.value, number.value))
    return stretches, numbers


def read_piece_name(cursor: Cursor) -> str:
    """The name behind "of": up to four words, as far as a known piece goes or else up to a word that ends a name."""
    cursor.accept("the", "each", "both", "your")
    words: list[str] = []
    best = 0
    for ahead in range(4):
        token = cursor.token(ahead)
        if token is None or token.text in _NAME_STOP or token.kind == "mark":
            break
        words.append(token.text)
        if " ".join(words) in cursor.context.pieces:
            best = ahead + 1
    count = best or (len(words) if len(words) <= 2 else 1)
    if not count:
        return ""
    start, end = cursor.start, cursor.tokens[cursor.at + count - 1].end
    cursor.at += count
    return cursor.statement.text[start:end]

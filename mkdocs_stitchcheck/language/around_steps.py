"""What stands around the steps of an instruction: letters for stitches, a count in front, sentences behind the count."""

from __future__ import annotations

from dataclasses import replace

from .counts import Tail
from .cursor import Context, Cursor, Unreadable
from .doings import read_doing
from .stated import find_tail
from .syntax import Aside, ColorChange, Join, Leave, Stated, Turn
from .tokens import OPENING, Token

_PRIVATE = {"d": "dec", "i": "inc"}


def name_private(tokens: list[Token], context: Context) -> None:
    """"8 d 8", "[25] 6 i 17": between bare numbers the letters d and i are a decrease and an increase."""
    if not any(token.text in _PRIVATE for token in tokens):
        return
    leading = tokens[0].text in OPENING and len(tokens) > 3 and tokens[1].kind == "number" and tokens[2].text == OPENING[tokens[0].text] if tokens else False
    begin = 3 if leading else 0
    stop = next((index for index, token in enumerate(tokens) if index >= begin and token.kind == "mark" and token.text != ","), len(tokens))
    body = tokens[begin:stop]
    letters = [index for index, token in enumerate(body, begin) if token.text in _PRIVATE]
    if not letters or any(token.kind != "number" and token.text not in (",", *_PRIVATE) for token in body):
        return
    if len(letters) == len(body) or any(token.text in context.special_words or token.text in context.colors for token in body):
        return
    for index in reversed(letters):
        token = tokens[index]
        tokens[index] = replace(token, text=_PRIVATE[token.text])
        for at in (index + 1, index):
            if begin < at < len(tokens) and tokens[at - 1].text != "," and tokens[at].text != ",":
                tokens.insert(at, Token("mark", ",", tokens[at].start, tokens[at].start))


def tail_before_doings(cursor: Cursor, bare: bool) -> tuple[Tail, int | None]:
    """The tail, perhaps with sentences behind it that are mere doings: "... 20 sc. Fasten off." and where those begin."""
    tail = find_tail(cursor, bare)
    if tail.counts:
        return tail, None
    closing = cursor.tokens[cursor.stop - 1] if cursor.stop > cursor.at else None
    if closing is not None and closing.text == ")" and closing.mate > cursor.at:
        # "4 dec = 4 sc (rest left unworked)"
        inside = Cursor(cursor.statement, cursor.tokens, cursor.context, closing.mate + 1, cursor.stop - 1)
        left = read_doing(inside) if inside.peek() in ("rest", "rem", "remaining", "the", "leave", "leaving") else None
        if left and inside.done and isinstance(left[0], Leave):
            before = find_tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, closing.mate))
            if before.counts:
                return before, closing.mate + 1
    stops = [i for i in range(cursor.at, cursor.stop - 1) if cursor.tokens[i].text in (".", ",", ";")][-3:]
    for index in reversed(stops):
        probe = Cursor(cursor.statement, cursor.tokens, cursor.context, index + 1, cursor.stop)
        try:
            found = read_doing(probe)
        except Unreadable:
            found = None
        while not probe.done and probe.peek() in (".", ",", ";"):
            probe.at += 1
        if not found or not probe.done or not all(isinstance(step, (Aside, Turn, Join, ColorChange)) for step in found):
            break
        try:
            before = find_tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, index), bare)
        except Unreadable:
            break
        if before.counts:
            return before, index + 1
    return tail, None


def leading_count(cursor: Cursor) -> Stated | None:
    """"[24] 3 sc, inc ...": a bracketed number in front is the count."""
    opening = cursor.token()
    if opening is None or opening.text not in OPENING or opening.mate != cursor.at + 2 or not cursor.is_number(1, words=False):
        return None
    following = cursor.tokens[opening.mate + 1] if opening.mate + 1 < cursor.stop else None
    if following is None or following.text in ("x", "times"):
        return None
    if following.text in OPENING and following.mate == cursor.stop - 1:
        return None
    at = cursor.at
    cursor.at += 1
    number = cursor.number()
    if number is None:
        cursor.at = at
        return None
    cursor.at = opening.mate + 1
    return Stated(opening.start, cursor.tokens[opening.mate].end, "total", number)

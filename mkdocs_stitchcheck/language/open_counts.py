"""Counts without brackets: "= 24 sts", "- 24 sc", ". 24 sts", "you now have 24", "(sc, inc) x 6; 18"."""

from __future__ import annotations

from .count_nouns import STITCH_WORDS
from .counts import COUNT_LEADS, Tail, read_count
from .cursor import Cursor, Unreadable
from .syntax import Stated
from .tokens import CLOSING, Token
from .whole_or_work import is_whole, is_work, whole_before


def open_count(cursor: Cursor, tail: Tail) -> bool:
    """Counts without brackets: behind "=", a spaced dash, a full stop, or words that lead to one."""
    tokens = cursor.tokens
    for index in range(tail.stop - 1, max(cursor.at, tail.stop - 24) - 1, -1):
        token = tokens[index]
        if token.text in CLOSING and token.mate >= 0:
            return False
        if token.text in "=|" or _dash(tokens, index) or (token.text in ".;," and not _only_turned(tokens, cursor.at, index)) or _closes(tokens, cursor.at, index):
            first = index + 1
            bare = token.text in "=|" or (token.text == "-" and index > cursor.at and (tokens[index - 1].text == "-" or whole_before(tokens, cursor.at, index)))
            found = _try_open(cursor, first, tail.stop, must_name=not bare, lead="=" if bare else token.text)
            if found is not None:
                while index > cursor.at and tokens[index - 1].text in "-=":
                    index -= 1
                found.start = tokens[index].start if token.text not in ".;,:" else tokens[first].start
                tail.counts.insert(0, found)
                tail.stop = index
                return True
            if token.text in "=.;":
                return False
        if token.text in ("total", "you", "count", "st", "stitch") and index > cursor.at and _led_count(cursor, tail, index):
            return True
    return _only_count(cursor, tail) or _sized_count(cursor, tail)


def _only_turned(tokens: list[Token], at: int, index: int) -> bool:
    """"Turn. Ch 1.": nothing has been worked yet whose count could follow."""
    return all(token.kind != "word" or token.text in ("turn", "ch", "chain", "and", "then") for token in tokens[at:index])


def _closes(tokens: list[Token], at: int, index: int) -> bool:
    """"sc the opening closed: 4 sts": a colon behind a step that is whole."""
    return tokens[index].text == ":" and index > at and tokens[index - 1].text in ("closed", "shut", "together", "layers", "sides")


def _sized_count(cursor: Cursor, tail: Tail) -> bool:
    """"sc in each ch around 20 (25-30) sts": a list for the sizes right behind an instruction that is whole."""
    tokens = cursor.tokens
    at = tail.stop - (2 if tokens[tail.stop - 1].text in STITCH_WORDS else 1)
    if at <= cursor.at or len(tokens[at].values or ()) < 2 or tokens[at - 1].text not in ("around", "across", "join", "turn", "end"):
        return False
    return _ends_in_count(cursor, tail, at)


def bare_count(cursor: Cursor, tail: Tail) -> bool:
    """"(sc, inc) x 6; 18", "6 sc in MR 6", "sc in each st around 36": a number alone, behind what is whole without it."""
    tokens, last = cursor.tokens, tail.stop - 1
    if last <= cursor.at or tokens[last].kind != "number":
        return False
    before = last
    while before > cursor.at and tokens[before - 1].text in (",", ";", ".", "/"):
        before -= 1
    if not is_whole(tokens, cursor.at, before, apart=before < last):
        return False
    found = _try_open(cursor, last, tail.stop, must_name=False, lead="=")
    if found is None or found.form != "total":
        return False
    tail.counts.insert(0, found)
    tail.stop = before
    tail.either = True
    return True


def _led_count(cursor: Cursor, tail: Tail, index: int) -> bool:
    """"... x 5 Total: 25 sts": words that lead to a count, with nothing to separate them."""
    if cursor.tokens[index - 1].text in ("st", "stitch", "sts", "final"):
        return False
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, index, tail.stop)
    if probe.phrase(COUNT_LEADS) is None or probe.peek() not in (":", "=") and not probe.is_number():
        return False
    return _ends_in_count(cursor, tail, index)


def _only_count(cursor: Cursor, tail: Tail) -> bool:
    """"You now have 24 sts", "Total: 24 sc" with nothing before it."""
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, tail.stop)
    if probe.phrase(COUNT_LEADS) is None:
        return False
    return _ends_in_count(cursor, tail, cursor.at)


def _ends_in_count(cursor: Cursor, tail: Tail, at: int) -> bool:
    """Whether all from *at* on is a count, which is then taken off the end."""
    found = _try_open(cursor, at, tail.stop, must_name=False, lead="=")
    if found is None:
        return False
    tail.counts.insert(0, found)
    tail.stop = at
    return True


def _dash(tokens: list[Token], index: int) -> bool:
    """A dash with a space before it: it separates, it does not join."""
    token = tokens[index]
    if token.text != "-" or token.glued and (index == 0 or tokens[index - 1].text != "-"):
        return False
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    return following is not None and (not following.glued or following.text == "-" or following.kind == "number")


def _try_open(cursor: Cursor, first: int, stop: int, must_name: bool, lead: str) -> Stated | None:
    tokens = cursor.tokens
    if first >= stop:
        return None
    inside = Cursor(cursor.statement, tokens, cursor.context, first, stop)
    led = inside.phrase(COUNT_LEADS) is not None
    inside.accept(":")
    inside.accept("=")
    if not inside.is_number(words=led):
        return None
    if lead in ",;:" and not led and not _names_stitches(inside):
        return None
    try:
        found = read_count(inside, tokens[first].start, tokens[stop - 1].end)
    except Unreadable:
        return None
    if not isinstance(found, Stated) or found.form not in ("total", "kinds", "each", "sum", "change"):
        return None
    named = led or any(part.kind for part in found.parts) or found.form == "change" or _remaining(tokens, first, stop)
    if must_name and not named:
        return None
    if not led and lead in ".;-," and is_work(tokens, cursor.at, first - 1, stop, found):
        return None
    return found


def _names_stitches(inside: Cursor) -> bool:
    return inside.peek(1) in ("sts", "stitches") and inside.peek(2) in ("total", "made", "rem", "remain", "remaining", "in", "")


def _remaining(tokens: list[Token], first: int, stop: int) -> bool:
    """"30 rem": what is left is the count."""
    return stop - first == 2 and tokens[stop - 1].text in ("rem", "remain", "remaining", "left")

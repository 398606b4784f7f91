"""Rows told by how often they shape, and how far to go on: "dec 1 st at each end of every 4th row 5 times", "until it
measures 20 cm"."""

from __future__ import annotations

from .. import late_re as re
from .cursor import Cursor, Unreadable
from .measuring import read_lengths
from .multipliers import read_times
from .phrases import Phrases
from .quantities import BadQuantity, Length
from .references import round_word
from .syntax import Shaping, Step, Trust, Until
from .vocabulary import stitches

SHAPING_WORDS = frozenset(("dec", "decrease", "decreasing", "inc", "increase", "increasing"))
_BOTH = Phrases((
    "at each end", "at both ends", "each end", "each side", "at each side", "at beg and end", "at beginning and end",
    "at the beginning and end", "at beg and at end", "at the beg and end", "on each side", "at both sides", "both sides",
    "each edge", "at each edge", "at both edges", "either end", "at either end",
))  # fmt: skip
_ONE = Phrases((
    "at one end", "at one side", "at one edge", "at neck edge", "at the neck edge", "at armhole edge", "at the armhole edge",
    "at side edge", "at the side edge", "at front edge", "at the front edge", "at beg", "at the beg", "at beginning",
    "at the beginning", "at end", "at the end",
))  # fmt: skip
_NEXT = Phrases(("next and", "next row and", "next rnd and", "next round and", "this and", "this row and", "the next row and"))
_NEXT_ROW = Phrases(("next row", "the next row", "next rnd", "next round", "the next rnd", "this row", "first row"))
_ST = ("st", "sts", "stitch", "stitches")
_FROM = re.compile(r"\bfrom\s+(?:the\s+)?(\w+)", re.IGNORECASE)
_WHOLE_PIECE = frozenset(("beg", "beginning", "start", "foundation", "first", "bottom", "cast", "center", "centre", "ring", "crown", "lower", "hem"))
_WRONG_SIDE = re.compile(r"\b(?:ws|wrong side|even)\b", re.IGNORECASE)
_RIGHT_SIDE = re.compile(r"\b(?:rs|right side|odd)\b", re.IGNORECASE)
HOW_OFTEN = "it is not said how often it is shaped"


def read_shaping(cursor: Cursor) -> list[Step] | None:
    """shaping = ("dec" | "inc") [N] ["st"] ends ["of"] ["next and"] every times {"then" every times}"""
    start, at = cursor.start, cursor.at
    if not cursor.accept(*SHAPING_WORDS):
        return None
    word = cursor.tokens[at].text
    number = cursor.number(article=True)
    cursor.accept(*_ST)
    ends = 2 if cursor.phrase(_BOTH) else 1 if cursor.phrase(_ONE) else 0
    if not ends:
        cursor.at = at
        return None
    cursor.accept("of", "on", "in")
    shaping = Shaping(start, cursor.end, stitches()["dec" if word.startswith("dec") else "inc"], ends, number)
    shaping.first = cursor.phrase(_NEXT) is not None or _next_row(cursor)
    while (every := _every(cursor)) is not None:
        found = read_times(cursor)
        if found is None:
            _to_stop(cursor)
            return [Trust(start, cursor.end, HOW_OFTEN)]
        shaping.phases = (*shaping.phases, (every, found[0]))
        shaping.end = cursor.end
        before = cursor.at
        cursor.accept(",", ";")
        if not cursor.accept("then", "and"):
            cursor.at = before
            break
        cursor.phrase(_BOTH)
        cursor.accept("of", "on", "in")
    if not shaping.phases:
        cursor.at = at
        return None
    return [shaping]


def _next_row(cursor: Cursor) -> bool:
    """"on the next row, then every 6th row 5 times": one row more shapes, at once."""
    at = cursor.at
    if cursor.phrase(_NEXT_ROW):
        cursor.accept(",", ";")
        cursor.accept("then", "and")
        cursor.phrase(_BOTH)
        cursor.accept("on", "of", "in")
        if cursor.peek() in ("every", "each", "foll", "following"):
            return True
    cursor.at = at
    return False


def _every(cursor: Cursor) -> int | None:
    """every = "every" ["foll"] [("other" | "alt" | "4th" | "4")] "row" ; how many rows a shaping takes."""
    at = cursor.at
    if not cursor.accept("every", "each", "foll", "following"):
        return None
    cursor.accept("foll", "following", "of")
    rows = 1
    if cursor.accept("other", "alt", "alternate", "2nd"):
        rows = 2
    elif (number := cursor.ordinal() or cursor.number()) is not None:
        rows = number.value
    if round_word(cursor) and 0 < rows < 1000:
        return rows
    cursor.at = at
    return None


def _to_stop(cursor: Cursor) -> None:
    while not cursor.done and cursor.peek() not in (".", ";", "("):
        cursor.at += 1


def until_measure(cursor: Cursor, start: int, more: bool, reason: str) -> Step:
    """The measure behind "until it measures", up to the end of the clause at the cursor; on trust where there is none."""
    text = cursor.statement.text[start : cursor.end]
    try:
        lengths = read_lengths(cursor.statement.text, start, cursor.end)
    except BadQuantity as bad:
        raise Unreadable("bad-quantity", bad.start, bad.end, bad.message, bad.suggestion) from None
    where = _FROM.search(text)
    if not lengths or where is not None and where[1].lower() not in _WHOLE_PIECE:
        return Trust(start, cursor.end, reason if where is None else f"it is measured from the {where[1].lower()}")
    side = "even" if _WRONG_SIDE.search(text) else "odd" if _RIGHT_SIDE.search(text) else ""
    return Until(start, cursor.end, lengths[0], more, side)


def read_until(cursor: Cursor) -> list[Step] | None:
    """until = "until" {word} ("measures" | "reaches") measure: whatever the writer calls the piece."""
    at, start = cursor.at, cursor.start
    if not cursor.accept("until", "till"):
        return None
    for ahead in range(1, 5):
        if cursor.peek(ahead) in ("measures", "measure", "reaches", "measuring"):
            cursor.at += ahead + 1
            break
        if cursor.peek(ahead) in ("", ",", ".", ";", "("):
            break
    else:
        cursor.at = at
        return None
    if cursor.at == at + 1:
        cursor.at = at
        return None
    while not cursor.done and cursor.peek() not in (",", ";", ".", "("):
        cursor.at += 1
    return [until_measure(cursor, start, False, "until it measures")]


def same_time(cursor: Cursor, start: int) -> list[Step]:
    """"AT THE SAME TIME, (when piece measures 10 cm,) dec 1 st at each end of every row 3 times"; else on trust."""
    after: Length | None = None
    at = cursor.at
    cursor.accept(",")
    if cursor.accept("when", "once", "after"):
        first = cursor.start
        while not cursor.done and cursor.peek() not in (",", ";", "."):
            cursor.at += 1
        step = until_measure(cursor, first, False, "")
        after = step.length if isinstance(step, Until) else None
        if after is None:
            cursor.at = at
        cursor.accept(",")
    if cursor.peek() in SHAPING_WORDS and (found := read_shaping(cursor)):
        if isinstance(found[0], Shaping):
            found[0].after = after
            return found
        return [Trust(start, cursor.end, f"two things are worked at the same time, and {HOW_OFTEN}")]
    _to_stop(cursor)
    return [Trust(start, cursor.end, "two things are worked at the same time")]

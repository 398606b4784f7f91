"""References to other rounds and pieces: "as Rnd 5", "rep last 2 rows twice, then row 2", "repeat on the other side"."""

from __future__ import annotations

from .cursor import Cursor
from .multipliers import REPEAT_WORDS, read_times
from .phrases import Phrases
from .references import read_piece_name, read_reference, round_word
from .syntax import Again, Aside, Number, Reference, Step

AGAIN = Phrases((
    *REPEAT_WORDS, "as for", "as in", "as", "same as for", "same as", "same as in", "work as for", "work as", "work same as",
    "work the same as", "like", "work like", "the same as", "work", "follow", "is the same as", "work as in", "make as",
))  # fmt: skip


def read_again(cursor: Cursor) -> list[Step] | None:
    """again = ("rep" | "as" | "same as" | "work as" | "work") ("Rnd 5" | "last 2 rows" | "other side") [times]"""
    start, at = cursor.start, cursor.at
    verb = cursor.phrase(AGAIN)
    if verb is None:
        return None
    reference = _relative(cursor) or read_reference(cursor)
    if reference is None and verb in ("repeat", "rep", "rpt", "repeating") and cursor.phrase(("on the other side", "on other side", "for other side", "for the other side", "along the other side")):
        reference = Reference(cursor.end, cursor.end, (), "other side")
    if reference is None and "as" in verb.split() and cursor.peek() in ("for", "the", *(word for name in cursor.context.pieces for word in name.split()[:1])):
        first = cursor.start
        cursor.accept("for")
        name = read_piece_name(cursor)
        if name:
            reference = Reference(first, cursor.end, (), name)
            _as_far_as(cursor, reference)
    if reference is None:
        cursor.at = at
        return None
    cursor.phrase(("for pattern", "in order", "in sequence"))
    comma = cursor.at
    cursor.accept(",")
    found = read_times(cursor)
    if found is None:
        cursor.at = comma
    times, more = (found[0], found[1] == "more") if found else (None, False)
    if cursor.phrase(("more",)):
        more = True
    step = Again(start, cursor.end, reference, times, more)
    if times is None:
        step.until = _so_many_in_all(cursor)
        step.end = cursor.end
    return [step, *_then_again(cursor)]


def _as_far_as(cursor: Cursor, reference: Reference) -> None:
    """"Same as left arm to Rnd 12": from its first round to that one."""
    at = cursor.at
    if cursor.accept("to", "through", "until", "up"):
        cursor.accept("to")
        upto = read_reference(cursor)
        if upto is not None and len(upto.rounds) == 1:
            reference.rounds, reference.numbers, reference.end = ((1, upto.rounds[0][1]),), upto.numbers, cursor.end
            return
    cursor.at = at


_UNTIL_ROWS = Phrases((
    "until you have", "until there are", "until you have worked", "until you have completed", "until you've worked", "until you have made",
    "until you've done", "until you have a total of", "until there are a total of", "until a total of", "until you have done",
))  # fmt: skip


def _so_many_in_all(cursor: Cursor) -> Number | None:
    """"..., until you have 34 rows in total", "until 34 rows are worked", "until you reach Row 34"."""
    at = cursor.at
    cursor.accept(",")
    if cursor.phrase(("until you reach", "until you get to", "until you come to", "to the end of", "until the end of")) and round_word(cursor):
        number = cursor.number()
        if number is not None:
            return number
    cursor.at = at
    cursor.accept(",")
    if cursor.phrase(_UNTIL_ROWS) or cursor.accept("until", "till"):
        number = cursor.number()
        if number is not None and round_word(cursor):
            cursor.phrase(("in all", "in total", "total", "altogether", "are worked", "are done", "are complete", "are completed", "have been worked", "have been completed", "are made"))
            if cursor.done or cursor.peek() in (".", ";", ",", "("):
                return number
    cursor.at = at
    return None


def _then_again(cursor: Cursor) -> list[Step]:
    """"..., then row 2", "; then Rows 4 and 5 once more", ", ending with rnd 8" (where the numbers say where it ends)."""
    at = cursor.at
    cursor.accept(",", ";", ".")
    if cursor.phrase(("ending with", "end with", "ending after", "ending on", "finishing with")):
        start = cursor.start
        cursor.accept("a", "an")
        if read_reference(cursor) is not None or cursor.accept("ws", "rs", "wrong", "right") and (cursor.accept("side") or True) and cursor.accept("row", "rnd", "round"):
            return [Aside(start, cursor.end, "remark")]
    elif cursor.accept("then", "and") and (cursor.accept("work", "repeat", "rep", "then") or True):
        start = cursor.start
        reference = read_reference(cursor)
        if reference is not None:
            found = read_times(cursor)
            cursor.accept("more")
            return [Again(start, cursor.end, reference, found[0] if found else None), *_then_again(cursor)]
    cursor.at = at
    return []


def _relative(cursor: Cursor) -> Reference | None:
    """"last row", "last 2 rnds", "previous round": counted back from here."""
    at, start = cursor.at, cursor.start
    cursor.accept("the", "these", "those")
    if cursor.accept("last", "previous", "prev", "preceding", "these"):
        number = cursor.number()
        if round_word(cursor):
            count = number.value if number else 1
            return Reference(start, cursor.end, ((-count, -1),), "", "", (number,) if number else ())
    cursor.at = at
    return None

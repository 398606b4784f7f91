"""Stitches passed over, "sk next 2 sts", and slip stitches that join: "sl st in first sc", "ss to first leg"."""

from __future__ import annotations

from .chains import read_counts_as
from .cursor import Cursor
from .multipliers import MARKS
from .named_pieces import piece_here
from .places import read_place
from .references import read_reference
from .single_places import read_first
from .space_places import read_space_name
from .syntax import Aside, Chain, Join, More, Number, Place, Reference, StartAt, Step, Work
from .vocabulary import Stitch, stitches
from .words import NOUNS

_JOIN_TARGETS = ("top", "beg", "beginning", "first", "1st", "join", "joining", "ch", "starting", "next")


def read_skip(cursor: Cursor, start: int, stitch: Stitch, number: Number | None) -> list[Step]:
    """skip = "sk" N [noun] | "sk" ["the"] ("next" | "first" | "last") [N] noun | N "sk" """
    if cursor.phrase(("the joining sl st", "joining sl st", "the joining slip stitch", "the sl st", "the joining st", "the join")):
        return [Aside(start, cursor.end, "remark")]
    if number is None and (cursor.is_number() or cursor.peek() in ("a", "an")):
        ordinal = cursor.ordinal()
        if ordinal is None:
            number = cursor.number(article=True)
            cursor.accept("-") if cursor.peek(1) in NOUNS else None
            matched = cursor.match_stitch()
            if matched is not None and matched[0].kind != "skip":
                cursor.at += matched[1]
            cursor.accept(*NOUNS)
            cursor.accept("sts", "st")
            _from_end(cursor)
            return _skip_counts(cursor, Work(start, cursor.end, stitch, number))
        cursor.at -= 2 if not ordinal.word else 1
    named, first = cursor.at, cursor.start
    cursor.accept("the")
    if (noun := read_space_name(cursor)) is not None:
        return [Work(start, cursor.end, stitch, number, Place(first, cursor.end, "space", noun=noun))]
    cursor.at = named
    place = read_first(cursor) or read_place(cursor)
    if place is None:
        cursor.accept("the", "a", "this")
        cursor.accept(*NOUNS)
    _from_end(cursor)
    return [Work(start, cursor.end, stitch, number, place)]


def _from_end(cursor: Cursor) -> None:
    """"Sk next 6 sts from end of row 2": counted from where that row stopped."""
    at = cursor.at
    if not (cursor.accept("from", "after") and (cursor.accept("the") or True) and cursor.accept("end", "last") and (cursor.phrase(("st of", "of")) and read_reference(cursor) is not None)):
        cursor.at = at


def _skip_counts(cursor: Cursor, work: Work) -> list[Step]:
    """"Skip 3 ch (count as 1 dc), 1 dc into next ch": as "dc in 4th ch from hook (skipped chains count as dc)"."""
    chain = Chain(work.start, cursor.end, work.count or Number(work.start, work.start, (1,)))
    read_counts_as(cursor, chain)
    if chain.counts_as is None:
        return [work]
    number = work.count.value if work.count else 1
    at = Number(work.start, work.start, (number + 1,))
    place = Place(work.start, cursor.end, "chain", at, noun="chain", counts_as=chain.counts_as)
    return [StartAt(work.start, cursor.end, place)]


def _goes_on_in_space(cursor: Cursor) -> bool:
    """"sl st in ch-3 sp of next block", "sl st in ch-3 sp, ch 3, 3 dc in same sp": no join, for more goes into that space."""
    at = cursor.at
    if not cursor.accept("next", "first", "last") and cursor.peek() == "1" and cursor.peek(1) == "st":
        cursor.at += 2
    if read_space_name(cursor) is None:
        cursor.at = at
        return False
    of_block = cursor.peek() == "of" and any(cursor.peek(ahead) in ("block", "blocks") for ahead in (1, 2, 3))
    goes_on = cursor.peek() in (",", ";") and cursor.peek(1) == "ch" or cursor.peek() == "and" and cursor.peek(1) == "ch"
    cursor.at = at
    return of_block or goes_on


def read_slip_join(cursor: Cursor, start: int, number: Number | None) -> list[Step] | None:
    """A slip stitch said to join: "sl st to join", "sl st in first sc", "ss to 1st dc", "sl st into top of ch-3"."""
    at = cursor.at
    if number is not None and number.value != 1:
        return None
    if cursor.phrase(("to join", "join", "to close", "tog", "together", "to close the round", "to join rnd", "to join round", "to finish")):
        return [Join(start, cursor.end)]
    if not cursor.accept("in", "into", "to", "on", "top"):
        return None
    if (leg := _of_leg(cursor)) is not None:
        return [Join(start, cursor.end, None, leg)]
    cursor.accept("the", "of")
    if _goes_on_in_space(cursor):
        cursor.at = at
        return None
    if cursor.phrase(("center of", "centre of", "middle of")):  # "sl st to center of first lp": as many as it takes
        cursor.accept("the")
        which = cursor.accept("next", "first", "1st", "same", "corner")
        if (cursor.accept("st") and which or True) and (noun := read_space_name(cursor)) is not None:
            return [Work(start, cursor.end, stitches()["sl st"], None, Place(start, cursor.end, "next", noun=noun))]
        cursor.at = at
        return None
    if cursor.phrase(("centre back", "center back", "centre front", "center front", "opposite side", "the opposite side", "other side", "back", "side")):
        return [More(start, cursor.end, ())]  # they move the start of the round
    word = cursor.peek()
    target = word in _JOIN_TARGETS[:-1] or (word == "1" and cursor.peek(1) == "st") or (word == "3" and cursor.peek(1) == "rd" and cursor.peek(2) in ("ch", "chain"))
    joins = cursor.tokens[cursor.at - 1].text == "top" or target
    if not joins:
        for ahead in range(cursor.at, min(cursor.stop, cursor.at + 8)):
            if cursor.tokens[ahead].text in (",", ";", ".", "("):
                break
            joins = joins or cursor.tokens[ahead].text == "join"
    if not joins:
        cursor.at = at
        return None
    while not cursor.done and cursor.peek() not in (",", ";", ".", "(", ")", "]", "and", "then", *MARKS):
        cursor.at += 1
    return [Join(start, cursor.end)]


def _of_leg(cursor: Cursor) -> Reference | None:
    """"to first leg", "in any st of the first leg": the piece that is joined."""
    at, start = cursor.at, cursor.start
    if cursor.phrase(("any st of", "any stitch of", "a st of", "a stitch of", "first st of", "the first st of", "next st of")) is None and cursor.peek() in ("ch", "chain"):
        return None
    name = piece_here(cursor)
    if name and name.split()[-1].lower() not in ("ch", "chain", "chains", "bridge"):
        return Reference(start, cursor.end, (), name)
    cursor.at = at
    return None

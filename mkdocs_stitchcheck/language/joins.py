"""Joins and pieces held together: "join with sc to first leg", "holding both ears together", "with the second leg still on your hook"."""

from __future__ import annotations

from .clauses import clause_end
from .cursor import Cursor
from .multipliers import MARKS
from .named_pieces import piece_here
from .phrases import Phrases
from .places import read_place
from .references import read_piece_name, read_reference
from .syntax import Aside, Join, Reference, Step
from .tokens import OPENING

JOINS = Phrases((
    "join with a sl st", "join with sl st", "join with ss", "join with slst", "join with a ss", "join with slip st", "join with a slip stitch",
    "join with slip stitch", "invisible join", "inv join", "seamless join", "join rnd", "join round", "join",
    "joined", "rejoin", "attach yarn", "join yarn", "attach the yarn", "join new yarn", "rejoin yarn", "join the yarn",
    "re join", "reattach yarn", "re attach yarn", "joining", "invisibly join", "close with a sl st", "close with sl st",
    "close the round with a sl st", "close with a slip stitch", "close round with sl st", "connect", "connect it",
))  # fmt: skip
HOLDS = ("hold", "holding", "place", "placing", "lay", "with", "put")
_HELD = Phrases((
    "together", "side by side", "next to each other", "flat together", "against each other", "right sides together",
    "wrong sides together", "with right sides together", "with wrong sides together", "on top of each other", "beside each other",
))  # fmt: skip


def read_held(cursor: Cursor) -> list[Step] | None:
    """held = ("hold" | "with" ...) ["both" | "the two"] pieces ("together" | "side by side") | "hold" piece "against" piece"""
    start = cursor.start
    if not cursor.accept(*HOLDS):
        return None
    cursor.accept("the", "your")
    cursor.accept("both", "two", "2")
    first = cursor.start
    name = piece_here(cursor, numbered=False)
    if not name:
        return None
    if cursor.accept("and", "&", "against", "to", "onto") and (other := piece_here(cursor, numbered=False)):
        name = name if other.lower() in ("body", "head") else other
    elif not cursor.phrase(_HELD):
        return None
    reference = Reference(first, cursor.end, (), name)
    cursor.phrase(_HELD)
    return [Aside(start, cursor.end, "held", reference)]


def read_on_the_hook(cursor: Cursor) -> list[Step] | None:
    """"With the second leg still on your hook", "from the second leg": where the yarn is, before legs are joined."""
    start = cursor.start
    lead = cursor.accept("starting", "start", "beginning", "continuing", "continue", "working", "still", "now")
    if not cursor.accept("with", "from", "on", "keep", "keeping"):
        return None
    name = piece_here(cursor)
    if not name or name.lower() in ("ch", "chain", "bridge"):
        return None
    cursor.accept("still")
    hook = cursor.phrase(("on your hook", "on the hook", "on hook", "on your needle", "attached", "at hand"))
    if not (hook or lead or cursor.tokens[cursor.at - 1].end and cursor.statement.text[start:].lower().startswith("from")):
        return None
    if cursor.peek() not in ("", ",", ";", ".", ":", "and", "ch", "chain"):
        return None
    return [Aside(start, cursor.end, "held", Reference(start, cursor.end, (), name))]


def read_join(cursor: Cursor) -> list[Step] | None:
    """join = "join" ["with" (slip stitch | stitch)] ["in" place | "to" piece] """
    start = cursor.start
    if cursor.phrase(JOINS) is None:
        return None
    at = cursor.at
    place = read_place(cursor)
    if place is not None and place.kind == "loops":
        return [Join(start, cursor.end, None, place.reference)]
    cursor.at = at
    end = clause_end(cursor)
    join = Join(start, cursor.end)
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, end)
    while not inside.done:
        if inside.peek() == ":":
            break
        if inside.accept("with", "by"):
            inside.accept("a", "an")
            matched = inside.match_stitch()
            if matched is not None and matched[0].kind in ("plain", "post"):
                join.stitch = matched[0]
        elif inside.peek() == "and" and (inside.match_stitch(1) is not None or inside.is_number(1)) or inside.peek() in OPENING or inside.peek() in MARKS or inside.peek() in (")", "]", "}"):
            break
        elif inside.accept("to", "into"):
            first = inside.start
            if inside.peek() in ("first", "second", "other", "leg", "body", "the") or inside.peek() in cursor.context.pieces:
                name = read_piece_name(inside)
                if "leg" in name.split() or name.lower() in cursor.context.pieces:
                    join.reference = Reference(first, inside.end, (), name)
        else:
            reference = read_reference(inside)
            if reference is not None:
                join.reference = reference
            else:
                inside.at += 1
    cursor.at = inside.at
    join.end = cursor.end
    return [join]

"""Another colour from here on: "change to B in last st", "with A", "color B", "B yarn"."""

from __future__ import annotations

from .clauses import BREAKS, clause_end, to_break
from .cursor import Cursor
from .joins import read_join
from .multipliers import MARKS
from .phrases import Phrases
from .repeats import color_key
from .syntax import ColorChange, Step

_CHANGES = Phrases((
    "change to", "switch to", "change color to", "change colour to", "change yarn to", "changing to", "changing color to",
    "change colors to", "change into", "switching to", "swap to", "change col to", "change back to", "switch back to",
    "join in", "changing colour to", "change over to", "turn to color", "change to the",
))  # fmt: skip
_LAST_STITCH = Phrases((
    "in last st", "in the last st", "in last stitch", "in the last stitch", "in last yo", "in the last yo", "in last yo of rnd",
    "in last yo of round", "in last yo of last st", "on last st", "on the last st", "at last st", "in last sc", "in the last sc",
    "in last loop", "with last st", "in last pull through", "on last yo", "in last step", "in last st of rnd", "in last st of round",
    "in last yo of last sc", "during last st", "while working last st", "at end of rnd", "at end of round", "at the end of the round",
    "at the end of the rnd", "in last yoh", "in the last yo of the round", "in the last stitch of the round", "at the end",
))  # fmt: skip
_PLAIN_CHANGES = Phrases(("change color", "change colour", "change colors", "change colours", "change yarn", "switch colors", "switch colours", "change col", "switch color", "switch colour", "changing color", "changing colour"))


def read_color(cursor: Cursor) -> list[Step] | None:
    """color change = "change to" X ["in last st"] | "with" X | "in" X ":" | "color" X | X "yarn" """
    start = cursor.start
    if (called := color_key(cursor)) is not None and cursor.peek(called[1]) == "(" and cursor.tokens[cursor.at + called[1]].glued:
        cursor.at += called[1]  # "A(6 sc)": the bracket is worked in that colour
        return [ColorChange(start, cursor.end, called[0], called[0])]
    if cursor.phrase(_CHANGES):
        cursor.accept("the")
        return [_named_color(cursor, start)]
    if cursor.phrase(_PLAIN_CHANGES):
        last = cursor.phrase(_LAST_STITCH) is not None
        return [ColorChange(start, cursor.end, "", None, last)]
    lead = cursor.accept("with", "using", "in", "use", "join", "attach", "now", "continue")
    cursor.accept("with", "in") if lead else None
    cursor.accept("the") if lead else None
    if lead and cursor.peek() == "#" and cursor.is_number(1, words=False):
        cursor.at += 2  # "with #1234 (White)": the shade's number, then its name
        if cursor.peek() == "(" and cursor.tokens[cursor.at].mate > 0:
            inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, cursor.tokens[cursor.at].mate)
            named = color_key(inside)
            name = cursor.statement.text[inside.start : cursor.tokens[inside.stop - 1].end]
            cursor.at = inside.stop + 1
            return [ColorChange(start, cursor.end, named[0] if named else name, named[0] if named else None)]
        return [ColorChange(start, cursor.end, cursor.tokens[cursor.at - 1].text)]
    found = color_key(cursor)
    explicit = cursor.peek() in ("color", "colour", "col")
    if found is not None and (lead or explicit or cursor.peek(found[1]) in (":", "yarn", "", ",")):
        lead_word = cursor.tokens[cursor.at - 1].text if lead else ""
        cursor.at += found[1]
        cursor.accept("yarn")
        last = cursor.phrase(_LAST_STITCH) is not None
        if (joined := _into_loops(cursor, start)) is not None:
            return [ColorChange(start, joined[0].start, found[0], found[0]), *joined]
        if lead_word in ("join", "attach"):
            to_break(cursor)
        return [ColorChange(start, cursor.end, found[0], found[0], last)]
    if explicit and cursor.token(1) is not None and cursor.peek(1) not in BREAKS:
        return [_named_color(cursor, start)]
    clear = lead and (cursor.tokens[cursor.at - 1].text in ("with", "using") or cursor.tokens[cursor.at - 1].text == "in" and cursor.peek(1) in (",", ":"))
    if clear and len(cursor.peek()) <= 2 and cursor.peek() in ("mc", "cc", "ca", "cb", "a", "b", "c", "d"):
        token = cursor.token()
        assert token is not None
        if cursor.statement.text[token.start].isupper() and not cursor.known_word():
            return [_named_color(cursor, start)]
    return None


def _into_loops(cursor: Cursor, start: int) -> list[Step] | None:
    """"Join B to any free front loop of Rnd 9": the colour, and where the next round is worked."""
    here = next(index for index, token in enumerate(cursor.tokens) if token.start >= start)
    if cursor.tokens[here].text not in ("join", "attach", "rejoin") or not any(
        token.text in ("loop", "loops", "lp", "lps", "flo", "blo", "fl", "bl") for token in cursor.tokens[here : clause_end(cursor)]
    ):
        return None
    at, cursor.at = cursor.at, here
    joined = read_join(cursor)
    if joined is None or cursor.at < at:
        cursor.at = at
        return None
    return joined


def _named_color(cursor: Cursor, start: int) -> ColorChange:
    found = color_key(cursor)
    if found is not None:
        cursor.at += found[1]
        key: str | None = found[0]
        name = found[0]
    else:
        if cursor.accept("color", "colour", "col"):
            cursor.accept(".")
        first = cursor.start
        while not cursor.done and cursor.peek() not in (*BREAKS, "(", ")", "[", "]", "in", "on", "at", "for", "and", "with", "yarn", "during", "then", *MARKS):
            cursor.at += 1
        name, key = cursor.statement.text[first : max(cursor.end, first)].strip(), None
    cursor.accept("yarn")
    last = cursor.phrase(_LAST_STITCH) is not None
    return ColorChange(start, cursor.end, name, key, last)

"""Stitches as steps, number first or stitch first: "5 sc", "3-dc cl", "6 x (2 sc, inc)", "sc 5", "inc x 6", "sc2tog"."""

from __future__ import annotations

from . import vocabulary
from .behind_stitches import SKIPPED, read_placed
from .chains import read_chain
from .composed import spelled_out
from .cursor import Cursor, Unreadable
from .multipliers import MARKS
from .named_pieces import piece_here
from .no_stitches import APART
from .places import read_place
from .repeats import Reader, color_key
from .skips_and_slips import read_skip, read_slip_join
from .stitch_numbers import count_behind, read_family
from .syntax import Group, Join, Number, Place, Reference, Repeat, Step, Work
from .tokens import OPENING
from .vocabulary import Stitch

_NOTHING_FOLLOWS = frozenset((",", ";", ")", "]", ""))  # signs at which all that may stand behind a stitch is at an end


def read_number_first(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    """number-first = N ["x"] stitch ... | N ["x"] "(" steps ")" [place] | N color | N "in" ring | N (plain stitches)"""
    if not (cursor.is_number() or cursor.peek() in ("a", "an")):
        return None
    start, at = cursor.start, cursor.at
    article = cursor.match_stitch() is None and cursor.match_stitch(1) is not None
    number = cursor.number(article=article)
    if number is None:
        return None
    if cursor.peek() == "'" and cursor.tokens[cursor.at].glued and cursor.match_stitch(1) is not None:
        cursor.at += 1
    if cursor.peek() == "more" and (named := cursor.match_stitch(1)) is not None and cursor.peek(1 + named[1]) in ("around", "on", "along", "across", "in", "into"):
        cursor.at += 1  # "12 more sc around leg 1"; without a place they are those behind the end of the round
    multiplied = cursor.accept("x", "times")
    if multiplied and cursor.peek() == ":":
        cursor.at = at
        return None
    if cursor.peek() in OPENING and cursor.tokens[cursor.at].mate >= 0:
        return _prefixed(cursor, start, number, read_steps)
    found = color_key(cursor)
    if found is not None and (multiplied or not cursor.known_word()):
        cursor.at += found[1]
        return [Work(start, cursor.end, vocabulary.stitches()["sc"], number, number_first=True, color=found[0])]
    if cursor.peek() == "-" and (group := _wide(cursor, start, number)):
        return group
    if cursor.peek() in ("st", "sts", "stitches") and (worked_in := _of_both(cursor, start, number)):
        return worked_in
    matched = cursor.match_stitch()
    if matched is not None:
        glued = cursor.tokens[cursor.at].glued
        cursor.at += matched[1]
        return _after_stitch(cursor, start, matched[0], number, True, glued, multiplied)
    return _plain(cursor, start, at, number)


def _of_both(cursor: Cursor, start: int, number: Number) -> list[Step] | None:
    """"4 sts of arm and 4 sts of body worked together": as "sc 4 through arm and body" """
    at = cursor.at
    cursor.at += 1
    if cursor.accept("of", "from", "on"):
        name = piece_here(cursor, numbered=False)
        if name and cursor.accept("and", "&", "with") and (second := cursor.number()) is not None and cursor.accept("st", "sts", "stitches"):
            other = piece_here(cursor, numbered=False) if cursor.accept("of", "from", "on") else ""
            cursor.accept("are")
            if other and cursor.phrase(("worked together", "together", "worked tog", "tog", "joined", "joined together", "crocheted together")):
                if second.values != number.values:
                    raise Unreadable(
                        "join-mismatch", second.start, second.end, f"{number.value} stitches can't be worked together with {second.value}.",
                        f"Write {number.value} for both, or say how they are worked.",
                    )  # fmt: skip
                limb = name if other.lower() in ("body", "head") else other
                place = Place(start, cursor.end, "piece", number, layers=2, reference=Reference(start, cursor.end, (), limb))
                return [Work(start, cursor.end, vocabulary.stitches()["sc"], None, place)]
    cursor.at = at
    return None


def _prefixed(cursor: Cursor, start: int, number: Number, read_steps: Reader) -> list[Step]:
    """"6 x (2 sc, inc)", "6(2 sc, inc)", "6 (sc, ch 2) in ring" """
    opening = cursor.tokens[cursor.at]
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
    inside.depth = cursor.depth + 1
    body = tuple(read_steps(inside))
    cursor.at = opening.mate + 1
    place = read_place(cursor)
    if place is not None and place.kind not in ("rest", "to_last"):
        return [Group(start, cursor.end, body, place, number)]
    return [Repeat(start, cursor.end, body, number, mark=opening.text)]


def _wide(cursor: Cursor, start: int, number: Number) -> list[Step] | None:
    """"3-in-1", "3-to-1 dec", "5-dc bobble", "3-dc cl" """
    at = cursor.at
    cursor.at += 1
    if cursor.accept("in", "to") and cursor.accept("-") and cursor.peek() == "1":
        down = cursor.tokens[cursor.at - 2].text == "to"
        cursor.at += 1
        base = vocabulary.stitches()["sc"]
        cursor.accept("dec", "decrease", "inc", "increase")
        stitch = vocabulary.together(base, number.value) if down else vocabulary.increase(base, number.value)
        return _after_stitch(cursor, start, stitch, None, False, True, False)
    matched = cursor.match_stitch()
    if matched is not None:
        cursor.at += matched[1]
        cursor.accept("-")
        group = cursor.match_stitch()
        if group is not None and group[0].kind == "group":
            cursor.at += group[1]
            return _after_stitch(cursor, start, group[0], None, False, False, False)
        if matched[0].kind == "group":
            return _after_stitch(cursor, start, matched[0], None, False, False, False)
        if cursor.tokens[at].glued:
            return _after_stitch(cursor, start, matched[0], number, True, False, False)
    cursor.at = at
    return None


def _plain(cursor: Cursor, start: int, at: int, number: Number) -> list[Step] | None:
    """"24" or "24 sts" as a whole step, "6 in magic circle": plain stitches whose name is left out."""
    stitch = vocabulary.stitches()["sc"]
    noun = cursor.peek() in ("st", "sts", "stitches")
    if noun and cursor.peek(1) in ("less", "fewer"):
        cursor.at = at
        return None
    if noun and cursor.peek(1) not in APART:
        cursor.at += 1
    elif cursor.peek() in ("in", "into") or (noun and cursor.peek(1) not in APART):
        pass
    elif not (cursor.done or cursor.peek() in (",", ";", ".", ")", "]", "}", ">", "(", "+", *MARKS) or cursor.is_number()):
        cursor.at = at
        return None
    place = read_place(cursor)
    tip = place is not None and place.kind == "last" and place.noun == "chain"
    if place is not None and place.kind != "ring" and not noun and not tip:
        cursor.at = at
        return None
    return [Work(start, cursor.end, stitch, number, place, number_first=True)]


def read_stitch_first(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    """stitch-first = stitch ["x"] [N] [loop] [place] [times]"""
    matched = cursor.match_stitch()
    if matched is None:
        return _glued_x(cursor)
    start = cursor.start
    standing = cursor.peek() in ("standing", "chainless")
    cursor.at += matched[1]
    if standing:  # the yarn is joined with it
        return [Join(start, start), *_after_stitch(cursor, start, matched[0], None, False, False, False)]
    return _after_stitch(cursor, start, matched[0], None, False, False, False)


def _glued_x(cursor: Cursor) -> list[Step] | None:
    """"incx6": the multiplication sign is glued to the stitch."""
    token, after = cursor.token(), cursor.token(1)
    if token is None or after is None or not token.text.endswith("x") or after.kind != "number":
        return None
    stitch = vocabulary.words(cursor.context.system).get((token.text[:-1],))
    if stitch is None:
        return None
    cursor.at += 1
    number = cursor.number()
    return [Work(token.start, cursor.end, stitch, number)]


def _after_stitch(
    cursor: Cursor, start: int, stitch: Stitch, number: Number | None, first: bool, glued: bool, multiplied: bool
) -> list[Step]:
    following = cursor.peek()
    if following == "." and (cursor.is_number(1, words=False) and number is None or cursor.peek(1) in ("in", "into")):
        cursor.at += 1
    if stitch.kind == "chain":
        return read_chain(cursor, start, number)
    if stitch.kind == "skip":
        return read_skip(cursor, start, stitch, number)
    if following in _NOTHING_FOLLOWS and stitch.kind != "slip" and SKIPPED.match(cursor.statement.text, cursor.end) is None:
        return [spelled_out(Work(start, cursor.end, stitch, number, loop=stitch.loop, number_first=first, glued=glued))]
    stitch, number, glued = read_family(cursor, stitch, number, glued)
    if number is None or multiplied:
        inner = count_behind(cursor, stitch)
        if inner is not None and number is None:
            number, glued = inner
    if stitch.kind == "slip" and (join := read_slip_join(cursor, start, number)):
        return join
    if stitch.loop:
        return read_placed(cursor, start, stitch, number, first, glued, stitch.loop)
    if cursor.peek() in ("st", "sts", "stitches", "stitch") and not cursor.peek(1).startswith("even"):
        cursor.at += 1
    return read_placed(cursor, start, stitch, number, first, glued)

"""The place before the stitches: "in next ch-2 sp, work (2 dc, ch 2, 2 dc)", "into each loop: sc, hdc, 3 dc, hdc, sc"."""

from __future__ import annotations

from collections.abc import Callable

from .cursor import Cursor
from .places import read_place
from .syntax import Aside, Group, Place, Step, Work
from .tokens import OPENING

PLACED_FIRST = ("in", "into", "inside")
_VERBS = ("work", "make", "crochet", "do", "place")
_PLACES = ("next", "space", "same", "last", "first", "chain", "group")
Reader = Callable[[Cursor], list[Step]]


def read_place_first(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    """place_first = ("in" | "into") place [","] ["work"] [":" | ","] ("(" steps ")" | step | steps up to the full stop)

    Without a bracket the steps run to the end of the sentence where every place is meant or a colon stands; else it is one.
    """
    start, at = cursor.start, cursor.at
    place = read_place(cursor)
    if place is None or not (place.each or place.kind in _PLACES):
        cursor.at = at
        return None
    cursor.accept(",")
    verb = cursor.accept(*_VERBS)
    colon = cursor.accept(":")
    if not (verb or colon) or cursor.done:
        cursor.at = at
        return None
    body = _in_bracket(cursor, read_steps) if cursor.peek() in OPENING else _in_words(cursor, read_steps, colon or place.each and place.number is None)
    if body is None:
        cursor.at = at
        return None
    return [_placed(start, cursor, body, place)]


def _in_bracket(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    mate = cursor.tokens[cursor.at].mate
    if not cursor.at < mate < cursor.stop:
        return None
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, mate)
    body = read_steps(inside)
    cursor.at = mate + 1
    return body or None


def _in_words(cursor: Cursor, read_steps: Reader, whole: bool) -> list[Step] | None:
    """The steps to the end of the sentence, or to the comma; None where one of them names a place of its own."""
    ends = (".", ";") if whole else (".", ";", ",")
    stop = cursor.at
    while stop < cursor.stop and cursor.tokens[stop].text not in ends:
        stop += 1
    body = read_steps(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, stop))
    if not body or any(isinstance(step, Aside) or isinstance(step, Work) and step.place is not None for step in body):
        return None
    cursor.at = stop
    return body


def _placed(start: int, cursor: Cursor, body: list[Step], place: Place) -> Step:
    only = body[0]
    if len(body) == 1 and isinstance(only, Work) and only.place is None:
        only.start, only.end, only.place = start, cursor.end, place
        return only
    return Group(start, cursor.end, tuple(body), place)

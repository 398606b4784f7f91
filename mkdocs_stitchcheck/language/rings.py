"""Rings: "magic ring", "MR 6", "begin with a magic circle, 6 sc in it"."""

from __future__ import annotations

from . import vocabulary
from .cursor import Cursor
from .places import read_place
from .syntax import Place, Ring, Step, Work
from .words import RING_ADJECTIVES, RING_CODES, RING_NOUNS

_RING_LEADS = ("begin with", "start with", "starting with", "make", "start", "begin", "with", "using", "into", "in", "form", "create")
_RING_STARTS = frozenset((*(lead.split()[0] for lead in _RING_LEADS), "a", "an", "the", *RING_CODES, *RING_ADJECTIVES, *RING_NOUNS))


def read_ring(cursor: Cursor) -> list[Step] | None:
    """ring = ["make" | "start with"] ["a"] "magic ring" ["," ["work"]] [N stitch] | "MR" N | "MR" stitch N"""
    if cursor.peek() not in _RING_STARTS:
        return None
    at, start = cursor.at, cursor.start
    cursor.phrase(_RING_LEADS)
    cursor.accept("a", "an", "the")
    if cursor.peek() == "mc" and _main_color(cursor, at):
        cursor.at = at
        return None
    if cursor.peek() in RING_CODES and (cursor.peek() not in cursor.context.colors):
        cursor.at += 1
    else:
        adjective = False
        while cursor.peek() in RING_ADJECTIVES and cursor.peek() != "the":
            adjective = cursor.accept(cursor.peek()) or adjective
        if not (adjective or cursor.tokens[at].text in ("begin", "start", "make", "form", "into", "in")) or not cursor.accept(*RING_NOUNS) or cursor.peek() == "only":
            cursor.at = at
            return None
    ring = Ring(start, cursor.end)
    into = Place(start, cursor.end, "ring")
    rest = cursor.at
    cursor.accept(",", ":", ";", "-", ".", "with", "and")
    cursor.accept("work", "with", "make", "and", "-", "crochet")
    if cursor.peek() in ("ch", "chain", "1"):
        cursor.at = rest
        return [ring]
    return [ring, *(_into_ring(cursor, into, rest))]


def _main_color(cursor: Cursor, at: int) -> bool:
    """"With MC, ch 35.", "Ch 35 with MC": chains of a foundation are worked in the main colour, not in a magic circle."""
    if cursor.tokens[at].text not in ("with", "using", "in"):
        return False
    if any(token.text in ("ch", "chain") for token in cursor.tokens[:at]):
        return True
    ahead = 2 if cursor.peek(1) in (",", ":", ";", ".") else 1
    if cursor.is_number(ahead) and cursor.peek(ahead + 1) in ("ch", "chain"):
        return True
    return cursor.peek(ahead) in ("ch", "chain") and cursor.peek(ahead + 1) != "1"


def _into_ring(cursor: Cursor, into: Place, rest: int) -> list[Step]:
    start = cursor.start
    number = cursor.number()
    matched = cursor.match_stitch()
    if matched is not None and matched[0].kind in ("plain", "group", "foundation", "increase"):
        cursor.at += matched[1]
        if number is None:
            cursor.accept("x")
            number = cursor.number()
        if number is not None or matched[0].kind == "plain":
            _pass_ring(cursor)
            cursor.phrase(("in it", "into it", "inside it", "in the ring"))
            return [Work(start, cursor.end, matched[0], number, into, number_first=number is not None)]
    elif number is not None and matched is None and (cursor.done or cursor.peek() in (",", ";", ".", "sts", "st", "(")):
        cursor.accept("sts", "st")
        return [Work(start, cursor.end, vocabulary.stitches()["sc"], number, into, number_first=True)]
    cursor.at = rest
    return []


def _pass_ring(cursor: Cursor) -> None:
    """"magic ring, 6 sc in ring": the place is said again."""
    at = cursor.at
    place = read_place(cursor)
    if place is None or place.kind != "ring":
        cursor.at = at

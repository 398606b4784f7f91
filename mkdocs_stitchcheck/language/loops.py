"""Loops as places: "BLO", "in the back loop only", "in the free front loops of Rnd 9"."""

from __future__ import annotations

from .cursor import Cursor
from .phrases import Phrases
from .references import read_reference
from .round_ends import round_end
from .syntax import Place
from .vocabulary import LOOPS, words_of

# "3lo" is two tokens, as the tokenizer cuts it.
_LOOPS = {side: Phrases(" ".join(words_of(phrase)) for phrase in phrases) for side, phrases in LOOPS.items()}
_LOOPS_BY_WORD = {
    first: tuple((side, phrases) for side, phrases in _LOOPS.items() if first in phrases.index)
    for first in {word for phrases in _LOOPS.values() for word in phrases.index}
}
_LOOP_LEADS = frozenset(("in", "into", "through", "thru", "working", "on", "work", "behind", "the"))
LOOP_STARTS = _LOOP_LEADS | _LOOPS_BY_WORD.keys()


def loop_here(cursor: Cursor) -> str:
    """loop = ["in" | "through"] ["the"] "back loop only" | "BLO" ... ; "" where none stands here."""
    at = cursor.at
    word = cursor.peek()
    if word in _LOOP_LEADS:
        cursor.accept("in", "into", "through", "thru", "working", "on", "work", "behind")
        cursor.accept("in", "into", "through", "behind")
        cursor.accept("the")
        word = cursor.peek()
    for side, phrases in _LOOPS_BY_WORD.get(word, ()):
        if cursor.phrase(phrases):
            cursor.accept("only")
            if cursor.peek() == "of" and cursor.peek(1) in ("rnd", "round", "row"):
                break
            cursor.phrase(("of sts", "of the sts", "of st", "of stitches", "of the stitches", "of the loop", "on this row only", "on this round only"))
            return side
    cursor.at = at
    return ""


def each_loop(cursor: Cursor) -> tuple[str, Place] | None:
    """"2 hdc in each FL around", "in each front loop": that loop of every stitch; the loop and the place."""
    at, start = cursor.at, cursor.start
    if cursor.accept("in", "into", "through", "thru") and cursor.accept("each", "every", "all"):
        cursor.accept("of")
        cursor.accept("the")
        for side, phrases in _LOOPS_BY_WORD.get(cursor.peek(), ()):
            if side in ("front", "back") and cursor.phrase(phrases):
                cursor.accept("only")
                if cursor.peek() == "of" and cursor.peek(1) in ("rnd", "round", "row"):
                    break
                round_end(cursor)
                return side, Place(start, cursor.end, "rest", None, True, "stitch")
    cursor.at = at
    return None


def loops_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in the free front loops of Rnd 9", "in unworked loops of rnd 9" """
    cursor.phrase(("each of the", "each of", "the", "each", "every"))
    free = cursor.accept("free", "unworked", "unused", "remaining", "leftover", "exposed")
    side = ""
    for name in ("front", "back"):
        if cursor.accept(name):
            side = name
    if cursor.accept("flo", "fl"):
        side = "front"
    if cursor.accept("blo", "bl"):
        side = "back"
    if not (cursor.accept("loops", "loop", "lps") or side):
        return None
    if not (free or side) or not cursor.accept("of", "from", "on"):
        return None
    reference = read_reference(cursor)
    if reference is None:
        return None
    reference.side = side
    round_end(cursor)
    return Place(start, cursor.end, "loops", reference=reference)


LOOPS_STARTS = ("free", "unworked", "unused", "remaining", "leftover", "exposed", "front", "back", "flo", "fl", "blo", "bl", "loops", "loop", "lps")

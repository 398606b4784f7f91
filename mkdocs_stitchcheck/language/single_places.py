"""Places by where they are: "next 5 sts", "first st", "2nd ch from hook", "top of tch", "same st", "in ring", "ch-2 sp"."""

from __future__ import annotations

from .cursor import Cursor
from .phrases import Phrases
from .place_nouns import long_space, noun_end, place_noun
from .round_ends import round_end
from .space_places import read_stitch_of_group
from .syntax import Number, Place
from .words import EACH, FIRST, LAST, NEXT, NOUNS, REMAINING, RING_ADJECTIVES, RING_CODES, RING_NOUNS, SAME

_SAME_TAILS = frozenset(["as", "join", "joining", "sl", "st", "last", "first", "ch", "the", "of", "stitch", "prev", "previous", "where", "you", "joined", "that", "just", "worked", "base", "in", "and"])


def ring_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    if not preposition:
        return None
    cursor.accept("the", "a", "center", "centre")
    while cursor.peek() in RING_ADJECTIVES:
        cursor.at += 1
    if cursor.peek() in RING_NOUNS and cursor.peek(1) != "only":
        cursor.at += 1
        return Place(start, cursor.end, "ring")
    if cursor.peek() in RING_CODES and not (cursor.peek() in cursor.context.colors and cursor.context.ring_seen):
        cursor.at += 1
        return Place(start, cursor.end, "ring")
    return None


TOPS = Phrases((
    "top of tch", "top of t ch", "top of the tch", "top of turning ch", "top of turning chain", "top of the turning chain",
    "top of the turning ch", "top of beg ch", "top of ch", "tch", "turning ch", "turning chain", "the tch", "the turning chain",
    "the turning ch", "top of the ch", "top of t - ch", "t - ch", "top of the t - ch", "the t - ch", "top ch of turning chain", "top of beginning ch", "top of first ch", "t ch", "beg ch",
    "top of the beginning ch", "top of starting ch", "top of the starting chain", "top of starting chain", "last tch",
))  # fmt: skip


def top_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in top of tch", "in 3rd ch of beg ch-3": the last place of a row."""
    if not preposition:
        return None
    cursor.accept("the")
    if not cursor.phrase(TOPS):
        if cursor.peek() == "t" and cursor.peek(1) == "-" and cursor.peek(2) == "ch":
            cursor.at += 3
        elif cursor.ordinal() and cursor.accept("ch", "chain", "st") and cursor.accept("of"):
            while cursor.accept("the", "beg", "beginning", "turning", "starting", "t", "first", "-", "skipped", "same"):
                pass
            if not cursor.accept("ch", "chain", "tch"):
                return None
        else:
            return None
    if cursor.accept("-") or cursor.is_number(words=False):
        cursor.number()
    return Place(start, cursor.end, "last", noun="turning chain")


def same_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in same st as join", "in base of ch", "in the same place": takes no place of its own."""
    cursor.accept("the")
    if cursor.phrase(("base of",)):
        cursor.accept("the", "this", "that", "your")
        cursor.accept("first", "beg", "beginning", "starting", "same", "turning", "1st")
        if cursor.is_number(words=False) and cursor.peek(1) == "-":
            cursor.number()
            cursor.accept("-")
        if not cursor.accept("ch", "chain", "tch"):
            return None
        if cursor.accept("-"):
            cursor.number()
        return Place(start, cursor.end, "same")
    if not cursor.accept(*SAME):
        return None
    if (long := long_space(cursor, start)) is not None:
        noun = f"space {long.chains}" if long.chains else "space"
    else:
        named = place_noun(cursor)
        noun = named if named.startswith("space") or named == "loop" else "space" if "space" in named else ""
    if not noun:
        cursor.accept("place", "one", "base")
    if cursor.accept("as") and cursor.accept("ch", "chain", "the"):
        cursor.accept("-")
        cursor.number()
    while cursor.peek() in _SAME_TAILS and not (cursor.peek() in ("and", "in") and cursor.peek(1) not in _SAME_TAILS):
        cursor.at += 1
    return Place(start, cursor.end, "same", noun=noun)


def _works_in_loops(cursor: Cursor) -> bool:
    """Whether the round works into loops of chains: "sc in next lp ... sc in last lp"."""
    return any(
        token.text in ("loop", "lp", "loops", "lps") and before.text in (*NEXT, *EACH)
        for before, token in zip(cursor.tokens, cursor.tokens[1:], strict=False)
    )


def position(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"next 5 sts", "first st", "last 2 sts", "2nd ch from hook", "3rd st", "remaining sts", "one st" """
    the = cursor.accept("the", "a", "any")
    if cursor.accept(*NEXT):
        if (space := long_space(cursor, start)) is not None:
            return space
        number = cursor.number(article=False)
        return Place(start, cursor.end, "next", number, False, place_noun(cursor))
    if (cursor.peek() in FIRST or (cursor.peek() == "1" and cursor.peek(1) == "st" and cursor.peek(2) in NOUNS)) and (preposition or the):
        cursor.at += 2 if cursor.peek() == "1" else 1
        return _first(cursor, start)
    if cursor.accept("tip", "end") or cursor.peek() == "end" and cursor.peek(1) in ("ch", "chain", "st"):
        cursor.accept("ch", "chain", "st", "of")
        cursor.accept("the", "of")
        cursor.accept("ch", "chain", "leaf")
        return Place(start, cursor.end, "last", None, False, "chain") if preposition in ("in", "into", "at") else None
    if cursor.accept(*LAST):
        number = cursor.number()
        noun = noun_end(cursor)
        return Place(start, cursor.end, "last", number, False, "chain" if noun == "loop" and not _works_in_loops(cursor) else noun)
    if cursor.accept(*REMAINING):
        number = cursor.number()
        noun = place_noun(cursor)
        round_end(cursor)
        return Place(start, cursor.end, "rest", number, False, noun)
    if (number := cursor.ordinal()) is not None:
        noun = place_noun(cursor) or ("chain" if cursor.accept("loop") else "")
        if cursor.phrase(("from the hook", "from hook", "from your hook")) or (noun == "chain" and preposition):
            return Place(start, cursor.end, "chain", number, False, "chain")
        return Place(start, cursor.end, "next", None, False, noun)
    if cursor.peek() == "corner" or (the and cursor.peek() in ("st", "stitch", "ch", "chain", "sc", "center", "centre")):
        noun = place_noun(cursor)
        if not noun:
            cursor.accept("corner", "center", "centre")
            noun = place_noun(cursor)
        return Place(start, cursor.end, "space" if "space" in noun else "next", None, False, noun) if noun else None
    return None


def read_first(cursor: Cursor) -> Place | None:
    """"first st", "the 1st 2 sts" behind a verb that needs no preposition ("sk first st")."""
    at, start = cursor.at, cursor.start
    cursor.accept("the")
    if cursor.peek() in FIRST or (cursor.peek() == "1" and cursor.peek(1) == "st" and cursor.peek(2) in NOUNS):
        cursor.at += 2 if cursor.peek() == "1" else 1
        return _first(cursor, start)
    cursor.at = at
    return None


def _first(cursor: Cursor, start: int) -> Place:
    number = cursor.number()
    noun = place_noun(cursor)
    if noun == "chain" and cursor.phrase(("from the hook", "from hook")):
        return Place(start, cursor.end, "chain", Number(start, start, (1,)), False, "chain")
    return Place(start, cursor.end, "first", number, False, noun)


def place_in_group(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in center dc of next shell", "in next corner", "in corner": named by the group or the corner."""
    if not preposition:
        return None
    if (found := read_stitch_of_group(cursor, start)) is not None:
        return found
    return None


def space_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in ch-2 sp", "in ch sp", "over ch-3 space", "in 2-ch sp" """
    if not preposition:
        return None
    cursor.accept("the", "a", "any")
    if (space := long_space(cursor, start)) is not None:
        return space
    noun = place_noun(cursor) if cursor.peek() in ("ch", "chain", "sp", "space", "lp", "sps") else ""
    if noun.startswith("corner"):
        return Place(start, cursor.end, "space", None, False, noun)
    if noun.startswith("space") or noun == "loop":
        chains = int(noun.split()[1]) if " " in noun and noun.split()[1].isdigit() else None
        return Place(start, cursor.end, "space", None, False, "space", chains=chains)
    return None


def place_below(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"spike in row below", "in st of previous rnd": one place, worked lower down."""
    if not preposition:
        return None
    if cursor.phrase(("row below", "round below", "rnd below", "the row below", "the round below", "the rnd below", "rows below", "st below", "sts below")):
        return Place(start, cursor.end, "next")
    return None


def stitch_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"FPdc in fpdc", "inc in dc": the stitch that is worked into, without next or each."""
    if preposition not in ("in", "into"):
        return None
    cursor.accept("the", "joining") if cursor.peek(1) in ("sl", "ss", "slst", "slip") else None
    matched = cursor.match_stitch()
    if matched is None or matched[0].kind in ("skip", "chain"):
        return None
    cursor.at += matched[1]
    below = cursor.phrase(("of previous rnd", "of the previous rnd", "of prev rnd", "of last rnd", "of previous round", "of the previous round", "of the last round", "of previous row", "of the previous row"))
    if matched[0].kind == "slip" and below is None:
        return None
    return Place(start, cursor.end, "next", None, False, matched[0].key)


def numbered_places(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in 5 sts", "over 2 sts", "in one st"; "in all 24 sts" is read by _each."""
    if not preposition or preposition in ("at", "of", "from", "around"):
        return None
    cursor.accept("the", "these")
    at = cursor.at
    number = cursor.number()
    if number is None:
        return None
    noun = place_noun(cursor)
    if not noun:
        cursor.at = at
        return None
    if number.word and number.value == 1:
        return Place(start, cursor.end, "next", None, False, "stitch" if noun == "loop" else noun)
    return Place(start, cursor.end, "next", number, False, noun)

"""Pieces and sides named as places: "around leg 2", "through arm and body", "along the other side of the ch"."""

from __future__ import annotations

from .cursor import Cursor
from .place_nouns import place_noun
from .syntax import Number, Place, Reference
from .words import EACH


def joins_pieces(cursor: Cursor) -> bool:
    """Whether the round is worked around pieces that it names: a chain in it is then a bridge between them."""
    names = cursor.context.pieces
    return any(token.kind == "word" and (token.text in ("leg", "legs") or token.text in names) for token in cursor.tokens)


_CHAIN_WORDS = ("foundation", "starting", "beginning", "base", "beg", "first", "start")
_SIDE_LEADS = ("on", "along", "down", "in", "into", "around", "to", "up", "across", "through")


def other_side_words(cursor: Cursor) -> bool:
    """side = ("on" | "along" ...) ["the"] ("other" | "opposite") "side" [of chain] | "underside" [of chain] | "free loops" [of chain]"""
    at = cursor.at
    if not cursor.accept(*_SIDE_LEADS):
        return False
    lead = cursor.tokens[at].text
    cursor.accept("the")
    if cursor.accept("underside", "bottom"):
        _of_chain(cursor)
        return True
    if cursor.accept("other", "opposite", "second", "remaining"):
        if cursor.accept("side", "loops", "edge"):
            _of_chain(cursor)
            return True
        if lead in ("down", "up") and cursor.peek() in ("", ",", ";", ".", "(", ":"):
            return True  # "up one side, 3 in tip, down the other"
    elif cursor.accept("free", "unused", "unworked", "leftover") and cursor.accept("loops", "loop", "lps", "side"):
        if _of_chain(cursor):
            return True
        if cursor.peek() in _SIDE_LEADS and other_side_words(cursor):
            return True
    cursor.at = at
    return False


def _of_chain(cursor: Cursor) -> bool:
    at = cursor.at
    if cursor.accept("of", "on") and (cursor.accept("the", "your") or True) and (cursor.accept(*_CHAIN_WORDS) or True) and cursor.accept("ch", "chain", "chs", "chains"):
        return True
    cursor.at = at
    return False


_WHICH = ("first", "second", "other", "third", "right", "left", "1st", "2nd", "both", "last", "next")


def piece_here(cursor: Cursor, numbered: bool = True) -> str:
    """piece = ["the"] ["first" | "second" ...] name ["1" | "2"] for a known piece, "leg" or "the chain"; "" if none."""
    at = cursor.at
    cursor.accept("the", "your")
    start = cursor.start
    which = cursor.accept(*_WHICH) or cursor.ordinal() is not None
    words: list[str] = []
    best = 0
    for ahead in range(3):
        word = cursor.peek(ahead)
        if not word:
            break
        words.append(word)
        if " ".join(words) in cursor.context.pieces or (
            ahead == 0 and (word in ("leg", "legs") or not which and word in ("ch", "chain", "chains", "bridge"))
        ):
            best = ahead + 1
    if not best:
        cursor.at = at
        return ""
    cursor.at += best
    copies = numbered and words[0] not in ("ch", "chain", "chains", "bridge")
    if copies and cursor.is_number(words=False) and cursor.peek(1) not in ("st", "sts", "sc", "x", "times"):
        cursor.number()
    return cursor.statement.text[start : cursor.end]


def piece_ahead(cursor: Cursor) -> bool:
    """Whether a piece is named here; nothing is read."""
    at = cursor.at
    found = piece_here(cursor)
    cursor.at = at
    return bool(found)


def piece_place(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"around leg 2", "on right leg", "along the ch", "in next st of Leg 1", "in other side of 3 ch", "through arm and body" """
    if preposition not in ("around", "on", "along", "through", "thru", "in", "into", "over", "across", "onto"):
        return None
    number: Number | None = None
    before = cursor.tokens[max(cursor.at - 3, 0) : cursor.at - 1]  # "13 sc in", "sc 13 in"
    limb = preposition in ("in", "into") and (cursor.phrase(("any st of", "any stitch of", "a st of", "any st on")) is not None or _limb_ahead(cursor))
    if limb:
        number = None if any(token.kind == "number" for token in before) else Number(cursor.end, cursor.end, (1,))
    elif preposition in ("in", "into", "over", "on", "along", "across"):
        at = cursor.at
        if (side := _other_side_of(cursor, start)) is not None:
            return side
        cursor.at = at
        cursor.accept("the")
        which = not piece_ahead(cursor) and cursor.accept("next", "first")
        if which or cursor.is_number():
            number = cursor.number() or Number(cursor.end, cursor.end, (1,))
            if not (place_noun(cursor) and cursor.accept("of", "on", "from")):
                return None
        elif preposition not in ("on", "along", "across") and not _bridge_ahead(cursor):
            return None
    through = preposition in ("through", "thru")
    if through:
        cursor.accept("both")
    name = piece_here(cursor, numbered=not through)
    if not name:
        return None
    place = Place(start, cursor.end, "piece", number, reference=Reference(start, cursor.end, (), name))
    if through and cursor.accept("and", "&"):
        other = piece_here(cursor, numbered=False)
        if not other:
            return None
        place.layers = 2
        place.reference = Reference(start, cursor.end, (), name if other.lower() in ("body", "head") else other)
    return place


def _limb_ahead(cursor: Cursor) -> bool:
    """"sc into leg 1": a limb by its number or order, and no place in it."""
    at = cursor.at
    name = piece_here(cursor).lower().split()
    cursor.at = at
    return len(name) > 1 and any(word.startswith(("leg", "arm")) for word in name) and (name[-1].isdigit() or name[0] in _WHICH or name[0] == "the")


def _bridge_ahead(cursor: Cursor) -> bool:
    """"2 sc in ch", where legs are joined: the bridge, and no chain space."""
    if cursor.peek() not in ("ch", "chs", "chain", "chains", "bridge") or cursor.peek(1) not in ("", ",", ";", ".", ")", "(", "=", "then", "and"):
        return False
    return joins_pieces(cursor)


def _other_side_of(cursor: Cursor, start: int) -> Place | None:
    """"other side of 3 ch", and where legs are joined "the other side of the bridge": the second side of the chains."""
    cursor.accept("the")
    if not (cursor.accept("other", "opposite", "second", "back") and cursor.accept("side") and cursor.accept("of")):
        return None
    cursor.accept("the", "these", "those", "same", *EACH)
    number = cursor.number()
    cursor.accept("-")
    if not cursor.accept("ch", "chs", "chain", "chains", "bridge") or number is None and not joins_pieces(cursor):
        return None
    cursor.accept("st", "sts")
    return Place(start, cursor.end, "piece", number, reference=Reference(start, cursor.end, (), "chain"))


_PAIR_NOUNS = ("pieces", "parts", "sides", "halves")


def both_pieces(cursor: Cursor, start: int) -> Place | None:
    """"through both legs", "through both ears", "through both (legs)": a stitch of each of two copies."""
    at = cursor.at
    if cursor.accept("through", "thru"):
        limb = piece_place(cursor, start, "through")
        if limb is not None and limb.layers > 1:
            return limb
    cursor.at = at
    if cursor.accept("through", "thru", "in", "into", "across") and (cursor.accept("the") or True) and cursor.accept("both", "two"):
        word = cursor.peek()
        if word not in _PAIR_NOUNS and word.endswith("s") and (word == "legs" or word in cursor.context.pieces):
            cursor.at += 1
            place = Place(start, cursor.end, "next", layers=2, noun="layers")
            place.reference = Reference(start, cursor.end, (), word)
            return place
    cursor.at = at
    return None

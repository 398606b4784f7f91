"""Places named by spaces, corners, gaps and groups: "in next corner", "to next ch-2 sp", "between next 2 groups",
"in ch-2 sp of next shell", "in center dc of next shell"."""

from __future__ import annotations

from .cursor import Cursor
from .syntax import Number, Place
from .words import NUMBER_WORDS, ORDINAL_WORDS

_SPACES = frozenset(("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps", "arch", "arches"))
_CORNERS = ("corner", "corners")
_GROUPS = frozenset((
    "group", "groups", "cluster", "clusters", "cl", "cls", "shell", "shells", "fan", "fans", "block", "blocks", "gr", "grs",
    "set", "sets", "petal", "petals", "granny",
))  # fmt: skip
_STITCHES = frozenset(("st", "sts", "stitch", "stitches", "sc", "hdc", "dc", "tr", "htr", "dtr", "posts"))
_WHICH = ("next", "nxt", "following", "foll", "last", "first", "1st", "any", "each", "every", "ea", "second", "2nd")
_MIDDLES = ("center", "centre", "middle")
_TURNING = (("tch",), ("turning", "ch"), ("turning", "chain"), ("t", "-", "ch"), ("beg", "ch"))


def read_space_name(cursor: Cursor) -> str | None:
    """space = "corner" [space] | "ch" ["-"] N space | N ["-"] "ch" ["-"] space | ["ch" ["-"]] space ; the noun of a place.

    "corner space 2", "space 2", "space"; None, and nothing read, where no space is named.
    """
    at = cursor.at
    cursor.accept("-")
    if cursor.accept(*_CORNERS):
        cursor.accept("-")
        named = cursor.at
        inner = read_space_name(cursor)
        if inner is not None and inner.startswith("space"):
            return f"corner {inner}"
        cursor.at = named
        if cursor.match_stitch() is not None or cursor.peek() in _STITCHES:
            cursor.at = at
            return None
        return "corner space"
    length = ""
    if cursor.accept("ch", "chain"):
        cursor.accept("-")
        if cursor.is_number(words=False):
            length = cursor.peek()
            cursor.at += 1
            cursor.accept("-")
    elif cursor.is_number(words=False) and _ch_ahead(cursor):
        length = cursor.peek()
        cursor.at += 1
        cursor.accept("-")
        cursor.at += 1
        cursor.accept("-")
    if cursor.peek() in _SPACES and not (cursor.peek() in ("loop", "loops") and cursor.peek(1) in ("only", "of")):
        cursor.at += 1
        return f"space {length}".strip()
    cursor.at = at
    return None


def _ch_ahead(cursor: Cursor) -> bool:
    ahead = 2 if cursor.peek(1) == "-" else 1
    return cursor.peek(ahead) in ("ch", "chain")


def space_ahead(cursor: Cursor, ahead: int = 0) -> bool:
    """Whether a space is named so many tokens ahead; nothing is read."""
    at = cursor.at
    cursor.at += ahead
    cursor.accept("the")
    found = read_space_name(cursor) is not None
    cursor.at = at
    return found


def read_up_to(cursor: Cursor) -> Place | None:
    """up-to = ("to" | "across to" | "until" ...) ["the"] ["next" | "first" | "last"] (space | "tch") : the stitches before it"""
    at, start = cursor.at, cursor.start
    cursor.phrase(("across", "along", "evenly", "over", "up"))
    if cursor.accept("to", "until", "till", "into") and (cursor.tokens[cursor.at - 1].text != "into"):
        cursor.accept("the", "within")
        for words in _TURNING:
            if cursor.tokens_are_here(words):
                cursor.at += len(words)
                if cursor.accept("-") or cursor.is_number(words=False):
                    cursor.number()
                return Place(start, cursor.end, "to_last", Number(cursor.end, cursor.end, (1,)))
        last = cursor.peek() == "last"
        which = cursor.accept(*_WHICH)
        if last and cursor.is_number():
            cursor.at = at
            return None
        noun = read_space_name(cursor)
        if noun is not None and (which or noun.startswith("corner") or cursor.peek() in ("", ",", ";", ".", ")", "]", "*")):
            return Place(start, cursor.end, "to_space", upto=Place(start, cursor.end, "space", noun=noun))
    cursor.at = at
    return None


def read_between(cursor: Cursor, start: int) -> Place | None:
    """between = "between" ["the"] (["next"] ["2"] | "each" | "last 2") (groups | stitches) | "between 'legs' of" st"""
    if not cursor.accept("between", "bet", "btw", "btwn"):
        return None
    if cursor.phrase(("' legs ' of st", "legs of st", "' legs ' of next st", "legs of next st", "the legs of next st", "the legs of st")):
        return Place(start, cursor.end, "next")
    each = cursor.accept("each", "every", "all")
    cursor.accept("the")
    which = cursor.accept("next", "nxt", "following", "last", "first")
    number = cursor.number()
    if number is not None and number.value > 100:
        return None
    matched = cursor.match_stitch()
    if cursor.peek() in _GROUPS or matched is not None and matched[0].kind in ("group", "increase"):
        cursor.at += matched[1] if matched is not None else 1
        cursor.accept("group", "groups")
        if cursor.is_number() or cursor.peek() == "of":
            _size_of_group(cursor)
        return Place(start, cursor.end, "gap", None, each or not which and number is None, "group")
    if cursor.accept(*_STITCHES):
        if cursor.accept("group", "groups", "clusters"):
            return Place(start, cursor.end, "gap", None, each, "group")
        return Place(start, cursor.end, "gap", None, each, "stitch")
    return None


def _size_of_group(cursor: Cursor) -> None:
    """"groups of 3 dc": how large they are says nothing for the place."""
    cursor.accept("of")
    cursor.number()
    if (matched := cursor.match_stitch()) is not None:
        cursor.at += matched[1]


def read_of_group(cursor: Cursor, place: Place) -> Place:
    """of-group = ("of" | "in") ["the"] ["next" | "each" | "last" | "same"] group : the space or stitch of a group"""
    at = cursor.at
    if cursor.accept("of", "in", "on"):
        cursor.accept("the", "this", "that")
        each = cursor.accept("each", "every", "ea")
        if not each:
            cursor.accept("next", "nxt", "following", "last", "first", "same", "prev", "previous")
        number = cursor.number(article=False) if cursor.is_number(words=False) and cursor.peek(1) not in ("-", "dc", "ch") else None
        matched = cursor.match_stitch()
        if matched is not None and matched[0].kind in ("group", "increase", "picot"):
            cursor.at += matched[1]
            name = matched[0].key
        elif cursor.peek() in _GROUPS:
            name = cursor.peek().rstrip("s")
            cursor.at += 1
        elif cursor.accept(*_CORNERS):
            name = "corner"
        else:
            cursor.at = at
            return place
        place.within, place.each = name, place.each or each
        place.number = place.number or number
        place.end = cursor.end
        return place
    cursor.at = at
    return place


def read_stitch_of_group(cursor: Cursor, start: int) -> Place | None:
    """in-group = ["the"] ("center" | "3rd" ...) [stitch] "of" ["next"] group : one stitch of it"""
    cursor.accept("the")
    number: Number | None = None
    if not cursor.accept(*_MIDDLES):
        number = cursor.ordinal()
        if number is None:
            return None
    noun = ""
    if (space := read_space_name(cursor)) is not None:
        place = Place(start, cursor.end, "space", noun=space)
        return read_of_group(cursor, place) if number is None else None
    if (matched := cursor.match_stitch()) is not None and matched[0].kind not in ("chain", "skip"):
        noun = matched[0].key
        cursor.at += matched[1]
    cursor.accept("st", "stitch", "sts")
    place = read_of_group(cursor, Place(start, cursor.end, "in_group", number, noun=noun))
    if place.within:
        place.number = number
        return place
    return None if number is not None or not noun else place


PLACE_STARTS = frozenset((
    "between", "bet", "btw", "btwn", *_CORNERS, *_MIDDLES, "ch", "chain", "sp", "space", "sps", "spaces", "lp", *ORDINAL_WORDS, *NUMBER_WORDS,
))  # fmt: skip

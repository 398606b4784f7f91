"""Where stitches go: "in next 5 sts", "around", "to last 2 sts", "in 2nd ch from hook", "through both layers"."""

from __future__ import annotations

from .cursor import Cursor, FirstWords, Phrases
from .references import read_reference
from .space_places import (
    PLACE_STARTS,
    read_between,
    read_of_group,
    read_space_name,
    read_stitch_of_group,
    read_up_to,
    space_ahead,
)
from .syntax import Number, Place, Reference
from .vocabulary import LOOPS, words_of
from .words import (
    EACH,
    FIRST,
    LAST,
    NEXT,
    NOUNS,
    NUMBER_WORDS,
    ORDINAL_ENDINGS,
    ORDINAL_WORDS,
    REMAINING,
    RING_ADJECTIVES,
    RING_CODES,
    RING_NOUNS,
    SAME,
)

_ROUND_END = Phrases((
    "around", "all around", "all the way around", "around the whole way", "the whole way around", "the whole way round", "evenly around", "around the round", "round", "across", "all across",
    "evenly across", "across row", "across the row", "across round", "to end", "to the end", "until end", "until the end",
    "till end", "till the end", "to eor", "until eor", "to end of rnd", "to end of round", "to end of row",
    "to the end of the round", "to the end of the row", "to the end of the rnd", "to the end of rnd", "to the end of row",
    "until end of rnd", "until end of round", "until end of row", "until the end of the round", "until the end of the row",
    "until the end of rnd", "to end of the round", "to end of the row", "the entire round", "the whole round",
    "the entire row", "for the entire round", "for the whole round", "the entire way around", "all round", "all along",
    "to end of the rnd", "until the end of the rnd", "in the round", "entire round", "entire rnd", "all the way across",
    "all the way round", "around the whole round", "throughout", "for the rest of the round", "for the rest of the row",
    "the rest of the way around", "the rest of the round", "the rest of the row", "to marker", "to the marker", "to m",
    "all the way", "to side edge", "along the row", "along the round", "over the whole round", "around entire round",
    "until end of the round", "until end of the row", "to end of chain", "to end of ch", "to the end of the chain",
    "around both sides of the chain", "around both sides of the ch", "around both sides", "around both sides of ch",
    "along the ch", "to the end of the ch", "to end of the chain",
))  # fmt: skip
_TO_LAST = Phrases(("to last", "to the last", "until last", "until the last", "up to last", "up to the last", "to within last", "till last", "till the last", "to within the last"))
_LAYERS = Phrases((
    "through both layers", "through both sides", "through both", "thru both layers", "in both layers", "through the two layers",
    "across both layers", "through both edges", "through two layers", "through both pieces", "through both stitches",
    "through both thicknesses", "through the layers", "through 2 layers", "over both layers", "together through both layers",
))  # fmt: skip
_ONE_SIDE = Phrases((
    "up one side", "down one side", "along one side", "up the first side", "down the first side", "up the side", "down the side",
    "up one side of the ch", "down one side of the ch", "up one side of the chain", "down one side of the chain",
    "along one side of the chain", "along one side of the ch",
))  # fmt: skip
_GAPS = ("gap", "opening", "buttonhole", "thumbhole", "armhole", "hole", "slit")
_ROUND_WORDS_END = ("around", "across")
_PREPOSITIONS = ("in", "into", "on", "onto", "over", "across", "through", "thru", "along", "to", "around", "from", "between", "at", "of")
# Every word with which a place begins; a number begins one only where it is an ordinal.
_PLACE_STARTS = frozenset((
    *_ROUND_END.index, *_ONE_SIDE.index, *_TO_LAST.index, *_LAYERS.index, *_PREPOSITIONS, *EACH, *SAME, *NEXT, *FIRST, *LAST, *REMAINING, *ORDINAL_WORDS,
    "until", "till", "evenly", "the", "a", "any", "base", "corner", "every", "each", "free", "unworked", "unused", "remaining",
    "leftover", "exposed", "front", "back", "flo", "fl", "blo", "bl", "loops", "loop", "lps", "between", "bet", "btw", "btwn",
))  # fmt: skip
# "3lo" is two tokens, as the tokenizer cuts it.
_LOOPS = {side: Phrases(" ".join(words_of(phrase)) for phrase in phrases) for side, phrases in LOOPS.items()}
_LOOPS_BY_WORD = {
    first: tuple((side, phrases) for side, phrases in _LOOPS.items() if first in phrases.index)
    for first in {word for phrases in _LOOPS.values() for word in phrases.index}
}
_LOOP_LEADS = frozenset(("in", "into", "through", "thru", "working", "on", "work", "behind", "the"))
LOOP_STARTS = _LOOP_LEADS | _LOOPS_BY_WORD.keys()
_SAME_TAILS = frozenset(["as", "join", "joining", "sl", "st", "last", "first", "ch", "the", "of", "stitch", "prev", "previous", "where", "you", "joined", "that", "just", "worked", "base", "in", "and"])


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


def round_end(cursor: Cursor) -> bool:
    """"around", "across", "to end": all that is left."""
    if cursor.peek() == "around" and _post_or_piece(cursor):
        return False
    if cursor.peek() == "along" and cursor.peek(1) in ("the", "ch") and _joins_pieces(cursor):
        return False  # the bridge between two legs
    if cursor.peek() == "across" and cursor.peek(1) in ("next", "both", "the"):
        return _over_gap(cursor) or cursor.phrase(("across the row", "across the round")) is not None
    return cursor.phrase(_ROUND_END) is not None or _over_gap(cursor) or cursor.phrase(_ONE_SIDE) is not None


def _over_gap(cursor: Cursor) -> bool:
    """"across the gap", "over the buttonhole": the chains of an opening."""
    at = cursor.at
    if cursor.accept("across", "over", "along", "of", "at") and (cursor.accept("the") or True):
        if cursor.accept(*_GAPS):
            return True
        if cursor.accept("thumb", "arm", "button", "leg", "ear") and cursor.accept("hole", "opening", "gap"):
            return True
    cursor.at = at
    return False


def _post_or_piece(cursor: Cursor) -> bool:
    follows = [cursor.peek(ahead) for ahead in range(1, 4)]
    if follows[0] == "the":
        follows = follows[1:]
    return follows[0] in ("post", "posts", "next", "stem") or (
        follows[0] in ("first", "second", "other", "leg", "legs") and follows[0] != "" and "st" not in follows[1]
    )


def _joins_pieces(cursor: Cursor) -> bool:
    """Whether the round is worked around pieces that it names: a chain in it is then a bridge between them."""
    names = cursor.context.pieces
    return any(token.kind == "word" and (token.text in ("leg", "legs") or token.text in names) for token in cursor.tokens)


def read_place(cursor: Cursor) -> Place | None:
    """place = layers | rest | to-last | [preposition] target ; None (and nothing read) where no place stands here."""
    first = cursor.token()
    if first is None or first.text not in _PLACE_STARTS and not (first.kind == "number" and cursor.peek(1) in ORDINAL_ENDINGS):
        return None
    at, start = cursor.at, cursor.start
    if first.text in ("through", "thru", "in", "into", "across") and (both := _through_both(cursor, start)) is not None:
        return both
    if cursor.phrase(_LAYERS):
        rest = round_end(cursor)
        return _close(Place(start, cursor.end, "rest" if rest else "next", layers=2, noun="layers"), cursor)
    if cursor.phrase(_TO_LAST):
        return _to_last(cursor, start)
    if cursor.peek() in _UP_TO and (found := read_up_to(cursor)):
        return found
    if cursor.peek() in ("between", "bet", "btw", "btwn"):
        found = read_between(cursor, start)
        if found is None:
            cursor.at = at
        return found
    if cursor.peek() in ("until", "till") and (found := _until_remain(cursor, start)):
        return found
    if cursor.peek() in ("evenly",) and cursor.peek(1) in _ROUND_WORDS_END:
        cursor.at += 1
        start = cursor.start
    if round_end(cursor):
        if cursor.phrase(_TO_LAST):
            return _to_last(cursor, start)
        layers = 2 if cursor.phrase(_LAYERS) else 1
        return _close(Place(start, cursor.end, "rest", layers=layers), cursor)
    if cursor.peek() == "in" and cursor.peek(1) == "/" and cursor.peek(2) == "around":
        cursor.at += 2
    preposition = cursor.accept(*_PREPOSITIONS)
    word = cursor.tokens[cursor.at - 1].text if preposition else ""
    found = _target(cursor, start, word)
    if found is None:
        cursor.at = at
        return None
    if cursor.phrase(_LAYERS):
        found.layers = 2
    elif word and _may_be_of_group(found, cursor):
        found = read_of_group(cursor, found)
        if found.each and round_end(cursor):
            found.kind = "rest"
    if found.kind == "space" and cursor.peek() in ("between", "bet", "btw", "btwn") and (gap := read_between(cursor, start)):
        gap.each = gap.each or found.each
        found = gap
    return _close(found, cursor)


def _may_be_of_group(place: Place, cursor: Cursor) -> bool:
    return cursor.peek() in ("of", "in") and (place.noun.startswith(("space", "corner")) or place.kind == "space")


def _close(place: Place, cursor: Cursor) -> Place:
    place.end = cursor.end
    return place


def _to_last(cursor: Cursor, start: int) -> Place:
    number = cursor.number()
    noun = _noun(cursor)
    cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row"))
    spaces = noun.startswith(("space", "corner"))
    return Place(start, cursor.end, "to_last", number, within="spaces" if spaces else "")


def _until_remain(cursor: Cursor, start: int) -> Place | None:
    """"until 5 sts remain" is "to last 5 sts"."""
    at = cursor.at
    cursor.at += 1
    cursor.phrase(("there are", "you have", "only"))
    number = cursor.number()
    if number is not None:
        _noun(cursor)
        cursor.accept("are")
        if cursor.accept("remain", "remaining", "rem", "left", "remains"):
            return Place(start, cursor.end, "to_last", number)
    cursor.at = at
    return None


def _noun(cursor: Cursor) -> str:
    """The noun of a place: "sts", "ch", a stitch's name ("next 2 sc"), "ch-2 sp"; "" where none stands."""
    word = cursor.peek()
    if word in _WAITING and (waiting := _waiting(cursor)):
        return waiting
    if word in _SPACE_STARTS and (space := read_space_name(cursor)) is not None:
        return space
    if word in ("corner", "corners") and (ahead := _corner(cursor)):
        return ahead
    if word == "-" and cursor.peek(1) in NOUNS:
        cursor.at += 1
        word = cursor.peek()
    if word in NOUNS and word != "s":
        if word in ("sl", "ss"):
            return ""
        cursor.at += 1
        if NOUNS[word] == "chain":
            cursor.accept("st", "sts", "sp")
        return NOUNS[word]
    matched = cursor.match_stitch()
    if matched is not None and matched[0].kind not in ("skip",):
        stitch, length = matched
        cursor.at += length
        cursor.accept("st", "sts", "stitch", "stitches")
        return stitch.key
    return ""


_WAITING = frozenset(("skipped", "missed", "unworked", "held", "waiting", "resting", "underarm", "sleeve", "thumb"))
_OF_OPENING = Phrases((
    "of the armhole", "of armhole", "around the armhole", "at the underarm", "at underarm", "of the underarm", "under the arm",
    "of the opening", "of the thumb opening", "around the opening", "around the thumb opening", "of the thumb hole",
    "for the sleeve", "for the thumb", "for sleeve", "for thumb", "over the gap", "across the gap",
))  # fmt: skip


def _waiting(cursor: Cursor) -> str:
    """"skipped sts (of the armhole)", "underarm ch": places of an opening; "" where no noun follows."""
    at = cursor.at
    while cursor.peek() in _WAITING:
        cursor.at += 1
    if cursor.peek() in ("loop", "loops", "lps", "lp") or not (noun := _noun(cursor)):
        cursor.at = at
        return ""
    cursor.phrase(_OF_OPENING)
    return noun


def _corner(cursor: Cursor) -> str:
    """"corner sp", "corner ch-2 sp", "corner st"; "" where no noun follows."""
    at = cursor.at
    cursor.at += 1
    noun = _noun(cursor) if cursor.peek() not in ("corner", "corners") else ""
    if not noun:
        cursor.at = at
        return ""
    return f"corner {noun}" if noun.startswith("space") else noun


def _target(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """target = ring | chain from hook | each ... | next ... | first | last | same | N noun | ordinal noun | free loops"""
    at = cursor.at
    for reader in _TARGETS.at(cursor.token()):
        found = reader(cursor, start, preposition)
        if found is not None:
            return found
        cursor.at = at
    return None


def _ring(cursor: Cursor, start: int, preposition: str) -> Place | None:
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


_TOPS = Phrases((
    "top of tch", "top of t ch", "top of the tch", "top of turning ch", "top of turning chain", "top of the turning chain",
    "top of the turning ch", "top of beg ch", "top of ch", "tch", "turning ch", "turning chain", "the tch", "the turning chain",
    "the turning ch", "top of the ch", "top of t - ch", "t - ch", "top of the t - ch", "the t - ch", "top ch of turning chain", "top of beginning ch", "top of first ch", "t ch", "beg ch",
    "top of the beginning ch", "top of starting ch", "top of the starting chain", "top of starting chain", "last tch",
))  # fmt: skip


def _tops(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in top of tch", "in 3rd ch of beg ch-3": the last place of a row."""
    if not preposition:
        return None
    cursor.accept("the")
    if not cursor.phrase(_TOPS):
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


def _each(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """each = "each" ["of"] ["the"] ["next" | "remaining"] [N] noun ["around" | "to last N sts" ...] """
    cursor.accept("the")
    if not cursor.accept(*EACH):
        return None
    cursor.accept("of")
    cursor.accept("the", "these", "those")
    if cursor.peek(1) in ("ch", "chain", "-") and space_ahead(cursor):
        return _each_space(cursor, start)
    following = cursor.accept(*NEXT)
    first = not following and cursor.accept("first")
    last = not following and cursor.accept("last")
    remaining = cursor.accept(*REMAINING)
    number = cursor.number()
    at_noun = cursor.at
    noun = _noun(cursor)
    if noun.startswith("space") and not following and cursor.peek() in ("between", "bet", "btw", "btwn"):
        if read_between(cursor, start) is None:
            return None
        between = _each_tail(cursor, start) or Place(start, cursor.end, "rest")
        between.each, between.noun = True, "space"
        return between
    also: Place | None = None
    if noun and cursor.peek() in ("and", "&") and not (following or number) and (also := _and_each(cursor, noun)):
        noun = "" if noun.startswith(("space", "corner")) else noun
    elif noun and cursor.peek() in ("and", "&") and cursor.peek(1) in ("ch", "chain", "st", "sp", "sc"):
        cursor.at += 1  # "in each st and ch around"
        _noun(cursor)
    if not (following or number or noun or remaining or cursor.done or cursor.peek() in ("around", "across", ",", ".", "(")):
        return None
    if (piece := _behind_each(cursor, start)) is not None:
        piece.number = number
        return piece
    tail = _each_tail(cursor, start)
    if tail is not None:
        tail.each, tail.noun, tail.also = True, noun, also
        return tail
    if also is not None:
        return Place(start, cursor.end, "rest", None, True, noun, also=also)
    if number is not None or following or first or last:
        claim = cursor.tokens[at_noun - 1 if at_noun else 0].text == "all"
        kind = "last" if last else "first" if first else "next"
        all_of = any(t.text == "all" for t in cursor.tokens[: cursor.at] if t.start >= start) and not following
        return Place(start, cursor.end, "rest" if all_of or claim else kind, number, True, noun)
    return Place(start, cursor.end, "rest", None, True, noun)


def _behind_each(cursor: Cursor, start: int) -> Place | None:
    """"in each st around first leg", "in each st of the second leg": all that the piece has."""
    at = cursor.at
    if cursor.accept("around", "of", "on", "along", "across", "from") and cursor.peek() not in ("ch", "chain", "rnd", "round", "row"):
        name = piece_here(cursor)
        if name and _joins_pieces(cursor):
            return Place(start, cursor.end, "piece", None, True, reference=Reference(start, cursor.end, (), name))
    cursor.at = at
    return None


def _each_space(cursor: Cursor, start: int) -> Place:
    """"each 2-ch sp around", "each ch-2 sp of each shell": behind "each"."""
    noun = read_space_name(cursor) or "space"
    place = _each_tail(cursor, start) or Place(start, cursor.end, "rest")
    place.each, place.noun = True, noun
    return read_of_group(cursor, place) if cursor.peek() in ("of", "in") else place


def _and_each(cursor: Cursor, noun: str) -> Place | None:
    """"in each dc and ch-1 sp", "in each ch-1 sp and dc": the spaces that are worked besides the stitches."""
    at = cursor.at
    cursor.at += 1
    cursor.accept("in", "into")
    cursor.accept(*EACH)
    start = cursor.start
    spaces = noun.startswith(("space", "corner"))
    other = read_space_name(cursor) if not spaces else _noun(cursor)
    if other is None or spaces and (not other or other.startswith(("space", "corner", "loop"))):
        cursor.at = at
        return None
    return Place(start, cursor.end, "rest", None, True, noun if spaces else other)


def _each_tail(cursor: Cursor, start: int) -> Place | None:
    if cursor.peek() == "from" and cursor.peek(1) == "hook":
        cursor.at += 2
    if cursor.phrase(_TO_LAST):
        return _to_last(cursor, start)
    if cursor.peek() in _UP_TO and (found := read_up_to(cursor)):
        return found
    cursor.phrase(("down", "along", "up")) if cursor.peek(1) in ("around", "across") else None
    if cursor.peek() in ("of", "in") and cursor.peek(1) in ("rnd", "round", "row", "the", "previous", "prev", "last"):
        cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row", "in rnd", "in row", "in the round", "of the previous round", "of previous round", "of prev rnd", "of the previous row", "of last round", "of previous row"))
    if round_end(cursor):
        return Place(start, cursor.end, "rest")
    return None


def _same(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in same st as join", "in base of ch", "in the same place": takes no place of its own."""
    cursor.accept("the")
    if cursor.phrase(("base of ch", "base of chain", "base of the ch", "base of the chain", "base of beg ch")):
        if cursor.accept("-"):
            cursor.number()
        return Place(start, cursor.end, "same")
    if not cursor.accept(*SAME):
        return None
    noun = "space" if (_long_space(cursor, start) is not None or "space" in _noun(cursor)) else ""
    if not noun:
        cursor.accept("place", "one", "base")
    if cursor.accept("as") and cursor.accept("ch", "chain", "the"):
        cursor.accept("-")
        cursor.number()
    while cursor.peek() in _SAME_TAILS and not (cursor.peek() in ("and", "in") and cursor.peek(1) not in _SAME_TAILS):
        cursor.at += 1
    return Place(start, cursor.end, "same", noun=noun)


def _position(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"next 5 sts", "first st", "last 2 sts", "2nd ch from hook", "3rd st", "remaining sts", "one st" """
    the = cursor.accept("the", "a", "any")
    if cursor.accept(*NEXT):
        if (space := _long_space(cursor, start)) is not None:
            return space
        number = cursor.number(article=False)
        return Place(start, cursor.end, "next", number, False, _noun(cursor))
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
        noun = _noun_end(cursor)
        return Place(start, cursor.end, "last", number, False, "chain" if noun == "loop" else noun)
    if cursor.accept(*REMAINING):
        number = cursor.number()
        noun = _noun(cursor)
        round_end(cursor)
        return Place(start, cursor.end, "rest", number, False, noun)
    if (number := cursor.ordinal()) is not None:
        noun = _noun(cursor) or ("chain" if cursor.accept("loop") else "")
        if cursor.phrase(("from the hook", "from hook", "from your hook")) or (noun == "chain" and preposition):
            return Place(start, cursor.end, "chain", number, False, "chain")
        return Place(start, cursor.end, "next", None, False, noun)
    if cursor.peek() == "corner" or (the and cursor.peek() in ("st", "stitch", "ch", "chain", "sc", "center", "centre")):
        noun = _noun(cursor)
        if not noun:
            cursor.accept("corner", "center", "centre")
            noun = _noun(cursor)
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
    noun = _noun(cursor)
    if noun == "chain" and cursor.phrase(("from the hook", "from hook")):
        return Place(start, cursor.end, "chain", Number(start, start, (1,)), False, "chain")
    return Place(start, cursor.end, "first", number, False, noun)


def _noun_end(cursor: Cursor) -> str:
    noun = _noun(cursor)
    cursor.phrase(("of rnd", "of round", "of row", "of the round", "of the row"))
    return noun


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


def _of_pieces(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"around leg 2", "on right leg", "along the ch", "in next st of Leg 1", "in other side of 3 ch", "through arm and body" """
    if preposition not in ("around", "on", "along", "through", "thru", "in", "into", "over", "across", "onto"):
        return None
    number: Number | None = None
    if preposition in ("in", "into", "over", "on", "along", "across"):
        at = cursor.at
        if (side := _other_side_of(cursor, start)) is not None:
            return side
        cursor.at = at
        cursor.accept("the")
        which = not piece_ahead(cursor) and cursor.accept("next", "first")
        if which or cursor.is_number():
            number = cursor.number() or Number(cursor.end, cursor.end, (1,))
            if not (_noun(cursor) and cursor.accept("of", "on", "from")):
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


def _bridge_ahead(cursor: Cursor) -> bool:
    """"2 sc in ch", where legs are joined: the bridge, and no chain space."""
    if cursor.peek() not in ("ch", "chs", "chain", "chains", "bridge") or cursor.peek(1) not in ("", ",", ";", ".", ")", "(", "=", "then", "and"):
        return False
    return _joins_pieces(cursor)


def _other_side_of(cursor: Cursor, start: int) -> Place | None:
    """"other side of 3 ch", and where legs are joined "the other side of the bridge": the second side of the chains."""
    cursor.accept("the")
    if not (cursor.accept("other", "opposite", "second", "back") and cursor.accept("side") and cursor.accept("of")):
        return None
    cursor.accept("the", "these", "those", "same", *EACH)
    number = cursor.number()
    cursor.accept("-")
    if not cursor.accept("ch", "chs", "chain", "chains", "bridge") or number is None and not _joins_pieces(cursor):
        return None
    cursor.accept("st", "sts")
    return Place(start, cursor.end, "piece", number, reference=Reference(start, cursor.end, (), "chain"))


_PAIR_NOUNS = ("pieces", "parts", "sides", "halves")


def _through_both(cursor: Cursor, start: int) -> Place | None:
    """"through both legs", "through both ears", "through both (legs)": a stitch of each of two copies."""
    at = cursor.at
    if cursor.accept("through", "thru"):
        limb = _of_pieces(cursor, start, "through")
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


def _loops_of(cursor: Cursor, start: int, preposition: str) -> Place | None:
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


def _in_group(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in center dc of next shell", "in next corner", "in corner": named by the group or the corner."""
    if not preposition:
        return None
    if (found := read_stitch_of_group(cursor, start)) is not None:
        return found
    return None


def _spaces(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in ch-2 sp", "in ch sp", "over ch-3 space", "in 2-ch sp" """
    if not preposition:
        return None
    cursor.accept("the", "a", "any")
    if (space := _long_space(cursor, start)) is not None:
        return space
    noun = _noun(cursor) if cursor.peek() in ("ch", "chain", "sp", "space", "lp", "sps") else ""
    if noun.startswith("corner"):
        return Place(start, cursor.end, "space", None, False, noun)
    if noun.startswith("space") or noun == "loop":
        chains = int(noun.split()[1]) if " " in noun and noun.split()[1].isdigit() else None
        return Place(start, cursor.end, "space", None, False, "space", chains=chains)
    return None


def _long_space(cursor: Cursor, start: int) -> Place | None:
    """"2-ch sp", "1ch-space", "3-ch-space": a space named by its length."""
    at = cursor.at
    number = cursor.number() if cursor.is_number(words=False) else None
    cursor.accept("-")
    if number is not None and cursor.accept("ch", "chain"):
        cursor.accept("-")
        if cursor.accept("sp", "space", "sps", "spaces", "loop", "lp"):
            return Place(start, cursor.end, "space", None, False, "space", chains=number.value)
    cursor.at = at
    return None


def _below(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"spike in row below", "in st of previous rnd": one place, worked lower down."""
    if not preposition:
        return None
    if cursor.phrase(("row below", "round below", "rnd below", "the row below", "the round below", "the rnd below", "rows below", "st below", "sts below")):
        return Place(start, cursor.end, "next")
    return None


def _into_stitch(cursor: Cursor, start: int, preposition: str) -> Place | None:
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


def _numbered(cursor: Cursor, start: int, preposition: str) -> Place | None:
    """"in 5 sts", "over 2 sts", "in one st"; "in all 24 sts" is read by _each."""
    if not preposition or preposition in ("at", "of", "from", "around"):
        return None
    cursor.accept("the", "these")
    at = cursor.at
    number = cursor.number()
    if number is None:
        return None
    noun = _noun(cursor)
    if not noun:
        cursor.at = at
        return None
    if number.word and number.value == 1:
        return Place(start, cursor.end, "next", None, False, "stitch" if noun == "loop" else noun)
    return Place(start, cursor.end, "next", number, False, noun)


_LOOPS_STARTS = ("free", "unworked", "unused", "remaining", "leftover", "exposed", "front", "back", "flo", "fl", "blo", "bl", "loops", "loop", "lps")
_UP_TO = ("to", "until", "till", "across", "along", "evenly", "over", "up")
_SPACE_STARTS = ("corner", "corners", "ch", "chain", "sp", "sps", "space", "spaces")
_TARGETS = FirstWords(
    (_ring, ("the", "a", "center", "centre", *RING_ADJECTIVES, *RING_NOUNS, *RING_CODES)),
    (_tops, ("the", "t", *_TOPS.index, *ORDINAL_WORDS)),
    (_in_group, PLACE_STARTS | {"the"}),
    (_each, ("the", *EACH)),
    (_loops_of, ("the", "each", "every", *_LOOPS_STARTS)),
    (_same, ("the", "base", *SAME)),
    (_of_pieces, None),
    (_position, ("the", "a", "any", "corner", "tip", "end", *NEXT, *FIRST, *LAST, *REMAINING, *ORDINAL_WORDS)),
    (_spaces, ("the", "a", "any", "ch", "chain", "sp", "space", "lp", "sps")),
    (_numbered, ("the", "these", *NUMBER_WORDS)),
    (_below, ("the", "row", "round", "rnd", "rows", "st", "sts")),
    (_into_stitch, None),
)

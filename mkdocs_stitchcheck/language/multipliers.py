"""How often: "x 6", "6 times", "twice more", "around", "to last 2 sts", "ending with 1 sc"."""

from __future__ import annotations

from dataclasses import dataclass

from .cursor import Cursor
from .places import read_place
from .syntax import Number, Place
from .words import TIMES_WORDS

REPEAT_WORDS = ("rep", "repeat", "rpt", "repeating", "repeated", "reps", "repeats", "repeats:")
MARKS = ("*", "†", "‡", "#", "◊", "^", "°", "§")
_TIMES = ("times", "time", "x")


@dataclass(slots=True)
class Extent:
    """What follows a bracket or star: a number of times, or a stretch of the round."""

    times: Number | None = None
    counting: str = "all"  # all, more, star
    place: Place | None = None
    ending: bool = False
    partial: bool = False  # "ending last rep at **"


def read_times(cursor: Cursor, *, bare: bool = False) -> tuple[Number, str] | None:
    """times = "x" N ["times"] | N ("x" | "times" | "times more" | "more times") | "twice" ["more"] | "(6x)" | bare N.

    Returns the number and what it counts: "all", or "more" where the writer says so. Nothing is read where none stands.
    """
    at = cursor.at
    cursor.accept(".") if cursor.peek(1) == "x" else None
    total = cursor.phrase(("for a total of", "a total of", "in total", "total of")) is not None
    if cursor.accept("x", "*"):
        number = cursor.number()
        if number is not None:
            cursor.accept("times", "time")
            return number, _more(cursor) or "all"
        cursor.at = at
        return None
    if cursor.peek() in TIMES_WORDS:
        token = cursor.token()
        assert token is not None
        cursor.at += 1
        counting = _more(cursor) or "all"
        if total:
            counting = "all"
        return Number(token.start, token.end, (TIMES_WORDS[token.text],), word=True), counting
    if cursor.peek() in ("(", "[") and (found := _in_bracket(cursor)):
        return found
    number = cursor.number()
    if number is None:
        cursor.at = at
        return None
    more = "more" if cursor.accept("more", "further", "additional") else ""
    if cursor.accept(*_TIMES):
        if _stitch_follows_x(cursor):
            cursor.at = at
            return None
        more = more or _more(cursor)
        total = total or cursor.phrase(("in total", "total", "in all", "altogether")) is not None
        return number, "all" if total else more or "all"
    if bare and not more and _ends(cursor):
        return number, "all"
    cursor.at = at
    return None


def _stitch_follows_x(cursor: Cursor) -> bool:
    """"5 x sc" multiplies what follows, not what came before."""
    return cursor.tokens[cursor.at - 1].text == "x" and (cursor.match_stitch() is not None or cursor.peek() in ("(", "["))


def _more(cursor: Cursor) -> str:
    return "more" if cursor.accept("more", "again") else ""


def _in_bracket(cursor: Cursor) -> tuple[Number, str] | None:
    opening = cursor.token()
    if opening is None or opening.mate < 0 or opening.mate - cursor.at > 4:
        return None
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
    found = read_times(inside)
    if found is None or not inside.done:
        return None
    cursor.at = opening.mate + 1
    return found


def _ends(cursor: Cursor) -> bool:
    return cursor.done or cursor.peek() in (",", ";", ".", ")", "]", "}", ">", "(", "and", "=")


def read_extent(cursor: Cursor, *, star: bool = False) -> Extent | None:
    """extent = [","] ["rep" ["from * to *"]] (times | stretch | "ending with" ...) | "rep" alone.

    With *star* a plain number of times behind "rep from *" is the question star-repeat.
    """
    at = cursor.at
    repeated = _repeat_words(cursor)
    found = read_times(cursor, bare=not repeated)
    if found is not None:
        number, counting = found
        if repeated and number.values == (1,) and counting == "all":
            counting = "more"  # "2 sc, inc, rep once": twice in all
        if not (partial := _partial(cursor)) and repeated:
            _ending(cursor)  # "rep from * 5 more times, ending with sl st in first st": what follows the repeats
        return Extent(number, _star_counting(number, counting, star, cursor, at), partial=partial)
    if not repeated and cursor.accept(","):
        found = read_times(cursor) if cursor.is_number() else None
        if found is not None:
            return Extent(*found)
        if not _repeat_words(cursor):
            cursor.at = at
            return None
        repeated = True
        found = read_times(cursor, bare=True)
        if found is not None:
            return Extent(found[0], _star_counting(*found, star, cursor, at))
    place_at = cursor.at
    place = read_place(cursor)
    if place is not None and (place.kind in ("rest", "to_last", "to_space") and not (place.each and not repeated) or not repeated):
        partial = _partial(cursor)
        return Extent(place=place, ending=not partial and _ending(cursor), partial=partial)
    cursor.at = place_at
    partial = _partial(cursor)
    ending = not partial and _ending(cursor)
    if repeated or ending or partial:
        return Extent(ending=ending, partial=partial)
    cursor.at = at
    return None


def _star_counting(number: Number, counting: str, star: bool, cursor: Cursor, at: int) -> str:
    if counting == "more" or not star:
        return counting
    if number.word and number.value == 1:
        return "more"
    total = any(token.text == "total" for token in cursor.tokens[at : cursor.at])
    return "all" if total else "star"


def _repeat_words(cursor: Cursor) -> bool:
    """"rep", "repeat from * to *", "rep bet **", "repeat between *'s", "rep from *-*" """
    at = cursor.at
    cursor.accept(",", ";", ".") if cursor.peek(1) in REPEAT_WORDS else None
    if not cursor.accept(*REPEAT_WORDS):
        cursor.at = at
        return False
    if cursor.peek(1) in ("rnd", "rnds", "row", "rows", "round", "rounds") or cursor.peek() in ("rnd", "rnds", "row", "rows", "round", "rounds"):
        cursor.at = at
        return False
    cursor.accept("this", "these", "it", "sequence", "pattern")
    if cursor.accept("from", "between", "bet", "btw", "btwn", "to", "the", "*") or cursor.peek() in MARKS or cursor.peek() in ("(", "["):
        if cursor.tokens[cursor.at - 1].text == "to" and cursor.peek() not in MARKS:
            cursor.at -= 1
        _skip_marks(cursor)
    return True


def _skip_marks(cursor: Cursor) -> None:
    """Reads "* to *", "*-*", "**", "*'s", "the *", "( )": which stretch is repeated, which the marks show anyway."""
    while not cursor.done:
        token = cursor.token()
        assert token is not None
        if token.text in MARKS or token.text in ("'", "first", "asterisk", "asterisks", "beginning", "start", "stars", "star") or token.text in ("-", "to", "the", "and", "'s") and cursor.peek(1) in (*MARKS, "asterisk") or token.text == "s" and cursor.tokens[cursor.at - 1].text == "'":
            cursor.at += 1
        elif token.text in ("(", "[") and cursor.peek(1) in (")", "]"):
            cursor.at += 2
        else:
            break


def _partial(cursor: Cursor) -> bool:
    """", ending last rep at **": the last repeat stops at the double star."""
    at = cursor.at
    cursor.accept(",", ";")
    cursor.accept("and")
    if cursor.accept("ending", "end", "ends"):
        cursor.accept("the")
        if cursor.accept("last", "final") and cursor.accept("rep", "repeat", "repetition") and cursor.accept("at", "with", "on") and cursor.peek() in MARKS:
            _skip_marks(cursor)
            return True
    cursor.at = at
    return False


def _ending(cursor: Cursor) -> bool:
    """"ending with", ", end with", "ending": what follows closes the last repeat."""
    at = cursor.at
    cursor.accept(",", ";")
    if cursor.accept("ending", "end", "ends"):
        if cursor.phrase(("last rep in top of tch", "last repeat in top of tch", "last rep in tch", "last rep in top of turning ch", "last rep in the top of the tch", "last rep with sc in top of tch", "last rep in last st", "last rep in last sc", "last rep in last dc")):
            return False
        cursor.accept("with", "in", "by", "on")
        if not cursor.done:
            return True
    cursor.at = at
    return False

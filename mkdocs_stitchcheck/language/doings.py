"""Steps that are not stitches: join, turn, change colour, leave stitches, refer to other rounds, stuff, sew, fasten off."""

from __future__ import annotations

from .as_before import AGAIN, read_again
from .changing_color import read_color
from .clauses import to_break
from .cursor import Cursor
from .growth import LEADS, read_growth
from .joins import HOLDS, JOINS, read_held, read_join, read_on_the_hook
from .leaving import REST_LEFT, read_fewer, read_leave, read_only_these
from .loops import LOOP_STARTS, loop_here
from .named_pieces import other_side_words
from .phrases import FirstWords, Phrases
from .places import read_place
from .repeats import color_key
from .shaping import read_until, same_time, until_measure
from .syntax import Aside, Loops, OtherSide, Place, Spread, StartAt, Step, Trust, Turn, Work
from .vocabulary import stitches, together
from .words import DOINGS, EVEN, MEASURED, OTHER_SIDE, TRUST, TURN_WORDS

_DOINGS, _TRUST, _OTHER_SIDE, _EVEN = Phrases(DOINGS), Phrases(TRUST), Phrases(OTHER_SIDE), Phrases(EVEN)


def read_doing(cursor: Cursor) -> list[Step] | None:
    """Tries every kind of step that is no stitch; None where none stands here."""
    at = cursor.at
    for reader in _READERS.at(cursor.token()):
        found = reader(cursor)
        if found is not None:
            return found
        cursor.at = at
    return None


def _last_into_top(cursor: Cursor) -> list[Step] | None:
    """"working last st into top of tch", ", ending with dc in top of tch": where the last of the stitches goes."""
    start = cursor.start
    if cursor.phrase(("working last st", "working the last st", "work last st", "last st worked", "ending with a st", "with last st")):
        if read_place(cursor) is not None:
            return [Aside(start, cursor.end, "remark")]
        return None
    if cursor.phrase(("ending with", "ending")):
        cursor.number(article=True)
        matched = cursor.match_stitch()
        if matched is not None:
            cursor.at += matched[1]
            place = read_place(cursor)
            if place is not None and place.noun == "turning chain":
                return [Aside(start, cursor.end, "remark")]
    return None


def _drawn_up(cursor: Cursor) -> list[Step] | None:
    """"draw up a lp in each of next 2 sc, yo and draw through all 3 lps (- dec made)": a decrease in long words."""
    start = cursor.start
    if cursor.phrase(("draw up a lp in", "draw up a loop in", "draw up lp in", "draw up a lp", "pull up a loop in", "pull up a lp in")) is None:
        return None
    place = read_place(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at - 1, cursor.stop))
    number = place.number.value if place is not None and place.number is not None else 2
    while not cursor.done and cursor.peek() not in ("lps", "loops"):
        cursor.at += 1
    if cursor.done or not 2 <= number <= 100:
        return None
    cursor.at += 1
    cursor.phrase(("on hook", "on the hook"))
    while cursor.accept("-"):
        pass
    cursor.phrase(("dec made", "decrease made", "sc dec made"))
    return [Work(start, cursor.end, together(stitches()["sc"], number))]


def _in_stitch(cursor: Cursor) -> list[Step] | None:
    """"work in sc (for 8 rows)": every stitch of the round is of that kind."""
    start = cursor.start
    if not (cursor.accept("work", "crochet", "continue") and cursor.accept("even", "in", "straight")):
        return None
    cursor.accept("in")
    matched = cursor.match_stitch()
    if matched is None or matched[0].kind not in ("plain", "post"):
        return None
    cursor.at += matched[1]
    if cursor.peek() not in ("", ",", ".", ";", "for", "around", "across", "until", "("):
        return None
    place = read_place(cursor) or Place(start, cursor.end, "rest")
    return [Work(start, cursor.end, matched[0], None, place)]


def _spread(cursor: Cursor) -> list[Step] | None:
    """"increasing 4 sts evenly spaced", "decreasing 6 sts evenly": so many more or fewer over the whole round."""
    start = cursor.start
    if not cursor.accept("increasing", "decreasing"):
        return None
    stitch = stitches()["inc" if cursor.tokens[cursor.at - 1].text == "increasing" else "dec"]
    evenly = cursor.accept("evenly")
    number = cursor.number()
    if number is None:
        return None
    if evenly and cursor.accept("times"):
        return [Spread(start, cursor.end, number, stitch)]
    cursor.accept("st", "sts", "stitches")
    if not cursor.phrase(("evenly spaced apart", "evenly spaced", "evenly")):
        return None
    read_place(cursor)
    return [Spread(start, cursor.end, number, stitch)]


def _trust(cursor: Cursor) -> list[Step] | None:
    start = cursor.start
    phrase = cursor.phrase(_TRUST)
    if phrase is None:
        return None
    if phrase == "at the same time":
        return same_time(cursor, start)
    to_break(cursor)
    while cursor.peek() == "," and cursor.peek(1) in ("ending", "end", "finishing"):
        cursor.at += 1
        to_break(cursor)
    if TRUST[phrase] in MEASURED:
        return [until_measure(cursor, start, TRUST[phrase] == "for a length", TRUST[phrase])]
    return [Trust(start, cursor.end, TRUST[phrase])]


def _other_side(cursor: Cursor) -> list[Step] | None:
    start, at = cursor.start, cursor.at
    cursor.accept("now", "then", "continue", "continuing", "working", "work", "and")
    cursor.accept("work", "working")
    cursor.accept("back")
    if not other_side_words(cursor) and cursor.phrase(_OTHER_SIDE) is None:
        cursor.at = at
        return None
    cursor.accept(":")
    return [OtherSide(start, cursor.end)]


def _turn(cursor: Cursor) -> list[Step] | None:
    if not cursor.accept(*TURN_WORDS):
        return None
    start = cursor.tokens[cursor.at - 1].start
    if cursor.peek() in ("inside", "right", "upside"):
        to_break(cursor)
        return [Aside(start, cursor.end, "remark")]
    cursor.phrase(("the work", "work", "your work", "the piece", "piece"))
    if cursor.is_number(words=False):
        to_break(cursor)
        return [Aside(start, cursor.end, "remark")]
    cursor.phrase(("each row", "every row", "at the end of each row"))
    return [Turn(start, cursor.end)]


def _even(cursor: Cursor) -> list[Step] | None:
    start = cursor.start
    if cursor.phrase(_EVEN) is None:
        return None
    place = read_place(cursor) or Place(start, cursor.end, "rest")
    return [Work(start, cursor.end, stitches()["sc"], None, place)]


def _loops(cursor: Cursor) -> list[Step] | None:
    start = cursor.start
    loop = loop_here(cursor)
    if not loop:
        return None
    cursor.phrase(("from here", "from here on", "throughout", "for this round", "of this round", "of this row", "for this rnd", "only", "on this row only", "of each st", "of sts", "of all sts"))
    cursor.accept(":", ",")
    return [Loops(start, cursor.end, loop)]


def _start_at(cursor: Cursor) -> list[Step] | None:
    """"from the 2nd ch from hook: 23 sc", "in the free front loops of Rnd 9: sc around" """
    start = cursor.start
    cursor.accept("starting", "beginning", "start", "begin", "working", "work")
    place = read_place(cursor)
    if place is None or place.kind not in ("chain", "loops"):
        return None
    cursor.accept(":", ",")
    return [StartAt(start, cursor.end, place)]


def _aside(cursor: Cursor) -> list[Step] | None:
    """A doing from the table, up to the end of its clause; it may not swallow stitches."""
    start, at = cursor.start, cursor.at
    cursor.accept("and", "then", "now")
    phrase = cursor.phrase(_DOINGS)
    if phrase is None:
        cursor.at = at
        return None
    kind = DOINGS[phrase]
    if kind == "fasten-off" and color_key(cursor) is not None:
        kind = "yarn"  # "Fasten off A.": one colour ends, not the piece
    if kind == "offset":
        cursor.accept("+")
        cursor.number()
        return [Aside(start, cursor.end, "remark")]
    to_break(cursor, strict=kind == "remark")
    return [Aside(start, cursor.end, kind)]


_SIDE_STARTS = (
    "now", "then", "continue", "continuing", "working", "work", "and", "back", "on", "along", "down", "in", "around", "to", "up",
)  # fmt: skip
_READERS = FirstWords(
    (read_growth, LEADS),
    (_last_into_top, ("working", "work", "last", "ending", "with")),
    (_drawn_up, ("draw", "pull")),
    (_in_stitch, ("work", "crochet", "continue")),
    (_spread, ("increasing", "decreasing")),
    (read_held, HOLDS),
    (read_on_the_hook, ("with", "from", "starting", "start", "beginning", "continuing", "continue", "working", "still", "now", "keep", "keeping", "on")),
    (_trust, _TRUST.index),
    (read_until, ("until", "till")),
    (_other_side, (*_SIDE_STARTS, *_OTHER_SIDE.index)),
    (_turn, TURN_WORDS),
    (read_color, None),  # any word may be a colour's
    (read_again, AGAIN.index),
    (read_leave, ("leave", "leaving", *REST_LEFT.index)),
    (read_only_these, ("work", "working", "continue", "continuing")),
    (read_fewer, ("work", "working", "doing")),
    (read_join, JOINS.index),
    (_even, _EVEN.index),
    (_loops, LOOP_STARTS),
    (_start_at, None),
    (_aside, ("and", "then", "now", *_DOINGS.index)),
)

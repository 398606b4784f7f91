"""Steps that are not stitches: join, turn, change colour, leave stitches, refer to other rounds, stuff, sew, fasten off."""

from __future__ import annotations

from .cursor import Cursor, FirstWords, Phrases, Unreadable
from .multipliers import MARKS, REPEAT_WORDS, read_times
from .places import LOOP_STARTS, loop_here, other_side_words, piece_here, read_place
from .references import read_piece_name, read_reference, round_word
from .repeats import color_key
from .shaping import read_until, same_time, until_measure
from .stitchwork import is_measure
from .syntax import (
    Again,
    Aside,
    ColorChange,
    Join,
    Leave,
    Loops,
    OtherSide,
    Place,
    Reference,
    Spread,
    StartAt,
    Step,
    Trust,
    Turn,
    Work,
)
from .tokens import OPENING
from .vocabulary import stitches, together
from .words import DOINGS, EVEN, MEASURED, OTHER_SIDE, TRUST, TURN_WORDS

_BREAKS = (",", ";", ".", ":")
_DOINGS, _TRUST, _OTHER_SIDE, _EVEN = Phrases(DOINGS), Phrases(TRUST), Phrases(OTHER_SIDE), Phrases(EVEN)
_CHANGES = Phrases((
    "change to", "switch to", "change color to", "change colour to", "change yarn to", "changing to", "changing color to",
    "change colors to", "change into", "switching to", "swap to", "change col to", "change back to", "switch back to",
    "join in", "changing colour to", "change over to", "turn to color", "change to the",
))  # fmt: skip
_LAST_STITCH = Phrases((
    "in last st", "in the last st", "in last stitch", "in the last stitch", "in last yo", "in the last yo", "in last yo of rnd",
    "in last yo of round", "in last yo of last st", "on last st", "on the last st", "at last st", "in last sc", "in the last sc",
    "in last loop", "with last st", "in last pull through", "on last yo", "in last step", "in last st of rnd", "in last st of round",
    "in last yo of last sc", "during last st", "while working last st", "at end of rnd", "at end of round", "at the end of the round",
    "at the end of the rnd", "in last yoh", "in the last yo of the round", "in the last stitch of the round", "at the end",
))  # fmt: skip
_PLAIN_CHANGES = Phrases(("change color", "change colour", "change colors", "change colours", "change yarn", "switch colors", "switch colours", "change col", "switch color", "switch colour", "changing color", "changing colour"))
_JOINS = Phrases((
    "join with a sl st", "join with sl st", "join with ss", "join with slst", "join with a ss", "join with slip st", "join with a slip stitch",
    "join with slip stitch", "invisible join", "inv join", "seamless join", "join rnd", "join round", "join",
    "joined", "rejoin", "attach yarn", "join yarn", "attach the yarn", "join new yarn", "rejoin yarn", "join the yarn",
    "re join", "reattach yarn", "re attach yarn", "joining", "invisibly join", "close with a sl st", "close with sl st",
    "close the round with a sl st", "close with a slip stitch", "close round with sl st", "connect", "connect it",
))  # fmt: skip


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
    _to_break(cursor)
    while cursor.peek() == "," and cursor.peek(1) in ("ending", "end", "finishing"):
        cursor.at += 1
        _to_break(cursor)
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


_HOLDS = ("hold", "holding", "place", "placing", "lay", "with", "put")
_HELD = Phrases((
    "together", "side by side", "next to each other", "flat together", "against each other", "right sides together",
    "wrong sides together", "with right sides together", "with wrong sides together", "on top of each other", "beside each other",
))  # fmt: skip


def _held(cursor: Cursor) -> list[Step] | None:
    """held = ("hold" | "with" ...) ["both" | "the two"] pieces ("together" | "side by side") | "hold" piece "against" piece"""
    start = cursor.start
    if not cursor.accept(*_HOLDS):
        return None
    cursor.accept("the", "your")
    cursor.accept("both", "two", "2")
    first = cursor.start
    name = piece_here(cursor, numbered=False)
    if not name:
        return None
    if cursor.accept("and", "&", "against", "to", "onto") and (other := piece_here(cursor, numbered=False)):
        name = name if other.lower() in ("body", "head") else other
    elif not cursor.phrase(_HELD):
        return None
    reference = Reference(first, cursor.end, (), name)
    cursor.phrase(_HELD)
    return [Aside(start, cursor.end, "held", reference)]


def _on_the_hook(cursor: Cursor) -> list[Step] | None:
    """"With the second leg still on your hook", "from the second leg": where the yarn is, before legs are joined."""
    start = cursor.start
    lead = cursor.accept("starting", "start", "beginning", "continuing", "continue", "working", "still", "now")
    if not cursor.accept("with", "from", "on", "keep", "keeping"):
        return None
    name = piece_here(cursor)
    if not name or name.lower() in ("ch", "chain", "bridge"):
        return None
    cursor.accept("still")
    hook = cursor.phrase(("on your hook", "on the hook", "on hook", "on your needle", "attached", "at hand"))
    if not (hook or lead or cursor.tokens[cursor.at - 1].end and cursor.statement.text[start:].lower().startswith("from")):
        return None
    if cursor.peek() not in ("", ",", ";", ".", ":", "and", "ch", "chain"):
        return None
    return [Aside(start, cursor.end, "held", Reference(start, cursor.end, (), name))]


def _turn(cursor: Cursor) -> list[Step] | None:
    if not cursor.accept(*TURN_WORDS):
        return None
    start = cursor.tokens[cursor.at - 1].start
    if cursor.peek() in ("inside", "right", "upside"):
        _to_break(cursor)
        return [Aside(start, cursor.end, "remark")]
    cursor.phrase(("the work", "work", "your work", "the piece", "piece"))
    if cursor.is_number(words=False):
        _to_break(cursor)
        return [Aside(start, cursor.end, "remark")]
    cursor.phrase(("each row", "every row", "at the end of each row"))
    return [Turn(start, cursor.end)]


def _color(cursor: Cursor) -> list[Step] | None:
    """color change = "change to" X ["in last st"] | "with" X | "in" X ":" | "color" X | X "yarn" """
    start = cursor.start
    if (called := color_key(cursor)) is not None and cursor.peek(called[1]) == "(" and cursor.tokens[cursor.at + called[1]].glued:
        cursor.at += called[1]  # "A(6 sc)": the bracket is worked in that colour
        return [ColorChange(start, cursor.end, called[0], called[0])]
    if cursor.phrase(_CHANGES):
        cursor.accept("the")
        return [_named_color(cursor, start)]
    if cursor.phrase(_PLAIN_CHANGES):
        last = cursor.phrase(_LAST_STITCH) is not None
        return [ColorChange(start, cursor.end, "", None, last)]
    lead = cursor.accept("with", "using", "in", "use", "join", "attach", "now", "continue")
    cursor.accept("with", "in") if lead else None
    cursor.accept("the") if lead else None
    if lead and cursor.peek() == "#" and cursor.is_number(1, words=False):
        cursor.at += 2  # "with #1234 (White)": the shade's number, then its name
        if cursor.peek() == "(" and cursor.tokens[cursor.at].mate > 0:
            inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, cursor.tokens[cursor.at].mate)
            named = color_key(inside)
            name = cursor.statement.text[inside.start : cursor.tokens[inside.stop - 1].end]
            cursor.at = inside.stop + 1
            return [ColorChange(start, cursor.end, named[0] if named else name, named[0] if named else None)]
        return [ColorChange(start, cursor.end, cursor.tokens[cursor.at - 1].text)]
    found = color_key(cursor)
    explicit = cursor.peek() in ("color", "colour", "col")
    if found is not None and (lead or explicit or cursor.peek(found[1]) in (":", "yarn", "", ",")):
        lead_word = cursor.tokens[cursor.at - 1].text if lead else ""
        cursor.at += found[1]
        cursor.accept("yarn")
        last = cursor.phrase(_LAST_STITCH) is not None
        if lead_word in ("join", "attach"):
            _to_break(cursor)
        return [ColorChange(start, cursor.end, found[0], found[0], last)]
    if explicit and cursor.token(1) is not None and cursor.peek(1) not in _BREAKS:
        return [_named_color(cursor, start)]
    if lead and cursor.tokens[cursor.at - 1].text in ("with", "using") and len(cursor.peek()) <= 2 and cursor.peek() in ("mc", "cc", "ca", "cb", "a", "b", "c", "d"):
        token = cursor.token()
        assert token is not None
        if cursor.statement.text[token.start].isupper() and not cursor.known_word():
            return [_named_color(cursor, start)]
    return None


def _named_color(cursor: Cursor, start: int) -> ColorChange:
    found = color_key(cursor)
    if found is not None:
        cursor.at += found[1]
        key: str | None = found[0]
        name = found[0]
    else:
        if cursor.accept("color", "colour", "col"):
            cursor.accept(".")
        first = cursor.start
        while not cursor.done and cursor.peek() not in (*_BREAKS, "(", ")", "[", "]", "in", "on", "at", "for", "and", "with", "yarn", "during", "then", *MARKS):
            cursor.at += 1
        name, key = cursor.statement.text[first : max(cursor.end, first)].strip(), None
    cursor.accept("yarn")
    last = cursor.phrase(_LAST_STITCH) is not None
    return ColorChange(start, cursor.end, name, key, last)


_AGAIN = Phrases((
    *REPEAT_WORDS, "as for", "as in", "as", "same as for", "same as", "same as in", "work as for", "work as", "work same as",
    "work the same as", "like", "work like", "the same as", "work", "follow", "is the same as", "work as in", "make as",
))  # fmt: skip


def _again(cursor: Cursor) -> list[Step] | None:
    """again = ("rep" | "as" | "same as" | "work as" | "work") ("Rnd 5" | "last 2 rows" | "other side") [times]"""
    start, at = cursor.start, cursor.at
    verb = cursor.phrase(_AGAIN)
    if verb is None:
        return None
    reference = _relative(cursor) or read_reference(cursor)
    if reference is None and verb in ("repeat", "rep", "rpt", "repeating") and cursor.phrase(("on the other side", "on other side", "for other side", "for the other side", "along the other side")):
        reference = Reference(cursor.end, cursor.end, (), "other side")
    if reference is None and "as" in verb.split() and cursor.peek() in ("for", "the", *(name.split()[0] for name in cursor.context.pieces)):
        first = cursor.start
        cursor.accept("for")
        name = read_piece_name(cursor)
        if name:
            reference = Reference(first, cursor.end, (), name)
            _as_far_as(cursor, reference)
    if reference is None:
        cursor.at = at
        return None
    cursor.phrase(("for pattern", "in order", "in sequence"))
    comma = cursor.at
    cursor.accept(",")
    found = read_times(cursor)
    if found is None:
        cursor.at = comma
    times, more = (found[0], found[1] == "more") if found else (None, False)
    if cursor.phrase(("more",)):
        more = True
    step = Again(start, cursor.end, reference, times, more)
    return [step, *_then_again(cursor)]


def _as_far_as(cursor: Cursor, reference: Reference) -> None:
    """"Same as left arm to Rnd 12": from its first round to that one."""
    at = cursor.at
    if cursor.accept("to", "through", "until", "up"):
        cursor.accept("to")
        upto = read_reference(cursor)
        if upto is not None and len(upto.rounds) == 1:
            reference.rounds, reference.numbers, reference.end = ((1, upto.rounds[0][1]),), upto.numbers, cursor.end
            return
    cursor.at = at


def _then_again(cursor: Cursor) -> list[Step]:
    """"..., then row 2", "; then Rows 4 and 5 once more", ", ending with rnd 8" (where the numbers say where it ends)."""
    at = cursor.at
    cursor.accept(",", ";", ".")
    if cursor.phrase(("ending with", "end with", "ending after", "ending on", "finishing with")):
        start = cursor.start
        cursor.accept("a", "an")
        if read_reference(cursor) is not None or cursor.accept("ws", "rs", "wrong", "right") and (cursor.accept("side") or True) and cursor.accept("row", "rnd", "round"):
            return [Aside(start, cursor.end, "remark")]
    elif cursor.accept("then", "and") and (cursor.accept("work", "repeat", "rep", "then") or True):
        start = cursor.start
        reference = read_reference(cursor)
        if reference is not None:
            found = read_times(cursor)
            cursor.accept("more")
            return [Again(start, cursor.end, reference, found[0] if found else None), *_then_again(cursor)]
    cursor.at = at
    return []


def _relative(cursor: Cursor) -> Reference | None:
    """"last row", "last 2 rnds", "previous round": counted back from here."""
    at, start = cursor.at, cursor.start
    cursor.accept("the", "these", "those")
    if cursor.accept("last", "previous", "prev", "preceding", "these"):
        number = cursor.number()
        if round_word(cursor):
            count = number.value if number else 1
            return Reference(start, cursor.end, ((-count, -1),), "", "", (number,) if number else ())
    cursor.at = at
    return None


_REST_LEFT = Phrases((
    "rest left unworked", "the rest left unworked", "rest is left unworked", "the rest is left unworked", "rest unworked",
    "remaining sts left unworked", "remaining sts are left unworked", "rest of sts left unworked", "rem sts left unworked",
    "rest of the sts left unworked", "remaining stitches left unworked", "rest of round left unworked", "rest of row left unworked",
))  # fmt: skip


def _only_these(cursor: Cursor) -> list[Step] | None:
    """"work on these 20 sts only": the others wait."""
    start = cursor.start
    if not cursor.accept("work", "working", "continue", "continuing") or not (cursor.accept("on", "over", "across") or cursor.accept("working") and cursor.accept("on", "over")):
        return None
    only = cursor.accept("only", "just")
    cursor.accept("these", "those", "the", "this")
    cursor.accept("first", "next", "last")
    number = cursor.number()
    if number is None or not cursor.accept("st", "sts", "stitches", "stitch", "sc", "dc", "hdc"):
        return None
    if not (cursor.accept("only", "alone", "for now") or only):
        return None
    return [Leave(start, cursor.end, None, number)]


def _fewer_each_row(cursor: Cursor) -> list[Step] | None:
    """"work 1 st less each row": so many stay at the end of every row."""
    start = cursor.start
    cursor.accept("work", "working", "doing")
    number = cursor.number()
    if number is None:
        return None
    cursor.accept("st", "sts", "stitch", "stitches")
    if not cursor.accept("less", "fewer") or not cursor.phrase(("each row", "every row", "in each row", "in every row", "each time", "on each row", "each rnd", "each round")):
        return None
    return [Leave(start, cursor.end, number)]


def _leave(cursor: Cursor) -> list[Step] | None:
    """leave = "leave" ["rem" | "last"] [N] noun ["unworked"] | "leaving the rest unworked"; a tail is no stitch."""
    start = cursor.start
    if cursor.phrase(_REST_LEFT):
        return [Leave(start, cursor.end)]
    if not cursor.accept("leave", "leaving"):
        return None
    words = [token.text for token in cursor.tokens[cursor.at : _clause_end(cursor)]]
    if any(word in ("tail", "tails", "yarn", "long", "cm", "inch", "inches", "end", "ends", "mm", "in", "thread") for word in words):
        return None
    if not any(word in ("rem", "remaining", "rest", "unworked", "last", "st", "sts", "stitches", "unused") or word.isdigit() for word in words):
        return None
    cursor.phrase(("the", "the rest of the", "the rest of", "rest of", "rest of the"))
    cursor.accept("rem", "remaining", "last", "final", "next", "rest", "other")
    number = cursor.number()
    matched = cursor.match_stitch()
    if matched is not None:
        cursor.at += matched[1]
    cursor.accept("st", "sts", "stitches", "stitch", "row", "round")
    cursor.phrase(("of row unworked", "of the row unworked", "of the sts unworked", "unworked", "unused", "free", "of round unworked", "of the round unworked", "of sts unworked", "unworked for now"))
    return [Leave(start, cursor.end, number)]


def _clause_end(cursor: Cursor) -> int:
    index = cursor.at
    while index < cursor.stop and cursor.tokens[index].text not in (",", ";", "."):
        index += 1
    return index


def _join(cursor: Cursor) -> list[Step] | None:
    """join = "join" ["with" (slip stitch | stitch)] ["in" place | "to" piece] """
    start = cursor.start
    if cursor.phrase(_JOINS) is None:
        return None
    at = cursor.at
    place = read_place(cursor)
    if place is not None and place.kind == "loops":
        return [Join(start, cursor.end, None, place.reference)]
    cursor.at = at
    end = _clause_end(cursor)
    join = Join(start, cursor.end)
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, end)
    while not inside.done:
        if inside.peek() == ":":
            break
        if inside.accept("with", "by"):
            inside.accept("a", "an")
            matched = inside.match_stitch()
            if matched is not None and matched[0].kind in ("plain", "post"):
                join.stitch = matched[0]
        elif inside.peek() == "and" and (inside.match_stitch(1) is not None or inside.is_number(1)) or inside.peek() in OPENING or inside.peek() in MARKS or inside.peek() in (")", "]", "}"):
            break
        elif inside.accept("to", "into"):
            first = inside.start
            if inside.peek() in ("first", "second", "other", "leg", "body", "the") or inside.peek() in cursor.context.pieces:
                name = read_piece_name(inside)
                if "leg" in name.split() or name.lower() in cursor.context.pieces:
                    join.reference = Reference(first, inside.end, (), name)
        else:
            reference = read_reference(inside)
            if reference is not None:
                join.reference = reference
            else:
                inside.at += 1
    cursor.at = inside.at
    join.end = cursor.end
    return [join]


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
    _to_break(cursor, strict=kind == "remark")
    return [Aside(start, cursor.end, kind)]


def _to_break(cursor: Cursor, strict: bool = False) -> None:
    """Reads to the end of the clause, or to "and" before a stitch. With *strict*, a stitch or number in it is an error."""
    while not cursor.done:
        token = cursor.token()
        assert token is not None
        if token.text in _BREAKS and not (token.text in ".," and cursor.is_number(1, words=False) and cursor.tokens[cursor.at + 1].glued):
            if token.text in ",:" and _clause_goes_on(cursor):
                cursor.at += 1
                continue
            return
        if token.text in ("and", "then", "&") and _stitch_work(cursor, 1):
            return
        if token.text in OPENING and token.mate > cursor.at:
            inner = cursor.tokens[cursor.at + 1 : token.mate]
            if any(t.kind == "number" for t in inner):
                return
            cursor.at = token.mate + 1
            continue
        if token.text in (")", "]", "}"):
            return
        if strict and (token.kind == "number" and not is_measure(cursor)):
            raise _swallowed(cursor)
        cursor.at += 1


def _clause_goes_on(cursor: Cursor) -> bool:
    """"..., with 6 stitches between them", ", 6 sts apart": still the same doing."""
    following = cursor.peek(1)
    if following in ("with", "about", "leaving", "approximately", "approx") and not _stitch_work(cursor, 2):
        return following != "leaving"
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, cursor.stop)
    return is_measure(probe)


def _stitch_work(cursor: Cursor, ahead: int) -> bool:
    """Whether stitches to be worked begin so many tokens ahead."""
    if cursor.is_number(ahead):
        matched = cursor.match_stitch(ahead + 1)
        return matched is not None
    matched = cursor.match_stitch(ahead)
    return matched is not None and cursor.peek(ahead) not in ("loop", "close", "chain", "skip")


def _swallowed(cursor: Cursor) -> Unreadable:
    token = cursor.tokens[cursor.at]
    shown = cursor.statement.text[token.start : token.end]
    return Unreadable(
        "unreadable-line", token.start, token.end,
        f"I can't tell what the number {shown} counts here.",
        "Write it as a stitch, or put the remark on a line of its own that begins with >.",
    )  # fmt: skip


_SIDE_STARTS = (
    "now", "then", "continue", "continuing", "working", "work", "and", "back", "on", "along", "down", "in", "around", "to", "up",
)  # fmt: skip
_READERS = FirstWords(
    (_last_into_top, ("working", "work", "last", "ending", "with")),
    (_drawn_up, ("draw", "pull")),
    (_in_stitch, ("work", "crochet", "continue")),
    (_spread, ("increasing", "decreasing")),
    (_held, _HOLDS),
    (_on_the_hook, ("with", "from", "starting", "start", "beginning", "continuing", "continue", "working", "still", "now", "keep", "keeping", "on")),
    (_trust, _TRUST.index),
    (read_until, ("until", "till")),
    (_other_side, (*_SIDE_STARTS, *_OTHER_SIDE.index)),
    (_turn, TURN_WORDS),
    (_color, None),  # any word may be a colour's
    (_again, _AGAIN.index),
    (_leave, ("leave", "leaving", *_REST_LEFT.index)),
    (_only_these, ("work", "working", "continue", "continuing")),
    (_fewer_each_row, ("work", "working", "doing")),
    (_join, _JOINS.index),
    (_even, _EVEN.index),
    (_loops, LOOP_STARTS),
    (_start_at, None),
    (_aside, ("and", "then", "now", *_DOINGS.index)),
)

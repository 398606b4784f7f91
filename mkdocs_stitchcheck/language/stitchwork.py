"""Stitches as steps: "sc 5", "5 sc", "inc x 6", "2 dc in next st", "sc2tog", "ch 3 (counts as dc)", "sk 2", "sl st to join"."""

from __future__ import annotations

from .. import late_re as re
from . import vocabulary
from .composed import spelled_out
from .cursor import Cursor, Phrases, Unreadable
from .multipliers import MARKS, read_times
from .near import all_nearest, distance
from .places import loop_here, other_side_words, piece_here, read_first, read_place
from .references import read_reference
from .repeats import Reader, color_key
from .space_places import read_space_name, space_ahead
from .syntax import (
    Aside,
    Chain,
    Group,
    Join,
    More,
    Number,
    OtherSide,
    Place,
    Reference,
    Repeat,
    Ring,
    Spread,
    StartAt,
    Step,
    Trust,
    Work,
)
from .tokens import OPENING
from .vocabulary import Stitch
from .words import NOUNS, PREPOSITIONS, RING_ADJECTIVES, RING_CODES, RING_NOUNS, TIMES_WORDS

_MEASURE = ("cm", "mm", "m", "in", "inch", "inches", "g", "oz", "yd", "yards", '"', "'", "%")
_NOTHING_FOLLOWS = frozenset((",", ";", ")", "]", ""))  # signs at which all that may stand behind a stitch is at an end
_APART = ("apart", "between", "visible", "away", "free", "wide")
_JOIN_TARGETS = ("top", "beg", "beginning", "first", "1st", "join", "joining", "ch", "starting", "next")
_SKIPPED = re.compile(r"\s*,?\s*(?:skipping|skip|sk)\s+(?:the\s+)?(?:middle|center|centre)(?:\s+(?:st|stitch|one))?", re.IGNORECASE)
_NOT_COUNTED = Phrases((
    "does not count", "doesn't count", "do not count", "don't count", "not counted", "not a st", "not a stitch", "not count",
    "not counting", "does not", "never counts", "won't count", "is not counted", "are not counted", "not counts", "no st",
))  # fmt: skip
_COUNTED = Phrases(("counts as", "count as", "counting as", "counts", "count", "counted as", "=", "is", "equals", "acts as", "counted", "replaces"))


def read_number_first(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    """number-first = N ["x"] stitch ... | N ["x"] "(" steps ")" [place] | N color | N "in" ring | N (plain stitches)"""
    if not (cursor.is_number() or cursor.peek() in ("a", "an")):
        return None
    start, at = cursor.start, cursor.at
    article = cursor.match_stitch() is None and cursor.match_stitch(1) is not None
    number = cursor.number(article=article)
    if number is None:
        return None
    if cursor.peek() == "'" and cursor.tokens[cursor.at].glued and cursor.match_stitch(1) is not None:
        cursor.at += 1
    multiplied = cursor.accept("x", "times")
    if multiplied and cursor.peek() == ":":
        cursor.at = at
        return None
    if cursor.peek() in OPENING and cursor.tokens[cursor.at].mate >= 0:
        return _prefixed(cursor, start, number, read_steps)
    found = color_key(cursor)
    if found is not None and (multiplied or not cursor.known_word()):
        cursor.at += found[1]
        return [Work(start, cursor.end, vocabulary.stitches()["sc"], number, number_first=True, color=found[0])]
    if cursor.peek() == "-" and (group := _wide(cursor, start, number)):
        return group
    if cursor.peek() in ("st", "sts", "stitches") and (worked_in := _of_both(cursor, start, number)):
        return worked_in
    matched = cursor.match_stitch()
    if matched is not None:
        glued = cursor.tokens[cursor.at].glued
        cursor.at += matched[1]
        return _after_stitch(cursor, start, matched[0], number, True, glued, multiplied)
    return _plain(cursor, start, at, number)


def _of_both(cursor: Cursor, start: int, number: Number) -> list[Step] | None:
    """"4 sts of arm and 4 sts of body worked together": as "sc 4 through arm and body" """
    at = cursor.at
    cursor.at += 1
    if cursor.accept("of", "from", "on"):
        name = piece_here(cursor, numbered=False)
        if name and cursor.accept("and", "&", "with") and (second := cursor.number()) is not None and cursor.accept("st", "sts", "stitches"):
            other = piece_here(cursor, numbered=False) if cursor.accept("of", "from", "on") else ""
            cursor.accept("are")
            if other and cursor.phrase(("worked together", "together", "worked tog", "tog", "joined", "joined together", "crocheted together")):
                if second.values != number.values:
                    raise Unreadable(
                        "join-mismatch", second.start, second.end, f"{number.value} stitches can't be worked together with {second.value}.",
                        f"Write {number.value} for both, or say how they are worked.",
                    )  # fmt: skip
                limb = name if other.lower() in ("body", "head") else other
                place = Place(start, cursor.end, "piece", number, layers=2, reference=Reference(start, cursor.end, (), limb))
                return [Work(start, cursor.end, vocabulary.stitches()["sc"], None, place)]
    cursor.at = at
    return None


def _prefixed(cursor: Cursor, start: int, number: Number, read_steps: Reader) -> list[Step]:
    """"6 x (2 sc, inc)", "6(2 sc, inc)", "6 (sc, ch 2) in ring" """
    opening = cursor.tokens[cursor.at]
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
    inside.depth = cursor.depth + 1
    body = tuple(read_steps(inside))
    cursor.at = opening.mate + 1
    place = read_place(cursor)
    if place is not None and place.kind not in ("rest", "to_last"):
        return [Group(start, cursor.end, body, place, number)]
    return [Repeat(start, cursor.end, body, number, mark=opening.text)]


def _wide(cursor: Cursor, start: int, number: Number) -> list[Step] | None:
    """"3-in-1", "3-to-1 dec", "5-dc bobble", "3-dc cl" """
    at = cursor.at
    cursor.at += 1
    if cursor.accept("in", "to") and cursor.accept("-") and cursor.peek() == "1":
        down = cursor.tokens[cursor.at - 2].text == "to"
        cursor.at += 1
        base = vocabulary.stitches()["sc"]
        cursor.accept("dec", "decrease", "inc", "increase")
        stitch = vocabulary.together(base, number.value) if down else vocabulary.increase(base, number.value)
        return _after_stitch(cursor, start, stitch, None, False, True, False)
    matched = cursor.match_stitch()
    if matched is not None:
        cursor.at += matched[1]
        cursor.accept("-")
        group = cursor.match_stitch()
        if group is not None and group[0].kind == "group":
            cursor.at += group[1]
            return _after_stitch(cursor, start, group[0], None, False, False, False)
        if matched[0].kind == "group":
            return _after_stitch(cursor, start, matched[0], None, False, False, False)
        if cursor.tokens[at].glued:
            return _after_stitch(cursor, start, matched[0], number, True, False, False)
    cursor.at = at
    return None


def _plain(cursor: Cursor, start: int, at: int, number: Number) -> list[Step] | None:
    """"24" or "24 sts" as a whole step, "6 in magic circle": plain stitches whose name is left out."""
    stitch = vocabulary.stitches()["sc"]
    noun = cursor.peek() in ("st", "sts", "stitches")
    if noun and cursor.peek(1) in ("less", "fewer"):
        cursor.at = at
        return None
    if noun and cursor.peek(1) not in _APART:
        cursor.at += 1
    elif cursor.peek() in ("in", "into") or (noun and cursor.peek(1) not in _APART):
        pass
    elif not (cursor.done or cursor.peek() in (",", ";", ".", ")", "]", "}", ">", "(", "+", *MARKS) or cursor.is_number()):
        cursor.at = at
        return None
    place = read_place(cursor)
    tip = place is not None and place.kind == "last" and place.noun == "chain"
    if place is not None and place.kind != "ring" and not noun and not tip:
        cursor.at = at
        return None
    return [Work(start, cursor.end, stitch, number, place, number_first=True)]


def read_stitch_first(cursor: Cursor, read_steps: Reader) -> list[Step] | None:
    """stitch-first = stitch ["x"] [N] [loop] [place] [times]"""
    matched = cursor.match_stitch()
    if matched is None:
        return _glued_x(cursor)
    start = cursor.start
    standing = cursor.peek() in ("standing", "chainless")
    cursor.at += matched[1]
    if standing:  # the yarn is joined with it
        return [Join(start, start), *_after_stitch(cursor, start, matched[0], None, False, False, False)]
    return _after_stitch(cursor, start, matched[0], None, False, False, False)


def _glued_x(cursor: Cursor) -> list[Step] | None:
    """"incx6": the multiplication sign is glued to the stitch."""
    token, after = cursor.token(), cursor.token(1)
    if token is None or after is None or not token.text.endswith("x") or after.kind != "number":
        return None
    stitch = vocabulary.words(cursor.context.system).get((token.text[:-1],))
    if stitch is None:
        return None
    cursor.at += 1
    number = cursor.number()
    return [Work(token.start, cursor.end, stitch, number)]


def _after_stitch(
    cursor: Cursor, start: int, stitch: Stitch, number: Number | None, first: bool, glued: bool, multiplied: bool
) -> list[Step]:
    following = cursor.peek()
    if following == "." and (cursor.is_number(1, words=False) and number is None or cursor.peek(1) in ("in", "into")):
        cursor.at += 1
    if stitch.kind == "chain":
        return _chain(cursor, start, number)
    if stitch.kind == "skip":
        return _skip(cursor, start, stitch, number)
    if following in _NOTHING_FOLLOWS and stitch.kind != "slip" and _SKIPPED.match(cursor.statement.text, cursor.end) is None:
        return [spelled_out(Work(start, cursor.end, stitch, number, loop=stitch.loop, number_first=first, glued=glued))]
    stitch, number, glued = _family(cursor, stitch, number, glued)
    if number is None or multiplied:
        inner = _count_behind(cursor, stitch)
        if inner is not None and number is None:
            number, glued = inner
    if stitch.kind == "slip" and (join := _slip_join(cursor, start, number)):
        return join
    if stitch.loop:
        return _placed(cursor, start, stitch, number, first, glued, stitch.loop)
    if cursor.peek() in ("st", "sts", "stitches", "stitch") and not cursor.peek(1).startswith("even"):
        cursor.at += 1
    return _placed(cursor, start, stitch, number, first, glued)


def _family(cursor: Cursor, stitch: Stitch, number: Number | None, glued: bool) -> tuple[Stitch, Number | None, bool]:
    """"sc2tog", "sc 2 tog", "sc 3 in 1", "inc3", "dec3"; "2 dc cluster" takes the number as the group's own."""
    if cursor.is_number(words=False):
        ahead = 1 if cursor.peek(1) not in ("-",) else 2
        together = cursor.peek(ahead) in ("tog", "together", "togs")
        if together or cursor.peek(1).startswith("tog"):
            count = cursor.number()
            assert count is not None
            cursor.at += ahead
            cursor.accept("st", "sts")
            return vocabulary.together(_base(stitch), _width(cursor, count)), number, glued
        _mistyped_together(cursor)
        if cursor.tokens[cursor.at].glued and cursor.peek(1) in ("inc", "dec") and cursor.tokens[cursor.at + 1].glued:
            count = cursor.number()
            assert count is not None
            wide = vocabulary.increase if cursor.peek() == "inc" else vocabulary.together
            cursor.at += 1
            return wide(_base(stitch), _width(cursor, count)), number, glued
        if cursor.tokens[cursor.at].glued and stitch.key in ("inc", "dec") and cursor.peek() in ("2", "3", "4"):
            count = cursor.number()
            assert count is not None
            base = _base(stitch)
            wide = vocabulary.increase if stitch.kind == "increase" else vocabulary.together
            return wide(base, _width(cursor, count)), number, True
        if cursor.peek(1) in ("in",) and cursor.peek(2) in ("1", "one") and cursor.peek(3) not in ("st", "stitch"):
            count = cursor.number()
            assert count is not None
            cursor.at += 2
            return vocabulary.increase(_base(stitch), _width(cursor, count)), number, glued
    if number is not None and cursor.accept("tog", "together"):
        return vocabulary.together(_base(stitch), _width(cursor, number)), None, glued
    if number is not None and stitch.kind in ("plain", "post"):
        group = cursor.match_stitch()
        if group is not None and group[0].key in ("cluster", "bobble", "popcorn", "puff"):
            cursor.at += group[1]
            return group[0], None, False
    return stitch, number, glued


def _mistyped_together(cursor: Cursor) -> None:
    """"sc2tob": the whole word is named, not its end."""
    number, after = cursor.token(), cursor.token(1)
    if number is None or after is None or not (number.glued and after.glued) or after.kind != "word":
        return
    if after.text not in ("in", "x", "sts", "st") and distance(after.text, "tog") == 1:
        start = cursor.tokens[cursor.at - 1].start
        shown = cursor.statement.text[start : after.end]
        right = shown[: after.start - start] + "tog"
        raise Unreadable(
            "unknown-stitch", start, after.end, f"{shown} is no stitch that I know; did you mean {right}?",
            f"Write {right}.", right,
        )  # fmt: skip


def _width(cursor: Cursor, number: Number) -> int:
    if not 2 <= number.value <= 100:
        raise Unreadable(
            "number-out-of-range", number.start, number.end,
            "So many stitches can't be worked together or into one; from 2 to 100 can.", "Write the number that is meant.",
        )  # fmt: skip
    return number.value


def _base(stitch: Stitch) -> Stitch:
    return vocabulary.stitches().get(stitch.base or stitch.key, stitch)


def _count_behind(cursor: Cursor, stitch: Stitch) -> tuple[Number, bool] | None:
    """"sc 5", "sc5", "sc x 5", "sc*5", "inc 6 times", "sc twice in next st" """
    at = cursor.at
    if stitch.kind == "picot" and cursor.accept("-"):
        cursor.number()  # "picot-3" is its name
        return None
    opening = cursor.token()
    if opening is not None and opening.text == "(" and opening.glued and opening.mate == cursor.at + 2 and opening.mate < cursor.stop:
        cursor.at += 1
        number = cursor.number()
        cursor.at = opening.mate + 1 if number is not None else at
        return (number, False) if number is not None else None
    if cursor.peek() in TIMES_WORDS and cursor.peek(1) in ("in", "into"):
        found = read_times(cursor)
        return (found[0], False) if found else None
    if cursor.accept("x", "*"):
        number = cursor.number()
        if number is not None and not (cursor.tokens[cursor.at - 2].text == "*" and _star_closes(cursor)):
            cursor.accept("times", "time")
            return number, False
        cursor.at = at
        return None
    if not cursor.is_number() or cursor.peek() in ("a", "an"):
        return None
    glued = cursor.tokens[cursor.at].glued
    number = cursor.number()
    if number is None:
        return None
    if cursor.accept("x"):
        if cursor.match_stitch() or cursor.peek() in OPENING:
            cursor.at = at
            return None
        return number, False
    if cursor.accept("times", "time"):
        cursor.accept("total")
        return number, False
    if cursor.peek() in ("more", "further") and cursor.peek(1) in ("times", "time"):
        cursor.at = at
        return None
    if number.word is False and cursor.match_stitch() and not glued and stitch.kind != "slip" and cursor.peek() not in ("sts", "st"):
        cursor.at = at
        return None
    return number, glued


def _star_closes(cursor: Cursor) -> bool:
    return cursor.peek() in ("times", "x", "around", "rep", "repeat")


def _placed(
    cursor: Cursor, start: int, stitch: Stitch, number: Number | None, first: bool, glued: bool, loop: str = ""
) -> list[Step]:
    """Loop, place, evenly, colour and multiplier behind a stitch; and "and in each ch across" as a second step."""
    work = Work(start, cursor.end, stitch, number, number_first=first, glued=glued)
    shaping = stitch.kind in ("increase", "decrease") and number is not None
    if shaping and cursor.peek() in ("evenly", "sts") and (spread := _spread(cursor, start, stitch, number)):
        return [spread]
    if stitch.kind in ("increase", "decrease") and (shaped := _at_ends(cursor, start, stitch) or _every(cursor, start, stitch)):
        return [shaped]
    if _more_stitches(cursor, number):
        return [More(start, cursor.end, (work,))]
    if stitch.kind == "decrease" and (trust := _down_to(cursor, start)):
        return [trust]
    _gloss(cursor)
    cursor.phrase(("between sts", "between stitches", "between each st", "between the sts", "between ' legs ' of st", "between ' legs ' of next st", "between the ' legs ' of the st", "between legs of st", "between the legs of the st", "between legs of next st", "between the legs of the next st"))
    work.loop = loop or loop_here(cursor)
    work.place = read_place(cursor)
    if work.place is not None and work.place.kind == "chain":
        _skipped_count(cursor, work.place)
    if work.place is not None and work.place.kind == "piece":
        _along_piece(cursor, work)
    if work.place is not None and work.place.noun == "layers" and work.place.kind == "next":
        if work.count is not None:
            work.place.number, work.count = work.count, None
        elif cursor.peek() == "for" and cursor.is_number(1):
            cursor.at += 1
            work.place.number = cursor.number()
            cursor.accept("st", "sts", "stitches")
    if work.place is not None and cursor.accept("together", "tog"):
        cursor.phrase(("as one",))
        count = work.place.number
        work.stitch, work.place = vocabulary.together(_base(stitch), _width(cursor, count) if count else 2), None
    work.loop = work.loop or loop_here(cursor)
    if work.place is None and work.loop or work.place is not None and work.place.kind == "next" and work.loop and not work.place.number and cursor.peek() in ("around", "across"):
        work.place = read_place(cursor)
    if cursor.phrase(("evenly spaced", "evenly")) and stitch.kind in ("increase", "decrease") and number is not None:
        read_place(cursor)
        return [Spread(start, cursor.end, number, stitch)]
    _colored(cursor, work)
    if work.place is None and (side := _on_other_side(cursor)) is not None:
        work.end = cursor.end
        return [side, work]
    if (skipped := _SKIPPED.match(cursor.statement.text, cursor.end)) is not None:
        work.spread = True
        while not cursor.done and cursor.start < skipped.end():
            cursor.at += 1
    _times(cursor, work)
    work.end = cursor.end
    steps = [work, *_and_in(cursor, work)]
    return [spelled_out(step) if isinstance(step, Work) else step for step in steps] if stitch.parts else steps


_ENDS = (
    "at each end", "at both ends", "each end", "each side", "at each side", "at beg and end", "at beginning and end",
    "at the beginning and end", "at beg and at end", "at the beg and end", "on each side", "at both sides", "both sides",
)  # fmt: skip


def _at_ends(cursor: Cursor, start: int, stitch: Stitch) -> Spread | None:
    """"inc 1 st at each end (of row)": two more over the row."""
    at = cursor.at
    cursor.accept("1")
    cursor.accept("st", "sts")
    if cursor.phrase(_ENDS) is None:
        cursor.at = at
        return None
    cursor.phrase(("of row", "of the row", "of next row", "of this row", "of rnd", "of the next row"))
    if cursor.peek() in ("of", "every", "on"):
        cursor.at = at
        return None
    return Spread(start, cursor.end, Number(start, start, (2,)), stitch)


def _every(cursor: Cursor, start: int, stitch: Stitch) -> Repeat | None:
    """"inc 1 st in every 4th st": three plain stitches and an increase, around."""
    at = cursor.at
    cursor.accept("1", "one")
    cursor.accept("st")
    if cursor.accept("in", "every") and (cursor.tokens[cursor.at - 1].text == "every" or cursor.accept("every", "each")):
        number = cursor.ordinal()
        if number is not None and cursor.accept("st", "stitch", "sc") and number.value > stitch.uses:
            read_place(cursor)
            plain = Number(number.start, number.end, (number.value - stitch.uses,))
            body = (Work(number.start, number.end, _base(stitch), plain), Work(start, number.start, stitch))
            return Repeat(start, cursor.end, body, None, "rest", mark="every")
    cursor.at = at
    return None


def _down_to(cursor: Cursor, start: int) -> Trust | None:
    """"dec to 6 sts", "continue to dec until 6 sts rem": over rounds that nobody counts."""
    at = cursor.at
    if cursor.accept("to", "until", "till", "down"):
        cursor.accept("to", "you", "there")
        cursor.accept("have", "are")
        if cursor.is_number():
            cursor.number()
            if cursor.accept("st", "sts", "stitches") and (cursor.accept("rem", "remain", "remaining", "left") or cursor.done):
                return Trust(start, cursor.end, "decreased to a number over rounds that are not counted")
    cursor.at = at
    return None


def _gloss(cursor: Cursor) -> None:
    """"inc (2 sc in same st) in each st around": the bracket explains the stitch, the place follows."""
    opening = cursor.token()
    if opening is None or opening.text not in ("(", "[") or not cursor.at < opening.mate < cursor.stop - 1:
        return
    following = cursor.tokens[opening.mate + 1].text
    if following in ("in", "into", "around", "across", "each", "over") and opening.mate > cursor.at + 2:
        cursor.at = opening.mate + 1


def _on_other_side(cursor: Cursor) -> OtherSide | None:
    """"6 sc on the other side": from these stitches on along the other side of the chain."""
    start = cursor.start
    if other_side_words(cursor):
        return OtherSide(start, cursor.end)
    return None


def _along_piece(cursor: Cursor, work: Work) -> None:
    """"sc 17 around leg", "sc through arm and body 4": one stitch in each of so many places of the piece."""
    assert work.place is not None
    if work.place.number is None and cursor.is_number(words=False) and cursor.peek(1) not in ("x", "times") or cursor.accept("for"):
        work.place.number = cursor.number()
    cursor.accept("st", "sts")
    if work.place.number is None and work.count is not None and work.stitch.uses == 1:
        work.place.number, work.count = work.count, None


def _skipped_count(cursor: Cursor, place: Place) -> None:
    """"dc in 4th ch from hook (3 skipped ch count as dc)": what the chains that are passed over count for."""
    chain = Chain(cursor.start, cursor.end, Number(cursor.end, cursor.end, (0,)))
    at = cursor.at
    read_counts_as(cursor, chain)
    words = {token.text for token in cursor.tokens[at : cursor.at]}
    place.counts_as = chain.counts_as
    if chain.counts_as and len(chain.counts_as) == 1 and chain.counts_as[0][1] > 1 and not words & {"skipped", "ch", "chs", "chains"}:
        # "dc in 4th ch (counts as 2 dc)": the dc that is worked is one of the two.
        key, number = chain.counts_as[0]
        place.counts_as = ((key, number - 1),)


def _spread(cursor: Cursor, start: int, stitch: Stitch, number: Number | None) -> Spread | None:
    at = cursor.at
    if number is None:
        return None
    cursor.accept("sts")
    if not cursor.phrase(("evenly spaced apart", "evenly spaced", "evenly")):
        cursor.at = at
        return None
    read_place(cursor)
    cursor.accept("spaced")
    return Spread(start, cursor.end, number, stitch)


def _more_stitches(cursor: Cursor, number: Number | None) -> bool:
    """"sc 3 more (to reach the side)": stitches beyond the end of the round."""
    if number is None or not cursor.accept("more", "extra"):
        return False
    cursor.accept("st", "sts", "stitches")
    if cursor.peek() in ("to", "past", "beyond"):
        while not cursor.done and cursor.peek() not in (",", ".", ";", "("):
            cursor.at += 1
    return True


def _colored(cursor: Cursor, work: Work) -> None:
    """"6 sc A", "6 sc in A", "6 sc with B": the colour of just these stitches."""
    ahead = 1 if cursor.peek() in ("in", "with") else 0
    found = color_key(cursor, ahead)
    if found is not None and not (ahead == 0 and cursor.known_word()):
        following = cursor.peek(ahead + found[1])
        if following in ("", ",", ";", ".", ")", "]", "(", "and", "}", *MARKS):
            cursor.at += ahead + found[1]
            work.color = found[0]


def _times(cursor: Cursor, work: Work) -> None:
    at = cursor.at
    found = read_times(cursor)
    if found is None:
        return
    number, counting = found
    if counting == "more":
        cursor.at = at
        return
    if work.place is None and work.count is None:
        work.count = number
    else:
        work.times = number


def _and_in(cursor: Cursor, work: Work) -> list[Step]:
    """"sc in 2nd ch from hook and in each ch across": the same stitch goes on."""
    if work.place is None:
        return []
    at = cursor.at
    if cursor.accept(",", "and", "&", "to") and (bare := _bare_space(cursor, work)):
        return bare
    cursor.at = at
    cursor.accept(",", "then")
    if cursor.accept("and", "&", "then") and cursor.peek() in ("in", "into", "each", "next", "on", "every", "the", "ea", "across", "down", "up", "along", "around"):
        start = cursor.start
        loop = loop_here(cursor)
        cursor.accept("of") if loop else None
        place = read_place(cursor)
        if place is not None:
            if _spaces_besides(work.place, place):
                return []
            again = Work(start, cursor.end, work.stitch, work.count, place, loop or work.loop, work.number_first)
            return [again, *_and_in(cursor, again)]
    cursor.at = at
    return []


def _bare_space(cursor: Cursor, work: Work) -> list[Step]:
    """"sl st in next 2 dc and ch-2 sp", "sl st in next dc, in next ch-1 sp": the space, named without a step of its own."""
    start, comma = cursor.start, cursor.tokens[cursor.at - 1].text == ","
    lead = cursor.peek() in ("in", "into")
    ahead = 1 if lead else 0
    which = cursor.peek(ahead) in ("next", "following", "corner", "the")
    if comma and not lead or work.place is not None and work.place.each:
        return []
    if not space_ahead(cursor, ahead + (which and cursor.peek(ahead) not in ("corner", "the"))):
        return []
    if lead:
        place = read_place(cursor)
    else:
        cursor.accept("next", "following", "the")
        noun = read_space_name(cursor)
        place = Place(start, cursor.end, "space", noun=noun) if noun is not None else None
    return [Work(start, cursor.end, work.stitch, None, place, number_first=work.number_first)] if place is not None else []


def _spaces_besides(place: Place, other: Place) -> bool:
    """"in each dc and in each ch-1 sp around": one walk over both, in their order."""
    if not (place.each and other.each and place.number is None and other.number is None and other.noun.startswith(("space", "corner"))):
        return False
    if place.noun.startswith(("space", "corner")) or other.kind not in ("rest", "to_last", "to_space"):
        return False
    place.kind, place.upto, place.number, place.end = other.kind, other.upto, other.number, other.end
    place.also = Place(other.start, other.end, "rest", None, True, other.noun)
    return True


# --- chains, skips, slip stitches -------------------------------------------------------------------------------


def _chain(cursor: Cursor, start: int, number: Number | None) -> list[Step]:
    """chain = "ch" ["-"] N ["+" M] [counts] | N "ch" | "ch" ; closed to a ring by "join to form a ring"."""
    if number is None and cursor.phrase(("an even number", "an odd number", "any number", "a multiple of", "multiple of", "as many as needed")):
        while not cursor.done and cursor.peek() not in (",", ".", ";"):
            cursor.at += 1
        return [Trust(start, cursor.end, "a chain of no fixed number")]
    if number is None:
        at = cursor.at
        if cursor.peek() == "-" and cursor.tokens[cursor.at].glued and cursor.is_number(1, words=False):
            cursor.at += 1
        number = cursor.number()
        if number is None:
            cursor.at = at
            number = Number(cursor.end, cursor.end, (1,))
    cursor.accept("st", "sts", "stitches")
    if (plus := _plus(cursor)) is not None:
        number = Number(number.start, plus.end, (number.value + plus.value,))
    chain = Chain(start, cursor.end, number)
    read_counts_as(cursor, chain)
    chain.end = cursor.end
    ring = _closed_to_ring(cursor, chain)
    return [ring] if ring is not None else [chain]


def _plus(cursor: Cursor) -> Number | None:
    """"ch 10 + 1", "ch 10 (+1 for turning)" """
    at = cursor.at
    bracket = cursor.accept("(")
    if cursor.accept("+", "plus") and cursor.is_number():
        number = cursor.number()
        if not bracket:
            cursor.phrase(("for turning", "for turning chain", "for turning ch", "to turn"))
            return number
        while not cursor.done and not cursor.accept(")"):
            cursor.at += 1
        return number
    cursor.at = at
    return None


def read_counts_as(cursor: Cursor, chain: Chain) -> None:
    """counts = "(counts as dc, ch 2)" | "(does not count as a st)" | "(= 1st st)" | "(not a st)", or without brackets."""
    at = cursor.at
    opening = cursor.token()
    if opening is not None and opening.text in ("(", "[") and opening.mate > 0:
        inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
        if _counts(inside, chain, bracket=True):
            cursor.at = opening.mate + 1
        return
    cursor.accept(",")
    bare = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, cursor.stop)
    for ahead in range(cursor.at, min(cursor.stop, cursor.at + 14)):
        if cursor.tokens[ahead].text in (",", ";", ".", "("):
            bare.stop = ahead
            break
    if cursor.peek() != "=" and cursor.peek() not in ("is", "are") and _counts(bare, chain):
        cursor.at = bare.at
        return
    cursor.at = at


def _counts(inside: Cursor, chain: Chain, bracket: bool = False) -> bool:
    inside.accept("the", "first", "these")
    inside.number() if inside.is_number() and inside.peek(1) not in ("dc", "sc", "hdc", "tr", "htr") else None
    inside.accept("beg", "beginning", "skipped", "missed", "unworked")
    inside.accept("ch", "chs", "chains", "chain") if inside.peek(1) not in ("",) else None
    inside.phrase(("skipped chs", "skipped chains", "skipped", "the skipped chains", "this", "which", "it", "skipped ch", "they"))
    if inside.phrase(_NOT_COUNTED):
        chain.counts_as = ()
        chain.throughout = any(token.text == "throughout" for token in inside.tokens[inside.at : inside.stop])
        inside.at = inside.stop
        return True
    found = inside.phrase(_COUNTED)
    plain = bracket and found is None and inside.is_number() and inside.match_stitch(1) is not None
    if found is None and not plain:
        return False
    if found in ("is", "are") and not inside.is_number():
        return False
    parts: list[tuple[str, int]] = []
    while not inside.done:
        number = inside.number(article=True)
        matched = inside.match_stitch()
        if inside.accept("first", "1st", "1", "the", "beg", "as"):
            inside.accept("st") if inside.tokens[inside.at - 1].text == "1" else None
        elif matched is not None:
            inside.at += matched[1]
            if matched[0].kind == "chain" and number is None:
                number = inside.number()
            parts.append((matched[0].key, number.value if number else 1))
        elif inside.accept("st", "sts", "stitch", "stitches"):
            parts.append(("stitch", number.value if number else 1))
        elif inside.accept("throughout"):
            chain.throughout = True
        elif not inside.accept("here", "and", ",", "in", "each", "row", "rnd", "round", "of", "this", "every", "+", "a", "sp", "space", "always", "now", "on", "from"):
            return False
    if not parts:
        return False
    chain.counts_as = tuple(parts)
    return True


def _closed_to_ring(cursor: Cursor, chain: Chain) -> Ring | None:
    """"ch 4, sl st in first ch to form a ring", "Ch 4, join to form ring", "ch 4, join." only where a ring is named."""
    at = cursor.at
    cursor.accept(",", ";", ".", "and")
    cursor.accept(",", "and")
    if cursor.accept("join", "sl", "ss", "slst", "slip", "close"):
        for ahead in range(cursor.at, min(cursor.stop, cursor.at + 14)):
            text = cursor.tokens[ahead].text
            if text in (";", ":", ".") and ahead + 1 < cursor.stop and cursor.tokens[ahead - 1].text not in ("sl", "st"):
                break
            if text == "ring" or text == "circle":
                cursor.at = ahead + 1
                return Ring(chain.start, cursor.end, chain.number)
    cursor.at = at
    return None


def _skip(cursor: Cursor, start: int, stitch: Stitch, number: Number | None) -> list[Step]:
    """skip = "sk" N [noun] | "sk" ["the"] ("next" | "first" | "last") [N] noun | N "sk" """
    if cursor.phrase(("the joining sl st", "joining sl st", "the joining slip stitch", "the sl st", "the joining st", "the join")):
        return [Aside(start, cursor.end, "remark")]
    if number is None and (cursor.is_number() or cursor.peek() in ("a", "an")):
        ordinal = cursor.ordinal()
        if ordinal is None:
            number = cursor.number(article=True)
            cursor.accept("-") if cursor.peek(1) in NOUNS else None
            matched = cursor.match_stitch()
            if matched is not None and matched[0].kind != "skip":
                cursor.at += matched[1]
            cursor.accept(*NOUNS)
            cursor.accept("sts", "st")
            _from_end(cursor)
            return _skip_counts(cursor, Work(start, cursor.end, stitch, number))
        cursor.at -= 2 if not ordinal.word else 1
    named, first = cursor.at, cursor.start
    cursor.accept("the")
    if (noun := read_space_name(cursor)) is not None:
        return [Work(start, cursor.end, stitch, number, Place(first, cursor.end, "space", noun=noun))]
    cursor.at = named
    place = read_first(cursor) or read_place(cursor)
    if place is None:
        cursor.accept("the", "a", "this")
        cursor.accept(*NOUNS)
    _from_end(cursor)
    return [Work(start, cursor.end, stitch, number, place)]


def _from_end(cursor: Cursor) -> None:
    """"Sk next 6 sts from end of row 2": counted from where that row stopped."""
    at = cursor.at
    if not (cursor.accept("from", "after") and (cursor.accept("the") or True) and cursor.accept("end", "last") and (cursor.phrase(("st of", "of")) and read_reference(cursor) is not None)):
        cursor.at = at


def _skip_counts(cursor: Cursor, work: Work) -> list[Step]:
    """"Skip 3 ch (count as 1 dc), 1 dc into next ch": as "dc in 4th ch from hook (skipped chains count as dc)"."""
    chain = Chain(work.start, cursor.end, work.count or Number(work.start, work.start, (1,)))
    read_counts_as(cursor, chain)
    if chain.counts_as is None:
        return [work]
    number = work.count.value if work.count else 1
    at = Number(work.start, work.start, (number + 1,))
    place = Place(work.start, cursor.end, "chain", at, noun="chain", counts_as=chain.counts_as)
    return [StartAt(work.start, cursor.end, place)]


def _slip_join(cursor: Cursor, start: int, number: Number | None) -> list[Step] | None:
    """A slip stitch said to join: "sl st to join", "sl st in first sc", "ss to 1st dc", "sl st into top of ch-3"."""
    at = cursor.at
    if number is not None and number.value != 1:
        return None
    if cursor.phrase(("to join", "join", "to close", "tog", "together", "to close the round", "to join rnd", "to join round", "to finish")):
        return [Join(start, cursor.end)]
    if not cursor.accept("in", "into", "to", "on", "top"):
        return None
    if (leg := _of_leg(cursor)) is not None:
        return [Join(start, cursor.end, None, leg)]
    cursor.accept("the", "of")
    if cursor.phrase(("centre back", "center back", "centre front", "center front", "opposite side", "the opposite side", "other side", "back", "side")):
        return [More(start, cursor.end, ())]  # they move the start of the round
    word = cursor.peek()
    target = word in _JOIN_TARGETS[:-1] or (word == "1" and cursor.peek(1) == "st") or (word == "3" and cursor.peek(1) == "rd" and cursor.peek(2) in ("ch", "chain"))
    joins = cursor.tokens[cursor.at - 1].text == "top" or target
    if not joins:
        for ahead in range(cursor.at, min(cursor.stop, cursor.at + 8)):
            if cursor.tokens[ahead].text in (",", ";", ".", "("):
                break
            joins = joins or cursor.tokens[ahead].text == "join"
    if not joins:
        cursor.at = at
        return None
    while not cursor.done and cursor.peek() not in (",", ";", ".", "(", ")", "]", "and", "then", *MARKS):
        cursor.at += 1
    return [Join(start, cursor.end)]


def _of_leg(cursor: Cursor) -> Reference | None:
    """"to first leg", "in any st of the first leg": the piece that is joined."""
    at, start = cursor.at, cursor.start
    if cursor.phrase(("any st of", "any stitch of", "a st of", "a stitch of", "first st of", "the first st of", "next st of")) is None and cursor.peek() in ("ch", "chain"):
        return None
    name = piece_here(cursor)
    if name and name.split()[-1].lower() not in ("ch", "chain", "chains", "bridge"):
        return Reference(start, cursor.end, (), name)
    cursor.at = at
    return None


_RING_LEADS = ("begin with", "start with", "starting with", "make", "start", "begin", "with", "using", "into", "in", "form", "create")
_RING_STARTS = frozenset((*(lead.split()[0] for lead in _RING_LEADS), "a", "an", "the", *RING_CODES, *RING_ADJECTIVES, *RING_NOUNS))


def read_ring(cursor: Cursor) -> list[Step] | None:
    """ring = ["make" | "start with"] ["a"] "magic ring" ["," ["work"]] [N stitch] | "MR" N | "MR" stitch N"""
    if cursor.peek() not in _RING_STARTS:
        return None
    at, start = cursor.at, cursor.start
    cursor.phrase(_RING_LEADS)
    cursor.accept("a", "an", "the")
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


_LITTLE_WORDS = frozenset(PREPOSITIONS) | {"at", "for", "with", "by", "is", "it", "as", "up", "so", "st", "sts", "rnd", "row"}


def _before_word(cursor: Cursor) -> str:
    """The word behind a number that is no stitch: "12 foo"."""
    after = cursor.token(1)
    if after is None or after.kind != "word" or len(after.text) < 2 or after.text in _LITTLE_WORDS:
        return ""
    return f": “{cursor.statement.text[after.start : after.end]}” is no stitch that I know"


def unknown_word(cursor: Cursor) -> Unreadable:
    """The error at a word that a round cannot use, with the near stitch names."""
    token = cursor.tokens[cursor.at]
    shown = cursor.statement.text[token.start : token.end]
    if token.kind == "mark":
        return Unreadable("unreadable-line", token.start, token.end, f"I can't read the sign {shown} here.", "Take it out, or write the step in words.")
    if token.kind == "number":
        return Unreadable("unreadable-line", token.start, token.end, f"I can't tell what the number {shown} belongs to here{_before_word(cursor)}.", "Name the stitch beside it, or set the remark as a note that begins with >.")
    slips = vocabulary.SLIPS.get(token.text, ())
    near = [*slips] or all_nearest(token.text, [word for word in cursor.index if len(word) > 1] + list(cursor.context.special_words))
    near = [word for word in near if word != token.text]
    if near and token.text not in _LITTLE_WORDS:
        hint = f"; did you mean {' or '.join(near[:3])}?"
        return Unreadable("unknown-stitch", token.start, token.end, f"{shown} is no stitch that I know{hint}", f"Write {near[0]}, or declare {shown} under Abbreviations.", near[0] if len(near) == 1 else "")
    return Unreadable("unknown-stitch", token.start, token.end, f"I can't read the word “{shown}” in this round.", "If it is a stitch, declare it under Abbreviations or Special stitch; if it is a remark, put it on a line that begins with >.")


def is_measure(cursor: Cursor) -> bool:
    """"20 cm", "3 in", "6 sts apart": a number that is no stitch count."""
    if not cursor.is_number(words=False):
        return False
    ahead = 1
    while cursor.peek(ahead) in (".", ",", "-", "/") and cursor.is_number(ahead + 1, words=False):
        ahead += 2
    if cursor.peek(ahead) == "-":
        ahead += 1
        if cursor.peek(ahead + 1) == "-":
            return False
    unit = cursor.peek(ahead)
    if unit == "'" and cursor.match_stitch(ahead + 1) is not None:
        return False
    if unit in _MEASURE and not (unit == "in" and cursor.peek(ahead + 1) in ("next", "each", "same", "the", "a", "magic", "mr", "mc", "ring", "first", "last", "back", "front", "one", "circle", "loop", "tip", "end")):
        return True
    if unit in ("st", "sts", "stitches", "rnds", "rows", "rounds"):
        return cursor.peek(ahead + 1) in _APART
    return False

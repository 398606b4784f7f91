"""What stands behind a stitch: its loop, place, colour and multiplier, "sc 3 in next st"; "and in each ch across"."""

from __future__ import annotations

from .. import late_re as re
from . import vocabulary
from .chains import read_counts_as
from .composed import spelled_out
from .cursor import Cursor
from .increasing import at_ends, down_to, every_so_many, read_spread
from .loops import each_loop, loop_here
from .multipliers import MARKS, read_times
from .named_pieces import other_side_words
from .places import read_place
from .repeats import color_key
from .space_places import read_space_name, space_ahead
from .stitch_numbers import base_of, width_of
from .syntax import Chain, More, Number, OtherSide, Place, Spread, Step, Work
from .vocabulary import Stitch

SKIPPED = re.compile(r"\s*+,?\s*+(?:skipping|skip|sk)\s+(?:the\s+)?(?:middle|center|centre)(?:\s+(?:st|stitch|one))?", re.IGNORECASE)


def read_placed(
    cursor: Cursor, start: int, stitch: Stitch, number: Number | None, first: bool, glued: bool, loop: str = ""
) -> list[Step]:
    """Loop, place, evenly, colour and multiplier behind a stitch; and "and in each ch across" as a second step."""
    work = Work(start, cursor.end, stitch, number, number_first=first, glued=glued)
    shaping = stitch.kind in ("increase", "decrease") and number is not None
    if shaping and cursor.peek() in ("evenly", "sts") and (spread := read_spread(cursor, start, stitch, number)):
        return [spread]
    if stitch.kind in ("increase", "decrease") and (shaped := at_ends(cursor, start, stitch) or every_so_many(cursor, start, stitch)):
        return [shaped]
    if _more_stitches(cursor, number):
        return [More(start, cursor.end, (work,))]
    if stitch.kind == "decrease" and (trust := down_to(cursor, start)):
        return [trust]
    _gloss(cursor)
    cursor.phrase(("between sts", "between stitches", "between each st", "between the sts", "between ' legs ' of st", "between ' legs ' of next st", "between the ' legs ' of the st", "between legs of st", "between the legs of the st", "between legs of next st", "between the legs of the next st"))
    if not loop and (every := each_loop(cursor)) is not None:
        work.loop, work.place = every
    else:
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
        work.stitch, work.place = vocabulary.together(base_of(stitch), width_of(cursor, count) if count else 2), None
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
    if (skipped := SKIPPED.match(cursor.statement.text, cursor.end)) is not None:
        work.spread = True
        while not cursor.done and cursor.start < skipped.end():
            cursor.at += 1
    _times(cursor, work)
    work.end = cursor.end
    steps = [work, *_and_in(cursor, work)]
    return [spelled_out(step) if isinstance(step, Work) else step for step in steps] if stitch.parts else steps


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

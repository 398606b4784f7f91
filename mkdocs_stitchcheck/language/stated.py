"""Stated counts at the end of a round: "(24)", "= 24 sts", "- 24 sc", "[16 dc, 16 ch]", "(18)(27)", "(+6)"."""

from __future__ import annotations

from itertools import pairwise

from ..late_dataclasses import dataclass, field
from .cursor import Cursor, Phrases, Unreadable
from .near import all_nearest
from .remarks import remark_at_end
from .syntax import KindCount, Number, Stated
from .tokens import CLOSING, Token
from .words import NUMBER_WORDS, ROUND_WORDS, UNIT_WORDS

_LEAD = Phrases((
    "you now have", "you should now have", "you should have", "you will have", "you have", "now you have", "now have",
    "total of", "total", "count", "st count", "stitch count", "sts count", "totals", "makes", "making", "makes a total of",
    "for a total of", "a total of", "there are", "there will be", "should be", "in total", "altogether", "sts", "stitches",
    "final count", "you will now have",
))  # fmt: skip
_STITCH_WORDS = ("st", "sts", "stitch", "stitches", "stich", "stiches", "s")
_AFTER = frozenset(
    ["made", "total", "all", "altogether", "remaining", "rem", "remain", "now", "left", "around", "each", "on", "every", "leg", "legs", "side", "sides", "of", "the", "marker", "per", "worked", "to", "work", "for", "both", "piece", "pieces", "arm", "arms", "ear", "ears", "and", "counting", "as", "ch", "tch", "counted", "st", "sts", "stitch", "stitches", "end", "at", "hook", "not", "including", "incl", "including", "join", "joined", "round", "rnd", "row", "body", "front", "back", "only", "this", "one"]
)
# A count that is said to be rough is held against the stitches all the same: they make one number.
_ROUGHLY = ("approx", "approximately", "about", "roughly", "ca", "circa", "~", "nearly")
_OR_SO = ("ish", "- ish", "or so", "approx", "approximately", "approx .")
_EACH = ("each", "every", "per", "both")
_MORE = ("increased", "inc'd", "increase", "incs", "more", "inc", "added")
_FEWER = ("decreased", "dec'd", "decrease", "decs", "fewer", "less", "dec")
GROUP_KINDS = {
    **dict.fromkeys(("shell", "shells", "sh"), "shell"),
    **dict.fromkeys(("v-st", "v", "v-sts"), "v-st"),
    **dict.fromkeys(("fan", "fans"), "fan"),
    **dict.fromkeys(("group", "groups"), "group"),
    **dict.fromkeys(("block", "blocks"), "block"),
    **dict.fromkeys(("motif", "motifs"), "motif"),
    **dict.fromkeys(("corner", "corners"), "corner"),
    **dict.fromkeys(("petal", "petals"), "petal"),
    **dict.fromkeys(("picot", "picots"), "picot"),
    **dict.fromkeys(("point", "points"), "point"),
}


@dataclass(slots=True)
class Tail:
    """What stands behind an instruction: counts (in order), a number of rounds, and where the instruction ends."""

    counts: list[Stated] = field(default_factory=list)
    length: Number | None = None
    stop: int = 0
    either: bool = False  # the count is a bare number that may also be stitches: "(4 sc, dec) x 5, 6"


def find_tail(cursor: Cursor, bare: bool = True) -> Tail:
    """Takes counts and a length off the end of the tokens between the cursor and its stop; moves nothing.

    With *bare* a number alone behind a whole instruction is the count too.

    tail = {bracketed count | "=" count | "-" count | "." count | "for N rounds" | "x N rows"} ["."] ["(" remark ")"]
    """
    tail = _tail(cursor, bare)
    if not tail.counts and (opening := remark_at_end(cursor.tokens, cursor.at, cursor.stop, cursor.context)) is not None:
        shorter = _tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, opening), bare)
        return shorter if shorter.counts else tail
    return tail


def _tail(cursor: Cursor, bare: bool) -> Tail:
    tail = Tail(stop=cursor.stop)
    while tail.stop > cursor.at:
        stop = _strip(cursor.tokens, cursor.at, tail.stop)
        tail.stop = stop
        if _bracketed(cursor, tail) or _length_words(cursor, tail) or _noun_after_bracket(cursor, tail):
            continue
        if tail.counts or not (_open(cursor, tail) or bare and _bare(cursor, tail)):
            break
        _change_before(cursor, tail)
        tail.stop = _strip(cursor.tokens, cursor.at, tail.stop)
        last = [token.text for token in cursor.tokens[max(cursor.at, tail.stop - 2) : tail.stop]]
        if len(last) == 2 and last[0] in ROUND_WORDS and last[1] in CLOSING:
            _bracketed(cursor, tail)  # "42 sc (6 rnds). Total: 42 sts"
        else:
            _length_words(cursor, tail)
        break
    _join_change(tail)
    return tail


def _change_before(cursor: Cursor, tail: Tail) -> None:
    """"2 sts dec - 28 sts": a change may stand before an open count."""
    at, found = tail.stop, tail.counts[:]
    tail.stop = _strip(cursor.tokens, cursor.at, tail.stop)
    if not (_open(cursor, tail) and tail.counts[0].form == "change"):
        tail.stop, tail.counts[:] = at, found


def _join_change(tail: Tail) -> None:
    """"2 sts dec - 18 sts": a change and the total are one count."""
    if len(tail.counts) == 2:
        change, total = sorted(tail.counts, key=lambda count: count.form != "change")
        if change.form == "change" and change.number is None and total.form == "total" and total.change is None:
            total.change, total.change_number = change.change, change.change_number
            total.start, total.end = min(change.start, total.start), max(change.end, total.end)
            tail.counts[:] = [total]


def _strip(tokens: list[Token], at: int, stop: int) -> int:
    while stop > at and tokens[stop - 1].text in (".", ",", ";", ":"):
        stop -= 1
    return stop


def _bracketed(cursor: Cursor, tail: Tail) -> bool:
    tokens = cursor.tokens
    closing = tokens[tail.stop - 1]
    if closing.text in "/|" and closing.kind == "mark":
        return _between_bars(cursor, tail)
    if closing.text not in CLOSING or closing.mate < cursor.at:
        return False
    opening = closing.mate
    inside = Cursor(cursor.statement, tokens, cursor.context, opening + 1, tail.stop - 1)
    start = tokens[opening].start
    before = [tokens[index] for index in (opening - 2, opening - 1) if index >= cursor.at]
    found = read_count(inside, start, closing.end)
    if found is None:
        return False
    if isinstance(found, Number):
        tail.length = found
        tail.stop = opening
        return True
    if _is_multiplier(before) or before and before[-1].kind == "number" and tokens[opening].glued:
        return False
    plain = found.form == "total" and not any(part.kind for part in found.parts)
    glued = tokens[opening].glued and bool(before) and before[-1].kind == "word"
    if tail.counts and found.form != "change" and (not plain or glued):
        return False
    tail.stop = opening
    if tail.stop > cursor.at and tokens[tail.stop - 1].text == "=":
        tail.stop -= 1
        found.start = tokens[tail.stop].start
    tail.counts.insert(0, found)
    return True


def _is_multiplier(before: list[Token]) -> bool:
    """A bracket right behind a multiplication sign is a multiplier, not a count: "inc x (6)", but not "inc 6x (12)"."""
    return bool(before) and before[-1].text == "x" and not (len(before) > 1 and before[0].kind == "number")


def _between_bars(cursor: Cursor, tail: Tail) -> bool:
    tokens, bar = cursor.tokens, cursor.tokens[tail.stop - 1].text
    for opening in range(tail.stop - 2, max(cursor.at, tail.stop - 8) - 1, -1):
        if tokens[opening].text == bar:
            inside = Cursor(cursor.statement, tokens, cursor.context, opening + 1, tail.stop - 1)
            found = read_count(inside, tokens[opening].start, tokens[tail.stop - 1].end)
            if isinstance(found, Stated):
                tail.counts.insert(0, found)
                tail.stop = opening
                return True
            return False
    return False


def _noun_after_bracket(cursor: Cursor, tail: Tail) -> bool:
    """"(24) sts": the noun behind the bracket is dropped."""
    tokens = cursor.tokens
    if tail.stop - cursor.at > 2 and tokens[tail.stop - 1].text in _STITCH_WORDS and tokens[tail.stop - 2].text in CLOSING:
        tail.stop -= 1
        if _bracketed(cursor, tail):
            return True
        tail.stop += 1
    return False


def _length_words(cursor: Cursor, tail: Tail) -> bool:
    """"for 4 rounds", "x 3 rounds", "(18) x 3 rows", "4 rounds in total": how many rounds the line covers."""
    tokens, stop = cursor.tokens, tail.stop
    if tail.length is not None or stop - cursor.at < 2 or tokens[stop - 1].text not in ROUND_WORDS[:8]:
        return False
    at = stop - 2
    if at > cursor.at and tokens[at].text in ("more", "further"):
        at -= 1
    if at > cursor.at and tokens[at].text == "more":
        at -= 1
    inside = Cursor(cursor.statement, tokens, cursor.context, at, stop)
    number = inside.number()
    if number is None:
        return False
    lead = tokens[at - 1].text if at > cursor.at else ""
    dashed = lead == "-" and not tokens[at - 1].glued and at - 2 >= cursor.at and tokens[at - 2].kind != "number"
    if lead in ("for", "x", "*") or dashed or (lead in (",", ";", ".") and at > cursor.at):
        tail.length = number
        tail.stop = at - 1
        if tail.stop > cursor.at and tokens[tail.stop - 1].text in ("work", "even"):
            tail.stop = tail.stop if tokens[tail.stop - 1].text == "even" else tail.stop - 1
        return True
    return False


def _open(cursor: Cursor, tail: Tail) -> bool:
    """Counts without brackets: behind "=", a spaced dash, a full stop, or words that lead to one."""
    tokens = cursor.tokens
    for index in range(tail.stop - 1, max(cursor.at, tail.stop - 24) - 1, -1):
        token = tokens[index]
        if token.text in CLOSING and token.mate >= 0:
            return False
        if token.text in "=|" or _dash(tokens, index) or (token.text in ".;," and index > cursor.at):
            first = index + 1
            bare = token.text in "=|" or (token.text == "-" and index > cursor.at and (tokens[index - 1].text == "-" or _whole_before(tokens, cursor.at, index)))
            found = _try_open(cursor, first, tail.stop, must_name=not bare, lead="=" if bare else token.text)
            if found is not None:
                while index > cursor.at and tokens[index - 1].text in "-=":
                    index -= 1
                found.start = tokens[index].start if token.text not in ".;," else tokens[first].start
                tail.counts.insert(0, found)
                tail.stop = index
                return True
            if token.text in "=.;":
                return False
        if token.text in ("total", "you", "count", "st", "stitch") and index > cursor.at and _led_count(cursor, tail, index):
            return True
    return _only_count(cursor, tail) or _sized_count(cursor, tail)


def _sized_count(cursor: Cursor, tail: Tail) -> bool:
    """"sc in each ch around 20 (25-30) sts": a list for the sizes right behind an instruction that is whole."""
    tokens = cursor.tokens
    at = tail.stop - (2 if tokens[tail.stop - 1].text in _STITCH_WORDS else 1)
    if at <= cursor.at or len(tokens[at].values or ()) < 2 or tokens[at - 1].text not in ("around", "across", "join", "turn", "end"):
        return False
    found = _try_open(cursor, at, tail.stop, must_name=False, lead="=")
    if found is None:
        return False
    tail.counts.insert(0, found)
    tail.stop = at
    return True


def _bare(cursor: Cursor, tail: Tail) -> bool:
    """"(sc, inc) x 6; 18", "6 sc in MR 6", "sc in each st around 36": a number alone, behind what is whole without it."""
    tokens, last = cursor.tokens, tail.stop - 1
    if last <= cursor.at or tokens[last].kind != "number":
        return False
    before = last
    while before > cursor.at and tokens[before - 1].text in (",", ";", ".", "/"):
        before -= 1
    if not _is_whole(tokens, cursor.at, before, apart=before < last):
        return False
    found = _try_open(cursor, last, tail.stop, must_name=False, lead="=")
    if found is None or found.form != "total":
        return False
    tail.counts.insert(0, found)
    tail.stop = before
    tail.either = True
    return True


def _is_whole(tokens: list[Token], at: int, stop: int, apart: bool) -> bool:
    """Whether the tokens end as a whole instruction does, so that a number behind them is none of its own.

    *apart*: a sign stands before the number; without one only an end that takes no number is sure.
    """
    if stop - at < 2:
        return apart and tokens[at].kind == "number"  # "16, 16"
    last, before = tokens[stop - 1], tokens[stop - 2]
    if last.kind == "number":
        return before.text in ("x", "*") and stop - at > 2 or apart and before.kind != "mark"
    if last.text in _ENDS or last.text == "x" and before.kind == "number":
        return True
    if last.text in _RINGS and any(token.text in ("in", "into") for token in tokens[at : stop - 1]):
        return True
    if last.text in _STITCH_WORDS:
        return apart or any(token.text in ("each", "ea", "every") for token in tokens[max(at, stop - 3) : stop])
    return apart and (last.kind == "word" or last.text in CLOSING)


def _whole_before(tokens: list[Token], at: int, index: int) -> bool:
    """"(3 sc, inc) x 5 - 25": the instruction before the dash is whole, so the number behind it is the count."""
    return any(token.text in _WHOLE or token.text == "*" for token in tokens[at:index])


def _led_count(cursor: Cursor, tail: Tail, index: int) -> bool:
    """"... x 5 Total: 25 sts": words that lead to a count, with nothing to separate them."""
    if cursor.tokens[index - 1].text in ("st", "stitch", "sts", "final"):
        return False
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, index, tail.stop)
    if probe.phrase(_LEAD) is None or probe.peek() not in (":", "=") and not probe.is_number():
        return False
    found = _try_open(cursor, index, tail.stop, must_name=False, lead="=")
    if found is None:
        return False
    tail.counts.insert(0, found)
    tail.stop = index
    return True


def _only_count(cursor: Cursor, tail: Tail) -> bool:
    """"You now have 24 sts", "Total: 24 sc" with nothing before it."""
    probe = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, tail.stop)
    if probe.phrase(_LEAD) is None:
        return False
    found = _try_open(cursor, cursor.at, tail.stop, must_name=False, lead="=")
    if found is None:
        return False
    tail.counts.insert(0, found)
    tail.stop = cursor.at
    return True


def _dash(tokens: list[Token], index: int) -> bool:
    """A dash with a space before it: it separates, it does not join."""
    token = tokens[index]
    if token.text != "-" or token.glued and (index == 0 or tokens[index - 1].text != "-"):
        return False
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    return following is not None and (not following.glued or following.text == "-" or following.kind == "number")


def _try_open(cursor: Cursor, first: int, stop: int, must_name: bool, lead: str) -> Stated | None:
    tokens = cursor.tokens
    if first >= stop:
        return None
    inside = Cursor(cursor.statement, tokens, cursor.context, first, stop)
    led = inside.phrase(_LEAD) is not None
    inside.accept(":")
    inside.accept("=")
    if not inside.is_number(words=led):
        return None
    if lead in ",;" and not led and not _names_stitches(inside):
        return None
    try:
        found = read_count(inside, tokens[first].start, tokens[stop - 1].end)
    except Unreadable:
        return None
    if not isinstance(found, Stated) or found.form not in ("total", "kinds", "each", "sum", "change"):
        return None
    named = led or any(part.kind for part in found.parts) or found.form == "change" or _remaining(tokens, first, stop)
    if must_name and not named:
        return None
    if not led and lead in ".;-," and _is_work(tokens, cursor.at, first - 1, stop, found):
        return None
    return found


def _names_stitches(inside: Cursor) -> bool:
    return inside.peek(1) in ("sts", "stitches") and inside.peek(2) in ("total", "made", "rem", "remain", "remaining", "in", "")


def _remaining(tokens: list[Token], first: int, stop: int) -> bool:
    """"30 rem": what is left is the count."""
    return stop - first == 2 and tokens[stop - 1].text in ("rem", "remain", "remaining", "left")


# Words that show that the instruction before a count is whole: "sc around. 24 sc", and not "1 sc. ch 1. 1 hdc".
_WHOLE = frozenset(["rem", "remaining", "around", "across", "turn", "join", "end", "each", "ea", "every", "rep", "repeat", "times", "even", "ring", "circle", "eor", "x", "even", "mr", "total"])


# Words that end an instruction and take no number behind them.
_ENDS = frozenset(["around", "across", "times", "time", "end", "eor", "even", "twice", "join", "turn"])
_RINGS = ("ring", "circle", "mr", "mc", "ar")
_SURELY = ("made", "total", "rem", "remain", "remaining", "left", "altogether", "all")


def _is_work(tokens: list[Token], at: int, first: int, last: int, found: Stated) -> bool:
    """Whether "6 sc" behind a separator is a step rather than a count."""
    if any(part.kind == "stitch" for part in found.parts) or len(found.parts) > 1 or found.change is not None:
        return False
    if tokens[last - 1].text in _SURELY:
        return False
    before = tokens[at:first]
    if any(token.text in _WHOLE or token.text == "*" for token in before):
        return False
    if before and before[-1].text in ROUND_WORDS:  # "sc 3 for 2 rnds. 3 sc": nothing goes on behind a number of rounds
        return False
    if _adds_up(before, number_of(found)):
        return False
    # The only separator of its kind, behind more than a bare stitch, separates the count.
    commas = any(token.text == "," for token in before) and tokens[first].text != ","
    alone = sum(token.text == tokens[first].text and not _inside_name(tokens, at, index) for index, token in enumerate(before, at)) == 0
    number = found.number.value if found.number is not None else 0
    return not (alone and (commas and number > 1 or number > 3 or _same_number(before, number)) and (len(before) > 2 or any(token.kind == "number" for token in before)))


def _same_number(before: list[Token], number: int) -> bool:
    """"sc 3 - 3 sc": the only number of the instruction is the count."""
    numbers = [token.text for token in before if token.kind == "number"]
    return numbers == [str(number)]


def number_of(found: Stated) -> int:
    return found.number.value if found.number is not None else 0


def _adds_up(before: list[Token], number: int) -> bool:
    """"3 sc. 2 sc in next sc. 16 sc. 21 sc.": the numbers before the last one add up to it."""
    numbers = [int(t.text) for t, after in pairwise(before) if t.kind == "number" and len(t.text) < 6 and after.kind == "word" and after.text not in ("st", "nd", "rd", "th")]
    return len(numbers) > 1 and sum(numbers) == number


def _inside_name(tokens: list[Token], at: int, index: int) -> bool:
    """A full stop or hyphen that belongs to a name: "sl. st.", "sc-inc"."""
    return tokens[index].text == "-" and tokens[index].glued or tokens[index].text == "." and index > at and tokens[index - 1].text in ("sl", "st", "inv")


def read_count(inside: Cursor, start: int, end: int) -> Stated | Number | None:
    """count = ["="] ("?" | change | number noun {sep number noun}) ; a ``Number`` is a length in rounds.

    Returns None where it is no count. Raises Unreadable for a noun that nobody knows.
    """
    inside.accept("=")
    if inside.phrase(_LEAD):
        inside.accept(":", "=")
    about = inside.accept(*_ROUGHLY)
    if about:
        inside.accept(".")
    if inside.peek() == "?":
        return Stated(start, end, "unknown")
    sign = inside.peek()
    if sign in ("+", "-") and inside.is_number(1):
        return _signed(inside, start, end)
    if not inside.is_number():
        return None
    parts: list[KindCount] = []
    flags: set[str] = set()
    change: tuple[int, Number] | None = None
    seps: set[str] = set()
    while True:
        at = inside.start
        number = inside.number()
        if number is None:
            return None
        if inside.peek() == "-" and inside.is_number(1) and not parts:
            return _about(inside, start, end, number)
        if inside.peek() in ("x", "times", "time", "*", "X"):
            if not (inside.peek() == "x" and inside.match_stitch(1)):
                return None
            inside.accept("x")
        about = inside.phrase(_OR_SO) is not None or about
        kind, moved = _noun(inside, flags)
        if kind == "rounds" and about:
            return None
        if kind == "rounds":
            return number if inside.done and not parts else None
        if kind == "no":
            return None
        if moved:
            change = (moved * number.value, number)
        else:
            share = bool(parts) and "each" in flags
            flags -= {"each"} if share else set()
            parts.append(KindCount(at, inside.end, number, kind, share))
        if inside.done:
            break
        sep = inside.peek()
        if sep not in (",", "+", "&", "and", "plus", ";", "/", "-", ":") and not inside.is_number():
            return None
        while inside.accept(",", "+", "&", "and", "plus", ";", "/", "-", ":"):
            seps.add(sep)
        if inside.done:
            break
        if not inside.is_number():
            return None
    return _stated(start, end, parts, change, flags, seps)


def _signed(inside: Cursor, start: int, end: int) -> Stated | None:
    sign = -1 if inside.peek() == "-" else 1
    inside.at += 1
    number = inside.number()
    if number is None:
        return None
    kind, _moved = _noun(inside, set())
    if not inside.done or kind in ("no", "rounds"):
        return None
    return Stated(start, end, "change", change=sign * number.value, change_number=number)


def _about(inside: Cursor, start: int, end: int, number: Number) -> Stated | None:
    inside.accept("-")
    high = inside.number()
    kind, _moved = _noun(inside, set())
    if high is None or not inside.done or kind in ("no", "rounds"):
        return None
    return Stated(start, end, "about", number, parts=(KindCount(number.start, number.end, number), KindCount(high.start, high.end, high)))


def _stated(
    start: int, end: int, parts: list[KindCount], change: tuple[int, Number] | None, flags: set[str], seps: set[str]
) -> Stated | None:
    by, by_number = change if change else (None, None)
    if not parts:
        return Stated(start, end, "change", change=by, change_number=by_number)
    whole = [part for part in parts if not part.share]
    if len(whole) == 1 < len(parts):
        return Stated(start, end, "kinds", None, by, by_number, tuple(parts))
    if len(parts) == 1 and by is None and (parts[0].kind.startswith(("space", "corner")) or parts[0].kind in GROUP_KINDS.values()):
        return Stated(start, end, "kinds", None, None, None, tuple(parts))
    if len(parts) == 1:
        form = "each" if "each" in flags else "total"
        return Stated(start, end, form, parts[0].number, by, by_number, tuple(parts))
    if all(not part.kind for part in parts):
        if "+" in seps or "and" in seps or "&" in seps:
            return Stated(start, end, "sum", parts[0].number, by, by_number, tuple(parts))
        return None
    return Stated(start, end, "kinds", None, by, by_number, tuple(parts))


def _noun(inside: Cursor, flags: set[str]) -> tuple[str, int]:
    """noun = nothing | "sts" | stitch | space | group | "rnds" | unit, with words that change nothing behind it.

    Returns (kind, sign of a change); kind "no" where it makes the bracket something else than a count.
    """
    word = inside.peek()
    if word in UNIT_WORDS and word != "in" or (word == "in" and inside.at + 1 >= inside.stop) or word in ('"', "'", "%"):
        return "no", 0
    if word in ROUND_WORDS:
        inside.at += 1
        inside.phrase(("total", "in total", "in all"))
        return "rounds", 0
    kind = ""
    space = _space(inside)
    if space:
        kind = space
    elif word in _STITCH_WORDS:
        inside.at += 1
        kind = "stitch"
    elif word in _MORE or word in _FEWER:
        matched = None if inside.peek(1) not in ("", ",", "and") or word not in ("inc", "dec") else True
        if matched is None or inside.at + 1 >= inside.stop or inside.peek(1) in (",",):
            inside.at += 1
            return "", 1 if word in _MORE else -1
    if not kind:
        kind = _stitch_noun(inside)
    sign = 0
    while not inside.done:
        word = inside.peek()
        if word in _MORE[:2] + ("more", "added"):
            sign = 1
        elif word in _FEWER[:2] + ("fewer", "less"):
            sign = -1
        elif word in ("inc", "dec") and kind == "stitch" and inside.peek(1) in ("", ",", "-", "."):
            sign = 1 if word == "inc" else -1
        elif word == "counting":
            inside.at = inside.stop - 1  # "25 hdc counting tch as 1 hdc"
        elif word in _EACH:
            flags.add("each")
        elif word == "and" and inside.is_number(1):
            break
        elif word == "in" and inside.peek(1) in ("all", "total"):
            inside.at += 1
        elif word not in _AFTER:
            break
        inside.at += 1
    return kind, sign


def _space(inside: Cursor) -> str:
    """space = "ch" ["-"] N ("sp" | "loop") | N "-" "ch" "sp" | ["ch"] "sps" """
    word = inside.peek()
    if word not in ("ch", "chain", "corner", "corners", "-") and not _is_space(word) and not (word.isdigit() and inside.peek(1) == "-"):
        return ""
    marks = [inside.peek(ahead) for ahead in range(5)]
    for length, test in (
        (4, marks[0].isdigit() and marks[1] == "-" and marks[2] in ("ch", "chain") and _is_space(marks[3])),  # "two 8-ch loops"
        (4, marks[0] in ("ch", "chain") and marks[1] == "-" and marks[2].isdigit() and _is_space(marks[3])),
        (3, marks[0] in ("ch", "chain") and marks[1].isdigit() and _is_space(marks[2])),
        (3, marks[0] in ("ch", "chain") and marks[1] == "-" and _is_space(marks[2])),
        (5, marks[0] == "corner" and marks[1] in ("ch", "chain") and marks[2] == "-" and marks[3].isdigit() and _is_space(marks[4])),
        (4, marks[0] == "corner" and marks[1] in ("ch", "chain") and marks[2].isdigit() and _is_space(marks[3])),
        (2, marks[0] in ("ch", "chain", "corner") and _is_space(marks[1])),
        (4, marks[0] == "-" and marks[1] == "ch" and _is_space(marks[2])),
        (1, _is_space(marks[0])),
    ):
        if test:
            inside.at += min(length, inside.stop - inside.at) if length != 4 or marks[0] != "-" else 3
            chains = next((mark for mark in marks[:length] if mark.isdigit()), "")
            if marks[0] == "corner":
                return "corner space"
            return f"space {chains}" if chains and len(chains) < 4 else "space"
    return ""


_SPACES = frozenset(("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps", "arch", "arches", "buttonhole", "buttonholes", "eyelet", "eyelets"))


def _is_space(word: str) -> bool:
    return word in _SPACES


def _stitch_noun(inside: Cursor) -> str:
    token = inside.token()
    if token is None or token.kind != "word":
        return ""
    if token.text in GROUP_KINDS and not inside.match_stitch():
        inside.at += 1
        if token.text == "v":
            inside.accept("-")
            inside.accept("st", "sts")
        if inside.accept("of"):  # "4 groups of 3 dc"
            inside.number()
            of_what = inside.match_stitch()
            inside.at += of_what[1] if of_what is not None else 0
        return GROUP_KINDS[token.text]
    if token.text in ("half", "beg", "beginning", "large", "small", "single", "double") and inside.at + 1 < inside.stop:
        inside.at += 1  # "2 half shells", "1 beg shell"
        inner = _stitch_noun(inside)
        return f"{token.text} {inner}" if inner else ""
    if (granny := token.text) in ("granny", "dc", "3") and inside.peek(1) in GROUP_KINDS:
        inside.at += 1
        return _stitch_noun(inside) or granny
    matched = inside.match_stitch()
    if matched is not None:
        stitch, length = matched
        inside.at += length
        inside.accept("st", "sts")
        return "chain" if stitch.kind == "chain" else stitch.key
    if token.text in _AFTER or token.text in NUMBER_WORDS or token.text in _EACH:
        return ""
    if token.text in ("multiple", "see", "optional", "photo", "times", "time", "size", "sizes", "kg", "g"):
        return "no"
    near = all_nearest(token.text, [*inside.index, *inside.context.special_words])
    hint = f" Is it {near[0]}?" if near else ""
    raise Unreadable(
        "unknown-stitch", token.start, token.end,
        f"The count names {token.text}, which is neither a stitch nor a word for one.{hint}",
        f"Write {near[0]} instead." if near else "Write the count as a number, or declare the word under Abbreviations.",
        near[0] if near else "",
    )  # fmt: skip

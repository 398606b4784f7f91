"""What a count says, in a bracket or behind a sign: "24", "16 dc, 16 ch", "+6", "about 30", "?", or "4 rnds"."""

from __future__ import annotations

from dataclasses import dataclass, field

from .count_nouns import GROUP_KINDS, count_noun, sized_group
from .cursor import Cursor
from .phrases import Phrases
from .syntax import KindCount, Number, Stated

COUNT_LEADS = Phrases((
    "you now have", "you should now have", "you should have", "you will have", "you have", "now you have", "now have",
    "total of", "total", "count", "st count", "stitch count", "sts count", "totals", "makes", "making", "makes a total of",
    "for a total of", "a total of", "there are", "there will be", "should be", "in total", "altogether", "sts", "stitches",
    "final count", "you will now have",
))  # fmt: skip
# A count that is said to be rough is held against the stitches all the same: they make one number.
_ROUGHLY = ("approx", "approximately", "about", "roughly", "ca", "circa", "~", "nearly")
_OR_SO = ("ish", "- ish", "or so", "approx", "approximately", "approx .")


@dataclass(slots=True)
class Tail:
    """What stands behind an instruction: counts (in order), a number of rounds, and where the instruction ends."""

    counts: list[Stated] = field(default_factory=list)
    length: Number | None = None
    stop: int = 0
    either: bool = False  # the count is a bare number that may also be stitches: "(4 sc, dec) x 5, 6"


def number_of(found: Stated) -> int:
    return found.number.value if found.number is not None else 0


def read_count(inside: Cursor, start: int, end: int) -> Stated | Number | None:
    """count = ["="] ("?" | change | number noun {sep number noun}) ; a ``Number`` is a length in rounds.

    Returns None where it is no count. Raises Unreadable for a noun that nobody knows.
    """
    while inside.stop > inside.at and inside.tokens[inside.stop - 1].text == ".":
        inside.stop -= 1  # "(16 d. c., 16 ch-1 sps.)"
    inside.accept("=")
    if inside.phrase(COUNT_LEADS):
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
        group = sized_group(inside)
        kind, moved = (group[0], 0) if group is not None else count_noun(inside, flags)
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
            parts.append(KindCount(at, inside.end, number, kind, share, group[1] if group is not None else None))
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
    kind, _moved = count_noun(inside, set())
    if not inside.done or kind in ("no", "rounds"):
        return None
    return Stated(start, end, "change", change=sign * number.value, change_number=number)


def _about(inside: Cursor, start: int, end: int, number: Number) -> Stated | None:
    inside.accept("-")
    high = inside.number()
    kind, _moved = count_noun(inside, set())
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

"""Readers for the quantities of a header: put-up, category, amounts, finished sizes, weighings.

Each takes a text and the stretch to read, keeps free words, and raises BadQuantity where a quantity is clearly meant
and broken. Hooks, gauges and swatches are in :mod:`.gauges`.
"""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from .quantities import Amount, BadQuantity, Length, PutUp
from .scanning import Found, check, find
from .units import (
    CATEGORY_NAMES,
    CATEGORY_OF_PLY,
    CATEGORY_TYPES,
    NUMBER_WORDS,
    SIZE,
    SMALL_AMOUNTS,
    UNIT_OF_WORD,
    WEIGHTS,
    YARN_LENGTHS,
)

_PUT_UP = "50 g = 125 m"


def parts(text: str, start: int, end: int | None = None, marks: str = ",;") -> Iterator[tuple[int, int]]:
    """The stretches of ``text[start:end]`` between commas (or *marks*), without spaces; none inside brackets is cut.

    A comma between two digits belongs to a number. Empty stretches are left out.
    """
    stop = len(text) if end is None else end
    depth, at = 0, start
    for place in range(start, stop + 1):
        sign = text[place] if place < stop else ""
        depth += (sign in "([{" and sign != "") - (sign in ")]}" and sign != "" and depth > 0)
        between_digits = sign == "," and text[place - 1 : place].isdigit() and text[place + 1 : place + 2].isdigit()
        if place == stop or (sign in marks and depth == 0 and not between_digits):
            left, right = stripped(text, at, place)
            if left < right:
                yield left, right
            at = place + 1


def stripped(text: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without the spaces at its ends."""
    while start < end and text[start].isspace():
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


# --- yarn -------------------------------------------------------------------------------------------------------


def read_put_up(text: str, start: int = 0, end: int | None = None) -> PutUp | None:
    """Weight and length of a ball: "50 g = 125 m", "1.75 oz (50 g) / 137 yd (125 m)", "125 m per 50 g"; else None.

    Where both systems stand the metric figures are taken: labels give the other rounded.
    """
    stop = len(text) if end is None else end
    found = find(text, start, stop)
    check(text, found, start, _PUT_UP)
    _equation(text, found, start, stop)
    weights = [one for one in found if one.unit in WEIGHTS]
    lengths = [one for one in found if one.unit in YARN_LENGTHS]
    for one in (*weights, *lengths):
        if one.value <= 0:
            raise BadQuantity(one.start, one.end, f"A ball of {text[one.start:one.end]} cannot be.",
                              f"Write what the label says, as in {_PUT_UP}.")
    if not weights or not lengths:
        return None
    weight = next((one for one in weights if one.unit in ("g", "kg")), weights[0])
    length = next((one for one in lengths if one.unit == "m"), lengths[0])
    left, right = min(weight.start, length.start), max(weight.end, length.end)
    return PutUp(weight.value * SIZE[weight.unit], length.value * SIZE[length.unit], text[left:right])


def _equation(text: str, found: list[Found], start: int, stop: int) -> None:
    """Both sides of an equals sign that has a number beside it must be a weight and a length."""
    sign = text.find("=", start, stop)
    if sign < 0 or not found:
        return
    left = [one for one in found if one.end <= sign]
    right = [one for one in found if one.start > sign]
    for side in (left[-1:], right[:1]):
        if side and not side[0].unit:
            one = side[0]
            finish = one.word_start + len(one.word) if one.word else one.number_end
            raise BadQuantity(one.start, finish, f"{text[one.start:finish]} needs a unit: g or oz for the weight, "
                              "m or yd for the length.", f"Write both, as in {_PUT_UP}.")
    if not left or not right:
        raise BadQuantity(sign, sign + 1, "A weight and a length must stand beside the equals sign.",
                          f"Write both, as in {_PUT_UP}.")
    kinds = {left[-1].kind, right[0].kind}
    if kinds != {"weight", "length"} and "ball" not in kinds:
        raise BadQuantity(left[-1].start, right[0].end, "One of the two must be a weight and the other a length.",
                          f"Write both, as in {_PUT_UP}.")


_NAMES = "|".join(sorted(CATEGORY_NAMES, key=len, reverse=True))
_TYPES = "|".join(sorted(CATEGORY_TYPES, key=len, reverse=True))
_CATEGORY_NUMBER = re.compile(
    rf"\b(?:category|cat\.?|weight|cyc|no\.?)[ #]*(\d+)\b"
    rf"|\b(?:{_NAMES}|{_TYPES})(?:[ -]weight)?[ ,]*[(\[#] ?#?(\d+) ?[)\]]?"
    rf"|#(\d)\b(?= ?(?:{_NAMES}|weight))", re.IGNORECASE,
)
_CATEGORY_NAME = re.compile(rf"(?<![\w-])({_NAMES})(?:[ -]*(?:weight|wt)\b)", re.IGNORECASE)
_CATEGORY_TYPE = re.compile(rf"(?<![\w-])({_TYPES})\b", re.IGNORECASE)
_PLY = re.compile(r"(?<![\w.])(\d{1,2})[ -]?ply\b", re.IGNORECASE)


def read_category(text: str, start: int = 0, end: int | None = None) -> int | None:
    """The yarn's category 0-7: "light (3)", "category 3", "DK", "4 ply"; None where the words leave it open.

    Source: Craft Yarn Council, *Standards & Guidelines for Crochet and Knitting* (2018); plies: common practice.
    """
    stop = len(text) if end is None else end
    if number := _CATEGORY_NUMBER.search(text, start, stop):
        group = number.lastindex or 0
        if len(number.group(group)) > 1 or int(number.group(group)) > 7:
            raise BadQuantity(number.start(group), number.end(group), f"There is no yarn category "
                              f"{number.group(group)[:12]}: they run from 0 (lace) to 7 (jumbo).",
                              "Write it as light (3).")
        return int(number.group(group))
    for left, right in parts(text, start, stop):
        if text[left:right].lower() in CATEGORY_NAMES:
            return CATEGORY_NAMES[text[left:right].lower()]
    if name := _CATEGORY_NAME.search(text, start, stop):
        return CATEGORY_NAMES[name.group(1).lower()]
    if kind := _CATEGORY_TYPE.search(text, start, stop):
        return CATEGORY_TYPES[kind.group(1).lower()]
    if ply := _PLY.search(text, start, stop):
        return CATEGORY_OF_PLY.get(int(ply.group(1)))
    return None


# --- amounts ----------------------------------------------------------------------------------------------------

_ABOUT = r"(?:(?:about|approx\.?|approximately|around|ca\.?|circa|less than|under|up to|at least|some|~|<)[ ]*)*"
_BARE = re.compile(rf"{_ABOUT}-?[\d.,/ ]*\d\.?", re.IGNORECASE)
_LEAD = re.compile(rf"{_ABOUT}(?=[-\d.{chr(0xbc)}-{chr(0xbe)}{chr(0x2153)}-{chr(0x215e)}])", re.IGNORECASE)
_HAS_NUMBER = re.compile(r"[\d\u00bc-\u00be\u2153-\u215e]")
_WORDED = re.compile(rf"{_ABOUT}(\w+) (?:an? |of an? )?(?:\w+ )?(\w+)\b", re.IGNORECASE)


def read_amount(text: str, start: int = 0, end: int | None = None) -> Amount | None:
    """An amount of yarn: "10 g", "about 25 m", "2 balls", "one ball", "8 (8, 9) balls", "small amount"; else None."""
    stop = len(text) if end is None else end
    if not _HAS_NUMBER.search(text, start, stop):
        return _worded(text[start:stop])
    found = find(text, start, stop)
    check(text, found, start, "10 g, 20 m or 1 ball")
    lead = _LEAD.match(text, start, stop)
    first = next((one for one in found if one.unit in WEIGHTS | YARN_LENGTHS | {"ball"}), None)
    if first and (lead and lead.end() <= first.start <= lead.end() + 1 or text[start : first.start].endswith("(")):
        if max(first.values) <= 0:
            raise BadQuantity(first.start, first.end, f"{text[first.start:first.end]} is no yarn at all.",
                              "Write how much is needed, as 10 g, or leave the amount out.")
        return Amount(first.value, first.unit, first.values if len(first.values) > 1 else ())
    if found and _BARE.fullmatch(text, start, stop):
        raise BadQuantity(start, stop, f"{text[start:stop]} of what?",
                          "Write 10 g, 10 m or 1 ball; the number of a shade is written shade 336.")
    return _worded(text[start:stop])


def _worded(text: str) -> Amount | None:
    words = _WORDED.match(text)
    if words and words.group(1).lower() in NUMBER_WORDS and UNIT_OF_WORD.get(words.group(2).lower()) == "ball":
        return Amount(float(NUMBER_WORDS[words.group(1).lower()]), "ball")
    lowered = text.lower()
    if any(small in lowered for small in SMALL_AMOUNTS):
        return Amount(0.0, "small")
    return None


_GRAMS_OF = re.compile(r"\b(?:of|in|for)\b", re.IGNORECASE)


def read_weighing(text: str, start: int = 0, end: int | None = None) -> tuple[tuple[str, float], ...]:
    """What was weighed: "A 31 g, B 4 g", "Body: 20 g; Color B = 4 g", "31 g of A" as (name, grams); () for words."""
    example = "A 31 g, B 4 g"
    check(text, find(text, start, end), start, example)
    weighed: list[tuple[str, float]] = []
    for left, right in parts(text, start, end):
        found = find(text, left, right)
        grams = next((one for one in found if one.unit in WEIGHTS), None)
        if grams is None:
            bare = next((one for one in found if not one.word and one.end == right), None)
            if bare:
                raise BadQuantity(bare.start, bare.end, f"{text[bare.start:bare.end]} needs a unit.",
                                  f"Write grams, as in {example}.")
            continue
        if grams.value <= 0:
            raise BadQuantity(grams.start, grams.end, f"{text[grams.start:grams.end]} weighs nothing.",
                              f"Write what the scale says, as in {example}.")
        before = text[left : grams.start].strip(" :=-(")
        after = _GRAMS_OF.sub("", text[grams.end : right]).strip(" :=-()")
        weighed.append((_name(before or after), grams.value * SIZE[grams.unit]))
    return tuple(weighed)


_COLOR_WORD = re.compile(r"^(?:colou?r|col\.?)\s+", re.IGNORECASE)


def _name(text: str) -> str:
    name = _COLOR_WORD.sub("", text).strip()
    return "" if name.lower() in ("total", "all", "in all", "whole", "everything") else name


# --- measures ---------------------------------------------------------------------------------------------------

_OF = ("long", "tall", "high", "wide", "deep", "across", "around", "diameter", "circumference", "length", "height",
       "width", "bust", "chest", "head", "waist", "hip", "square", "thick", "depth")
_OF_WORD = re.compile(rf"\b({'|'.join(_OF)})\b", re.IGNORECASE)
_ALIKE = {"length": "long", "high": "tall", "height": "tall", "width": "wide", "depth": "deep", "diameter": "across",
          "circumference": "around"}
_IMPERIAL = ("in", "ft", "yd", "oz", "lb")
_BREAK = re.compile(r"[,;]|\band\b")


def read_lengths(text: str, start: int = 0, end: int | None = None) -> list[Length]:
    """The measures of a finished thing, each with what it is of: "8 cm long", "30 (32, 34) in (76 [81, 86] cm)".

    A measure that only gives the one before it in the other system is left out. Free words give [].
    """
    stop = len(text) if end is None else end
    found = find(text, start, stop)
    check(text, found, start, "8 cm long")
    measured: list[Found] = []
    tails: list[int] = []
    for one in found:
        if one.kind != "length":
            _needs_unit(text, one, stop)
        elif max(one.values) <= 0:
            raise BadQuantity(one.start, one.end, f"{text[one.start:one.end]} is no size.", "Write it as 8 cm long.")
        elif measured and is_conversion(text, measured[-1], one):
            tails[-1] = one.end
        else:
            measured.append(one)
            tails.append(one.end)
    lengths = []
    for place, one in enumerate(measured):
        following = measured[place + 1].start if place + 1 < len(measured) else stop
        before = tails[place - 1] if place else start
        of = _of_after(text, tails[place], following) or _of_before(text, before, one.start)
        sizes = one.values if len(one.values) > 1 else ()
        lengths.append(Length(one.value, one.unit, of, one.high, _whole(text, one.start, tails[place]), sizes))
    return lengths


def _whole(text: str, start: int, end: int) -> str:
    """The stretch, with the bracket that closes what it opens."""
    written = text[start:end]
    return written + ")" if written.count("(") > written.count(")") and text[end : end + 1] == ")" else written


def _needs_unit(text: str, one: Found, stop: int) -> None:
    word = one.word
    if word in _OF and word not in ("head", "across", "around"):
        end = one.word_start + len(word)
        raise BadQuantity(one.start, end, f"{text[one.start:end]}: the number needs a unit.",
                          f"Write {text[one.start:one.number_end]} cm {word}, or in for inches.")
    if not word and one.end == stop and one.start > 0 and "size" not in text[:one.start].lower().split(":")[-1]:
        raise BadQuantity(one.start, one.end, f"{text[one.start:one.end]} needs a unit.",
                          f"Write {text[one.start:one.number_end]} cm or {text[one.start:one.number_end]} in.")


def is_conversion(text: str, first: Found, second: Found) -> bool:
    """Whether the second quantity says the first again in the other system: "5 in (13 cm)", "4 in / 10 cm"."""
    if first.kind != second.kind or (first.unit in _IMPERIAL) == (second.unit in _IMPERIAL):
        return False
    between = text[first.end : second.start]
    aside = second.bracketed and not first.bracketed and len(between) < 40
    return aside or between.strip(" .~") in ("/", "(", "[", "=", "or", "")


def _of_after(text: str, start: int, stop: int) -> str:
    """What is measured, in the words up to the next comma."""
    broken = _BREAK.search(text, start, stop)
    word = _OF_WORD.search(text, start, broken.start() if broken else stop)
    return _standard(word)


def _of_before(text: str, start: int, stop: int) -> str:
    """What is measured, in the words since the last comma: "length: 8 cm"."""
    for broken in _BREAK.finditer(text, start, stop):
        start = broken.end()
    return _standard(_OF_WORD.search(text, start, stop))


def _standard(word: re.Match[str] | None) -> str:
    found = word.group(1).lower() if word else ""
    return _ALIKE.get(found, found)

"""Numbers with their units in free text: "3,5 mm", "10 1/2", "30 (32, 34) in", "9-10 cm", "1,000 yd"."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from .. import late_re as re
from .near import distance
from .quantities import BadQuantity
from .units import FRACTIONS, KIND, LONG_UNITS, NOT_MISTYPED, SHORT_UNITS, UNIT_OF_WORD

LARGEST = 1_000_000

_GLYPHS = "".join(FRACTIONS)
_FRACTION = rf"(?:[{_GLYPHS}]|(?:1/2|[12]/3|[13]/4|[1357]/8|\d{{1,2}}/16)(?![\d/]))"
# A comma before exactly three digits parts thousands, unless a lone 0 stands before it; else it is a decimal comma.
_PLAIN = r"(?:[1-9]\d{0,2}(?:,\d{3})+(?![\d,])(?:\.\d+)?|\d+(?:[.,]\d+)?|\.\d+)"
_NUMBER = re.compile(rf"(?<![\w.,#])(?<!\d/)(?:{_FRACTION}|{_PLAIN}(?:[ -]?{_FRACTION})?)")
_INNER = re.compile(rf"(?:{_FRACTION}|{_PLAIN}(?:[ -]?{_FRACTION})?)")
_ENTRY = re.compile(rf"{_FRACTION}|\d+(?:\.\d+)?(?:[ -]?{_FRACTION})?|(?<![\w])-(?![\w])")
_THOUSANDS = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?")
_FRACTION_AT_END = re.compile(rf"[ -]?({_FRACTION})$")
_RANGE = re.compile(r" ?(?:-|~|to ) ?(?=[\d.])")
_SLASHED = re.compile(r"(?: ?[/:] ?(?:\d+(?:\.\d+)?)){1,30}")
_WORD = re.compile(r" ?-? ?([^\W\d_]+|\"|'')\.?")
_LIST_TEXT = re.compile(rf"[\d\s.,;:/\-\[\](){{}}{_GLYPHS}]+")
_PAIRS = {"(": ")", "[": "]", "{": "}"}


@dataclass(frozen=True, slots=True)
class Found:
    """A number as it stands in a text: ``start`` to ``end`` with its unit, ``number_end`` without.

    ``values`` has one entry, or one a size. ``unit`` is canonical ("g"), "" where no unit follows; ``word`` is the
    word that follows, in lower case. ``high`` is the high end of a range. ``times`` where "x" and a number follow.
    """

    start: int
    number_end: int
    end: int
    values: tuple[float, ...]
    unit: str = ""
    word: str = ""
    word_start: int = 0
    high: float | None = None
    times: bool = False
    bracketed: bool = False

    @property
    def value(self) -> float:
        """The number, of the first size where there are several."""
        return self.values[0]

    @property
    def kind(self) -> str:
        """What the unit measures: "weight", "length", "ball", or "" without a unit."""
        return KIND.get(self.unit, "")


_BEYOND = 1e18


def number_of(text: str) -> float:
    """The value of a written number: "3,5" is 3.5, "1,000" is 1000, "10 1/2" is 10.5. Raises ValueError for others.

    A number past all measure is 10^18, which can be reckoned with and is refused where it is used.
    """
    text = text.strip()
    fraction = _FRACTION_AT_END.search(text)
    total = 0.0
    if fraction:
        written = fraction.group(1)
        over, _, under = written.partition("/")
        total = FRACTIONS[written] if written in FRACTIONS else int(over) / int(under)
        text = text[: fraction.start()].strip()
        if not text:
            return total
    if _THOUSANDS.fullmatch(text):
        return min(float(text.replace(",", "")) + total, _BEYOND)
    return min(float(text.replace(",", ".")) + total, _BEYOND)


def find(text: str, start: int = 0, end: int | None = None) -> list[Found]:
    """Every number of ``text[start:end]`` with what follows it, in order. Grows in a straight line with the text."""
    stop = len(text) if end is None else end
    found: list[Found] = []
    at = start
    while match := _NUMBER.search(text, at, stop):
        one = _one(text, match, stop)
        found.append(one)
        at = max(one.end if one.unit else one.number_end, match.end())
    return _with_brackets(text, start, _shared_units(found))


def _one(text: str, match: re.Match[str], stop: int) -> Found:
    values: tuple[float, ...] = (number_of(match.group()),)
    number_end, high = match.end(), None
    listed = _size_list(text, match.start(), number_end, stop)
    ranged = _RANGE.match(text, number_end, stop)
    if listed:
        values, number_end = listed
    elif ranged and (upper := _INNER.match(text, ranged.end(), stop)):
        high, number_end = number_of(upper.group()), upper.end()
    word = _WORD.match(text, number_end, stop)
    if word is None:
        return Found(match.start(), number_end, number_end, values, high=high)
    name = word.group(1).lower()
    unit = UNIT_OF_WORD.get(name, "")
    close = word.end(1)
    return Found(match.start(), number_end, close if unit else number_end, values, unit, name, word.start(1), high)


def _size_list(text: str, start: int, at: int, stop: int) -> tuple[tuple[float, ...], int] | None:
    """The values of "30 (32, 34)" or "24/30/36" and where they end, if a word for them follows; else None."""
    end = at
    while end < stop:
        after = end + 1 if text[end] == " " else end
        if after >= stop or text[after] not in _PAIRS:
            break
        close = _closing(text, after, min(stop, after + 200))
        if close is None or not _LIST_TEXT.fullmatch(text, after, close):
            break
        end = close
    if end == at:
        slashed = _SLASHED.match(text, at, stop)
        end = slashed.end() if slashed else at
    if end == at or not _WORD.match(text, end, stop):
        return None
    head, tail = text[start:at], text[at:end]
    values = [number_of(head)]
    values += [0.0 if entry == "-" else number_of(entry) for entry in _ENTRY.findall(tail)]
    return tuple(values), end


def _closing(text: str, at: int, stop: int) -> int | None:
    waiting: list[str] = []
    for place in range(at, stop):
        sign = text[place]
        if sign in _PAIRS:
            waiting.append(_PAIRS[sign])
        elif waiting and sign == waiting[-1]:
            waiting.pop()
            if not waiting:
                return place + 1
    return None


def _shared_units(found: list[Found]) -> list[Found]:
    """In "10 x 12 cm" the first number has the second one's unit."""
    shared = list(found)
    for place in range(len(shared) - 2, -1, -1):
        one, following = shared[place], shared[place + 1]
        if one.word not in ("x", "by") and not (one.unit and "x" in one.word):
            continue
        if following.start - one.word_start <= 4:
            shared[place] = replace(one, unit=one.unit or following.unit, times=True)
    return shared


def _with_brackets(text: str, start: int, found: list[Found]) -> list[Found]:
    """Marks the numbers that stand in a bracket."""
    if not any(sign in text for sign in _PAIRS):
        return found
    depth, at = 0, start
    for place, one in enumerate(found):
        for sign in text[at : one.start]:
            depth += (sign in "([{") - (sign in ")]}" and depth > 0)
        if depth > 0:
            found[place] = replace(one, bracketed=True)
        at = one.start
    return found


# --- quantities that are clearly meant and broken ----------------------------------------------------------------


_MINUS = re.compile(r"(?:^|(?<=[\s(=:,]))-(?=[\d.])")


def check(text: str, found: list[Found], start: int, way_out: str) -> None:
    """Raise :class:`BadQuantity` for a mistyped unit, a number below zero or past counting; *way_out* mends it."""
    for one in found:
        if (one.unit or one.word) and max(*one.values, one.high or 0) > LARGEST:
            raise BadQuantity(
                one.start, one.number_end, f"{shortened(text[one.start:one.number_end])} is more than can be meant.",
                f"Write it as in {way_out}.", "number-out-of-range",
            )
        if one.start > start and one.unit and _MINUS.match(text, one.start - 1):
            raise BadQuantity(
                one.start - 1, one.end, f"{text[one.start - 1:one.end]} is below zero.",
                f"Write it without the minus sign, as in {way_out}.",
            )
        if one.word and not one.unit and (unit := mistyped_unit(one.word)):
            end = one.word_start + len(one.word)
            raise BadQuantity(
                one.start, end, f"{text[one.start:end]}: {text[one.word_start:end]} is no unit that I know; "
                f"did you mean {unit}?", f"Write {text[one.start:one.number_end].strip()} {unit}.",
                replacement=f"{text[one.start:one.number_end].strip()} {unit}",
            )


@lru_cache(maxsize=1024)
def mistyped_unit(word: str) -> str | None:
    """The unit that *word* is one slip away from; None for a unit, a usual word or something quite different."""
    if word in UNIT_OF_WORD or word in NOT_MISTYPED:
        return None
    if word.strip("g") == "" and len(word) < 4:
        return "g"
    candidates = SHORT_UNITS if len(word) <= 3 else LONG_UNITS
    near = [unit for unit in candidates if abs(len(unit) - len(word)) <= 1 and distance(word, unit) == 1]
    near.sort(key=lambda unit: not word.startswith(unit))  # "cmm" is cm rather than mm
    return UNIT_OF_WORD[near[0]] if near else None


def shortened(text: str) -> str:
    """*text* for a message: long ones are cut in the middle."""
    return text if len(text) <= 24 else f"{text[:10]}...{text[-6:]}"

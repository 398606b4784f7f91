"""Readers for hooks, gauges and swatches. They raise BadQuantity for what is clearly meant and broken."""

from __future__ import annotations

from dataclasses import replace

from .. import late_re as re
from .hooks import JAPANESE, OLD_UK, STEEL, THICKEST_MM, US_LETTERS, US_NUMBERS, US_SIZES
from .measuring import stripped
from .quantities import BadQuantity, Gauge, Length, Swatch
from .scanning import LARGEST, Found, check, find, number_of, shortened
from .units import SIZE, WEIGHTS, YARN_LENGTHS
from .vocabulary import Stitch, words, words_of

# --- hooks ------------------------------------------------------------------------------------------------------

_HOOK_BREAK = re.compile(r",(?!\d)|;|\band\b|&|\+|\bor\b", re.IGNORECASE)
_LETTER = re.compile(  # a letter alone does not stand before a word: "what I like" is no hook
    r"(?<![\w.])(?:US ?)?([B-LM-QS])(?:/[A-Z])?"
    r"(?: ?[-/]? ?(\d{1,2}(?:[.,]5| ?\u00bd| 1/2)?)(?![\d.]| ?(?:mm|cm|in|oz|g)\b))?"
    r"(?![\w])(?! (?!hook|crochet|size|steel)[a-z]{2,})"
)
_US_NUMBER = re.compile(r"\bUS ?(?:size ?)?#?(\d{1,2}(?:[.,]5)?(?:[ ]?\u00bd| 1/2)?)\b(?! ?mm)", re.IGNORECASE)
_STEEL = re.compile(r"\bsteel\b\D{0,12}?(\d{1,2})\b(?! ?[.,]\d| ?mm)|(?<![\w.])#?(\d{1,2}) steel\b", re.IGNORECASE)
_JAPANESE = re.compile(r"(?<![\w.])(\d{1,2}(?:\.5)?/0)\b")
_OLD_UK = re.compile(r"\b(?:old )?UK ?(?:size ?)?(?:no\.? ?)?#?(\d{1,3})\b", re.IGNORECASE)
_BARE_HOOK = re.compile(r"(?:size |no\.? ?|#)?-?\d[\d.,/]*\.?", re.IGNORECASE)


def read_hooks(text: str, start: int = 0, end: int | None = None) -> list[Length]:
    """The hooks in millimetres: "2.5 mm (US C-2)", "C/2.75 mm", "E-4 (3.5 mm) and 4 mm", "steel 7"; [] for words.

    ``of`` is the other name. Source of the sizes: :mod:`.hooks`.
    """
    stop = len(text) if end is None else end
    check(text, find(text, start, stop), start, "2.5 mm")
    hooks: list[Length] = []
    for left, right in hook_stretches(text, start, stop):
        hooks += _one_hook(text, left, right)
    return hooks


def hook_stretches(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """The stretches that name one hook each: "E-4 (3.5 mm)" and "4 mm" of "E-4 (3.5 mm) and 4 mm"."""
    stretches, at = [], start
    for mark in (*_HOOK_BREAK.finditer(text, start, end), None):
        stretches.append(stripped(text, at, mark.start() if mark else end))
        at = mark.end() if mark else end
    return stretches


def _one_hook(text: str, left: int, right: int) -> list[Length]:
    found = find(text, left, right)
    named = hook_by_name(text, left, right)
    name = named[0] if named else ""
    metric = [one for one in found if one.unit == "mm"]
    for one in metric:
        if not 0 < one.value <= THICKEST_MM:
            raise BadQuantity(one.start, one.end, f"There is no hook of {text[one.start:one.end]}.",
                              "Write the size in millimetres, as in 2.5 mm.")
    if metric:
        return [Length(one.value, "mm", name if place == 0 else "", one.high, text[left:right])
                for place, one in enumerate(metric)]
    if named:
        return [Length(named[1][0], "mm", name, None, text[left:right])]
    if found and (_BARE_HOOK.fullmatch(text, left, right) or found[0].kind == "length" and found[0].end == right):
        raise BadQuantity(left, right, f"{text[left:right]} alone can be several hooks.",
                          "Write the millimetres, as in 2.5 mm, or the letter, as in US E-4.")
    return []


def hook_by_name(text: str, start: int, end: int) -> tuple[str, tuple[float, ...]] | None:
    """The hook that is named otherwise than in millimetres, and its millimetres by the tables, the usual one first."""
    if (steel := _STEEL.search(text, start, end)) and (size := STEEL.get(steel.group(1) or steel.group(2))):
        return f"steel {steel.group(1) or steel.group(2)}", (size,)
    if (japanese := _JAPANESE.search(text, start, end)) and japanese.group(1) in JAPANESE:
        return japanese.group(1), (JAPANESE[japanese.group(1)],)
    if (old := _OLD_UK.search(text, start, end)) and old.group(1) in OLD_UK:
        return f"UK {old.group(1)}", (OLD_UK[old.group(1)],)
    for letter in _LETTER.finditer(text, start, end):
        sizes = US_LETTERS[letter.group(1)]
        number = letter.group(2)
        if number:
            sizes = US_SIZES.get((letter.group(1), number_of(number)), sizes)
        return letter.group().removeprefix("US").strip(), sizes
    if (us := _US_NUMBER.search(text, start, end)) and (sizes_of := US_NUMBERS.get(number_of(us.group(1)))):
        return f"US {us.group(1)}", sizes_of
    return None


# --- gauge ------------------------------------------------------------------------------------------------------

_STITCH_WORDS = ("st", "sts", "stitch", "stitches")
_ROUND_WORDS = ("rnd", "rnds", "round", "rounds", "rd", "rds")
_ROW_WORDS = ("row", "rows", *_ROUND_WORDS)
_EXAMPLE = "26 sc x 28 rnds = 10 cm"
_DANGLING = re.compile(r"(?<=[\w ])(?:\bx\b|\*|&|\+)(?= ?(?:=|$))", re.IGNORECASE)
_UP_TO_THREE = re.compile(r"[^\W\d_]+(?: [^\W\d_]+){0,2}")
_IN_STITCH = re.compile(r"\b(?:in|of|working) ([a-z ]+)", re.IGNORECASE)


def stitch_named(text: str, system: str) -> Stitch | None:
    """The stitch whose name or abbreviation *text* is, in *system* ("US" or "UK"), else in the other; or None."""
    named = words_of(text)
    one, other = ("UK", "US") if system == "UK" else ("US", "UK")
    return words(one).get(named) or words(other).get(named)


def read_gauge(text: str, start: int = 0, end: int | None = None, system: str = "US") -> Gauge | None:
    """Stitches and rows over a width: "26 sc x 28 rnds = 10 cm", "5 sts = 1 inch, 3 rows = 1 inch"; else None."""
    stop = len(text) if end is None else end
    found = find(text, start, stop)
    check(text, found, start, _EXAMPLE)
    equals = text.find("=", start, stop)
    counts = [one for one in found if not one.unit and (_is_count(text, one, system) or _bare_count(text, one, equals))]
    measures = [one for one in found if one.unit in ("cm", "in") or one.unit == "mm" and one.value >= 20]
    if equals >= 0 and found:
        _broken_gauge(text, found, counts, measures, (start, equals, stop))
    if not counts or not measures:
        return None
    for one in measures:
        if one.value <= 0:
            raise BadQuantity(one.start, one.end, "A gauge over nothing cannot be.", f"Write it as in {_EXAMPLE}.")
    gauge = Gauge(text=text[start:stop].strip(), stitch=_gauge_stitch(text, counts, start, stop, system))
    for place, one in enumerate(counts):
        width, height = _over(text, one, measures)
        if one.value <= 0:
            raise BadQuantity(one.start, one.number_end, "A gauge of 0 cannot be.", f"Write it as in {_EXAMPLE}.")
        if one.word in _ROW_WORDS or place == 1 and not one.word:
            if gauge.rows is None:
                gauge = replace(gauge, rows=one.value, height_cm=height, in_rounds=one.word in _ROUND_WORDS)
        elif gauge.stitches is None:
            gauge = replace(gauge, stitches=one.value, width_cm=width)
    return gauge


def _is_count(text: str, one: Found, system: str) -> bool:
    return one.word in _STITCH_WORDS or one.word in _ROW_WORDS or _stitch_after(text, one, system) is not None


def _bare_count(text: str, one: Found, equals: int) -> bool:
    """Whether a number without a noun is a count: "26 x 28 = 10 cm", but not in "Rnds 1-6 = 5 cm"."""
    named = text[: one.start].rstrip(" .").lower().endswith(_ROW_WORDS)
    return one.start < equals and one.word in ("", "x", "by", "and") and one.high is None and not named


def _stitch_after(text: str, one: Found, system: str) -> Stitch | None:
    """The stitch named right after a number, of up to three words: "13 half double crochet"."""
    following = _UP_TO_THREE.match(text, one.word_start, one.word_start + 60) if one.word else None
    if following is None:
        return None
    written = following.group().split(" ")
    for length in range(len(written), 0, -1):
        if stitch := stitch_named(" ".join(written[:length]), system):
            return stitch
    return None


def _gauge_stitch(text: str, counts: list[Found], start: int, stop: int, system: str) -> str:
    for one in counts:
        if one.word not in _STITCH_WORDS and (stitch := _stitch_after(text, one, system)):
            return stitch.key
    for named in _IN_STITCH.finditer(text, start, stop):
        written = named.group(1).split()[:3]
        for length in range(len(written), 0, -1):
            if stitch := stitch_named(" ".join(written[:length]), system):
                return stitch.key
    return "sc"


def _over(text: str, count: Found, measures: list[Found]) -> tuple[float, float]:
    """The width and height in cm that a count is taken over: those after it, else those before."""
    following = [one for one in measures if one.start >= count.end] or measures
    first = following[0]
    width = first.value * SIZE[first.unit] / SIZE["cm"]
    second = following[1] if len(following) > 1 and first.times else first
    return width, second.value * SIZE[second.unit] / SIZE["cm"]


def _broken_gauge(
    text: str, found: list[Found], counts: list[Found], measures: list[Found], places: tuple[int, int, int]
) -> None:
    """Raise for a sign without its number, a measure without its unit, a stitch that is none."""
    start, equals, stop = places
    way_out = f"Write it as in {_EXAMPLE}."
    if dangling := _DANGLING.search(text, start, stop):
        raise BadQuantity(dangling.start(), dangling.end(),
                          f"A number is missing after {dangling.group()}: how many rows?", way_out)
    for one in found:
        if one.start > equals and not one.unit and not one.times and one.word in ("", "x") and not measures:
            raise BadQuantity(one.start, one.number_end, f"{text[one.start:one.number_end]} needs a unit.",
                              f"Write {text[one.start:one.number_end]} cm or {text[one.start:one.number_end]} in.")
        if one.start < equals and not one.unit and 0 < len(one.word) <= 4 and one not in counts and measures:
            end = one.word_start + len(one.word)
            raise BadQuantity(one.word_start, end, f"{text[one.word_start:end]} is no stitch that I know.", way_out)
    if not measures and counts and not any(one.start > equals for one in found):
        raise BadQuantity(equals, equals + 1, "A width must stand after the equals sign.", way_out)
    if measures and not counts and not text[start:equals].strip():
        raise BadQuantity(equals, equals + 1, "Stitches must stand before the equals sign.", way_out)


# --- swatch -----------------------------------------------------------------------------------------------------


def read_swatch(text: str, start: int = 0, end: int | None = None, system: str = "US") -> Swatch | None:
    """A swatch and what it took: "20 sc x 20 rows = 6 g", "20 hdc and 12 rows = 9.5 m"; None for words alone."""
    example = "20 sc x 20 rows = 6 g"
    stop = len(text) if end is None else end
    found = find(text, start, stop)
    if not found:
        return None
    check(text, found, start, example)
    counts = [one for one in found if not one.unit]
    taken = next((one for one in reversed(found) if one.unit in WEIGHTS | YARN_LENGTHS), None)
    if len(counts) < 2 or taken is None:
        last = found[-1]
        start_at, end_at = (start, stop) if taken else (last.start, max(last.end, last.number_end))
        raise BadQuantity(start_at, end_at, "A swatch needs its stitches, its rows and what it took in g or m.",
                          f"Write it as in {example}.")
    for one in (counts[0], counts[1], taken):
        if one.value <= 0:
            raise BadQuantity(one.start, one.end, "A swatch of 0 cannot be.", f"Write it as in {example}.")
        if one.value > LARGEST:
            raise BadQuantity(one.start, one.number_end, f"{shortened(text[one.start:one.number_end])} is more than can be meant.",
                              f"Write it as in {example}.", "number-out-of-range")
    first, second = counts[:2]
    if first.word in _ROW_WORDS and second.word not in _ROW_WORDS:
        first, second = second, first
    stitch = _gauge_stitch(text, [first], start, stop, system)
    size = taken.value * SIZE[taken.unit]
    return Swatch(int(first.value), int(second.value), stitch, size if taken.unit in WEIGHTS else None,
                  size if taken.unit in YARN_LENGTHS else None, text[start:stop].strip())

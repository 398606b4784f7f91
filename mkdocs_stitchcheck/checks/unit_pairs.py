"""One measure in two units, and a ball's weight against its length: units-disagree and put-up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.gauges import hook_by_name, hook_stretches
from ..language.measuring import is_conversion
from ..language.scanning import Found, find
from ..language.units import KIND, SIZE
from ..results import PatternResult
from ..source import Statement
from .reading import said

TOLERANCE = 0.03  # of the measure
HOOK_TOLERANCE = 0.25  # mm

# Metres in 100 g by yarn category, low and high: tables of wraps and metres, common practice, no source. Labels go half
# as far again beyond them on either side (soft cotton 193 in category 3, a sock wool 304 in category 1).
METRES_PER_100G: dict[int, tuple[float, float]] = {
    0: (600, 1000), 1: (350, 600), 2: (250, 400), 3: (200, 340), 4: (120, 240), 5: (90, 130), 6: (40, 100), 7: (15, 60),
}
_SLACK = 1.5
_ANY_YARN = (10.0, 3000.0)  # thicker or finer is no yarn to crochet with: common practice, no source

_MEASURED_KEYS = frozenset({
    "yarn", "color", "gauge", "swatch", "weighed", "notions", "eyes", "stuffing", "sizes", "finished size", "notes",
    "care",
})


def check_units(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """units-disagree: yards and metres, ounces and grams, inches and centimetres, a hook's letter and millimetres.

    Quiet where they agree within 3 % or by rounding either way; hooks within 0.25 mm of any size the name is sold as.
    """
    for line in pattern.header.lines:
        if line.key == "hook":
            _hook(line, findings)
        elif line.key in _MEASURED_KEYS or not line.known:
            _pairs(line.statement, line.value_start, findings)
    for statement in said(pattern):
        _pairs(statement, 0, findings)


# Every pair has a metric half; rounds hardly ever have one, and are passed over at once.
_METRIC = re.compile(
    r"[\d\u00bd)\]}] ?-?(?:mm|cm|m|g|kg|gr|grams?|kilos?|(?:centi|milli)?met(?:re|er)s?)\b", re.IGNORECASE
)


def _pairs(statement: Statement, start: int, findings: Findings) -> None:
    text = statement.text
    if not any(letter in text for letter in "mgMG") or not _METRIC.search(text, start):
        return
    groups = list(_groups(find(text, start)))
    for first, second in pairwise(groups):
        if len(first) == len(second) and is_conversion(text, first[-1], second[0]):
            for one, other in zip(first, second, strict=True):
                if not agree(text, one, other):
                    _report(statement, one, other, findings)
                    break


def _groups(found: list[Found]) -> Iterator[list[Found]]:
    """Numbers with units, those of "10 x 12 cm" together."""
    group: list[Found] = []
    for one in found:
        if not one.unit or one.kind == "ball":
            continue
        group.append(one)
        if not one.times:
            yield group
            group = []


def agree(text: str, one: Found, other: Found) -> bool:
    """Whether two quantities say the same: within 3 %, or rounded from each other, in every size."""
    if len(one.values) != len(other.values):
        return True  # lists of other lengths are another finding
    pairs = [*zip(one.values, other.values, strict=True)]
    if one.high is not None and other.high is not None:
        pairs.append((one.high, other.high))
    return all(_close(text, one, other, a, b) for a, b in pairs)


def _close(text: str, one: Found, other: Found, a: float, b: float) -> bool:
    there, back = a * SIZE[one.unit] / SIZE[other.unit], b * SIZE[other.unit] / SIZE[one.unit]
    if math.isclose(there, b, rel_tol=TOLERANCE):
        return True
    return abs(there - b) <= _half_step(text, other) or abs(back - a) <= _half_step(text, one)


_DECIMALS = re.compile(r"\d[.,](\d{1,2})(?!\d)")
_STEPS = (("\u215b\u215c\u215d\u215e", 8), ("\u00bc\u00be", 4), ("\u00bd", 2), ("\u2153\u2154", 3))


def _half_step(text: str, one: Found) -> float:
    """Half of the last place that is written: 0.5 for "13", 0.05 for "1.8", 0.25 for "10 1/2"."""
    written = text[one.start : one.number_end]
    if decimals := _DECIMALS.search(written):
        return 0.5 * 10.0 ** -len(decimals.group(1))
    for glyphs, parts in _STEPS:
        if any(glyph in written for glyph in glyphs) or f"/{parts}" in written:
            return 0.5 / parts
    return 0.5


def _report(statement: Statement, one: Found, other: Found, findings: Findings) -> None:
    text = statement.text
    place = next((i for i, (a, b) in enumerate(zip(one.values, other.values, strict=True))
                  if not _close(text, one, other, a, b)), 0)
    a, b = one.values[place], other.values[place]
    back = shown(b * SIZE[other.unit] / SIZE[one.unit])
    there = shown(a * SIZE[one.unit] / SIZE[other.unit])
    findings.add(
        "units-disagree", statement.span(one.start, other.end),
        f"{shown(b)} {other.unit} are {back} {one.unit}, not {shown(a)}.",
        suggestion=f"Write {back} {one.unit}, or {there} {other.unit} if the {one.unit} are right.",
    )


def shown(value: float) -> str:
    """A number with no more places than matter: 713, 106.7, 3.5, 0.18."""
    places = 0 if value >= 200 else 1 if value >= 10 else 2
    return f"{value:.{places}f}".rstrip("0").rstrip(".") if places else f"{value:.0f}"


def _hook(line: syntax.HeaderLine, findings: Findings) -> None:
    text = line.statement.text
    for left, right in hook_stretches(text, line.value_start, len(text)):
        named = hook_by_name(text, left, right)
        metric = [one for one in find(text, left, right) if one.unit == "mm"]
        if named is None or len(metric) != 1:
            continue
        name, sizes = named
        written = metric[0].value
        if all(abs(written - size) > HOOK_TOLERANCE + 1e-9 for size in sizes):
            findings.add(
                "units-disagree", line.statement.span(left, right),
                f"{name} is a hook of {shown(sizes[0])} mm, not of {shown(written)} mm.",
                suggestion="Write the one you used; the millimetres are what makers go by.",
            )


# --- put-up -----------------------------------------------------------------------------------------------------


def check_put_up(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """put-up: weight and length that no yarn of the category has, and balls that do not hold the amount beside them."""
    for yarn in pattern.header.yarns:
        _fineness(yarn, findings)
    for color in pattern.header.colors.values():
        _balls(color, pattern.header, findings)


def _fineness(yarn: syntax.Yarn, findings: Findings) -> None:
    if yarn.put_up is None:
        return
    known = METRES_PER_100G.get(yarn.category) if yarn.category is not None else None
    low, high = (known[0] / _SLACK, known[1] * _SLACK) if known else _ANY_YARN
    per_100g = yarn.put_up.metres_per_100g
    if low <= per_100g <= high:
        return
    text = yarn.statement.text
    at = max(text.find(yarn.put_up.text), 0)
    share = yarn.put_up.grams / 100
    usual = known or _ANY_YARN
    kind = f"yarn of category {yarn.category}" if known else "yarn"
    findings.add(
        "put-up", yarn.statement.span(at, at + len(yarn.put_up.text)),
        f"{shown(yarn.put_up.grams)} g of {kind} are about {_rough(usual[0] * share)} to {_rough(usual[1] * share)} m; "
        f"{shown(yarn.put_up.metres)} m is far from it.",
        suggestion="Compare both numbers with the label, and the category too.",
    )


def _rough(value: float) -> str:
    """Two digits: 100, 170, 2500."""
    places = 1 - math.floor(math.log10(value))
    return f"{round(value, places):.0f}" if value >= 10 else f"{value:.1f}"


def _balls(color: syntax.Color, header: syntax.Header, findings: Findings) -> None:
    """"2 balls (150 g)" where a ball is 50 g. Less than the balls hold may be what is used of them."""
    put_up = header.yarns[color.yarn].put_up if color.yarn is not None and color.yarn < len(header.yarns) else None
    if put_up is None:
        return
    found = find(color.statement.text)
    for balls, held in pairwise(found):
        if balls.unit != "ball" or not held.bracketed or held.kind not in ("weight", "length"):
            continue
        full = balls.value * (put_up.grams if held.kind == "weight" else put_up.metres)
        amount = held.value * SIZE[held.unit]
        if KIND[held.unit] == held.kind and amount > full * (1 + TOLERANCE) + _half_step(color.statement.text, held):
            unit = "g" if held.kind == "weight" else "m"
            noun = "ball holds" if balls.value == 1 else "balls hold"
            findings.add(
                "put-up", color.statement.span(balls.start, held.end),
                f"{shown(balls.value)} {noun} {shown(full)} {unit}, not {shown(amount)} {unit}.",
                suggestion="Compare the amount with the put-up of the yarn above.",
            )

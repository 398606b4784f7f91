"""Readers of the header lines about materials and sizes: yarn, colours, hook, gauge, swatch, notions, finished size."""

from __future__ import annotations

from collections.abc import Callable

from .. import late_re as re
from ..findings import Findings
from . import syntax
from .color_names import HEX_OF_NAME
from .gauges import read_gauge, read_hooks, read_swatch
from .keys import SIZE_NAMES
from .labels import color_key
from .measuring import parts, read_amount, read_category, read_lengths, read_put_up, read_weighing
from .quantities import Amount, BadQuantity, Weighing
from .scanning import check, find
from .units import MEASURES, WEIGHTS, YARN_LENGTHS

Reader = Callable[[syntax.HeaderLine, syntax.Header, Findings], None]


def _yarn(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text, at = line.statement.text, line.value_start
    yarn = syntax.Yarn(line.value, line.statement)
    header.yarns.append(yarn)  # kept even where a number in it is broken
    yarn.category = read_category(text, at)
    yarn.put_up = read_put_up(text, at)


# --- colours ----------------------------------------------------------------------------------------------------

_SHOWN = re.compile(
    r"(?:shown|drawn|charted) (?:as|in) ?(\S*)|(#(?:[0-9a-f]{6}|(?=\d*[a-f])[0-9a-f]{3}))(?![\w])", re.IGNORECASE
)
_HEX = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE)
_SHADE = re.compile(r"(?:shade|colou?rway|col\.?|colou?r|no\.?|nr\.?) ?#?(\S.*)|#(\w+)", re.IGNORECASE)
_BRACKET = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_LISTED = re.compile(r"(?:colou?r )?([A-Z]|[MC]C\d?)(?: ?[-:=] ?| )(?=\S)")


def _color(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    key = color_key(line.label)
    text, at = line.statement.text, line.value_start
    if key is None:
        _colors(line, header)
        return
    _declare(key, line, header, at, len(text))


def _colors(line: syntax.HeaderLine, header: syntax.Header) -> None:
    """Several colours in one line, "Colors: A slate, 10 g; B cream", or one without a letter, "Color: slate"."""
    text, at = line.statement.text, line.value_start
    starts: list[tuple[str, int, int]] = []
    for left, right in parts(text, at):
        if match := _LISTED.match(text, left, right):
            starts.append((match.group(1), left, match.end()))
    if not starts and line.value:
        name = text[at:].split(",")[0].split("(")[0].strip()
        _declare(name or line.label, line, header, at, len(text))
    for place, (key, _left, begin) in enumerate(starts):
        end = starts[place + 1][1] if place + 1 < len(starts) else len(text)
        _declare(key, line, header, begin, end)


def _declare(key: str, line: syntax.HeaderLine, header: syntax.Header, start: int, end: int) -> None:
    text = line.statement.text
    color = syntax.Color(key, "", line.statement, yarn=len(header.yarns) - 1 if header.yarns else None)
    header.colors[key] = color
    for left, right in parts(text, start, end):
        bracket = _BRACKET.search(text, left, right)
        if bracket and not (text[left : bracket.start()].strip()[-1:].isdigit()):
            _color_part(color, text, left, bracket.start())
            for inner_left, inner_right in parts(text, bracket.start(1), bracket.end(1)):
                _color_part(color, text, inner_left, inner_right)
        else:
            _color_part(color, text, left, right)


def _color_part(color: syntax.Color, text: str, left: int, right: int) -> None:
    """One stretch between commas: the name, the shade, what it is shown as, or the amount."""
    while right > left and text[right - 1] in " .":
        right -= 1
    if left >= right:
        return
    if shown := _SHOWN.search(text, left, right):
        group = 1 if shown.group(1) is not None else 2
        named = _named_color(text[shown.start(group) : right])
        if not named and not _HEX.fullmatch(shown.group(group)):
            raise BadQuantity(shown.start(group), max(shown.end(group), shown.start(group) + 1),
                              f"{shown.group(group) or 'Nothing'} is no colour that can be shown.",
                              "Write # and six digits or letters a to f, as in shown as #6d7a86.")
        color.shown = named or _six(shown.group(group).lower())
        left_over = text[left : shown.start()].strip(" -(")
        color.name = color.name or left_over
    elif shade := _SHADE.match(text, left, right):
        color.shade = shade.group(1) or shade.group(2)
    elif amount := read_amount(text, left, right):
        color.amount = color.amount or amount
        of = re.search(r"\bof (?:an? )?(.+)", text[left:right])
        if of and not color.name and amount.unit != "small":
            color.name = of.group(1)
    elif not color.name:
        color.name, color.amount = _name_and_amount(text, left, right, color.amount)


def _named_color(text: str) -> str:
    """The value of "olivedrab" or "olive drab"; "" where that is no colour name of CSS."""
    whole = re.sub(r"[\s-]", "", text.lower())
    return HEX_OF_NAME.get(whole) or HEX_OF_NAME.get(text.lower().split(" ")[0], "")


def _name_and_amount(text: str, left: int, right: int, amount: Amount | None) -> tuple[str, Amount | None]:
    """The name of "cream 10 g" or "slate - 1 ball", and the amount at its end where there is one."""
    for one in find(text, left, right):
        if one.end == right and one.unit in WEIGHTS | YARN_LENGTHS | {"ball"} and one.start > left:
            return text[left : one.start].strip(" -:=~"), amount or read_amount(text, one.start, right)
    return text[left:right], amount


def _six(shown: str) -> str:
    return shown if len(shown) == 7 else "#" + "".join(2 * sign for sign in shown[1:])


# --- hook, gauge, swatch, weighed -------------------------------------------------------------------------------


def _hook(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    hooks = read_hooks(line.statement.text, line.value_start)
    known = {hook.mm for hook in header.hooks}
    header.hooks += [hook for hook in hooks if hook.mm not in known]


def _gauge(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    gauge = read_gauge(line.statement.text, line.value_start, system=header.terms)
    if gauge is not None:
        header.gauge = gauge


def _swatch(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    swatch = read_swatch(line.statement.text, line.value_start, system=header.terms)
    if swatch is not None:
        header.swatches.append(swatch)


def _weighed(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    weighed = read_weighing(line.statement.text, line.value_start)
    bracket = _BRACKET.search(line.label)
    if weighed:
        header.weighings.append(Weighing(weighed, bracket.group(1).strip() if bracket else ""))


# --- notions and sizes ------------------------------------------------------------------------------------------


def _notions(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text = line.statement.text
    header.notions += [line.statement.as_written(left, right) for left, right in parts(text, line.value_start)]
    check(text, find(text, line.value_start), line.value_start, "8 mm")


def _free_quantity(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """Eyes and stuffing: free words, in which a mistyped unit is still an error."""
    text = line.statement.text
    check(text, find(text, line.value_start), line.value_start, "8 mm")


def _finished(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    header.finished += read_lengths(line.statement.text, line.value_start)


_CUTS = (",", ";", ":", " / ", " - ", "-", "/")
_MOST_SIZES = 50
_SPAN = re.compile(r"\s*\d+ ?(?:[a-z]+ ?)?-[^-]*", re.IGNORECASE)  # "6-12 months" is one size


def _sizes(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``Sizes: S (M, L)``; a measure alone ("Size: 8 cm tall") is a finished size."""
    text, at = line.statement.text, line.value_start
    if _is_measure(text, at):
        line.key = "finished size"
        _finished(line, header, findings)
        return
    if fits := _BODY.search(text, at):
        text = text[: fits.start() + 1]
    entries = _entries(text, at)
    names: list[str] = []
    if len(entries) > _MOST_SIZES:
        raise BadQuantity(at, len(text), f"{len(entries)} sizes are more than can be meant.",
                          "Write it as in S (M, L).", "number-out-of-range")
    for left, right in entries:
        name = text[left:right]
        if not name:
            raise BadQuantity(max(at, left - 1), max(right, left) + 1, "A size is missing between the commas.",
                              "Write it as in S (M, L).")
        if name.lower() in (other.lower() for other in names):
            raise BadQuantity(left, right, f"Size {name} is listed twice.", "Write it as in S (M, L).")
        names.append(name)
    header.sizes = tuple(names) if len(names) > 1 else ()


def _is_measure(text: str, at: int) -> bool:
    found = find(text, at)
    return bool(found) and found[0].unit in MEASURES and len(found[0].values) == 1 and (
        not any(mark in text[at : found[0].start] for mark in "(,[")
    )


_GROUP = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
_BODY = re.compile(r"[)\]}]\s*[-,;:]?\s*(?:to fit|fits?|for)\b", re.IGNORECASE)  # "S (M, L) to fit head 52 (55, 58) cm"
_FIT = re.compile(r"(?:to fit|fits|in sizes)\s*:?\s*", re.IGNORECASE)


def _entries(text: str, at: int) -> list[tuple[int, int]]:
    """The stretches of the size names, in order."""
    if fit := _FIT.match(text, at):
        at = fit.end()
    groups = list(_GROUP.finditer(text, at))
    if not groups:
        end = len(text.rstrip(" ."))
        ranged = _range_entries(text, at, end)
        return ranged if ranged else _cut(text, at, end, alone=True)
    entries = _cut(text, at, groups[0].start(), alone=False)
    for group in groups:
        entries += _cut(text, group.start(1), group.end(1), alone=True)
    return entries


def _range_entries(text: str, at: int, end: int) -> list[tuple[int, int]]:
    """"XS-XL" stays one entry a name only where it can be counted; it is no list of two."""
    low, dash, high = text[at:end].upper().partition("-")
    if dash and low.strip() in SIZE_NAMES and high.strip() in SIZE_NAMES:
        gap = SIZE_NAMES.index(high.strip()) - SIZE_NAMES.index(low.strip())
        if gap != 1:
            raise BadQuantity(at, end, f"{text[at:end]} leaves open which sizes lie between.",
                              "List each one, as in XS (S, M, L).")
    return []


def _cut(text: str, start: int, end: int, alone: bool) -> list[tuple[int, int]]:
    cut = next((mark for mark in _CUTS if mark in text[start:end]), None) if alone else None
    if cut == "-" and _SPAN.fullmatch(text, start, end):
        return [_trimmed(text, start, end)]
    if cut is None and alone and all(len(word) <= 3 for word in text[start:end].split()):
        cut = " " if " " in text[start:end].strip() else None
    entries, at = [], start
    while cut is not None and (place := text.find(cut, at, end)) >= 0:
        entries.append((at, place))
        at = place + len(cut)
    entries.append((at, end))
    return [_trimmed(text, left, right) for left, right in entries if cut != " " or text[left:right].strip()]


def _trimmed(text: str, left: int, right: int) -> tuple[int, int]:
    while left < right and text[left] in " ,":
        left += 1
    while right > left and text[right - 1] in " ,":
        right -= 1
    return left, right


def _title(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    header.title = header.title or line.value


READERS: dict[str, Reader] = {
    "title": _title, "yarn": _yarn, "color": _color, "hook": _hook, "gauge": _gauge, "swatch": _swatch,
    "weighed": _weighed, "notions": _notions, "eyes": _free_quantity, "stuffing": _free_quantity,
    "finished size": _finished, "sizes": _sizes,
}

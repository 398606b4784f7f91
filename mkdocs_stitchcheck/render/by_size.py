"""A number for each size: all as written, or only the ones of the size that a reader has chosen. HTML and a style sheet.

Whatever belongs to some sizes bears ``sc-s`` and ``sc-s2``, ``sc-s3`` ... for each of them; what belongs to the list as
a whole (brackets, commas, "Sizes M and L only:") bears ``sc-all``. :func:`size_rules` hides what the choice leaves out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache

from ..language import syntax
from ..language.normalise import normalise
from ..language.scanning import find
from ..language.size_lists import fold_sizes
from ..language.tokens import tokenize
from ..results import PatternResult, RoundResult
from .addresses import Addresses
from .html import Child, Html, el, join, lines

MOST_COLUMNS = 6  # with more sizes the counts stand as a list in one column
_MOST_SIZES = 9  # that can be chosen among
_MOST_PATTERNS = 2  # in sizes, on one page
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?(?: ?[½¼¾])?|[½¼¾]")
_WHOLE = re.compile(r"\d+")
_DASH = re.compile(r"[-–—−]")


def count_columns(pattern: PatternResult) -> int:
    """The columns of counts: one a size, or a single one."""
    sizes = len(pattern.syntax.header.sizes)
    return sizes if 1 < sizes <= MOST_COLUMNS else 1


def pads(pattern: PatternResult, tag: str = "td") -> list[Html]:
    """Empty cells behind one that goes over all columns: they vanish with the columns of the sizes that are not chosen.

    A cell that spanned those columns itself would keep them.
    """
    return [el(tag, class_="sc-all sc-pad", aria_hidden="true")] * (count_columns(pattern) - 1)


def size_class(places: Iterable[int], more: str = "") -> str:
    """The classes of something that belongs to the sizes with these numbers (from 0)."""
    return " ".join(part for part in ("sc-s", *(f"sc-s{place + 1}" for place in places), more) if part)


def classes_of(result: RoundResult | None, line: syntax.RoundLine, sizes: int) -> str | None:
    """The classes of a line that only some sizes work; None where all do."""
    works = [place for place in range(sizes) if (line.only is None or place in line.only)
             and (result is None or result.works_in(place))]
    return size_class(works) if sizes > 1 and 0 < len(works) < sizes else None


def sizes_with(label: syntax.RoundLabel, number: int) -> list[int]:
    """The sizes whose stretch of rounds holds *number*; none where that is all of them."""
    if len(label.written) < 2 or len(label.written[-1].values) < 2:
        return []
    values = label.written[-1].values
    with_it = [place for place, last in enumerate(values) if last is not None and number <= last]
    return with_it if len(with_it) < len(values) else []


def is_until(line: syntax.RoundLine) -> bool:
    """Whether a line goes on until a measure is reached."""
    return any(isinstance(step, syntax.Until) for step in line.steps or ())


def by_gauge(line: syntax.RoundLine, result: RoundResult | None, sizes: int) -> Html | None:
    """"about 38 rows by the gauge", of a line that goes on until it measures so much."""
    if result is None or result.trust or not is_until(line):
        return None
    word = "row" if result.kind == "row" else "round"
    rows = [work.worked for work in result.sizes] or [result.worked]
    if len(set(rows)) == 1:
        return el("span", f" (about {rows[0]} {word}{'' if rows[0] == 1 else 's'} by the gauge)", class_="sc-gauged")
    listed = f"{rows[0]} ({', '.join(map(str, rows[1:]))})"
    return el("span", " (about ", sized(listed, sizes), f" {word}s by the gauge)", class_="sc-gauged")


# --- lists of numbers in a text ---------------------------------------------------------------------------------------


def _lists(text: str, sizes: int) -> list[list[tuple[int, int]]]:
    """The places of the entries of each list of as many numbers as there are sizes, in order."""
    if sizes < 2 or not any(sign in text for sign in "([{/"):
        return []
    plain = normalise(text)
    found: list[tuple[int, int, tuple[int | None, ...], re.Pattern[str]]] = [
        (one.start, one.number_end, (0,) * sizes, _NUMBER) for one in find(plain) if len(one.values) == sizes
    ]
    for token in fold_sizes(tokenize(plain), sizes, []):
        values = token.values or ()
        if len(values) == sizes and not any(start < token.end and token.start < end for start, end, _v, _p in found):
            found.append((token.start, token.end, values, _WHOLE))
    return [entries for one in sorted(found, key=lambda one: one[0]) if (entries := _entries(text, *one))]


def _entries(
    text: str, start: int, end: int, values: tuple[int | None, ...], number: re.Pattern[str]
) -> list[tuple[int, int]] | None:
    places: list[tuple[int, int]] = []
    at = start
    for value in values:
        match = (_DASH if value is None else number).search(text, at, end)
        if match is None:
            return None
        places.append(match.span())
        at = match.end()
    return places


def sized(text: str, sizes: int) -> Html | str:
    """*text* with each list for the sizes cut into its entries."""
    parts: list[Child] = []
    at = 0
    for entries in _lists(text, sizes):
        if entries[0][0] < at:
            continue
        end = _list_end(text, entries[-1][1])
        parts.append(text[at : entries[0][0]])
        for place, (start, stop) in enumerate(entries):
            parts.append(el("span", text[start:stop], class_=size_class((place,))))
            after = text[stop : entries[place + 1][0] if place + 1 < len(entries) else end]
            parts.append(el("span", after, class_="sc-all") if after else None)
        at = end
    return join(parts, text[at:]) if parts else text


def _list_end(text: str, at: int) -> int:
    """Behind the brackets that close a list."""
    while at < len(text) and text[at] in ")]}":
        at += 1
    return at


def of_size(text: str, sizes: int, place: int) -> str:
    """*text* as the size with number *place* has it."""
    parts, at = [], 0
    for entries in _lists(text, sizes):
        if entries[0][0] >= at:
            start, stop = entries[place]
            parts += [text[at : entries[0][0]], text[start:stop]]
            at = _list_end(text, entries[-1][1])
    return "".join([*parts, text[at:]])


def each_size(pattern: PatternResult, said: Callable[[int], Child]) -> Html:
    """What is said of every size, one line each with its name."""
    rows = [
        el("span", el("strong", el("bdi", name), class_="sc-name"), " ", said(place), class_=size_class((place,), "sc-line"))
        for place, name in enumerate(pattern.syntax.header.sizes)
    ]
    return lines(*rows)


def size_titles(pattern: PatternResult, **attributes: str | int | None) -> list[Html]:
    """A head of a column for each size."""
    return [
        el("th", el("bdi", name), scope="col", class_=size_class((place,), "sc-count"), align="right", **attributes)
        for place, name in enumerate(pattern.syntax.header.sizes)
    ]


# --- the choice -------------------------------------------------------------------------------------------------------


def scope_class(patterns: list[PatternResult], pattern: PatternResult) -> str | None:
    """The class around all parts of a pattern in several sizes, numbered among those of its page."""
    several = [one for one in patterns if 1 < len(one.syntax.header.sizes) <= _MOST_SIZES]
    number = next((i for i, one in enumerate(several, 1) if one is pattern), 0)
    return f"sc-p{number}" if 0 < number <= _MOST_PATTERNS else None


def choice(pattern: PatternResult, addresses: Addresses, scope: str | None) -> Html | None:
    """Buttons with which a reader chooses a size; None for a pattern in one size, and without a *scope* to reach it by."""
    sizes = pattern.syntax.header.sizes
    if scope is None or not 1 < len(sizes) <= _MOST_SIZES:
        return None
    name = f"{addresses.pattern(pattern.syntax)}-size"
    buttons = [
        el("label", el("input", type="radio", name=name, class_=f"{scope}-{place}", checked=not place), " ", el("bdi", size))
        for place, size in enumerate(("All sizes", *sizes))
    ]
    return el("fieldset", lines("", el("legend", "Show"), buttons, ""), class_="sc-choice")


@cache
def size_rules(patterns: int = _MOST_PATTERNS) -> str:
    """The rules that show one size alone where it is chosen."""
    rules = ["\n/* One size alone, where a reader has chosen it */"]
    for own in (f"sc-p{pattern}" for pattern in range(1, patterns + 1)):
        others = ", ".join(f":has(.{own}-{size}:checked) &:not(.sc-s{size})" for size in range(1, _MOST_SIZES + 1))
        one = f":has(.{own} .sc-choice :checked:not(.{own}-0)) &"
        rules += [f".{own} .sc-s {{ {others} {{ display: none !important; }} }}",
                  f".{own} :is(.sc-all, .sc-name) {{ {one} {{ display: none !important; }} }}"]
    return "\n".join(rules) + "\n"

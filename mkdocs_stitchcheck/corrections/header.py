"""What the header asks for otherwise: yarn, colours, hook, gauge, notions, sizes; and what it only says otherwise."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator
from dataclasses import replace

from ..language.labels import color_key
from ..language.syntax import Header, HeaderLine

# What a maker buys, or how the making is to be read. Everything else in a header is words.
_MATTERS = {
    "yarn": "Yarn", "color": "Colour", "hook": "Hook", "gauge": "Gauge", "notions": "You also need", "eyes": "Eyes",
    "stuffing": "Stuffing", "sizes": "Sizes", "finished size": "Finished size", "special stitch": "Special stitch",
    "turning chain": "Turning chain", "reading": "Reading",
}  # fmt: skip
_SILENT = ("version", "date", "corrected", "draft", "show", "terms", "weighed", "swatch", "video")
_NUMBER = re.compile(r"\d+(?:[.,/]\d+)*")

Changed = tuple[str, str, str, bool]


def header_changes(old: Header, new: Header, other_terms: bool) -> Iterator[Changed]:
    """(label, before, after, whether the making changes) of every header line that is not as it was."""
    before, after = _lines(old), _lines(new)
    for key in dict.fromkeys([*before, *after]):
        was, now = before.get(key), after.get(key)
        label = _label(now or was or [])
        if [line.value for line in was or ()] == [line.value for line in now or ()]:
            continue
        values = " / ".join(line.value for line in was or ()), " / ".join(line.value for line in now or ())
        matters = key[0] in _MATTERS and _asks(key, was, old, other_terms) != _asks(key, now, new, other_terms)
        yield label, *values, matters


def _lines(header: Header) -> dict[tuple[str, str], list[HeaderLine]]:
    found: dict[tuple[str, str], list[HeaderLine]] = {}
    for line in header.lines:
        if line.key not in _SILENT:
            own = color_key(line.label) or "" if line.key == "color" else ""
            found.setdefault((line.key, own), []).append(line)
    return found


def _label(lines: list[HeaderLine]) -> str:
    line = lines[0]
    return " ".join(line.label.split()) if line.key in ("color", "gauge") else _MATTERS.get(line.key, line.label)


def _asks(key: tuple[str, str], lines: list[HeaderLine] | None, header: Header, other_terms: bool) -> Hashable:
    """What lines of one key ask for, as far as it can be told without their words."""
    if not lines:
        return None
    numbers = tuple(number for line in lines for number in _NUMBER.findall(line.value))
    words = "" if other_terms else " ".join(" ".join(line.value for line in lines).lower().split())
    if key[0] == "color":
        color = header.colors.get(key[1])
        return (color.amount, color.shade, "" if other_terms else color.name.lower()) if color else numbers
    if key[0] == "hook" and header.hooks:
        return tuple((hook.value, hook.sizes) for hook in header.hooks)
    if key[0] == "gauge" and header.gauge is not None:
        return replace(header.gauge, text="", stitch="" if other_terms else header.gauge.stitch)
    if key[0] in ("sizes", "reading", "turning chain") and not other_terms:
        return words
    if key[0] == "yarn":  # another name is another yarn
        plain = tuple((yarn.category, yarn.put_up and (yarn.put_up.grams, yarn.put_up.metres)) for yarn in header.yarns)
        return plain if other_terms else (plain, words)
    return tuple(sorted(numbers)) if other_terms else numbers

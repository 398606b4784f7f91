"""What a page carries for its switch between US and UK terms: the words that differ, as written, with their like."""

from __future__ import annotations

import json
from collections.abc import Iterator

from ..language.swapped_terms import Swap, can_be_swapped, own_words, swapped, swaps
from ..language.vocabulary import plain_names
from ..results import PatternResult
from .html import Html, el, join
from .words import clean

OTHER = {"US": "UK", "UK": "US"}


def can_switch(pattern: PatternResult) -> bool:
    """Whether a pattern is in US or UK terms."""
    return can_be_swapped(pattern.syntax.header)


def switched_words(pattern: PatternResult) -> dict[str, str]:
    """The words of a pattern that are others in the other terms, each as it is written; {} where none is.

    A word is taken with the letters on both sides, so that it can be found by itself: "FPdc", not "dc"; "miss" with the
    word behind it, since one also misses a bus.
    """
    if not can_switch(pattern):
        return {}
    system = pattern.syntax.system
    own = own_words(pattern.syntax.header, system)
    found: dict[str, str] = {}
    for text in _texts(pattern):
        for swap in swaps(text, system, OTHER[system], own):
            word, other = _whole(text, swap)
            found[word] = other
    if found:
        for us, uk in plain_names():  # the list of abbreviations names them in full
            name, other = (us[1], uk[1]) if system == "US" else (uk[1], us[1])
            found.setdefault(name, other)
        found[f"{system} terms"] = f"{OTHER[system]} terms"
    if system == "UK" and pattern.syntax.header.first("gauge") is not None:
        found["Tension"] = "Gauge"  # the name of the line; the other way it is among the words that differ
    return found


def in_other_terms(text: str, pattern: PatternResult, both: bool) -> Html | None:
    """A line in the other terms below it, where a page shows *both* and a word of it would differ."""
    if not both or not can_switch(pattern):
        return None
    system = pattern.syntax.system
    other = swapped(text, system, OTHER[system], own_words(pattern.syntax.header, system))
    return join(el("br"), el("small", f"{OTHER[system]}: {other}", dir="auto", translate="no")) if other != text else None


def _texts(pattern: PatternResult) -> Iterator[str]:
    for line in pattern.syntax.header.lines:
        if line.key not in ("title", "terms"):
            yield clean(line.statement.written)
    for piece in pattern.syntax.pieces:
        if piece.heading is not None:
            yield clean(piece.heading.written)
        for statement in (line.statement for line in piece.lines if line.kind not in ("private", "excuse")):
            yield clean(statement.written)


def _whole(text: str, swap: Swap) -> tuple[str, str]:
    start, end = swap.start, swap.end
    while start and text[start - 1].isalpha():
        start -= 1
    while end < len(text) and text[end].isalpha():
        end += 1
    if text[start:end].lower() == "miss":
        while end < len(text) and text[end].isspace():
            end += 1
        while end < len(text) and text[end].isalnum():
            end += 1
    return text[start:end], text[start : swap.start] + swap.words + text[swap.end : end]


def switch_attributes(pattern: PatternResult) -> dict[str, str]:
    """The attributes that give a page's script its switch; {} where there is nothing to switch."""
    found = switched_words(pattern)
    if not found:
        return {}
    return {"data_terms": pattern.syntax.system, "data_words": json.dumps(found, ensure_ascii=False, separators=(",", ":"))}

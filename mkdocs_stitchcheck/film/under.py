"""The text under a film: plain lines, since that is all a player shows."""

from __future__ import annotations

from collections.abc import Iterator

from ..language.other_terms import OTHER_TERMS
from ..render.abbreviations import entries
from ..render.caution import caution_lines, needs_caution
from ..render.colors import color_words
from ..render.materials import MATERIALS, amount_words
from ..render.words import clean
from ..results import PatternResult
from .chapters import chapters, clock

_BELOW = ("designer", "licence", "copyright")


def under_the_film(pattern: PatternResult, address: str = "") -> str:
    """What belongs under the film of *pattern*; *address* is where its post is published, "" where that isn't known."""
    parts = [_part("", [pattern.title or "Pattern", *([f"The pattern: {address}"] if address else [])])]
    parts.append(_part("Materials", _materials(pattern)))
    parts.append(_part("Safety", list(caution_lines()) if needs_caution(pattern) else []))
    terms = OTHER_TERMS.get(pattern.syntax.header.terms)
    words = terms.title if terms else f"{pattern.syntax.system} terms"
    parts.append(_part(f"Abbreviations, {words}", [f"{word} = {means}" for word, means in entries(pattern)]))
    parts.append(_part("Chapters", [f"{clock(one.start)} {one.name}" for one in chapters(pattern)]))
    parts.append(_part("", list(_below(pattern))))
    return "\n\n".join(part for part in parts if part)


def _part(title: str, rows: list[str]) -> str:
    return "\n".join([*([title] if title else []), *rows]) if rows else ""


def _materials(pattern: PatternResult) -> list[str]:
    header = pattern.syntax.header
    rows = []
    for key, label in MATERIALS.items():
        label = "Tension" if key == "gauge" and pattern.syntax.system == "UK" else label
        rows += [f"{label}: {clean(line.value)}" for line in header.lines if line.key == key]
        if key == "yarn":
            for color in header.colors.values():
                amount = amount_words(color)
                rows.append(f"Colour {color_words(color.key, header.colors)}" + (f", {amount}" if amount else ""))
    return rows


def _below(pattern: PatternResult) -> Iterator[str]:
    for key in _BELOW:
        line = pattern.syntax.header.first(key)
        if line is not None:
            yield f"{key.capitalize()}: {clean(line.value)}"

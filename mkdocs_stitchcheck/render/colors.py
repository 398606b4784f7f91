"""Colours as readers see them: a swatch where a true colour value is given, and always the letter and the name."""

from __future__ import annotations

import re

from ..language import syntax
from ..language.color_names import HEX_OF_NAME
from .html import Html, el, join

_HEX = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})")


def color_value(shown: str | None) -> str | None:
    """*shown* as a colour value in lower case if it is #rgb, #rrggbb or a CSS colour name; else None."""
    value = (shown or "").strip().lower()
    return value if value in HEX_OF_NAME or _HEX.fullmatch(value) else None


def swatch(color: syntax.Color | None) -> Html | None:
    """A round patch of the colour; a drawing, since a strict content security policy forbids styles in place."""
    value = color_value(color.shown) if color else None
    if value is None:
        return None
    disc = el("circle", cx=8, cy=8, r=7, fill=value)
    return el("svg", disc, class_="sc-swatch", viewBox="0 0 16 16", width=16, height=16, aria_hidden="true")


def color_words(key: str, colors: dict[str, syntax.Color]) -> str:
    """"A, slate": the letter and the name; only the one of the two that there is."""
    color = colors.get(key)
    name = color.name if color else ""
    if not name or name.lower() == key.lower():
        return key
    return f"{key} {name}"


def chip(key: str, colors: dict[str, syntax.Color]) -> Html:
    """Swatch, letter and name on one line."""
    return el("span", swatch(colors.get(key)), el("bdi", color_words(key, colors)), class_="sc-color")


def chips(keys: tuple[str, ...] | list[str], colors: dict[str, syntax.Color]) -> Html | None:
    """Several colours after one another, each once."""
    found = [chip(key, colors) for key in dict.fromkeys(keys) if key]
    return el("span", join([[item, " "] for item in found]), class_="sc-colors") if found else None

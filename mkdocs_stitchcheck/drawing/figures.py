"""A drawing as a tree of SVG elements (W3C, *Scalable Vector Graphics 2*), without a word of markup in it.

Whoever writes it out escapes it. Lengths are user units; y goes down, as in SVG.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

TEXT_HEIGHT = 18.0  # of all lettering, in units
_LETTER = 0.56  # the mean width of a letter, in its height


@dataclass(frozen=True, slots=True)
class Shape:
    """An SVG element: ``attributes`` by name, numbers already rounded; ``text`` where it holds words."""

    tag: str
    attributes: tuple[tuple[str, str], ...] = ()
    children: tuple[Shape, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A whole drawing: its place in user units, what is in it, and what it shows in words.

    ``unit_mm`` is the size at which a unit is printed on a sheet, in mm; ``unit_px`` on a screen, in px.
    """

    left: float
    top: float
    width: float
    height: float
    shapes: tuple[Shape, ...]
    words: str
    unit_mm: float = 0.3
    unit_px: float = 1.0


def num(value: float) -> str:
    """A number with a tenth at most: "12", "-3.5", "0"."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def shape(tag: str, *children: Shape, text: str = "", **attributes: str | float | None) -> Shape:
    """An element. Names have ``_`` for ``-``; None leaves one out."""
    given = tuple(
        (name.rstrip("_").replace("_", "-"), value if isinstance(value, str) else num(value))
        for name, value in attributes.items() if value is not None
    )
    return Shape(tag, given, children, text)


def path(d: str, **attributes: str | float | None) -> Shape | None:
    """A path; None where there is nothing to draw."""
    return shape("path", text="", d=d, **attributes) if d else None


def words_at(x: float, y: float, text: str, anchor: str = "middle", **attributes: str | float | None) -> Shape:
    """Lettering whose middle line is at *y*."""
    return shape("text", text=text, x=x, y=y + TEXT_HEIGHT * 0.35, text_anchor=anchor, **attributes)


def text_width(text: str) -> float:
    """About how wide *text* comes out."""
    return len(text) * TEXT_HEIGHT * _LETTER


def there(shapes: Iterable[Shape | None]) -> tuple[Shape, ...]:
    """Those that are there."""
    return tuple(one for one in shapes if one is not None)

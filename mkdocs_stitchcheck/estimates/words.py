"""Estimates in words, with no more digits than they deserve: for pages and for the terminal."""

from __future__ import annotations

from ..language.units import SIZE
from .rounding import rounded
from .size import PieceSize
from .stuffing import STUFFING_ERROR, Stuffing

UNITS = ("cm", "in")
_PER_CM = {"cm": 1.0, "in": SIZE["cm"] / SIZE["in"]}


def measure_number(cm: float, error: float, unit: str = "cm") -> str:
    """A measure in *unit*, to a tenth at most: "7", "4.4", "14"."""
    number = rounded(cm * _PER_CM[unit], error)
    return f"{number:.1f}".removesuffix(".0") if abs(number) < 10 else f"{number:.0f}"


# What is said of each shape: the word, and the measure that it is of.
_SAID: dict[str, tuple[tuple[str, str], ...]] = {
    "flat": (("wide", "width"), ("tall", "length")),
    "disc": (("across", "width"),),
    "motif": (("wide", "width"), ("tall", "depth")),
    "flat oval": (("long", "width"), ("wide", "depth")),
    "oval": (("wide", "width"), ("deep", "depth"), ("tall", "length")),
    "pressed": (("long", "length"), ("wide, pressed flat", "width")),
    "round": (("tall", "length"), ("across", "width"), ("around", "around")),
}


def named_measures(size: PieceSize) -> list[tuple[str, str, float]]:
    """What is known of a piece's size: (word, name of the measure, cm), as ("tall", "length", 7.0)."""
    found = [(word, name, getattr(size, name)) for word, name in _SAID.get(size.shape, ())]
    return [(word, name, value) for word, name, value in found if value is not None]


def measures(size: PieceSize, unit: str = "cm") -> list[str]:
    """What is known of a piece's size: ["7 cm long", "4.4 cm across"], each in *unit*."""
    return [f"{measure_number(value, size.error, unit)} {unit} {word}" for word, _name, value in named_measures(size)]


def stuffing_words(one: Stuffing, made: int = 1) -> str:
    """"about 1 g loose, 2 g medium, 4 g firm" for so many makings; "" where no room is known."""
    if not one.litres:
        return ""
    parts = [f"{_grams(grams * made)} g {name}" for name, grams in one.grams.items()]
    return f"about {', '.join(parts)}"


def _grams(grams: float) -> str:
    """Whole grams, two digits at most: stuffing is good to 30 %."""
    if grams < 1:
        return "1"
    number = rounded(grams, STUFFING_ERROR)
    return f"{number:.0f}"

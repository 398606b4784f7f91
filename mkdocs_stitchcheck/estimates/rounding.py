"""Numbers with no more digits than an estimate deserves."""

from __future__ import annotations

import math

from ..language.units import SIZE

SMALL_GRAMS = 5.0  # below it a scale and an estimate say the same: a small amount (common practice, no source)


def rounded(value: float, error: float) -> float:
    """*value* rounded to the digits that a likely *error* (0.2 for 20 %) leaves it: two, one where it is over a third (1.5 as 2).

    Three digits are kept below an error of 3 %. Zero stays zero. Raises ValueError for a number that is not finite.
    """
    if not math.isfinite(value):
        raise ValueError("an estimate is a finite number")
    if value == 0:
        return 0.0
    digits = 3 if error < 0.03 else 2 if error <= 1 / 3 else 1
    return round(value, digits - 1 - math.floor(math.log10(abs(value))))


def written(value: float, error: float) -> str:
    """The rounded number as text, without needless zeros and never with an exponent: "940", "7.3", "0.4"."""
    number = rounded(value, error)
    if number == 0:
        return "0"
    places = max(0, 1 - math.floor(math.log10(abs(number)))) if abs(number) < 10 else 0
    text = f"{number:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def length_text(metres: float, error: float) -> str:
    """A yarn length in both systems: "about 37 m (41 yd)"."""
    return f"about {written(metres, error)} m ({written(metres / SIZE['yd'], error)} yd)"


def weight_text(grams: float, error: float) -> str:
    """A yarn weight in both systems: "about 15 g (0.53 oz)"; "small amount" below 5 g."""
    if grams < SMALL_GRAMS:
        return "small amount"
    return f"about {written(grams, error)} g ({written(grams / SIZE['oz'], error)} oz)"

"""Quantities as written, beside their conversion."""

from __future__ import annotations

from ..language import syntax
from ..language.quantities import Gauge, Length, PutUp
from .words import clean

_CM = {"mm": 0.1, "cm": 1.0, "m": 100.0}
_INCHES = {"in": 1.0, "inch": 1.0, "inches": 1.0, '"': 1.0, "″": 1.0, "ft": 12.0}
# International avoirdupois ounce and international yard, both exact (agreement of 1959).
GRAMS_AN_OUNCE = 28.349523125
METRES_A_YARD = 0.9144
CM_AN_INCH = 2.54


def number(value: float, digits: int = 1) -> str:
    """*value* with at most *digits* decimals and no trailing zeros."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def converted_length(length: Length) -> str:
    """"3.1 in" for 8 cm, "20.3 cm" for 8 in; "" for a unit that is not a length."""
    unit = length.unit.lower()
    if unit in _CM:
        factor, target = _CM[unit] / CM_AN_INCH, "in"
    elif unit in _INCHES:
        factor, target = _INCHES[unit] * CM_AN_INCH, "cm"
    else:
        return ""
    high = f"–{number(length.high * factor)}" if length.high is not None else ""
    return f"{number(length.value * factor)}{high} {target}"


def converted_put_up(put_up: PutUp, written: str) -> str:
    """"1.8 oz = 137 yd" for 50 g = 125 m, the other way round where the writer gave ounces or yards."""
    if any(unit in written.lower().split() for unit in ("oz", "yd", "yds", "yards", "ounces")):
        return f"{number(put_up.grams, 0)} g = {number(put_up.metres, 0)} m"
    return f"{number(put_up.grams / GRAMS_AN_OUNCE)} oz = {number(put_up.metres / METRES_A_YARD, 0)} yd"


def converted_gauge(gauge: Gauge, written: str) -> str:
    """"4 in" for 10 cm, as the trade equates the two; other widths by the inch."""
    centimetres = gauge.width_cm
    if '"' in written or " in" in written.lower() or "inch" in written.lower():
        return f"{number(centimetres)} cm" if "cm" not in written.lower() else ""
    return "4 in" if abs(centimetres - 10.0) < 0.01 else f"{number(centimetres / CM_AN_INCH)} in"


def with_conversion(line: syntax.HeaderLine, header: syntax.Header) -> str:
    """A header line's words with the other system's measures in brackets behind them, where a quantity was read."""
    words = clean(line.value)
    other = ""
    if line.key == "yarn":
        yarn = next((yarn for yarn in header.yarns if yarn.statement is line.statement), None)
        if yarn and yarn.put_up and _complete(yarn.put_up):
            other = converted_put_up(yarn.put_up, words)
    elif line.key == "gauge" and header.gauge and (header.gauge.stitches or header.gauge.rows):
        other = converted_gauge(header.gauge, words)
    elif line.key == "finished size":
        found = [converted_length(length) for length in header.finished if _said_in(length, line.value)]
        other = " × ".join(text for text in found if text)
    already = {"in", "inch", "inches", "oz", "yd"} & set(words.lower().split()) and {"cm", "g", "m"} & set(
        words.lower().split()
    )
    return f"{words} ({other})" if other and not already else words


def _complete(put_up: PutUp) -> bool:
    return bool(getattr(put_up, "grams", None) and getattr(put_up, "metres", None))


def _said_in(length: Length, words: str) -> bool:
    return not length.text or length.text in words

"""Quantities as written, beside their conversion to the other system of units."""

from __future__ import annotations

from ..language import syntax
from ..language.quantities import Gauge, Length, PutUp
from ..language.units import KIND, SIZE, UNIT_OF_WORD
from .words import clean

_IMPERIAL = frozenset({"in", "ft", "yd", "oz", "lb"})


def number(value: float, digits: int = 1) -> str:
    """*value* with at most *digits* decimals and no trailing zeros."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _systems(words: str) -> set[str]:
    """Which systems of units *words* speak in: "metric", "imperial"."""
    parts = "".join(c if c.isalpha() or c == '"' else " " for c in words.lower().replace('"', ' " ')).split()
    units = {UNIT_OF_WORD[part] for part in parts if part in UNIT_OF_WORD and part != "a"}
    return {"imperial" if unit in _IMPERIAL else "metric" for unit in units if KIND[unit] != "ball"}


def converted_length(length: Length) -> str:
    """"3.1 in" for 8 cm, "20.3 cm" for 8 in; "" for a unit that is not a length."""
    if KIND.get(length.unit) != "length":
        return ""
    target = "cm" if length.unit in _IMPERIAL else "in"
    factor = SIZE[length.unit] / SIZE[target]
    if length.sizes:
        first, *rest = (number(value * factor) for value in length.sizes)
        return f"{first} ({', '.join(rest)}) {target}"
    high = f"–{number(length.high * factor)}" if length.high is not None else ""
    return f"{number(length.value * factor)}{high} {target}"


def converted_put_up(put_up: PutUp, written: str) -> str:
    """"1.8 oz = 137 yd" for 50 g = 125 m, the other way round where the writer gave ounces or yards."""
    if "imperial" in _systems(written):
        return f"{number(put_up.grams, 0)} g = {number(put_up.metres, 0)} m"
    return f"{number(put_up.grams / SIZE['oz'])} oz = {number(put_up.metres / SIZE['yd'], 0)} yd"


def converted_gauge(gauge: Gauge, written: str) -> str:
    """"4 in" for 10 cm, as the trade equates the two (Craft Yarn Council, Standards & Guidelines); others exactly."""
    if "imperial" in _systems(written):
        return "10 cm" if abs(gauge.width_cm - 10.16) < 0.2 else f"{number(gauge.width_cm)} cm"
    return "4 in" if abs(gauge.width_cm - 10.0) < 0.01 else f"{number(gauge.width_cm / 2.54)} in"


def with_conversion(line: syntax.HeaderLine, header: syntax.Header) -> str:
    """A header line's words, each quantity that was read followed by its conversion, unless both systems are written."""
    words = clean(line.value)
    if len(_systems(words)) == 2:
        return words
    if line.key == "yarn":
        yarn = next((yarn for yarn in header.yarns if yarn.statement is line.statement), None)
        return f"{words} ({converted_put_up(yarn.put_up, words)})" if yarn and yarn.put_up else words
    if line.key == "gauge" and header.gauge and (header.gauge.stitches or header.gauge.rows):
        return f"{words} ({converted_gauge(header.gauge, words)})"
    if line.key == "finished size":
        return _with_lengths(words, header.finished)
    return words


def _with_lengths(words: str, lengths: list[Length]) -> str:
    """*words* with the conversion behind each length that is found in them."""
    done, rest = "", words
    for length in lengths:
        text, other = clean(length.text), converted_length(length)
        if not text or not other or text not in rest:
            continue
        before, found, rest = rest.partition(text)
        done += f"{before}{found} ({other})"
    return done + rest

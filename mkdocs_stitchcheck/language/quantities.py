"""Amounts with units as written, beside their conversion: grams, metres, hooks, gauges, put-ups."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Amount:
    """A weight or a yarn length: ``value`` in ``unit`` as written ("g", "oz", "m", "yd", "ball", "small")."""

    value: float
    unit: str

    @property
    def grams(self) -> float | None:
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Length:
    """A measure: ``value`` (a number, or the low end of a range) in ``unit`` as written, and what it is of ("long")."""

    value: float
    unit: str
    of: str = ""
    high: float | None = None
    text: str = ""


@dataclass(frozen=True, slots=True)
class PutUp:
    """A ball: grams and metres, as written and converted."""

    grams: float
    metres: float
    text: str = ""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows to ``width_cm`` by ``height_cm``; None where not given. ``text`` as written."""

    stitches: float | None = None
    rows: float | None = None
    width_cm: float = 10.0
    height_cm: float = 10.0
    stitch: str = "sc"
    in_rounds: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class Swatch:
    """A worked swatch and what it weighs or measures: ``stitches`` x ``rows`` of ``stitch`` = ``grams`` or ``metres``."""

    stitches: int
    rows: int
    stitch: str = "sc"
    grams: float | None = None
    metres: float | None = None


@dataclass(frozen=True, slots=True)
class Weighing:
    """What a maker weighed after making: grams by colour key or piece name; ``tester`` "" for the designer."""

    grams: tuple[tuple[str, float], ...]
    tester: str = ""

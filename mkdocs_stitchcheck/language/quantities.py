"""Amounts with units as written, beside their conversion: grams, metres, hooks, gauges, put-ups.

The readers are in :mod:`.scanning` (numbers with units) and :mod:`.measuring` (the quantities of the header).
"""

from __future__ import annotations

from dataclasses import dataclass

from .units import KIND, SIZE, WEIGHTS, YARN_LENGTHS


@dataclass(frozen=True, slots=True)
class Amount:
    """A weight or a yarn length: ``value`` in ``unit`` as written ("g", "oz", "m", "yd", "ball", "small").

    ``sizes`` holds one value a size where the writer gives a list ("8 (8, 9) balls"), else (). ``value`` is the first.
    """

    value: float
    unit: str
    sizes: tuple[float, ...] = ()

    @property
    def grams(self) -> float | None:
        """The weight in grams; None where it is no weight."""
        return self.value * SIZE[self.unit] if self.unit in WEIGHTS else None

    @property
    def metres(self) -> float | None:
        """The length in metres; None where it is no length."""
        return self.value * SIZE[self.unit] if self.unit in YARN_LENGTHS else None

    @property
    def balls(self) -> float | None:
        """The number of balls, skeins or hanks; None where it is given otherwise."""
        return self.value if KIND.get(self.unit) == "ball" else None


@dataclass(frozen=True, slots=True)
class Length:
    """A measure: ``value`` (a number, or the low end of a range) in ``unit`` as written, and what it is of ("long").

    For a hook ``value`` is in mm and ``of`` its other name ("C-2"), "" where it has none. ``text`` is as written.
    ``sizes`` holds one value a size where the writer gives a list, else ().
    """

    value: float
    unit: str
    of: str = ""
    high: float | None = None
    text: str = ""
    sizes: tuple[float, ...] = ()

    @property
    def cm(self) -> float:
        """The value in centimetres. Raises KeyError for a unit that measures no length."""
        return self.value * SIZE[self.unit] / SIZE["cm"]

    @property
    def mm(self) -> float:
        """The value in millimetres. Raises KeyError for a unit that measures no length."""
        return self.value * SIZE[self.unit] / SIZE["mm"]

    @property
    def high_cm(self) -> float | None:
        """The high end of a range in centimetres; None where there is no range."""
        return None if self.high is None else self.high * SIZE[self.unit] / SIZE["cm"]


@dataclass(frozen=True, slots=True)
class PutUp:
    """A ball: grams and metres, as written and converted."""

    grams: float
    metres: float
    text: str = ""

    @property
    def metres_per_100g(self) -> float:
        """How fine the yarn is: metres in 100 g."""
        return self.metres / self.grams * 100

    @property
    def tex(self) -> float:
        """Grams per 1,000 m (ISO 1144:2016, *Textiles - Universal system for designating linear density*)."""
        return self.grams / self.metres * 1000


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

    @property
    def stitch_cm(self) -> float | None:
        """The width of one stitch in centimetres; None where no stitches are given."""
        return self.width_cm / self.stitches if self.stitches else None

    @property
    def row_cm(self) -> float | None:
        """The height of one row in centimetres; None where no rows are given."""
        return self.height_cm / self.rows if self.rows else None


@dataclass(frozen=True, slots=True)
class Swatch:
    """A worked swatch and what it took: ``stitches`` x ``rows`` of ``stitch`` = ``grams`` or ``metres``."""

    stitches: int
    rows: int
    stitch: str = "sc"
    grams: float | None = None
    metres: float | None = None
    text: str = ""


@dataclass(frozen=True, slots=True)
class Weighing:
    """What a maker weighed after making: grams by colour key or piece name; ``tester`` "" for the designer.

    The name is "" where the whole thing was weighed.
    """

    grams: tuple[tuple[str, float], ...]
    tester: str = ""


class BadQuantity(ValueError):
    """A quantity that is clearly meant and broken: where it stands in the text, what is wrong and the way out."""

    def __init__(self, start: int, end: int, message: str, suggestion: str = "", rule: str = "bad-quantity",
                 replacement: str | None = None) -> None:
        super().__init__(message)
        self.start, self.end = start, end
        self.message, self.suggestion, self.rule, self.replacement = message, suggestion, rule, replacement

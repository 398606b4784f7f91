"""What a yarn estimate holds: shares of pieces, amounts of colours, and the table of both."""

from __future__ import annotations

from dataclasses import dataclass

from ..language.units import SIZE
from .basis import GAUGE_ERROR
from .weighing import Fit


@dataclass(frozen=True, slots=True)
class YarnShare:
    """What all copies of a piece take of one colour.

    ``metres`` is the whole with tails, ``tails`` the part of it that is tails, in metres. ``color`` is the key, ""
    where the pattern declares none.
    """

    piece: str
    make: int
    color: str
    metres: float
    tails: float


@dataclass(frozen=True, slots=True)
class ColorYarn:
    """What the whole pattern takes of one colour.

    ``metres`` with ``tails`` in it; ``grams`` by the put-up, a swatch or the scales, ``balls`` whole balls that hold the
    high end of the estimate; both None where nothing gives them. ``error`` is the likely error of the length as a
    fraction, ``weight_error`` that of the weight. ``basis`` says in words what this colour's figures rest on.
    """

    color: str
    name: str
    metres: float
    tails: float
    error: float
    grams: float | None = None
    balls: int | None = None
    basis: str = ""
    weight_error: float = GAUGE_ERROR

    @property
    def yards(self) -> float:
        """The length in yards."""
        return self.metres / SIZE["yd"]

    @property
    def ounces(self) -> float | None:
        """The weight in ounces; None where the weight is not known."""
        return None if self.grams is None else self.grams / SIZE["oz"]

    @property
    def low(self) -> float:
        """The low end of the estimate in metres."""
        return self.metres * (1 - self.error)

    @property
    def high(self) -> float:
        """The high end of the estimate in metres."""
        return self.metres * (1 + self.error)


@dataclass(frozen=True, slots=True)
class YarnTable:
    """The yarn of a pattern made ``made`` times, by piece and by colour, in the order in which they are worked.

    ``basis`` says in words what the estimate rests on, ``error`` how far it may be off (0.2: a fifth either way).
    ``missing`` names what is needed for the numbers that are not there, as a header line with an example.
    ``left_out`` names the rounds whose stitches are not known, ``guessed`` stitches without a known length, and
    ``weighing`` what the weighed grams came to.
    """

    shares: tuple[YarnShare, ...] = ()
    colors: tuple[ColorYarn, ...] = ()
    made: int = 1
    basis: str = ""
    error: float = GAUGE_ERROR
    missing: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()
    weighing: Fit | None = None

    @property
    def metres(self) -> float:
        """The length of all colours in metres."""
        return sum(color.metres for color in self.colors)

    @property
    def grams(self) -> float | None:
        """The weight of all colours in grams; None where one of them is not known."""
        weights = [color.grams for color in self.colors]
        return None if not weights or None in weights else sum(weight for weight in weights if weight is not None)

    @property
    def bases(self) -> tuple[str, ...]:
        """Every basis that a colour's figures rest on, in words."""
        return tuple(dict.fromkeys(color.basis for color in self.colors))

"""The yarn a pattern takes: length and weight by colour and piece, from its stitches, its gauge and its put-up.

An estimate from the gauge alone is good to about 20 % (published experiments disagree by 0 to 20 %), so nothing here
fails a build. Where gauge or stitches are missing the table says what is needed and holds no number.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from ..language import syntax
from ..language.quantities import PutUp
from ..language.units import SIZE
from ..results import PatternResult, PieceResult
from .stitch_yarn import stitch_metres, stitch_of
from .tails import piece_tails, sewn_on

GAUGE_ERROR = 0.20  # published experiments with equal yarn disagree by 0 to 20 %
SWATCH_ERROR = 0.10  # from memory

NEEDS_GAUGE = "Gauge: stitches over a width, as in 26 sc x 28 rnds = 10 cm"
NEEDS_PUT_UP = "Yarn: weight and length of a ball, as in 50 g = 125 m"
NEEDS_STITCHES = "rounds whose stitches can be counted"


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

    ``metres`` with ``tails`` in it; ``grams`` by the put-up of its yarn, ``balls`` whole balls that hold the high end
    of the estimate; both None without a put-up. ``error`` is the likely error as a fraction.
    """

    color: str
    name: str
    metres: float
    tails: float
    error: float
    grams: float | None = None
    balls: int | None = None

    @property
    def yards(self) -> float:
        """The length in yards."""
        return self.metres / SIZE["yd"]

    @property
    def ounces(self) -> float | None:
        """The weight in ounces; None without a put-up."""
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
    ``left_out`` names the rounds whose stitches are not known, and ``guessed`` stitches without a known length.
    """

    shares: tuple[YarnShare, ...] = ()
    colors: tuple[ColorYarn, ...] = ()
    made: int = 1
    basis: str = ""
    error: float = GAUGE_ERROR
    missing: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()

    @property
    def metres(self) -> float:
        """The length of all colours in metres."""
        return sum(color.metres for color in self.colors)

    @property
    def grams(self) -> float | None:
        """The weight of all colours in grams; None where one of them is not known."""
        weights = [color.grams for color in self.colors]
        return None if not weights or None in weights else sum(weight for weight in weights if weight is not None)


def yarn_table(result: PatternResult, made: int = 1) -> YarnTable:
    """The estimate for *made* makings of a pattern. Raises ValueError where *made* is below 1."""
    if made < 1:
        raise ValueError("a pattern is made once or more often")
    header = result.syntax.header
    width, basis, error = _basis(header)
    missing = [] if width else [NEEDS_GAUGE]
    if not header.yarns or all(yarn.put_up is None for yarn in header.yarns):
        missing.append(NEEDS_PUT_UP)
    if not any(line.stitches for line in result.rounds):
        missing.append(NEEDS_STITCHES)
    left_out = tuple(_unknown(result))
    if width is None or NEEDS_STITCHES in missing:
        return YarnTable(made=made, missing=tuple(missing), left_out=left_out)
    sewn, guessed, shares = sewn_on(result), set[str](), list[YarnShare]()
    for piece in result.pieces:
        shares += _shares(piece, header, width, piece.name.lower() in sewn, made, guessed)
    return YarnTable(tuple(shares), _colors(shares, header, error), made, basis, error, tuple(missing), left_out,
                     tuple(sorted(guessed)))


def _basis(header: syntax.Header) -> tuple[float | None, str, float]:
    """The stitch width in cm that lengths are taken from, in words, and the likely error.

    A swatch with its yarn gives the width that makes its own stitches come out right; else the gauge gives it.
    """
    for swatch in header.swatches:
        put_up = next((yarn.put_up for yarn in header.yarns if yarn.put_up), None)
        metres = swatch.metres
        if metres is None and swatch.grams is not None and put_up is not None:
            metres = swatch.grams * put_up.metres / put_up.grams
        stitch = stitch_of(swatch.stitch, header)
        if metres and stitch is not None and stitch.yarn:
            width = metres * 100 / (swatch.stitches * swatch.rows * stitch.yarn)
            return width, "from the swatch and the stitches of each round", SWATCH_ERROR
    gauge = header.gauge
    if gauge is not None and gauge.stitch_cm:
        return gauge.stitch_cm, "from the gauge and the stitches of each round", GAUGE_ERROR
    return None, "", GAUGE_ERROR


def _unknown(result: PatternResult) -> list[str]:
    """The rounds whose stitches are not known, by piece and label."""
    return [f"{piece.name}, {line.label}" for piece in result.pieces for line in piece.rounds
            if line.counts and not line.stitches]


def _shares(
    piece: PieceResult, header: syntax.Header, width: float, sewn: bool, made: int, guessed: set[str]
) -> list[YarnShare]:
    lengths: dict[str, float] = {}
    for (color, key), count in piece.stitches.items():
        stitch = stitch_of(key, header)
        if stitch is None:
            guessed.add(key)
            continue
        worked_in = color or piece.syntax.color or _only_color(header)
        lengths[worked_in] = lengths.get(worked_in, 0.0) + count * stitch_metres(stitch, width)
    tails = piece_tails(piece, [*lengths], sewn)
    copies = piece.make * made
    return [YarnShare(piece.name, piece.make, color, (metres + tails[color]) * copies, tails[color] * copies)
            for color, metres in lengths.items()]


def _only_color(header: syntax.Header) -> str:
    """The colour of rounds that name none: the first, or MC."""
    if not header.colors:
        return ""
    return "MC" if "MC" in header.colors else next(iter(header.colors))


def _colors(shares: list[YarnShare], header: syntax.Header, error: float) -> tuple[ColorYarn, ...]:
    metres: dict[str, float] = {}
    tails: dict[str, float] = {}
    for share in shares:
        metres[share.color] = metres.get(share.color, 0.0) + share.metres
        tails[share.color] = tails.get(share.color, 0.0) + share.tails
    order = [key for key in header.colors if key in metres] + [key for key in metres if key not in header.colors]
    return tuple(_color(key, metres, tails, header, error) for key in order)


def _color(
    key: str, metres: Mapping[str, float], tails: Mapping[str, float], header: syntax.Header, error: float
) -> ColorYarn:
    declared = header.colors.get(key)
    put_up = _put_up(declared, header)
    grams = balls = None
    if put_up is not None:
        grams = metres[key] * put_up.grams / put_up.metres
        balls = max(1, math.ceil(grams * (1 + error) / put_up.grams - 1e-9))
    return ColorYarn(key, declared.name if declared else "", metres[key], tails[key], error, grams, balls)


def _put_up(color: syntax.Color | None, header: syntax.Header) -> PutUp | None:
    """The ball of a colour's own yarn; of the only yarn where the colour belongs to none."""
    if color is not None and color.yarn is not None and color.yarn < len(header.yarns):
        return header.yarns[color.yarn].put_up
    return header.yarns[0].put_up if len(header.yarns) == 1 else None

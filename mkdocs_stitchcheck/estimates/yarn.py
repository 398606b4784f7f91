"""The yarn a pattern takes: length and weight by colour and piece, from its stitches and the best there is to go by.

In order of trust: what makers weighed, a swatch, the gauge with published factors, the yarn's category alone
(:mod:`.basis`). Nothing here fails a build. Where gauge or stitches are missing the table says what is needed and holds
no number.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..language import syntax
from ..results import PatternResult, PieceResult
from .basis import (
    CATEGORY_ERROR,
    GAUGE_ERROR,
    SWATCH_ERROR,
    WEIGHED,
    WEIGHED_ERROR,
    WEIGHED_YARN_ERROR,
    Basis,
    basis_without_scales,
    family,
    hand_factors,
    has_width,
    put_up_of,
    rough_width,
    with_hand,
)
from .stitch_yarn import stitch_metres, stitch_of
from .tails import piece_tails, sewn_on
from .weighing import Fit, Need, fit
from .yarn_amounts import ColorYarn, YarnShare, YarnTable

__all__ = [
    "CATEGORY_ERROR", "GAUGE_ERROR", "NEEDS_GAUGE", "NEEDS_PUT_UP", "NEEDS_STITCHES", "SWATCH_ERROR", "WEIGHED_ERROR",
    "ColorYarn", "YarnShare", "YarnTable", "hands_of", "yarn_table",
]  # fmt: skip

NEEDS_GAUGE = "Gauge: stitches over a width, as in 26 sc x 28 rnds = 10 cm"
NEEDS_PUT_UP = "Yarn: weight and length of a ball, as in 50 g = 125 m"
NEEDS_STITCHES = "rounds whose stitches can be counted"


@dataclass(frozen=True, slots=True)
class _Worked:
    """A colour of a piece: its stitches in one copy, the metres of its tails, and how many copies are made in it."""

    piece: PieceResult
    color: str
    yarn: int
    stitches: Mapping[str, float]
    tails: float
    copies: int


Hands = Mapping[int, dict[str, float]]  # number of the yarn -> what is known of the hand, by family of stitches


def yarn_table(
    result: PatternResult, made: int = 1, hands: Hands | None = None, place: int = 0
) -> YarnTable:
    """The estimate for *made* makings of a pattern; *hands* correct the published factors of yarns known by gauge.

    *place* is the number of the size, of a pattern that has several; what was weighed is of the first.
    Raises ValueError where *made* is below 1.
    """
    if made < 1:
        raise ValueError("a pattern is made once or more often")
    header = result.syntax.header
    guessed: set[str] = set()
    first = result.in_size(0)
    worked = _worked(first, guessed)
    bases, weighing = _bases(worked, first)
    if place:
        result = result.in_size(place)
        worked, weighing = _worked(result, guessed), replace(weighing, colors={}) if weighing is not None else None
    else:
        result = first
    bases = {yarn: with_hand(basis, (hands or {}).get(yarn)) for yarn, basis in bases.items()}
    missing = _missing(worked, bases, header)
    left_out = tuple(_unknown(result))
    worked = [one for one in worked if one.yarn in bases]
    if not worked:
        return YarnTable(made=made, missing=tuple(missing), left_out=left_out)
    shares = [_share(one, bases[one.yarn], header, made) for one in worked]
    colors = _colors(worked, shares, bases, weighing, header, made)
    scale = {color.color: color.metres / total for color in colors if (total := _total(shares, color.color))}
    shares = [replace(share, metres=share.metres * scale[share.color]) for share in shares]
    table = YarnTable(tuple(shares), colors, made, "", 0.0, tuple(missing), left_out, tuple(sorted(guessed)), weighing)
    error = max(color.error for color in colors)
    return replace(table, basis=" and ".join(table.bases) + " and the stitches of each round", error=error)


def hands_of(result: PatternResult) -> dict[int, dict[str, float]]:
    """What scales and swatches say of the hand that works each yarn, to be used at another gauge."""
    result = result.in_size(0)
    bases, _weighing = _bases(_worked(result, set()), result)
    header = result.syntax.header
    return {yarn: factors for yarn, basis in bases.items() if (factors := hand_factors(basis, header)) is not None}


def _missing(worked: list[_Worked], bases: Mapping[int, Basis], header: syntax.Header) -> list[str]:
    """What is needed for the numbers that are not there."""
    missing = []
    if any(one.yarn not in bases for one in worked) or (not worked and not has_width(header, 0)):
        missing.append(NEEDS_GAUGE)
    if not header.yarns or all(yarn.put_up is None for yarn in header.yarns):
        missing.append(NEEDS_PUT_UP)
    if not worked:
        missing.append(NEEDS_STITCHES)
    return missing


def _unknown(result: PatternResult) -> list[str]:
    """The rounds whose stitches are not known, by piece and label."""
    return [f"{piece.name}, {line.label}" for piece in result.pieces for line in piece.rounds
            if line.counts and not line.stitches]


# --- stitches and tails -------------------------------------------------------------------------------------------------


def _worked(result: PatternResult, guessed: set[str]) -> list[_Worked]:
    """Every colour of every piece, in the order in which they are worked."""
    header, sewn = result.syntax.header, sewn_on(result)
    found = []
    for piece in result.pieces:
        counts: dict[str, dict[str, float]] = {}
        for (color, key), count in piece.stitches.items():
            if stitch_of(key, header) is None:
                guessed.add(key)
                continue
            of_color = counts.setdefault(color or piece.syntax.color or _only_color(header), {})
            of_color[key] = of_color.get(key, 0) + count
        tails = piece_tails(piece, [*counts], piece.name.lower() in sewn)
        found += [_Worked(piece, own, _yarn_of(own, header), stitches, tails[color], copies)
                  for color, stitches in counts.items() for own, copies in _copies(piece.syntax, color)]
    return found


def _copies(piece: syntax.Piece, color: str) -> list[tuple[str, int]]:
    """In which colours what is worked in *color* is made, and how often: "make 2, one in A and one in C"."""
    if not piece.copies or color != piece.color:
        return [(color, piece.make)]
    rest = piece.make - sum(number for _color, number in piece.copies)
    return [(key, number + (max(rest, 0) if key == color else 0)) for key, number in piece.copies]


def _only_color(header: syntax.Header) -> str:
    """The colour of rounds that name none: the first, or MC."""
    if not header.colors:
        return ""
    return "MC" if "MC" in header.colors else next(iter(header.colors))


def _yarn_of(color: str, header: syntax.Header) -> int:
    """The number of the yarn that a colour belongs to; the first where it belongs to none."""
    declared = header.colors.get(color)
    return declared.yarn if declared is not None and declared.yarn is not None else 0


# --- what it rests on ---------------------------------------------------------------------------------------------------


def _bases(worked: list[_Worked], result: PatternResult) -> tuple[dict[int, Basis], Fit | None]:
    """The basis of each yarn that has one, and what the weighings came to."""
    header = result.syntax.header
    yarns = sorted({one.yarn for one in worked})
    bases = {yarn: basis for yarn in yarns if (basis := basis_without_scales(header, yarn)) is not None}
    if not header.weighings:
        return bases, None
    densities = {yarn: put_up.grams / put_up.metres for yarn in yarns if (put_up := put_up_of(header, yarn)) is not None}
    known = fit([_need(one, rough_width(header, one.yarn), header) for one in worked], result, densities)
    if known is None:
        return bases, None
    for yarn in known.yarns():
        error = max(WEIGHED_YARN_ERROR, known.spread, known.residual)
        width = rough_width(header, yarn)
        if yarn in densities:
            of_all = known.factors.get((yarn, ""), 1.0)
            factors = {name: known.factors.get((yarn, name), of_all) for name in ("low", "tall")}
            bases[yarn] = Basis(WEIGHED, width, error, error, densities[yarn], factors)
        elif has_width(header, yarn):
            length_error = bases[yarn].error if yarn in bases else GAUGE_ERROR
            bases[yarn] = Basis(WEIGHED, width, length_error, error, known.densities[yarn])
    return bases, known


def _need(one: _Worked, width: float, header: syntax.Header) -> Need:
    metres: dict[str, float] = {}
    for key, count in one.stitches.items():
        stitch = stitch_of(key, header)
        if stitch is not None and stitch.yarn:
            name = family(stitch)
            metres[name] = metres.get(name, 0.0) + count * stitch_metres(stitch, width) * one.copies
    return Need(one.piece.name, one.color, one.yarn, metres, one.tails * one.copies)


# --- shares and colours -------------------------------------------------------------------------------------------------


def _share(one: _Worked, basis: Basis, header: syntax.Header, made: int) -> YarnShare:
    metres = one.tails
    for key, count in one.stitches.items():
        stitch = stitch_of(key, header)
        metres += count * basis.metres(stitch) if stitch is not None else 0.0
    copies = one.copies * made
    return YarnShare(one.piece.name, one.copies, one.color, metres * copies, one.tails * copies)


def _total(shares: list[YarnShare], color: str) -> float:
    return sum(share.metres for share in shares if share.color == color)


def _colors(
    worked: list[_Worked], shares: list[YarnShare], bases: Mapping[int, Basis], weighing: Fit | None,
    header: syntax.Header, made: int,
) -> tuple[ColorYarn, ...]:
    yarns = {one.color: one.yarn for one in worked}
    order = [key for key in header.colors if key in yarns] + [key for key in yarns if key not in header.colors]
    return tuple(_color(key, shares, bases[yarns[key]], weighing, header, made) for key in order)


def _color(
    key: str, shares: list[YarnShare], basis: Basis, weighing: Fit | None, header: syntax.Header, made: int
) -> ColorYarn:
    declared = header.colors.get(key)
    metres = _total(shares, key)
    tails = sum(share.tails for share in shares if share.color == key)
    grams = metres * basis.grams_per_metre if basis.grams_per_metre is not None else None
    words, error, weight_error = basis.words, basis.error, basis.weight_error
    if basis.kind == WEIGHED:
        words = "from weights of this yarn"
    if weighing is not None and key in weighing.colors:  # this very colour was weighed: the scales say it best
        grams = weighing.colors[key] * made
        words, weight_error = basis.words if basis.kind == WEIGHED else WEIGHED, max(WEIGHED_ERROR, weighing.spread)
        put_up = put_up_of(header, declared.yarn if declared else None)
        if put_up is not None:
            metres, error = grams * put_up.metres / put_up.grams, weight_error
    put_up = put_up_of(header, declared.yarn if declared else None)
    balls = None
    if put_up is not None and grams is not None:
        balls = max(1, math.ceil(grams * (1 + weight_error) / put_up.grams - 1e-9))
    return ColorYarn(key, declared.name if declared else "", metres, tails, error, grams, balls, words, weight_error)

"""What makers weighed, set against the stitches: the yarn's own factors by least squares, with residual and spread.

A weighing says grams = grams per metre x (factor x published length of its stitches + tails). With a put-up the factors
are solved for, one a yarn, or two (low and tall stitches) where the weighings tell them apart; without a put-up the
grams per metre are. Several makers give several equations.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from .. import late_re as re
from ..results import PatternResult
from .least_squares import solve

SCALE_GRAMS = 0.5  # what a kitchen scale leaves open
SCALE_SHARE = 0.03  # and a hand: from memory
_PLAUSIBLE = (0.3, 3.0)  # a factor beyond is a slip of the scale or of the writer
_COLOR = re.compile(r"^(?:colou?r|col\.?)\s+", re.IGNORECASE)

Column = tuple[int, str]  # (number of the yarn, family of stitches; "" for all)


@dataclass(frozen=True, slots=True)
class Need:
    """Metres that a colour of a piece (all copies) takes by the published factors, by family of stitches; and tails."""

    piece: str
    color: str
    yarn: int
    stitches: Mapping[str, float]
    tails: float


@dataclass(frozen=True, slots=True)
class Observation:
    """One weight: of a colour, a piece or (both empty) the whole."""

    name: str
    grams: float
    tester: str
    color: str = ""
    piece: str = ""

    def covers(self, need: Need) -> bool:
        """Whether the weight is of it."""
        return (not self.color or need.color == self.color) and (not self.piece or need.piece == self.piece)


@dataclass(frozen=True, slots=True)
class Fit:
    """What the weighings come to.

    ``factors`` by (yarn, family), to multiply published lengths with; ``densities`` grams per metre by yarn, only where
    no put-up gives them. ``residual`` is the root mean square of what is left, ``spread`` how far makers differ on the
    same thing, both as fractions. ``colors`` holds the mean weight of each colour that was weighed by itself.
    """

    factors: Mapping[Column, float]
    densities: Mapping[int, float]
    residual: float
    spread: float
    makers: int
    colors: Mapping[str, float] = field(default_factory=dict)
    unknown: tuple[str, ...] = ()

    def yarns(self) -> set[int]:
        """The yarns that something is known of."""
        return {yarn for yarn, _family in self.factors} | set(self.densities)


def observations(result: PatternResult) -> tuple[list[Observation], list[str]]:
    """The weights of a pattern, and the names in them that are no colour and no piece."""
    found, unknown = [], []
    for weighing in result.syntax.header.weighings:
        for name, grams in weighing.grams:
            place = _named(name, result)
            if place is None:
                unknown.append(name)
            else:
                found.append(Observation(name, grams, weighing.tester, *place))
    return found, unknown


def _named(name: str, result: PatternResult) -> tuple[str, str] | None:
    """The (colour, piece) that a name in a weighing means; ("", "") for the whole; None for neither."""
    if not name:
        return "", ""
    wanted = _plain(_COLOR.sub("", name))
    for key, color in result.syntax.header.colors.items():
        if wanted in (key.lower(), _plain(color.name)):
            return key, ""
    for piece in result.pieces:
        bare = _plain(piece.name)
        if wanted in (bare, f"{bare}s", f"{bare}es", f"{bare.removesuffix('y')}ies", bare.removesuffix("s")):
            return "", piece.name
    return None


def _plain(text: str) -> str:
    words = re.findall(r"\w+", text.lower())
    return " ".join(words[1:] if len(words) > 1 and words[0] == "the" else words)


def fit(needs: Sequence[Need], result: PatternResult, densities: Mapping[int, float]) -> Fit | None:
    """The weighings of a pattern against what its stitches need; None where nothing was weighed that has stitches.

    *densities* are the grams per metre of the yarns that have a put-up.
    """
    weights, unknown = observations(result)
    weights = [one for one in weights if any(one.covers(need) and need.stitches for need in needs)]
    if not weights:
        return None
    best = _solved(weights, needs, densities, split=True) or _solved(weights, needs, densities, split=False)
    if best is None:
        return None
    columns, found, fitted = best
    factors = {column: value for column, value in zip(columns, found, strict=True) if column[0] in densities}
    solved = {column[0]: value for column, value in zip(columns, found, strict=True) if column[0] not in densities}
    shares = [(one.grams - value) / one.grams for one, value in zip(weights, fitted, strict=True)]
    residual = math.sqrt(sum(share * share for share in shares) / len(shares))
    makers = len({one.tester.lower() for one in weights})
    return Fit(factors, solved, residual, _spread(weights), makers, _means(weights), tuple(unknown))


def _solved(
    weights: list[Observation], needs: Sequence[Need], densities: Mapping[int, float], *, split: bool
) -> tuple[list[Column], list[float], list[float]] | None:
    """Columns, their values and the weights they give back; None where they are not determined or not plausible."""
    families = {(need.yarn, name) for need in needs for name in need.stitches if any(o.covers(need) for o in weights)}
    yarns = {yarn for yarn, _name in families}
    columns = [column for column in sorted(families) if column[0] in densities] if split else []
    columns += [(yarn, "") for yarn in sorted(yarns) if not split or yarn not in densities]
    if split and len(weights) <= len(columns):
        return None  # nothing would be left to tell a factor from a slip of the scale
    rows, values = [], []
    for one in weights:
        row = [0.0] * len(columns)
        fixed = 0.0
        for need in needs:
            if not one.covers(need):
                continue
            density = densities.get(need.yarn)
            fixed += density * need.tails if density is not None else 0.0
            for name, metres in need.stitches.items():
                column = (need.yarn, name) if (need.yarn, name) in columns else (need.yarn, "")
                row[columns.index(column)] += metres * (density if density is not None else 1.0)
            if density is None:
                row[columns.index((need.yarn, ""))] += need.tails
        rows.append(row)
        values.append(one.grams - fixed)
    trust = [1 / (SCALE_GRAMS**2 + (SCALE_SHARE * one.grams) ** 2) for one in weights]
    found = solve(rows, values, trust)
    if found is None:
        return None
    low, high = _PLAUSIBLE
    for (yarn, _name), value in zip(columns, found, strict=True):
        if value <= 0 or yarn in densities and not low <= value <= high:
            return None
    fitted = [sum(a * x for a, x in zip(row, found, strict=True)) + one.grams - value
              for row, value, one in zip(rows, values, weights, strict=True)]
    return columns, found, fitted


def _by_place(weights: list[Observation]) -> dict[tuple[str, str], list[float]]:
    places: dict[tuple[str, str], list[float]] = {}
    for one in weights:
        places.setdefault((one.color, one.piece), []).append(one.grams)
    return places


def _spread(weights: list[Observation]) -> float:
    """The standard deviation of several makers' weights of the same thing, as a fraction of their mean, pooled."""
    squares, freedom = 0.0, 0
    for grams in _by_place(weights).values():
        mean = sum(grams) / len(grams)
        squares += sum(((one - mean) / mean) ** 2 for one in grams)
        freedom += len(grams) - 1
    return math.sqrt(squares / freedom) if freedom else 0.0


def _means(weights: list[Observation]) -> dict[str, float]:
    return {color: sum(grams) / len(grams) for (color, piece), grams in _by_place(weights).items() if color and not piece}

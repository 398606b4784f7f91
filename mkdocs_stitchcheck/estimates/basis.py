"""What a yarn estimate rests on, in order of trust: weighed, swatch, gauge, category alone."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import fsum

from ..language import syntax
from ..language.quantities import PutUp, Swatch
from ..language.vocabulary import Stitch
from .categories import CATEGORIES, stitch_width
from .stitch_yarn import stitch_of

WEIGHED_ERROR = 0.05  # kitchen scales and other hands: from memory
WEIGHED_YARN_ERROR = 0.10  # other stitches and colours of a yarn that was weighed: from memory
SWATCH_ERROR = 0.10  # from memory
GAUGE_ERROR = 0.20  # published experiments with equal yarn disagree by 0 to 20 %
CATEGORY_ERROR = 0.30  # from memory
HAND_ERROR = 0.15  # another gauge, with what scales or swatch said of the hand: from memory

WEIGHED, SWATCH, GAUGE, CATEGORY, HAND = "weighed", "swatch", "gauge", "category", "hand"

# What stands beside a figure: "about 13 g, from the gauge, about 20 %".
WORDS = {
    WEIGHED: "weighed", SWATCH: "from the swatch", GAUGE: "from the gauge", CATEGORY: "from the yarn's category only",
    HAND: "from the gauge, with the factors found in the pattern's own yarn",
}
_USUAL_WIDTH = 0.4  # cm; stands in where weighed grams make up for it


@dataclass(frozen=True, slots=True)
class Basis:
    """How the length of a yarn's stitches is known.

    ``width`` is the stitch width in cm that published factors are multiplied with; ``factors`` correct it by family of
    stitches ("low" up to the height of sc, "tall"). ``grams_per_metre`` is the yarn's own, by put-up, swatch or
    weighing; None where it is not known. ``error`` is of lengths, ``weight_error`` of weights.
    """

    kind: str
    width: float
    error: float
    weight_error: float
    grams_per_metre: float | None = None
    factors: dict[str, float] = field(default_factory=dict)

    def metres(self, stitch: Stitch) -> float:
        """The yarn of one stitch in metres."""
        return stitch.yarn * self.width / 100 * self.factors.get(family(stitch), 1.0)

    @property
    def words(self) -> str:
        """The basis in words: "from the gauge"."""
        return WORDS[self.kind]


def family(stitch: Stitch) -> str:
    """"low" for stitches up to the height of sc, "tall" above: the two take yarn by factors of their own."""
    return "low" if stitch.height <= 1 else "tall"


def put_up_of(header: syntax.Header, yarn: int | None) -> PutUp | None:
    """The ball of the yarn with this number; of the only yarn where none is given."""
    if yarn is not None and yarn < len(header.yarns):
        return header.yarns[yarn].put_up
    return header.yarns[0].put_up if len(header.yarns) == 1 else None


def basis_without_scales(header: syntax.Header, yarn: int | None) -> Basis | None:
    """The best basis but weighing for the yarn with this number; None where there is none."""
    put_up = put_up_of(header, yarn)
    density = put_up.grams / put_up.metres if put_up is not None else None
    of_swatch = _from_swatches(header, yarn, density)
    if of_swatch is not None:
        return of_swatch
    plain = _plain_width(header, yarn)
    if plain is None:
        return None
    kind, width, error = plain
    if density is None:
        category = _category(header, yarn)
        known = CATEGORIES.get(category) if category is not None else None
        density = 100 / known.metres_per_100g if known else None
        return Basis(kind, width, error, max(error, CATEGORY_ERROR), density)
    return Basis(kind, width, error, error, density)


def rough_width(header: syntax.Header, yarn: int | None) -> float:
    """A stitch width that weighed grams correct: by gauge or category, else a usual one."""
    plain = _plain_width(header, yarn)
    return plain[1] if plain is not None else _USUAL_WIDTH


def has_width(header: syntax.Header, yarn: int | None) -> bool:
    """Whether gauge or category gives a stitch width."""
    return _plain_width(header, yarn) is not None


def _plain_width(header: syntax.Header, yarn: int | None) -> tuple[str, float, float] | None:
    """The stitch width by the gauge, else by the category: (kind, cm, error)."""
    if header.gauge is not None and header.gauge.stitch_cm:
        return GAUGE, header.gauge.stitch_cm, GAUGE_ERROR
    category = _category(header, yarn)
    width = stitch_width(category, header.hooks[0].mm if header.hooks else None) if category is not None else None
    return (CATEGORY, width, CATEGORY_ERROR) if width is not None else None


def _category(header: syntax.Header, yarn: int | None) -> int | None:
    if yarn is not None and yarn < len(header.yarns):
        return header.yarns[yarn].category
    return header.yarns[0].category if len(header.yarns) == 1 else None


# --- swatches ---------------------------------------------------------------------------------------------------------


def swatches_of(header: syntax.Header, yarn: int | None) -> list[Swatch]:
    """The swatches of a yarn: those below its line; of the only yarn all."""
    if len(header.yarns) <= 1:
        return header.swatches
    found, at, waiting = [], -1, list(header.swatches)
    for line in header.lines:
        if line.key == "yarn":
            at += 1
        elif line.key == "swatch" and waiting and waiting[0].text == line.value.strip():
            swatch = waiting.pop(0)
            if max(at, 0) == (yarn or 0):
                found.append(swatch)
    return found


def swatch_width(swatch: Swatch, header: syntax.Header, density: float | None) -> float | None:
    """The stitch width in cm that makes a swatch's own stitches come to the metres it took; None without metres."""
    stitch = stitch_of(swatch.stitch, header)
    metres = swatch.metres
    if metres is None and swatch.grams is not None and density:
        metres = swatch.grams / density
    if not metres or stitch is None or not stitch.yarn:
        return None
    return metres * 100 / (swatch.stitches * swatch.rows * stitch.yarn)


def _mean(values: list[float]) -> float:
    return fsum(values) / len(values)


def spread_of(values: list[float]) -> float:
    """Half the distance between least and most, as a fraction of the mean; 0 for one value."""
    return (max(values) - min(values)) / 2 / _mean(values) if len(values) > 1 else 0.0


def _from_swatches(header: syntax.Header, yarn: int | None, density: float | None) -> Basis | None:
    swatches = swatches_of(header, yarn)
    widths: dict[str, list[float]] = {}
    for swatch in swatches:
        width = swatch_width(swatch, header, density)
        stitch = stitch_of(swatch.stitch, header)
        if width is not None and stitch is not None:
            widths.setdefault(family(stitch), []).append(width)
    if widths:
        every = [width for found in widths.values() for width in found]
        error = max(SWATCH_ERROR, *(spread_of(found) for found in widths.values()))
        width = _mean(every)
        return Basis(SWATCH, width, error, error, density, {name: _mean(found) / width for name, found in widths.items()})
    return _by_grams(swatches, header, yarn)


def _by_grams(swatches: list[Swatch], header: syntax.Header, yarn: int | None) -> Basis | None:
    """A swatch in grams without a put-up: weights by the swatch, lengths by the gauge."""
    plain = _plain_width(header, yarn)
    found = []
    for swatch in swatches:
        stitch = stitch_of(swatch.stitch, header)
        if plain is not None and swatch.grams and stitch is not None and stitch.yarn:
            found.append(swatch.grams / (swatch.stitches * swatch.rows * stitch.yarn * plain[1] / 100))
    if plain is None or not found:
        return None
    return Basis(SWATCH, plain[1], plain[2], max(SWATCH_ERROR, spread_of(found)), _mean(found))


# --- the hand that another yarn is worked with ------------------------------------------------------------------------


def hand_factors(basis: Basis, header: syntax.Header) -> dict[str, float] | None:
    """By how much scales or a swatch correct the published factors at the pattern's own gauge; None where unknown."""
    gauge = header.gauge.stitch_cm if header.gauge is not None else None
    if gauge is None or basis.grams_per_metre is None or basis.kind not in (WEIGHED, SWATCH):
        return None
    return {name: basis.width * basis.factors.get(name, 1.0) / gauge for name in ("low", "tall")}


def with_hand(basis: Basis, factors: dict[str, float] | None) -> Basis:
    """A basis by gauge with what is known of the hand; any other as it is."""
    if factors is None or basis.kind != GAUGE:
        return basis
    return replace(basis, kind=HAND, factors=factors, error=HAND_ERROR, weight_error=HAND_ERROR)

"""The same pattern in another yarn or at another gauge: other size, other amounts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..language import syntax
from ..language.gauges import read_gauge
from ..language.measuring import read_category, read_put_up
from ..language.quantities import BadQuantity, Gauge, PutUp
from ..results import PatternResult
from ..source import BlockLine, Statement
from .effort import Effort, effort
from .size import SizeTable, size_table
from .stuffing import Stuffing, stuffing
from .yarn import YarnTable, hands_of, yarn_table

YARN_EXAMPLE = "50 g = 125 m"
GAUGE_EXAMPLE = "22 sc x 24 rnds = 10 cm"


@dataclass(frozen=True, slots=True)
class Estimates:
    """Everything that is estimated of a pattern in one yarn: amounts, sizes, stuffing and time."""

    yarn: YarnTable
    sizes: SizeTable
    stuffing: tuple[Stuffing, ...]
    effort: Effort | None
    gauge: Gauge | None = None


def estimate(result: PatternResult, made: int = 1) -> Estimates:
    """The estimates for a pattern as it is written, made *made* times. Raises ValueError where *made* is below 1."""
    return _estimates(result, made, None)


def in_another_yarn(result: PatternResult, yarn: str = "", gauge: str = "", made: int = 1) -> Estimates:
    """The estimates for a pattern worked in another yarn, as "50 g = 125 m", or at another gauge, as
    "22 sc x 24 rnds = 10 cm"; what is not given stays as in the pattern.

    What the pattern's own scales or swatch say of the hand is kept. Raises ValueError, with a plain sentence, for a yarn
    or gauge that can't be read, and where *made* is below 1.
    """
    header = result.syntax.header
    changes: dict[str, object] = {"swatches": [], "weighings": []}
    if yarn:
        changes["yarns"] = _yarns(yarn, result)
    if gauge:
        changes["gauge"] = _gauge(gauge, header.terms)
    elif yarn and header.gauge is None:
        changes["hooks"] = []  # the other yarn is not worked with the first one's hook
    if not yarn and not gauge:
        return estimate(result, made)
    other = replace(header, **changes)  # type: ignore[arg-type]
    return _estimates(replace(result, syntax=replace(result.syntax, header=other)), made, hands_of(result))


def worked_at(result: PatternResult, put_up: PutUp, gauge: Gauge) -> PatternResult:
    """The pattern as it is to be reckoned in another yarn with these balls, at this gauge."""
    header = result.syntax.header
    first = syntax.Yarn("", Statement([BlockLine(1, 1, "")]))
    yarns = [replace(yarn, put_up=put_up, category=None) for yarn in header.yarns or [first]]
    other = replace(header, yarns=yarns, gauge=gauge, swatches=[], weighings=[])
    return replace(result, syntax=replace(result.syntax, header=other))


def _estimates(result: PatternResult, made: int, hands: dict[int, dict[str, float]] | None) -> Estimates:
    sizes = size_table(result)
    return Estimates(yarn_table(result, made, hands), sizes, stuffing(result, sizes), effort(result),
                     result.syntax.header.gauge)


def _yarns(text: str, result: PatternResult) -> list[syntax.Yarn]:
    """The pattern's yarns, each with the other yarn's ball and category."""
    try:
        put_up, category = read_put_up(text), read_category(text)
    except BadQuantity as bad:
        raise ValueError(_sentences(bad)) from None
    if put_up is None:
        raise ValueError(f"{text!r} says no weight and length of a ball. Write it as in {YARN_EXAMPLE}.")
    statement = Statement([BlockLine(1, 1, text)])
    first = syntax.Yarn(text, statement, category, put_up)
    return [replace(yarn, text=text, put_up=put_up, category=category) for yarn in result.syntax.header.yarns] or [first]


def _gauge(text: str, system: str) -> Gauge:
    try:
        gauge = read_gauge(text, system=system or "US")
    except BadQuantity as bad:
        raise ValueError(_sentences(bad)) from None
    if gauge is None or gauge.stitches is None:
        raise ValueError(f"{text!r} says no stitches over a width. Write it as in {GAUGE_EXAMPLE}.")
    return gauge


def _sentences(bad: BadQuantity) -> str:
    return " ".join(part for part in (bad.message, bad.suggestion) if part)

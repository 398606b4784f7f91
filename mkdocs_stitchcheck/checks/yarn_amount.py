"""Whether the yarn that is listed can be enough: yarn-short."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..findings import Findings
from ..language import syntax
from ..language.quantities import PutUp
from ..results import PatternResult

if TYPE_CHECKING:
    from ..estimates.yarn import ColorYarn


def check_yarn_amount(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """yarn-short: less of a colour is listed than the low end of the estimate, in some size. Small amounts pass."""
    header = pattern.header
    if not any(color.amount for color in header.colors.values()):
        return
    from ..estimates.yarn import yarn_table  # estimates are read where a page asks for one

    told: set[str] = set()
    for place, size in enumerate(header.sizes or ("",)):
        for need in yarn_table(result, place=place).colors:
            color = header.colors.get(need.color)
            if color is None or color.amount is None or need.color in told:
                continue
            has = _metres(color, header, place)
            if has is not None and has < need.low:
                told.add(need.color)
                _report(color, need, has, size, findings)


def _metres(color: syntax.Color, header: syntax.Header, place: int) -> float | None:
    """The length of the amount listed for a size; None where it cannot be known."""
    amount = color.amount
    if amount is None or amount.unit == "small":
        return None
    if amount.sizes:
        if len(amount.sizes) != max(len(header.sizes), 1):
            return None
        amount = replace(amount, value=amount.sizes[place], sizes=())
    if amount.metres is not None:
        return amount.metres
    put_up: PutUp | None = header.yarns[color.yarn].put_up if color.yarn is not None else None
    if put_up is None:
        return None
    if amount.balls is not None:
        return amount.balls * put_up.metres
    return None if amount.grams is None else amount.grams * put_up.metres / put_up.grams


def _report(color: syntax.Color, need: ColorYarn, has: float, size: str, findings: Findings) -> None:
    from ..estimates.rounding import length_text, written

    statement = color.statement
    label = f"Color {color.key}" + (f" ({color.name})" if color.name and color.name != color.key else "")
    findings.add(
        "yarn-short", statement.span(),
        f"{f'Size {size}: ' if size else ''}{label} takes {length_text(need.metres, need.error)} by the gauge, and {written(has, 0.02)} m are listed.",
        suggestion="List more, or check the gauge; an estimate may be off by "
        f"{need.error:.0%} either way.".replace("%", " %"),
    )

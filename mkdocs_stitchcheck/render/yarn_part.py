"""The yarn table: a slot that the estimate fills when it is there."""

from __future__ import annotations

from ..results import PatternResult
from .context import Context
from .html import Html


def yarn_table(pattern: PatternResult, ctx: Context) -> Html | None:
    """Length and weight by colour and piece. None until there is an estimate to show."""
    return None

"""Which way a row meets the spaces and groups of the one before: from its end, where the work was turned."""

from __future__ import annotations

from ..language import syntax
from .edge import IN_ORDER, KEPT, TURNED, Edge
from .working import Setting, Steps, Working


def faced(edge: Edge, steps: Steps, setting: Setting) -> Edge:
    """*edge* in the order in which *steps* meet it: rows are turned unless the writer says otherwise, rounds only where it is said."""
    if edge.way == IN_ORDER:
        return edge
    way = said_first(steps) or edge.way
    if way == TURNED or not (way or setting.in_rounds):
        return edge.turned(setting.in_rounds)
    return edge


def other_ways(edge: Edge, steps: Steps, setting: Setting) -> list[Edge]:
    """The other orders that the words of the writer allow. After the turn of a round its first stitch is that of the join,
    or the last one; rows of which no turn is told may be worked from one side."""
    if edge.way == IN_ORDER or not (edge.marks or edge.clumps):
        return []
    way = said_first(steps) or edge.way
    if setting.in_rounds:
        return [edge.turned()] if way == TURNED else []
    return [edge.in_order()] if not way else []


def way_after(w: Working) -> str:
    """What a round says at its end of the turn to come."""
    if w.turned_last:
        return TURNED
    closed = w.closed and not w.setting.in_rounds  # "2nd row: ..., join": rounds that are called rows
    return KEPT if closed or "no-turn" in w.asides and w.worked else ""


def way_between(before: syntax.RoundLine | None, line: syntax.RoundLine, fastened: bool) -> str | None:
    """What the labels of two rows, one after the other, say of a turn between them ("Row 3 (RS)", "Row 4 (RS)"): "" where the
    yarn was fastened off and may be joined at either end, None where they say nothing."""
    one, other = before.label if before is not None else None, line.label
    if one is not None and other is not None and one.side and other.side and one.last is not None and other.first == one.last + 1:
        return KEPT if one.side == other.side else TURNED
    return "" if fastened else None


def said_first(steps: Steps) -> str:
    """What *steps* say of it before their first stitches."""
    for step in steps:
        if isinstance(step, syntax.Turn):
            return TURNED
        if isinstance(step, syntax.Aside):
            if step.kind == "no-turn":
                return KEPT
        elif not isinstance(step, (syntax.Chain, syntax.ColorChange, syntax.Join, syntax.Loops)):
            return ""
    return ""

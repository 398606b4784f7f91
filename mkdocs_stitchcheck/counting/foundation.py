"""Chains, or a ring, on a line of their own."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..language import syntax
from ..results import Status
from . import messages
from .edge import Edge
from .judge import Start
from .lines import stated_total
from .records import Worked
from .report import stated_span

if TYPE_CHECKING:
    from .piece import PieceWalk


def foundation(walk: PieceWalk, done: Worked) -> None:
    """Chains, or a ring, to begin with."""
    steps = done.line.steps or ()
    color = done.before.color
    number = 0
    kind = "chain"
    for step in steps:
        if isinstance(step, syntax.Chain):
            number += _value(walk, step.number)
        elif isinstance(step, syntax.Ring):
            kind = "ring"
            number = _value(walk, step.chains) if step.chains is not None else number
        elif isinstance(step, syntax.Join) or isinstance(step, syntax.Work) and step.stitch.kind == "slip":
            kind = "stitches" if kind == "chain" else kind
        elif isinstance(step, syntax.ColorChange):
            color = step.color or step.name
    done.before = replace(done.before, color=color)
    done.color = color or None
    done.colors = (color,) if color else ()
    edge = Edge(number, kind=kind)
    held = walk.state.edge
    if kind == "chain" and number and held is not None and held.kind == "stitches" and not walk.fastened:
        edge = replace(held, trailing=number, apart=True)  # a bridge, or chains that lengthen the next row
    done.after = Start(edge, color, None, done.before.budget)
    done.uses, done.makes = 0, number
    done.material = {(color, "ch"): number} if number else {}
    done.status = Status.COUNTED
    stated = stated_total(done.line, walk.shared.size)
    if stated is not None:
        done.stated = stated
        done.status = Status.CHECKED
        if stated != number and kind != "ring":
            done.status = Status.MISMATCH
            walk.shared.reporter.add(
                "count-mismatch", stated_span(done.line),
                f"{messages.name_of(done.line)} makes {messages.stitches(number, 'chain')}; you wrote {stated}.",
                walk.piece, done.line,
            )  # fmt: skip
    walk.note(done)


def _value(walk: PieceWalk, number: syntax.Number) -> int:
    values = number.values
    return min(values[walk.shared.size if walk.shared.size < len(values) else 0] or 0, 10**6)

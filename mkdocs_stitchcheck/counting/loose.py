"""Edges of which only the stitches are known: what can still be worked on them, and what cannot be told."""

from __future__ import annotations

from ..language import syntax
from .places import flat, is_space
from .working import Steps

_ALL = ("rest", "to_space", "to_last")


def needs_places(steps: Steps) -> bool:
    """Whether *steps* go by where the spaces are, or by how many: "in each ch-1 sp", "to next corner"."""
    for step in flat(steps):
        if isinstance(step, syntax.Repeat):
            if step.extent == "to_space":
                return True
            if (step.extent != "times" or step.last is not None) and any(_in_space(inner) for inner in flat(step.body)):
                return True
            continue
        place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
        if place is None:
            continue
        if place.also is not None or place.upto is not None or place.kind == "in_group":
            return True
        if is_space(place) and (place.kind in _ALL or place.each):
            return True
    return False


def _in_space(step: syntax.Step) -> bool:
    place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
    return place is not None and is_space(place)

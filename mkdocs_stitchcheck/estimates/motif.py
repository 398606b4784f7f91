"""Motifs, and other work in the round that lies flat and is open: their corners, and the way around with its chains.

A corner is a space of chains between stitches in one and the same place, of the longest in the last round. A chain of a
space is taken to be as long as a stitch is wide (common practice, no source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..counting.in_full import Course, in_full
from ..counting.places import flat
from ..language import syntax
from ..results import PatternResult, PieceResult

if TYPE_CHECKING:
    from .gauging import Measure
    from .size import PieceSize

_CORNERS = range(3, 9)  # with more of them a motif is as good as a circle


@dataclass(frozen=True, slots=True)
class Motif:
    """``corners`` of the last round, 0 for a circle; for each line of rounds its colour and the stitches and chains
    around it, from the middle."""

    corners: int
    around: tuple[tuple[str, int], ...]


def is_open(piece: PieceResult) -> bool:
    """Whether chains stand between stitches: then the stitches alone don't tell the way around."""
    return any(
        isinstance(step, syntax.Chain) and not step.turning and step.counts_as is None
        or isinstance(step, syntax.Group) and any(isinstance(inner, syntax.Chain) for inner in step.body)
        for line in piece.rounds if line.counts for step in flat(line.syntax.steps or ())
    )


def motif_of(result: PatternResult, piece: PieceResult) -> Motif | None:
    """The motif that a piece is; None where its rounds can't be taken apart."""
    full = in_full(result, [piece])[id(piece)]
    if full.why_not or not full.courses:
        return None
    around = tuple((_color(course), course.count + _chains(course)) for course in full.courses)
    corners = _corners(full.courses[-1]) if len(full.courses) > 1 else 0
    return Motif(corners if corners in _CORNERS else 0, around)


def as_motif(size: PieceSize, motif: Motif, measure: Measure) -> PieceSize:
    """The measures of a piece that lies flat, with its chains and corners."""
    around = motif.around[-1][1] * (measure.stitch_cm or 0.0)
    size = replace(size, length=None, volume=None, around=around)
    if not motif.corners:
        return replace(size, shape="disc", width=around / math.pi)
    low, high, half = extent(motif.corners)
    radius = around / motif.corners / (2 * math.sin(math.pi / motif.corners))
    return replace(size, shape="motif", width=2 * half * radius, depth=(high - low) * radius)


def corner_points(corners: int) -> list[tuple[float, float]]:
    """The corners of an equal-sided polygon about (0, 0) that lies on a side, at distance 1, from the right one below."""
    step = 2 * math.pi / corners
    return [(math.sin(step * (k + 0.5)), -math.cos(step * (k + 0.5))) for k in range(corners)]


def extent(corners: int) -> tuple[float, float, float]:
    """(lowest, highest, half width) of :func:`corner_points`."""
    points = corner_points(corners)
    return min(y for _x, y in points), max(y for _x, y in points), max(x for x, _y in points)


def _color(course: Course) -> str:
    return next((item.color for item in reversed(course.items) if item.places), "")


def _chains(course: Course) -> int:
    return sum(item.length for item in course.items if item.kind == "space")


def _corners(course: Course) -> int:
    """The longest spaces of a round that have a stitch of their own place on both sides."""
    items = course.items
    places = [(item.space, item.parents) for item in items]
    found = [
        item.length for at, item in enumerate(items)
        if item.kind == "space" and places[at - 1] == places[(at + 1) % len(items)] != (None, ())
    ]
    return found.count(max(found)) if found else 0

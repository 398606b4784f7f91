"""The findings of all sizes as one list: each names the sizes that it is true of, and a count taken from another size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..findings import Finding
from ..results import Status
from ..source import Span

if TYPE_CHECKING:
    from .piece import PieceWalk
    from .records import Worked


def merged(found: list[list[Finding]], sizes: tuple[str, ...], walks: Sequence[Sequence[PieceWalk]]) -> list[Finding]:
    """The findings of all sizes: one each, naming the sizes that it is true of."""
    order: list[tuple[str, Span]] = []
    by_place: dict[tuple[str, Span], dict[int, Finding]] = {}
    for size, items in enumerate(found):
        for item in items:
            key = (item.rule, item.span)
            if key not in by_place:
                order.append(key)
            by_place.setdefault(key, {}).setdefault(size, item)
    merged: list[Finding] = []
    for key in order:
        here = by_place[key]
        first = next(iter(here.values()))
        if len(here) == len(sizes) and all(item.message == first.message for item in here.values()):
            merged.append(first)
            continue
        message = first.message + _copied(next(iter(here)), first, sizes, walks)
        names = " and ".join(sizes[size] for size in here) if len(here) < 3 else ", ".join(sizes[size] for size in here)
        noun = "Size" if len(here) == 1 else "Sizes"
        if len(here) == 1:
            merged.append(first.with_(message=f"{noun} {names}: {message}"))
        else:
            merged.append(first.with_(message=f"{noun} {names}: {message}", edits=(), alternatives=()))
    return merged


def _copied(size: int, finding: Finding, sizes: tuple[str, ...], walks: Sequence[Sequence[PieceWalk]]) -> str:
    """" That is the count of size L.", where a wrong count is what another size makes there."""
    if finding.rule != "count-mismatch":
        return ""
    place = _place_of(finding, walks[size])
    if place is None:
        return ""
    here = _at(walks[size], place)
    for other, name in enumerate(sizes):
        there = _at(walks[other], place)
        right = there.status is Status.CHECKED and there.makes == there.stated
        if other != size and right and there.makes == here.stated != here.makes:
            return f" {here.stated} is the count of size {name}."
    return ""


def _place_of(finding: Finding, walk: Sequence[PieceWalk]) -> tuple[int, int] | None:
    """The number of the piece, and of the line in it, that a finding stands on."""
    for piece, one in enumerate(walk):
        for line, done in enumerate(one.worked):
            if done.status is Status.MISMATCH and any(part.number == finding.span.line for part in done.line.statement.lines):
                return piece, line
    return None


def _at(walk: Sequence[PieceWalk], place: tuple[int, int]) -> Worked:
    return walk[place[0]].worked[place[1]]

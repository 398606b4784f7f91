"""Loops left free: "in the free front loops of Rnd 9" means the stitches of round 9."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..language import syntax
from .edge import Edge
from .program import Programs

if TYPE_CHECKING:
    from .records import Worked

_OTHER = {"front": "back", "back": "front"}


@dataclass(slots=True)
class Base:
    """The stitches whose loops are worked into, and what is to be said of it (no rule: nothing)."""

    edge: Edge | None
    rule: str = ""
    message: str = ""


def base_of_loops(
    place: syntax.Place, line: syntax.RoundLine, piece: syntax.Piece, programs: Programs, done: dict[int, Worked]
) -> Base:  # fmt: skip
    """Finds the stitches meant by *place*."""
    reference = place.reference
    if reference is None or not reference.rounds:
        return Base(None)
    target = programs.piece_of(reference, piece)
    number = reference.rounds[-1][1]
    if target is None:
        return Base(None, "unknown-piece", f"There is no piece called {reference.piece}.")
    if not reference.piece:
        target = _holding(number, line, target, programs)
    rounds = programs.rounds[id(target)]
    found = rounds.find(number, line)
    here = done.get(id(found[0])) if found is not None else None
    if found is None or here is None:
        return Base(None, "unknown-round", f"{target.name} has no round {number} before this.")
    after = rounds.find(number + 1, line)
    later = done.get(id(after[0])) if after is not None else None
    wanted = _OTHER.get(reference.side, "")
    if later is None or later is here or _frees(later, wanted):
        return Base(_bare(here.after.edge, here.makes))
    if _frees(here, wanted):
        side = f"{reference.side} " if reference.side else ""
        return Base(
            _bare(here.before.edge, here.uses), "style",
            f"Rnd {number} was itself worked in the {wanted or 'other'} loops, so the free {side}loops are those of the "
            f"round below it; they are taken.",
        )  # fmt: skip
    side = f"{reference.side} " if reference.side else ""
    return Base(
        _bare(here.after.edge, here.makes), "no-free-loops",
        f"Rnd {number} of {target.name} has no free {side}loops: Rnd {number + 1} was worked through both.",
    )  # fmt: skip


def _holding(number: int, line: syntax.RoundLine, piece: syntax.Piece, programs: Programs) -> syntax.Piece:
    """The piece whose round is meant where none is named: this one, else the nearest before it that has such a round."""
    own = programs.rounds[id(piece)].find(number, line)
    if own is not None and own[0] is not line:
        return piece
    pieces = programs.pattern.pieces
    at = next((index for index, other in enumerate(pieces) if other is piece), 0)
    for other in reversed(pieces[:at]):
        if programs.rounds[id(other)].has(number):
            return other
    return piece


def _frees(worked: Worked, wanted: str) -> bool:
    loops = worked.loops
    if wanted:
        return wanted in loops
    return bool(loops & {"back", "front", "third"})


def _bare(edge: Edge | None, count: int | None) -> Edge | None:
    if edge is not None and edge.kind == "stitches":
        return Edge(edge.stitches)
    return Edge(count) if count is not None else None

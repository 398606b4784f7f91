"""Edgings, counted from the piece's own rows and stitches.

Around a flat piece of R rows, T stitches at the top and B at the bottom go T + B + 2 R stitches, one in each stitch and row end
(arithmetic). Of three in each of four corners one may stand for the corner's own stitch (8 more), none (12 more), or the corner's
stitch and its row end are both left to it (4 more): writers count each way (common practice, no source), and the stated count decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..language import syntax
from .edge import CORNER, Edge
from .working import Steps, Working

NO_NUMBER = "evenly, and it isn't said how many stitches go into a row end"
NO_SIDES = "along an edge of a piece whose rows are not all counted"
OPEN_CORNERS = "its corners can be counted in three ways, and no count says which"
NO_CORNERS = "around corners that the rounds do not show"


@dataclass(frozen=True, slots=True)
class Sides:
    """The edges of a piece as it stands: its row ends on one side (0 for a piece in rounds), the stitches at its top and bottom (None
    where not known), and its corners."""

    rows: int
    top: int
    bottom: int | None
    corners: int

    @classmethod
    def of_rounds(cls, edge: Edge) -> Sides:
        """Of a motif in rounds: its last round, and the corner spaces in that."""
        corners = sum(mark[2] == CORNER for mark in edge.marks)
        longest = max((mark[1] for mark in edge.marks), default=0)
        return cls(0, edge.stitches, None, corners or sum(mark[1] == longest > 0 for mark in edge.marks))


def edging(w: Working, step: syntax.Edging, steps: Steps, index: int) -> None:
    """All that goes around, or along the sides that are named."""
    w.worked = w.open_ended = True
    sides = w.setting.sides()
    found: list[int] | str = _found(w, step, sides) if sides is not None else NO_SIDES
    if isinstance(found, str):
        w.trust = w.trust or found
        return
    w.options = max(w.options, len(found))
    total = found[min(w.choice, len(found) - 1)]
    w.unknown, w.marks, w.spaces = False, (), 0
    w.left = 0
    w.tally.used += total
    w.tally.stitch(w.wear(None), step.stitch, total, total)


def _found(w: Working, step: syntax.Edging, sides: Sides) -> list[int] | str:
    """The counts that the words allow, the likeliest first; a reason where they are not known."""
    if any(part.per > 1 for part in step.parts):
        return _every_so_many(w, step, sides)
    each = {part.where: part.number for part in step.parts}
    if step.evenly and not any(part.where == "rows" and part.number is not None for part in step.parts) and sides.rows:
        return NO_NUMBER
    if step.evenly and not step.parts or each.get("rows", 1) is None:
        return NO_NUMBER
    corner = w.times(each["corner"]) if "corner" in each else 0
    if not sides.rows:
        return _in_rounds(w, each, corner, sides)
    if not step.around:
        return _one_after_the_other(w, step, sides)
    if sides.bottom is None:
        return NO_SIDES
    plain = (sides.top + sides.bottom) * w.times(each.get("stitches")) + 2 * sides.rows * w.times(each.get("rows"))
    w.told = f"{sides.top} + {sides.bottom} stitches, 2 x {sides.rows} row ends" + (", 4 corners" if corner else "")
    return [plain + 4 * more for more in (corner - 1, corner, corner - 2)] if corner else [plain]


def _every_so_many(w: Working, step: syntax.Edging, sides: Sides) -> list[int] | str:
    """"2 sc for every 3 rows" along a side; what is left of the rows at the end may be rounded either way."""
    if len(step.parts) != 1 or step.around or not sides.rows:
        return NO_NUMBER
    part = step.parts[0]
    whole, over = divmod(sides.rows * w.times(part.number), part.per)
    w.told = f"{sides.rows} row ends, {w.times(part.number)} to every {part.per}"
    return [whole, whole + 1] if over else [whole]


def _in_rounds(w: Working, each: dict[str, syntax.Number | None], corner: int, sides: Sides) -> list[int] | str:
    if "rows" in each:
        return NO_SIDES
    if corner and not sides.corners:
        return NO_CORNERS
    w.told = f"{sides.top} stitches" + (f", {sides.corners} corners" if corner else "")
    return [sides.top * w.times(each.get("stitches")) + sides.corners * corner]


def _one_after_the_other(w: Working, step: syntax.Edging, sides: Sides) -> list[int] | str:
    total = corners = there = 0
    told: list[str] = []
    for part in step.parts:
        if part.where == "corner":
            corners += w.times(part.number)
            there += 1
            continue
        number = {"rows": sides.rows, "stitches": sides.top, "chain": sides.bottom}[part.where]
        if number is None:
            return NO_SIDES
        total += number * w.times(part.number)
        told.append(f"{number} {'row ends' if part.where == 'rows' else 'stitches'}")
    w.told = ", ".join([*told, *([f"{there} corners"] if there > 1 else ["1 corner"] if there else [])])
    return [total + corners - less * there for less in (range(3) if there else (0,))]

"""A foundation chain that is too long or too short for its first row: the row's own words, and the next rows, say so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from ..findings import Edit
from ..language import syntax
from .blame import Blame
from .judge import Outcome, judge
from .program import Program
from .records import Worked
from .sizing import entry
from .working import Setting

if TYPE_CHECKING:
    from .piece import PieceWalk

_FARTHEST = 6  # chains more or fewer that are tried


@dataclass(slots=True)
class OtherChain:
    """Another number of chains with which the first row comes out: the number, the edit, and how it is said."""

    number: int
    edit: Edit
    phrase: str


def other_chain(
    walk: PieceWalk, done: Worked, outcome: Outcome, setting: Setting, program: Program, agrees: Callable[[int], bool | None]
) -> OtherChain | None:
    """The number of chains with which the row fits, makes its count and is taken by the next one; None if none or several do."""
    edge = done.before.edge
    if edge is None or edge.kind not in ("chain", "stitches", "ring") or not done.line.stated or not walk.worked:
        return None
    written = _number_of(walk.worked[-1])
    if written is None or edge.stitches < 1:
        return None
    found: list[int] = []
    for step in range(1, _FARTHEST + 1):
        for number in (edge.stitches - step, edge.stitches + step):
            if number < 1:
                continue
            start = replace(done.before, edge=replace(edge, stitches=number))
            other = judge(program, start, setting, done.line.stated, walk.edge_of)
            if other.right and agrees(other.makes) is not False:
                found.append(number)
    if len(found) != 1:
        return None
    line = walk.worked[-1].line
    place = entry(written, line.statement.text, walk.shared.size)
    if place is None:
        return None
    return OtherChain(
        found[0], Edit(line.statement.span(*place), str(found[0])), f"ch {found[0]} instead of ch {edge.stitches} at the start"
    )


def with_chain(blame: Blame, chain: OtherChain, outcome: Outcome, accepts: Callable[[int], bool | None], after: str) -> Blame:
    """The chain is the slip where the row's own words agree with its count, or the next row with the count and not with
    what the row makes; where nobody speaks, the count or the chain may be it."""
    made, stated = outcome.makes, outcome.verdict.total
    takes_made = accepts(made)
    takes_stated = accepts(stated) if stated is not None else None
    says = chain.phrase[:1].upper() + chain.phrase[1:]
    if outcome.verdict.right or takes_stated and takes_made is False:
        speakers = f"the count and {after}" if takes_stated and after else "the count"
        return Blame("chain", f"{says} agrees with {speakers}.", [], bool(takes_stated), [(chain.edit,)])
    if outcome.fits and not takes_made and blame.slip in ("count", ""):
        either = f"Either the count is the slip: write ({made}), or {chain.phrase} agrees with the count."
        return Blame("", either, blame.choices[:1], False, [(chain.edit,)])
    return blame


def _number_of(before: Worked) -> syntax.Number | None:
    """The one number of a foundation chain written on the line before."""
    steps = before.line.steps or ()
    numbers = [step.number if isinstance(step, syntax.Chain) else step.chains for step in steps if isinstance(step, (syntax.Chain, syntax.Ring))]
    if before.kind != "foundation" or len(numbers) != 1 or numbers[0] is None:
        return None
    number = numbers[0]
    return number if number.end > number.start and not number.word else None

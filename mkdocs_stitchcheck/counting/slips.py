"""A round that fails: who is to blame is asked of its neighbours, and the next round begins where it should."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from ..language import syntax
from ..results import Status
from . import messages
from .beginnings import other_chain, with_chain
from .blame import Neighbours, find
from .edge import Edge
from .judge import Outcome, Start, judge
from .lines import is_counted, joined_loops, not_in_this_size, only_makes_chains, starts_anew, states_count
from .places import first_place
from .program import Program
from .questions import TURNING
from .records import Accepts, Worked
from .repairs import Case
from .report import label_span
from .widths import neighbours
from .working import Setting

if TYPE_CHECKING:
    from .piece import PieceWalk


def wrong(walk: PieceWalk, done: Worked, index: int, outcome: Outcome, setting: Setting, program: Program) -> None:
    line, start = done.line, done.before
    done.status = Status.MISMATCH
    accepts = next_accepts(walk, line, index, outcome)
    if _range_changes(done, outcome, program):
        walk.shared.reporter.add("range-changes-count", label_span(line), messages.range_changes(line, outcome), walk.piece, line)
        done.after = begin_next(outcome, accepts, third=start.edge)
        return
    own = len(program.blocks) == 1 and len(program.blocks[0].segments) == 1 and (
        program.blocks[0].segments[0].steps is line.steps
    )
    case = None
    if own and start.edge is not None:
        case = Case(
            line, line.steps or (), program.rounds, start, setting, line.stated,
            _accepted(line, outcome, accepts), walk.edge_of,
        )  # fmt: skip
    blame = find(outcome, case, Neighbours(accepts, _name_before(walk), name_after(walk, index)))
    chain = other_chain(walk, done, outcome, setting, program, accepts)
    if chain is not None:
        blame = with_chain(blame, chain, outcome, accepts, name_after(walk, index))
    blame.suggestion = blame.suggestion or _told_of_turn(walk, outcome, setting, program, line) or _told_chains(outcome, setting, line)
    walk.shared.reporter.wrong(line, walk.piece, outcome, blame, _told(walk, outcome))
    done.after = begin_next(outcome, accepts)


def _told(walk: PieceWalk, outcome: Outcome) -> str:
    """Why the chains do not count (or do), where another row's own words say so and the count is one off."""
    if outcome.last.told and outcome.last.tally.made:
        return f"These are {outcome.last.told}."
    if outcome.verdict.total is None or abs(outcome.makes - outcome.verdict.total) != 1:
        return ""
    for question in sorted(outcome.last.asked):
        if question in walk.shared.told:
            chains = "skipped chains" if outcome.before is not None and outcome.before.kind == "chain" else "turning chain"
            counts = walk.shared.answers.get(question)
            verb = ("count" if counts else "do not count") if chains.endswith("s") else "counts" if counts else "does not count"
            return f"The {chains} {verb}, as {walk.shared.told[question]} says."
    declared = f"{TURNING} sc"
    if declared in walk.shared.answers.declared and walk.shared.answers.get(declared) and outcome.makes == outcome.verdict.total + 1:
        return "The header line Turning chain says that the chain counts, so it is one of them."
    return ""


def _told_of_turn(walk: PieceWalk, outcome: Outcome, setting: Setting, program: Program, line: syntax.RoundLine) -> str:
    """Where the round would come out even without the turn before it."""
    edge = outcome.before
    if outcome.fits or edge is None or edge.kind != "stitches" or not (edge.marks or edge.clumps):
        return ""
    if judge(program, Start(edge.in_order()), replace(setting, asking=False), line.stated, walk.edge_of).right:
        return "It would come out even if the work were not turned: after a turn the last stitches and spaces come first."
    return ""


def _told_chains(outcome: Outcome, setting: Setting, line: syntax.RoundLine) -> str:
    """The nearest chains on which a first row with a repeat comes out even."""
    edge = outcome.before
    if outcome.last.remainder is None or outcome.rounds != 1 or edge is None or edge.kind != "chain" or line.label is None:
        return ""
    near = neighbours(line.steps or (), edge.stitches, replace(setting, asking=False))
    return f"It comes out even on a chain of {' or '.join(map(str, near))}." if near else ""


def _range_changes(done: Worked, outcome: Outcome, program: Program) -> bool:
    if outcome.rounds < 2 or len(done.line.stated) > 1:
        return False
    if outcome.stuck is not None:
        return outcome.stuck > 0 and outcome.first.tally.made != (
            done.before.edge.stitches if done.before.edge is not None else None
        )
    changes = bool(outcome.each)
    return changes and outcome.verdict.total == outcome.first.tally.made and not outcome.verdict.right


def _accepted(line: syntax.RoundLine, outcome: Outcome, accepts: Accepts) -> Callable[[Outcome], bool]:
    if states_count(line):
        return lambda other: True

    def next_takes_it(other: Outcome) -> bool:
        takes = accepts(other.makes)
        return bool(takes) and accepts(other.makes + 1) is False

    return next_takes_it


def begin_next(outcome: Outcome, accepts: Accepts, third: Edge | None = None) -> Start:
    """What the next line works on: what the steps make, or the stated count, whichever it accepts."""
    made, stated = outcome.makes, outcome.verdict.total
    end = outcome.end
    if third is not None:
        made = outcome.first.tally.made
        for candidate in (outcome.makes if outcome.fits else made, stated, third.stitches):
            if candidate is not None and accepts(candidate):
                return replace(end, edge=Edge(candidate))
        return replace(end, edge=Edge(stated if stated is not None else made))
    if stated is None or stated == made:
        if outcome.fits or stated is None or end.edge is None:
            if not outcome.fits and end.edge is not None and end.edge.marks and accepts(made) is False:
                return replace(end, edge=end.edge.loosened(made))
            return end
        if end.edge.marks and accepts(made) is False:
            return replace(end, edge=end.edge.loosened(made))
        return replace(end, edge=replace(end.edge, waiting=0))
    takes_made, takes_stated = accepts(made), accepts(stated)
    if takes_made and not takes_stated:
        return end
    edge = end.edge or Edge()
    return replace(end, edge=edge.loosened(stated))


def next_accepts(walk: PieceWalk, line: syntax.RoundLine, index: int, outcome: Outcome) -> Accepts:
    """Whether the next round, worked on n stitches, fits and makes its own count; None where it says nothing."""
    following = _next(walk, index)
    known: dict[int, bool | None] = {}
    if following is None:
        return lambda n: None
    program = walk.shared.programs.of(following, walk.piece, walk.shared.size)
    setting = replace(walk.setting_of(following), asking=False)
    end = outcome.end

    def accepts(n: int) -> bool | None:
        if n not in known:
            edge = end.edge
            if edge is None:
                edge = Edge(n)
            elif n != outcome.makes or edge.kind != "stitches":
                edge = edge.loosened(n)
            start = Start(edge, end.color, end.pending, end.budget)
            result = judge(program, start, setting, following.stated, walk.edge_of)
            known[n] = None if result.first.trust else result.right
        return known[n]

    return accepts


def _next(walk: PieceWalk, index: int) -> syntax.RoundLine | None:
    """The next line that works on what this one leaves."""
    for line in walk.lines[index + 1 :]:
        if line.only is not None and walk.shared.size not in line.only:
            continue
        if line.steps is None or line.not_written:
            return None
        if not is_counted(line) or not_in_this_size(line, walk.shared.size):
            continue
        place = first_place(line.steps)
        if joined_loops(line) is not None:
            return None
        if only_makes_chains(line) or starts_anew(line) or place is not None and place.kind == "loops":
            return None
        if walk.shared.programs.of(line, walk.piece, walk.shared.size).trouble:
            return None
        return line
    return None


def _name_before(walk: PieceWalk) -> str:
    for done in reversed(walk.worked):
        if done.status is Status.CHECKED or done.kind == "foundation":
            return messages.name_of(done.line) if done.line.label is not None else "the chain"
        return ""
    return ""


def name_after(walk: PieceWalk, index: int) -> str:
    following = _next(walk, index)
    return messages.name_of(following) if following is not None else ""

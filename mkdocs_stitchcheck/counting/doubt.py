"""Lines that cannot be counted: references into nowhere, numbers beyond reason, rounds on trust, nothing to work into."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..findings import Edit
from ..language import syntax
from ..results import Status
from . import messages
from .blame import Neighbours, find
from .edge import Edge
from .judge import Outcome, Start, judge
from .lines import stated_total
from .named import near_piece, rounds_there
from .numbered import covered
from .places import first_stitch, first_work
from .program import Program
from .records import Worked
from .report import Reporter, body_span, label_span
from .slips import begin_next, name_after, next_accepts
from .tally import Material

if TYPE_CHECKING:
    from .piece import PieceWalk


def troubled(walk: PieceWalk, done: Worked, program: Program) -> None:
    """A reference that leads nowhere, or in a circle."""
    line = done.line
    node = program.place or syntax.Node(*line.body)
    inside = node.end <= len(line.statement.text) and node.end > node.start
    span = line.statement.span(node.start, node.end) if inside else body_span(line)
    name = messages.name_of(line)
    if program.trouble == "unread":
        on_trust(walk, done, f"it repeats round {program.message}, which could not be read", False)
        walk.note(done)
        return
    rule, message, suggestion = _trouble(walk, program, name)
    walk.shared.reporter.add(rule, span, message, walk.piece, line, suggestion=suggestion)
    stated = stated_total(line, walk.shared.size)
    done.status, done.stated, done.makes = Status.MISMATCH, stated, stated
    done.worked = covered(line, walk.shared.size)
    done.after = Start(Edge(stated, loose=True) if stated is not None else None, done.before.color, None, done.before.budget)
    if stated is None:
        walk.cause = line
    walk.note(done)


def _trouble(walk: PieceWalk, program: Program, name: str) -> tuple[str, str, str]:
    node = program.place
    target = walk.piece
    if isinstance(node, syntax.Reference):
        target = walk.shared.programs.piece_of(node, walk.piece) or walk.piece
    if program.trouble == "unknown-piece":
        near = near_piece(walk.shared.pattern, program.message)
        return program.trouble, f"{name} refers to {program.message}, but there is no such piece.", near
    if program.trouble == "unknown-round":
        there = rounds_there(walk.shared.programs, target)
        return program.trouble, f"{name} refers to round {program.message}, but {there}.", ""
    if program.trouble == "circular-reference":
        return program.trouble, f"{name} and round {program.message} refer to each other, so neither says what to do.", ""
    return program.trouble, f"{name} repeats more rounds than can be meant.", ""


def out_of_range(walk: PieceWalk, done: Worked, outcome: Outcome) -> None:
    line = done.line
    number = outcome.first.too_big
    span = line.statement.span(number.start, number.end) if number is not None else body_span(line)
    if number is not None and not number.value:
        message = f"{messages.name_of(line)} holds a 0, so that nothing is worked there."
    elif number is not None:
        message = f"{messages.name_of(line)} holds a number above a million, which cannot be meant."
    elif outcome.makes > 10**9:
        message = f"{messages.name_of(line)} makes more than a thousand million stitches."
    else:
        message = f"{messages.name_of(line)} goes on for more rounds than can be counted."
    if not _reported(walk.shared.reporter, "number-out-of-range", line):
        right = _instead_of_none(walk, done, number) if number is not None and not number.value else None
        suggestion, edits = (f"With {right} it comes out.", (Edit(span, str(right)),)) if right else ("", ())
        walk.shared.reporter.add("number-out-of-range", span, message, walk.piece, line, suggestion=suggestion, edits=edits)
    done.status = Status.MISMATCH
    done.material = {}
    stated = stated_total(line, walk.shared.size)
    done.makes = stated
    done.after = Start(Edge(stated, loose=True) if stated is not None else None, done.before.color)
    if stated is None:
        walk.cause = line


_HIGHEST = 60  # the numbers tried in place of a 0: longer runs of stitches are rare


def _instead_of_none(walk: PieceWalk, done: Worked, number: syntax.Number) -> int | None:
    """The one number that, written in place of a 0, lets the round use what there is and make its count."""
    line = done.line
    program = walk.shared.programs.of(line, walk.piece, walk.shared.size)
    if not line.stated or done.before.edge is None:
        return None
    for value in range(1, _HIGHEST):
        setting = replace(walk.setting_of(line), asking=False, replaced=number, replacement=value)
        other = judge(program, done.before, setting, line.stated, walk.edge_of)
        if other.right and other.first.too_big is None:
            return value
    return None


def too_many_rounds(walk: PieceWalk, done: Worked) -> None:
    line = done.line
    if not _reported(walk.shared.reporter, "number-out-of-range", line):
        walk.shared.reporter.add(
            "number-out-of-range", label_span(line), f"{messages.name_of(line)}: nobody works a million rounds.",
            walk.piece, line, suggestion="Correct the numbers of the rounds.",
        )  # fmt: skip
    stated = stated_total(line, walk.shared.size)
    done.status, done.stated, done.makes, done.worked = Status.MISMATCH, stated, stated, 1
    edge = Edge(stated) if stated is not None else None
    done.after = Start(edge, done.before.color, None, done.before.budget)
    if edge is None:
        walk.cause = line
    walk.note(done)


def nothing_there(walk: PieceWalk, done: Worked, start: Start, outcome: Outcome) -> bool:
    edge, w = start.edge, outcome.first
    if edge is None or edge.stitches or edge.kind == "ring" or edge.space_count() or w.joined or w.in_ring:
        return False
    if w.chain or not (w.tally.used or w.open_ended or w.tally.used_spaces):
        return False
    if w.trust or edge.kind == "nothing" and w.tally.used and not w.left:
        return False
    line = done.line
    walk.shared.reporter.add(
        "nothing-to-work-into", body_span(line), f"{messages.name_of(line)} {messages.verb(line, 'has', 'have')} nothing to work into.", walk.piece, line,
        suggestion="Begin with a magic ring, a chain or a round.",
    )  # fmt: skip
    total = done.stated if done.stated is not None else outcome.makes or None
    done.status = Status.MISMATCH
    done.makes = total
    done.after = replace(outcome.end, edge=Edge(total) if total is not None else None)
    return True


def on_trust(walk: PieceWalk, done: Worked, reason: str, report: bool) -> None:
    line = done.line
    stated = done.stated if done.stated is not None else stated_total(line, walk.shared.size)
    done.status, done.trust, done.stated = Status.ON_TRUST, reason, stated
    done.uses, done.makes = None, stated
    stitch = first_stitch(first_work(line.steps or ()))
    done.material = {(done.before.color, stitch.key): stated} if stitch is not None and stated else {}
    color = done.outcome.end.color if done.outcome is not None else done.before.color
    done.after = Start(Edge(stated, loose=True) if stated is not None else None, color, None, done.before.budget)
    if stated is None:
        walk.cause = walk.cause or line
    if report:
        name = messages.name_of(line)
        walk.shared.reporter.add("on-trust", body_span(line), f"{name} {messages.verb(line, 'is', 'are')} taken on trust: {reason}.", walk.piece, line)


def _material_of(walk: PieceWalk, done: Worked) -> Material:
    """What is worked "around" an unknown number of stitches, if as many are made as the count says."""
    line = done.line
    program = walk.shared.programs.of(line, walk.piece, walk.shared.size)
    start = replace(done.before, edge=Edge(done.stated or 0))
    outcome = judge(program, start, replace(walk.setting_of(line), asking=False), line.stated, walk.edge_of)
    return outcome.material if outcome.right else {}


def after_unknown(walk: PieceWalk, done: Worked, outcome: Outcome, index: int) -> None:
    """What stands before is not known: only a count that the steps make by themselves can be held against."""
    line = done.line
    cause = messages.name_of(walk.cause) if walk.cause is not None else "the round before"
    done.status, done.trust = Status.ON_TRUST, f"{cause} could not be counted"
    if walk.cause is not None:
        walk.following.setdefault(id(walk.cause), []).append(messages.name_of(line))
    if outcome.verdict.right or outcome.last.open_ended:
        total = done.stated if done.stated is not None and outcome.last.open_ended else done.makes
        done.makes = total if total is not None else done.stated
        if outcome.last.open_ended and done.stated:
            done.material = _material_of(walk, done)
        edge = outcome.end.edge if outcome.end.edge is not None else Edge(done.stated, loose=True) if done.stated is not None else None
        done.after = replace(outcome.end, edge=edge)
    else:
        done.status = Status.MISMATCH
        accepts = next_accepts(walk, line, index, outcome)
        blame = find(outcome, None, Neighbours(accepts, "", name_after(walk, index)))
        walk.shared.reporter.wrong(line, walk.piece, outcome, blame)
        done.after = begin_next(outcome, accepts)
    if done.after.edge is not None:
        walk.cause = None


def _reported(reporter: Reporter, rule: str, line: syntax.RoundLine) -> bool:
    lines = {block.number for block in line.statement.lines}
    return any(item.rule == rule and item.span.line in lines for item in reporter.findings.items)

"""Findings on the whole pattern: how it was read, what follows from what, that no count is stated."""

from __future__ import annotations

from ..findings import Severity
from ..language import syntax
from ..results import PatternResult, Reading, Status
from . import messages, readings
from .piece import PieceWalk
from .questions import header_line, words
from .report import Reporter, body_span, label_span

_ASKS = {
    "star-repeat": "a repeat from the star counts the first time",
    "number-stitch": "2 sc is two stitches or two in one",
    "chains-counted": "chains between stitches count",
    "slip-stitches": "slip stitches count",
    "implicit-repeat": "a list without brackets is repeated",
    "space-reach": "spaces are taken in order",
}


def report_readings(pattern: syntax.Pattern, choice: readings.Choice, result: PatternResult, reporter: Reporter) -> None:
    for question, answer in choice.answers.given.items():
        result.readings.append(Reading(question, words(question, answer), choice.why.get(question, "usual")))
    for question in choice.undecided:
        if question not in choice.answers.given:
            result.readings.append(Reading(question, words(question, choice.answers.get(question)), "nothing decides"))
    place = _first_round(result)
    if place is None:
        return
    piece, line = place
    for question in choice.undecided:
        answer = choice.answers.get(question)
        message = f"Nothing decides whether {_asks(question)}; it is read as: {words(question, answer)}."
        suggestion = f"Say it in a header line: {header_line(question, answer)}."
        reporter.add("reading-undecided", body_span(line), message, piece, line, suggestion=suggestion)
    for question, round_line in choice.guessed.items():
        answer = choice.answers.get(question)
        name = messages.name_of(round_line)
        message = f"Only {name} shows how the pattern is meant: {words(question, answer)}. It may be a slip there."
        suggestion = f"If it is meant, say it in a header line: {header_line(question, answer)}."
        owner = next((p for p in pattern.pieces if round_line in p.lines), None)
        reporter.add("reading-guessed", body_span(round_line), message, owner, round_line, suggestion=suggestion)


def _asks(question: str) -> str:
    if question.startswith("turning-chain "):
        return f"the turning chain of {question.split(' ', 1)[1]} counts as a stitch"
    return _ASKS[question]


def _first_round(result: PatternResult) -> tuple[syntax.Piece, syntax.RoundLine] | None:
    return next(((piece.syntax, line.syntax) for piece in result.pieces for line in piece.rounds), None)


def tell_followers(walk: PieceWalk, reporter: Reporter) -> None:
    """Rounds that could not be checked because of an earlier one are named under what is wrong with that."""
    for worked in walk.worked:
        names = walk.following.get(id(worked.line))
        if not names:
            continue
        which = names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}" if len(names) > 2 else " and ".join(names)
        sentence = f"{which} could not be checked, because this is not known."
        lines = {block.number for block in worked.line.statement.lines}
        for index, item in enumerate(reporter.findings.items):
            if item.span.line in lines and item.severity in (Severity.ERROR, Severity.INFO):
                reporter.findings.items[index] = item.with_(follows=(*item.follows, sentence))
                break


def check_counts_stated(pattern: syntax.Pattern, result: PatternResult, reporter: Reporter) -> None:
    lines = [(piece, line) for piece in result.pieces for line in piece.rounds if line.counts]
    if not lines or any(line.syntax.stated for _, line in lines):
        return
    if any(line.status is Status.UNREAD for _, line in lines):
        return
    piece, line = lines[0]
    reporter.add(
        "count-missing", label_span(line.syntax), "No round says how many stitches it has, so a wrong number of stitches can stay unseen.",
        piece.syntax, line.syntax, suggestion="Write the count at the end of each round that changes it: (12).",
    )  # fmt: skip

"""Turns what was counted into findings, at the writer's words."""

from __future__ import annotations

from ..findings import Finding, Findings, Label
from ..language import syntax
from ..source import Span
from . import messages
from .blame import Blame, edits_of
from .judge import Outcome


class Reporter:
    """Adds findings of one pattern; every finding knows its piece and round."""

    def __init__(self, findings: Findings, title: str) -> None:
        self.findings = findings
        self.title = title
        self.muted = False

    def add(
        self, rule: str, span: Span, message: str, piece: syntax.Piece | None, line: syntax.RoundLine | None = None, **more: object
    ) -> Finding | None:
        """Reports *rule*; None while muted."""
        if self.muted:
            return None
        number = line.label.first if line is not None and line.label is not None else None
        return self.findings.add(
            rule, span, message, pattern=self.title or None, piece=piece.name if piece is not None else None,
            round=number, **more,
        )  # fmt: skip

    def wrong(
        self, line: syntax.RoundLine, piece: syntax.Piece, outcome: Outcome, blame: Blame, reason: str = ""
    ) -> None:
        """A line that fails one check or both: one finding each, in one group where both fail.

        *reason* is a sentence that takes the place of the second one in the message on the count.
        """
        both = not outcome.fits and not outcome.verdict.right and outcome.last.remainder is None
        group = self.findings.new_group() if both and not self.muted else None
        edits, alternatives = edits_of(blame, line)
        help_ = {"suggestion": blame.suggestion, "edits": edits, "alternatives": alternatives, "sure": blame.sure}
        instruction, count = body_span(line), stated_span(line, outcome)
        facts = messages.uses_and_makes(outcome)
        if not outcome.fits:
            rule, message = messages.does_not_fit(line, outcome)
            self.add(rule, instruction, message, piece, line, label=facts, group=group, **help_)
            help_ = {}
        if not outcome.verdict.right and outcome.last.remainder is None:
            message = messages.wrong_count(line, outcome)
            if reason:
                message = f"{message.split('. ')[0].rstrip('.')}. {reason}"
            also = (Label(instruction),)
            if help_:
                self.add("count-mismatch", count, message, piece, line, label=facts, also=also, **help_)
            else:
                self.add(
                    "count-mismatch", count, message, piece, line, label=facts, also=also, group=group,
                    suggestion="" if group is not None else blame.suggestion,
                )  # fmt: skip


def body_span(line: syntax.RoundLine) -> Span:
    """The place of the instruction, without label and count."""
    start, end = line.body
    if end > start:
        return line.statement.span(start, end)
    return line.statement.span()


def stated_span(line: syntax.RoundLine, outcome: Outcome | None = None) -> Span:
    """The place of the stated count with its brackets."""
    if not line.stated:
        return body_span(line)
    at = outcome.wrong_each if outcome is not None and outcome.wrong_each is not None else len(line.stated) - 1
    stated = line.stated[min(at, len(line.stated) - 1)]
    wrong = outcome.verdict.number if outcome is not None and outcome.wrong_each is None else None
    if wrong is not None and len(line.stated) > 1:  # "(13) (12)", where the first is wrong
        stated = next((one for one in line.stated if one.start <= wrong.start < one.end), stated)
    return line.statement.span(stated.start, stated.end)


def label_span(line: syntax.RoundLine) -> Span:
    """The place of a round's label."""
    if line.label is None:
        return line.statement.span()
    return line.statement.span(line.label.start, line.label.end)

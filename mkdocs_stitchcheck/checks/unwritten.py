"""Rounds that are not written yet: "Rnd 12: ?" and "(?)" are for drafts."""

from __future__ import annotations

from ..findings import Findings, Severity
from ..language.syntax import Pattern, RoundLine
from ..results import PatternResult


def check_unwritten(pattern: Pattern, result: PatternResult, findings: Findings) -> None:
    """Report each round or count that is a question mark: an info in a draft, an error otherwise."""
    severity = Severity.INFO if pattern.draft else Severity.ERROR
    for piece in pattern.pieces:
        for line in piece.lines:
            if not isinstance(line, RoundLine):
                continue
            name = line.label.text if line.label else "This line"
            if line.not_written:
                findings.add(
                    "unreadable-line", line.statement.span(*line.body), f"{name} is not written yet.", severity=severity,
                    suggestion="Write the round, or say Draft: yes in the header until it is done.",
                )  # fmt: skip
            for stated in line.stated:
                if stated.form == "unknown":
                    findings.add(
                        "unreadable-line", line.statement.span(stated.start, stated.end),
                        f"The count of {name} is not written yet.", severity=severity,
                        suggestion="Write the count, or say Draft: yes in the header until it is done.",
                    )  # fmt: skip

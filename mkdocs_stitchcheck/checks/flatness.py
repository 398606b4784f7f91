"""Rounds that are said to lie flat, and gain too many or too few stitches for it: ruffles and cups."""

from __future__ import annotations

from itertools import pairwise

from .. import late_re as re
from ..estimates.fabric import course_of
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Statement
from .reading import heard

RUFFLES_FROM, CUPS_BELOW = 1.25, 0.8  # of the gain that lies flat

_FLAT = re.compile(
    r"\b(?:lie|lies|lay|lays|lying|keep|keeps|stay|stays|is|be|perfectly|completely|nice and|work) (?:it |them |nice(?:ly)? |completely |perfectly )?flat\b"
    r"|\bflat (?:circle|disc|disk|round|coaster|oval|piece)\b",
    re.IGNORECASE,
)
_NOT_FLAT = re.compile(r"\b(?:not|n't|no longer|never|until|sew|press|fold|squash|iron)\b[^.;,]{0,30}\bflat\b", re.IGNORECASE)


def check_flatness(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """ruffles and cups, only where the text says flat: mean growth over 1.25 or under 0.8 of what lies flat.

    A note among the rounds speaks of those before it; one before them, and the heading, of all that grow.
    """
    if "flat" not in heard(pattern):
        return
    for piece in result.pieces:
        if piece.flat:
            continue
        for statement, rounds in _claims(piece):
            if _judged(piece, statement, rounds, pattern, findings):
                break


def _claims(piece: PieceResult) -> list[tuple[Statement, list[RoundResult]]]:
    """The statements that say flat, each with the rounds it speaks of."""
    worked = [line for line in piece.rounds if line.kind == "round"]
    heading = [piece.syntax.heading] if piece.syntax.heading is not None else []
    said = [*heading, *(line.statement for line in piece.syntax.lines if line.kind in ("note", "step", "round"))]
    claims = []
    for statement in map(Statement.as_read, said):
        if _FLAT.search(statement.text) and not _NOT_FLAT.search(statement.text):
            before = [line for line in worked if line.line <= statement.line]
            claims.append((statement, before if len(before) > 1 else _growing(worked)))
    return claims


def _growing(rounds: list[RoundResult]) -> list[RoundResult]:
    """The rounds up to the last that gains: what comes after is a wall."""
    last = max((index for index, line in enumerate(rounds) if (_count(line) or 0) > (_used(line) or 0)), default=-1)
    return rounds[: last + 1]


def _count(line: RoundResult) -> int | None:
    return line.makes[0] if line.makes else None


def _used(line: RoundResult) -> int | None:
    return line.uses[0] if line.uses else None


def _judged(
    piece: PieceResult, statement: Statement, rounds: list[RoundResult], pattern: syntax.Pattern, findings: Findings
) -> bool:
    counts = [(_count(line), line) for line in rounds]
    if len(counts) < 3 or any(count is None for count, _line in counts):
        return False
    gained, steps, flat = 0.0, 0, 0.0
    for (before, _one), (after, line) in pairwise(counts):
        gained += (after or 0) - (before or 0)
        steps += line.worked
        flat += course_of(line, pattern.header).flat * line.worked
    mean, lies_flat = gained / steps, flat / steps
    if CUPS_BELOW * lies_flat <= mean <= RUFFLES_FROM * lies_flat:
        return False
    rule, what = ("ruffles", "wave") if mean > lies_flat else ("cups", "cup")
    match = _FLAT.search(statement.text)
    start, end = match.span() if match else (0, len(statement.text))
    findings.add(
        rule, statement.span(start, end),
        f"{piece.name} gains about {mean:.0f} stitches a round, and about {lies_flat:.0f} lie flat here: it will {what}.",
        suggestion="Compare with your own piece; a looser hand or another hook moves this a little.",
        piece=piece.name,
    )
    return True

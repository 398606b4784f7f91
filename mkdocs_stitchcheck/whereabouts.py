"""Where findings stand: the pattern, piece and round of each, and what an error makes of a round's status."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from .findings import Finding, Severity
from .results import FileResult, PatternResult, PieceResult, RoundResult, Status

# Errors that stand where a round begins but say nothing of its own stitches.
_NOT_OF_A_ROUND = ("round-missing", "piece-twice", "unclosed-block", "unknown-option", "unknown-header")


class Places:
    """The lines of a file's patterns, to be found by their number in the file."""

    def __init__(self, patterns: Sequence[PatternResult]) -> None:
        self._patterns = sorted(patterns, key=lambda pattern: pattern.line)
        self._starts = [pattern.line for pattern in self._patterns]
        self._pieces: list[tuple[int, PatternResult, PieceResult]] = sorted(
            ((piece.line, pattern, piece) for pattern in patterns for piece in pattern.pieces), key=lambda entry: entry[0]
        )
        self._piece_starts = [line for line, _pattern, _piece in self._pieces]
        self.lines: dict[int, tuple[PieceResult, int]] = {}
        for _start, _pattern, piece in self._pieces:
            for index, line in enumerate(piece.rounds):
                for part in line.syntax.statement.lines:
                    self.lines[part.number] = (piece, index)

    def pattern(self, number: int) -> PatternResult | None:
        """The pattern that reaches over line *number*."""
        at = bisect_right(self._starts, number) - 1
        if at < 0:
            return None
        pattern = self._patterns[at]
        return pattern if number <= max(pattern.end_line, pattern.line) else None

    def piece(self, number: int, pattern: PatternResult) -> PieceResult | None:
        """The piece of *pattern* that begins last before line *number*."""
        at = bisect_right(self._piece_starts, number) - 1
        if at < 0 or self._pieces[at][1] is not pattern:
            return None
        return self._pieces[at][2]

    def line(self, number: int) -> RoundResult | None:
        """The round or step that stands on line *number*."""
        found = self.lines.get(number)
        return found[0].rounds[found[1]] if found else None


def place(finding: Finding, places: Places) -> Finding:
    """The finding with the pattern, piece and round in which it stands."""
    number = finding.span.line
    pattern = places.pattern(number)
    if pattern is None:
        return finding
    piece = places.piece(number, pattern)
    line = places.line(number)
    in_piece = piece is not None and (line is not None or number == piece.line)
    return finding.with_(
        pattern=finding.pattern or pattern.title or None,
        piece=finding.piece or (piece.name if piece is not None and in_piece else None),
        round=finding.round if finding.round is not None else (line.first if line else None),
    )


def settle_marks(findings: list[Finding], places: Places) -> None:
    """A mark never closed is a warning, not an error, where the round still agrees with both neighbours."""
    for index, finding in enumerate(findings):
        if finding.rule != "unbalanced-mark" or "never closed" not in finding.message:
            continue
        found = places.lines.get(finding.span.line)
        if found is not None and _agrees(*found):
            findings[index] = finding.with_(severity=Severity.WARNING)


def _agrees(piece: PieceResult, at: int) -> bool:
    following = piece.rounds[at + 1] if at + 1 < len(piece.rounds) else None
    if piece.rounds[at].status is not Status.CHECKED:
        return False
    return following is None or following.status in (Status.CHECKED, Status.COUNTED)


def settle_doubles(findings: list[Finding]) -> None:
    """No edit is sure in a round that stands twice: the mending may be to take the line out."""
    doubled = {finding.span.line for finding in findings if finding.rule == "round-twice"}
    for index, finding in enumerate(findings):
        if finding.sure and finding.span.line in doubled:
            findings[index] = finding.with_(sure=False)


def settle_statuses(result: FileResult) -> None:
    """A round on which an error stands is a mismatch, unless it could not be read or is on trust."""
    errors = {
        finding.span.line
        for finding in result.findings
        if finding.severity is Severity.ERROR and finding.excused is None and finding.rule not in _NOT_OF_A_ROUND
    }
    for pattern in result.patterns:
        for line in pattern.rounds:
            if line.status not in (Status.CHECKED, Status.COUNTED):
                continue
            if any(part.number in errors for part in line.syntax.statement.lines):
                line.status = Status.MISMATCH

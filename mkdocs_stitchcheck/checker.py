"""The whole way of a text: blocks, patterns, counting, rules, and what is reported of it."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import TypeVar

from .checks import ALL as PATTERN_CHECKS
from .checks.outside import check_prose
from .counting import count_pattern
from .fences import Block, find_blocks, prose_lines, whole_text
from .findings import Finding, Findings, Severity
from .language.patterns import read_patterns
from .language.syntax import Pattern
from .results import FileResult, PatternResult, PieceResult, RoundResult, Status
from .settings import Settings
from .source import Source, Span
from .triage import settle_file

_DEFAULTS = Settings()
_T = TypeVar("_T")
PLAIN_ENDINGS = (".txt", ".text")


def check_text(text: str, path: str = "<text>", settings: Settings = _DEFAULTS) -> FileResult:
    """Check the Markdown page or, by the ending of *path*, plain text pattern *text*.

    Never raises for anything a writer may have typed; a fault of this program is a ``checker-fault`` finding.
    """
    source = Source(text, path)
    findings = Findings()
    plain = path.lower().endswith(PLAIN_ENDINGS)
    result = FileResult(path)
    blocks = _guarded(lambda: _blocks(source, findings), [], Span(1, 1, 1, 1), findings)
    patterns = _guarded(lambda: _patterns(blocks, findings, settings, plain), [], Span(1, 1, 1, 1), findings)
    prose = _guarded(lambda: _prose(source), "", Span(1, 1, 1, 1), findings)
    for pattern in patterns:
        pattern.prose = prose
        counted = _count(pattern, findings)
        result.patterns.append(counted)
    _set_ends(result.patterns, blocks)
    _check_prose(source, result, findings)
    result.findings = [_placed(finding, result.patterns) for finding in findings.items]
    _settle_marks(result)
    settle_file(result, settings)
    _set_statuses(result)
    return result


def check_file(path: str | os.PathLike[str], settings: Settings = _DEFAULTS) -> FileResult:
    """Check the file at *path*. Raises OSError where it can't be read; bytes that are no UTF-8 are a finding."""
    from .files import read_file
    from .hosts.checking import check_written

    return check_written(read_file(os.fspath(path)), os.fspath(path), settings)


def _blocks(source: Source, findings: Findings) -> list[Block]:
    if source.path.lower().endswith(PLAIN_ENDINGS):
        return [whole_text(source)]
    return find_blocks(source, findings)


def _prose(source: Source) -> str:
    """The text outside the blocks: what it names counts as used."""
    if source.path.lower().endswith(PLAIN_ENDINGS):
        return ""
    return "\n".join(line.text for line in prose_lines(source))


def _patterns(blocks: Sequence[Block], findings: Findings, settings: Settings, plain: bool) -> list[Pattern]:
    if not any(line.text.strip() for block in blocks for line in block.lines):
        return []
    return read_patterns([block.lines for block in blocks], [block.heading for block in blocks], findings, terms=settings.terms or "", plain=plain)


def _guarded(work: Callable[[], _T], instead: _T, span: Span, findings: Findings) -> _T:
    """What *work* gives; where it fails by a fault of ours, *instead*, and one plain error."""
    try:
        return work()
    except Exception as fault:  # noqa: BLE001 - whatever it is, the other blocks are still reported
        report_fault(fault, span, findings)
        return instead


def report_fault(fault: Exception, span: Span, findings: Findings) -> None:
    """One clear error for a bug of ours at *span*."""
    findings.add(
        "checker-fault", span,
        f"The checker itself failed here ({type(fault).__name__}); the counts from here on are not checked.",
        suggestion="This is a bug of stitchcheck, not of the pattern: please report it with these lines.",
    )  # fmt: skip


def _count(pattern: Pattern, findings: Findings) -> PatternResult:
    span = Span(pattern.line, 1, pattern.line, 1)
    empty = PatternResult(pattern.title, pattern.line, pattern, draft=pattern.draft)
    counted = _guarded(lambda: count_pattern(pattern, findings), empty, span, findings)
    for check in PATTERN_CHECKS:
        _guarded(lambda check=check: check(pattern, counted, findings), None, span, findings)  # type: ignore[misc]
    return counted


def _set_ends(patterns: list[PatternResult], blocks: Sequence[Block]) -> None:
    last = max((block.end_line for block in blocks), default=0)
    for index, pattern in enumerate(patterns):
        pattern.end_line = patterns[index + 1].line - 1 if index + 1 < len(patterns) else last


def _check_prose(source: Source, result: FileResult, findings: Findings) -> None:
    if source.path.lower().endswith(PLAIN_ENDINGS) or not result.patterns:
        return
    names = [piece.name for pattern in result.patterns for piece in pattern.pieces]
    _guarded(lambda: check_prose(source, names, findings), None, Span(1, 1, 1, 1), findings)


def _placed(finding: Finding, patterns: Sequence[PatternResult]) -> Finding:
    """The finding with the pattern, piece and round in which it stands."""
    pattern = next((p for p in reversed(patterns) if p.line <= finding.span.line <= max(p.end_line, p.line)), None)
    if pattern is None:
        return finding
    piece = next((p for p in reversed(pattern.pieces) if p.line <= finding.span.line), None)
    line = _line_at(piece, finding.span.line) if piece else None
    return finding.with_(
        pattern=finding.pattern or pattern.title or None,
        piece=finding.piece or (piece.name if piece and (line or finding.span.line == piece.line) else None),
        round=finding.round if finding.round is not None else (line.first if line else None),
    )


def _line_at(piece: PieceResult, number: int) -> RoundResult | None:
    for line in piece.rounds:
        lines = line.syntax.statement.lines
        if lines[0].number <= number <= lines[-1].number:
            return line
    return None


def _settle_marks(result: FileResult) -> None:
    """A mark never closed is a warning where the round still agrees with both neighbours."""
    for index, finding in enumerate(result.findings):
        if finding.rule != "unbalanced-mark" or "never closed" not in finding.message:
            continue
        for pattern in result.patterns:
            for piece in pattern.pieces:
                line = _line_at(piece, finding.span.line)
                if line is not None and _agrees(piece, line):
                    result.findings[index] = finding.with_(severity=Severity.WARNING)


def _agrees(piece: PieceResult, line: RoundResult) -> bool:
    at = piece.rounds.index(line)
    following = piece.rounds[at + 1] if at + 1 < len(piece.rounds) else None
    right = (Status.CHECKED,)
    return line.status in right and (following is None or following.status in (*right, Status.COUNTED))


def _set_statuses(result: FileResult) -> None:
    """A round on which an error stands is a mismatch, unless it could not be read or is on trust."""
    errors = {f.span.line for f in result.findings if f.severity is Severity.ERROR and f.excused is None and f.rule not in _NOT_OF_A_ROUND}
    for pattern in result.patterns:
        for line in pattern.rounds:
            lines = line.syntax.statement.lines
            if line.status in (Status.CHECKED, Status.COUNTED) and any(part.number in errors for part in lines):
                line.status = Status.MISMATCH


_NOT_OF_A_ROUND = ("round-missing", "piece-twice", "unclosed-block", "unknown-option", "unknown-header")

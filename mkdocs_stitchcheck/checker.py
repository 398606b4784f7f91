"""The whole way of a text: blocks, patterns, counting, rules, and what is reported of it."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import TypeVar

from .checks import ALL as PATTERN_CHECKS
from .checks.outside import check_prose
from .checks.readers import check_page_text
from .counting import count_pattern
from .fences import Block, find_blocks, prose_lines, whole_text
from .files import Written, read_file
from .findings import Findings
from .language.patterns import read_patterns
from .language.syntax import Pattern
from .results import FileResult, PatternResult
from .settings import Settings
from .source import Source, Span
from .triage import settle, settle_file
from .whereabouts import Places, place, settle_doubles, settle_marks, settle_statuses

_DEFAULTS = Settings()
_T = TypeVar("_T")
PLAIN_ENDINGS = (".txt",)


def check_text(text: str, path: str = "<text>", settings: Settings = _DEFAULTS) -> FileResult:
    """Check the Markdown page or, by the ending of *path*, plain text pattern *text*.

    Never raises for anything a writer may have typed; a fault of this program is a ``checker-fault`` finding.
    """
    source = Source(text, path)
    findings = Findings()
    plain = path.lower().endswith(PLAIN_ENDINGS)
    result = FileResult(path)
    top = Span(1, 1, 1, 1)
    no_blocks: list[Block] = []
    no_patterns: list[Pattern] = []
    blocks = _guarded(lambda: _blocks(source, findings), no_blocks, top, findings)
    patterns = _guarded(lambda: _patterns(blocks, findings, settings, plain), no_patterns, top, findings)
    prose = _guarded(lambda: _prose(source), "", top, findings)
    for pattern in patterns:
        pattern.prose = prose
        counted = _count(pattern, findings)
        result.patterns.append(counted)
    _set_ends(result.patterns, blocks)
    _check_prose(source, result, findings)
    places = Places(result.patterns)
    result.findings = [place(finding, places) for finding in findings.items]
    settle_marks(result.findings, places)
    settle_doubles(result.findings)
    settle_file(result, settings)
    settle_statuses(result)
    return result


def check_file(path: str | os.PathLike[str], settings: Settings = _DEFAULTS) -> FileResult:
    """Check the file at *path*. Raises OSError where it can't be read; bytes that are no UTF-8 are a finding."""
    return check_written(read_file(os.fspath(path)), os.fspath(path), settings)


def check_written(written: Written, path: str, settings: Settings = _DEFAULTS) -> FileResult:
    """Check a file's text under the name *path*. Never raises: a fault of this program is one finding."""
    try:
        # What comes in by the pipe has no name that tells; without a fence it is a plain pattern.
        as_plain = path == "<stdin>" and not any(fence in written.text for fence in ("```", "~~~"))
        result = check_text(written.text, path + ".txt" if as_plain else path, settings)
    except Exception as fault:  # noqa: BLE001 - a bug of ours is one clear finding, never a traceback
        findings = Findings()
        report_fault(fault, Span(1, 1, 1, 1), findings)
        result = FileResult(path, findings=settle(findings.items, (), settings, path))
    result.path, result.text = path, result.text or written.text
    if written.damage is not None and (result.patterns or result.findings):
        damage = settle([written.damage], (), settings, path)
        result.findings = sorted([*damage, *result.findings], key=lambda finding: finding.span)
    return result


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
    headings = [block.heading for block in blocks]
    return read_patterns([block.lines for block in blocks], headings, findings, terms=settings.terms if settings.terms in ("US", "UK") else "", plain=plain)


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
    trees = [pattern.syntax for pattern in result.patterns]
    _guarded(lambda: check_page_text(source, trees, findings), None, Span(1, 1, 1, 1), findings)

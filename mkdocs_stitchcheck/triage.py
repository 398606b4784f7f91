"""From all that was found to what is reported: severities as set, excuses, drafts, uncleared pages, each place once.

A finding is never lost here but by ``off`` and as the double of another. One that doesn't count any more stays in the
list and says why: ``excused`` holds the writer's reason, ``waits`` is "draft" or "not-yet".
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence

from .findings import Finding, Severity
from .language.syntax import Pattern
from .results import FileResult, PatternResult
from .rules import default_severity
from .settings import Settings
from .source import Span, Statement

# An excuse is for what a writer may know better: not for a bug of ours, and no accident may drop a reader's caution.
_NOT_EXCUSABLE = ("checker-fault", "small-parts", "excuse-unused")


def settle(
    findings: Iterable[Finding], patterns: Sequence[PatternResult], settings: Settings, path: str
) -> list[Finding]:
    """The findings of the file *path* as they are to be reported, in order of place.

    In this order: severities as *settings* say, each (line, column, rule) once, excuses, drafts, ``not_yet``.
    """
    found = _each_once(_with_severities(findings, settings))
    unused = _excuse(found, patterns)
    found = _each_once([*found, *_with_severities(unused, settings)])
    found = [_in_draft(finding, patterns) for finding in found]
    return list(_not_yet(found, settings, path))


def settle_file(result: FileResult, settings: Settings) -> FileResult:
    """Settle the findings of *result* and of its patterns in place, mark a page not yet cleared; returns *result*."""
    result.findings = settle(result.findings, result.patterns, settings, result.path)
    result.not_yet = settings.listed_not_yet(result.path) is not None
    for pattern in result.patterns:
        pattern.findings = [finding for finding in result.findings if pattern_of(finding, result.patterns) is pattern]
    return result


def pattern_of(finding: Finding, patterns: Sequence[PatternResult]) -> PatternResult | None:
    """The pattern on whose lines *finding* stands; None for one outside all of them."""
    within = [pattern for pattern in patterns if pattern.line <= finding.span.line <= pattern.end_line]
    if within:
        return within[-1]
    named = [pattern for pattern in patterns if finding.pattern is not None and pattern.title == finding.pattern]
    return named[0] if len(named) == 1 else None


# --- severities and doubles ---------------------------------------------------------------------------------------


def _with_severities(findings: Iterable[Finding], settings: Settings) -> Iterator[Finding]:
    for finding in findings:
        severity = settings.severity(finding.rule, finding.severity)
        if severity is not Severity.OFF:
            yield finding if severity is finding.severity else finding.with_(severity=severity)


def _each_once(findings: Iterable[Finding]) -> list[Finding]:
    """Each (line, column, rule) once, in order of place. The one with an edit is kept; the first of equals."""
    kept: dict[tuple[int, int, str], Finding] = {}
    for finding in findings:
        place = (finding.span.line, finding.span.column, finding.rule)
        if place not in kept or (finding.edits and not kept[place].edits):
            kept[place] = finding
    return sorted(kept.values(), key=lambda finding: finding.span)


# --- excuses ------------------------------------------------------------------------------------------------------


def _excuse(found: list[Finding], patterns: Sequence[PatternResult]) -> list[Finding]:
    """Mark in *found*, in place, what the writers' excuses cover; gives a finding for each that covers nothing."""
    unused: list[Finding] = []
    found_at = [finding.span.line for finding in found]
    for pattern in patterns:
        excuses = pattern.syntax.excuses
        statements = _statements(pattern.syntax) if excuses else []
        own = {statement.line for statement, _reason in excuses}
        for statement, reason in excuses:
            first, last = _lines_above(statement, statements, found_at, own)
            within = range(bisect_left(found_at, first), bisect_right(found_at, last))
            covered = [index for index in within if _excusable(found[index])]
            for index in covered:
                found[index] = found[index].with_(excused=reason or "no reason given")
            if not covered:
                unused.append(_unused(statement, pattern))
    return unused


def _statements(pattern: Pattern) -> list[tuple[int, int]]:
    """The first and last line of every statement of *pattern*, in order."""
    said: list[Statement] = [line.statement for line in pattern.header.lines]
    for piece in pattern.pieces:
        said.extend([piece.heading] if piece.heading is not None else [])
        said.extend(line.statement for line in piece.lines if line.kind != "excuse")
    return sorted({(statement.lines[0].number, statement.lines[-1].number) for statement in said})


def _lines_above(
    excuse: Statement, statements: list[tuple[int, int]], found_at: list[int], excuse_lines: set[int]
) -> tuple[int, int]:
    """First and last line of what stands just above *excuse*: a statement, or a line that could not be read as one."""
    at = bisect_left(statements, (excuse.line, 0))
    first, last = statements[at - 1] if at else (0, -1)
    unread = bisect_left(found_at, excuse.line) - 1
    while unread >= 0 and found_at[unread] in excuse_lines:
        unread -= 1
    if unread >= 0 and found_at[unread] > last:
        return found_at[unread], found_at[unread]
    return first, last


def _excusable(finding: Finding) -> bool:
    return finding.rule not in _NOT_EXCUSABLE and finding.excused is None


def _unused(statement: Statement, pattern: PatternResult) -> Finding:
    return Finding(
        "excuse-unused",
        default_severity("excuse-unused"),
        statement.span(),
        "Nothing was found in the line above this excuse, so it excuses nothing.",
        "Delete it, or move it to right below the line that it is for.",
        pattern=pattern.title or None,
    )


# --- what waits ---------------------------------------------------------------------------------------------------


def _in_draft(finding: Finding, patterns: Sequence[PatternResult]) -> Finding:
    """All findings of a draft are shown and none fails; so are those between the blocks of a page with drafts only."""
    owner = pattern_of(finding, patterns)
    draft = owner.draft if owner is not None else bool(patterns) and all(pattern.draft for pattern in patterns)
    return finding.with_(waits="draft") if draft else finding


def _not_yet(found: list[Finding], settings: Settings, path: str) -> Iterator[Finding]:
    entry = settings.listed_not_yet(path)
    if entry is None:
        yield from found
        return
    if not any(finding.fails(settings.strict) for finding in found):
        yield from _with_severities([_clean_though_listed(entry)], settings)
    for finding in found:
        yield finding if finding.waits else finding.with_(waits="not-yet")


def _clean_though_listed(entry: str) -> Finding:
    # A page named by itself can be taken off the list; one that comes under a wider entry can't, so it is only said.
    by_itself = not set("*?") & set(entry) and entry.lower().endswith((".md", ".markdown", ".txt"))
    return Finding(
        "excuse-unused",
        default_severity("excuse-unused") if by_itself else Severity.INFO,
        Span(1, 1, 1, 1),
        f"This page is listed under not_yet as {entry!r}, and nothing on it fails any more.",
        "Take it off the list, and its numbers are guarded from now on."
        if by_itself
        else "List the pages that still need it one by one, and this one is guarded from now on.",
    )

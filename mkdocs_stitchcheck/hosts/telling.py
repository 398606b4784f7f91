"""Findings in the log of a site's build."""

from __future__ import annotations

import logging
import shutil
from collections.abc import Iterable, Iterator

from ..findings import Finding, Severity
from ..report import Options, text
from ..report.display import Paint
from ..report.groups import Group, grouped
from .pages import Collection, PlacedFinding, log

# MkDocs indents what it prints by this much; in a terminal it wraps each line for itself, which would part the marks
# of a code frame from their line.
_INDENT = 11 + len("       | ")


def slips(found: Iterable[PlacedFinding], width: int = 100) -> Iterator[tuple[Group, str]]:
    """What was found, one slip after the other, each with its text: place, message, code frame, what mends it."""
    by_source: dict[tuple[str, int], list[PlacedFinding]] = {}
    for one in found:
        by_source.setdefault((one.path, id(one.source)), []).append(one)
    options = Options(width=width)
    for together in by_source.values():
        source = together[0].source
        for group in grouped(one.finding for one in together):
            yield group, text.slip_text(group, source, options)


def level_of(finding: Finding) -> int:
    """How loud a finding is logged.

    MkDocs counts warnings and errors under --strict, so nothing that doesn't fail is as loud. What a writer need not
    act on is seen with ``--verbose``.
    """
    if finding.severity in (Severity.INFO, Severity.CAUTION):
        return logging.DEBUG
    if finding.waits or finding.severity is Severity.ADVICE:
        return logging.INFO
    return logging.ERROR if finding.severity is Severity.ERROR else logging.WARNING


def log_slips(found: Iterable[PlacedFinding], *, quiet: bool = False) -> None:
    """Log what was found, each slip as one record; with *quiet* none is loud enough for --strict to count."""
    for group, said in slips(found, _room()):
        level = max(level_of(finding) for finding in group.findings)
        log.log(min(level, logging.INFO) if quiet else level, "%s", said)


def log_sum(collection: Collection, strict: bool) -> None:
    """Log what waits and one line on everything that was checked, where anything was."""
    files = [file for file in collection.results.values() if file.patterns or file.findings]
    for line in text.waiting(files):
        log.info("%s", line)
    if files:
        log.info("%s", text.summed_up(files, strict, Paint(False)))


def _room() -> int:
    """The columns that a line of a pattern may take so that MkDocs wraps none."""
    return max(40, min(100, shutil.get_terminal_size((100 + _INDENT, 24)).columns - _INDENT))

"""One line a finding, as editors and problem matchers read it."""

from __future__ import annotations

from collections.abc import Sequence

from ..results import FileResult
from . import Options
from .display import one_line


def report(files: Sequence[FileResult], options: Options) -> str:
    """``path:line:column: severity[rule]: message`` for every finding that isn't excused."""
    lines = [
        f"{one_line(file.path)}:{finding.span.line}:{finding.span.column}: "
        f"{finding.severity}[{finding.rule}]: {one_line(finding.message)}\n"
        for file in files
        for finding in file.findings
        if finding.excused is None and (not options.quiet or finding.fails(options.strict))
    ]
    return "".join(lines)

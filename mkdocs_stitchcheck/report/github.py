"""Annotations beside the lines of a pull request, by GitHub's workflow commands.

GitHub shows ten errors, ten warnings and ten notices of a step and drops the others without a word. So errors come
first, what is over stands as plain lines in the log, and the last line says how many there are.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Sequence

from ..findings import Severity
from ..results import FileResult
from . import Options
from .display import one_line
from .groups import Group, grouped

_SHOWN = 10
_LEVELS = ("error", "warning", "notice")


def report(files: Sequence[FileResult], options: Options) -> str:
    """One annotation a slip, as many as GitHub shows; the others as plain lines, and a line with their number."""
    slips = [(file, slip) for file in files for slip in grouped(file.findings)]
    if options.quiet:
        slips = [(file, slip) for file, slip in slips if slip.fails(options.strict)]
    by_level = sorted(slips, key=lambda entry: _LEVELS.index(_level(entry[1])))
    used: Counter[str] = Counter()
    lines: list[str] = []
    over: list[str] = []
    for file, slip in by_level:
        level = _level(slip)
        used[level] += 1
        shown = used[level] <= _SHOWN
        (lines if shown else over).append(_annotation(level, file, slip) if shown else _plain(file, slip))
    if over:
        lines.extend(over)
        more = ", ".join(f"{used[level] - _SHOWN} {level}s" for level in _LEVELS if used[level] > _SHOWN)
        lines.append(f"GitHub shows {_SHOWN} of a kind; {more} more stand in the lines above.")
    return "".join(f"{line}\n" for line in lines)


def _level(slip: Group) -> str:
    if any(finding.waits for finding in slip.findings):
        return "notice"
    return {Severity.ERROR: "error", Severity.WARNING: "warning"}.get(slip.head.severity, "notice")


def _annotation(level: str, file: FileResult, slip: Group) -> str:
    span = slip.head.span
    place = {"file": _path(file.path), "line": span.line}
    if span.line == span.end_line:  # columns over several lines are not taken
        place |= {"col": span.column, "endLine": span.end_line, "endColumn": max(span.end_column, span.column)}
    else:
        place |= {"endLine": span.end_line}
    told = [slip.message, *slip.suggestions, *slip.follows]
    properties = {"title": f"stitchcheck ({slip.rules})", **place}
    written = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    return f"::{level} {written}::{_data(chr(10).join(one_line(text) for text in told))}"


def _plain(file: FileResult, slip: Group) -> str:
    span = slip.head.span
    return f"{_path(file.path)}:{span.line}:{span.column}: {slip.head.severity}[{slip.rules}]: {one_line(slip.message)}"


def _path(path: str) -> str:
    """*path* as seen from the repository."""
    top = os.environ.get("GITHUB_WORKSPACE")
    if top and os.path.isabs(path):
        path = os.path.relpath(path, top)
    return one_line(path.replace("\\", "/"))


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")

"""What was found, for people and for machines: one module an output, all from the same results.

Each module has ``report(files, options) -> str``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module

from ..results import FileResult

FORMATS = {
    "text": "for reading: each finding with its line and the stitches it is about",
    "short": "one line a finding, as editors read it",
    "json": "everything, with every round, for other programs",
    "github": "annotations beside the lines of a pull request",
    "sarif": "SARIF 2.1.0, for code scanning",
    "junit": "JUnit XML: a test case for each pattern",
}


@dataclass(frozen=True, slots=True)
class Options:
    """How to report. ``width`` is the room in columns for a line of a pattern in a code frame."""

    strict: bool = False
    quiet: bool = False
    totals: bool = False
    color: bool = False
    width: int = 100


def report(kind: str, files: Sequence[FileResult], options: Options | None = None) -> str:
    """The findings of *files* in the format *kind*, one of :data:`FORMATS` (KeyError otherwise)."""
    if kind not in FORMATS:
        raise KeyError(kind)
    module = import_module(f".{kind}", __name__)
    text: str = module.report(files, options or Options())
    return text

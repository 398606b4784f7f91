"""Crochet patterns in Markdown, read as typed and checked stitch by stitch.

>>> from mkdocs_stitchcheck import check_text
>>> page = "```crochet\\nRnd 1: 6 sc in magic ring (6)\\nRnd 2: inc x 6 (13)\\n```\\n"
>>> [finding.rule for finding in check_text(page).findings if finding.severity == "error"]
['count-mismatch']
"""

from __future__ import annotations

from typing import TYPE_CHECKING

__version__ = "0.1.0"

__all__ = [
    "Edit", "Estimates", "FileResult", "Finding", "PatternResult", "PieceResult", "Reading", "RoundResult", "Settings",
    "Severity", "Span", "Status", "check_file", "check_text", "estimate", "in_another_yarn",
]  # fmt: skip

if TYPE_CHECKING:
    from .checker import check_file, check_text
    from .estimates.another_yarn import Estimates, estimate, in_another_yarn
    from .findings import Edit, Finding, Severity
    from .results import FileResult, PatternResult, PieceResult, Reading, RoundResult, Status
    from .settings import Settings
    from .source import Span

_HOMES = {
    "checker": ("check_file", "check_text"),
    "estimates.another_yarn": ("Estimates", "estimate", "in_another_yarn"),
    "findings": ("Edit", "Finding", "Severity"),
    "results": ("FileResult", "PatternResult", "PieceResult", "Reading", "RoundResult", "Status"),
    "settings": ("Settings",),
    "source": ("Span",),
}


def __getattr__(name: str) -> object:
    """Public names are fetched when they are first asked for: ``stitchcheck --version`` needs none of them."""
    for module, names in _HOMES.items():
        if name in names:
            from importlib import import_module

            return getattr(import_module(f"{__name__}.{module}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")

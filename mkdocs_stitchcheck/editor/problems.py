"""The findings of a page as an editor marks them."""

from __future__ import annotations

from lsprotocol import types

from ..findings import Finding, Severity
from .page import Page

_WEIGHTS = {
    Severity.ERROR: types.DiagnosticSeverity.Error,
    Severity.WARNING: types.DiagnosticSeverity.Warning,
    Severity.CAUTION: types.DiagnosticSeverity.Information,
    Severity.ADVICE: types.DiagnosticSeverity.Information,
    Severity.INFO: types.DiagnosticSeverity.Hint,
}
_WAITS = {"draft": "a draft: it fails no build", "not-yet": "a page not yet cleared: it fails no build"}


def problems(page: Page) -> list[types.Diagnostic]:
    """Every finding that isn't excused, at its place, in the order of places."""
    return [problem(page, finding) for finding in page.result.findings if finding.excused is None]


def problem(page: Page, finding: Finding) -> types.Diagnostic:
    """One finding; an error that waits (in a draft, on a page not yet cleared) is marked as a warning."""
    weight = _WEIGHTS.get(finding.severity, types.DiagnosticSeverity.Hint)
    said = [finding.message, finding.suggestion, *finding.follows]
    if finding.waits:
        weight = max(weight, types.DiagnosticSeverity.Warning)
        said.append(f"({_WAITS.get(finding.waits, finding.waits)})")
    return types.Diagnostic(
        range=page.range_of(finding.span),
        message="\n".join(sentence for sentence in said if sentence),
        severity=weight,
        code=finding.rule,
        source="stitchcheck",
        related_information=_related(page, finding),
    )


def _related(page: Page, finding: Finding) -> list[types.DiagnosticRelatedInformation] | None:
    also = [
        types.DiagnosticRelatedInformation(types.Location(page.uri, page.range_of(label.span)), label.text)
        for label in finding.also
        if label.text
    ]
    return also or None

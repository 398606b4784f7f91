"""Findings in the page, for the writer who looks at it while writing."""

from __future__ import annotations

from collections.abc import Iterable

from ..findings import Finding, Severity
from .html import Html, el, lines

_WORDS = {
    Severity.ERROR: "Error",
    Severity.WARNING: "Warning",
    Severity.ADVICE: "Advice",
    Severity.INFO: "For your information",
}
SHOWN = tuple(_WORDS)


def one_finding(finding: Finding, path: str = "") -> Html:
    """One finding: what, where, how to mend it, what only follows from it."""
    place = f"{path}:{finding.span.line}:{finding.span.column}" if path else f"line {finding.span.line}"
    kind = _WORDS.get(finding.severity, "Note")
    parts = [
        el("p", el("strong", f"{kind}: "), finding.message, class_="sc-said", dir="auto"),
        el("p", finding.suggestion, dir="auto") if finding.suggestion else None,
        el("p", f"Excused: {finding.excused}", dir="auto") if finding.excused is not None else None,
        el("ul", [el("li", text, dir="auto") for text in finding.follows]) if finding.follows else None,
        el("p", el("code", f"{place} [{finding.rule}]"), class_="sc-place"),
    ]
    severity = "excused" if finding.excused is not None else str(finding.severity)
    return el("div", lines("", parts, ""), class_=f"sc-finding sc-{severity}")


def findings_box(findings: Iterable[Finding], path: str = "") -> Html:
    """All *findings* under one another, one a group; empty where there is none to show.

    Findings of one slip share a group: the first speaks for them.
    """
    boxes, groups = [], set()
    for finding in findings:
        if finding.severity not in SHOWN or (finding.group is not None and finding.group in groups):
            continue
        groups.add(finding.group)
        boxes.append(one_finding(finding, path))
    return lines(*boxes)

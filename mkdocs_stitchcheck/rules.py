"""The catalogue of rules: name, default severity, and what a writer is told about each."""

from __future__ import annotations

from .findings import Severity

_BY_SEVERITY = {
    Severity.ERROR: """
        count-mismatch stitches-left-over stitches-run-out repeat-does-not-fit range-length range-changes-count
        round-missing round-twice join-mismatch no-free-loops nothing-to-work-into after-fasten-off
        unknown-round unknown-piece circular-reference piece-twice unknown-stitch two-meanings
        unreadable-line unbalanced-mark unclosed-block unknown-option unknown-header header-twice bad-quantity
        number-out-of-range sizes-disagree mixed-terms checker-fault
    """,
    Severity.WARNING: """
        fence-not-read block-not-shown outside-the-pattern terms-unknown reading-guessed count-missing
        unlisted-color unlisted-material units-disagree eyes-after-closing excuse-unused
    """,
    Severity.ADVICE: """
        unused-color unused-material yarn-short finished-size closed-before-stuffing put-up
    """,
    Severity.INFO: """
        on-trust reading-undecided ruffles cups needs-site style
    """,
    Severity.CAUTION: "small-parts",
}

DEFAULT_SEVERITIES: dict[str, Severity] = {
    rule: severity for severity, names in _BY_SEVERITY.items() for rule in names.split()
}


def default_severity(rule: str) -> Severity:
    """The severity of *rule* where the configuration says nothing. Raises KeyError for a rule that does not exist."""
    return DEFAULT_SEVERITIES[rule]

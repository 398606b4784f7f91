"""The catalogue of rules: name, default severity, and what a writer is told about each."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..findings import Severity

_BY_SEVERITY = {
    Severity.ERROR: """
        count-mismatch stitches-left-over stitches-run-out repeat-does-not-fit range-length range-changes-count
        round-missing round-twice join-mismatch no-free-loops nothing-to-work-into after-fasten-off
        unknown-round unknown-piece circular-reference piece-twice unknown-stitch two-meanings
        unreadable-line unbalanced-mark unclosed-block unknown-option unknown-header header-twice bad-quantity
        number-out-of-range sizes-disagree mixed-terms checker-fault chain-not-there
    """,
    Severity.WARNING: """
        fence-not-read block-not-shown outside-the-pattern terms-unknown reading-guessed count-missing
        unlisted-color unlisted-material units-disagree eyes-after-closing excuse-unused
        fastened-off-twice marker-not-placed color-cut too-far-apart seam-mismatch pieces-counted pair-differs
        side-mismatch explained-after-use unlisted-hook multiple-mismatch sizes-out-of-order unknown-photo left-over-text
        corner-differs block-differs beginning-chain
    """,
    Severity.ADVICE: """
        unused-color unused-material yarn-short finished-size closed-before-stuffing put-up
        not-fastened-off too-wide-to-close piece-not-attached how-many join-missing unused-abbreviation
        notion-without-size unused-hook gauge-unusual length-disagrees picture-without-words color-alone another-name
    """,
    Severity.INFO: """
        on-trust reading-undecided ruffles cups needs-site style
        undefined-abbreviation left-unsaid level-unknown count-left-out long-run unspoken-mark link-without-words
        word-twice
    """,
    Severity.CAUTION: "small-parts",
}

DEFAULT_SEVERITIES: dict[str, Severity] = {
    rule: severity for severity, names in _BY_SEVERITY.items() for rule in names.split()
}


def default_severity(rule: str) -> Severity:
    """The severity of *rule* where the configuration says nothing. Raises KeyError for a rule that does not exist."""
    return DEFAULT_SEVERITIES[rule]


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule as it is explained to a writer: what it says, why it matters, a block that breaks it and the same mended.

    ``example`` and ``instead`` are pattern lines, or a piece of a Markdown page where the rule is about the page; the
    tests check that the first is reported and the second is not. ``off`` says how to live with it.
    """

    name: str
    severity: Severity
    what: str
    why: str
    example: str
    instead: str
    off: str


_OFF_PLACE = 'For one place: write ">> right as written: your reason" on the line below it. '


def off_everywhere(name: str) -> str:
    """How the rule *name* is switched off for all pages."""
    site, project = f"severities: {{{name}: off}}", f'severities = {{{name} = "off"}}'
    return f"For all pages: {site} in mkdocs.yml, {project} in pyproject.toml."


def describe(name: str, *, what: str, why: str, example: str, instead: str, off: str = "") -> Rule:
    """A :class:`Rule` with its default severity; without *off* it says the usual ways to switch it off."""
    return Rule(
        name,
        DEFAULT_SEVERITIES[name],
        _flow(what),
        _flow(why),
        _block(example),
        _block(instead),
        off or _OFF_PLACE + off_everywhere(name),
    )


def _block(text: str) -> str:
    from textwrap import dedent  # only ``explain`` asks for texts; a check needs none

    return dedent(text).strip("\n")


def _flow(text: str) -> str:
    return " ".join(text.split())


@cache
def catalogue() -> dict[str, Rule]:
    """Every rule with its explanation, by name, in the order of the families. Their texts are read only when asked."""
    from . import assembly, blocks, counts, details, materials, order, page, places, readers, readings, rounds, words

    families = (counts, rounds, places, order, assembly, words, blocks, page, readings, materials, details, readers)
    return {rule.name: rule for family in families for rule in family.RULES}

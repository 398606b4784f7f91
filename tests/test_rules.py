"""The explanations of rules: complete, in plain words, and true of the checker."""

from __future__ import annotations

import re

import pytest

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.rules import DEFAULT_SEVERITIES, Rule, catalogue, default_severity

RULES = catalogue()

# Words of the workshop that no message may hold; "uses" and "makes" as nouns of it, not as what a maker does.
WORKSHOP = re.compile(
    r"\b(edge|fit|fits|span|token|parse[rd]?|syntax|invalid|diagnostic|uses and makes)\b", re.IGNORECASE
)

# A bug of ours can't be shown by an example.
NOT_BY_EXAMPLE = {"checker-fault"}

# Explained already, and reported when sizes, estimates and the editor's points are there; take off what is.
NOT_REPORTED_YET = {"needs-site", "sizes-disagree"}


def checked(example: str) -> FileResult:
    """The example as a page where it holds a block, else as a plain text pattern."""
    return check_text(example + "\n", "page.md" if "```" in example else "pattern.txt")


def test_every_rule_is_explained() -> None:
    assert set(RULES) == set(DEFAULT_SEVERITIES)
    assert all(rule.severity is default_severity(name) for name, rule in RULES.items())
    with pytest.raises(KeyError):
        default_severity("no-such-rule")


@pytest.mark.parametrize("rule", RULES.values(), ids=RULES)
def test_explanations_are_complete_and_plain(rule: Rule) -> None:
    assert rule.what.endswith((".", '"'))
    assert rule.why.endswith((".", '"'))
    assert rule.off.endswith(".")
    assert rule.name in rule.off or rule.name == "checker-fault"
    told = f"{rule.what} {rule.why}"
    assert WORKSHOP.search(told) is None
    assert len(rule.what) < 300 and len(rule.why) < 300


@pytest.mark.parametrize(
    "rule", [rule for rule in RULES.values() if rule.name not in NOT_BY_EXAMPLE], ids=lambda rule: rule.name
)
def test_the_example_breaks_the_rule_and_the_mended_one_does_not(rule: Rule) -> None:
    broken, mended = checked(rule.example), checked(rule.instead)
    if rule.name in NOT_REPORTED_YET and rule.name not in {finding.rule for finding in broken.findings}:
        pytest.xfail("explained already, not reported yet")
    assert rule.name in {finding.rule for finding in broken.findings}
    assert rule.name not in {finding.rule for finding in mended.findings}
    assert not [finding for finding in mended.findings if finding.severity is Severity.ERROR]
    others = {finding.rule for finding in broken.findings if finding.severity is Severity.ERROR} - {rule.name}
    assert len(others) <= 1, others


@pytest.mark.parametrize("rule", RULES.values(), ids=RULES)
def test_messages_are_plain(rule: Rule) -> None:
    """The messages that the example gives hold no word of the workshop, and are one or two sentences."""
    for finding in checked(rule.example).findings if rule.example else ():
        for told in (finding.message, finding.suggestion, finding.label, *finding.follows):
            assert WORKSHOP.search(told) is None, told
        assert len(finding.message) < 320
        assert finding.message.endswith((".", "?", "!"))

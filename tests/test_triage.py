"""What becomes of findings before they are reported: severities, excuses, drafts, pages not yet cleared."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from report_samples import at, pattern_syntax

from mkdocs_stitchcheck.findings import Edit, Finding, Severity
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.results import FileResult, PatternResult
from mkdocs_stitchcheck.rules import default_severity
from mkdocs_stitchcheck.settings import Settings
from mkdocs_stitchcheck.source import BlockLine, Statement
from mkdocs_stitchcheck.triage import settle, settle_file


def found(rule: str, line: int, column: int = 1, **more: Any) -> Finding:
    return Finding(
        rule, more.pop("severity", default_severity(rule)), at(line, column, column + 1), f"{rule} {line}", **more
    )


def said(*numbers: int) -> Statement:
    return Statement([BlockLine(number, 1, f"line {number}") for number in numbers])


def pattern(
    statements: Sequence[Statement] = (), excuses: Sequence[tuple[Statement, str]] = (), **more: Any
) -> PatternResult:
    read = pattern_syntax(*excuses)
    read.pieces.append(syntax.Piece("", None, lines=[syntax.Line("round", statement) for statement in statements]))
    read.pieces[0].lines += [syntax.Line("excuse", statement) for statement, _reason in excuses]
    return PatternResult(
        more.pop("title", "Wren"), more.pop("line", 1), read, end_line=more.pop("end_line", 99), **more
    )


def settled(findings: list[Finding], *patterns: PatternResult, settings: Settings | None = None) -> list[Finding]:
    return settle(findings, patterns, settings or Settings(), "docs/a.md")


def test_severities_as_set() -> None:
    settings = Settings(severities=(("count-mismatch", Severity.INFO), ("style", Severity.OFF)))
    kept = settled([found("style", 1), found("count-mismatch", 2), found("round-twice", 3)], settings=settings)
    assert [(finding.rule, finding.severity) for finding in kept] == [
        ("count-mismatch", Severity.INFO),
        ("round-twice", Severity.ERROR),
    ]


def test_each_place_and_rule_once_in_order_of_place() -> None:
    edit = (Edit(at(4, 2, 3), "6"),)
    kept = settled(
        [
            found("style", 9),
            found("count-mismatch", 4, 2),
            found("count-mismatch", 4, 2, edits=edit),
            found("round-twice", 4, 2),
            found("count-mismatch", 4, 1),
            found("count-mismatch", 4, 2),
        ]
    )
    assert [(f.rule, f.span.line, f.span.column) for f in kept] == [
        ("count-mismatch", 4, 1),
        ("count-mismatch", 4, 2),
        ("round-twice", 4, 2),
        ("style", 9, 1),
    ]
    assert kept[1].edits == edit


def test_an_excuse_covers_the_statement_above_it() -> None:
    """All lines of the statement, and nothing in the one above that."""
    lines = [said(2), said(3, 4), said(6)]
    findings = [found("count-mismatch", 2), found("count-mismatch", 3), found("style", 4), found("round-twice", 6)]
    kept = settled(findings, pattern(lines, [(said(5), "on purpose")]))
    assert [finding.excused for finding in kept] == [None, "on purpose", "on purpose", None]
    assert [finding.fails() for finding in kept] == [True, False, False, True]


def test_an_excuse_covers_a_line_that_could_not_be_read() -> None:
    kept = settled(
        [found("count-mismatch", 2), found("unreadable-line", 3)], pattern([said(2)], [(said(4), "a word of mine")])
    )
    assert [finding.excused for finding in kept] == [None, "a word of mine"]


def test_two_excuses_below_one_line() -> None:
    kept = settled([found("count-mismatch", 2)], pattern([said(2)], [(said(3), "first"), (said(4), "second")]))
    assert [(finding.rule, finding.excused) for finding in kept] == [
        ("count-mismatch", "first"),
        ("excuse-unused", None),
    ]


def test_an_excuse_that_excuses_nothing() -> None:
    kept = settled([found("count-mismatch", 2)], pattern([said(2), said(3)], [(said(4), "why not")]))
    assert [(finding.rule, finding.span.line, finding.severity) for finding in kept] == [
        ("count-mismatch", 2, Severity.ERROR),
        ("excuse-unused", 4, Severity.WARNING),
    ]
    quiet = Settings(severities=(("excuse-unused", Severity.OFF),))
    assert [f.rule for f in settled([], pattern([said(2)], [(said(3), "?")]), settings=quiet)] == []


def test_an_excuse_at_the_very_top() -> None:
    assert [finding.rule for finding in settled([], pattern([], [(said(1), "?")]))] == ["excuse-unused"]


def test_an_excuse_without_a_reason_still_says_so() -> None:
    [finding] = settled([found("style", 2)], pattern([said(2)], [(said(3), "")]))
    assert finding.excused == "no reason given"


@pytest.mark.parametrize("rule", ["checker-fault", "small-parts"])
def test_what_no_excuse_covers(rule: str) -> None:
    kept = settled([found(rule, 2)], pattern([said(2)], [(said(3), "?")]))
    assert [(finding.rule, finding.excused) for finding in kept] == [(rule, None), ("excuse-unused", None)]


def test_what_was_switched_off_needs_no_excuse() -> None:
    settings = Settings(severities=(("style", Severity.OFF),))
    kept = settled([found("style", 2)], pattern([said(2)], [(said(3), "?")]), settings=settings)
    assert [finding.rule for finding in kept] == ["excuse-unused"]


def test_drafts_show_all_and_fail_nothing() -> None:
    draft = pattern(title="Draft", line=1, end_line=10, draft=True)
    ready = pattern(title="Ready", line=20, end_line=30)
    kept = settled(
        [found("count-mismatch", 5), found("round-twice", 15), found("style", 25), found("round-twice", 26)],
        draft,
        ready,
    )
    assert [(finding.waits, finding.fails()) for finding in kept] == [
        ("draft", False),
        ("", True),
        ("", False),
        ("", True),
    ]
    assert [finding.severity for finding in kept][:2] == [Severity.ERROR, Severity.ERROR]
    assert not any(finding.fails(True) for finding in settled([found("round-twice", 15)], draft))


def test_pages_not_yet_cleared() -> None:
    settings = Settings(not_yet=("docs/*.md",))
    kept = settled([found("count-mismatch", 5)], settings=settings)
    assert [(finding.severity, finding.waits, finding.fails(True)) for finding in kept] == [
        (Severity.ERROR, "not-yet", False)
    ]


@pytest.mark.parametrize(
    ("entry", "severity"), [("docs/a.md", Severity.WARNING), ("docs", Severity.INFO), ("**/*.md", Severity.INFO)]
)
def test_a_clean_page_that_is_still_listed(entry: str, severity: Severity) -> None:
    """A page listed by itself can be taken off; one below a wider entry can't, so that is only said."""
    kept = settled([found("style", 5)], settings=Settings(not_yet=(entry,)))
    assert [(finding.rule, finding.severity, finding.span.line) for finding in kept] == [
        ("excuse-unused", severity, 1),
        ("style", Severity.INFO, 5),
    ]


def test_a_file_settled_as_a_whole() -> None:
    one, two = pattern(title="One", line=1, end_line=10), pattern(title="Two", line=11, end_line=20)
    findings = [found("style", 12), found("round-twice", 3), found("fence-not-read", 40)]
    result = settle_file(FileResult("docs/a.md", [one, two], findings), Settings(not_yet=("docs/b.md",)))
    assert [finding.span.line for finding in result.findings] == [3, 12, 40]
    assert [[finding.span.line for finding in p.findings] for p in result.patterns] == [[3], [12]]
    assert result.fails()
    assert not result.not_yet


def test_many_excuses_take_a_straight_line_of_time() -> None:
    number = 5_000
    statements = [said(2 * line) for line in range(1, number)]
    excuses = [(said(2 * line + 1), "so") for line in range(1, number)]
    findings = [found("style", 2 * line) for line in range(1, number)]
    kept = settled(findings, pattern(statements, excuses, end_line=3 * number))
    assert all(finding.excused == "so" for finding in kept)

"""Runs the specification of behaviour, ``tests/cases/**/*.md``: one test a case.

``STITCHCHECK_REWRITE=1 pytest tests/test_cases.py`` rewrites the expectations that do not hold; read the difference
before you keep it.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from case_files import Case, Expectation, ExpectedFinding, ExpectedLine, all_cases

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.findings import Finding, Severity
from mkdocs_stitchcheck.mending import apply
from mkdocs_stitchcheck.results import FileResult, RoundResult

REWRITE = os.environ.get("STITCHCHECK_REWRITE") == "1"
CASES = all_cases()
QUIET = (Severity.INFO, Severity.CAUTION)
# Words of the workshop, not of a maker. "makes" alone is a maker's word ("Rnd 7 makes 12 stitches").
JARGON = re.compile(r"\b(edge|fits?|spans?|tokens?|parsed?|parser|uses/makes)\b", re.IGNORECASE)

Difference = tuple[str, str]


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_case(case: Case) -> None:
    result = check_text(case.text, case.path)
    differences = [*compare(case, result)]
    if differences and REWRITE:
        rewrite(case, result)
        pytest.skip("expectation rewritten")
    if differences:
        pytest.fail(report(case, differences, result), pytrace=False)


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_messages_are_in_a_makers_words(case: Case) -> None:
    quoted = case.text.lower()
    for finding in check_text(case.text, case.path).findings:
        for word in JARGON.findall(words_of(finding)):
            assert word.lower() in quoted, f"{word!r} in: {finding.message}"


def test_there_are_enough_cases() -> None:
    assert len(CASES) >= 120


def test_a_wrong_expectation_is_noticed() -> None:
    """The driver itself can fail: every kind of expectation, stated wrongly, gives a difference."""
    case = next(case for case in CASES if case.expectation.flags == {"no findings"} and case.expectation.all_of)
    result = check_text(case.text, case.path)
    assert not [*compare(case, result)]
    for wrong in (
        ["error count-mismatch at 1", "no findings"],
        ["all 99 checked"],
        ["piece Nobody: make 9"],
        ["pattern Nothing"],
        ["reading star-repeat: never"],
        ["line 999: checked"],
        ["fails"],
        ["error unknown-stitch at any: zzz"],
    ):
        assert [*compare(replace(case, expected=wrong), result)], wrong


# --- comparing ---------------------------------------------------------------------------------------------------


def compare(case: Case, result: FileResult) -> Iterator[Difference]:
    """What was expected and did not come (-), and what came unexpected (+)."""
    expected = case.expectation
    yield from compare_findings(case, expected, result.findings)
    lines = list(written_lines(result))
    for line in expected.lines:
        found = [one for piece, one in lines if names(line, piece, one, case.offset)]
        if not any(facts_hold(line, one) for one in found):
            yield "-", line.text
            yield from (("+", line_text(line, one)) for one in found)
    yield from compare_lists(expected, result, lines)
    for flag, fails in (("fails", True), ("does not fail", False)):
        if flag in expected.flags and result.fails() is not fails:
            yield "-", flag


def compare_lists(
    expected: Expectation, result: FileResult, lines: list[tuple[str, RoundResult]]
) -> Iterator[Difference]:
    if expected.all_of:
        number, status = expected.all_of
        rounds = [one for _piece, one in lines if one.counts]
        if len(rounds) != number or any(one.status.value != status for one in rounds):
            yield "-", f"all {number} {status}"
            yield "+", ", ".join(f"{one.label} {one.status}" for one in rounds) or "no round"
    pieces = [(piece.name, piece.make) for pattern in result.patterns for piece in pattern.pieces]
    if expected.pieces and expected.pieces != pieces:
        yield from (("-", f"piece {name}: make {make}") for name, make in expected.pieces)
        yield from (("+", f"piece {name}: make {make}") for name, make in pieces)
    titles = [pattern.title for pattern in result.patterns]
    if expected.patterns and expected.patterns != titles:
        yield "-", f"patterns {expected.patterns}"
        yield "+", f"patterns {titles}"
    readings = [one for pattern in result.patterns for one in pattern.readings]
    for question, pieces_of in expected.readings:
        texts = [f"{one.answer}; {one.why}" for one in readings if one.question == question]
        if not any(all(occurs(piece, text) for piece in pieces_of) for text in texts):
            yield "-", f"reading {question}: {' ... '.join(pieces_of)}"
            yield "+", "; ".join(f"reading {one.question}: {one.answer}; {one.why}" for one in readings) or "no reading"


def compare_findings(case: Case, expected: Expectation, findings: list[Finding]) -> Iterator[Difference]:
    left = [finding for finding in findings if finding.excused is None]
    for wanted in expected.findings:
        taken = take(wanted, left, case)
        if taken is None:
            yield "-", wanted.text
            continue
        for finding in taken:
            left.remove(finding)
        if wanted.mended is not None and (mended := mendings(taken, case)) != wanted.mended:
            yield "-", f"{wanted.text}\n      mended: {wanted.mended}"
            yield "+", f"      mended: {mended}"
    for finding in left:
        if not (finding.severity in QUIET and "also infos" in expected.flags):
            yield "+", finding_text(finding, case)


def take(wanted: ExpectedFinding, left: list[Finding], case: Case) -> list[Finding] | None:
    """The findings that answer *wanted*: one, or several of one group."""
    for first in left:
        if not agrees(wanted, wanted.rules[0], first, case):
            continue
        taken = [first]
        for rule in wanted.rules[1:]:
            taken += [
                one
                for one in left
                if agrees(wanted, rule, one, case, column=False) and one.group is not None and one.group == first.group
            ][:1]
        text = " ".join(words_of(one) for one in taken)
        if len(taken) == len(wanted.rules) and all(occurs(piece, text) for piece in wanted.pieces):
            return taken
    return None


def agrees(wanted: ExpectedFinding, rule: str, finding: Finding, case: Case, column: bool = True) -> bool:
    return (
        rule in ("*", finding.rule)
        and wanted.severity in ("*", finding.severity.value)
        and wanted.line in (None, finding.span.line - case.offset)
        and not (column and wanted.column not in (None, finding.span.column))
    )


def words_of(finding: Finding) -> str:
    return " ".join(
        (
            finding.message,
            finding.suggestion,
            finding.label,
            *(label.text for label in finding.also),
            *finding.follows,
        )
    )


def occurs(piece: str, text: str) -> bool:
    """Whether *piece* occurs in *text*, whatever the case; a number only as a whole number."""
    left = r"(?<!\d)" if piece[0].isdigit() else ""
    right = r"(?!\d)" if piece[-1].isdigit() else ""
    return re.search(f"{left}{re.escape(piece)}{right}", text, re.IGNORECASE) is not None


def mendings(findings: list[Finding], case: Case) -> list[str]:
    """The findings' own line as each of their mending edits leaves it; where that is another line, that one."""
    found: list[str] = []
    for finding in findings:
        for edits in finding.alternatives or ((finding.edits,) if finding.edits else ()):
            lines = {edit.span.line for edit in edits}
            line = finding.span.line if finding.span.line in lines or len(lines) > 1 else min(lines)
            text = apply(case.text, edits).splitlines()[line - 1].strip()
            if text not in found:
                found.append(text)
    return found


def written_lines(result: FileResult) -> Iterator[tuple[str, RoundResult]]:
    for pattern in result.patterns:
        for piece in pattern.pieces:
            yield from ((piece.name, line) for line in piece.rounds)


def names(line: ExpectedLine, piece: str, one: RoundResult, offset: int) -> bool:
    label = (one.label.lower(), f"line {one.line - offset}")
    return line.label.lower() in label and line.piece.lower() in ("", piece.lower())


def facts_hold(line: ExpectedLine, one: RoundResult) -> bool:
    return all(facts_of(one)[key] == value for key, value in line.facts.items())


def facts_of(one: RoundResult) -> dict[str, str]:
    facts = {key: "/".join("-" if number is None else str(number) for number in getattr(one, key)) for key in ("uses", "makes", "stated")}
    return facts | {"worked": str(one.worked), "status": one.status.value}


# --- telling and rewriting ---------------------------------------------------------------------------------------


def line_text(line: ExpectedLine, one: RoundResult) -> str:
    facts = facts_of(one)
    told = [facts[key] if key == "status" else f"{key} {facts[key]}" for key in line.facts]
    return f"{f'{line.piece}, ' if line.piece else ''}{line.label}: {' '.join(told)}"


def finding_text(finding: Finding, case: Case) -> str:
    words = " | ".join(filter(None, (finding.message, finding.suggestion)))
    place = f"{finding.span.line - case.offset}:{finding.span.column}"
    return f"{finding.severity} {finding.rule} at {place}: {words}"


def report(case: Case, differences: list[Difference], result: FileResult) -> str:
    body = case.text.split("\n")[case.offset :]
    numbered = "\n".join(f"  {number:3} | {line}" for number, line in enumerate(body, 1) if line)
    told = "\n".join(f"{sign} {text}" for sign, text in differences)
    rounds = "\n".join(
        f"  {piece}, {one.label}: {' '.join(f'{key} {value}' for key, value in facts_of(one).items())}"
        for piece, one in written_lines(result)
    )
    return f"{case.file}:{case.start}: {case.title}\n{numbered}\n\n{told}\n\n{rounds}"


def rewrite(case: Case, result: FileResult) -> None:
    """Put what came in place of what was expected, keeping wording and questions that still hold."""
    lines = case.file.read_text(encoding="utf-8").split("\n")
    # Cases before this one in the file may have been rewritten: look for the fence by its content.
    width = len(case.expected)
    start = next(
        at
        for at in range(len(lines))
        if lines[at : at + width] == case.expected
        and lines[at - 1].endswith("expect")
        and f"## {case.title}" in lines[:at]
    )
    lines[start : start + width] = [*rewritten(case, result)]
    case.file.write_text("\n".join(lines), encoding="utf-8")


def rewritten(case: Case, result: FileResult) -> Iterator[str]:
    expected = case.expectation
    left = [one for one in result.findings if one.excused is None]
    written = list(written_lines(result))
    for line in expected.lines:
        found = [one for piece, one in written if names(line, piece, one, case.offset)]
        yield line_text(line, found[0]) if found else line.text
    for wanted in expected.findings:
        taken = take(wanted, left, case)
        if taken:
            left = [one for one in left if one not in taken]
            yield wanted.text
            if wanted.mended is not None:
                words = mendings(taken, case)
                yield from (f"    {'or' if at else 'mended'}: {text}" for at, text in enumerate(words))
                if not words:
                    yield "    not mended"
    yield from (
        finding_text(one, case) for one in left if not (one.severity in QUIET and "also infos" in expected.flags)
    )
    if not any(one.excused is None for one in result.findings):
        yield "no findings"
    if expected.all_of:
        statuses = {one.status.value for _piece, one in written if one.counts}
        if len(statuses) == 1:
            yield f"all {sum(one.counts for _piece, one in written)} {statuses.pop()}"
    if expected.pieces:
        yield from (f"piece {one.name}: make {one.make}" for pattern in result.patterns for one in pattern.pieces)
    if expected.patterns:
        yield from (f"pattern {pattern.title}" for pattern in result.patterns)
    answers = {one.question: f"{one.answer} ... {one.why}" for pattern in result.patterns for one in pattern.readings}
    yield from (f"reading {question}: {answers.get(question, '')}" for question, _pieces in expected.readings)
    if "also infos" in expected.flags:
        yield "also infos"
    if expected.flags & {"fails", "does not fail"}:
        yield "fails" if result.fails() else "does not fail"

"""What is told of a pattern while it is read: words that nobody knows with all their places, lines that were left out."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Edit, Severity
from ..source import Statement
from .cursor import Unreadable
from .instructions import Instruction
from .other_terms import OTHER_TERMS, likely_terms
from .reading import Reading, Unknown
from .round_labels import find_label


def report(reading: Reading, statement: Statement, read: Instruction) -> None:
    """Tells what could not be read in a line; an unknown word waits until the whole pattern is read."""
    for problem in read.problems:
        if problem.rule in ("unknown-stitch", "unreadable-line"):
            _suspect(reading, statement, problem)
        if problem.rule == "unknown-stitch":
            word = statement.text[problem.start : problem.end].lower()
            if word in reading.unknown:
                reading.unknown[word].places.append(_place_name(statement))
            else:
                reading.unknown[word] = Unknown((statement, problem))
            continue
        add_problem(reading, statement, problem, problem.message)


def _place_name(statement: Statement) -> str:
    found = find_label(statement.words)
    return f"{found.label.text} (line {statement.line})" if found else f"line {statement.line}"


def add_problem(reading: Reading, statement: Statement, problem: Unreadable, message: str) -> None:
    """Tells *problem*, with the edit that mends it where there is one."""
    span = statement.span(problem.start, problem.end)
    edits = (Edit(span, problem.replace),) if problem.replace else ()
    reading.findings.add(problem.rule, span, message, suggestion=problem.suggestion, edits=edits)


def _report_definitions(reading: Reading) -> None:
    """An abbreviations list with a line for each word: told once, since it declares nothing as it stands."""
    if not reading.definitions:
        return
    first = reading.definitions[0]
    words = "; ".join(" ".join(statement.text.split()) for statement in reading.definitions[:3])
    others = len(reading.definitions) - 1
    more = f" So {'does 1 more line' if others == 1 else f'do {others} more lines'}." if others else ""
    start = len(first.text) - len(first.text.lstrip())
    reading.findings.add(
        "unreadable-line", first.span(start, len(first.text.rstrip())),
        f"This looks like a line of an abbreviations list; by itself it declares nothing.{more}",
        suggestion=f"Write the list in one header line, as in Abbreviations: {words}",
    )  # fmt: skip


def _report_feet(reading: Reading) -> None:
    """Page numbers, addresses and copyright lines between rounds: told once, and left out."""
    if reading.feet:
        count = len(reading.feet)
        lines = "This line looks" if count == 1 else f"This and {count - 1} more lines look" if count > 2 else "This and 1 more line look"
        others = ", ".join(str(statement.line) for statement in reading.feet[1:9])
        more = f" (line{'s' if count > 2 else ''} {others}{' and more' if count > 9 else ''})" if others else ""
        reading.findings.add(
            "unreadable-line", reading.feet[0].span(), f"{lines} like the foot of a printed page{more}: left out of the pattern.",
            severity=Severity.INFO, suggestion="Take it out; begin it with > if readers should see it.",
        )  # fmt: skip


def _report_prose(reading: Reading) -> None:
    if reading.prose:
        count = len(reading.prose)
        lines = "1 line is" if count == 1 else f"{count} lines are"
        reading.findings.add(
            "unreadable-line", reading.prose[0].span(), f"{lines} taken as notes: no stitch and no number stands in them.",
            severity=Severity.INFO, suggestion="Begin a note for readers with >.",
        )  # fmt: skip


def _report_unknown(reading: Reading) -> None:
    _hint_at_terms(reading)
    for unknown in reading.unknown.values():
        statement, problem = unknown.first
        others = ""
        if unknown.places:
            shown = ", ".join(unknown.places[:8])
            more = f" and {len(unknown.places) - 8} more places" if len(unknown.places) > 8 else ""
            others = f" It stands also in {shown}{more}."
        add_problem(reading, statement, problem, problem.message + others)


def _hint_at_terms(reading: Reading) -> None:
    """Where most words that could not be read are of one other language, how to declare it; it is never guessed."""
    if not reading.suspects:
        return
    likely = None if reading.pattern.header.terms in OTHER_TERMS else likely_terms(word for word, _span in reading.suspects)
    if likely is not None:
        reading.findings.add(
            "terms-unknown", reading.suspects[0][1], f"What can't be read here looks like words of {likely.name}.",
            suggestion=f"If so, write Terms: {likely.code} at the top.",
        )  # fmt: skip


def _suspect(reading: Reading, statement: Statement, problem: Unreadable) -> None:
    """Keeps the words at a place that could not be read, in case they are of another language."""
    for match in re.finditer(r"[^\W\d_]+", statement.text[problem.start : problem.start + 60]):
        reading.suspects.append((match[0], statement.span(problem.start + match.start(), problem.start + match.end())))


def report_rest(reading: Reading) -> None:
    """What is told once a pattern, when all of it is read."""
    _report_definitions(reading)
    _report_feet(reading)
    _report_prose(reading)
    _report_unknown(reading)

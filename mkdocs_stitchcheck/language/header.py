"""Reads a header line ``Key: value`` into the syntax tree and reports what is wrong with it."""

from __future__ import annotations

from ..findings import Edit, Findings, Severity
from ..source import Statement
from . import header_materials, header_words, syntax
from .keys import COLOR_WORDS, ONCE
from .labels import bare_label, color_key, known_key, near_key, near_word, split_key
from .quantities import BadQuantity

_READERS = header_materials.READERS | header_words.READERS

__all__ = ["color_key", "finish_header", "known_key", "near_key", "read_header", "split_key"]


def read_header(
    statement: Statement, header: syntax.Header, findings: Findings, between_pieces: bool = False
) -> None:
    """Read one header line and add it to *header*. What is broken is reported, the line is kept as written.

    *between_pieces* is true where a piece stands before the line: there what may be said once is changed, not repeated.
    """
    split = split_key(statement.text)
    if split is None:
        return
    label, at = split
    key = known_key(label)
    line = syntax.HeaderLine(
        key or bare_label(label), label, statement.as_written(at).strip(), statement, at, key is not None
    )
    if key is None:
        _unknown(line, findings)
    else:
        twice = not between_pieces and _twice(line, header, findings)
        reader = _READERS.get(key)
        if reader and not twice:  # of two the first holds
            try:
                reader(line, header, findings)
            except BadQuantity as bad:
                _broken(bad, line, findings)
    header.lines.append(line)


def _broken(bad: BadQuantity, line: syntax.HeaderLine, findings: Findings) -> None:
    span = line.statement.span(bad.start, bad.end)
    edits = () if bad.replacement is None else (Edit(span, bad.replacement),)
    findings.add(bad.rule, span, bad.message, suggestion=bad.suggestion, edits=edits)


def _unknown(line: syntax.HeaderLine, findings: Findings) -> None:
    statement = line.statement
    start = len(statement.text) - len(statement.text.lstrip())
    word = near_word(line.label)
    if word is None:
        span = statement.span(start, start + len(line.label))
        findings.add("unknown-header", span, f"{line.label} is no header that I know; it is shown as written.",
                     severity=Severity.INFO)
        return
    tail = bare_label(line.label).rpartition(" ")[2] if word in COLOR_WORDS else ""
    length = len(line.label.split("(")[0].rstrip()) - (len(tail) + 1 if tail else 0)
    span = statement.span(start, start + length)
    written = statement.text[start : start + length]
    shown = word.capitalize() if written[:1].isupper() else word
    findings.add("unknown-header", span, f"{written} is no header that I know; did you mean {shown}?",
                 suggestion=f"Write {shown}.", edits=(Edit(span, shown),))


def _twice(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> bool:
    """Report a second line for what can be said once: a key of that kind, or the same colour. Returns whether so."""
    if line.key == "color":
        declared = header.colors.get(color_key(line.label) or "")
        before = declared.statement if declared else None
        name = line.label.split("(")[0].strip()
    else:
        first = header.first(line.key) if line.key in ONCE else None
        before, name = (first.statement if first else None), line.key.capitalize()
    if before is not None:
        end = line.value_start
        findings.add("header-twice", line.statement.span(0, len(line.statement.text[:end].rstrip())),
                     f"{name} already stands in line {before.line}.", suggestion="Keep one of the two.")
    return before is not None


def finish_header(header: syntax.Header, findings: Findings) -> None:
    """The checks that need all lines: what is read in the pattern's terms, and colours that need a yarn's put-up."""
    header_words.settle(header, findings)

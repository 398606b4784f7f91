"""Lines beside the rounds: notes, excuses, the foot of a page, "Sizes M and L only:", labels that are mistyped."""

from __future__ import annotations

from ..findings import Edit
from ..source import Span
from .reading import Reading
from .round_labels import find_label
from .statements import LONGEST, Cut
from .syntax import Line, RoundLine


def read_sizes(reading: Reading, cut: Cut) -> None:
    """"Sizes M and L only:" on a line of its own: holds until all sizes go on, or the next piece."""
    reading.only = reading.only_in(cut)


def read_foot(reading: Reading, cut: Cut) -> None:
    """Page numbers, addresses and copyright lines: kept, and told once."""
    reading.feet.append(cut.statement)


def read_too_long(reading: Reading, cut: Cut) -> None:
    """A line that is too long to be a round, or holds what nobody typed."""
    line = cut.statement.lines[0]
    span = Span(line.number, line.column, line.number, line.column + 40)
    if len(line.text) > LONGEST:
        said = f"This line is {len(line.text):,} characters long; no round is, so it is not read.", "Cut it into rounds, one a line."
    else:
        said = "A gap, word or number of this line has 200 characters and more; it is not read.", "Look for what got into it."
    reading.findings.add("unreadable-line", span, said[0], suggestion=said[1])


def read_note(reading: Reading, cut: Cut) -> None:
    """A note for readers."""
    reading.add(Line("note", cut.statement), cut)


def read_private(reading: Reading, cut: Cut) -> None:
    """A remark of the designer to herself."""
    reading.add(Line("private", cut.statement), cut)


def read_excuse(reading: Reading, cut: Cut) -> None:
    """"allow ...": findings that are meant to be so."""
    reading.pattern.excuses.append((cut.statement, cut.reason))
    reading.add(Line("excuse", cut.statement), cut)


def read_near_label(reading: Reading, cut: Cut) -> None:
    """A label that is mistyped: "Rmd 4:"."""
    statement = cut.statement
    start = len(statement.text) - len(statement.text.lstrip())
    word = statement.text[start:].split()[0].rstrip("0123456789:.)")
    reading.findings.add(
        "unreadable-line", statement.span(start, start + len(word)),
        f"This line looks like a round, but {word} is no label that I know; did you mean {cut.near}?",
        suggestion=f"Write {cut.near}.", edits=(Edit(statement.span(start, start + len(word)), cut.near),),
    )  # fmt: skip
    _add_unread(reading, cut)


def _add_unread(reading: Reading, cut: Cut) -> None:
    """A line that is probably a round but cannot be read: it stands in the piece as one, unread."""
    text = cut.statement.text
    stripped = text.lstrip()
    word = stripped.split()[0].rstrip("0123456789:.)") if stripped else ""
    mended = text.replace(word, cut.near, 1) if word and cut.near else text
    found = find_label(mended)
    label = found.label if found else None
    reading.add(RoundLine("round", cut.statement, label, None), cut)
    if label is not None and label.last is not None:
        reading.state.last = label.last
        reading.state.rounds += 1


def read_definition(reading: Reading, cut: Cut) -> None:
    """A line of an abbreviations list between the rounds."""
    reading.definitions.append(cut.statement)
    if reading.state.piece is not None:
        reading.add(Line("note", cut.statement), cut)

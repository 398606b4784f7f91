"""Lines without a label: foundations, working steps, rounds whose label is left out, and what cannot be told."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Edit, Severity
from .instructions import Instruction, read_instruction
from .line_beginnings import holds_pattern_words
from .line_signs import in_ring, is_foundation, is_habit, joins_pieces, only_moves, starts_piece, stretches, works
from .piece_headings import next_first
from .problems import report
from .reading import Reading, moment_of
from .statements import Cut
from .syntax import Join, Line, Reference, Ring, RoundLabel, RoundLine, Work
from .told_rounds import repeats_rounds

_FORMS_PATTERN = re.compile(r"^\s*(?:these|the last|last)\s+\w+\s+(?:rows?|rnds?|rounds?)\s+(?:form|make|are|set)\b|^\s*(?:rows?|rnds?|rounds?)\s+\d[\d\s-]*+(?:to\s+\d+\s+)?(?:form|make|set)s?\b", re.IGNORECASE)

# "The head should now measure 12 x 9 cm across after Rnd 9.": no number in it is a count of stitches.
_MEASURED = re.compile(r"\bmeasur(?:e|es|ed|ing)\b", re.IGNORECASE)
_NO_COUNTS = re.compile(
    r"\b(?:rnds?|rounds?|rows?) \d{1,4}\b|\b\d{1,4} ?(?:cm|mm|inch|inches|in)\b|\b\d{1,4}(?= ?(?:x|by|-|\.|,|/) ?\d)",
    re.IGNORECASE,
)


def _only_measures(words: str) -> bool:
    return bool(_MEASURED.search(words)) and not re.search(r"\d", _NO_COUNTS.sub(" ", words))


def read_other(reading: Reading, cut: Cut) -> None:
    """Something without a label: in Making up a step, else perhaps an unlabelled round, else unreadable."""
    piece = reading.state.piece
    if piece is not None and piece.making_up:
        read_step(reading, cut)
        return
    text = cut.statement.text
    if _FORMS_PATTERN.search(cut.statement.words):
        reading.add(Line("note", cut.statement), cut)
        return
    if holds_pattern_words(cut.statement.words):
        read = read_instruction(cut.statement, reading.context, 0)
        if repeats_rounds(reading, cut, read):
            return
        if read.steps and not read.problems and only_moves(read.steps):
            _unlabelled(reading, cut, read)
            return
        if read.steps and not read.problems and works(read.steps) and (read.stated or stretches(read.steps)):
            _unlabelled(reading, cut, read)
            return
        if _only_measures(cut.statement.words):
            reading.add(Line("note", cut.statement), cut)
            return
        _unreadable(reading, cut, read)
        return
    if reading.plain:
        reading.prose.append(cut.statement)
        reading.add(Line("note", cut.statement), cut)
        return
    start = len(text) - len(text.lstrip())
    reading.findings.add(
        "unreadable-line", cut.statement.span(start, len(text.rstrip())),
        "This line is taken as a note; begin it with > so that it stands apart from the rounds.",
        severity=Severity.WARNING, suggestion="Put > in front of it.",
        edits=(Edit(cut.statement.span(start, start), "> "),),
    )  # fmt: skip
    reading.add(Line("note", cut.statement), cut)


def _unreadable(reading: Reading, cut: Cut, read: Instruction) -> None:
    text = cut.statement.text
    start = len(text) - len(text.lstrip())
    problem = read.problems[0] if read.problems else None
    at = f" It stops at: {text[problem.start : problem.end]}." if problem and problem.start > start else ""
    reading.findings.add(
        "unreadable-line", cut.statement.span(start, len(text.rstrip())),
        f"I can't tell what this line is: no round label and no working step that I know begins it.{at}",
        suggestion="Give it a label such as Rnd 4:, or begin it with > if it is a note for readers.",
    )  # fmt: skip
    reading.add(Line("note", cut.statement), cut)


def _unlabelled(reading: Reading, cut: Cut, read: Instruction) -> None:
    starts = any(isinstance(step, Ring) for step in read.steps or ()) or in_ring(read.steps or ())
    if starts and reading.state.rounds:
        reading.state.piece = None
    if reading.state.rounds and only_moves(read.steps or ()):
        report(reading, cut.statement, read)
        moved = tuple(Join(s.start, s.end) if isinstance(s, Work) else s for s in read.steps or ())
        reading.add(RoundLine("step", cut.statement, None, moved, read.stated, read.body), cut)
        reading.note_doings(read.steps)
        return
    kind = "foundation" if not reading.state.rounds and (starts or reading.state.piece is None or not reading.state.piece.lines) else "round"
    label = None if kind == "foundation" else RoundLabel(read.body[0], read.body[0], "round", "the round without a label", name="round")
    if label is not None and read.length is not None:
        label.length = read.length
    report(reading, cut.statement, read)
    reading.add(RoundLine(kind, cut.statement, label, read.steps, read.stated, read.body), cut)
    if label is not None:
        reading.number_on(label)
    reading.note_doings(read.steps)


def read_foundation(reading: Reading, cut: Cut) -> None:
    """A line that may be a foundation: chains and rings before the first round, or a step, or a round without label."""
    moment, end = moment_of(cut)
    read = read_instruction(cut.statement, reading.context, 0, end)
    if read.steps is not None and is_habit(cut.statement.text):
        reading.add(Line("note", cut.statement), cut)
        return
    if read.steps is not None and not is_foundation(read.steps):
        if (reading.state.rounds or joins_pieces(read.steps)) and not starts_piece(read.steps):
            read_step(reading, cut)
        else:
            _unlabelled(reading, cut, read)
        return
    if reading.state.rounds and (reading.state.fastened or not _bridge_follows(reading, cut)):
        reading.state.piece = None
    report(reading, cut.statement, read)
    reading.add(RoundLine("foundation", cut.statement, None, read.steps, read.stated, read.body, moment), cut)
    reading.note_doings(read.steps)


def _bridge_follows(reading: Reading, cut: Cut) -> bool:
    """A chain in mid-piece whose next round goes on with the numbering is no new foundation."""
    first = next_first(reading, cut)
    return first is None or first != 1


def read_step(reading: Reading, cut: Cut) -> None:
    """A working step: it stands between the rounds and has no number."""
    moment, end = moment_of(cut)
    if cut.statement.text.lstrip()[:3].lower() in ("rep", "rpt", "wor", "sam", "as ", "con", "dec", "inc", "at ", "usi", "wit", "in "):
        read = read_instruction(cut.statement, reading.context, 0, end)
        if repeats_rounds(reading, cut, read):
            return
    read = read_instruction(cut.statement, reading.context, 0, end, step=True)
    line = RoundLine("step", cut.statement, None, read.steps, read.stated, read.body, moment)
    line.references = _spread_piece_names(read.references)
    report(reading, cut.statement, read)
    reading.add(line, cut)
    reading.note_doings(read.steps)


def _spread_piece_names(references: tuple[Reference, ...]) -> tuple[Reference, ...]:
    """"over Rnds 1 to 3 of the Body, the flippers between Rnds 11 and 14": the Body is still meant."""
    piece = ""
    for reference in references:
        if reference.piece:
            piece = reference.piece
        elif piece:
            reference.piece = piece
    return references

"""Rounds told in a sentence without a label: "Rep Rnd 5 three more times", "Work even for 8 rows", "Same as Back"."""

from __future__ import annotations

from .instructions import Instruction
from .line_signs import works
from .problems import report
from .reading import Reading
from .round_labels import LIMIT
from .said_of_rounds import chain_rule, is_mark
from .statements import Cut
from .syntax import Again, Aside, ColorChange, Line, Number, RoundLabel, RoundLine, Shaping, Step, Trust, Until, Work


def said_of_rounds(reading: Reading, cut: Cut) -> bool:
    """A sentence that declares what a chain counts for, a mark across rows, or a piece worked as another."""
    if cut.kind not in ("foundation", "other", "step"):
        return False
    text, piece = cut.statement.words, reading.state.piece
    if (rule := chain_rule(text)) is not None:
        reading.chain_rules[rule[0]] = rule[1]
        reading.add(Line("note", cut.statement), cut)
        return True
    if piece is None or piece.making_up or cut.kind == "foundation":
        return False
    if is_mark(text):
        reading.marks.note(piece.name, reading.state.last or 0)
        reading.add(Line("note", cut.statement), cut)
        return True
    copied = reading.marks.copied(text)
    if copied is None or reading.state.rounds and copied.reference.rounds[0][0] == 1:
        return False
    _copy(reading, cut, copied)
    return True


def _copy(reading: Reading, cut: Cut, again: Again) -> None:
    """The rounds of another piece, numbered on from here."""
    first, last = again.reference.rounds[0]
    done = reading.state.last or 0
    other = reading.named(again.reference.piece)
    labels = [line.label for line in other.lines if isinstance(line, RoundLine) and line.label is not None] if other else []
    kind = labels[-1].kind if labels else reading.kind()
    start, end = done + 1, done + last - first + 1
    word = "Row" if kind == "row" else "Rnd"
    text = f"{word}s {start}-{end}" if end > start else f"{word} {start}"
    label = RoundLabel(again.start, again.start, kind, text, ((start, end),))
    reading.add(RoundLine("round", cut.statement, label, (again,), (), (again.start, again.end)), cut)
    reading.number_on(label)


def repeats_rounds(reading: Reading, cut: Cut, read: Instruction) -> bool:
    """"Rep Rnd 5 three more times." without a label: the rounds that follow, numbered on."""
    steps = [step for step in read.steps or () if not isinstance(step, (Aside, ColorChange))]
    if steps and isinstance(steps[0], Again) and _whole_piece(reading, cut, read, steps):
        return True
    if steps and reading.state.last is not None and not read.problems and _rows_told(reading, cut, read, steps):
        return True
    named = bool(steps) and isinstance(steps[0], Again) and bool(steps[0].reference.piece)
    if not steps or reading.state.last is None and not named:
        return False
    if all(isinstance(step, (Again, Trust)) for step in steps) and any(isinstance(step, Trust) for step in steps):
        _on_trust(reading, cut, read)
        return True
    if not all(isinstance(step, Again) for step in steps):
        return False
    counts = [0] * reading.context.sizes
    for step in steps:
        assert isinstance(step, Again)
        if not step.reference.rounds:
            return False
        once = sum(abs(last - first) + 1 for first, last in step.reference.rounds)
        if step.until is not None and not _times_to(step, once, reading.state.last or 0):
            return False
        times = step.times.values if step.times is not None else (1,)
        for size in range(len(counts)):
            counts[size] += (times[size if len(times) > 1 else 0] or 0) * once
    count = counts[0]
    if not 0 < max(counts) <= LIMIT or min(counts) < 0 or not count and len(counts) == 1:
        return False
    done = reading.state.last or 0
    first, last = done + 1, done + count
    kind = reading.kind()
    text = f"{'Row' if kind == 'row' else 'Rnd'}{'s' if count > 1 else ''} {first}" + (f"-{last}" if count > 1 else "")
    label = RoundLabel(read.body[0], read.body[0], kind, text, ((first, last),))
    if len(counts) > 1:
        at = read.body[0]
        label.written = (Number(at, at, (first,)), Number(at, at, tuple(done + each for each in counts)))
    _add(reading, cut, read, label)
    reading.number_on(label)
    return True


def _times_to(step: Again, once: int, done: int) -> bool:
    """Sets how often a stretch of *once* rounds is worked after *done* until there are so many in all; false if that is uneven."""
    assert step.until is not None
    left = [0 if value is None else value - done for value in step.until.values]
    if min(left) <= 0 or any(rounds % once for rounds in left):
        return False
    step.times = Number(step.until.start, step.until.end, tuple(rounds // once for rounds in left))
    return True


def _add(reading: Reading, cut: Cut, read: Instruction, label: RoundLabel) -> None:
    report(reading, cut.statement, read)
    reading.add(RoundLine("round", cut.statement, label, read.steps, read.stated, read.body), cut)


def _rows_told(reading: Reading, cut: Cut, read: Instruction, steps: list[Step]) -> bool:
    """"Dec 1 st at each end of every 4th row 5 times", "Work even until it measures 20 cm": rows without a label."""
    shaping = next((step for step in steps if isinstance(step, Shaping)), None)
    if shaping is None and read.length is not None and works(tuple(steps)) and all(isinstance(s, Work) for s in steps):
        return _so_many(reading, cut, read, read.length)
    if shaping is None and not any(isinstance(step, Until) for step in steps):
        return False
    kind = reading.kind()
    name = f"the {kind}s that are shaped" if shaping is not None else f"the {kind}s to that length"
    label = RoundLabel(read.body[0], read.body[0], kind, name[:1].upper() + name[1:], name="repeat")
    _add(reading, cut, read, label)
    if shaping is not None and shaping.after is None and reading.state.last is not None:
        reading.state.last += shaping.first + sum(every * times.value for every, times in shaping.phases)
    return True


def _so_many(reading: Reading, cut: Cut, read: Instruction, length: Number) -> bool:
    """"Work in sc for 8 rows.", "Work even for 3 (4, 5) rnds": so many, numbered on."""
    kind = reading.kind()
    label = RoundLabel(read.body[0], read.body[0], kind, f"The next {kind}s", name="next", length=length)
    _add(reading, cut, read, label)
    reading.number_on(label)
    return True


def _on_trust(reading: Reading, cut: Cut, read: Instruction) -> None:
    """"Rep Row 2 until piece measures 20 cm": so many rounds as it takes."""
    label = RoundLabel(read.body[0], read.body[0], reading.kind(), "The repeated rows", name="repeat")
    _add(reading, cut, read, label)


def _whole_piece(reading: Reading, cut: Cut, read: Instruction, steps: list[Step]) -> bool:
    """"Same as Back." as a piece's first line: the piece is worked as that one."""
    again = steps[0]
    assert isinstance(again, Again)
    piece = reading.state.piece
    if piece is None or reading.state.rounds or again.reference.rounds or not again.reference.piece or len(steps) > 1:
        return False
    piece.same_as = again.reference
    reading.add(Line("note", cut.statement), cut)
    return True

"""Lines with a label: "Rnd 5 (B): ...", "Rows 4-7:", "18: (sc, inc) x 6", and the rows a label says besides."""

from __future__ import annotations

from .cursor import Unreadable
from .instructions import read_instruction
from .line_signs import in_ring, starts_piece
from .problems import add_problem, report
from .reading import Reading, moment_of
from .said_of_rounds import Between, mark_behind
from .size_lists import sized_label
from .statements import Cut
from .syntax import Aside, Chain, ColorChange, Join, Loops, Number, Ring, RoundLabel, RoundLine, Stated, Step, Work


def _fill(reading: Reading, label: RoundLabel, line: RoundLine) -> None:
    """"Row 4 and all even rows": the even row before this one is not written."""
    between, last = reading.state.between, reading.state.last
    if between is None or last is None or label.first != last + 2 or not between.fills(last + 1):
        return
    label.numbers = ((last + 1, label.numbers[0][1]), *label.numbers[1:])
    line.unwritten = between.line


def _every_other(reading: Reading, cut: Cut, line: RoundLine) -> None:
    """Keeps a row that is said for every other one."""
    assert cut.label is not None
    label = cut.label.label
    if cut.label.every is None or label.last is None:
        return
    if cut.label.every in ("even", "odd") and (label.last % 2 == 0) != (cut.label.every == "even"):
        reading.findings.add(
            "unreadable-line", cut.statement.span(label.start, label.end),
            f"{label.text} is no {cut.label.every} one, so I can't tell which rows are meant.",
            suggestion=f"Write {'odd' if cut.label.every == 'even' else 'even'}, or the number that is meant.",
        )  # fmt: skip
        line.steps = None
    reading.state.between = Between(line, label.last)


def read_round(reading: Reading, cut: Cut) -> None:
    """A round or row with its label; it may begin a piece, and go on with the numbering."""
    assert cut.label is not None
    try:
        if reading.context.sizes > 1 or cut.label.label.length is not None:
            cut.label = sized_label(cut.statement.words, cut.label, reading.context.sizes, reading.state.lasts)
    except Unreadable as problem:
        add_problem(reading, cut.statement, problem, problem.message)
    label = cut.label.label
    if cut.label.bare and _counts_first(reading, label):
        _count_first(reading, cut)
        return
    if not (cut.sizes or reading.only) and _is_new_piece(reading, label):
        reading.state.piece = None
    moment, end = moment_of(cut)
    mark = mark_behind(cut.statement.words[:end], cut.label.body)
    read = read_instruction(cut.statement, reading.context, cut.label.body, mark if mark is not None else end)
    steps = _head_steps(reading, cut, read.steps)
    line = RoundLine("round", cut.statement, label, steps, read.stated, read.body, moment, read.not_written)
    line.references = read.references
    if read.otherwise is not None:
        line.otherwise = _head_steps(reading, cut, read.otherwise[0]) or (), read.otherwise[1]
    _close_ring(reading, line)
    _says_nothing(reading, cut, line)
    if cut.label.count is not None and not line.stated:
        line.stated = (_label_count(cut, cut.label.count),)
    if read.length is not None:
        label.length = label.length or read.length
    report(reading, cut.statement, read)
    _lengthen(reading, line)
    reading.add(line, cut)
    _fill(reading, label, line)
    reading.number_on(label)
    _every_other(reading, cut, line)
    if mark is not None and reading.state.piece is not None:
        reading.marks.note(reading.state.piece.name, reading.state.last or 0)
    reading.note_doings(steps)


def _lengthen(reading: Reading, line: RoundLine) -> None:
    """"sc in each st around x 4 (15)": four rounds where the count is that of the round before."""
    works = [step for step in line.steps or () if not isinstance(step, Aside)]
    label = line.label
    if label is None or label.length is not None or label.first is None or label.first != label.last or len(works) != 1:
        return
    work = works[0]
    if not isinstance(work, Work) or work.times is None or work.place is None or work.place.kind != "rest" or work.stitch.kind not in ("plain", "post"):
        return
    lines = reading.state.piece.lines if reading.state.piece is not None else []
    before = next((one for one in reversed(lines) if isinstance(one, RoundLine)), None)
    if before is None:
        return
    now, then = (one[-1].number if one else None for one in (line.stated, before.stated))
    if now is not None and then is not None and now.values == then.values:
        label.length, work.times = work.times, None


def _close_ring(reading: Reading, line: RoundLine) -> None:
    """"Ch 4, join." before a round worked "in ring": the chain was closed to a ring."""
    piece = reading.state.piece
    if piece is None or reading.state.rounds or not piece.lines or not in_ring(line.steps or ()):
        return
    before = piece.lines[-1]
    if isinstance(before, RoundLine) and before.kind == "foundation" and before.steps:
        chain = next((step for step in before.steps if isinstance(step, Chain)), None)
        joined = any(isinstance(step, Join) or isinstance(step, Work) and step.stitch.kind == "slip" for step in before.steps)
        if chain is not None and joined:
            before.steps = (Ring(chain.start, before.steps[-1].end, chain.number),)


def _counts_first(reading: Reading, label: RoundLabel) -> bool:
    """"18: (sc, inc) x 6": a bare number that does not go on with the numbering is the count."""
    return label.first is not None and label.first not in (1, (reading.state.last or reading.before or 0) + 1) and len(label.numbers) == 1 and label.first == label.last


def _count_first(reading: Reading, cut: Cut) -> None:
    assert cut.label is not None
    number = cut.label.label.written[0]
    read = read_instruction(cut.statement, reading.context, cut.label.body)
    if reading.state.rounds and (in_ring(read.steps or ()) or starts_piece(read.steps or ())):
        reading.state.piece = None
    label = RoundLabel(number.start, number.end, reading.kind(), f"The round of {number.value}", name="round")
    stated = read.stated or (Stated(number.start, number.end, "total", number),)
    report(reading, cut.statement, read)
    reading.add(RoundLine("round", cut.statement, label, read.steps, stated, read.body), cut)
    reading.state.rounds += 1
    reading.note_doings(read.steps)


def _says_nothing(reading: Reading, cut: Cut, line: RoundLine) -> None:
    """A label without an instruction: "Rnd 2:", or only a count behind it."""
    if line.steps is None or line.steps or line.not_written or line.label is None:
        return
    line.steps = None
    if any(stated.form == "unknown" for stated in line.stated):
        line.not_written = True
        line.stated = ()
        return
    label = line.label
    reading.findings.add(
        "unreadable-line", cut.statement.span(label.start, label.end), f"{label.text} says no stitches to work.",
        suggestion="Write what is worked, or ? with Draft: yes in the header until it is known.",
    )  # fmt: skip


def _label_count(cut: Cut, place: tuple[int, int]) -> Stated:
    text = cut.statement.text[place[0] : place[1]]
    digits = "".join(ch for ch in text if ch.isdigit())
    at = place[0] + text.index(digits)
    number = Number(at, at + len(digits), (int(digits[:9]),))
    return Stated(place[0], place[1], "total", number)


def _head_steps(reading: Reading, cut: Cut, steps: tuple[Step, ...] | None) -> tuple[Step, ...] | None:
    """Colour and loops in the label ("Rnd 5 (B):", "Rnd 7 (BLO):") come before the steps."""
    assert cut.label is not None
    if steps is None:
        return None
    heads: list[Step] = []
    for start, end in cut.label.heads:
        head = read_instruction(cut.statement, reading.context, start, end)
        if head.steps is not None and not head.problems:
            heads.extend(step for step in head.steps if isinstance(step, (ColorChange, Loops)))
    return (*heads, *steps)


def _is_new_piece(reading: Reading, label: RoundLabel) -> bool:
    """Round 1 where the piece already has rounds; not after a side, a section word or "(left side)"."""
    state = reading.state
    if state.piece is None:
        return False
    if state.piece.making_up:
        return label.first == 1
    return label.first == 1 and state.rounds > 0 and not label.section and not label.side and state.last is not None

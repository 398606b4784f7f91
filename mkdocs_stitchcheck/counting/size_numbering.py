"""Round numbers of the larger sizes: "Rnds 2-5 (7, 9)" and then "Rnd 6 (8, 10)", each size without gap or overlap.

The first size is :mod:`.numbering`'s. A number without a list is the writer's for all sizes: it is taken as it stands.
"""

from __future__ import annotations

from ..language import syntax
from . import messages
from .numbering import rejoins
from .program import Programs
from .report import Reporter, label_span
from .working import LARGEST_NUMBER


def check_numbers_of_size(piece: syntax.Piece, size: int, programs: Programs, reporter: Reporter) -> None:
    """Judges the numbers of *piece* in one size."""
    last: int | None = None
    slack = 0
    others = 0  # the highest number of rounds that only other sizes work
    for line in piece.lines:
        if not isinstance(line, syntax.RoundLine):
            continue
        label = line.label
        if line.only is not None and size not in line.only:
            others = max(others, label.last or 0) if label is not None else others
            continue
        if label is None or not label.numbers:
            slack += _rounds(line, piece, size, programs)
            continue
        first, end = _numbers(label, size)
        if first is None or end is None or end < first:
            continue
        sized = any(len(number.values) > 1 for number in label.written)
        if sized and last is not None and not rejoins(line):
            if first > max(last, others) + 1 + slack:
                _report("round-missing", line, piece, reporter, max(last, others) + 1, first - 1)
            elif first <= last:
                _report("round-twice", line, piece, reporter, first, first)
        last, slack = end, LARGEST_NUMBER if any(isinstance(step, syntax.Until) for step in line.steps or ()) else 0


def _numbers(label: syntax.RoundLabel, size: int) -> tuple[int | None, int | None]:
    """The first and last number of a label in one size; None where it is not worked there."""
    if not label.written:
        return label.first, label.last
    first, last = label.written[0], label.written[-1]
    return _of(first, size), _of(last, size)


def _of(number: syntax.Number, size: int) -> int | None:
    return number.values[size if size < len(number.values) else 0]


def _rounds(line: syntax.RoundLine, piece: syntax.Piece, size: int, programs: Programs) -> int:
    if line.label is None and not any(isinstance(step, syntax.Again) for step in line.steps or ()):
        return 0
    if any(isinstance(step, syntax.Until) for step in line.steps or ()):
        return LARGEST_NUMBER
    return programs.of(line, piece, size).rounds


def _report(rule: str, line: syntax.RoundLine, piece: syntax.Piece, reporter: Reporter, first: int, last: int) -> None:
    assert line.label is not None
    word = "Row" if line.label.kind == "row" else "Round"
    if rule == "round-twice":
        said = f"{word} {first} stands twice in {piece.name}: the line before it goes as far."
    elif first == last:
        said = f"{word} {first} is missing: {messages.name_of(line)} comes next in {piece.name}."
    else:
        said = f"{word}s {first} to {last} are missing: {messages.name_of(line)} comes next in {piece.name}."
    reporter.add(rule, label_span(line), said, piece, line)

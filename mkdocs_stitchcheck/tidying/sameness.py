"""Whether two readings say the same making, wherever and however it is written."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import fields
from typing import Any

from ..language.syntax import Aside, Node, Number, Repeat, RoundLabel, RoundLine, Stated
from ..results import FileResult, RoundResult

# How it stands on the page, and not what is worked.
_LOOKS = frozenset(["start", "end", "number_first", "glued", "mark", "text", "written", "statement", "word"])

# "2 sc" read as "sc 2": the question is only asked where a number stands first, and the answer makes no difference.
_NO_QUESTION = ("number-stitch", "2 sc is two stitches")

Facts = tuple[Any, ...]


def making(line: RoundLine, put: Callable[[str], str] = str) -> Facts:
    """What a line says: label, steps, counts, colour and remarks, without places and style.

    *put* is what is done to the words of a remark before they are compared: they may stand in other terms.
    """
    written = line.statement.written

    def words(start: int, end: int) -> str:
        return put(written[start:end])

    label = _label(line.label) if line.label is not None else ()
    steps = tuple(_node(step, words) for step in line.steps) if line.steps is not None else None
    return (line.kind, label, steps, tuple(_stated(one) for one in line.stated), line.moment, line.not_written)


def _label(label: RoundLabel) -> Facts:
    numbers: list[tuple[int, int]] = []
    for first, last in label.numbers:
        if numbers and first == numbers[-1][1] + 1:
            numbers[-1] = (numbers[-1][0], last)
        else:
            numbers.append((first, last))
    length = label.length.values if label.length else None
    return (label.kind, tuple(numbers), length, label.name.lower(), label.side, label.section)


def _stated(stated: Stated) -> Facts:
    parts = tuple((part.number.values, "" if part.kind == "stitch" else part.kind) for part in stated.parts)
    return (stated.form, stated.number.values if stated.number else None, stated.change, parts)


def _node(value: Any, words: Callable[[int, int], str]) -> Any:
    if isinstance(value, Number):
        return value.values
    if isinstance(value, tuple):
        return tuple(_node(entry, words) for entry in value)
    if not isinstance(value, Node):
        return value
    said = {field.name: _node(getattr(value, field.name), words) for field in fields(value) if field.name not in _LOOKS}
    if isinstance(value, Aside):
        said["words"] = words(value.start, value.end)
    if isinstance(value, Repeat) and value.times is not None and value.counting == "more":
        said["counting"], said["times"] = "all", tuple(n if n is None else n + 1 for n in value.times.values)
    if isinstance(value, Repeat) and value.extent == "rest":
        said["counting"] = "all"
    return (type(value).__name__, tuple(said.items()))


def facts(line: RoundResult) -> Facts:
    """What the check knows of a written line."""
    return (
        line.kind, line.first, line.last, line.worked, line.uses, line.makes, line.stated, line.each, line.status,
        line.trust, line.color, line.colors, line.turned, line.stitches,
    )  # fmt: skip


def frame(result: FileResult) -> Facts:
    """What holds for whole patterns: names, pieces, readings, and where their lines stand."""
    return tuple(
        (
            pattern.title,
            pattern.draft,
            tuple(asked for r in pattern.readings if (asked := (r.question, r.answer)) != _NO_QUESTION),
            tuple(
                (piece.name, piece.make, piece.flat, piece.closed, tuple(line.line for line in piece.rounds))
                for piece in pattern.pieces
            ),
        )
        for pattern in result.patterns
    )


def found_on(result: FileResult) -> dict[int, Counter[Facts]]:
    """What is reported on each line of the file, without columns and wording; not its style, which is to change."""
    told: dict[int, Counter[Facts]] = {}
    for finding in result.findings:
        if finding.rule == "style":
            continue
        kind = (finding.rule, finding.severity, finding.piece, finding.round, finding.excused, finding.waits)
        told.setdefault(finding.span.line, Counter())[kind] += 1
    return told

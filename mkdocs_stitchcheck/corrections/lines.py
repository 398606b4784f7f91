"""The rounds and steps of a piece, each with what it makes, to be compared with those of another state."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from ..language import syntax
from ..language.round_labels import find_moment
from ..results import PieceResult, RoundResult, Status
from ..tidying.sameness import making
from .sequence import sequence

_MOST_ROUNDS = 1_000  # of one written line; a longer range is one entry
_DOINGS = frozenset(("fasten-off", "close", "stuff", "do-not-stuff", "eyes", "flatten", "sew"))
_NUMBER = re.compile(r"\d+(?:[.,/]\d+)*")


@dataclass(frozen=True, slots=True)
class Round:
    """One round: its number (None for a line without), what it makes, and how it is written.

    ``making`` says uses, makes, colours and the stitches in order, or, where the order is not known (``sure`` is False),
    how many of each. ``stated`` is the count, None where none is stated. ``tree`` is the reading of the words.
    """

    number: int | None
    making: Hashable
    sure: bool
    stated: Hashable
    count: str
    label: str
    text: str
    words: str  # the text without its label
    tree: Hashable
    line: RoundResult


@dataclass(frozen=True, slots=True)
class Step:
    """A working step: what kind of doing with which numbers, and its words."""

    making: Hashable
    text: str


def written(line: syntax.Line, start: int = 0) -> str:
    """A line's words, from *start* on, without the mark of the film."""
    text = line.statement.written
    moment = find_moment(line.statement.text)
    return " ".join(text[start : moment[0] if moment else None].split())


def rounds_of(piece: PieceResult) -> list[Round]:
    """Every round, row, foundation and counted step, one entry a round."""
    return [entry for line in piece.rounds for entry in _entries(line)]


def _entries(line: RoundResult) -> Iterator[Round]:
    label = line.syntax.label
    numbers: list[int | None] = []
    for first, last in label.numbers if label is not None else ():
        if last - first < _MOST_ROUNDS:
            numbers += range(first, last + 1)
    stated = tuple((one.form, _alike(one.number.values) if one.number else one.change) for one in line.syntax.stated)
    count = line.syntax.statement.written[line.syntax.stated[0].start : line.syntax.stated[-1].end] if stated else ""
    text, tree = written(line.syntax), making(line.syntax)[2]
    words = written(line.syntax, line.syntax.body[0]).lstrip(":. ") if label is not None else text
    name = " ".join(line.label.split())
    for place, number in enumerate(numbers or [None]):
        uses, makes = line.uses, line.makes
        if place < len(line.each) and len(line.uses) == 1:
            uses, makes = (line.each[place][0],), (line.each[place][1],)
        known, sure = _making(line, uses, makes)
        yield Round(number, known, sure, stated or None, count.strip(" =.:"), name, text, words, tree, line)


def _alike(values: tuple[int | None, ...]) -> tuple[int | None, ...]:
    return values[:1] if len(set(values)) == 1 else values


def _making(
    line: RoundResult, uses: tuple[int | None, ...], makes: tuple[int | None, ...]
) -> tuple[Hashable, bool]:
    if line.status is Status.UNREAD:
        return ("unread", written(line.syntax)), True
    if len(set(zip(uses, makes, strict=True))) == 1:  # the same in every size
        uses, makes = uses[:1], makes[:1]
    orders = tuple(sequence(line.syntax.steps, used, size) for size, used in enumerate(uses))
    if len(set(orders)) == 1:
        orders = orders[:1]
    if all(order is not None for order in orders):
        return (uses, makes, orders, line.color, line.colors), True
    return (uses, makes, frozenset(line.stitches.items()), line.color, line.colors), False


def steps_of(piece: PieceResult, only_numbers: bool) -> list[Step]:
    """The steps that make no stitches: stuffing, eyes, sewing. With *only_numbers* those without numbers are left out,
    and the others told by these alone: their words are of another language."""
    counted = {line.line for line in piece.rounds}
    steps = []
    for line in piece.syntax.lines:
        if line.kind != "step" or line.line in counted or not isinstance(line, syntax.RoundLine):
            continue
        text = written(line)
        numbers = tuple(_NUMBER.findall(text))
        kinds = {step.kind for step in line.steps or () if isinstance(step, syntax.Aside)}
        if not only_numbers:
            steps.append(Step((frozenset(kinds & _DOINGS), numbers), text))
        elif numbers:
            steps.append(Step(tuple(sorted(numbers)), text))
    return steps

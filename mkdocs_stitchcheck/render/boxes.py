"""Boxes to tick, one a round and copy, in groups of five; a long range has a number to count up instead."""

from __future__ import annotations

from ..language import syntax
from .addresses import rounds_of
from .by_size import size_class, sizes_with
from .context import Context
from .html import Html, el, join, lines
from .words import label_text

MOST_COPIES = 4  # beyond these a maker keeps count in another way
MOST_BOXES = 25  # of a line and copy on a page; on paper there is nothing but boxes
_GROUP = 5


def round_word(label: syntax.RoundLabel) -> str:
    """"Row" or "Rnd"."""
    return "Row" if label.kind == "row" else "Rnd"


def _one_box(ctx: Context, name: str, address: str | None) -> Html:
    if ctx.print:
        return el("span", class_="sc-box")
    return el("input", type="checkbox", aria_label=name, id=address)


def _worked(label: syntax.RoundLabel | None) -> int:
    return sum(last - first + 1 for first, last in label.numbers) if label is not None else 0


def _counter(ctx: Context, line: syntax.RoundLine, label: syntax.RoundLabel, copy: int | None) -> list[Html]:
    """How many rounds of a long range are done, as a number; and the addresses of its rounds."""
    number, suffix = max(_worked(label), len(list(rounds_of(label)))), f", copy {copy}" if copy is not None else ""
    name = f"{round_word(label)} {label.first} and on, how many are done{suffix}"
    box = el("input", type="number", min=0, max=number, value=0, aria_label=name, autocomplete="off")
    found = [ctx.addresses.round(line, n) for n in list(rounds_of(label))[1:]] if copy in (None, 1) else []
    return [el("span", box, f" of {number:,}", class_="sc-long"), *(el("span", id=address) for address in found if address)]


def _box_group(ctx: Context, line: syntax.Line, copy: int | None) -> list[Html]:
    """The boxes of a line for one copy of the piece."""
    label = line.label if isinstance(line, syntax.RoundLine) else None
    numbers = list(rounds_of(label))
    suffix = f", copy {copy}" if copy is not None else ""
    if not numbers or label is None or not isinstance(line, syntax.RoundLine):
        name = label_text(line) if isinstance(line, syntax.RoundLine) and label else "Step"
        return [_one_box(ctx, f"{name} done{suffix}", None)]
    if max(_worked(label), len(numbers)) > MOST_BOXES and not ctx.print:
        return _counter(ctx, line, label, copy)
    boxes = []
    for place, n in enumerate(numbers):
        # The row itself bears the first round's address; the first copy's boxes bear those of the others.
        address = ctx.addresses.round(line, n) if place and copy in (None, 1) else None
        box = _one_box(ctx, f"{round_word(label)} {n} done{suffix}", address)
        sizes = sizes_with(label, n)
        boxes.append(el("span", box, class_=size_class(sizes)) if sizes else box)
    if len(boxes) == 1:
        return boxes
    return [el("span", boxes[i : i + _GROUP], class_="sc-five") for i in range(0, len(boxes), _GROUP)]


def boxes(ctx: Context, piece: syntax.Piece, line: syntax.Line) -> tuple[Html, bool]:
    """The tick-off boxes of a line, one a round and copy; and whether they are many."""
    many = _worked(line.label) > 1 if isinstance(line, syntax.RoundLine) else False
    if not 1 < piece.make <= MOST_COPIES:
        return join(_box_group(ctx, line, None)), many
    copies = [
        el("span", el("small", copy), _box_group(ctx, line, copy), class_="sc-copy")
        for copy in range(1, piece.make + 1)
    ]
    return lines(*copies), True

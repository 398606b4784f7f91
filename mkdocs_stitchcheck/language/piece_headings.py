"""Headings that begin a piece, or go on with one: "Ears (make 2)", "Body, continued"; "Same as Back"."""

from __future__ import annotations

from ..findings import Edit
from .headings import Heading, read_heading, same_as
from .near import nearest
from .reading import Reading
from .statements import Cut
from .syntax import Piece, Reference


def read_piece_heading(reading: Reading, cut: Cut) -> None:
    """A heading: the piece that it names begins here or goes on."""
    _begin(reading, read_heading(cut.statement, reading.context.colors), cut)


def _begin(reading: Reading, heading: Heading, cut: Cut) -> None:
    known = reading.named(heading.name)
    if known is not None and (heading.continued or not heading.making_up and _goes_on(reading, cut)):
        reading.state.piece = known
        return
    piece = Piece(heading.name, cut.statement, heading.make, heading.color, making_up=heading.making_up, line=cut.statement.line)
    piece.moment, piece.copies = heading.moment, heading.copies
    if heading.color is None and heading.color_name:
        piece.color = heading.color_name
    if heading.mistyped is not None:
        place = cut.statement.span(*heading.mistyped)
        word = cut.statement.text[heading.mistyped[0] : heading.mistyped[1]]
        reading.findings.add(
            "unreadable-line", place, f"{word} is no word for how many are made; did you mean make?",
            suggestion="Write make.", edits=(Edit(place, "make"),),
        )  # fmt: skip
    if heading.make > 1000:
        reading.findings.add("number-out-of-range", cut.statement.span(), "More than 1,000 of a piece can't be meant.", suggestion="Write how many are made.")
        piece.make = 1
    if known is not None and not heading.making_up:
        reading.findings.add(
            "piece-twice", cut.statement.span(),
            f"There is a piece called {known.name} already, on line {known.line}.",
            suggestion=f"Give this one a name of its own, or write {heading.name}, continued.",
        )  # fmt: skip
    piece.continued = _runs_on(reading, cut)
    reading.open_piece(piece, cut)


def next_first(reading: Reading, cut: Cut) -> int | None:
    """The first number of the next labelled round behind a heading."""
    later = reading.cuts[reading.cuts.index(cut) + 1 :]
    for other in later:
        if other.kind in ("heading", "plain-heading", "foundation"):
            return None
        if other.kind == "round" and other.label is not None:
            return other.label.label.first
    return None


def _goes_on(reading: Reading, cut: Cut) -> bool:
    first = next_first(reading, cut)
    return first is not None and first > 1 and first == (reading.state.last or -1) + 1


def _runs_on(reading: Reading, cut: Cut) -> bool:
    state = reading.state
    return state.piece is not None and not state.fastened and _goes_on(reading, cut)


def link_same(reading: Reading) -> None:
    """"Back: same as front" in a heading: the piece that is meant."""
    for piece in reading.pattern.pieces:
        if piece.heading is not None and (name := same_as(piece.heading.text)):
            near = nearest(name.lower(), [other.name.lower() for other in reading.pattern.pieces])
            if near:
                piece.same_as = Reference(0, 0, (), near)

"""Totals: rounds and stitches of a piece, of all its copies, and of the pattern."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..results import PatternResult, PieceResult, RoundResult, Status
from .by_size import count_columns, each_size, size_class, size_titles
from .context import Context
from .html import Html, el, join, lines
from .materials import part_title


@dataclass(frozen=True, slots=True)
class Total:
    """Rounds, rows and stitches: the counts of all rounds added up, one sum a size.

    ``at_least`` where a line could not be counted.
    """

    rounds: int = 0
    rows: int = 0
    stitches: tuple[int, ...] = ()
    at_least: bool = False

    def times(self, copies: int) -> Total:
        """The same for so many copies."""
        return Total(self.rounds * copies, self.rows * copies, tuple(n * copies for n in self.stitches), self.at_least)

    def __add__(self, other: Total) -> Total:
        width = max(len(self.stitches), len(other.stitches))
        sums = tuple(_of(self.stitches, i) + _of(other.stitches, i) for i in range(width))
        return Total(self.rounds + other.rounds, self.rows + other.rows, sums, self.at_least or other.at_least)

    @property
    def length(self) -> str:
        """"25 rounds", "4 rows", "6 rounds and 2 rows"."""
        parts = [(self.rounds, "round"), (self.rows, "row")]
        return " and ".join(f"{n:,} {word}{'' if n == 1 else 's'}" for n, word in parts if n)

    @property
    def number(self) -> str:
        """"612", "612 (640, 668)", "at least 612"."""
        first, *rest = [f"{n:,}" for n in self.stitches] or ["0"]
        sizes = f" ({', '.join(rest)})" if rest else ""
        return f"{'at least ' if self.at_least else ''}{first}{sizes}"

    @property
    def amount(self) -> str:
        """"612 stitches"."""
        return f"{self.number} {'stitch' if self.stitches == (1,) else 'stitches'}"


def _of(sums: tuple[int, ...], place: int) -> int:
    """The sum for a size; a pattern part without sizes counts for each."""
    return sums[place] if place < len(sums) else sums[0] if sums else 0


def _stitches(line: RoundResult) -> tuple[int, ...]:
    """The stitches of a line, all its rounds, one sum a size."""
    if line.sizes:
        return tuple(sum(_stitches(line.in_size(place))) if line.works_in(place) else 0 for place in range(len(line.sizes)))
    if len(line.each) == line.worked and line.each and len(line.makes) == 1:
        return (sum(makes or 0 for _uses, makes in line.each),)
    return tuple((made or 0) * line.worked for made in line.makes)


def _unknown(line: RoundResult) -> bool:
    return line.counts and (line.status is Status.UNREAD or all(made is None for made in line.makes))


def piece_total(piece: PieceResult) -> Total:
    """What is worked in one copy of a piece. A foundation chain is no stitches."""
    lines = [line for line in piece.rounds if line.kind != "foundation"]
    stitches = [_stitches(line) for line in lines]
    width = max(map(len, stitches), default=0)
    return Total(
        sum(line.worked for line in lines if line.kind == "round"),
        sum(line.worked for line in lines if line.kind == "row"),
        tuple(sum(_of(sums, place) for sums in stitches) for place in range(width)),
        any(map(_unknown, lines)),
    )


def pattern_total(pattern: PatternResult) -> Total:
    """What is worked in the whole pattern, all copies of all pieces."""
    total = Total()
    for piece in pattern.pieces:
        total += piece_total(piece).times(piece.make)
    return total


def piece_line(piece: PieceResult) -> str:
    """One sentence of totals under a piece's table; "" for a piece without rounds."""
    total = piece_total(piece)
    if not total.length:
        return ""
    if not any(total.stitches):
        return f"{total.length}."
    if piece.make == 1:
        return f"{total.length}, {total.amount}."
    return f"{total.length}, {total.amount}; × {piece.make} = {total.times(piece.make).amount}."


def piece_said(piece: PieceResult, pattern: PatternResult) -> Html | str:
    """The sentence of totals under a piece's table, one a size where there are several."""
    if len(pattern.syntax.header.sizes) < 2:
        return piece_line(piece)
    return each_size(pattern, lambda place: piece_line(piece.in_size(place)) or "not worked.")


def totals(pattern: PatternResult, ctx: Context) -> Html | None:
    """The table of pieces: how many of each, rounds and stitches; None for a pattern without rounds."""
    worked = [(piece, piece_total(piece)) for piece in pattern.pieces]
    worked = [(piece, total) for piece, total in worked if total.length and any(total.stitches)]
    if not worked:
        return None
    sized = count_columns(pattern) > 1
    head = [el("th", "Piece", scope="col"), el("th", "Make", scope="col", align="right")]
    titles = ("Rounds", "Stitches")
    head += size_titles(pattern) if sized else [el("th", title, scope="col", align="right") for title in titles]
    rows = [_total_row(piece, total, pattern) for piece, total in worked]
    last = [
        el("th", "In all", scope="row"),
        el("td", sum(piece.make for piece, _ in worked), align="right"),
        *(_sized_cells(pattern, pattern_total) if sized else _cells(pattern_total(pattern))),
    ]
    rows.append(el("tr", lines("", last, ""), class_="sc-sum"))
    table = el(
        "table",
        lines("", el("thead", el("tr", lines("", head, ""))), el("tbody", lines("", rows, "")), ""),
        aria_label="Pieces and their stitches",
    )
    return el("div", lines("", part_title("Pieces and stitches, all copies", ctx), table, ""), class_="sc-part sc-totals")


def _cells(total: Total) -> list[Html]:
    return [el("td", f"{total.rounds + total.rows:,}", align="right"), el("td", total.number, align="right")]


def _sized_cells(pattern: PatternResult, total_of: Callable[[PatternResult], Total]) -> list[Html]:
    """Rounds and stitches of each size, in its column."""
    cells = []
    for place in range(len(pattern.syntax.header.sizes)):
        total = total_of(pattern.in_size(place))
        said = join(el("small", total.length), el("br"), total.amount) if total.length else "–"
        cells.append(el("td", said, align="right", class_=size_class((place,)), data_size=pattern.syntax.header.sizes[place]))
    return cells


def _total_row(piece: PieceResult, total: Total, pattern: PatternResult) -> Html:
    def copies(of: PatternResult) -> Total:
        here = next((one for one in of.pieces if one.syntax is piece.syntax), piece)
        return piece_total(here).times(piece.make)

    sized = count_columns(pattern) > 1
    cells = [
        el("th", piece.name, scope="row", dir="auto"),
        el("td", piece.make, align="right"),
        *(_sized_cells(pattern, copies) if sized else _cells(total.times(piece.make))),
    ]
    return el("tr", lines("", cells, ""))

"""Totals: rounds and stitches of a piece, of all its copies, and of the pattern."""

from __future__ import annotations

from dataclasses import dataclass

from ..results import PatternResult, PieceResult, RoundResult, Status
from .context import Context
from .html import Html, el, lines
from .materials import part_title

_UNCOUNTED = ("ch", "sl st", "sk", "picot")  # chains, slip stitches and skipped places are not counted as stitches


@dataclass(frozen=True, slots=True)
class Total:
    """Rounds, rows and stitches. ``at_least`` where a line could not be counted."""

    rounds: int = 0
    rows: int = 0
    stitches: int = 0
    at_least: bool = False

    def times(self, copies: int) -> Total:
        """The same for so many copies."""
        return Total(self.rounds * copies, self.rows * copies, self.stitches * copies, self.at_least)

    def __add__(self, other: Total) -> Total:
        return Total(
            self.rounds + other.rounds,
            self.rows + other.rows,
            self.stitches + other.stitches,
            self.at_least or other.at_least,
        )

    @property
    def length(self) -> str:
        """"25 rounds", "4 rows", "6 rounds and 2 rows"."""
        parts = [(self.rounds, "round"), (self.rows, "row")]
        return " and ".join(f"{grouped(n)} {word}{'' if n == 1 else 's'}" for n, word in parts if n)

    @property
    def amount(self) -> str:
        """"612 stitches", "at least 612 stitches"."""
        word = "stitch" if self.stitches == 1 else "stitches"
        return f"{'at least ' if self.at_least else ''}{grouped(self.stitches)} {word}"


def grouped(number: int) -> str:
    """A number with a comma at the thousands."""
    return f"{number:,}"


def _unknown(line: RoundResult) -> bool:
    return line.counts and (line.status in (Status.ON_TRUST, Status.UNREAD) or not line.stitches)


def piece_total(piece: PieceResult) -> Total:
    """What is worked in one copy of a piece."""
    stitches = sum(n for (_color, key), n in piece.stitches.items() if key not in _UNCOUNTED)
    return Total(
        sum(line.worked for line in piece.rounds if line.kind == "round"),
        sum(line.worked for line in piece.rounds if line.kind == "row"),
        stitches,
        any(_unknown(line) for line in piece.rounds),
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
    if not total.stitches:
        return f"{total.length}."
    if piece.make == 1:
        return f"{total.length}, {total.amount}."
    return f"{total.length}, {total.amount}; × {piece.make} = {total.times(piece.make).amount}."


def totals(pattern: PatternResult, ctx: Context) -> Html | None:
    """The table of pieces: how many of each, rounds and stitches; None for a pattern without rounds."""
    worked = [(piece, piece_total(piece)) for piece in pattern.pieces]
    worked = [(piece, total) for piece, total in worked if total.length and total.stitches]
    if not worked:
        return None
    head = [
        el("th", "Piece", scope="col"),
        el("th", "Make", scope="col", align="right"),
        el("th", "Rounds", scope="col", align="right"),
        el("th", "Stitches", scope="col", align="right"),
    ]
    rows = [_total_row(piece, total) for piece, total in worked]
    everything = pattern_total(pattern)
    last = [
        el("th", "In all", scope="row"),
        el("td", sum(piece.make for piece, _ in worked), align="right"),
        el("td", grouped(everything.rounds + everything.rows), align="right"),
        el("td", ("at least " if everything.at_least else "") + grouped(everything.stitches), align="right"),
    ]
    rows.append(el("tr", lines("", last, ""), class_="sc-sum"))
    table = el(
        "table",
        lines("", el("thead", el("tr", lines("", head, ""))), el("tbody", lines("", rows, "")), ""),
        aria_label="Pieces and their stitches",
    )
    return el("div", lines("", part_title("Pieces and stitches, all copies", ctx), table, ""), class_="sc-part sc-totals")


def _total_row(piece: PieceResult, total: Total) -> Html:
    all_copies = total.times(piece.make)
    amount = ("at least " if total.at_least else "") + grouped(all_copies.stitches)
    cells = [
        el("th", piece.name, scope="row", dir="auto"),
        el("td", piece.make, align="right"),
        el("td", grouped(all_copies.rounds + all_copies.rows), align="right"),
        el("td", amount, align="right"),
    ]
    return el("tr", lines("", cells, ""))

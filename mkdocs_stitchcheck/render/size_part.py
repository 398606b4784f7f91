"""The sizes that gauge and rounds give, piece by piece, and the stuffing that goes into them."""

from __future__ import annotations

from ..estimates.size import PieceSize, SizeTable, size_table
from ..estimates.stuffing import STUFFING_ERROR, Stuffing, stuffing
from ..estimates.words import measure_number, named_measures, stuffing_words
from ..results import PatternResult
from .by_size import count_columns, size_class, size_titles
from .context import Context
from .html import Html, el, join, lines
from .materials import part_title


def size_part(pattern: PatternResult, ctx: Context) -> Html | None:
    """The table of sizes with the stuffing; one line on what is needed where there is no gauge; None without rounds."""
    if not any(line.counts for line in pattern.rounds):
        return None
    table = size_table(pattern)
    if not any(size.known for size in table.pieces):
        if ctx.print:
            return None
        needed = "; ".join(table.missing or dict.fromkeys(need for size in table.pieces for need in size.missing))
        return _part(ctx, el("p", f"Not estimated. A size needs: {needed}.", dir="auto"))
    shown = _sized_table(table, pattern) if count_columns(pattern) > 1 else _table(table)
    return _part(ctx, shown, el("p", _said(table)), _stuffing(stuffing(pattern, table)))


def _sized_table(table: SizeTable, pattern: PatternResult) -> Html:
    """A row a piece and measure, a column a size."""
    names = pattern.syntax.header.sizes
    head = el("tr", lines("", el("th", "Piece", scope="col"), size_titles(pattern), ""))
    rows = []
    for piece in dict.fromkeys(size.piece for size in table.pieces):
        of_piece = {size.size: size for size in table.pieces if size.piece == piece}
        copies = next(iter(of_piece.values())).make
        said = {name: dict(_both(of_piece[name])) for name in names if name in of_piece}
        for word in dict.fromkeys(word for measures in said.values() for word in measures) or [""]:
            cells = [el("td", said.get(name, {}).get(word, "–"), align="right", class_=size_class((place,)), data_size=name)
                     for place, name in enumerate(names)]
            named = join(el("bdi", piece), f" × {copies}" if copies > 1 else None, f", {word}" if word else None)
            rows.append(el("tr", lines("", el("th", named, scope="row"), cells, "")))
    return el(
        "table", lines("", el("thead", lines("", head, "")), el("tbody", lines("", rows, "")), ""), aria_label="Sizes"
    )


def _both(size: PieceSize) -> list[tuple[str, str]]:
    """The measures of a piece in both units: ("tall", "7 cm (2.8 in)")."""
    return [
        (word, f"{measure_number(cm, size.error)} cm ({measure_number(cm, size.error, 'in')} in)")
        for word, _name, cm in named_measures(size)
    ]


def _part(ctx: Context, *parts: Html | None) -> Html:
    return el("div", lines("", part_title("Sizes", ctx), parts, ""), class_="sc-part sc-totals sc-sizes")


def _table(table: SizeTable) -> Html:
    titles = [el("th", "Piece", scope="col"), el("th", "Size", scope="col")]
    rows = [_row(size) for size in table.pieces]
    return el(
        "table",
        lines("", el("thead", el("tr", lines("", titles, ""))), el("tbody", lines("", rows, "")), ""),
        aria_label="Sizes",
    )


def _row(size: PieceSize) -> Html:
    copies = f" × {size.make}" if size.make > 1 else None
    in_size = f", {size.size}" if size.size else None
    head = el("th", el("bdi", size.piece), in_size, copies, scope="row")
    said = [f"{both} {word}" for word, both in _both(size)] or [f"not known: it needs {'; '.join(size.missing)}"]
    return el("tr", lines("", head, el("td", join([[el("br") if i else None, part] for i, part in enumerate(said)])), ""))


def _said(table: SizeTable) -> str:
    errors = {size.error for size in table.pieces if size.known}
    worst = max(errors)
    least = min(errors)
    off = f"{worst * 100:.0f} %" if worst == least else f"{least * 100:.0f} % where flat, {worst * 100:.0f} % in the round"
    said = f"Each piece by itself, from the gauge and the rounds; it may be off by {off}, more where you stuff harder."
    if table.missing:
        said += f" For the rest it needs: {'; '.join(table.missing)}."
    return said


def _stuffing(found: tuple[Stuffing, ...]) -> Html | None:
    """One sentence a size: how much stuffing, loose, medium and firm, and what is not in it."""
    said = [_stuffing_sentence(one) for one in found if stuffing_words(one)]
    return el("p", el("strong", "Stuffing: "), " ".join(said), class_="sc-stuffing") if said else None


def _stuffing_sentence(one: Stuffing) -> str:
    in_size = f"in {one.size} " if one.size else ""
    said = f"{in_size}{stuffing_words(one)} ({', '.join(one.pieces)}), {STUFFING_ERROR * 100:.0f} % either way."
    if one.asked:
        said += f" The pattern asks for {one.asked}."
    if one.partly or one.unknown:
        said += f" Not in it: {', '.join((*one.partly, *one.unknown))}."
    return said

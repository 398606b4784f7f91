"""A piece as a table: its heading, the rows that stand in this block, and its totals where it ends."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..language import syntax
from ..results import PatternResult
from .by_size import count_columns
from .colors import chip, color_words
from .context import Context
from .film_moment import film_moment
from .findings_box import findings_box
from .html import Html, el, join, lines
from .rows import count_cell, header_row, header_row_between, line_rows
from .totals import piece_line, piece_said
from .words import clean

Entry = syntax.Line | syntax.HeaderLine

_MAKE = re.compile(r"(?:make|work|crochet)?\s*(?:x|×)?\s*\d+\s*(?:x|×|times|in all)?", re.IGNORECASE)
_COLOR = re.compile(r"(?:in\s+)?(?:(?:colou?r|yarn|with)\s+)?", re.IGNORECASE)
_IN_COLORS = re.compile(r"\b(?:\d+|one|two|three|four|five|six) (?:each )?(?:of (?:them|these|each) )?(?:in|of|with|using)\b", re.IGNORECASE)
LEGEND = "A count in [square brackets] is not in the pattern as written: it is worked out from its stitches."


def _remarks(piece: syntax.Piece, colors: dict[str, syntax.Color]) -> list[str]:
    """What the heading's brackets say besides how many to make and in which colour."""
    if piece.heading is None:
        return []
    heading = clean(piece.heading.written)
    inside = heading.partition("(")[2].rpartition(")")[0]
    known = {key.lower() for key in colors} | {color.name.lower() for color in colors.values()}
    kept = []
    for part in re.split(r"[,;]", inside):
        part = part.strip()
        if piece.copies and _IN_COLORS.search(part):
            continue
        bare = _COLOR.sub("", part, count=1).strip().lower()
        if part and not _MAKE.fullmatch(part) and bare not in known and bare != (piece.color or "").lower():
            kept.append(part)
    return kept


def _color_fact(color: str, colors: dict[str, syntax.Color], ctx: Context) -> Html:
    return el("bdi", color_words(color, colors)) if ctx.print else chip(color, colors)


def piece_facts(piece: syntax.Piece, pattern: PatternResult, ctx: Context) -> Html | None:
    """"Make 2 · A slate": how many, which colour, and what else the heading says."""
    colors = pattern.syntax.header.colors
    facts: list[Html] = []
    if piece.make != 1:
        facts.append(el("strong", f"Make {piece.make}"))
    if piece.copies:
        facts += [join([f"{number} in ", _color_fact(color, colors, ctx)]) for color, number in piece.copies]
    elif piece.color:
        facts.append(_color_fact(piece.color, colors, ctx))
    facts += [el("bdi", remark) for remark in _remarks(piece, colors)]
    moment = film_moment(piece.moment, pattern, ctx)
    facts += [moment] if moment is not None else []
    if not facts:
        return None
    return el("p", join([[" · " if i else None, fact] for i, fact in enumerate(facts)]), class_="sc-facts")


def color_after(entry: Entry, ctx: Context) -> str | None:
    """The colour with which the work goes on after a line; None where the line says nothing of it."""
    result = ctx.result(entry) if isinstance(entry, syntax.Line) else None
    return result.colors[-1] if result and result.colors else result.color if result else None


def table(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, entries: Sequence[Entry], label: str
) -> Html | None:
    """The table of these lines of a piece; None where no row comes of them."""
    color = piece.color
    rows: list[Html] = []
    body = {id(entry) for entry in entries}
    for line in piece.lines:
        if id(line) in body:
            break
        color = color_after(line, ctx) or color
    for entry in entries:
        if isinstance(entry, syntax.HeaderLine):
            rows += header_row_between(entry, ctx, pattern)
        else:
            rows += line_rows(ctx, pattern, piece, entry, color)
            color = color_after(entry, ctx) or color
    if not rows:
        return None
    top = el("thead", lines("", header_row(label_kinds(entries), pattern), ""), role="rowgroup")
    sized_table = "sc-sized" if count_columns(pattern) > 1 else None
    return el(
        "table", lines("", top, el("tbody", lines("", rows, ""), role="rowgroup"), ""), role="table", aria_label=label,
        class_=sized_table,
    )


def label_kinds(entries: Sequence[Entry]) -> set[str]:
    """"round", "row": what the labelled lines are."""
    return {e.label.kind for e in entries if isinstance(e, syntax.RoundLine) and e.label is not None}


def has_computed(ctx: Context, entries: Sequence[Entry]) -> bool:
    """Whether one of these lines shows a count that was worked out."""
    return any(
        isinstance(e, syntax.RoundLine) and e.kind == "round" and count_cell(e, ctx.result(e))[1] for e in entries
    )


def piece_part(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, entries: Sequence[Entry], *, first: bool, last: bool,
    said: str = "",
) -> Html:
    """The part of a piece that stands in one block. ``said`` is the Markdown heading above, which is not said twice."""
    parts: list[Html | None] = []
    address = ctx.addresses.piece(piece) if first else None
    same = said.strip().lower() == piece.name.strip().lower()
    if first:
        if not same:
            parts.append(el(f"h{min(max(ctx.options.heading_level, 1), 6)}", piece.name, dir="auto"))
        parts.append(piece_facts(piece, pattern, ctx))
        heading = piece.heading
        if heading is not None:
            parts.append(findings_box(ctx.take_findings(heading.line, heading.lines[-1].number), ctx.file.path))
    else:
        parts.append(el("p", el("bdi", piece.name), ", continued", class_="sc-continued"))
    label = piece.name if first else f"{piece.name}, continued"
    parts.append(table(ctx, pattern, piece, entries, label))
    if has_computed(ctx, entries):
        parts.append(el("p", LEGEND, class_="sc-quiet"))
    result = ctx.piece(piece)
    if last and result is not None and piece_line(result):
        parts.append(el("p", el("bdi", piece.name), ": ", piece_said(result, pattern), class_="sc-total"))
    return el("div", lines("", parts, ""), class_="sc-piece", id=address, data_piece=piece.name)

"""The tables of the printable sheet: boxes at the right, colours in words, "Body, continued" on every further page.

A browser repeats a table's head on each page. The first line of ours says that the piece goes on; on the first page it
is cut off above the edge of its frame (see ``sheet.css``).
"""

from __future__ import annotations

from collections.abc import Callable

from ..language import syntax
from ..results import PatternResult
from .colors import color_words
from .context import Context
from .html import Html, el, join, lines
from .materials import is_color, shown_elsewhere
from .rows import boxes, column_titles, count_cell, line_caution, round_words, spoken_words
from .tables import Entry, color_after, label_kinds
from .words import clean, label_text, note, stated_text, step_text

_LONGEST_NAME = 48
RowMaker = Callable[[Context, PatternResult, syntax.Piece, Entry, str | None], Html | None]


def _continued(piece: syntax.Piece, columns: int) -> Html:
    name = piece.name if len(piece.name) <= _LONGEST_NAME else piece.name[:_LONGEST_NAME].rstrip() + "…"
    words = el("div", el("bdi", name), ", continued")
    return el("tr", el("td", words, colspan=columns), class_="again", aria_hidden="true")


def piece_table(ctx: Context, pattern: PatternResult, piece: syntax.Piece, entries: list[Entry]) -> Html | None:
    """The table of a piece, in four columns or, in large print, in one."""
    maker = _large_row if ctx.large else _row
    rows, color = [], piece.color
    for entry in entries:
        rows.append(maker(ctx, pattern, piece, entry, color))
        color = color_after(entry, ctx) or color
    body = lines(*rows)
    if not body:
        return None
    columns = 1 if ctx.large else 4
    head = [_continued(piece, columns)]
    if not ctx.large:
        head.append(_titles(entries))
    role = "presentation" if ctx.large else None
    cols = None if ctx.large else el("colgroup", [el("col", class_=name) for name in ("rnd", "words", "count", "tick")])
    table = el(
        "table", lines("", cols, el("thead", lines("", head, "")), el("tbody", lines("", body, "")), ""),
        role=role, aria_label=None if ctx.large else piece.name,
    )
    return el("div", table, class_="frame")


def _titles(entries: list[Entry]) -> Html:
    cells = [
        el("th", title, scope="col", class_=kind, colspan=columns if columns > 1 else None)
        for title, kind, columns in column_titles(label_kinds(entries))
    ]
    return el("tr", lines("", cells, ""))


def _colors(ctx: Context, pattern: PatternResult, line: syntax.Line, color: str | None) -> Html | None:
    """"Colour: B cream", where a round does not simply go on in the one before."""
    result = ctx.result(line)
    used = (result.colors or ((result.color,) if result.color else ())) if result else ()
    if not used or used == (color,):
        return None
    names = ", then ".join(color_words(key, pattern.syntax.header.colors) for key in dict.fromkeys(used))
    return el("span", "Colour: ", el("bdi", names), ".", class_="hue")


def _said(ctx: Context, pattern: PatternResult, line: syntax.Line, color: str | None) -> tuple[str, str, list[Html]]:
    """Words, count and additions of a round or step."""
    result = ctx.result(line)
    count = ""
    words = step_text(line)
    if isinstance(line, syntax.RoundLine):
        if line.kind == "round" or line.stated:
            words = round_words(line)
        if line.kind == "round":
            count = count_cell(line, result)[0]
        elif line.stated:
            count = stated_text(line, result)
    more = [_colors(ctx, pattern, line, color), line_caution(ctx, pattern, line)]
    if isinstance(line, syntax.RoundLine):
        more.insert(0, spoken_words(line, pattern, ctx))
    return words, count, [part for part in more if part]


def _between(entry: Entry) -> str | None:
    """The words of a note or of a header line between rounds; None for anything else or nothing to show."""
    if isinstance(entry, syntax.HeaderLine):
        shown = is_color(entry) or not shown_elsewhere(entry)
        return f"{clean(entry.label)}: {clean(entry.value)}" if shown else None
    return note(entry) if entry.kind == "note" else None


def _row(ctx: Context, pattern: PatternResult, piece: syntax.Piece, entry: Entry, color: str | None) -> Html | None:
    if isinstance(entry, syntax.HeaderLine) or entry.kind not in ("round", "foundation", "step"):
        words = _between(entry)
        return el("tr", el("td", words, colspan=4, dir="auto"), class_="note") if words else None
    said, count, more = _said(ctx, pattern, entry, color)
    ticks = el("td", boxes(ctx, piece, entry)[0], class_="tick")
    words_cell = join(said, [[" ", part] for part in more])
    counted = el("td", count, class_="count")
    if entry.kind == "round" and isinstance(entry, syntax.RoundLine):
        label = el("th", label_text(entry), scope="row", class_="rnd", dir="auto")
        return el("tr", lines("", label, el("td", words_cell, class_="words", dir="auto"), counted, ticks, ""))
    wide = el("td", words_cell, class_="words", colspan=2 if count else 3, dir="auto")
    return el("tr", lines("", wide, counted if count else None, ticks, ""), class_="step")


def _large_row(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, entry: Entry, color: str | None
) -> Html | None:
    if isinstance(entry, syntax.HeaderLine) or entry.kind not in ("round", "foundation", "step"):
        words = _between(entry)
        return el("tr", el("td", el("p", words, dir="auto")), class_="note") if words else None
    said, count, more = _said(ctx, pattern, entry, color)
    parts: list[Html | None] = []
    if entry.kind == "round" and isinstance(entry, syntax.RoundLine):
        amount = join(el("strong", count), " stitches") if count.isdigit() else el("strong", count) if count else None
        title = join(el("strong", label_text(entry), dir="auto"), ": " if amount else None, amount)
        parts.append(el("p", title, class_="rnd"))
        count = ""
    end = join(" (", el("strong", count), ")") if count else None
    parts.append(el("p", said, end, dir="auto"))
    parts += [el("p", part) for part in more]
    parts.append(el("p", boxes(ctx, piece, entry)[0], class_="tick"))
    return el("tr", el("td", lines("", parts, "")))

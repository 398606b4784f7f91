"""The tables of the printable sheet: boxes at the right, colours in words, "Body, continued" on every further page.

A browser repeats a table's head on each page. The first line of ours says that the piece goes on; on the first page it
is cut off above the edge of its frame (see ``sheet.css``).
"""

from __future__ import annotations

from collections.abc import Callable

from ..language import syntax
from ..results import PatternResult, RoundResult
from .boxes import boxes
from .by_size import classes_of, count_columns, pads, size_class, sized
from .colors import color_words
from .context import Context
from .film_moment import film_moment
from .html import Html, el, join, lines
from .materials import is_color, shown_elsewhere
from .rows import column_titles, count_cell, count_cells, line_caution, one_a_line, round_said, spoken_words
from .tables import Entry, color_after, label_kinds
from .words import clean, label_said, note, stated_text, step_text

_LONGEST_NAME = 48
RowMaker = Callable[[Context, PatternResult, syntax.Piece, Entry, str | None], Html | None]


def _continued(piece: syntax.Piece, pattern: PatternResult, large: bool) -> Html:
    name = piece.name if len(piece.name) <= _LONGEST_NAME else piece.name[:_LONGEST_NAME].rstrip() + "…"
    words = el("div", el("bdi", name), ", continued")
    return el("tr", el("td", words, colspan=None if large else 4), None if large else pads(pattern), class_="again", aria_hidden="true")


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
    counts = count_columns(pattern)
    head = [] if ctx.links else [_continued(piece, pattern, ctx.large)]  # a bound edition names the piece in the head of the page
    if not ctx.large:
        head.append(_titles(entries, pattern))
    role = "presentation" if ctx.large else None
    cols = None if ctx.large else el("colgroup", [el("col", class_=name) for name in cols_of(counts)])
    top = el("thead", lines("", head, "")) if head else None
    table = el(
        "table", lines("", cols, top, el("tbody", lines("", body, "")), ""),
        role=role, aria_label=None if ctx.large else piece.name,
    )
    return el("div", table, class_="frame")


def cols_of(counts: int) -> list[str]:
    """The classes of the columns."""
    return ["rnd", "words", *(["count"] if counts == 1 else [f"count {size_class((place,))}" for place in range(counts)]), "tick"]


def _titles(entries: list[Entry], pattern: PatternResult) -> Html:
    cells: list[Html] = []
    counts = count_columns(pattern)
    for title, kind, columns in column_titles(label_kinds(entries)):
        if kind == "count" and counts > 1:
            names = pattern.syntax.header.sizes
            cells += [el("th", el("bdi", name), scope="col", class_=size_class((place,), "count"))
                      for place, name in enumerate(names)]
        else:
            cells.append(el("th", title, scope="col", class_=kind, colspan=columns if columns > 1 else None))
            cells += pads(pattern, "th") if kind == "words" and columns > 2 else []
    return el("tr", lines("", cells, ""))


def _colors(ctx: Context, pattern: PatternResult, line: syntax.Line, color: str | None) -> Html | None:
    """"Colour: B cream", where a round does not simply go on in the one before."""
    result = ctx.result(line)
    used = (result.colors or ((result.color,) if result.color else ())) if result else ()
    if not used or used == (color,):
        return None
    names = ", then ".join(color_words(key, pattern.syntax.header.colors) for key in dict.fromkeys(used))
    return el("span", "Colour: ", el("bdi", names), ".", class_="hue")


def _said(
    ctx: Context, pattern: PatternResult, line: syntax.Line, color: str | None
) -> tuple[Html | str, str, list[Html]]:
    """Words, count and additions of a round or step."""
    result = ctx.result(line)
    count = ""
    words: Html | str = sized(step_text(line), len(pattern.syntax.header.sizes))
    if isinstance(line, syntax.RoundLine):
        if line.kind == "round" or line.stated:
            words = round_said(line, pattern, result)
        if line.kind == "round":
            count = count_cell(line, result)[0]
        elif line.stated:
            count = stated_text(line, result)
    more = [_colors(ctx, pattern, line, color), line_caution(ctx, pattern, line)]
    if isinstance(line, syntax.RoundLine):
        more.insert(0, spoken_words(line, pattern, ctx))
        more.insert(0, film_moment(line.moment, pattern, ctx) if ctx.links else None)
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
        said = sized(words or "", len(pattern.syntax.header.sizes))
        return el("tr", el("td", said, colspan=4, dir="auto"), pads(pattern), class_="note") if words else None
    said, count, more = _said(ctx, pattern, entry, color)
    result = ctx.result(entry)
    only = classes_of(result, entry, len(pattern.syntax.header.sizes)) if isinstance(entry, syntax.RoundLine) else None
    ticks = el("td", boxes(ctx, piece, entry)[0], class_="tick")
    words_cell = join(said, [[" ", part] for part in more])
    counted = _counted(entry, result, pattern)
    if entry.kind == "round" and isinstance(entry, syntax.RoundLine):
        label = el("th", label_said(entry, pattern), scope="row", class_="rnd", dir="auto")
        cells = lines("", label, el("td", words_cell, class_="words", dir="auto"), counted, ticks, "")
        return el("tr", cells, class_=only)
    wide = el("td", words_cell, class_="words", colspan=2 if count else 3, dir="auto")
    return el("tr", lines("", wide, counted if count else pads(pattern), ticks, ""), class_=f"step {only}" if only else "step")


def _counted(entry: syntax.Line, result: RoundResult | None, pattern: PatternResult) -> list[Html]:
    """The cells of a line's counts, one a size."""
    if not isinstance(entry, syntax.RoundLine):
        return [el("td", class_="count")]
    cells = count_cells(entry, result, pattern)
    return [el("td", one_a_line(count), class_=f"count {of}" if of else "count") for count, _computed, of in cells]


def _large_row(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, entry: Entry, color: str | None
) -> Html | None:
    if isinstance(entry, syntax.HeaderLine) or entry.kind not in ("round", "foundation", "step"):
        words = _between(entry)
        return el("tr", el("td", el("p", words, dir="auto")), class_="note") if words else None
    said, count, more = _said(ctx, pattern, entry, color)
    only = None
    if isinstance(entry, syntax.RoundLine):
        only = classes_of(ctx.result(entry), entry, len(pattern.syntax.header.sizes))
    parts: list[Html | None] = []
    if entry.kind == "round" and isinstance(entry, syntax.RoundLine):
        shown = sized(count, len(pattern.syntax.header.sizes))
        amount = join(el("strong", shown), " stitches") if count.isdigit() else el("strong", shown) if count else None
        title = join(el("strong", label_said(entry, pattern), dir="auto"), ": " if amount else None, amount)
        parts.append(el("p", title, class_="rnd"))
        count = ""
    end = join(" (", el("strong", count), ")") if count else None
    parts.append(el("p", said, end, dir="auto"))
    parts += [el("p", part) for part in more]
    parts.append(el("p", boxes(ctx, piece, entry)[0], class_="tick"))
    return el("tr", el("td", lines("", parts, "")), class_=only)

"""A block of a page as HTML: the part of the pattern whose lines stand in that block, where the writer put it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from ..language import syntax
from ..results import FileResult, PatternResult
from .abbreviations import abbreviations
from .addresses import Addresses
from .asking import ask
from .by_size import choice, scope_class
from .chart_part import chart_part
from .checked import checked_mark, writers_summary
from .context import Context
from .effort_part import effort_part
from .findings_box import findings_box
from .how_to_read import how_to_read
from .html import Html, el, join, lines, safe_address
from .materials import about, belongs_to_materials, materials
from .options import PageOptions
from .shape_part import shape_part
from .shown import named_parts, names
from .size_part import size_part
from .switching import OTHER, switch_attributes
from .tables import Entry, piece_part
from .templates import tools
from .totals import totals
from .words import clean
from .yarn_part import yarn_table

if TYPE_CHECKING:
    from ..fences import Block

Part = Callable[[PatternResult, Context], Html | None]

def totals_and_effort(pattern: PatternResult, ctx: Context) -> Html | None:
    """The totals of stitches, and what they ask of a maker."""
    return lines(totals(pattern, ctx), effort_part(pattern, ctx)) or None


# What ``Show:`` may name, in the order in which the parts follow the last block where nothing places them.
# Materials stand at the header unless placed.
PARTS: dict[str, Part] = {
    "materials": materials,
    "chart": chart_part,
    "shape": shape_part,
    "size": size_part,
    "rounds": totals_and_effort,
    "yarn": yarn_table,
    "abbreviations": abbreviations,
}


def render_block(
    file: FileResult, block: Block, *, prefix: str = "", show_findings: bool = False,
    options: PageOptions | None = None,
) -> str:
    """The HTML of one block of a page; "" where nothing of it is for readers.

    *prefix* keeps the ids of posts apart that share a page. With *show_findings* each finding stands at its round.
    """
    ctx = Context(file, options or PageOptions(), Addresses(file, prefix), show_findings, shared=bool(prefix))
    numbers = {line.number for line in block.lines}
    parts = [_scoped(_pattern_part(ctx, pattern, numbers, block), file, pattern) for pattern in file.patterns]
    left = ctx.take_findings(block.opening.line, max(block.end_line, *numbers) if numbers else block.end_line)
    rest = findings_box(left, file.path)
    shown = [el("div", "\n", rest, "\n", class_="stitchcheck sc")] if rest else []
    shown += [part for part in parts if part is not None]
    return lines(*shown).text


def _scoped(part: Html | None, file: FileResult, pattern: PatternResult) -> Html | None:
    """A pattern's part with the class by which a chosen size reaches it."""
    scope = scope_class(file.patterns, pattern)
    return el("div", "\n", part, "\n", class_=scope) if part and scope else part


def _pattern_part(ctx: Context, pattern: PatternResult, numbers: set[int], block: Block) -> Html | None:
    """What one pattern has in a block, with its head where it begins and the computed parts where it ends."""
    here = [line for line in pattern.syntax.header.lines if line.statement.line in numbers]
    runs = _runs(pattern, here, numbers)
    if not here and not runs:
        return None
    before, after = _first_and_last(pattern)
    parts: list[Html | None] = []
    said = block.heading or ""
    if before in numbers:
        parts.append(_head(ctx, pattern, said))
    pieces_begin = _pieces_begin(pattern)
    placed = named_parts(pattern)
    if "materials" not in placed and _materials_line(pattern, pieces_begin) in numbers:
        parts.append(materials(pattern, ctx))
    for line in here:
        if line.statement.line < pieces_begin:
            found = ctx.take_findings(line.statement.line, line.statement.lines[-1].number)
            parts.append(findings_box(found, ctx.file.path))
    for piece, entries, first, last in runs:
        parts.append(piece_part(ctx, pattern, piece, entries, first=first, last=last, said=said))
        said = ""
    for line in here:
        if line.key == "show":
            parts += [_shown(name, pattern, ctx) for name in names(line)]
    if after in numbers and ctx.options.tables:
        parts += [_shown(name, pattern, ctx) for name in PARTS if name not in placed and name != "materials"]
    body = lines(*parts)
    if not body:
        return None
    more = {"data_version": _version(pattern), **switch_attributes(pattern)} if before in numbers else {}
    name = ctx.addresses.pattern(pattern.syntax)
    return el("div", "\n", body, "\n", class_="stitchcheck sc", data_pattern=name, **more)


def _version(pattern: PatternResult) -> str | None:
    lines_of = (pattern.syntax.header.first(key) for key in ("version", "corrected", "date"))
    return next((clean(line.value) for line in lines_of if line is not None), None)


def _shown(name: str, pattern: PatternResult, ctx: Context) -> Html | None:
    part = PARTS.get(name)
    return part(pattern, ctx) if part else None


def _pieces_begin(pattern: PatternResult) -> int:
    """The line on which the first piece begins; beyond every line where there is none."""
    starts = [numbers[0] for numbers in map(_piece_lines, pattern.syntax.pieces) if numbers]
    return min(starts, default=1 << 60)


def _piece_lines(piece: syntax.Piece) -> list[int]:
    """The lines on which something for readers begins."""
    heading = [piece.heading.line] if piece.heading is not None else []
    return heading + [line.line for line in piece.lines if line.kind not in ("private", "excuse")]


def _materials_line(pattern: PatternResult, pieces_begin: int) -> int | None:
    """The header line at which the materials stand: the last one before the first piece, or the first at all."""
    listed = [line.statement.line for line in pattern.syntax.header.lines if belongs_to_materials(line)]
    early = [number for number in listed if number < pieces_begin]
    return early[-1] if early else listed[0] if listed else pattern.line


def _first_and_last(pattern: PatternResult) -> tuple[int, int]:
    """The first and last line of a pattern that the page knows of."""
    found = [line.statement.line for line in pattern.syntax.header.lines]
    found += [number for piece in pattern.syntax.pieces for number in _piece_lines(piece)]
    return (min(found), max(found)) if found else (pattern.line, pattern.line)


Run = tuple[syntax.Piece, Sequence[Entry], bool, bool]


def _runs(pattern: PatternResult, here: list[syntax.HeaderLine], numbers: set[int]) -> list[Run]:
    """The pieces that have lines in a block: (piece, those lines in order, whether it begins and ends here)."""
    runs: list[Run] = []
    begin = _pieces_begin(pattern)
    later = [line for line in here if line.statement.line > begin and line.key != "show"]
    known = [(piece, _piece_lines(piece)) for piece in pattern.syntax.pieces]
    known = [(piece, lines_of) for piece, lines_of in known if lines_of]
    for index, (piece, lines_of) in enumerate(known):
        if not numbers.intersection(lines_of):
            continue
        follow = known[index + 1][1][0] if index + 1 < len(known) else 1 << 60
        entries: list[Entry] = [line for line in piece.lines if line.line in numbers]
        entries += [line for line in later if lines_of[0] <= line.statement.line < follow]
        entries.sort(key=lambda entry: entry.statement.line)
        runs.append((piece, entries, lines_of[0] in numbers, max(lines_of) in numbers))
    return runs


def _head(ctx: Context, pattern: PatternResult, said: str) -> Html:
    """The pattern's title line: name, what was checked, the sheet, particulars; the draft banner above all.

    ``said`` is the Markdown heading above the block; a title that it just said is not said again.
    """
    parts: list[Html | None] = []
    if pattern.draft:
        parts.append(el("p", el("strong", "Draft: counts may change."), class_="sc-draft", role="note"))
    if pattern.title and pattern.title.strip().lower() != said.strip().lower():
        parts.append(el("p", el("strong", pattern.title, dir="auto"), class_="sc-title", translate="no"))
    parts += [checked_mark(pattern), how_to_read(pattern)]
    if ctx.show_findings:
        parts.append(writers_summary(pattern))
    parts.append(_sheets(ctx, pattern))
    parts += [about(pattern, ctx), ask(pattern)]
    parts.append(None if ctx.shared else choice(pattern, ctx.addresses, scope_class(ctx.file.patterns, pattern)))
    parts.append(tools(pattern))
    address = ctx.addresses.pattern(pattern.syntax)
    return el("div", lines("", parts, ""), class_="sc-head", id=address)


def _sheets(ctx: Context, pattern: PatternResult) -> Html | None:
    """The links to the printable sheets."""
    links = []
    ways = (
        (ctx.options.sheet_address, "Printable sheet"),
        (ctx.options.large_print_address, "Large-print sheet"),
        (ctx.options.other_sheet_address, f"Sheet in {OTHER[pattern.syntax.system]} terms"),
    )
    for way, words in ways:
        address = safe_address(way(pattern)) if way else None
        if address:
            links.append(el("a", words, href=address))
    for words, pdf in ctx.options.pdf_addresses(pattern) if ctx.options.pdf_addresses else ():
        links.append(el("a", words, href=safe_address(pdf), type="application/pdf"))
    if not links:
        return None
    return el("p", join([[" · " if i else None, link] for i, link in enumerate(links)]), class_="sc-sheets")

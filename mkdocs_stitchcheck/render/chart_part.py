"""The charts of a pattern: where they say more than the words, or where ``Show: chart`` asks for them."""

from __future__ import annotations

from collections.abc import Mapping

from ..counting.in_full import InFull, in_full
from ..counting.replaying import Item
from ..drawing.chart_pictures import pad_sample, sample
from ..drawing.charts import Chart, chart_of
from ..drawing.figures import Figure
from ..drawing.grid import Grid, grid_of
from ..drawing.wanted import asks_for_chart, has_grid
from ..language.vocabulary import abbreviation, full_name
from ..results import PatternResult, PieceResult
from .colors import chip, color_value, color_words
from .context import Context
from .drawings import MOST_INLINE, svg, svg_document
from .html import Html, el, join, lines
from .materials import part_title
from .shown import named_parts

LOOPS = {"back": "in the back loop only", "front": "in the front loop only", "third": "in the third loop"}
_MIRRORED = "Mirrored, for left-handers"
_MARKS = {"circle": "in a circle", "square": "in a square", "diamond": "in a diamond", "triangle": "in a triangle"}


def chart_part(pattern: PatternResult, ctx: Context) -> Html | None:
    """Charts of the pieces for which they are usual; of every piece where the writer or the site asks for it."""
    asked = "chart" in named_parts(pattern) or ctx.options.charts == "all"
    if not asked and ctx.options.charts == "none":
        return None
    worked = [piece for piece in pattern.pieces if any(line.counts for line in piece.rounds)]
    wanted = worked if asked else [piece for piece in worked if has_grid(piece) or not ctx.toy(pattern) and asks_for_chart(piece)]
    if not wanted:
        return None
    full = in_full(pattern, wanted)
    parts = [_piece(piece, full[id(piece)], pattern, ctx, asked) for piece in wanted]
    mirrored = ctx.print and not ctx.links and any(_MIRRORED in part.text for part in parts)
    return el("div", lines("", part_title("Chart", ctx), _hands() if mirrored else None, parts, ""), class_="sc-part sc-chart")


def _piece(piece: PieceResult, full: InFull, pattern: PatternResult, ctx: Context, asked: bool) -> Html:
    colors = pattern.syntax.header.colors
    palette = {key: color_value(color.shown) for key, color in colors.items()}
    name = el("p", el("strong", el("bdi", piece.name)), _in_size(pattern))
    if full.why_not:
        return lines(name, el("p", f"No chart. {full.why_not}. A chart is made from checked rounds only."))
    grid = grid_of(piece.name, full, palette, list(colors)) if has_grid(piece) else None
    parts: list[Html | None] = [name]
    if grid is not None:
        parts += _grid(grid, pattern, piece, ctx)
    if asked or grid is None:
        address = f"{ctx.addresses.piece(piece.syntax)}-chart" if not ctx.links else ""
        chart = chart_of(piece.name, full, {} if ctx.print else palette, list(colors), address)
        parts += _chart(chart, piece, pattern, ctx, palette)
    return lines(*parts)


def _in_size(pattern: PatternResult) -> str | None:
    sizes = pattern.syntax.header.sizes
    return f", in {sizes[0]}" if len(sizes) > 1 else None


def _grid(grid: Grid, pattern: PatternResult, piece: PieceResult, ctx: Context) -> list[Html | None]:
    colors = pattern.syntax.header.colors
    figure = grid.plain if ctx.print else grid.figure
    first, *others = grid.colors
    said = [el("span", "no letter: ", color_words(first, colors) if ctx.print else chip(first, colors))]
    said += [el("span", f"{key[:2]}: ", color_words(key, colors) if ctx.print else chip(key, colors)) for key in others]
    key = el("ul", lines("", [el("li", one) for one in said], ""), class_="sc-key")
    return [_shown(figure, f"{piece.name}-grid", ctx), el("p", grid.note), key]


def _chart(
    chart: Chart, piece: PieceResult, pattern: PatternResult, ctx: Context, palette: Mapping[str, str | None]
) -> list[Html | None]:
    if chart.figure is None or chart.mirrored is None:
        return [el("p", f"No chart: {chart.why_not}. The words serve better.")]
    notes = el("p", " ".join(chart.notes)) if chart.notes else None
    own, key = _shown(chart.figure, f"{piece.name}-chart", ctx), _key(chart, pattern, ctx, palette)
    mirrored, words = _shown(chart.mirrored, f"{piece.name}-chart-left-handed", ctx), _MIRRORED
    if ctx.links:  # a PDF, in which nobody can choose
        return [own, notes, key, el("p", words), mirrored]
    if ctx.print:
        return [el("div", own, class_="right"), el("div", el("p", words), mirrored, class_="left"), notes, key]
    return [own, notes, key, el("details", el("summary", words), mirrored)]


def _hands() -> Html:
    """On a sheet's screen: whether its charts are printed as right-handers or as left-handers work."""
    ways = (("for-right", "as right-handers work"), ("for-left", "mirrored, for left-handers"))
    buttons = [el("label", el("input", type="radio", name="hands", id=way, checked=way == "for-right"), " ", words) for way, words in ways]
    return el("div", el("fieldset", lines("", el("legend", "Charts"), buttons, ""), class_="sc-choice"), class_="screen")


def _shown(figure: Figure, name: str, ctx: Context) -> Html:
    """A drawing on the sheet, in the page, or, where it is large, as a file of the site."""
    if ctx.print:
        return el("div", svg(figure, paper=True), class_="sc-drawing")
    drawing = svg(figure)
    if len(drawing.text) <= MOST_INLINE:
        return el("div", drawing, class_="sc-drawing", role="group", tabindex=0, aria_label=f"{name}, drawing")
    if ctx.options.save_drawing is None:
        return el("p", "This chart is too large to stand in the page. The words serve better.")
    address = ctx.options.save_drawing(name, svg_document(figure))
    return el("p", el("img", src=address, alt=figure.words, loading="lazy"), class_="sc-drawing")


def _key(chart: Chart, pattern: PatternResult, ctx: Context, palette: Mapping[str, str | None]) -> Html:
    """Every symbol with its name, loops in words; marks of colours with the colour."""
    said = [join(svg(sample(item)), _meaning(item, pattern)) for item in chart.symbols]
    colors = pattern.syntax.header.colors
    for key, mark in chart.pads:
        words = color_words(key, colors) if ctx.print else chip(key, colors)
        said.append(join(svg(pad_sample(mark, None if ctx.print else palette.get(key))), f"{_MARKS[mark]}: ", words))
    for key in chart.letters:
        said.append(join(color_words(key, colors) if ctx.print else chip(key, colors)))
    if not any(one.course.kind == "row" for one in chart.drawn):
        said.append(join("Numbers: the round · its stitches; every other round is drawn bolder"))
    else:
        said.append(join("Numbers: the row where it starts, (its stitches) where it ends; every other row is drawn bolder"))
    return el("ul", lines("", [el("li", one) for one in said], ""), class_="sc-key")


def _meaning(item: Item, pattern: PatternResult) -> str:
    system = pattern.syntax.system
    if item.kind in ("space", "height", "turning"):
        return "ch: chain"
    if item.kind == "picot":
        return "picot"
    if item.stitch is None:
        return item.kind
    words = f"{abbreviation(item.stitch, system)}: {full_name(item.stitch, system)}"
    return f"{words}, {LOOPS[item.loop]}" if item.loop in LOOPS else words

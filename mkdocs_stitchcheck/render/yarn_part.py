"""The yarn table: length and weight by colour and piece, with what it rests on and how far it may be off."""

from __future__ import annotations

from ..estimates.rounding import SMALL_GRAMS, length_text, weight_text, written
from ..estimates.weighing import Fit
from ..estimates.yarn import ColorYarn, YarnShare, YarnTable
from ..estimates.yarn import yarn_table as estimate
from ..language import syntax
from ..language.units import SIZE
from ..results import PatternResult
from .by_size import count_columns, each_size, size_class, size_titles
from .colors import chip, color_words
from .context import Context
from .html import Html, el, join, lines
from .materials import part_title
from .templates import own_yarn


def yarn_table(pattern: PatternResult, ctx: Context) -> Html | None:
    """The estimate as a table; one line on what is needed where there is nothing to reckon from; None without rounds."""
    if not any(line.counts for line in pattern.rounds):
        return None
    table = estimate(pattern)
    if not table.colors:
        return None if ctx.print else _part(ctx, el("p", _needed(table), dir="auto"))
    if count_columns(pattern) > 1:
        shown = _sized_table(pattern, ctx)
    elif len(pattern.syntax.header.sizes) > 1:
        shown = el("p", each_size(pattern, lambda place: _amounts(estimate(pattern, place=place), pattern)))
    else:
        shown = _list(table, pattern) if ctx.print else _table(table, pattern)
    return _part(ctx, shown, el("p", _basis(table)), None if ctx.print else own_yarn(pattern))


def _sized_table(pattern: PatternResult, ctx: Context) -> Html:
    """A row a colour, a column a size: length, weight and balls."""
    tables = [estimate(pattern, place=place) for place in range(len(pattern.syntax.header.sizes))]
    head = el("tr", lines("", el("th", "Colour", scope="col"), size_titles(pattern), ""))
    rows = []
    for color in dict.fromkeys(color.color for table in tables for color in table.colors):
        colors = pattern.syntax.header.colors
        name = el("th", (color_words(color, colors) if ctx.print else chip(color, colors)) if color else "Yarn", scope="row")
        cells = []
        for place, table in enumerate(tables):
            need = next((one for one in table.colors if one.color == color), None)
            cells.append(el("td", _need_lines(need), align="right", class_=size_class((place,)), data_size=pattern.syntax.header.sizes[place]))
        rows.append(el("tr", lines("", name, cells, "")))
    return el(
        "table", lines("", el("thead", lines("", head, "")), el("tbody", lines("", rows, "")), ""),
        aria_label="Yarn needed for each size",
    )


def _need_lines(need: ColorYarn | None) -> Html | str:
    """Metres, yards, grams, ounces and balls of a colour, one under the other."""
    if need is None:
        return "–"
    said = [f"{written(need.metres, need.error)} m", f"{written(need.metres / SIZE['yd'], need.error)} yd"]
    if need.grams is not None and need.grams < SMALL_GRAMS:
        said.append("small amount")
    elif need.grams is not None:
        said += [f"{written(need.grams, need.weight_error)} g", f"{written(need.grams / SIZE['oz'], need.weight_error)} oz"]
    said += [_balls(need)] if _balls(need) else []
    return join([[el("br") if i else None, part] for i, part in enumerate(said)])


def _amounts(table: YarnTable, pattern: PatternResult) -> str:
    """"A slate about 40 m (44 yd), about 18 g (0.63 oz), 1 ball; B ..."."""
    said = []
    for color in table.colors:
        name = color_words(color.color, pattern.syntax.header.colors)
        weight = [weight_text(color.grams, color.weight_error)] if color.grams is not None else []
        parts = [length_text(color.metres, color.error), *weight, _balls(color)]
        said.append(f"{name} {', '.join(part for part in parts if part)}".strip())
    return "; ".join(said)


def _part(ctx: Context, *parts: Html | None) -> Html:
    return el("div", lines("", part_title("Yarn needed", ctx), parts, ""), class_="sc-part sc-totals sc-yarn")


def _needed(table: YarnTable) -> str:
    return f"Not estimated. An estimate needs: {'; '.join(table.missing)}."


def _basis(table: YarnTable) -> str:
    if len(table.bases) == 1 and len({color.error for color in table.colors}) == 1:
        said = f"Estimated {table.basis}, with tails; it may be off by {_percent(table.error)} either way."
    else:
        said = f"Estimated {table.basis}, with tails; how far each figure may be off stands beside it."
    if table.weighing is not None:
        said += " " + _weighed(table.weighing)
    if any(_balls(color) for color in table.colors):
        said += " The balls hold the most that it may come to."
    if table.left_out:
        said += f" Not in it: {'; '.join(table.left_out)}."
    if table.guessed:
        said += f" Stitches without a known length are not in it: {', '.join(table.guessed)}."
    if table.missing:
        said += f" For the rest it needs: {'; '.join(table.missing)}."
    return said


def _percent(error: float) -> str:
    return f"{error * 100:.0f} %"


def _weighed(fit: Fit) -> str:
    """What the scales said: how many makers, how far they differ, how far the reckoning is from their weights."""
    makers = "one maker" if fit.makers == 1 else f"{fit.makers} makers"
    differ = f"; they differ by about {_percent(fit.spread)}" if fit.makers > 1 else ""
    return f"Weighed by {makers}{differ}. The stitches account for the weights to about {_percent(fit.residual)}."


def basis_words(color: ColorYarn) -> str:
    """"from the gauge, about 20 %": what a colour's figures rest on, and how far they may be off."""
    error = color.weight_error if color.grams is not None else color.error
    return f"{color.basis}, about {_percent(error)}"


def _balls(color: ColorYarn) -> str:
    """"2 balls"; "" where a small amount is enough or the put-up is not known."""
    if not color.balls or color.grams is None or color.grams < SMALL_GRAMS:
        return ""
    return f"{color.balls} ball{'' if color.balls == 1 else 's'}"


def _list(table: YarnTable, pattern: PatternResult) -> Html:
    """One line a colour, for the sheet, where the first page is short of room."""
    rows = []
    for color in table.colors:
        name = el("strong", el("bdi", color_words(color.color, pattern.syntax.header.colors) or "Yarn"))
        amounts = [length_text(color.metres, color.error)]
        if color.grams is not None:
            amounts.append(weight_text(color.grams, color.weight_error))
        if _balls(color):
            amounts.append(_balls(color))
        rows.append(el("li", name, ": ", ", ".join(amounts)))
    return el("ul", lines("", rows, ""), class_="sc-palette")


def _length(metres: float, error: float) -> Html:
    yards = written(metres / SIZE["yd"], error)
    return el("td", f"{written(metres, error)} m", el("br"), f"{yards} yd", align="right")


def _weight(grams: float | None, error: float) -> Html:
    if grams is None:
        return el("td", "–", align="right")
    if grams < SMALL_GRAMS:
        return el("td", "small amount", align="right")
    return el("td", f"{written(grams, error)} g", el("br"), f"{written(grams / SIZE['oz'], error)} oz", align="right")


def _color_row(color: ColorYarn, colors: dict[str, syntax.Color]) -> Html:
    name = chip(color.color, colors) if color.color else "Yarn"
    balls = _balls(color)
    head = el("th", name, f", {balls}" if balls else None, el("br"), el("small", basis_words(color)), scope="row")
    return el("tr", lines("", head, _length(color.metres, color.error), _weight(color.grams, color.weight_error), ""))


def _share_row(share: YarnShare, color: ColorYarn) -> Html:
    copies = f" × {share.make}" if share.make > 1 else None
    grams = color.grams * share.metres / color.metres if color.grams is not None and color.metres else None
    cells = [
        el("td", el("bdi", share.piece), copies),
        _length(share.metres, color.error),
        _weight(grams, color.weight_error),
    ]
    return el("tr", lines("", cells, ""), class_="sc-share")


def _table(table: YarnTable, pattern: PatternResult) -> Html:
    titles = [el("th", "Colour and piece", scope="col")]
    titles += [el("th", title, scope="col", align="right") for title in ("Length", "Weight")]
    several = len({share.piece for share in table.shares}) > 1
    rows = []
    for color in table.colors:
        rows.append(_color_row(color, pattern.syntax.header.colors))
        if several:
            rows += [_share_row(share, color) for share in table.shares if share.color == color.color]
    if len(table.colors) > 1:
        error = table.error
        cells = [el("th", "In all", scope="row"), _length(table.metres, error), _weight(table.grams, error)]
        rows.append(el("tr", lines("", cells, ""), class_="sc-sum"))
    return el(
        "table",
        lines("", el("thead", el("tr", lines("", titles, ""))), el("tbody", lines("", rows, "")), ""),
        aria_label="Yarn needed",
    )

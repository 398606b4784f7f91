"""What a maker needs: yarn with its colours, hook, gauge, notions, size; and the particulars of the pattern."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..estimates.rounding import SMALL_GRAMS, written
from ..estimates.yarn import ColorYarn, yarn_table
from ..language import syntax
from ..results import PatternResult
from .by_size import sized
from .caution import materials_caution, needs_caution
from .colors import swatch
from .context import Context
from .html import Html, el, join, lines, safe_address
from .measures import with_conversion
from .words import clean

MATERIALS = {
    "yarn": "Yarn",
    "hook": "Hook",
    "gauge": "Gauge",
    "notions": "You also need",
    "eyes": "Eyes",
    "stuffing": "Stuffing",
    "sizes": "Sizes",
    "finished size": "Finished size",
}
_UK_LABELS = {"gauge": "Tension"}
ABOUT = {
    "level": "Level",
    "designer": "Designer",
    "version": "Version",
    "date": "Date",
    "corrected": "Corrected",
    "care": "Care",
    "age": "Age",
    "video": "Film",
    "contact": "Contact",
    "licence": "Licence",
    "copyright": "Copyright",
    "notes": "Notes",
}
# Lines that other parts of the page speak for, or that only the checker needs.
_ELSEWHERE = frozenset(
    ("title", "terms", "special stitch", "abbreviations", "swatch", "weighed", "draft", "show", "reading")
    + ("turning chain", "slip stitches")
)
READ_SO = ("turning chain", "slip stitches")


def is_color(line: syntax.HeaderLine) -> bool:
    """Whether a header line declares a colour."""
    return line.key.split(" ")[0] in ("color", "colour")


def belongs_to_materials(line: syntax.HeaderLine) -> bool:
    """Whether a header line is listed among the materials."""
    return line.key in MATERIALS or is_color(line)


def shown_elsewhere(line: syntax.HeaderLine) -> bool:
    """Whether a header line is not shown by itself."""
    return line.key in _ELSEWHERE or is_color(line)


def _color(color: syntax.Color, ctx: Context, needed: Mapping[str, ColorYarn], sizes: int = 1) -> Html:
    name = color.name or color.key
    letter = el("strong", el("bdi", color.key)) if color.key.lower() != name.lower() else None
    shade = f", shade {clean(color.shade)}" if color.shade else ""
    amount = f", {amount_words(color)}" if amount_words(color) else ""
    patch = None if ctx.print else swatch(color)
    computed = None if ctx.print or color.key not in needed else _computed(needed[color.key])
    text = el("span", letter, " " if letter else None, el("bdi", name), shade, sized(amount, sizes), computed)
    return el("li", patch, text, class_="sc-color")


def _computed(need: ColorYarn) -> Html:
    """What the stitches of a colour come to, beside what the designer lists."""
    length = f"about {written(need.metres, need.error)} m"
    if need.grams is None:
        words = length
    elif need.grams < SMALL_GRAMS:
        words = f"small amount ({length})"
    else:
        words = f"about {written(need.grams, need.weight_error)} g"
    return el("span", f" · computed: {words}", class_="sc-quiet")


def amount_words(color: syntax.Color) -> str:
    """The amount that a colour's line lists, as written there."""
    parts = [clean(part) for part in color.statement.written.split(":", 1)[-1].split(",")]
    name, shade = color.name.strip().lower(), color.shade.strip().lower()
    kept = []
    for part in parts:
        low = part.lower()
        if low == name or low.startswith("shown as") or (shade and low in (shade, f"shade {shade}")):
            continue
        kept.append(part)
    return ", ".join(part for part in kept if part)


def _colors(header: syntax.Header, yarn: int | None, ctx: Context, needed: Mapping[str, ColorYarn]) -> Html | None:
    rows = [_color(color, ctx, needed, len(header.sizes)) for color in header.colors.values() if color.yarn == yarn]
    return el("ul", lines("", rows, ""), class_="sc-palette") if rows else None


def _value(line: syntax.HeaderLine, header: syntax.Header) -> Html:
    return el("span", sized(with_conversion(line, header), len(header.sizes)), dir="auto")


def _yarn_rows(pattern: PatternResult, ctx: Context) -> Iterator[Html]:
    header = pattern.syntax.header
    needed = {need.color: need for need in yarn_table(pattern).colors} if header.colors and len(header.sizes) < 2 and not ctx.print else {}
    yarn_lines = [line for line in header.lines if line.key == "yarn"]
    for index, line in enumerate(yarn_lines):
        yield _row("Yarn", join(_value(line, header), _colors(header, index, ctx, needed)))
    loose = _colors(header, None, ctx, needed)
    if loose:
        yield _row("Colours", loose)


def _row(label: str, value: Html) -> Html:
    return el("div", el("dt", label), "\n", el("dd", value))


def _rows(pattern: PatternResult, ctx: Context) -> Iterator[Html]:
    header = pattern.syntax.header
    yield from _yarn_rows(pattern, ctx)
    for key, label in MATERIALS.items():
        for line in header.lines:
            if line.key == key and key != "yarn":
                name = _UK_LABELS.get(key, label) if pattern.syntax.system == "UK" else label
                yield _row(name, _value(line, header))


def materials(pattern: PatternResult, ctx: Context) -> Html | None:
    """The list of materials with the caution beside it; None where the pattern lists nothing and needs no caution."""
    rows = list(_rows(pattern, ctx))
    caution = materials_caution(ctx.options.caution) if needs_caution(pattern) else None
    if not rows and caution is None:
        return None
    listed = el("dl", lines("", rows, ""), class_="sc-list") if rows else None
    title = part_title("Materials", ctx) if rows else None
    return el("div", lines("", title, listed, caution, ""), class_="sc-part sc-materials")


def part_title(text: str, ctx: Context) -> Html:
    """The title of a computed part; on a page no heading, since it would stand in nobody's table of contents."""
    return el("h2", text) if ctx.print else el("p", el("strong", text), class_="sc-part-title")


def about(pattern: PatternResult, ctx: Context, without: frozenset[str] = frozenset()) -> Html | None:
    """Designer, version, level and whatever else the header says, as written; but the keys of *without*."""
    rows = []
    for line in pattern.syntax.header.lines:
        if belongs_to_materials(line) or shown_elsewhere(line) or line.key in without:
            continue
        rows.append(_row(_about_label(line), _linked(line, ctx)))
    return el("dl", lines("", rows, ""), class_="sc-list sc-about") if rows else None


def _about_label(line: syntax.HeaderLine) -> str:
    """"Film" for ``Video:``; "Corrected 14 March 2026" with its date."""
    own = clean(line.label)
    return own if line.key == "corrected" and any(c.isdigit() for c in own) else ABOUT.get(line.key) or own


def _linked(line: syntax.HeaderLine, ctx: Context) -> Html:
    """A header's words; a link where they are nothing but a safe web address."""
    value = clean(line.value)
    address = safe_address(value) if value.lower().startswith(("http://", "https://")) and " " not in value else None
    if address and (ctx.links or not ctx.print):
        return el("a", value, href=address, rel="noopener")
    return el("span", value, dir="auto")

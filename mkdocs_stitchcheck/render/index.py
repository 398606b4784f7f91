"""The list of what can be made: every pattern with its shapes to one common scale, by the weight of its yarn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..drawing.silhouettes import rule, scale_for, silhouette
from ..estimates.contours import Contour, contours
from ..estimates.effort import PACE, effort, time_text
from ..estimates.level import project_level
from ..estimates.rounding import weight_text
from ..estimates.yarn import yarn_table
from ..results import PatternResult
from .checked import counts_checked
from .colors import color_value, color_words
from .drawings import svg
from .html import Html, el, lines, safe_address
from .measures import with_conversion
from .words import clean

# Craft Yarn Council, *Standards & Guidelines for Crochet and Knitting* (2018), yarn weight system.
WEIGHTS = ("Lace", "Super fine", "Fine", "Light", "Medium", "Bulky", "Super bulky", "Jumbo")
_OTHER = "Other yarn"
_PART = 0.8  # of the size that shapes have on a pattern's own page


@dataclass(frozen=True, slots=True)
class Entry:
    """A pattern and its address as seen from the list. ``pace`` as in :class:`~.options.PageOptions`."""

    pattern: PatternResult
    address: str
    pace: tuple[float, float] | float | None = None


def weight_name(pattern: PatternResult) -> str:
    """"Light (3)": the category of the pattern's first yarn; "Other yarn" where it has none."""
    category = next((yarn.category for yarn in pattern.syntax.header.yarns if yarn.category is not None), None)
    return f"{WEIGHTS[category]} ({category})" if category is not None and category < len(WEIGHTS) else _OTHER


def render_index(entries: Sequence[Entry], heading_level: int = 2) -> str:
    """The HTML of the list; drafts are left out. "" where nothing is left."""
    shown = [entry for entry in entries if not entry.pattern.draft]
    if not shown:
        return ""
    shapes = {id(entry): contours(entry.pattern) if counts_checked(entry.pattern) else [] for entry in shown}
    scale = scale_for([one for found in shapes.values() for one in found]) * _PART
    parts: list[Html | None] = []
    if any(shapes.values()):
        parts.append(el("p", "All shapes are to one scale: ", svg(rule(scale)), class_="sc-rule"))
    weights = [f"{name} ({number})" for number, name in enumerate(WEIGHTS)] + [_OTHER]
    for weight in weights:
        group = [entry for entry in shown if weight_name(entry.pattern) == weight]
        if group:
            parts.append(el(f"h{heading_level}", f"{weight} yarn" if weight != _OTHER else weight))
            parts += [_entry(entry, shapes[id(entry)], scale, heading_level + 1) for entry in group]
    return el("div", lines("", parts, ""), class_="stitchcheck sc sc-index").text


def _entry(entry: Entry, shapes: Sequence[Contour], scale: float, level: int) -> Html:
    pattern = entry.pattern
    title = pattern.title or "Pattern"
    head = el(f"h{level}", el("a", title, href=safe_address(entry.address), dir="auto"))
    palette = {key: color_value(color.shown) for key, color in pattern.syntax.header.colors.items()}
    drawings = [el("span", svg(silhouette(one, scale, palette, measured=False)), class_="sc-shape") for one in shapes]
    facts = [el("div", el("dt", name), "\n", el("dd", said, dir="auto")) for name, said in _facts(entry) if said]
    return el(
        "div",
        lines("", head, el("div", lines("", drawings, ""), class_="sc-shapes") if drawings else None,
              el("dl", lines("", facts, ""), class_="sc-list"), ""),
        class_="sc-entry",
    )


def _facts(entry: Entry) -> list[tuple[str, str]]:
    pattern = entry.pattern
    header = pattern.syntax.header
    size, hook = header.first("finished size"), header.first("hook")
    facts = [("Size", with_conversion(size, header) if size else ""), ("Sizes", ", ".join(header.sizes) if len(header.sizes) > 1 else "")]
    if counts_checked(pattern):
        time, level = effort(pattern, entry.pace or PACE), project_level(pattern)
        facts += [("Yarn", _yarn(pattern)), ("Time", time_text(time) if time else ""), ("Level", level.name if level else "")]
    else:
        facts.append(("Counts", "still to be gone through"))
    pieces = [piece for piece in pattern.pieces if any(line.counts for line in piece.rounds)]
    facts += [
        ("Hook", clean(hook.value) if hook else ""),
        ("Pieces", ", ".join(f"{piece.name} × {piece.make}" if piece.make > 1 else piece.name for piece in pieces)),
        ("Version", _version(pattern)),
    ]
    return facts


def _yarn(pattern: PatternResult) -> str:
    """"A slate about 18 g, B cream small amount"."""
    said = []
    for color in yarn_table(pattern).colors:
        if color.grams is not None:
            name = color_words(color.color, pattern.syntax.header.colors)
            said.append(f"{name} {weight_text(color.grams, color.weight_error)}".strip())
    return ", ".join(said)


def _version(pattern: PatternResult) -> str:
    found = [pattern.syntax.header.first(key) for key in ("version", "corrected", "date")]
    return ", ".join(clean(line.value) for line in found if line is not None)


def tags_of(pattern: PatternResult) -> list[str]:
    """What a site may list the pattern under: its yarn's weight and its level."""
    level = project_level(pattern) if counts_checked(pattern) else None
    found = [] if weight_name(pattern) == _OTHER else [f"{weight_name(pattern)} yarn"]
    return found + ([level.name] if level is not None else [])

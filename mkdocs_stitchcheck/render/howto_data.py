"""A pattern for machines: schema.org's HowTo as JSON-LD, made from the same words as the page.

https://schema.org/HowTo: name, supply, tool, step (a HowToSection a piece, a HowToStep a line), totalTime (ISO 8601).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from ..estimates.effort import PACE, effort
from ..language import syntax
from ..results import PatternResult
from .context import Context
from .html import Html, safe_address
from .rows import count_cell, round_words
from .words import clean, label_text, step_text

_TOOLS = ("needle", "hook", "marker", "scissors", "pins", "tape measure", "ruler", "counter")
_SUPPLIES = ("yarn", "eyes", "stuffing")


def howto(pattern: PatternResult, ctx: Context, address: str = "") -> dict[str, Any] | None:
    """The pattern as a HowTo; None for a draft and for a pattern without steps. Private notes are not in it."""
    sections = [section for piece in pattern.syntax.pieces if (section := _section(piece, ctx))]
    if not sections or pattern.draft:
        return None
    supplies, tools = _things(pattern)
    header = pattern.syntax.header
    found: dict[str, Any] = {
        "@context": "https://schema.org", "@type": "HowTo", "name": pattern.title or "Crochet pattern",
        "supply": [{"@type": "HowToSupply", "name": name} for name in supplies],
        "tool": [{"@type": "HowToTool", "name": name} for name in tools],
        "step": sections,
    }
    for key, name in (("version", "version"), ("copyright", "copyrightNotice")):
        line = header.first(key)
        if line is not None:
            found[name] = clean(line.value)
    designer = header.first("designer")
    if designer is not None:
        found["author"] = {"@type": "Person", "name": clean(designer.value)}
    licence = header.first("licence")
    if licence is not None and clean(licence.value).startswith(("https://", "http://")):
        found["license"] = clean(licence.value)
    where = safe_address(address)
    if where:
        found["url"] = where
    time = effort(pattern, ctx.options.pace or PACE)
    if time is not None:
        found["totalTime"] = duration(time.high)
    return {key: value for key, value in found.items() if value}


def duration(minutes: float) -> str:
    """Minutes as an ISO 8601 duration, to five minutes: "PT2H30M"."""
    five = max(5, 5 * round(minutes / 5))
    hours, rest = divmod(five, 60)
    return "PT" + (f"{hours}H" if hours else "") + (f"{rest}M" if rest else "")


def _things(pattern: PatternResult) -> tuple[list[str], list[str]]:
    """(supplies, tools) of the header, as written."""
    supplies: list[str] = []
    tools: list[str] = []
    for line in pattern.syntax.header.lines:
        value = clean(line.value)
        if line.key == "hook":
            tools.append(f"Crochet hook, {value}")
        elif line.key in _SUPPLIES:
            supplies.append(value if line.key != "stuffing" or "stuff" in value.lower() else f"Stuffing: {value}")
        elif line.key.split(" ")[0] in ("color", "colour"):
            supplies.append(f"Yarn, {clean(line.label).lower()}: {value.split(', shown as')[0]}")
        elif line.key == "notions":
            for notion in filter(None, (part.strip() for part in value.split(","))):
                (tools if any(word in notion.lower() for word in _TOOLS) else supplies).append(notion)
    return supplies, tools


def _section(piece: syntax.Piece, ctx: Context) -> dict[str, Any] | None:
    steps = [{"@type": "HowToStep", "text": text} for text in _lines(piece, ctx)]
    copies = f" (make {piece.make})" if piece.make > 1 else ""
    return {"@type": "HowToSection", "name": f"{piece.name}{copies}", "itemListElement": steps} if steps else None


def _lines(piece: syntax.Piece, ctx: Context) -> Iterator[str]:
    for line in piece.lines:
        if line.kind == "round" and isinstance(line, syntax.RoundLine):
            count = count_cell(line, ctx.result(line))[0]
            label = label_text(line)
            yield f"{f'{label}: ' if label else ''}{round_words(line)}{f' ({count})' if count else ''}"
        elif line.kind in ("step", "foundation"):
            yield step_text(line)


def script_element(data: dict[str, Any]) -> Html:
    """The data as an element that no browser runs; nothing in it can end the element."""
    text = json.dumps(data, ensure_ascii=True, separators=(",", ":"))
    for sign, code in (("<", "\\u003c"), (">", "\\u003e"), ("&", "\\u0026")):
        text = text.replace(sign, code)
    return Html(f'<script type="application/ld+json">{text}</script>')

"""The shape of the pieces, to one scale with a rule, and where the text places eyes, limbs and the like."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..drawing.silhouettes import Mark, rule, scale_for, silhouette
from ..estimates.contours import Contour, contours
from ..estimates.words import measures
from ..language import syntax
from ..results import PatternResult
from .colors import color_value
from .context import Context
from .drawings import svg
from .html import Child, Html, el, lines
from .materials import part_title
from .words import clean, step_text

_APART = re.compile(r"\b(\d{1,3}) (?:sts?|stitches|sc) (?:apart|between|in between)\b", re.IGNORECASE)
_EYES = re.compile(r"\beyes?\b", re.IGNORECASE)
_AN_EYE = 90.0  # degrees between eyes where the text does not say
_MOST_MARKS = 9


def shape_part(pattern: PatternResult, ctx: Context) -> Html | None:
    """The silhouettes; None where gauge or counts do not give them."""
    found = contours(pattern)
    if not found:
        return None
    palette = {} if ctx.print else {key: color_value(c.shown) for key, c in pattern.syntax.header.colors.items()}
    scale = scale_for(found)
    placed = _marks(pattern, found)
    pieces = [
        el("div", lines("", svg(silhouette(one, scale, palette, [m for m, at, _w in placed if at is one]), paper=ctx.print),
                        _caption(one), ""), class_="sc-shape")
        for one in found
    ]
    words = [el("li", f"{number}: ", said) for number, said in {mark.number: said for mark, _one, said in placed}.items()]
    return el(
        "div",
        lines("", part_title("Shape", ctx), el("div", lines("", pieces, ""), class_="sc-shapes"),
              svg(rule(scale), paper=ctx.print), _said(pattern, found),
              el("ul", lines("", words, ""), class_="sc-key") if words else None, ""),
        class_="sc-part sc-drawn",
    )


def _caption(one: Contour) -> Html:
    copies = f" × {one.make}" if one.make > 1 else None
    size: list[Child] = [[el("br"), measure] for measure in (measures(one.size) if one.size is not None else ())]
    return el("p", el("strong", el("bdi", one.name)), copies, size)


def _said(pattern: PatternResult, found: Sequence[Contour]) -> Html:
    sizes = pattern.syntax.header.sizes
    of_size = f" of size {sizes[0]}" if len(sizes) > 1 else ""
    above = [one.name for one in found if one.from_above]
    lying = [one.name for one in found if one.rings]
    said = f"All to one scale{of_size}, as gauge and rounds give it: stuffed work comes out rounder."
    if len(lying) < len(found):
        others = len(above) + len(lying) < len(found)
        said += " Drawn as worked: each piece begins below." if not above else f" Worked downwards, from above: {', '.join(above)}."
        said += " The others are drawn as worked and begin below." if above and others else ""
    return el("p", said + (f" Seen from above, flat: {', '.join(lying)}." if lying else ""))


def _marks(pattern: PatternResult, found: Sequence[Contour]) -> list[tuple[Mark, Contour, str]]:
    """What steps place at rounds of a piece, numbered through: (mark, piece, the step's words)."""
    by_name = {one.name.lower(): one for one in found}
    marks: list[tuple[Mark, Contour, str]] = []
    for piece in pattern.syntax.pieces:
        for line in piece.lines:
            if not isinstance(line, syntax.RoundLine) or line.kind != "step":
                continue
            for reference in line.references:
                at = _meant(reference, piece, line, by_name)
                said = step_text(line)
                again = marks[-1][0].number if marks and marks[-1][2] == said else 0
                number = again or (marks[-1][0].number + 1 if marks else 1)
                mark = _mark(reference, at, line, number) if at is not None else None
                if at is not None and mark is not None and number <= _MOST_MARKS:
                    marks.append((mark, at, said))
    return marks


def _meant(
    reference: syntax.Reference, piece: syntax.Piece, line: syntax.RoundLine, by_name: dict[str, Contour]
) -> Contour | None:
    """The piece whose rounds are named: the one at hand, or in "Sew the ears to the Head between ..." the last one said."""
    if reference.piece:
        return by_name.get(reference.piece.lower().removeprefix("the ").strip())
    if not piece.making_up:
        return by_name.get(piece.name.lower())
    said = line.statement.text[: reference.start].lower()
    named = [(at, len(name), one) for name, one in by_name.items() if (at := said.rfind(name)) >= 0]
    return max(named, key=lambda entry: entry[:2])[2] if named else None


def _mark(reference: syntax.Reference, at: Contour, line: syntax.RoundLine, number: int) -> Mark | None:
    if not reference.rounds:
        return None
    first, last = min(pair[0] for pair in reference.rounds), max(pair[1] for pair in reference.rounds)
    where = at.where(first, last)
    if where is None:
        return None
    low, high, count = where
    words = clean(line.statement.words)
    if not _EYES.search(words):
        return Mark(number, low, high)
    said = _APART.search(words)
    apart = 360.0 * int(said.group(1)) / count if said and count else _AN_EYE
    return Mark(number, low, high, min(apart, 160.0))

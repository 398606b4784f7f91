"""Room for a tester's pen: lines under each piece, and a back page with what the designer needs to know."""

from __future__ import annotations

from ..language import syntax
from ..results import PatternResult
from .colors import color_words
from .html import Html, el, join, lines

_LINES = 3
_ROUNDS = 6
_SAFETY = "If the thing you made is a toy: pull-test eyes and seams before anybody plays with it."


def writing_lines(piece: syntax.Piece) -> Html:
    """Where a tester writes what was not clear in a piece."""
    rule = el("p", "\u00a0", class_="write")
    words = el("p", "Was anything in “", el("bdi", piece.name), "” unclear or wrong? Which round?", class_="asked")
    return el("div", lines("", words, [rule] * _LINES, ""), class_="remarks")


def back_page(pattern: PatternResult, test: int) -> Html:
    """The last page: yarn, hook, grams by colour, size, hours, unclear rounds."""
    header = pattern.syntax.header
    colors = [color_words(key, header.colors) for key in header.colors] or ["in all"]
    asked = [
        "Your name, or the name I may call you by",
        "Yarn you used (make, fibre, g and m of a ball)",
        "Hook you used, in mm",
        "Your gauge (stitches × rounds = 10 cm)",
        *[f"Size {name}: what it measures" for name in header.sizes],
        *([] if header.sizes else ["Finished size (tall × wide, in cm or in)"]),
        "Hours it took",
    ]
    rows = [el("tr", el("th", words, scope="row"), el("td", "\u00a0")) for words in asked]
    weights = [el("tr", el("th", el("bdi", name), scope="row"), el("td", "\u00a0", "g")) for name in colors]
    pieces = [el("tr", el("th", el("bdi", piece.name), scope="row"), el("td", "\u00a0", "g")) for piece in pattern.pieces if piece.rounds]
    weighed = f"Weighed (tester {test}): "
    return el(
        "section",
        lines(
            "",
            el("h2", "For the designer", id="for-the-designer"),
            el("table", lines("", rows, ""), class_="form", aria_label="What you used"),
            el("p", "Grams of each colour, weighed after weaving in ends (kitchen scales do):"),
            el("table", lines("", weights, ""), class_="form", aria_label="Grams by colour"),
            el("p", "If you can, weigh the pieces before stuffing and sewing, one copy of each:") if pieces else None,
            el("table", lines("", pieces, ""), class_="form", aria_label="Grams by piece") if pieces else None,
            el("p", "Rounds that were unclear, and what you did there:"),
            [el("p", "\u00a0", class_="write")] * _ROUNDS,
            el("p", _SAFETY),
            el("p", join("The designer writes the weights into the pattern as ", el("strong", weighed), "A … g.")),
            "",
        ),
        class_="back",
    )

"""What stands under the pointer: a stitch, a colour, a round's numbers, a piece."""

from __future__ import annotations

import re

from lsprotocol import types

from ..language.meanings import meaning
from ..language.syntax import Color, SpecialStitch
from ..language.vocabulary import Stitch, abbreviation, full_name
from ..results import PatternResult, PieceResult
from ..source import Span
from .counts import told
from .page import Page

_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")
_LONGEST = 4  # words of a stitch's name


def hover(page: Page, position: types.Position) -> types.Hover | None:
    """What is known of the words at *position* in a pattern block; None elsewhere."""
    number, column = position.line + 1, page.column_of(position)
    pattern = page.pattern_at(number)
    if pattern is None or page.block_at(number) is None:
        return None
    found = _round(page, number, column) or _words(page, pattern, number, column) or _piece(page, number)
    if found is None:
        return None
    text, span = found
    return types.Hover(types.MarkupContent(types.MarkupKind.PlainText, text), page.range_of(span))


def _round(page: Page, number: int, column: int) -> tuple[str, Span] | None:
    """On the label of a round: what it works into and makes."""
    line = page.round_at(number)
    if line is None or line.syntax.label is None:
        return None
    label = line.syntax.label
    span = line.syntax.statement.span(label.start, label.end)
    if span.line == number and span.column <= column < span.end_column:
        return told(line), span
    return None


def _words(page: Page, pattern: PatternResult, number: int, column: int) -> tuple[str, Span] | None:
    """The longest run of words around the place that is a stitch or a colour."""
    text = page.source.line(number)
    words = list(_WORD.finditer(text))
    at = next((i for i, word in enumerate(words) if word.start() < column <= word.end() + 1), None)
    if at is None:
        return None
    for length in range(_LONGEST, 0, -1):
        for first in range(max(0, at - length + 1), min(at, len(words) - length) + 1):
            start, end = words[first].start(), words[first + length - 1].end()
            said = _meaning(pattern, text[start:end])
            if said:
                return said, Span(number, start + 1, number, end + 1)
    return None


def _meaning(pattern: PatternResult, words: str) -> str:
    header, system = pattern.syntax.header, pattern.syntax.system
    special = next((own for word, own in header.special.items() if word.lower() == words.lower()), None)
    if special is not None:
        return _declared(special)
    color = header.colors.get(words) or _named(header.colors, words)
    if color is not None:
        return _color(color)
    bare = words.strip("0123456789") or words
    stitch = meaning(words, system) or meaning(bare, system)
    return _stitch(stitch, words, system) if stitch is not None else ""


def _named(colors: dict[str, Color], words: str) -> Color | None:
    return next((color for color in colors.values() if color.name and color.name.lower() == words.lower()), None)


def _declared(special: SpecialStitch) -> str:
    """A stitch as the pattern declares it."""
    said = f"{special.word}: {special.text}"
    return f"{said}\n{_takes(special.stitch)}" if special.stitch is not None else said


def _color(color: Color) -> str:
    parts = [color.name, f"shown as {color.shown}" if color.shown else "", color.shade]
    return f"Color {color.key}: {', '.join(part for part in parts if part)}"


def _stitch(stitch: Stitch, words: str, system: str) -> str:
    other = "UK" if system == "US" else "US"
    same = abbreviation(stitch, other)
    elsewhere = f"; {same} in {other} terms" if same != abbreviation(stitch, system) else ""
    return f"{words}: {full_name(stitch, system)} ({system} terms{elsewhere})\n{_takes(stitch)}"


def _takes(stitch: Stitch) -> str:
    into = {0: "Worked into no stitch", 1: "Worked into 1 stitch"}.get(stitch.uses, f"Worked into {stitch.uses} stitches")
    return f"{into}, gives {stitch.makes or 'none'}."


def _piece(page: Page, number: int) -> tuple[str, Span] | None:
    """On a heading: how many rounds and stitches the piece has."""
    for pattern in page.result.patterns:
        for piece in pattern.pieces:
            heading = piece.syntax.heading
            if heading is not None and heading.line == number:
                return piece_told(piece), heading.span()
    return None


def piece_told(piece: PieceResult) -> str:
    """"Ears, make 2: 8 rounds, 96 stitches each"."""
    rounds = sum(line.worked for line in piece.rounds if line.counts)
    stitches = sum(piece.stitches.values())
    copies = f", make {piece.make}" if piece.make > 1 else ""
    kind = "row" if piece.flat else "round"
    return (
        f"{piece.name or 'The piece'}{copies}: {rounds} {kind}{'' if rounds == 1 else 's'}, "
        f"{stitches:,} stitches{' each' if piece.make > 1 else ''}"
    )

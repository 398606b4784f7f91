"""What may come next where somebody types: header keys, the next label, stitches, colours, pieces, and the count."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lsprotocol import types

from ..language.keys import ALIASES
from ..language.vocabulary import abbreviation, full_name, stitches
from ..results import PatternResult, RoundResult
from .counts import by_size
from .page import Page

TRIGGERS = ("(", "=", ">", "#", "`")

_FENCE = re.compile(r"^[\s>]*(?:`{3,}|~{3,})\s*\w*$")
_ENDS_A_STEP = re.compile(r"[\w)\]*]")
_LABEL = re.compile(r"^(?P<before>\D*)(?P<number>\d+)(?:\s*[-–]\s*(?P<last>\d+))?(?P<after>[^\w\s]?)")
_AT_START = re.compile(r"^\s*[\w ]{0,20}$")
_PRIVATE = re.compile(r"^\s*+>>\s*+[\w ]*+$")
_Kind = types.CompletionItemKind


def complete(page: Page, position: types.Position) -> list[types.CompletionItem]:
    """What may be written at *position*; nothing outside pattern blocks but the word that opens one."""
    number = position.line + 1
    before = page.source.line(number)[: page.column_of(position) - 1]
    if page.block_at(number) is None:
        return [types.CompletionItem("crochet", kind=_Kind.Keyword)] if _FENCE.match(before) else []
    pattern = page.pattern_at(number)
    if _PRIVATE.match(before):
        return [types.CompletionItem("right as written: ", kind=_Kind.Text)]
    counts = list(_count(page, number, before))
    if counts:
        return counts
    found: list[types.CompletionItem] = []
    if _AT_START.match(before):
        found += _next_label(page, pattern, number)
        if _in_header(page, pattern, number):
            found += [types.CompletionItem(f"{key.capitalize()}: ", kind=_Kind.Property) for key in ALIASES]
    found += _stitches(pattern)
    if pattern is not None:
        found += _colors(pattern)
        found += _pieces(pattern)
    return found


def _in_header(page: Page, pattern: PatternResult | None, number: int) -> bool:
    return pattern is None or not any(line.line < number for line in pattern.rounds)


def _count(page: Page, number: int, before: str) -> Iterator[types.CompletionItem]:
    """Behind "(" or "=" at a round's end: what the round makes."""
    begun = before.rstrip()
    written, mark = begun[:-1].rstrip(), begun[-1:]
    if mark not in ("(", "[", "=") or not _ENDS_A_STEP.search(written):
        return
    lines = [*page.source.lines]
    lines[number - 1] = written
    result = page.check("\n".join(lines))
    made = next((_made(line, number) for pattern in result.patterns for line in pattern.rounds if _stands(line, number)), "")
    if made:
        closing = {"(": ")", "[": "]"}.get(mark, "")
        space = " " if mark == "=" and before.endswith("=") else ""
        yield types.CompletionItem(f"{space}{made}{closing}", kind=_Kind.Value, detail="what this round makes", preselect=True)


def _stands(line: RoundResult, number: int) -> bool:
    return any(part.number == number for part in line.syntax.statement.lines)


def _made(line: RoundResult, number: int) -> str:
    return by_size(line.makes) if None not in line.makes else ""


def _next_label(page: Page, pattern: PatternResult | None, number: int) -> Iterator[types.CompletionItem]:
    """"Rnd 5: " below Rnd 4, as the rounds before are labelled."""
    above = [line for line in pattern.rounds if line.line < number and line.last is not None] if pattern else []
    if not above:
        return
    line = above[-1]
    label = _LABEL.match(page.source.line(line.line))
    piece = page.places.piece(number, pattern) if pattern else None
    if label is None or (piece is not None and piece.line > line.line):
        return
    mark = label["after"] if label["after"] in (":", ".", ")") else ":"
    word = re.sub(r"(?i)\b(rnd|round|row|r)s\b", r"\1", label["before"])
    yield types.CompletionItem(f"{word}{(line.last or 0) + 1}{mark} ".lstrip(), kind=_Kind.Snippet, sort_text="0")


def _stitches(pattern: PatternResult | None) -> Iterator[types.CompletionItem]:
    system = pattern.syntax.system if pattern is not None else "US"
    for stitch in stitches().values():
        yield types.CompletionItem(abbreviation(stitch, system), kind=_Kind.Function, detail=full_name(stitch, system))
    for special in pattern.syntax.header.special.values() if pattern is not None else ():
        yield types.CompletionItem(special.word, kind=_Kind.Function, detail=special.text)


def _colors(pattern: PatternResult) -> Iterator[types.CompletionItem]:
    for key, color in pattern.syntax.header.colors.items():
        yield types.CompletionItem(f"color {key}", kind=_Kind.Color, detail=color.name)


def _pieces(pattern: PatternResult) -> Iterator[types.CompletionItem]:
    for piece in pattern.pieces:
        if piece.name:
            yield types.CompletionItem(piece.name, kind=_Kind.Class, detail="piece")

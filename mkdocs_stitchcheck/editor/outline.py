"""The outline of a page: patterns, their pieces, and the rounds of each."""

from __future__ import annotations

from lsprotocol import types

from ..results import PatternResult, PieceResult, RoundResult
from ..source import Span
from .counts import by_size
from .page import Page


def outline(page: Page) -> list[types.DocumentSymbol]:
    """A tree of patterns, pieces and written lines, each with its whole stretch of the page."""
    return [_pattern(page, pattern) for pattern in page.result.patterns]


def _pattern(page: Page, pattern: PatternResult) -> types.DocumentSymbol:
    last = max(pattern.end_line, pattern.line)
    stops = [piece.line - 1 for piece in pattern.pieces[1:]] + [last]
    return types.DocumentSymbol(
        pattern.title or "Pattern",
        types.SymbolKind.Module,
        _lines(page, pattern.line, last),
        _lines(page, pattern.line, pattern.line),
        children=[_piece(page, piece, max(stop, piece.line)) for piece, stop in zip(pattern.pieces, stops, strict=True)]
        if pattern.pieces
        else [],
    )


def _piece(page: Page, piece: PieceResult, last: int) -> types.DocumentSymbol:
    return types.DocumentSymbol(
        piece.name or "Piece",
        types.SymbolKind.Class,
        _lines(page, piece.line, last),
        _lines(page, piece.line, piece.line),
        detail=f"make {piece.make}" if piece.make > 1 else None,
        children=[_round(page, line) for line in piece.rounds if line.label],
    )


def _round(page: Page, line: RoundResult) -> types.DocumentSymbol:
    first, last = line.syntax.statement.lines[0].number, line.syntax.statement.lines[-1].number
    place = _lines(page, first, last)
    return types.DocumentSymbol(line.label, types.SymbolKind.Field, place, place, detail=by_size(line.makes) or None)


def _lines(page: Page, first: int, last: int) -> types.Range:
    return page.range_of(Span(first, 1, last, len(page.source.line(last)) + 1))

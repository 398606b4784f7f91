"""A page as an editor holds it: its text as last checked, and the way between the editor's positions and ours."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from lsprotocol import types
from pygls.workspace import PositionCodec

from ..fences import Block, find_blocks, whole_text
from ..files import PLAIN
from ..findings import Edit, Findings
from ..results import FileResult, PatternResult, RoundResult
from ..source import Source, Span
from ..whereabouts import Places

Check = Callable[[str], FileResult]


@dataclass(frozen=True)
class Page:
    """A text with what the check says of it. ``check`` checks another text in its place, for edits that are tried.

    An editor counts lines and characters from 0, and characters in the units that it has agreed on (*codec*).
    """

    uri: str
    text: str
    result: FileResult
    check: Check
    codec: PositionCodec

    @cached_property
    def source(self) -> Source:
        return Source(self.text, self.result.path)

    @cached_property
    def places(self) -> Places:
        """The pattern, piece and round at a line."""
        return Places(self.result.patterns)

    @cached_property
    def blocks(self) -> list[Block]:
        """The pattern blocks, an unclosed one too."""
        if self.result.path.lower().endswith(PLAIN):
            return [whole_text(self.source)]
        return find_blocks(self.source, Findings())

    def range_of(self, span: Span) -> types.Range:
        """The editor's range for *span*."""
        return types.Range(self._position(span.line, span.column), self._position(span.end_line, span.end_column))

    def _position(self, line: int, column: int) -> types.Position:
        before = self.source.line(line)[: column - 1]
        return types.Position(line - 1, self.codec.client_num_units(before))

    def column_of(self, position: types.Position) -> int:
        """Our column (from 1) for the editor's *position*; behind the last character where it lies beyond."""
        units = 0
        text = self.source.line(position.line + 1)
        for column, letter in enumerate(text, 1):
            if units >= position.character:
                return column
            units += self.codec.client_num_units(letter)
        return len(text) + 1

    def end_of_line(self, number: int) -> Span:
        """The empty place behind the last character of line *number*."""
        end = len(self.source.line(number).rstrip()) + 1
        return Span(number, end, number, end)

    def text_edit(self, edit: Edit) -> types.TextEdit:
        """The editor's form of *edit*, with the line ends of this text."""
        return types.TextEdit(self.range_of(edit.span), edit.text)

    def words(self, span: Span) -> str:
        """What is written at *span*, which lies in one line; empty for one over several lines."""
        return self.source.line(span.line)[span.column - 1 : span.end_column - 1] if span.line == span.end_line else ""

    def whole(self, text: str) -> types.TextEdit:
        """The edit that puts *text* in place of everything."""
        last = len(self.source.lines)
        return types.TextEdit(self.range_of(Span(1, 1, last, len(self.source.line(last)) + 1)), text.removeprefix("\ufeff"))

    def workspace_edit(self, edits: list[types.TextEdit]) -> types.WorkspaceEdit:
        """*edits* in this page."""
        return types.WorkspaceEdit(changes={self.uri: edits})

    def block_at(self, number: int) -> Block | None:
        """The block in whose body line *number* stands."""
        for block in self.blocks:
            if block.opening.line < number <= block.end_line or (block.lines and block.lines[0].number == number == 1):
                return None if block.closed and number == block.end_line and not self._is_plain else block
        return None

    @property
    def _is_plain(self) -> bool:
        return self.result.path.lower().endswith(PLAIN)

    def pattern_at(self, number: int) -> PatternResult | None:
        """The pattern at line *number*; inside a block also the nearest one above, whose text is being typed."""
        found = self.places.pattern(number)
        if found is None and self.block_at(number) is not None:
            above = [pattern for pattern in self.result.patterns if pattern.line <= number]
            found = above[-1] if above else next(iter(self.result.patterns), None)
        return found

    def round_at(self, number: int) -> RoundResult | None:
        """The round, row or step that stands on line *number*."""
        return self.places.line(number)

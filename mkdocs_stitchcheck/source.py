"""A text with positions: spans as the writer sees them, and the code frame of a message."""

from __future__ import annotations

import re
from dataclasses import dataclass

_LINE_END = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of a file. Lines and columns count from 1 in characters (a tab is one); the end is exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True, slots=True)
class BlockLine:
    """One line of a pattern block: its text without the prefix of lists and quotes, and where that text begins.

    ``number`` is the line of the file and ``column`` the column of ``text[0]`` there, both from 1.
    """

    number: int
    column: int
    text: str


class Source:
    """A file's text, cut into lines at LF, CRLF or CR; a byte-order mark at the front belongs to no column."""

    def __init__(self, text: str, path: str = "<text>") -> None:
        self.path = path
        self.text = text
        self.lines: list[str] = _LINE_END.split(text.removeprefix("\ufeff"))

    def line(self, number: int) -> str:
        """The text of line *number* (from 1) without its line end; empty beyond the last line."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""


class Statement:
    """One thing the writer says, perhaps over several lines, as one text whose positions lead back to the file.

    The lines are joined by single spaces. Every change made for reading (look-alike letters, dashes, escapes) keeps
    the length of a line, so that an offset in ``text`` is an offset in the file.
    """

    __slots__ = ("text", "lines", "_starts")

    def __init__(self, lines: list[BlockLine], texts: list[str] | None = None) -> None:
        self.lines = lines
        self.text = " ".join(texts if texts is not None else [line.text for line in lines])
        self._starts: list[int] = []
        at = 0
        for line in lines:
            self._starts.append(at)
            at += len(line.text) + 1

    @property
    def line(self) -> int:
        """The file line on which the statement begins."""
        return self.lines[0].number

    @property
    def written(self) -> str:
        """The writer's own words, character by character as in the file, lines joined by one space."""
        return " ".join(line.text for line in self.lines)

    def _place(self, offset: int) -> tuple[int, int]:
        index = len(self._starts) - 1
        while index > 0 and self._starts[index] > offset:
            index -= 1
        line = self.lines[index]
        return line.number, line.column + min(offset - self._starts[index], len(line.text))

    def span(self, start: int = 0, end: int | None = None) -> Span:
        """The place in the file of ``text[start:end]``."""
        stop = len(self.text) if end is None else end
        line, column = self._place(start)
        if stop <= start:
            return Span(line, column, line, column)
        end_line, end_column = self._place(stop - 1)
        return Span(line, column, end_line, end_column + 1)

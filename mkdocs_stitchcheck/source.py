"""A text with positions: spans as the writer sees them, and the code frame of a message."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass

from . import late_re as re

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


@dataclass(frozen=True, slots=True)
class Stretch:
    """Words of a reading and the words of the text that they stand for: ``[start, end)`` there, ``[first, last)`` here.

    Where ``exact``, the two are the same character by character.
    """

    start: int
    end: int
    first: int
    last: int
    exact: bool


@dataclass(frozen=True, slots=True)
class Reading:
    """A statement's text put into the trade's English words, with the way back from every word to the writer's own.

    ``own`` gives the writer's word for a stitch ("inc": "Zun"). Stretches stand in the order of the reading. ``phrases``
    are the writer's stretches that were read as one, and whether nothing was read for them.
    """

    text: str
    stretches: tuple[Stretch, ...]
    own: Mapping[str, str]
    phrases: tuple[tuple[int, int, bool], ...] = ()

    def whole(self, text: str, first: int, last: int) -> tuple[int, int]:
        """``text[first:last]`` of the writer with the phrases that it cuts, and those beside it that say nothing."""
        for start, end, silent in self.phrases:
            if start < last < end or (silent and end > last and not text[last:start].strip()):
                last = max(last, end)
        for start, end, silent in reversed(self.phrases):
            if start < first < end or (silent and start < first and not text[end:first].strip()):
                first = start
        return first, last

    def place(self, start: int, end: int) -> tuple[int, int]:
        """The writer's stretch that ``text[start:end]`` stands for."""
        head = self._at(start)
        tail = self._at(max(start, end - 1))
        first = head.first + (start - head.start if head.exact else 0)
        if end <= start:
            return first, first
        return first, max(first, tail.first + end - tail.start if tail.exact else tail.last)

    def _at(self, offset: int) -> Stretch:
        index = bisect_right(self.stretches, offset, key=lambda stretch: stretch.start) - 1
        return self.stretches[max(index, 0)]


class Statement:
    """One thing the writer says, perhaps over several lines, as one text whose positions lead back to the file.

    The lines are joined by single spaces. Every change made for reading (look-alike letters, dashes, escapes) keeps
    the length of a line, so that an offset in ``text`` is an offset in the file. ``reading`` is the text in English
    words where a pattern declares other terms.
    """

    __slots__ = ("_starts", "lines", "reading", "text")

    def __init__(
        self, lines: list[BlockLine], texts: list[str] | None = None, reading: Reading | None = None
    ) -> None:
        self.lines = lines
        self.reading = reading
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

    @property
    def words(self) -> str:
        """The text in English words, to be searched for them; its offsets lead nowhere."""
        return self.text if self.reading is None else self.reading.text

    def own(self, word: str) -> str:
        """What the writer calls the stitch *word*."""
        return word if self.reading is None else self.reading.own.get(word, word)

    def as_written(self, start: int, end: int | None = None) -> str:
        """The writer's own words of ``text[start:end]``."""
        return self.written[start:end]

    def as_read(self) -> Statement:
        """The statement with its English words as ``text``."""
        return self if self.reading is None else ReadStatement(self.lines, self.reading)

    def _place(self, offset: int) -> tuple[int, int]:
        index = self._line_at(offset)
        line = self.lines[index]
        return line.number, line.column + min(offset - self._starts[index], len(line.text))

    def _line_at(self, offset: int) -> int:
        return max(bisect_right(self._starts, offset) - 1, 0)

    def span(self, start: int = 0, end: int | None = None) -> Span:
        """The place in the file of ``text[start:end]``, as in a slice: what is beyond the text is its end."""
        stop = len(self.text) if end is None else min(end, len(self.text))
        line, column = self._place(start)
        if stop <= start:
            return Span(line, column, line, column)
        index = self._line_at(stop - 1)
        last = self.lines[index]
        # The space that joins two lines is in neither of them.
        return Span(line, column, last.number, last.column + min(stop - self._starts[index], len(last.text)))


class ReadStatement(Statement):
    """A statement whose ``text`` is its reading: offsets are the reading's, spans lead back to the file all the same."""

    __slots__ = ("_reading",)

    def __init__(self, lines: list[BlockLine], reading: Reading) -> None:
        super().__init__(lines)
        self._reading = reading
        self.text = reading.text

    def span(self, start: int = 0, end: int | None = None) -> Span:
        return super().span(*self._reading.place(start, len(self.text) if end is None else end))

    def own(self, word: str) -> str:
        return self._reading.own.get(word, word)

    def as_written(self, start: int, end: int | None = None) -> str:
        stop = len(self.text) if end is None else end
        first, last = self._reading.place(start, stop)
        return self.written[first:last] if stop > start else ""

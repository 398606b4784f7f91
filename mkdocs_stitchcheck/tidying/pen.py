"""Small edits of one statement, each made only where the writer's own signs allow it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from itertools import accumulate

from .. import late_re as re
from ..findings import Edit
from ..language.normalise import normalise
from ..source import Statement

_ENTITY = re.compile(r"&#?\w{1,8};")


class Pen:
    """Collects edits of *statement*, whose offsets are those of its syntax tree.

    An edit is refused where it would cross another one or the end of a line, or take away one half of a pair of
    marks that the reading passes over (``**`` around a label, a tag): then the place stays as it is.
    """

    def __init__(self, statement: Statement) -> None:
        self.statement = statement
        self.text = statement.text
        self.written = statement.written
        lengths = accumulate(len(line.text) + 1 for line in statement.lines)
        self._line_ends = [total - 1 for total in lengths][:-1]
        self._owner = [0] * (len(self.text) + 1)
        self._edits: dict[tuple[int, int], str] = {}

    def replace(self, start: int, end: int, new: str) -> bool:
        """Put *new* in the place of ``text[start:end]``; whether the place now reads so."""
        if not 0 <= start <= end <= len(self.text) or self._crosses_line(start, end):
            return False
        if self.written[start:end] == new:
            return True
        if not _only_reads(self.written[start:end], self.text[start:end]):
            return False
        if start < end and self.written[start - 1 : start] == "\\" and self.text[start - 1] == " ":
            start -= 1  # the backslash that kept Markdown from reading the sign goes with it
        if self._taken(start, end):
            return False
        self._edits[start, end] = new
        number = len(self._edits)
        for place in range(start, end):
            self._owner[place] = number
        return True

    def insert(self, at: int, new: str) -> bool:
        """Put *new* before ``text[at]``."""
        return self.replace(at, at, new)

    def one_line(self, start: int, end: int) -> bool:
        """Whether ``text[start:end]`` stands in one line of the file."""
        return not self._crosses_line(start, end)

    def _crosses_line(self, start: int, end: int) -> bool:
        index = bisect_left(self._line_ends, start)
        return index < len(self._line_ends) and self._line_ends[index] < end

    def _taken(self, start: int, end: int) -> bool:
        if start == end:
            inside = 0 < start < len(self._owner) and self._owner[start - 1] == self._owner[start] != 0
            return inside or (start, end) in self._edits
        return any(self._owner[start:end]) or any((at, at) in self._edits for at in range(start + 1, end))

    def edits(self) -> Iterator[Edit]:
        """The edits in order of place, in lines and columns of the file."""
        for (start, end), new in sorted(self._edits.items()):
            yield Edit(self.statement.span(start, end), new)


def _only_reads(written: str, text: str) -> bool:
    """Whether *written* differs from the *text* it is read as by nothing but its signs (dashes, entities, escapes)."""
    at = 0
    while at < len(written):
        sign, read = written[at], text[at]
        if sign == "_" or (sign != read and not sign.isspace() and read == " " and sign not in "\\&"):
            return False
        if sign == "&" and (entity := _ENTITY.match(written, at)) and normalise(entity[0]) == text[at : entity.end()]:
            at = entity.end()
            continue
        if sign != read and normalise(sign) != read and not (sign == "\\" and read == " " and at + 1 < len(written)):
            return False
        at += 1
    return True

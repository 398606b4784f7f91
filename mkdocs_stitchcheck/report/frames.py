"""The code frame of a message: the writer's line with its number, and marks under the places that are meant."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..source import Source, Span
from .display import Paint, visible, width

_GUTTER = 7
_ELLIPSIS = "..."
_BEFORE = 30  # columns kept before the first mark of a line that is too long to show


@dataclass(frozen=True, slots=True)
class Mark:
    """A place to be marked, and what is said beside the mark (may be empty)."""

    span: Span
    label: str = ""


def frame(source: Source, marks: Sequence[Mark], room: int, paint: Paint, severity: str) -> Iterator[str]:
    """The lines of the frame for *marks*: each line of *source* that one begins on, once, with what is marked in it.

    ``room`` is how many columns of a line are shown; a longer one is cut around its marks.
    """
    by_line: dict[int, list[Mark]] = {}
    for mark in marks:
        by_line.setdefault(mark.span.line, []).append(mark)
    gutter = max(_GUTTER, *(len(str(number)) for number in by_line))
    bar = paint("dim", " " * gutter + " |")
    for number, on_line in sorted(by_line.items()):
        shown = _Shown(source.line(number), on_line, room)
        yield f"{paint('dim', f'{number:>{gutter}} |')} {shown.text}".rstrip()
        for carets, label in _caret_lines(shown, on_line):
            yield f"{bar} {paint(severity, carets)}{' ' + paint(severity, visible(label)) if label else ''}"


def _caret_lines(shown: _Shown, marks: list[Mark]) -> Iterator[tuple[str, str]]:
    """Carets and label. All marks are on one line while at most one of them has something to say."""
    labelled = [mark for mark in marks if mark.label]
    if len(labelled) <= 1:
        yield _carets(shown.places(marks)), labelled[0].label if labelled else ""
        return
    plain = [mark for mark in marks if not mark.label]
    if plain:
        yield _carets(shown.places(plain)), ""
    for mark in sorted(labelled, key=lambda mark: -mark.span.column):
        yield _carets(shown.places([mark])), mark.label


def _carets(places: Iterable[tuple[int, int]]) -> str:
    drawn = ""
    for start, end in sorted(places):
        drawn = drawn.ljust(start)
        drawn += "^" * (end - len(drawn))
    return drawn


class _Shown:
    """A line as it is shown: its text, cut where it is too long, and where a column of the file stands in it."""

    def __init__(self, line: str, marks: list[Mark], room: int) -> None:
        first = min(max(mark.span.column - 1, 0) for mark in marks)
        # Only this stretch of a line of megabytes is ever looked at.
        start = max(0, first - room) if len(line) > room else 0
        line, self._offset = line[start : start + 4 * room], start
        cut_before, cut_after = start > 0, len(line) == 4 * room
        widths = [width(character) for character in line]
        begin, end = 0, len(line)
        if cut_before or cut_after or sum(widths) > room:
            at = min(first - start, len(line))
            begin = _back(widths, at, _BEFORE) if cut_before or sum(widths[:at]) > _BEFORE else 0
            end = _forward(widths, begin, room)
            cut_before, cut_after = cut_before or begin > 0, cut_after or end < len(line)
        head = _ELLIPSIS if cut_before else ""
        self.text = head + visible(line[begin:end]) + (_ELLIPSIS if cut_after else "")
        self._begin, self._end = begin, end
        self._at = [len(head)]
        for character_width in widths[begin:end]:
            self._at.append(self._at[-1] + character_width)

    def _column(self, column: int) -> int:
        return self._at[min(max(column - 1 - self._offset, self._begin), self._end) - self._begin]

    def places(self, marks: Iterable[Mark]) -> Iterator[tuple[int, int]]:
        """Start and end of each mark in the shown text; one that goes on in the next line ends with this one."""
        for mark in marks:
            span = mark.span
            start = self._column(span.column)
            end = self._column(span.end_column) if span.end_line == span.line else self._at[-1]
            yield start, max(end, start + 1)


def _back(widths: list[int], at: int, columns: int) -> int:
    while at > 0 and columns > 0:
        at -= 1
        columns -= widths[at]
    return at


def _forward(widths: list[int], at: int, columns: int) -> int:
    while at < len(widths) and columns >= widths[at]:
        columns -= widths[at]
        at += 1
    return at

"""Columns as the hosts count them: a tab runs to the next multiple of four, and a prefix may end inside one."""

from __future__ import annotations

from .. import late_re as re

TAB = 4
_PREFIX = re.compile(r"[> \t]*")


def prefix_end(line: str) -> int:
    """The offset behind the blanks and quote marks at the front of a line."""
    return _PREFIX.match(line).end() if line[:1] in ("", ">", " ", "\t") else 0  # type: ignore[union-attr]


def expanded(line: str) -> str:
    """The line as Python-Markdown sees it after it has replaced tabs."""
    return line.expandtabs(TAB) if "\t" in line else line


def offset_at(line: str, width: int) -> int:
    """The offset in *line* of what stands at *width* columns; a tab that reaches over that place is kept whole.

    The hosts would leave the rest of such a tab as blanks. The tab itself is what stands in the file, and it means the
    same to a reader: this line is indented deeper.
    """
    if "\t" not in line[:width]:
        return min(width, len(line))
    column = 0
    for index, char in enumerate(line):
        step = TAB - column % TAB if char == "\t" else 1
        if column + step > width:
            return index
        column += step
    return len(line)

"""Where a fence ends: superfences' own rules, which Python-Markdown's plain fences share at the edge of a page."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from enum import Enum, auto

from .columns import expanded, prefix_end
from .opening import Opening, read_opening


class Ending(Enum):
    """How a fence ends."""

    CLOSED = auto()  # by its closing fence
    MEANT = auto()  # by a line surely meant to close it, with other marks or indentation
    REOPENED = auto()  # by the next opening fence
    LEFT = auto()  # by a line outside the list or quote in which it stands
    FILE = auto()  # by the end of the file


@dataclass(frozen=True, slots=True)
class Fence:
    """A fence as opened: ``width`` columns stand before it, ``quotes`` of them quote marks."""

    opening: Opening
    line: int
    width: int
    quotes: int


def fence_at(line: str, number: int, opening: Opening) -> Fence:
    """The fence that *opening* opens in *line*."""
    prefix = expanded(line[: opening.at])
    return Fence(opening, number, len(prefix), prefix.count(">"))


class _Lines:
    """The lines with tabs expanded, and of each the width of its prefix and the columns of the quote marks in it."""

    def __init__(self, lines: list[str]) -> None:
        self.texts = [expanded(line) for line in lines]
        self.prefixes = [prefix_end(text) for text in self.texts]
        # The last line that holds nothing but these marks: after it no fence with them can close.
        self.last_bare: dict[str, int] = {}
        # The narrowest prefix from here to the end of the file.
        self.narrowest = [1 << 60] * (len(lines) + 1)
        for index in range(len(lines) - 1, -1, -1):
            text, prefix = self.texts[index], self.prefixes[index]
            if text[prefix : prefix + 1] in ("`", "~"):
                bare = text[prefix:].rstrip(" ")
                if not bare.strip(bare[0]):
                    self.last_bare.setdefault(bare, index)
            blank = prefix == len(text)
            self.narrowest[index] = min(self.narrowest[index + 1], 1 << 60 if blank else prefix)
        self._quotes: dict[int, list[int]] = {}

    def quotes(self, index: int, width: int) -> int:
        """How many quote marks stand in the prefix of a line, before *width*."""
        text, prefix = self.texts[index], self.prefixes[index]
        if ">" not in text[: min(prefix, 4)] and text.find(">", 0, prefix) < 0:
            return 0
        columns = self._quotes.get(index)
        if columns is None:
            columns = self._quotes[index] = [at for at in range(prefix) if text[at] == ">"]
        return bisect_left(columns, width)


class Closings:
    """Finds the ends of fences in the lines of a file; remembers failures, so that no stretch is searched twice."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = _Lines(lines)
        self._failed: dict[tuple[str, int, int], tuple[int, Ending, int]] = {}
        self._loose: dict[str, tuple[int, int]] = {}

    def find(self, fence: Fence, pattern: bool) -> tuple[Ending, int]:
        """How the fence ends and the index of the line that ends it.

        With ``pattern`` a line that can only be a slip (another opening, a closing fence of other length) ends it too.
        Otherwise the index is right only for a fence that is closed.
        """
        if pattern:
            return self._search(fence, pattern)
        if self.lines.last_bare.get(fence.opening.mark, -1) <= fence.line:
            left = self.lines.narrowest[fence.line + 1] < fence.width
            return (Ending.LEFT if left else Ending.FILE), len(self.lines.texts)
        key = (fence.opening.mark, fence.width, fence.quotes)
        since, ending, at = self._failed.get(key, (0, Ending.FILE, -1))
        if since < fence.line < at:
            return ending, at
        ending, at = self._search(fence, pattern)
        if ending is not Ending.CLOSED:
            self._failed[key] = (fence.line, ending, at)
        return ending, at

    def _search(self, fence: Fence, pattern: bool) -> tuple[Ending, int]:
        mark, empty, lines = fence.opening.mark, False, self.lines
        for index in range(fence.line + 1, len(lines.texts)):
            text, prefix = lines.texts[index], lines.prefixes[index]
            width = min(fence.width, prefix)
            quotes = lines.quotes(index, width) if width else 0
            if width == len(text) or (not fence.quotes and prefix == len(text) and not text.strip(" ")):
                if quotes > fence.quotes:
                    return Ending.LEFT, index
                empty = True
            elif self._left(fence, width, quotes, empty):
                return Ending.LEFT, index
            elif text.startswith(mark, width) and not text[width + len(mark) :].strip(" "):
                return Ending.CLOSED, index
            else:
                empty = False
                slip = _slip(text, width, mark) if pattern else None
                if slip:
                    return slip, index
        return Ending.FILE, len(lines.texts)

    @staticmethod
    def _left(fence: Fence, width: int, quotes: int, empty: bool) -> bool:
        if fence.quotes:
            return quotes > fence.quotes or width < fence.width or (empty and quotes < fence.quotes)
        return quotes > 0 or width != fence.width

    def find_loose(self, line: int, mark: str) -> int:
        """The index of the next line that holds nothing but *mark*, -1 if another fence opens before or none comes."""
        since, at = self._loose.get(mark, (0, -1))
        if since < line < at:
            return -1
        texts, prefixes = self.lines.texts, self.lines.prefixes
        for index in range(line + 1, len(texts)):
            text = texts[index][prefixes[index] :].rstrip(" ")
            if text == mark:
                return index
            if text.startswith(("```", "~~~")) and text.strip("`~"):
                self._loose[mark] = (line, index)
                return -1
        self._loose[mark] = (line, len(texts))
        return -1


def _slip(text: str, width: int, mark: str) -> Ending | None:
    """What a line of a pattern can only mean: a closing fence that does not close, or an opening fence."""
    at = text.find(mark, width, width + len(mark) + 3)
    if at < 0 or text[width:at].strip(" "):
        return None
    if not text[at:].strip(" ").strip(mark[0]):
        return Ending.MEANT
    opening = read_opening(text, at)
    return Ending.REOPENED if opening and opening.word else None

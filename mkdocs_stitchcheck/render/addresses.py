"""Lasting addresses: ``#<pattern>-<piece>-rnd-9``, the same for as long as the names and numbers stay."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence

from ..language import syntax
from ..results import FileResult

_GAP = re.compile(r"[^\w]+|_+")
_LONGEST = 60
MOST_BOXES = 100  # a range with more rounds than this gets one address and one box


def slug(name: str, default: str) -> str:
    """*name* in lower case with hyphens, without accents, at most 60 characters; *default* where nothing is left."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", name[:400].lower()) if not unicodedata.combining(c))
    return _GAP.sub("-", plain)[:_LONGEST].strip("-") or default


def own_names(titles: Sequence[str]) -> list[str]:
    """A name for each title, no two alike: a later one of the same name has a number."""
    found: list[str] = []
    for title in titles:
        name, number = slug(title, "pattern"), 1
        start = name
        while name in found:
            number += 1
            name = f"{start[: _LONGEST - 5]}-{number}"
        found.append(name)
    return found


def rounds_of(label: syntax.RoundLabel | None) -> Iterator[int]:
    """The numbers that a line covers, in order; only the first where there are too many to list."""
    if label is None or not label.numbers:
        return
    numbers = label.numbers
    if len(numbers) == 1 and len(label.written) > 1:  # "Rnds 6-18 (22, 26)": as far as the largest size goes
        numbers = ((numbers[0][0], max(numbers[0][1], *(last or 0 for last in label.written[-1].values))),)
    if sum(last - first + 1 for first, last in numbers) > MOST_BOXES:
        yield numbers[0][0]
        return
    for first, last in numbers:
        yield from range(first, last + 1)


class Addresses:
    """The ids of one file's patterns, pieces and rounds. ``prefix`` keeps posts apart that share a page."""

    def __init__(self, file: FileResult, prefix: str = "") -> None:
        self._used: Counter[str] = Counter()
        self._pieces: dict[int, str] = {}
        self._patterns: dict[int, str] = {}
        self._rounds: dict[tuple[int, int], str] = {}
        start = f"{slug(prefix, 'page')}-" if prefix else ""
        for pattern in file.patterns:
            name = self._unique(start + slug(pattern.title or pattern.syntax.title, "pattern"))
            self._patterns[id(pattern.syntax)] = name
            for piece in pattern.syntax.pieces:
                self._add_piece(name, piece)

    def _unique(self, name: str) -> str:
        while True:
            self._used[name] += 1
            if self._used[name] == 1:
                return name
            name = f"{name}-{self._used[name]}"

    def _add_piece(self, pattern: str, piece: syntax.Piece) -> None:
        name = self._unique(f"{pattern}-{slug(piece.name, 'piece')}")
        self._pieces[id(piece)] = name
        for line in piece.lines:
            if isinstance(line, syntax.RoundLine) and line.label is not None:
                word = "row" if line.label.kind == "row" else "rnd"
                for number in rounds_of(line.label):
                    self._rounds[id(line), number] = self._unique(f"{name}-{word}-{number}")

    def pattern(self, pattern: syntax.Pattern) -> str:
        """The id of a pattern's first block."""
        return self._patterns[id(pattern)]

    def piece(self, piece: syntax.Piece) -> str:
        """The id of a piece's heading."""
        return self._pieces[id(piece)]

    def round(self, line: syntax.RoundLine, number: int) -> str | None:
        """The id of round *number*, which *line* covers; None where it has none of its own."""
        return self._rounds.get((id(line), number))

"""The patterns that drawings are tested with: every right pattern of the cases and of the example site."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.counting.in_full import InFull, in_full
from mkdocs_stitchcheck.results import PatternResult, PieceResult

HERE = Path(__file__).parent
_BLOCK = re.compile(r"^```crochet\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def checked(text: str) -> PatternResult:
    """The one pattern of *text*, which stands in no fence."""
    (pattern,) = check_text(f"```crochet\n{text}\n```\n", "page.md").patterns
    return pattern


@cache
def all_patterns() -> tuple[PatternResult, ...]:
    """Every pattern of the cases and of the example site."""
    found: list[PatternResult] = []
    for path in sorted((HERE / "cases").rglob("*.md")):
        for text in _BLOCK.findall(path.read_text(encoding="utf-8")):
            found += check_text(f"```crochet\n{text}```\n", "page.md").patterns
    for path in sorted((HERE.parent / "site_example" / "docs").rglob("*.md")):
        found += check_text(path.read_text(encoding="utf-8"), "page.md").patterns
    return tuple(found)


@cache
def all_pieces() -> tuple[tuple[PatternResult, PieceResult, InFull], ...]:
    """Every piece of them that can be taken apart stitch by stitch."""
    found = []
    for pattern in all_patterns():
        full = in_full(pattern)
        found += [(pattern, piece, full[id(piece)]) for piece in pattern.pieces]
    return tuple(found)


def counted(piece: PieceResult) -> Iterator[int]:
    """The checked count of each round and row of the first size."""
    for line in piece.rounds:
        if line.counts and line.makes[0] is not None:
            yield from [made or 0 for _used, made in line.each] or [line.makes[0]] * line.worked

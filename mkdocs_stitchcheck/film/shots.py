"""The shots that a designer notes to herself: ``>> Photograph: the muzzle from the side``, by piece and round."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..language import syntax
from ..render.words import clean, label_text
from ..results import PatternResult

_SHOT = re.compile(r"\s*>>\s*(?:photo(?:graph)?s?|pictures?|shots?|film)\s*[:：]\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Shot:
    """What is to be photographed, after which round of which piece ("" before its first), and the file line."""

    piece: str
    after: str
    words: str
    line: int


def shots(pattern: PatternResult) -> list[Shot]:
    """Every ``>> Photograph:`` note of a pattern, in order."""
    found = []
    for piece in pattern.syntax.pieces:
        after = ""
        for line in piece.lines:
            if isinstance(line, syntax.RoundLine) and line.label is not None:
                after = label_text(line)
            match = _SHOT.match(line.statement.written) if line.kind == "private" else None
            if match is not None:
                found.append(Shot(piece.name, after, clean(line.statement.written[match.end() :]), line.line))
    return found

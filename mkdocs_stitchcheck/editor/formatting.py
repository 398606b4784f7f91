"""The house style of ``stitchcheck tidy`` as an editor's formatting: line by line, so that the pointer stays."""

from __future__ import annotations

from lsprotocol import types

from ..findings import Edit
from ..settings import HouseStyle
from ..source import Source, Span
from ..tidying import tidy
from .page import Page


def formatted(page: Page, style: HouseStyle) -> list[types.TextEdit]:
    """One edit for each line that is rewritten; none where the rounds are in one style already."""
    new = Source(tidy(page.text, page.check, style).text)
    return [
        page.text_edit(Edit(Span(number, 1, number, len(page.source.line(number)) + 1), new.line(number)))
        for number in range(1, len(page.source.lines) + 1)
        if page.source.line(number) != new.line(number)
    ]

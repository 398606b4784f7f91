"""One number of a list for the sizes, where it stands in the text."""

from __future__ import annotations

from .. import late_re as re
from ..language import syntax

_ENTRY = re.compile(r"\d+")


def entry(number: syntax.Number, text: str, size: int) -> tuple[int, int] | None:
    """Where the number of *size* stands: all of *number* where it is one for all sizes; None where that is not plain."""
    if len(number.values) < 2:
        return number.start, number.end
    if size >= len(number.values) or None in number.values:
        return None
    found = list(_ENTRY.finditer(text, number.start, number.end))
    return found[size].span() if len(found) == len(number.values) else None

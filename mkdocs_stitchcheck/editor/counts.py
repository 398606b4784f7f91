"""The count of each round so far, at the end of its line."""

from __future__ import annotations

from lsprotocol import types

from ..results import RoundResult, Status
from .page import Page


def hints(page: Page, first: int, last: int) -> list[types.InlayHint]:
    """A hint for each counted line from line *first* to *last* (from 1): what it makes, or why that is not known."""
    found = []
    for pattern in page.result.patterns:
        for line in pattern.rounds:
            number = line.syntax.statement.lines[-1].number
            said = said_of(line)
            if said and first <= number <= last:
                place = page.range_of(page.end_of_line(number)).start
                found.append(
                    types.InlayHint(place, said, padding_left=True, tooltip=types.MarkupContent(_PLAIN, told(line)))
                )
    return found


_PLAIN = types.MarkupKind.PlainText


def said_of(line: RoundResult) -> str:
    """"✓" behind a count that is right, "= 24" where none is written, "makes 24" where another one is."""
    if line.status is Status.CHECKED and any(count is not None for count in line.stated):
        return "✓"
    if line.status is Status.ON_TRUST:
        return "on trust"
    made = by_size(line.makes)
    if not made or line.kind == "step":
        return ""
    return f"makes {made}" if line.status is Status.MISMATCH else f"= {made}"


def by_size(counts: tuple[int | None, ...]) -> str:
    """"24", or "24 (30, 36)" where the sizes differ; empty where a size's count is not known."""
    if any(count is None for count in counts) and not any(count is not None for count in counts):
        return ""
    words = ["–" if count is None else f"{count}" for count in counts]
    if len(set(words)) == 1:
        return words[0]
    return f"{words[0]} ({', '.join(words[1:])})"


def told(line: RoundResult) -> str:
    """A sentence on what the line is worked into and makes."""
    parts = []
    used, made = by_size(line.uses), by_size(line.makes)
    if used and made:
        parts.append(f"works into {used} and makes {made} stitches")
    elif made:
        parts.append(f"makes {made} stitches")
    if line.worked > 1:
        parts.append(f"{line.worked} rounds" if line.kind == "round" else f"{line.worked} times")
    if line.status is Status.ON_TRUST:
        parts.append(f"taken on trust: {line.trust}" if line.trust else "taken on trust")
    label = line.label or "It"
    return f"{label}: {'; '.join(parts)}." if parts else f"{label}: its count is not known."

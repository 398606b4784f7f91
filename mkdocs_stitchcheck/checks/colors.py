"""Colours that are used and not declared, and the other way round: unlisted-color and unused-color."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings, Label
from ..language import syntax
from ..results import PatternResult
from ..source import Statement
from .reading import WORKED, all_words, steps

_NAMED = re.compile(r"\b(?:colou?r|col\.?) ([A-Z](?![\w'])|[MC]C\d?\b)")
# Words after "change to" that name no certain colour.
_OPEN_WORDS = (
    "next other another new main contrast contrasting second first third same this that either both any old desired "
    "each every your it color colour yarn one"
)
_OPEN = frozenset(_OPEN_WORDS.split())


def check_colors(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unlisted-color and unused-color, in a pattern that declares colours. Notes and the page's prose count as use."""
    if pattern.header.colors:
        _unlisted(pattern, findings)
        _unused(pattern, result, findings)


# --- used, not declared -----------------------------------------------------------------------------------------


def _unlisted(pattern: syntax.Pattern, findings: Findings) -> None:
    """Once a colour, with the other places."""
    places: dict[str, list[tuple[Statement, int, int]]] = {}
    for statement, start, end, name in _mentions(pattern):
        if not _declared(name, pattern.header.colors):
            known = places.setdefault(name.lower(), [])
            if not known or known[-1][0] is not statement:  # what one statement names comes in a row
                known.append((statement, start, end))
    for found in places.values():
        statement, start, end = found[0]
        name = statement.written[start:end]
        shown = f"Color {name}" if len(name) <= 3 else f"The colour {name}"
        findings.add(
            "unlisted-color", statement.span(start, end), f"{shown} is not in the materials.",
            suggestion=f"Add it, as in Color {name if len(name) <= 3 else 'D'}: cream, 5 g, or write a listed one.",
            also=tuple(Label(other.span(a, b)) for other, a, b in found[1:]),
        )


def _mentions(pattern: syntax.Pattern) -> Iterator[tuple[Statement, int, int, str]]:
    """Each colour that headings and rounds name, as (statement, start, end, name)."""
    for piece in pattern.pieces:
        if piece.heading is not None:
            yield from _in_text(piece.heading)
        for line in piece.lines:
            if line.kind not in WORKED:
                continue
            yield from _in_text(line.statement)
            for step in steps(line):
                if isinstance(step, syntax.ColorChange) and step.color is None and step.name:
                    at = line.statement.text.find(step.name, step.start)
                    if at >= 0 and not _OPEN & set(step.name.lower().split()):
                        yield line.statement, at, at + len(step.name), step.name


def _in_text(statement: Statement) -> Iterator[tuple[Statement, int, int, str]]:
    for match in _NAMED.finditer(statement.text) if "col" in statement.text else ():
        yield statement, match.start(1), match.end(1), match.group(1)


def _declared(name: str, colors: dict[str, syntax.Color]) -> bool:
    lowered = name.lower()
    if any(lowered == key.lower() for key in colors):
        return True
    return len(name) > 2 and any(
        lowered in color.name.lower() or color.name and color.name.lower() in lowered for color in colors.values()
    )


# --- declared, not used -----------------------------------------------------------------------------------------


def _unused(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    used = {piece.color for piece in pattern.pieces} | _worked(pattern, result)
    used |= {color for piece in pattern.pieces for color, _number in piece.copies}
    if any(piece.color is None and not piece.making_up for piece in pattern.pieces):
        used.add("MC" if "MC" in pattern.header.colors else next(iter(pattern.header.colors)))
    words = all_words(pattern)
    for key, color in pattern.header.colors.items():
        if key in used or _mentioned(key, color.name, words):
            continue
        statement = color.statement
        at = max(statement.text.find(color.name), 0) if color.name else 0
        label = f"Color {key} ({color.name})" if color.name and color.name != key else f"Color {key}"
        findings.add(
            "unused-color", statement.span(at, at + len(color.name) if color.name else None),
            f"{label} is in the materials, and nothing is worked in it.",
            suggestion="Leave it out, or say where it is used; a note counts.",
        )


def _worked(pattern: syntax.Pattern, result: PatternResult) -> set[str | None]:
    """The colours of the rounds, as read and as counted."""
    used: set[str | None] = {color for line in result.rounds for color in (line.color, *line.colors)}
    for piece in pattern.pieces:
        for line in piece.lines:
            for step in steps(line):
                if isinstance(step, syntax.ColorChange | syntax.Work):
                    used.add(step.color)
    return used


def _mentioned(key: str, name: str, words: str) -> bool:
    """Whether words name a colour: by its key where that can be no article, by its name or the last word of it."""
    letter = re.escape(key)
    led = rf"(?:colou?rs?|col\.?|yarns?|with|in|to|use|using|and|or|of|[(\[{{/,&+]|\d) ?{letter}(?![\w'])"
    if re.search(rf"{led}|(?<![\w']){letter} ?[:)\]}}=]", words):
        return True
    lowered = words.lower()
    names = {name.lower(), name.lower().rpartition(" ")[2]} - {""}
    return any(re.search(rf"(?<!\w){re.escape(one)}(?!\w)", lowered) for one in names if len(one) > 2)

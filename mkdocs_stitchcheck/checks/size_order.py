"""Lists of sizes that don't grow, counts that are left out, and lengths that the rows don't give."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from .. import late_re as re
from ..estimates.fabric import course_of
from ..estimates.gauging import measure_of
from ..findings import Findings, Label
from ..language import syntax
from ..language.scanning import find
from ..language.units import SIZE
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Span
from .reading import made

TOLERANCE = 0.25


def check_size_order(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """sizes-out-of-order: a measure or the first count of a piece grows with the sizes, and one entry falls back."""
    names = pattern.header.sizes
    if len(names) < 3:
        return
    for span, values in (*_measures(pattern), *_first_counts(result)):
        known = [value for value in values if value]
        if len(values) != len(names) or len(known) != len(values) or known[-1] <= known[0]:
            continue
        at = next((at for at, (one, other) in enumerate(pairwise(known)) if other < one), None)
        if at is not None:
            findings.add(
                "sizes-out-of-order", span,
                f"The list grows with the sizes, but {names[at + 1]} has {known[at + 1]:g} and {names[at]} has {known[at]:g}.",
                suggestion="Compare the two numbers; two of them may have changed places.",
            )


def check_size_lists(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """sizes-disagree in the header: a measure or an amount with three numbers or more, and not one for each size."""
    names = pattern.header.sizes
    if len(names) < 2:
        return
    for line in pattern.header.lines:
        if line.key not in ("finished size", "color"):
            continue
        for one in find(line.statement.text, line.value_start):
            if len(one.values) > 2 and len(one.values) != len(names):
                findings.add(
                    "sizes-disagree", line.statement.span(one.start, one.end),
                    f"These are {len(one.values)} numbers, but the pattern has {len(names)} sizes.",
                    suggestion="Write one number for each size.",
                )


def _measures(pattern: syntax.Pattern) -> Iterator[tuple[Span, tuple[float, ...]]]:
    for line in pattern.header.lines:
        if line.key in ("finished size", "sizes", "color", "yarn"):
            text = line.statement.text
            for one in find(text, line.value_start):
                if len(one.values) == len(pattern.header.sizes):
                    yield line.statement.span(one.start, one.end), tuple(one.values)


def _first_counts(result: PatternResult) -> Iterator[tuple[Span, tuple[int | None, ...]]]:
    for piece in result.pieces:
        first = piece.rounds[0] if piece.rounds else None
        if first is None or first.kind != "foundation":
            continue
        for step in first.syntax.steps or ():
            if isinstance(step, syntax.Chain):
                yield first.syntax.statement.span(step.number.start, step.number.end), step.number.values


# --- counts left out ------------------------------------------------------------------------------------------------

_MOSTLY = 0.75
_ENOUGH = 5


def check_counts_left_out(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """count-left-out: most rounds that change the number of stitches say it, and a few don't. Once a pattern."""
    changing = [line for line in result.rounds if line.counts and _changes(line)]
    without = [line for line in changing if not line.syntax.stated]
    if len(changing) < _ENOUGH or not without or len(without) > len(changing) * (1 - _MOSTLY):
        return
    first = without[0]
    others = f" So do {len(without) - 1} more rounds." if len(without) > 2 else " So does 1 more." if len(without) == 2 else ""
    findings.add(
        "count-left-out", first.syntax.statement.span(*first.syntax.body),
        f"{first.label} changes the number of stitches and doesn't say it; it makes {made(first)}.{others}",
        suggestion=f"Write ({made(first)}) at its end.",
        also=tuple(Label(line.syntax.statement.span(*line.syntax.body)) for line in without[1:]),
    )


def _changes(line: RoundResult) -> bool:
    return bool(line.uses and line.makes and line.makes[0] is not None and line.uses[0] != line.makes[0])


# --- lengths --------------------------------------------------------------------------------------------------------

_OTHERWISE = re.compile(r"\b(?:wide|across|width|until|from|around|each|per)\b", re.IGNORECASE)
_MEASURES = re.compile(r"\b(?:measures?|is now|should be)\b[^.\d]{0,30}(?=\d)", re.IGNORECASE)


def check_lengths(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """length-disagrees: a note says what a piece in rows measures by now, and rows and gauge give another length."""
    row_cm = pattern.header.gauge.row_cm if pattern.header.gauge else None
    if row_cm is None or pattern.header.sizes or measure_of(result).row_cm is None:
        return
    for piece in result.pieces:
        if piece.flat and not piece.syntax.continued:
            _of_piece(piece, pattern, row_cm, findings)


def _of_piece(piece: PieceResult, pattern: syntax.Pattern, row_cm: float, findings: Findings) -> None:
    for line in piece.syntax.lines:
        statement = line.statement.as_read()
        match = _MEASURES.search(statement.text) if line.kind in ("note", "step") else None
        found = next((one for one in find(statement.text, match.end()) if one.unit in ("cm", "in", "mm")), None) if match else None
        if found is None or _OTHERWISE.search(statement.text):
            continue
        rows = [one for one in piece.rounds if one.counts and one.line <= line.line]
        if any(made(one) is None or one.trust for one in rows):
            continue
        comes_to = sum(course_of(one, pattern.header).height * one.worked for one in rows) * row_cm
        stated = found.value * SIZE[found.unit] / SIZE["cm"]
        if rows and comes_to and not comes_to * (1 - TOLERANCE) <= stated <= comes_to * (1 + TOLERANCE):
            shown = comes_to * SIZE["cm"] / SIZE[found.unit]
            findings.add(
                "length-disagrees", statement.span(found.start, found.end),
                f"By the gauge, the rows so far are about {shown:.0f} {found.unit} long, not {found.value:g} {found.unit}.",
                suggestion="Measure it again, or compare the number of rows.", piece=piece.name,
            )

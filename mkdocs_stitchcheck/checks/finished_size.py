"""Whether the finished size can be what gauge and rounds come to: finished-size.

A pattern does not say how its pieces are put together, so every reading that makes sense is let pass: the largest piece
by itself, or with the other large ones on top of it. Only a measure that none of them comes within 25 % of is reported.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.quantities import Length
from ..language.units import KIND, SIZE
from ..results import PatternResult

if TYPE_CHECKING:
    from ..estimates.size import PieceSize

TOLERANCE = 0.25
LARGE = 0.25  # of the largest piece's stitches: such a piece may stand on top of it

_WITHOUT = re.compile(r"\b(?:without|excluding|excl|not counting|not including|minus|before|from)\b", re.IGNORECASE)
_WITH = re.compile(r"\b(?:with|including|incl|to the (?:tips?|ends?) of)\b", re.IGNORECASE)
_EASE = re.compile(r"\bease\b", re.IGNORECASE)
_CLAUSE = re.compile(r"[,;.]")
_AROUND = ("around", "bust", "chest", "head", "waist", "hip")
_NO_SIZE = ("deep", "thick")  # depends on how it is put together


@dataclass(frozen=True, slots=True)
class Range:
    """What a measure may come to, in cm, and the pieces that give it. ``stuffed`` work stretches beyond it."""

    low: float
    high: float
    pieces: tuple[str, ...]
    stuffed: bool


def check_finished_size(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """finished-size: a stated measure is off by more than 25 % from what gauge and rounds give. Each size by itself."""
    if not pattern.header.finished:
        return
    from ..estimates.size import size_table  # estimates are read where a page asks for one

    table = size_table(result)
    names = list(dict.fromkeys(size.size for size in table.pieces))
    weights = _weights(result)
    for line, length, clause in _stated(pattern.header):
        if KIND.get(length.unit) != "length" or length.of in _NO_SIZE or _EASE.search(clause):
            continue
        for place, name in enumerate(names):
            sizes = [size for size in table.pieces if size.size == name]
            if any(not size.known for size in sizes if weights.get(size.piece, 0) > LARGE * max(weights.values())):
                continue  # a large piece is not known: nothing can be said
            stated = _of_size(length, place)
            found = _range([size for size in sizes if size.known], weights, length, clause)
            if stated is None or found is None or _agrees(stated, found):
                continue
            _report(line, length, (name, place), found, findings)
            break


def _stated(header: syntax.Header) -> Iterator[tuple[syntax.HeaderLine, Length, str]]:
    """Each measure with its line and the words around it up to the next comma."""
    waiting = list(header.finished)
    for line in header.lines:
        if line.key != "finished size":
            continue
        text, at = line.statement.text, line.value_start
        while waiting and (place := text.find(waiting[0].text, at)) >= 0 and waiting[0].text:
            length = waiting.pop(0)
            at = place + len(length.text)
            left = max((mark.end() for mark in _CLAUSE.finditer(text, line.value_start, place)), default=line.value_start)
            right = next((mark.start() for mark in re.finditer(r"[;]", text[at:])), len(text) - at) + at
            yield line, length, text[left:right]


def _of_size(length: Length, place: int) -> tuple[float, float] | None:
    """The stated measure in cm, low and high, in the size with this number."""
    per = SIZE[length.unit] / SIZE["cm"]
    if length.sizes:
        return (length.sizes[place] * per,) * 2 if place < len(length.sizes) else None
    return length.value * per, (length.high if length.high is not None else length.value) * per


def _agrees(stated: tuple[float, float], found: Range) -> bool:
    return stated[1] >= found.low * (1 - TOLERANCE) and stated[0] <= found.high * (1 + TOLERANCE)


def _weights(result: PatternResult) -> dict[str, int]:
    """The stitches of one copy of each piece: how large it is."""
    return {piece.name: sum(piece.stitches.values()) for piece in result.pieces}


# --- what it may come to ----------------------------------------------------------------------------------------------


def _range(sizes: list[PieceSize], weights: dict[str, int], length: Length, clause: str) -> Range | None:
    """What a measure may come to, over all readings that make sense; None where there is none."""
    if not sizes:
        return None
    named = _named(sizes, clause)
    if named and not _WITHOUT.search(clause) and not _WITH.search(clause):
        sizes = named
    largest = max(weights.get(size.piece, 0) for size in sizes)
    large = [size for size in sizes if weights.get(size.piece, 0) >= LARGE * largest]
    main = max(large, key=lambda size: weights.get(size.piece, 0))
    values = [value for size in large for value in _values(size, length.of)]
    if not values:
        return None
    own = _values(main, length.of)
    low = min(own) if len(large) == 1 and own else min(values)
    high = max(values)
    if length.of in ("tall", "long", "") and len(large) > 1:
        high = sum(max(found) for size in large if (found := _values(size, length.of)))
    if named and _WITH.search(clause):
        high += sum(max(found) for size in named if (found := _values(size, length.of)))
    stuffed = main.shape in ("round", "oval") and main.volume is not None and length.of not in _AROUND
    return Range(low, high, tuple(size.piece for size in large), stuffed and len(large) == 1)


def _values(size: PieceSize, of: str) -> list[float]:
    """The measures of a piece that may be meant by "long", "across" ..., in cm."""
    flat = size.shape == "flat"
    if of in _AROUND:
        if flat:
            values = [size.width, size.length, *(2 * value for value in (size.width, size.length) if value)]
        else:
            values = [size.around]
    elif of in ("wide", "across"):
        values = [size.width, size.depth, size.length if flat else None, size.around / 2 if size.around else None]
    elif size.length is None and size.shape not in ("disc", "motif", "flat oval"):
        values = []  # no rows in the gauge: a height is not known
    elif of in ("tall", "long") and not flat:
        values = [size.length, size.width if size.length is None or size.shape == "oval" else None]
    else:
        values = [size.length, size.width]
    return [value for value in values if value]


def _named(sizes: list[PieceSize], clause: str) -> list[PieceSize]:
    """The pieces that the words around a measure name."""
    words = re.findall(r"[a-z]+", clause.lower())
    stems = {word.removesuffix("s") for word in words} | set(words)
    return [size for size in sizes if size.piece and size.piece.lower().removesuffix("s") in stems]


# --- saying it ----------------------------------------------------------------------------------------------------------


def _report(
    line: syntax.HeaderLine, length: Length, size: tuple[str, int], found: Range, findings: Findings
) -> None:
    text = line.statement.text
    at = text.find(length.text, line.value_start)
    name, place = size
    written = f"{length.sizes[place]:g} {length.unit}" if length.sizes else length.text
    stated = f"{written} {length.of}".strip()
    of = f" for the {found.pieces[0]}" if len(found.pieces) == 1 and found.pieces[0] else ""
    in_size = f" in size {name}" if name else ""
    findings.add(
        "finished-size", line.statement.span(at, at + len(length.text)),
        f"The gauge and the rounds give about {_between(found, length.unit)}{of}{in_size}, not {stated}.",
        suggestion="Measure it again, or compare the gauge with the one you worked in.",
    )


def _between(found: Range, unit: str) -> str:
    """"7 to 8 cm": stuffing stretches the fabric by up to 15 %, and never makes it smaller."""
    from ..estimates.size import ROUND_ERROR

    per = SIZE["cm"] / SIZE[unit]
    low, high = found.low * per, found.high * per * (1 + ROUND_ERROR if found.stuffed else 1)
    halves = high < 5
    one, other = _rough(low, halves), _rough(high, halves)
    return f"{one} {unit}" if one == other else f"{one} to {other} {unit}"


def _rough(value: float, halves: bool) -> str:
    """Two digits at most, whole numbers; halves where small ones are told."""
    from ..estimates.rounding import rounded

    if not halves:
        return f"{rounded(value, 0.1):.0f}"
    return f"{max(0.5, round(value * 2) / 2):.1f}".removesuffix(".0")

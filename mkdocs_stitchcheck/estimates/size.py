"""The size of each piece, from its gauge and its counted rounds: length, width, the way around, and the room inside.

Work in the round by :mod:`.profile`, work in rows by :mod:`.outline`; each size of a pattern by itself. Stuffed work is
good to about 15 %, flat work to about 10 % (from memory). What cannot be known is said, and holds no number.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from .. import late_re as re
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from .fabric import course_of
from .gauging import Measure, measure_of
from .motif import Motif, as_motif, is_open, motif_of
from .outline import Outline, Row, edge_changes, outline
from .profile import Profile, Station, Stretch, is_ideal_ball, profile

ROUND_ERROR = 0.15  # trade practice for stuffed work
FLAT_ERROR = 0.10  # from memory
FLAT_FROM, FLAT_TO = 0.8, 1.25  # of the gain that lies flat

_SHUT = re.compile(
    r"(?<!not )\b(?:close[sd]?|closing|gather|cinch|(?:draw|pull|sew|sewn) (?:it |the (?:hole|end|opening) )?(?:shut|closed|tight|up))\b",
    re.IGNORECASE,
)
NEEDS_COUNTS = "rounds whose stitches can be counted"


@dataclass(frozen=True, slots=True)
class PieceSize:
    """One copy of a piece in one size, in cm; None where a measure is not known or means nothing.

    ``shape``: "round" (a body of revolution), "oval", "disc", "flat oval" and "motif" (worked in the round, lying flat;
    a motif has corners), "pressed" (in the round, then flattened), "flat" (rows). ``length`` is along the axis or the rows, ``width`` across,
    ``depth`` the narrower way through an oval, ``around`` the widest girth. ``volume`` in cubic cm, ``area`` of the
    fabric in square cm. ``missing`` says what is needed where there is no number.
    """

    piece: str
    make: int
    size: str = ""
    shape: str = ""
    length: float | None = None
    width: float | None = None
    depth: float | None = None
    around: float | None = None
    volume: float | None = None
    area: float | None = None
    error: float = ROUND_ERROR
    missing: tuple[str, ...] = ()

    @property
    def known(self) -> bool:
        """Whether there is any measure."""
        return self.length is not None or self.width is not None


@dataclass(frozen=True, slots=True)
class SizeTable:
    """The pieces in order, once a size; ``missing`` is what all of them lack."""

    pieces: tuple[PieceSize, ...] = ()
    missing: tuple[str, ...] = ()


def size_table(result: PatternResult) -> SizeTable:
    """The sizes of the pieces of a pattern that have rounds."""
    measure = measure_of(result)
    worked = [piece for piece in result.pieces if any(line.counts for line in piece.rounds)]
    if measure.stitch_cm is None:
        return SizeTable(missing=(*measure.missing, *(() if worked else (NEEDS_COUNTS,))))
    sizes = result.syntax.header.sizes or ("",)
    found = [size_of(piece, result, measure, place, name) for piece in worked for place, name in enumerate(sizes)]
    return SizeTable(tuple(size for size in found if size is not None), measure.missing)


def size_of(
    piece: PieceResult, result: PatternResult, measure: Measure, place: int = 0, name: str = ""
) -> PieceSize | None:
    """One piece in the size with number *place*, a motif with its chains and corners; None where that size has none."""
    return size_and_motif(piece, result, measure, place, name)[0]


def size_and_motif(
    piece: PieceResult, result: PatternResult, measure: Measure, place: int = 0, name: str = ""
) -> tuple[PieceSize | None, Motif | None]:
    """:func:`size_of`, and the motif that the piece is, for which its pattern is worked in full."""
    size = piece_size(piece, result.syntax.header, measure, place, name)
    motif = _motif_in(piece, result) if size is not None and size.shape in ("disc", "round") and not place else None
    return as_motif(size, motif, measure) if size is not None and motif is not None else size, motif


def _motif_in(piece: PieceResult, result: PatternResult) -> Motif | None:
    """The motif that a piece is: begun in a ring, with chains between its stitches, open at its end and flat."""
    lines = [line for line in piece.rounds if line.counts]
    if not is_open(piece) or drawn_shut(piece) or piece.flat or _used(lines[0], 0) or chain_along(piece) is not None:
        return None
    motif = motif_of(result, piece)
    if motif is None or motif.corners:
        return motif
    flat = sum(course_of(line, result.syntax.header).flat * line.worked for line in lines)
    return motif if motif.around[-1][1] >= FLAT_FROM * flat else None  # more than lies flat ripples, as lace does till it is blocked


def piece_size(
    piece: PieceResult, header: syntax.Header, measure: Measure, place: int = 0, name: str = ""
) -> PieceSize | None:
    """One piece in the size with number *place*; None where it is not worked in that size."""
    piece = piece.in_size(place)
    lines = [line for line in piece.rounds if line.counts]
    counts = [_made(line, place) for line in lines]
    if all(count == 0 for count in counts):
        return None
    unknown = next((line for line, count in zip(lines, counts, strict=True) if count is None), None)
    if unknown is not None or not lines:
        label = unknown.label if unknown is not None else ""
        return PieceSize(piece.name, piece.make, name, missing=(f"a count for {label}",))
    maker = _rows if piece.flat else _rounds
    return maker(piece, lines, header, measure, place, name)


def _made(line: RoundResult, place: int) -> int | None:
    """The count after a line: what it makes, else what it states; 0 where this size does not work it."""
    for counts in (line.makes, line.stated):
        if len(counts) > 1 and place < len(counts) and counts[place] is None and any(n is not None for n in counts):
            return 0
        count = counts[place if place < len(counts) else 0] if counts else None
        if count is not None:
            return count
    return None


def _used(line: RoundResult, place: int) -> int | None:
    return line.uses[place if place < len(line.uses) else 0] if line.uses else None


def _per_round(line: RoundResult, place: int) -> Iterator[tuple[int, int]]:
    """(count, rounds) of a line: one entry where all its rounds make the same."""
    if len(line.each) == line.worked and len(line.makes) == 1 and all(made is not None for _used, made in line.each):
        yield from ((made or 0, 1) for _used_places, made in line.each)
    else:
        yield _made(line, place) or 0, line.worked


# --- in the round -----------------------------------------------------------------------------------------------------


def _rounds(
    piece: PieceResult, lines: list[RoundResult], header: syntax.Header, measure: Measure, place: int, name: str
) -> PieceSize:
    worked = _work(piece, lines, header, measure, place)
    if worked is None:
        return PieceSize(piece.name, piece.make, name, missing=(NEEDS_COUNTS,))
    shape = worked.shape
    if (body := _below_the_arms(lines, place)) is not None:  # the widest round of a yoke is around body and arms
        shape = replace(shape, around_body=body * (measure.stitch_cm or 0.0))
    return _round_size(piece, name, shape, worked.kind, measure.row_cm is not None, measure)


@dataclass(frozen=True, slots=True)
class _Rounds:
    """Rounds as a body of revolution; ``lines`` says which line each stretch of equal rounds belongs to."""

    shape: Profile
    kind: str
    lines: list[tuple[RoundResult, Stretch]]


def _work(
    piece: PieceResult, lines: list[RoundResult], header: syntax.Header, measure: Measure, place: int
) -> _Rounds | None:
    stitch_cm, row_cm = measure.stitch_cm or 0.0, measure.row_cm
    of_lines = [(line, stretch) for line in lines for stretch in _stretches(line, header, row_cm or 1.0, place)]
    stretches = [stretch for _line, stretch in of_lines]
    if not stretches:
        return None
    chain = chain_along(piece, place)
    begins = None if chain is not None else _used(lines[0], place) or None
    straight = max(chain - 1, 0) * stitch_cm if chain is not None else 0.0
    counts = [stretch.count for stretch in stretches for _ in range(min(stretch.rounds, 400))]
    ratio = (row_cm or 0.0) / stitch_cm
    closed = drawn_shut(piece)
    by_design = begins is None and chain is None and closed and is_ideal_ball(counts, ratio)
    if by_design:
        stretches = [Stretch(s.count, s.height, s.rounds, 2 * math.pi * ratio) for s in stretches]
    shape = profile(stretches, stitch_cm, begins=begins, closed=closed, straight=straight, geometric=by_design)
    return _Rounds(shape, _kind(piece, stretches, begins, straight), of_lines)


def piece_profile(
    piece: PieceResult, header: syntax.Header, measure: Measure, place: int = 0
) -> tuple[Profile, list[tuple[RoundResult, Stretch]]] | None:
    """The profile of a piece worked in the round, with the line that each stretch of its rounds belongs to; None where
    its counts are not known."""
    worked = _work(piece, [line for line in piece.rounds if line.counts], header, measure, place)
    return (worked.shape, worked.lines) if worked is not None else None


_LEAST_ARM = 6  # skipped stitches that wait for a sleeve


def _below_the_arms(lines: list[RoundResult], place: int) -> int | None:
    """The widest count from the round on that leaves stitches for two sleeves; None where none does."""
    split = next((index for index, line in enumerate(lines) if _arms_in(line.syntax, place) >= 2), None)
    return max(_made(line, place) or 0 for line in lines[split:]) if split is not None else None


def _arms_in(line: syntax.RoundLine, place: int) -> int:
    """How often a round passes over stitches with fewer chains, as under an arm."""
    found = 0
    for step, other in pairwise(line.steps or ()):
        chain, skip = (step, other) if isinstance(step, syntax.Chain) else (other, step)
        if isinstance(chain, syntax.Chain) and isinstance(skip, syntax.Work) and skip.stitch.kind == "skip":
            number = skip.place.number if skip.place is not None else skip.count
            skipped, chains = _value(number, place), _value(chain.number, place)
            found += skipped >= _LEAST_ARM and 0 < chains < skipped
    return found


def _value(number: syntax.Number | None, place: int) -> int:
    return (number.values[place if place < len(number.values) else 0] or 0) if number is not None else 1


def _stretches(line: RoundResult, header: syntax.Header, row_cm: float, place: int) -> Iterator[Stretch]:
    course = course_of(line, header)
    for count, rounds in _per_round(line, place):
        if count and rounds:
            yield Stretch(count, course.height * row_cm, rounds, course.flat)


def _round_size(
    piece: PieceResult, name: str, shape: Profile, kind: str, has_rows: bool, measure: Measure
) -> PieceSize:
    widest = shape.widest if shape.around_body is None else Station(0.0, shape.around_body)
    length: float | None = shape.length
    width: float | None = widest.sides + 2 * widest.radius
    depth = 2 * widest.radius if "oval" in kind else None
    around: float | None = widest.girth
    volume: float | None = shape.volume
    if kind == "pressed":
        width, depth, volume = widest.girth / 2, None, None
    if kind in ("disc", "flat oval"):
        length, volume = None, None
        around = None if kind == "flat oval" else around
    if not has_rows:
        length = volume = None
    return PieceSize(piece.name, piece.make, name, kind, length, width, depth, around, volume, None,
                     ROUND_ERROR, measure.missing)


def drawn_shut(piece: PieceResult) -> bool:
    """Whether the end of a piece is drawn shut: its counts say so, or a step after its last round does."""
    if piece.closed or piece.flattened:
        return piece.closed
    last = max((line.line for line in piece.rounds), default=0)
    return any(line.kind == "step" and line.line >= last and _SHUT.search(line.statement.words)
               for line in piece.syntax.lines)


def chain_along(piece: PieceResult, place: int = 0) -> int | None:
    """The stitches along one side of a chain that the first round goes around; None where there is no such chain."""
    first = next((line for line in piece.rounds if line.counts), None)
    if first is None or first.kind != "round":
        return None
    founded = next((line for line in piece.rounds if line.kind == "foundation"), None)
    chains = _made(founded, place) if founded is not None else _chains_in(first)
    used = _used(first, place)
    if not chains or used is None or used <= chains:
        return None
    return chains - 1


def _chains_in(line: RoundResult) -> int:
    return sum(count for (_color, key), count in line.stitches.items() if key == "ch")


def _kind(piece: PieceResult, stretches: list[Stretch], begins: float | None, straight: float) -> str:
    if piece.flattened:
        return "pressed"
    if not drawn_shut(piece) and begins is None and _lies_flat(stretches):
        return "flat oval" if straight else "disc"
    return "oval" if straight else "round"


def _lies_flat(stretches: list[Stretch]) -> bool:
    """Whether every round gains about as much as lies flat, and none stands up."""
    if any(stretch.rounds > 1 for stretch in stretches):
        return False
    gains = [(after.count - before.count) / after.flat for before, after in pairwise(stretches)]
    return all(gain > 0 for gain in gains) and (
        not gains or FLAT_FROM <= sum(gains) / len(gains) <= FLAT_TO
    )


# --- in rows ----------------------------------------------------------------------------------------------------------


def _rows(
    piece: PieceResult, lines: list[RoundResult], header: syntax.Header, measure: Measure, place: int, name: str
) -> PieceSize:
    of_lines, beside = _levels(lines, header, measure, place)
    if not of_lines:
        return PieceSize(piece.name, piece.make, name, missing=(NEEDS_COUNTS,))
    row_cm = measure.row_cm
    shape: Outline = outline([row for _line, row in of_lines], measure.stitch_cm or 0.0, _used(lines[0], place) or None)
    height = shape.height if row_cm is not None else None
    area = shape.area + beside if row_cm is not None else None
    return PieceSize(piece.name, piece.make, name, "flat", height, shape.width, None, None, None, area, FLAT_ERROR,
                     measure.missing)


def _levels(
    lines: list[RoundResult], header: syntax.Header, measure: Measure, place: int
) -> tuple[list[tuple[RoundResult, Row]], float]:
    """The rows one above the other, each with its line, and the area of what lies beside them."""
    found: list[tuple[RoundResult, Row]] = []
    beside = 0.0
    seen: set[int] = set()
    for line in lines:
        row_height = course_of(line, header).height * (measure.row_cm or 1.0)
        repeated = line.first is not None and line.first in seen
        seen.update(range(line.first, min(line.last or line.first, line.first + 10_000) + 1) if line.first else ())
        if repeated:  # the second half of a neck: beside the rows with the same numbers, not above them
            beside += (_made(line, place) or 0) * (measure.stitch_cm or 0.0) * row_height * line.worked
            continue
        start, end = edge_changes(line.syntax, place)
        found += [(line, Row(count, row_height, rounds, start, end))
                  for count, rounds in _per_round(line, place) if count and rounds]
    return found, beside


def piece_outline(
    piece: PieceResult, header: syntax.Header, measure: Measure, place: int = 0
) -> tuple[Outline, list[tuple[RoundResult, Row]]] | None:
    """The outline of a piece worked in rows, with the line that each of its rows belongs to; None where its counts are
    not known."""
    lines = [line for line in piece.rounds if line.counts]
    of_lines, _beside = _levels(lines, header, measure, place)
    if not of_lines:
        return None
    return outline([row for _line, row in of_lines], measure.stitch_cm or 0.0, _used(lines[0], place) or None), of_lines

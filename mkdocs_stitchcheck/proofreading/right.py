"""What was found right, with its numbers: only what was really compared, and nothing that a finding speaks against."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..checks.reading import made, steps
from ..estimates.level import project_level
from ..estimates.rounding import rounded
from ..estimates.size import size_table
from ..estimates.stuffing import stuffing
from ..estimates.words import measures, stuffing_words
from ..estimates.yarn import yarn_table
from ..findings import Finding
from ..language import syntax
from ..results import PatternResult, PieceResult, Status


def found_right(pattern: PatternResult, findings: Iterable[Finding]) -> list[str]:
    """Sentences on what is right in a pattern of these findings."""
    against = {finding.rule for finding in findings}
    return [
        *_counts(pattern), *_repeats(pattern), *_pieces(pattern), *_references(pattern, against),
        *_words(pattern, against), *_materials(pattern, against), *_yarn(pattern, against), *_size(pattern, against),
        *_readings(pattern), *_level(pattern),
    ]  # fmt: skip


def _counts(pattern: PatternResult) -> Iterator[str]:
    lines = [line for line in pattern.rounds if line.counts]
    checked = [line for line in lines if line.status is Status.CHECKED]
    if checked:
        rounds, every = (sum(line.worked for line in some) for some in (checked, lines))
        told = f", told in {len(checked):,} line{'s' * (len(checked) > 1)}," if rounds > len(checked) else ""
        share = f"All {rounds:,} rounds{told} work" if rounds == every else f"{rounds:,} of {every:,} rounds{told} work"
        yield f"{share} into the stitches of the round before, no more and no fewer, and make the count you wrote."
    sizes = pattern.syntax.header.sizes
    if sizes and checked:
        yield f"They do so in each of the {len(sizes)} sizes."
    ranges = [line for line in checked if line.worked > 1]
    if ranges:
        yield f"{_number(len(ranges), 'range')} of rounds, from first to last number, were worked round by round."


def _repeats(pattern: PatternResult) -> Iterator[str]:
    repeats = sum(
        isinstance(step, syntax.Repeat) for line in pattern.rounds if line.status is Status.CHECKED for step in steps(line.syntax)
    )
    if repeats:
        yield f"{_number(repeats, 'repeat')} come out with no stitch left over." if repeats > 1 else "The repeat comes out."


def _pieces(pattern: PatternResult) -> Iterator[str]:
    for piece in pattern.pieces:
        lines = [line for line in piece.rounds if line.counts]
        last = made(lines[-1]) if lines else None
        if last is None or any(line.status in (Status.UNREAD, Status.MISMATCH) for line in lines):
            continue
        rounds = sum(line.worked for line in lines)
        noun = "row" if piece.flat else "round"
        in_size = f", in size {sizes[0]}" if (sizes := pattern.syntax.header.sizes) else ""
        copies = f", made {piece.make} times" if piece.make > 2 else ", made twice" if piece.make == 2 else ""
        yield (f"{piece.name or 'The piece'}{copies}: {_number(rounds, noun)}, {_widest(piece):,} stitches at its widest, "
               f"{last:,} at its end; {sum(piece.stitches.values()):,} stitches in all{in_size}.")


def _widest(piece: PieceResult) -> int:
    return max(count for line in piece.rounds if line.counts and (count := made(line)) is not None)


def _references(pattern: PatternResult, against: set[str]) -> Iterator[str]:
    if {"unknown-round", "unknown-piece", "too-far-apart"} & against:
        return
    places = sum(len(getattr(line, "references", ())) for piece in pattern.syntax.pieces for line in piece.lines)
    if places:
        yield f"{_number(places, 'place')} named by piece or round {'is' if places == 1 else 'are'} there."


def _words(pattern: PatternResult, against: set[str]) -> Iterator[str]:
    header = pattern.syntax.header
    if header.terms and not {"mixed-terms", "unknown-stitch"} & against:
        yield f"The stitch names are {header.terms} terms throughout, and each is known or explained."
    special = [one.word for one in header.special.values() if one.special]
    if special and "explained-after-use" not in against:
        yield f"Explained before use: {', '.join(special)}."


def _materials(pattern: PatternResult, against: set[str]) -> Iterator[str]:
    header = pattern.syntax.header
    if header.colors and not {"unlisted-color", "unused-color"} & against:
        names = ", ".join(f"{key} ({color.name})" if color.name else key for key, color in header.colors.items())
        yield f"Every colour listed is used, and every one used is listed: {names}."
    if header.notions and not {"unlisted-material", "unused-material"} & against:
        yield f"The steps need nothing that is not in the list, and everything listed has its use: {', '.join(header.notions)}."
    if "units-disagree" not in against and len(header.hooks) == 1 and header.hooks[0].of:
        yield f"The hook of {header.hooks[0].value:g} mm is {header.hooks[0].of}."


def _yarn(pattern: PatternResult, against: set[str]) -> Iterator[str]:
    for color in yarn_table(pattern).colors:
        name = f"Color {color.color} ({color.name})" if color.color and color.name else color.color or "The yarn"
        grams = f", {rounded(color.grams, color.weight_error):,.0f} g" if color.grams else ""
        listed = pattern.syntax.header.colors.get(color.color)
        sure = listed and listed.amount and not {"yarn-short", "count-mismatch", "stitches-left-over", "stitches-run-out"} & against
        enough = "; what you list is enough" if sure else ""
        yield f"{name} takes about {rounded(color.metres, color.error):,.0f} m{grams}{enough}."


def _size(pattern: PatternResult, against: set[str]) -> Iterator[str]:
    table = size_table(pattern)
    known = [f"{size.piece or 'the piece'}{f' in size {size.size}' if size.size else ''} {', '.join(measures(size))}"
             for size in table.pieces if size.known and measures(size)]
    if known:
        yield f"By the gauge: {'; '.join(known)}."
    if pattern.syntax.header.finished and known and "finished-size" not in against:
        yield "The finished size you state goes with that."
    for one in stuffing(pattern, table):
        if words := stuffing_words(one):
            yield f"Stuffing{f' of size {one.size}' if one.size else ''}: {words}."


def _readings(pattern: PatternResult) -> Iterator[str]:
    for reading in pattern.readings:
        yield f"Read so: {reading.question.replace('-', ' ')}, {reading.answer} ({reading.why})."


def _level(pattern: PatternResult) -> Iterator[str]:
    level = project_level(pattern)
    if level is not None:
        yield f"What its stitches ask for is the level {level.name}. {level.reason}"


def _number(number: int, noun: str) -> str:
    return f"{number:,} {noun}{'' if number == 1 else 's'}"

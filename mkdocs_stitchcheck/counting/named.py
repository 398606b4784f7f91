"""Rounds and pieces that working steps name: "eyes between Rnds 40 and 41", "sew to the Bodice"."""

from __future__ import annotations

from ..language import syntax
from ..language.near import nearest
from . import messages
from .program import Programs
from .report import Reporter


def near_piece(pattern: syntax.Pattern, name: str) -> str:
    """A suggestion of a piece with a similar name; empty where there is none."""
    names = [piece.name for piece in pattern.pieces if piece.name and not piece.making_up]
    bare = name.removeprefix("the ").removeprefix("The ")
    lowered = {known.lower(): known for known in names}
    near = nearest(bare.lower(), list(lowered))
    if near is None:
        near = next((low for low in lowered if low[:3] == bare.lower()[:3] and len(low) > 2), None)
    return f"{lowered[near]} is near: write {lowered[near]}." if near else ""


def rounds_there(programs: Programs, piece: syntax.Piece) -> str:
    """"the Body has 25 rounds"."""
    last = programs.rounds[id(piece)].last
    name = piece.name or "the piece"
    return f"{name} has {last} round{'' if last == 1 else 's'}" if last else f"{name} has no numbered rounds"


def check_names(pattern: syntax.Pattern, programs: Programs, reporter: Reporter) -> None:
    """Every round and piece named by a working step must be there."""
    for piece in pattern.pieces:
        if piece.same_as is not None and piece.heading is not None:
            _check(piece.same_as, None, piece, pattern, programs, reporter, None)
        for line in piece.lines:
            if isinstance(line, syntax.RoundLine):
                last: syntax.Piece | None = None
                unknown: set[str] = set()
                for reference in line.references:
                    if reference.piece in unknown:
                        continue
                    if reference.piece and programs.find(reference.piece) is None:
                        unknown.add(reference.piece)
                    last = _check(reference, line, piece, pattern, programs, reporter, last)


def _check(
    reference: syntax.Reference, line: syntax.RoundLine | None, piece: syntax.Piece, pattern: syntax.Pattern,
    programs: Programs, reporter: Reporter, last: syntax.Piece | None,
) -> syntax.Piece | None:  # fmt: skip
    statement = line.statement if line is not None else piece.heading
    if statement is None:
        return last
    target = programs.find(reference.piece) if reference.piece else last if piece.making_up else piece
    span = statement.span(reference.start, reference.end)
    if target is None and not reference.piece and reference.rounds and piece.making_up:
        _beyond_all(reference, line, piece, programs, reporter)
    if target is None:
        if reference.piece:
            suggestion = near_piece(pattern, reference.piece)
            reporter.add("unknown-piece", span, f"There is no piece called {reference.piece}.", piece, line, suggestion=suggestion)
        return last
    rounds = programs.rounds[id(target)]
    if not rounds.stretches:
        return target
    missing = [n for first, end in reference.rounds for n in (first, end) if n > 0 and not rounds.has(n)]
    missing = [n for n in missing if n > rounds.last or n < rounds.firsts[0]]
    if missing:
        named = messages_of(missing)
        reporter.add(
            "unknown-round", span, f"There is no round {named}: {rounds_there(programs, target)}.", piece, line,
        )  # fmt: skip
    return target


def _beyond_all(
    reference: syntax.Reference, line: syntax.RoundLine | None, piece: syntax.Piece, programs: Programs, reporter: Reporter
) -> None:
    """A step that names no piece names rounds which none of the pieces has."""
    pieces = [other for other in programs.pattern.pieces if programs.rounds[id(other)].last]
    if not pieces or line is None:
        return
    longest = max(pieces, key=lambda other: programs.rounds[id(other)].last)
    last = programs.rounds[id(longest)].last
    missing = [number for pair in reference.rounds for number in pair if number > last]
    if missing:
        reporter.add(
            "unknown-round", line.statement.span(reference.start, reference.end),
            f"No piece has a round {messages_of(missing)}: the most are in {longest.name}, {last}.", piece, line,
            suggestion="Name the piece and the rounds that are meant.",
        )  # fmt: skip


def messages_of(numbers: list[int]) -> str:
    """"40", "40 or 41"."""
    unique = list(dict.fromkeys(numbers))
    return " or ".join(str(number) for number in unique)


__all__ = ["check_names", "messages", "near_piece", "rounds_there"]

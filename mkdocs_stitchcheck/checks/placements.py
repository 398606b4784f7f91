"""Places that working steps name: the rounds and pieces must be there."""

from __future__ import annotations

from ..findings import Edit, Findings
from ..language.near import nearest
from ..language.syntax import Line, Pattern, Piece, Reference, RoundLine
from ..results import PatternResult

_GENERAL = frozenset("work piece row round foundation chain ring toy pattern back front side sides top bottom edge end".split())


def check_placements(pattern: Pattern, result: PatternResult, findings: Findings) -> None:
    """Report every round or piece that a working step names and that does not exist (unknown-round, unknown-piece)."""
    last = {piece.name.lower(): _last_round(piece) for piece in pattern.pieces}
    for piece in pattern.pieces:
        for line in piece.lines:
            if isinstance(line, RoundLine):
                for reference in line.references:
                    _check(pattern, piece, line, reference, last, findings)


def _last_round(piece: Piece) -> int:
    labels = [line.label for line in piece.lines if isinstance(line, RoundLine) and line.label is not None]
    return max((label.last or 0 for label in labels), default=0)


def _check(
    pattern: Pattern, piece: Piece, line: Line, reference: Reference, last: dict[str, int], findings: Findings
) -> None:
    name = reference.piece.lower()
    if name and _find(name, last) is None:
        if name.split()[0] not in _GENERAL:
            _unknown_piece(pattern, line, reference, findings)
        return
    target = _find(name, last) if name else None
    known = last[target] if target else 0 if piece.making_up else last.get(piece.name.lower(), 0)
    if not target and (piece.making_up or not known):
        known = max(last.values(), default=0)
    highest = max((stop for _start, stop in reference.rounds), default=0)
    if not known or highest <= known:
        return
    whose = next((p.name for p in pattern.pieces if p.name.lower() == (target or piece.name.lower())), "")
    if target or not piece.making_up:
        message = f"The {whose} has {known} rounds, but round {highest} is named here."
    else:
        message = f"No piece has more than {known} rounds, but round {highest} is named here."
    findings.add(
        "unknown-round", line.statement.span(reference.start, reference.end), message,
        suggestion="Name rounds that are there.",
    )  # fmt: skip


def _find(name: str, last: dict[str, int]) -> str | None:
    """The piece that a name means: itself, or in the singular or plural, or a copy of it ("first leg", "leg 2")."""
    words = [word for word in name.split() if word not in ("first", "second", "other", "third", "left", "right", "each", "both", "1", "2", "3", "4")]
    for candidate in (name, " ".join(words)):
        for form in (candidate, candidate + "s", candidate.removesuffix("s"), candidate.removesuffix("es")):
            if form and form in last:
                return form
    return None


def _unknown_piece(pattern: Pattern, line: Line, reference: Reference, findings: Findings) -> None:
    names = [piece.name for piece in pattern.pieces if not piece.making_up]
    at = line.statement.text.lower().find(reference.piece.lower(), reference.start)
    span = line.statement.span(at, at + len(reference.piece)) if at >= 0 else line.statement.span(reference.start, reference.end)
    word = reference.piece.split()[0] if reference.piece else ""
    near = nearest(word, [name.lower() for name in names], limit=3) or [n.lower() for n in names if n[:3].lower() == word[:3].lower()]
    right = next((name for name in names if near and name.lower() == near[0]), "")
    hint = f"; {right} is near" if right else f"; the pieces are {', '.join(names[:6])}" if names else ""
    edits = (Edit(span, right),) if right else ()
    findings.add(
        "unknown-piece", span, f"There is no piece called {reference.piece}{hint}.",
        suggestion=f"Write {right}." if right else "Name a piece of this pattern.", edits=edits,
    )  # fmt: skip

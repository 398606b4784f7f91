"""The multiple of a stitch pattern as it is stated, against the foundation chain and the first row: multiple-mismatch."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.words import NUMBER_WORDS
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Statement

_NUMBER = r"(\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_MULTIPLE = re.compile(
    rf"\bmultiples? of {_NUMBER}(?: (?:sts?|stitches|chs?|chains))?((?:[ ,;(]*(?:\+|plus|and) ?{_NUMBER}[^.;+]{{0,40}}?){{0,2}})", re.IGNORECASE
)
_PLUS = re.compile(rf"(?:\+|plus|and) ?{_NUMBER}", re.IGNORECASE)


def check_multiples(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """multiple-mismatch: neither the chain nor the first row is the multiple that a note states, in some size.

    A note in a piece speaks of that piece's chain, one in the header of the only chain. Either reading is let pass:
    the multiple of chains, with all that is to be added, or of stitches.
    """
    founded = [piece for piece in result.pieces if _chain(piece) is not None]
    for statement, piece in _stated(pattern, founded):
        match = _MULTIPLE.search(statement.text)
        if match is not None:
            _compare(statement, match, piece, pattern.header.sizes, findings)


def _stated(pattern: syntax.Pattern, founded: list[PieceResult]) -> Iterator[tuple[Statement, PieceResult]]:
    if len(founded) == 1:
        for line in pattern.header.lines:
            yield line.statement.as_read(), founded[0]
    for piece in founded:
        for note in piece.syntax.lines:
            if note.kind == "note":
                yield note.statement.as_read(), piece


def _chain(piece: PieceResult) -> syntax.Number | None:
    """The number of a foundation of chains alone, with a first row above it."""
    if len(piece.rounds) < 2 or piece.rounds[0].kind != "foundation" or not piece.flat:
        return None
    chains = [step for step in piece.rounds[0].syntax.steps or () if isinstance(step, syntax.Chain)]
    return chains[0].number if len(chains) == 1 else None


def _compare(
    statement: Statement, match: re.Match[str], piece: PieceResult, sizes: tuple[str, ...], findings: Findings
) -> None:
    number = _chain(piece)
    multiple = _value(match[1])
    if number is None or multiple < 2:
        return
    added = [_value(plus) for plus in _PLUS.findall(match[2] or "")]
    sums = {sum(added[: count + 1]) for count in range(len(added))} or {0}  # for the stitches, and with the chain's own
    for place, chains in enumerate(number.values):
        first = _made(piece.rounds[1], place)
        if not chains or any((count - plus) % multiple == 0 for count in (chains, first) if count for plus in sums):
            continue
        size = f" in size {sizes[place]}" if place < len(sizes) else ""
        row = f", and the first row {first} stitches" if first else ""
        findings.add(
            "multiple-mismatch", statement.span(*match.span()),
            f"The chain has {chains}{size}{row}: neither is a multiple of {multiple}{f' plus {sum(added)}' if added else ''}.",
            suggestion="Compare the chain with the repeat of the stitch pattern.", piece=piece.name,
        )
        return


def _made(line: RoundResult, place: int) -> int | None:
    return line.makes[place if place < len(line.makes) else 0] if line.makes else None


def _value(word: str) -> int:
    return int(word) if word.isdigit() else NUMBER_WORDS[word.lower()]

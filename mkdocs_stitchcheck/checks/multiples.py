"""The multiple of a stitch pattern as it is stated, against the foundation chain, the first row and the rows' repeats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .. import late_re as re
from ..counting.questions import Answers
from ..counting.readings import declared
from ..counting.widths import comes_out, repeat_widths
from ..counting.working import Setting
from ..findings import Findings
from ..language import syntax
from ..language.words import value_of
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Statement

_NUMBER = r"(\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_UNIT = r"(?:[ -](?:(?P<stitches>sts?|stitch(?:es)?|sc|dc|hdc|tr)|chs?|chains?)\b)?"
_MORE = rf"(?P<more>(?:[ ,;(]*(?:\+|plus|and|add) ?{_NUMBER}[^.;+]{{0,40}}?){{0,2}})"
_MULTIPLE = re.compile(
    rf"(?P<wider>\bin )?\b(?:multiples? of|divisible by|multiple:|repeat(?: of|:)|mult\.? of) ?(?P<multiple>{_NUMBER}){_UNIT}{_MORE}", re.IGNORECASE
)
_PARITY = re.compile(r"\b(?:any|an) (even|odd) number\b(?: of (?:sts|stitches|chs|chains|ch)\b)?", re.IGNORECASE)
_PLUS = re.compile(rf"(?:\+|plus|and|add) ?{_NUMBER}", re.IGNORECASE)
_ROWS = 3  # the repeats of the first rows are looked at


@dataclass(slots=True)
class _Said:
    """A multiple as it is stated: ``added`` to it for the stitches, and then for the chain. ``wider`` where it only says by how much
    the piece grows."""

    statement: Statement
    span: tuple[int, int]
    multiple: int
    added: list[int]
    wider: bool = False
    stitches: bool = False  # of stitches and not of chains, as it says

    @property
    def sums(self) -> set[int]:
        """What may remain of the chain or of the first row: nobody says of which it speaks."""
        return {sum(self.added[: count + 1]) for count in range(len(self.added))} or {0}

    def __str__(self) -> str:
        return f"{self.multiple}{f' plus {sum(self.added)}' if sum(self.added) else ''}"


def check_multiples(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """multiple-mismatch: neither the chain nor the first row is the multiple that is stated, in some size, or a row's repeat is
    not as wide.

    A note, the heading or the chain's own line in a piece speak of that piece's chain, a line in the header of the only one.
    Either reading is let pass: the multiple of chains, with all that is to be added, or of stitches.
    """
    founded = [piece for piece in result.pieces if _chain(piece) is not None]
    answers = declared(pattern.header)
    for statement, piece in _stated(pattern, founded):
        said = _read(statement)
        if said is None or said.multiple < 2:
            continue
        if said.wider or not _compare(said, piece, pattern.header.sizes, answers, findings):
            _compare_repeats(said, piece, answers, findings)


def _stated(pattern: syntax.Pattern, founded: list[PieceResult]) -> Iterator[tuple[Statement, PieceResult]]:
    if len(founded) == 1:
        for line in pattern.header.lines:
            yield line.statement.as_read(), founded[0]
    for piece in founded:
        if piece.syntax.heading is not None:
            yield piece.syntax.heading.as_read(), piece
        for written in piece.syntax.lines:
            if written.kind in ("note", "foundation"):
                yield written.statement.as_read(), piece


def _read(statement: Statement) -> _Said | None:
    match = _MULTIPLE.search(statement.text)
    if match is not None:
        return _Said(statement, match.span(), value_of(match["multiple"]), [value_of(plus) for plus in _PLUS.findall(match["more"] or "")],
                     bool(match["wider"]), match["stitches"] is not None)
    match = _PARITY.search(statement.text)
    return _Said(statement, match.span(), 2, [int(match[1].lower() == "odd")]) if match is not None else None


def _chain(piece: PieceResult) -> syntax.Number | None:
    """The number of a foundation of chains alone, with a first row above it."""
    if len(piece.rounds) < 2 or piece.rounds[0].kind != "foundation" or not piece.flat:
        return None
    chains = [step for step in piece.rounds[0].syntax.steps or () if isinstance(step, syntax.Chain)]
    return chains[0].number if len(chains) == 1 else None


def _compare(said: _Said, piece: PieceResult, sizes: tuple[str, ...], answers: Answers, findings: Findings) -> bool:
    """Whether the chain or the first row is no such multiple, which is reported."""
    number = _chain(piece)
    assert number is not None
    for place, chains in enumerate(number.values):
        first = _made(piece.rounds[1], place)
        if not chains or any((count - plus) % said.multiple == 0 for count in (chains, first) if count for plus in said.sums):
            continue
        size = f" in size {sizes[place]}" if place < len(sizes) else ""
        row = f", and the first row {first} stitches" if first else ""
        near = _nearest(said, chains, first, piece.rounds[1], Setting(answers, place, in_rounds=False, asking=False))
        findings.add(
            "multiple-mismatch", said.statement.span(*said.span),
            f"The chain has {chains}{size}{row}: neither is a multiple of {said}.",
            suggestion=f"A chain of {' or '.join(map(str, near))} is." if near else "Compare the chain with the repeat of the stitch pattern.",
            piece=piece.name,
        )
        return True
    return False


def _nearest(said: _Said, chains: int, first: int | None, row: RoundResult, setting: Setting) -> list[int]:
    """The next chains below and above that are such a multiple; where it may be one of stitches, those on which the row comes out."""
    turning = chains - first if first else 0
    ways = [sum(said.added), *(plus + turning for plus in sorted(said.sums))]
    for more in dict.fromkeys(ways[::-1] if said.stitches and len(said.added) < 2 else ways):
        below = chains - (chains - more) % said.multiple
        near = [n for n in (below, below + said.multiple) if n > max(more, 1)]
        if near and all(comes_out(row.syntax.steps or (), n, setting) for n in near):
            return near
    return []


def _compare_repeats(said: _Said, piece: PieceResult, answers: Answers, findings: Findings) -> None:
    """Each repeat of the first rows must go into the multiple."""
    setting = Setting(answers, in_rounds=False, asking=False)
    for line in piece.rounds[1 : _ROWS + 1]:
        if line.kind != "row" or not line.syntax.steps:
            continue
        for width in repeat_widths(line.syntax.steps, setting):
            if width > 1 and said.multiple % width:
                findings.add(
                    "multiple-mismatch", said.statement.span(*said.span),
                    f"A multiple of {said.multiple} is stated; the repeat of {line.label} takes {width} stitches.",
                    suggestion="Compare the multiple with the repeat of the stitch pattern.", piece=piece.name,
                )
                return


def _made(line: RoundResult, place: int) -> int | None:
    return line.makes[place if place < len(line.makes) else 0] if line.makes else None

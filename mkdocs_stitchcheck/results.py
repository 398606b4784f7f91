"""What a check gives back: per file, pattern, piece and written line. The outputs and the page are made from it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from .findings import Finding, Severity

if TYPE_CHECKING:
    from .language import syntax


_LET_GO: Any = None  # the syntax of a result that was lightened


class Status(StrEnum):
    """What is known of a written line."""

    CHECKED = "checked"  # fit and count verified
    COUNTED = "counted"  # no count stated; computed
    ON_TRUST = "on-trust"
    MISMATCH = "mismatch"  # an error stands on it
    UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class Reading:
    """How an open question was read for the whole pattern: "turning-chain hdc", "does not count", "declared"."""

    question: str
    answer: str
    why: str


@dataclass(frozen=True, slots=True)
class SizeWork:
    """What one size works of a written line: how many rounds (0: none), each where they differ, and its stitches."""

    worked: int
    each: tuple[tuple[int | None, int | None], ...] = ()
    stitches: Counter[tuple[str, str]] = field(default_factory=Counter)


@dataclass(slots=True)
class RoundResult:
    """One written line of rounds, rows, foundation or counted step.

    ``uses``, ``makes`` and ``stated`` hold one entry a size (one entry where the pattern has no sizes); None where
    unknown or not worked. ``each`` holds (uses, makes) of every round of a range where they differ.
    ``stitches`` counts what is worked by (colour key or "", stitch key), over all rounds of the line. ``worked``,
    ``each`` and ``stitches`` are the first size's that works the line; ``sizes`` holds them for every size of a pattern
    that has several, and ``in_size`` gives the line as one size has it.
    ``number`` numbers are the label's; ``syntax`` leads to the writer's words.
    """

    label: str
    kind: str  # round, row, foundation, step
    line: int
    syntax: syntax.RoundLine
    first: int | None = None
    last: int | None = None
    worked: int = 1
    uses: tuple[int | None, ...] = (None,)
    makes: tuple[int | None, ...] = (None,)
    stated: tuple[int | None, ...] = (None,)
    each: tuple[tuple[int | None, int | None], ...] = ()
    status: Status = Status.UNREAD
    trust: str = ""  # why it is on trust
    color: str | None = None  # the colour it begins with
    colors: tuple[str, ...] = ()  # every colour worked with, in order
    turned: bool = False
    stitches: Counter[tuple[str, str]] = field(default_factory=Counter)
    sizes: tuple[SizeWork, ...] = ()

    def works_in(self, place: int) -> bool:
        """Whether the size with number *place* works the line at all."""
        return place >= len(self.sizes) or self.sizes[place].worked > 0

    def in_size(self, place: int) -> RoundResult:
        """The line as the size with number *place* works it, with one entry where there was one a size."""
        if place >= len(self.sizes):
            return self
        work = self.sizes[place]
        return replace(
            self, uses=(self.uses[place],), makes=(self.makes[place],), stated=(self.stated[place],), worked=work.worked,
            each=work.each, stitches=work.stitches, sizes=(),
        )  # fmt: skip

    @property
    def counts(self) -> bool:
        """Whether the line counts in the summary: only rounds and rows do."""
        return self.kind in ("round", "row")


@dataclass(slots=True)
class PieceResult:
    """A piece with its written lines. ``closed`` where it ends drawn shut, ``flat`` where it is worked in rows."""

    name: str
    make: int
    line: int
    syntax: syntax.Piece
    rounds: list[RoundResult] = field(default_factory=list)
    flat: bool = False
    flattened: bool = False
    closed: bool = False

    def in_size(self, place: int) -> PieceResult:
        """The piece as the size with number *place* works it: only its own lines; itself where there are no sizes."""
        if not any(line.sizes for line in self.rounds):
            return self
        return replace(self, rounds=[line.in_size(place) for line in self.rounds if line.works_in(place)])

    def lightened(self) -> PieceResult:
        """A copy without syntax."""
        return replace(self, syntax=_LET_GO, rounds=[replace(line, syntax=_LET_GO) for line in self.rounds])

    @property
    def stitches(self) -> Counter[tuple[str, str]]:
        """Stitches worked in one copy of the piece, by (colour, stitch key)."""
        total: Counter[tuple[str, str]] = Counter()
        for line in self.rounds:
            total.update(line.stitches)
        return total


@dataclass(slots=True)
class PatternResult:
    """A pattern as checked. ``key`` is its address-safe name, unique in the file. ``end_line`` its last line."""

    title: str
    line: int
    syntax: syntax.Pattern
    pieces: list[PieceResult] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    draft: bool = False
    end_line: int = 0

    def in_size(self, place: int) -> PatternResult:
        """The pattern as the size with number *place* works it; itself where it has one size."""
        if len(self.syntax.header.sizes) < 2:
            return self
        return replace(self, pieces=[piece.in_size(place) for piece in self.pieces])

    @property
    def rounds(self) -> list[RoundResult]:
        return [line for piece in self.pieces for line in piece.rounds]

    def lightened(self, rounds: bool) -> PatternResult:
        """A copy without syntax; with *rounds* false also without pieces."""
        pieces = [piece.lightened() for piece in self.pieces] if rounds else []
        return replace(self, syntax=_LET_GO, pieces=pieces)


@dataclass(slots=True)
class FileResult:
    """Everything about one file: its patterns in order, and all findings in order of place.

    ``text`` is what was read, for the code frames of messages. ``not_yet`` is true for a page listed as not yet
    cleared: its findings are all there and none fails (each says so in ``waits``). ``sums`` are its rounds by status,
    where the rounds themselves were let go (:meth:`lightened`).
    """

    path: str
    patterns: list[PatternResult] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    text: str = ""
    not_yet: bool = False
    sums: Counter[Status] | None = None

    def lightened(self, rounds: bool) -> FileResult:
        """A copy for reports, which takes a third of the room: without syntax. With *rounds* false a twentieth: only the
        sums of the rounds are kept, and the text only where something was found in it."""
        patterns = [pattern.lightened(rounds) for pattern in self.patterns]
        text = self.text if self.findings else ""
        return replace(self, patterns=patterns, text=text, sums=None if rounds else self.by_status())

    def by_status(self) -> Counter[Status]:
        """How many rounds there are of each status."""
        if self.sums is not None:
            return self.sums
        return Counter(line.status for pattern in self.patterns for line in pattern.rounds if line.counts)

    def fails(self, strict: bool = False) -> bool:
        """Whether the findings fail a build: see :meth:`Finding.fails`."""
        return any(finding.fails(strict) for finding in self.findings)

    @property
    def drafts(self) -> list[PatternResult]:
        """The patterns of the file that are drafts."""
        return [pattern for pattern in self.patterns if pattern.draft]


def summary(files: list[FileResult]) -> dict[str, int]:
    """Rounds by status and findings by severity, as the JSON report gives them; the parts of ``rounds`` add up."""
    status: Counter[Status] = Counter()
    for file in files:
        status.update(file.by_status())
    severity = Counter(f.severity for file in files for f in file.findings if f.excused is None)
    return {
        "rounds": status.total(),
        "checked": status[Status.CHECKED],
        "counted": status[Status.COUNTED],
        "on_trust": status[Status.ON_TRUST],
        "mismatch": status[Status.MISMATCH],
        "unread": status[Status.UNREAD],
        "errors": severity[Severity.ERROR],
        "warnings": severity[Severity.WARNING],
        "advice": severity[Severity.ADVICE],
        "infos": severity[Severity.INFO],
        "cautions": severity[Severity.CAUTION],
    }

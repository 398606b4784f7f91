"""What every part of a page needs to know about the file it belongs to."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..findings import Finding, Severity
from ..language import syntax
from ..results import FileResult, PatternResult, PieceResult, RoundResult
from .addresses import Addresses
from .caution import is_toy
from .findings_box import SHOWN
from .options import PageOptions


@dataclass(slots=True)
class Context:
    """One file on its way to HTML. ``print`` is true for the sheet: black on white, no addresses, nothing to click.

    ``links`` is true for a PDF: a sheet with live links.
    """

    file: FileResult
    options: PageOptions
    addresses: Addresses
    show_findings: bool = False
    print: bool = False
    shared: bool = False  # a page that several posts share: a size chosen there would be every post's
    large: bool = False
    links: bool = False
    lines: dict[int, RoundResult] = field(default_factory=dict)
    pieces: dict[int, PieceResult] = field(default_factory=dict)
    toys: dict[int, bool] = field(default_factory=dict)
    findings: dict[int, list[Finding]] = field(default_factory=dict)  # by the line where they begin; taken when shown

    def __post_init__(self) -> None:
        for pattern in self.file.patterns:
            self.toys[id(pattern)] = is_toy(pattern)
            for piece in pattern.pieces:
                self.pieces[id(piece.syntax)] = piece
                for line in piece.rounds:
                    self.lines[id(line.syntax)] = line
        if self.show_findings:
            for finding in self.file.findings:
                if finding.severity in SHOWN:
                    self.findings.setdefault(finding.span.line, []).append(finding)

    def result(self, line: syntax.Line) -> RoundResult | None:
        """What is known of a written line."""
        return self.lines.get(id(line))

    def piece(self, piece: syntax.Piece) -> PieceResult | None:
        """What is known of a piece."""
        return self.pieces.get(id(piece))

    def toy(self, pattern: PatternResult) -> bool:
        """Whether the pattern is a toy."""
        return self.toys.get(id(pattern), False)

    def found_on(self, first: int, last: int) -> bool:
        """Whether an error or a warning begins on these lines that was not shown yet."""
        found = (f for number in range(first, last + 1) for f in self.findings.get(number, ())) if self.findings else ()
        return any(f.severity in (Severity.ERROR, Severity.WARNING) and f.excused is None for f in found)

    def take_findings(self, first: int, last: int) -> list[Finding]:
        """The findings that begin on these lines and were not shown yet."""
        if not self.findings:
            return []
        found = [f for number in range(first, last + 1) for f in self.findings.pop(number, ())]
        groups = {f.group for f in found if f.group is not None}
        for number in [n for n, rest in self.findings.items() if any(f.group in groups for f in rest)]:
            self.findings[number] = [f for f in self.findings[number] if f.group not in groups]
        return found

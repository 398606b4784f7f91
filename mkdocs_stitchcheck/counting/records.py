"""What is known of a line and of a pattern while it is walked through."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from ..language import syntax
from ..results import Status
from .edge import Edge
from .edgings import Sides
from .judge import Outcome, Start
from .program import Programs
from .questions import Answers
from .readings import Speaker, Words
from .report import Reporter
from .tally import Material

Accepts = Callable[[int], bool | None]


@dataclass(slots=True)
class Worked:
    """What is known of one written line in one size."""

    line: syntax.RoundLine
    before: Start
    after: Start
    kind: str
    status: Status = Status.UNREAD
    outcome: Outcome | None = None
    trust: str = ""
    stated: int | None = None
    worked: int = 1
    uses: int | None = None
    makes: int | None = None
    color: str | None = None
    colors: tuple[str, ...] = ()
    turned: bool = False
    material: Material = field(default_factory=dict)
    loops: frozenset[str] = frozenset()


@dataclass(slots=True)
class Pass:
    """What a walk through the whole pattern in one size shares: answers, programs, what pieces ended with."""

    pattern: syntax.Pattern
    programs: Programs
    answers: Answers
    reporter: Reporter
    size: int = 0
    ends: dict[int, Edge | None] = field(default_factory=dict)
    lines: dict[int, Worked] = field(default_factory=dict)
    speakers: list[Speaker] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    asked: Counter[str] = field(default_factory=Counter)
    all_pass: bool = True
    sides: dict[int, Sides | None] = field(default_factory=dict)  # of each piece when it was done
    openings: dict[int, list[tuple[int, int, int]]] = field(default_factory=dict)  # see opening_edge
    told: dict[str, str] = field(default_factory=dict)  # question -> the round whose own words decide it

    seams: dict[int, int] = field(default_factory=dict)  # of each copy of a piece, so many stitches were worked together

    def edge_of(self, reference: syntax.Reference) -> Edge | None:
        """The edge that a named piece ended with, without what went into a seam; None where it is not known."""
        piece = self.programs.find(reference.piece) if reference.piece else None
        edge = self.ends.get(id(piece)) if piece is not None else None
        sewn = self.seams.get(id(piece), 0)
        return replace(edge, stitches=max(edge.stitches - sewn, 0)) if edge is not None and sewn else edge

    def sew(self, seamed: Mapping[str, int]) -> None:
        """So many stitches of each copy of a piece have gone into a seam."""
        for name, number in seamed.items():
            piece = self.programs.find(name)
            if piece is not None:
                self.seams[id(piece)] = self.seams.get(id(piece), 0) + number

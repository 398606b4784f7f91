"""What is known of one pattern while its lines are read one after the other, and the piece that is being read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..findings import Findings
from ..source import Span, Statement
from .cursor import Context, Unreadable
from .round_labels import LIMIT, find_moment
from .said_of_rounds import Between, Marks, declare_chains
from .size_words import size_indexes
from .statements import Cut
from .syntax import Aside, Header, Line, Pattern, Piece, Ring, RoundLabel, RoundLine, Step


@dataclass(slots=True)
class PieceState:
    """How far the piece at hand has been read."""

    piece: Piece | None = None
    rounds: int = 0  # numbered rounds of the piece so far
    last: int | None = None  # its last number
    lasts: tuple[int | None, ...] = ()  # the same in each size, where a label gave one number a size
    fastened: bool = False
    between: Between | None = None  # a row said for every other one
    began_at: int = -1  # the block in which a piece was last named by its Markdown heading


@dataclass(slots=True)
class Unknown:
    """An unknown word with all its places: reported once a pattern."""

    first: tuple[Statement, Unreadable]
    places: list[str] = field(default_factory=list)


class Reading:
    """One pattern while its lines are read: the lines, what is known so far, and the piece at hand."""

    def __init__(self, cuts: list[Cut], headings: Sequence[str], findings: Findings, terms: str, plain: bool) -> None:
        self.cuts = cuts
        self.plain = plain
        self.prose: list[Statement] = []
        self.feet: list[Statement] = []
        self.definitions: list[Statement] = []
        self.headings = headings
        self.findings = findings
        self.terms = terms
        self.pattern = Pattern(Header(), line=cuts[0].statement.line if cuts else 1)
        self.context = Context()
        self.state = PieceState()
        self.unknown: dict[str, Unknown] = {}
        self.before: int | None = None  # the last round of the piece before
        self.suspects: list[tuple[str, Span]] = []
        self.marks = Marks()
        self.chain_rules: dict[int, bool] = {}
        self.only: frozenset[int] | None = None  # the sizes that a line of its own names, from there on

    def named(self, name: str) -> Piece | None:
        """The piece of that name, if there is one so far."""
        return next((piece for piece in self.pattern.pieces if piece.name.lower() == name.lower()), None)

    def kind(self) -> str:
        """Whether the piece is worked in rounds or rows so far."""
        lines = self.state.piece.lines if self.state.piece is not None else []
        labels = (line.label for line in reversed(lines) if isinstance(line, RoundLine))
        return next((label.kind for label in labels if label is not None), "round")

    def add(self, line: Line, cut: Cut) -> None:
        """Adds a line to the piece at hand; where there is none, one begins."""
        if self.state.piece is None:
            self._unheaded(cut)
        assert self.state.piece is not None
        if isinstance(line, RoundLine):
            line.only = self.only_in(cut)
            if self.chain_rules:
                declare_chains(line.steps or (), self.chain_rules)
        self.state.piece.lines.append(line)

    def open_piece(self, piece: Piece, cut: Cut) -> None:
        """From here on *piece* is read."""
        self.before = self.state.last
        self.only = None
        self.pattern.pieces.append(piece)
        self.state = PieceState(piece, began_at=cut.block)

    def _unheaded(self, cut: Cut) -> None:
        """A piece without a heading is named by the nearest Markdown heading since the last block, else by its number."""
        name = self.headings[cut.block] if cut.block < len(self.headings) and self.state.began_at != cut.block else ""
        if not name or self.named(name) is not None or (name.lower() == self.pattern.header.title.lower()):
            name = f"Piece {len(self.pattern.pieces) + 1}"
        self.open_piece(Piece(name, None, line=cut.statement.line), cut)

    def only_in(self, cut: Cut) -> frozenset[int] | None:
        """The sizes in which a line is worked; None for all."""
        if not cut.sizes:
            return self.only
        sizes = self.pattern.header.sizes
        only, unknown = size_indexes(cut.sizes, sizes)
        if unknown:
            declared = f"the pattern's sizes are {', '.join(sizes)}" if sizes else "the pattern has no line Sizes:"
            self.findings.add(
                "sizes-disagree", cut.statement.span(), f"There is no size {unknown}: {declared}.",
                suggestion="Name sizes as they stand in the line Sizes: at the top.",
            )  # fmt: skip
            return frozenset()
        return only

    def number_on(self, label: RoundLabel) -> None:
        """Where the numbering stands after a round: a length counts on, a round without a number is the next."""
        more = label.length.value if label.length is not None else 1
        if label.last is not None:
            single = len(label.numbers) == 1 and label.first == label.last
            self.state.last = label.last + (more - 1 if single and 0 < more <= LIMIT else 0)
            self.state.rounds += 1
            if self.state.piece is not None:
                self.marks.last[self.state.piece.name.lower()] = self.state.last
            self.state.lasts = label.written[-1].values if label.written and len(label.written[-1].values) > 1 else ()
        elif self.state.last is not None and 0 < more <= LIMIT:
            self.state.last += more
            lengths = label.length.values if label.length is not None else (1,)
            self.state.lasts = tuple(
                last + (lengths[size if size < len(lengths) else 0] or 0) if last is not None else None
                for size, last in enumerate(self.state.lasts)
            )

    def note_doings(self, steps: tuple[Step, ...] | None) -> None:
        """Keeps what later lines depend on: whether the yarn is fastened off, and whether a ring was made."""
        for step in steps or ():
            if isinstance(step, Aside) and step.kind == "fasten-off":
                self.state.fastened = True
            elif isinstance(step, Aside) and step.kind == "continue":
                self.state.fastened = False
            elif isinstance(step, Ring):
                self.context.ring_seen = True


def moment_of(cut: Cut) -> tuple[int | None, int | None]:
    """A moment of a film at the end of a line, and where the line ends before it."""
    moment = find_moment(cut.statement.text)
    return (moment[1], moment[0]) if moment else (None, None)

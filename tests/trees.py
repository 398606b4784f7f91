"""Syntax trees by hand for the tests of counting: no parser. Words of one line stand for where things would stand."""

from __future__ import annotations

import itertools

from mkdocs_stitchcheck.counting import count_pattern
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.language.vocabulary import Stitch, stitches, together
from mkdocs_stitchcheck.results import PatternResult, RoundResult
from mkdocs_stitchcheck.source import BlockLine, Statement

REST, RING = "rest", "ring"
_places = itertools.count(1000, 10)


def number(*values: int | None) -> syntax.Number:
    """A written number, or one a size, at a place of its own beyond the words."""
    at = next(_places)
    return syntax.Number(at, at + 1, values)


def stitch(key: str) -> Stitch:
    """A stitch of the table; "sc3tog" by its number."""
    table = stitches()
    return table[key] if key in table else together(table[key[:-4]], int(key[-4]))


def place(kind: str, count: int | None = None, **more: object) -> syntax.Place:
    """A place of *kind*."""
    return syntax.Place(0, 0, kind, number(count) if count is not None else None, **more)  # type: ignore[arg-type]


def work(key: str, count: int | None = None, where: str | syntax.Place | None = None, **more: object) -> syntax.Work:
    """Stitches: work("sc", 2), work("inc", where=REST)."""
    at = place(where) if isinstance(where, str) else where
    return syntax.Work(0, 0, stitch(key), number(count) if count is not None else None, at, **more)  # type: ignore[arg-type]


def times(many: int, *body: syntax.Step, **more: object) -> syntax.Repeat:
    """A repeat, so many times over."""
    return syntax.Repeat(0, 0, body, number(many), **more)  # type: ignore[arg-type]


def around(*body: syntax.Step, **more: object) -> syntax.Repeat:
    """A repeat to the end of the round."""
    return syntax.Repeat(0, 0, body, None, str(more.pop("extent", "rest")), **more)  # type: ignore[arg-type]


def chain(count: int, turning: bool = False, **more: object) -> syntax.Chain:
    """Chains."""
    return syntax.Chain(0, 0, number(count), turning=turning, **more)  # type: ignore[arg-type]


def turn() -> syntax.Turn:
    """The work is turned."""
    return syntax.Turn(0, 0)


def again(first: int, last: int | None = None, repeated: int | None = None, piece: str = "") -> syntax.Again:
    """"As Rnd 5", "rep Rows 2-3 twice"."""
    reference = syntax.Reference(0, 0, ((first, last or first),), piece)
    return syntax.Again(0, 0, reference, number(repeated) if repeated is not None else None)


class Tree:
    """A pattern of one piece, written line by line; ``count`` gives what the check answers."""

    def __init__(self, **header: object) -> None:
        self.pattern = syntax.Pattern(syntax.Header(**header))  # type: ignore[arg-type]
        self.findings = Findings()
        self.at = 0
        self.piece("Ball")

    def _statement(self, text: str) -> Statement:
        self.at += 1
        return Statement([BlockLine(self.at, 1, text)])

    def piece(self, name: str, **more: object) -> Tree:
        """A new piece."""
        if self.pattern.pieces and not self.pattern.pieces[-1].lines:
            self.pattern.pieces.pop()
        self.pattern.pieces.append(syntax.Piece(name, None, **more))  # type: ignore[arg-type]
        return self

    def round(
        self, first: int, *steps: syntax.Step, count: int | tuple[int | None, ...] | syntax.Stated | None = None,
        last: int | None = None, kind: str = "round", length: int | None = None,
    ) -> Tree:  # fmt: skip
        """A round, a row or a range with its stated count."""
        word = "Rnd" if kind == "round" else "Row"
        text = f"{word} {first}" if last is None else f"{word}s {first}-{last}"
        label = syntax.RoundLabel(0, len(text), kind, text, ((first, last or first),))
        label.length = number(length) if length is not None else None
        self.pattern.pieces[-1].lines.append(
            syntax.RoundLine("round", self._statement(f"{text}: ... (0)"), label, steps, _stated(count, len(text)), (0, 0))
        )
        return self

    def row(self, first: int, *steps: syntax.Step, count: int | None = None) -> Tree:
        """A row."""
        return self.round(first, *steps, count=count, kind="row")

    def line(self, kind: str, *steps: syntax.Step, count: int | None = None) -> Tree:
        """A foundation or a step."""
        self.pattern.pieces[-1].lines.append(
            syntax.RoundLine(kind, self._statement("words"), None, steps, _stated(count, 4), (0, 0))
        )
        return self

    def count(self) -> PatternResult:
        """Counts the pattern."""
        return count_pattern(self.pattern, self.findings)

    def rules(self) -> list[str]:
        """Counts, and gives the rules that were reported."""
        self.count()
        return [finding.rule for finding in self.findings.items]

    def last(self) -> RoundResult:
        """Counts, and gives the last written line."""
        return self.count().rounds[-1]


def _stated(count: int | tuple[int | None, ...] | syntax.Stated | None, at: int) -> tuple[syntax.Stated, ...]:
    if count is None:
        return ()
    if isinstance(count, syntax.Stated):
        return (count,)
    values = count if isinstance(count, tuple) else (count,)
    return (syntax.Stated(at, at + 3, number=syntax.Number(at + 1, at + 2, values)),)


def ring(count: int = 6) -> Tree:
    """A pattern that begins with a ring of *count*."""
    return Tree().round(1, work("sc", count, RING), count=count)

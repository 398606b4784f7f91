"""The chain at the start of a round and the words that go back to it: beginning-chain.

"Ch 5 (counts as dc, ch 2) ... join in 3rd ch of beg ch-5": five chains are a dc of three and a space of two, and the top of
the dc is the third. Heights in chains, and that a chain fewer is usual, too: common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..findings import Findings
from ..language import syntax
from ..language.keys import STITCH_OF_CHAINS
from ..results import PatternResult
from ..source import Statement

_OF = r"of (?:the |your )?(?:(?:beg|beginning|turning|starting|first|initial)\.? )?"
_TOP = re.compile(
    rf"\b(?:(?P<place>\d)(?:st|nd|rd|th) (?:ch|chain|st)\.?|top) {_OF}(?:(?:ch|chain)s?\.?[- ]?(?P<named>\d)\b(?! ?sp)|(?P<tch>tch|t-ch|turning ch(?:ain)?)\b)",
    re.IGNORECASE,
)

_CHAINS = {stitch: chains for chains, stitch in STITCH_OF_CHAINS.items()}


@dataclass(frozen=True, slots=True)
class _Chain:
    """A chain at the start of a round: its number, and of it the chains that stand for the stitch (None where unsaid)."""

    number: int
    stitch: int | None


def check_beginning_chains(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """beginning-chain: a chain that is too long or short for what it counts as, or named otherwise where it is joined to."""
    for piece in pattern.pieces:
        before: _Chain | None = None
        for line in piece.lines:
            if not isinstance(line, syntax.RoundLine) or line.label is None or line.steps is None:
                continue
            chain = _first_chain(line.steps)
            own = _Chain(chain.number.value, _for_stitch(chain)) if chain is not None and len(chain.number.values) == 1 else None
            if chain is not None and own is not None:
                _height(chain, own, line.statement.as_read(), piece.name, findings)
            joined = line.label.kind == "round" or any(isinstance(step, syntax.Join) for step in line.steps)
            _named(own if joined else before, line.statement.as_read(), piece.name, findings)
            before = own


def _first_chain(steps: tuple[syntax.Step, ...]) -> syntax.Chain | None:
    """The chain before the first stitch; slip stitches may lead up to it."""
    for step in steps:
        if isinstance(step, syntax.Chain):
            return step
        if isinstance(step, (syntax.Group, syntax.Repeat, syntax.Ring)) or isinstance(step, syntax.Work) and step.stitch.kind != "slip":
            return None
    return None


def _for_stitch(chain: syntax.Chain) -> int | None:
    if not chain.counts_as or all(kind == "ch" for kind, _number in chain.counts_as):
        return None
    return chain.number.value - sum(number for kind, number in chain.counts_as if kind == "ch")


def _height(chain: syntax.Chain, own: _Chain, statement: Statement, piece: str, findings: Findings) -> None:
    """"ch 6 (counts as dc, ch 2)" leaves four chains for the dc."""
    stitches = [(kind, number) for kind, number in chain.counts_as or () if kind != "ch"]
    usual = _CHAINS.get(stitches[0][0]) if len(stitches) == 1 and stitches[0][1] == 1 else None
    if own.stitch is None or usual is None or usual - 1 <= own.stitch <= usual:
        return
    kind = stitches[0][0]
    findings.add(
        "beginning-chain", statement.span(chain.start, chain.end),
        f"A chain of {own.number} leaves {own.stitch} for the {kind}, which takes {usual}.",
        suggestion="Compare the chain with what it counts as.", piece=piece,
    )


def _named(chain: _Chain | None, statement: Statement, piece: str, findings: Findings) -> None:
    """"join in 3rd ch of beg ch-5": the chain that is named, and its top."""
    if chain is None:
        return
    for match in _TOP.finditer(statement.text):
        place, named = match["place"], match["named"]
        if named and int(named) != chain.number:
            message = f"These words name a chain of {named}; the chain there has {chain.number}."
        elif place and (int(place) != chain.stitch if chain.stitch is not None else int(place) > chain.number):
            top = chain.stitch if chain.stitch is not None else chain.number
            message = f"The top of the chain there is its ch {top}, not ch {place}."
        else:
            continue
        findings.add("beginning-chain", statement.span(*match.span()), message, suggestion="Compare it with the chain at the start.", piece=piece)

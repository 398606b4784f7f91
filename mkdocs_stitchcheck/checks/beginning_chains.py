"""The chain at the start of a round against what it is said to count as: beginning-chain.

"Ch 5 (counts as dc, ch 2)": five chains are a dc of three and a space of two. Heights in chains, and that a chain fewer is
usual, too: common practice, no source.
"""

from __future__ import annotations

from ..findings import Findings
from ..language import syntax
from ..language.keys import STITCH_OF_CHAINS
from ..results import PatternResult

_CHAINS = {stitch: chains for chains, stitch in STITCH_OF_CHAINS.items()}


def check_beginning_chains(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """beginning-chain: a chain counts as a stitch and a space, and leaves the stitch more or fewer chains than it takes."""
    for piece in pattern.pieces:
        for line in piece.lines:
            chain = _first_chain(line.steps or ()) if isinstance(line, syntax.RoundLine) else None
            if chain is None or len(chain.number.values) != 1:
                continue
            stitches = [(kind, number) for kind, number in chain.counts_as or () if kind != "ch"]
            space = sum(number for kind, number in chain.counts_as or () if kind == "ch")
            usual = _CHAINS.get(stitches[0][0]) if len(stitches) == 1 and stitches[0][1] == 1 and space else None
            left = chain.number.value - space
            if usual is None or usual - 1 <= left <= usual:
                continue
            findings.add(
                "beginning-chain", line.statement.as_read().span(chain.start, chain.end),
                f"A chain of {chain.number.value} without the {space} of its space leaves {left} for the {stitches[0][0]}, which takes {usual}.",
                suggestion="Compare the chain with what it counts as.", piece=piece.name,
            )  # fmt: skip


def _first_chain(steps: tuple[syntax.Step, ...]) -> syntax.Chain | None:
    """The chain before the first stitch; slip stitches may lead up to it."""
    for step in steps:
        if isinstance(step, syntax.Chain):
            return step
        if isinstance(step, (syntax.Group, syntax.Repeat, syntax.Ring)) or isinstance(step, syntax.Work) and step.stitch.kind != "slip":
            return None
    return None

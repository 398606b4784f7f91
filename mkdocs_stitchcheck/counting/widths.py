"""How wide a row's repeat is, and the chains on which a first row comes out even."""

from __future__ import annotations

from ..language import syntax
from .edge import Edge
from .evaluate import evaluate
from .judge import Start, fits, work_round
from .places import flat
from .working import LARGEST_NUMBER, Setting, Steps

_FARTHEST = 60  # chains more or fewer that are tried
_OPEN = ("rest", "to_last", "ending")


def repeat_widths(steps: Steps, setting: Setting) -> list[int]:
    """The stitches that each repeat of a row to its end takes; those into spaces, and those within others, are left out."""
    found: list[int] = []
    for step in steps:
        if isinstance(step, syntax.Repeat) and step.extent in _OPEN:
            tally = evaluate(step.body, None, setting).tally
            if tally.used and not tally.used_spaces:
                found.append(tally.used)
    return found


def comes_out(steps: Steps, chains: int, setting: Setting) -> bool:
    """Whether a first row comes out even on so many chains."""
    if not 1 <= chains <= LARGEST_NUMBER:
        return False
    return fits(work_round(steps, Start(Edge(chains, kind="chain")), setting, None)[0])


def neighbours(steps: Steps, chains: int, setting: Setting) -> list[int]:
    """The next chain below and above *chains* on which the row comes out even."""
    if not any(isinstance(step, syntax.Repeat) and step.extent in _OPEN for step in flat(steps)):
        return []
    below = next((n for n in range(chains - 1, max(chains - _FARTHEST, 1), -1) if comes_out(steps, n, setting)), None)
    above = next((n for n in range(chains + 1, chains + _FARTHEST) if comes_out(steps, n, setting)), None)
    return [n for n in (below, above) if n is not None]

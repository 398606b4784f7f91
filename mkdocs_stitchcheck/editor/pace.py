"""When a page is checked while somebody types: with every key while that is quick, else once the fingers rest."""

from __future__ import annotations

import gc
from collections import defaultdict, deque

from ..checker import check_text

QUICK = 0.05  # seconds: a check that takes less is made with every key
_RESTS = 3  # times what a check takes
_LONGEST_REST = 1.0
_REMEMBERED = 3
_OFTEN = (700, 10, 10)  # Python's own

_SMALL = "```crochet\nTerms: US\nYarn: light (3), 50 g = 125 m\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 5 (12)\n```\n"


class Pace:
    """What the last checks of each page took. The quickest counts: a machine that was busy for a moment slows no typing."""

    def __init__(self) -> None:
        self._took: defaultdict[str, deque[float]] = defaultdict(lambda: deque(maxlen=_REMEMBERED))

    def took(self, uri: str, seconds: float) -> None:
        """A check of *uri* has taken so long."""
        self._took[uri].append(seconds)

    def rest(self, uri: str) -> float:
        """Seconds to wait for another key before *uri* is checked; 0: check at once."""
        quickest = min(self._took.get(uri, ()), default=0.0)
        return 0.0 if quickest <= QUICK else min(_RESTS * quickest, _LONGEST_REST)

    def forget(self, uri: str) -> None:
        """The page *uri* was closed."""
        self._took.pop(uri, None)


def warm_up() -> None:
    """Make once what every check needs, before the first key, and keep it out of the search for litter.

    A full search (Python makes one every few dozen keys) would go through all modules and tables each time: about 0.1 s.
    The command line has it search seldom and long, which suits its short runs; here it searches often and briefly.
    """
    check_text(_SMALL, "first.md")
    gc.collect()
    gc.freeze()
    gc.set_threshold(*_OFTEN)

"""The height of real fabric by its stitch.

Heights sc 1 : hdc 1.5 : dc 2 : tr 3 of real fabric, taller ones carried on: from memory. Between two entries in
proportion; the key is the idealised height in chains (sc 1, hdc 2, dc 3).
"""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache

from .. import late_re as re
from .quantities import Gauge
from .vocabulary import Stitch

_REAL = ((0.0, 0.3), (1.0, 1.0), (2.0, 1.5), (3.0, 2.0), (4.0, 3.0), (5.0, 4.0), (6.0, 5.0))
_ANY_STITCH = re.compile(r"\d ?(?:st|sts|stitch|stitches)\b", re.IGNORECASE)
_NAMED = re.compile(r"\b(?:sc|dc|single crochet|double crochet)\b", re.IGNORECASE)
_HEIGHTS = [chains for chains, _rows in _REAL]


def real_height(stitch: Stitch) -> float:
    """The height of a row of *stitch*, in rows of sc."""
    return _real_height(stitch.height)


@lru_cache(maxsize=256)
def _real_height(height: float) -> float:
    at = bisect_left(_HEIGHTS, height)
    if at >= len(_REAL):
        return _REAL[-1][1]
    if at == 0 or _HEIGHTS[at] == height:
        return _REAL[at][1]
    (low, low_rows), (high, high_rows) = _REAL[at - 1], _REAL[at]
    return low_rows + (height - low) / (high - low) * (high_rows - low_rows)


def of_any_stitch(gauge: Gauge) -> bool:
    """Whether a gauge speaks of just "stitches": then it is of the fabric as it is worked."""
    return gauge.stitch == "sc" and bool(_ANY_STITCH.search(gauge.text)) and not _NAMED.search(gauge.text)

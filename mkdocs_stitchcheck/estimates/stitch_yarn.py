"""How much yarn one stitch takes.

Factors in multiples of the stitch width (:mod:`~mkdocs_stitchcheck.language.vocabulary`), derived from *Crochet Yarn
Estimating* (5 x 5 in swatches, worsted, 5 mm hook): one-row strips of sc, hdc and dc take 10.6, 15.7 and 20.4 in of
yarn to the inch of width, a foundation chain about 5.
"""

from __future__ import annotations

from functools import lru_cache

from .. import late_re as re
from ..language import syntax
from ..language.vocabulary import Stitch, decrease, increase, post, stitches, together

_TOGETHER = re.compile(r"(?P<base>.*[^\d])(?P<number>\d+)tog")
_IN_ONE = re.compile(r"(?P<base>.+) (?P<number>\d+)-in-1")
_POST = re.compile(r"(?P<side>FP|BP)(?P<base>.+)")


def stitch_of(key: str, header: syntax.Header) -> Stitch | None:
    """The stitch with *key*: declared, of the table, or built of a plain one ("hdc inc", "sc3tog"); else None."""
    for special in header.special.values():
        if special.special and special.stitch is not None and special.stitch.key == key:
            return special.stitch
    return _usual(key)


@lru_cache(maxsize=1024)
def _usual(key: str) -> Stitch | None:
    """The stitch of the table with *key*, or built of one."""
    table = stitches()
    if key in table:
        return table[key]
    base = key.removesuffix(" inc")
    if base != key and base in table:
        return increase(table[base])
    base = key.removesuffix(" dec")
    if base != key and base in table:
        return decrease(table[base])
    if (match := _TOGETHER.fullmatch(key)) and match["base"] in table:
        return together(table[match["base"]], int(match["number"]))
    if (match := _IN_ONE.fullmatch(key)) and match["base"] in table:
        return increase(table[match["base"]], int(match["number"]))
    if (match := _POST.fullmatch(key)) and match["base"] in table:
        return post(table[match["base"]], match["side"].lower())
    return None


def stitch_metres(stitch: Stitch, stitch_cm: float) -> float:
    """The yarn of one stitch in metres, at a gauge whose stitches are *stitch_cm* wide."""
    return stitch.yarn * stitch_cm / 100

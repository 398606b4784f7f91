"""Kinds of round in a spiral: each makes an instruction for an edge of *n* stitches, or None where it does not suit.

``KINDS`` is the table; a new kind is one function and its entry. The hands are asked afterwards whether it comes out.
"""

from __future__ import annotations

from . import mixed, shaping
from .forms import Bit, Writer
from .shaping import Kind

KINDS: dict[str, tuple[Kind, int]] = {
    "even": (shaping.even, 6),
    "double": (shaping.double, 2),
    "halve": (shaping.halve, 2),
    "regular": (shaping.regular_inc, 9),
    "regular dec": (shaping.regular_dec, 8),
    "staggered": (shaping.staggered_inc, 4),
    "staggered dec": (shaping.staggered_dec, 4),
    "tail": (shaping.repeat_and_tail, 5),
    "nested": (shaping.nested, 3),
    "prefix inside": (shaping.prefix_inside, 1),
    "heights": (mixed.heights, 2),
    "oval": (mixed.oval, 2),
    "corners": (mixed.corners, 2),
    "three together": (mixed.three_together, 2),
    "both ways": (mixed.both_ways, 2),
    "opening": (mixed.opening, 2),
    "skip decrease": (mixed.skip_decrease, 1),
    "pair": (mixed.pair, 2),
    "to last": (mixed.to_last_then, 3),
    "evenly": (mixed.evenly, 1),
    "color": (mixed.pieces_of_color, 3),
    "loops": (mixed.back_loops, 2),
    "loops inc": (shaping.back_loop_inc, 1),
    "last partial": (shaping.last_partial, 2),
    "offset": (mixed.offset, 1),
    "slip": (shaping.slip_at_end, 2),
}


def some_round(writer: Writer, n: int) -> tuple[str, Bit]:
    """A kind of round that suits *n* stitches, with its instruction."""
    names = list(KINDS)
    weights = [KINDS[name][1] for name in names]
    for _ in range(40):
        name = writer.rng.choices(names, weights)[0]
        if n > 60 and name in ("regular", "double", "staggered", "corners"):
            continue
        bit = KINDS[name][0](writer, n)
        if bit is not None:
            return name, bit
    return "even", writer.plain_all(n)

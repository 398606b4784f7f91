"""What a yarn's category says of it: the usual stitch, hook and length.

Gauge of sc in 10 cm and hook in mm: Craft Yarn Council, *Standards & Guidelines for Crochet and Knitting* (2018), yarn
weight system; category 0 is counted in dc there, 7 has no lower end. Metres in 100 g: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Category:
    """Middles of the printed ranges: stitches in 10 cm, hook in mm, metres in 100 g."""

    stitches: float
    hook: float
    metres_per_100g: float


CATEGORIES: dict[int, Category] = {
    0: Category(37.0, 1.9, 700), 1: Category(26.5, 2.9, 450), 2: Category(18.0, 4.0, 320), 3: Category(14.5, 5.0, 260),
    4: Category(12.5, 6.0, 180), 5: Category(9.5, 7.75, 110), 6: Category(7.5, 12.5, 70), 7: Category(5.0, 17.0, 45),
}


def stitch_width(category: int, hook_mm: float | None) -> float | None:
    """The width of a stitch in cm by category, as much narrower as the hook is thinner than usual; None for no category.

    Toys are worked with a hook well below the usual one (common practice), so the hook matters.
    """
    usual = CATEGORIES.get(category)
    if usual is None:
        return None
    return 10 / usual.stitches * (hook_mm / usual.hook if hook_mm else 1.0)

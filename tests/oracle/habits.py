"""Designers with habits that hold for a whole pattern: no repeat marks at all, or "2 sc" for two in one stitch."""

from __future__ import annotations

from . import hands
from .forms import Bit
from .lines import Work


def implicit(work: Work, size: int) -> None:
    """A designer who writes no repeat marks: 3 sc, inc (30)."""
    writer = work.writer
    s = writer.word("sc")
    work.round(writer.ring(6), "ring")
    work.round(writer.incs(6), "double")
    for a in range(1, max(4, min(size, 7))):
        text = f"{a} {s}, inc" if a > 1 else f"{s}, inc"
        work.round(
            Bit(text, (hands.until([hands.plain("sc", a), hands.into_one(["sc", "sc"])]),), ("implicit",)), "implicit"
        )


def two_in_one(work: Work, size: int) -> None:
    """A designer whose "2 sc" is two in one stitch (a header says so)."""
    writer = work.writer
    s = writer.word("sc")
    work.round(writer.ring(6), "ring")
    for a in range(1, max(4, min(size, 7))):
        text = f"({s} in next {a} sts, 2 {s}) x 6" if a > 1 else f"({s}, 2 {s}) x 6"
        if a == 1:
            work.round(Bit(f"2 {s} in each st around", (hands.until([hands.into_one(["sc", "sc"])]),)), "double")
        body = [hands.plain("sc", a), hands.into_one(["sc", "sc"])]
        work.round(Bit(text, (hands.times(body, 6),), ("2 sc in one",)), "two in one")

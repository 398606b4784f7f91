"""Working stitch by stitch: an edge is a Python list, each place is taken one at a time, repeats are really repeated.

This shares nothing with the checker, which multiplies; it is slow and plain on purpose.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Step = Callable[["Hands"], None]


class RanOut(Exception):
    """There is no further stitch to work into."""


@dataclass
class Loop:
    """One stitch of an edge."""

    kind: str


class Hands:
    """What a maker holds: the stitches still to be worked into, and the stitches made."""

    def __init__(self, edge: Sequence[Loop]) -> None:
        self.waiting = list(edge)
        self.made: list[Loop] = []
        self.used = 0

    def take(self) -> Loop:
        """Work into the next stitch."""
        if not self.waiting:
            raise RanOut
        self.used += 1
        return self.waiting.pop(0)

    def make(self, kind: str) -> None:
        """One more stitch on the new edge."""
        self.made.append(Loop(kind))


def run(steps: Sequence[Step], hands: Hands) -> Hands:
    """Work the steps one after the other."""
    for step in steps:
        step(hands)
    return hands


def ring(kind: str, number: int) -> Step:
    """Stitches into a ring, or with no place of their own (in the same stitch)."""

    def work(hands: Hands) -> None:
        for _ in range(number):
            hands.make(kind)

    return work


def plain(kind: str, number: int = 1) -> Step:
    """One stitch in each of the next places."""

    def work(hands: Hands) -> None:
        for _ in range(number):
            hands.take()
            hands.make(kind)

    return work


def into_one(kinds: Sequence[str], times: int = 1) -> Step:
    """All of *kinds* in one place; that, *times* places long."""

    def work(hands: Hands) -> None:
        for _ in range(times):
            hands.take()
            for kind in kinds:
                hands.make(kind)

    return work


def together(kind: str, number: int = 2, times: int = 1) -> Step:
    """*number* places become one stitch."""

    def work(hands: Hands) -> None:
        for _ in range(times):
            for _ in range(number):
                hands.take()
            hands.make(kind)

    return work


def skip(number: int) -> Step:
    """Places passed over for good."""

    def work(hands: Hands) -> None:
        for _ in range(number):
            hands.take()

    return work


def chain(number: int) -> Step:
    """Chains that the next round works into like stitches."""
    return ring("ch", number)


def turning(kind: str) -> Step:
    """A turning chain that counts: it is the first stitch, and stands on the first place."""
    return plain(kind, 1)


def times(body: Sequence[Step], number: int) -> Step:
    """The body again and again."""

    def work(hands: Hands) -> None:
        for _ in range(number):
            run(body, hands)

    return work


def until(body: Sequence[Step], left: int = 0) -> Step:
    """The body again and again until *left* places are left; it must come out even."""

    def work(hands: Hands) -> None:
        while len(hands.waiting) > left:
            run(body, hands)
        if len(hands.waiting) < left:
            raise RanOut

    return work


def rest(kind: str, left: int = 0) -> Step:
    """One stitch in each place that is left, but for the last *left*."""
    return until([plain(kind)], left)


def all_together(kind: str) -> Step:
    """Two together all the way: an odd stitch at the end runs out."""
    return until([together(kind)])


def spread(number: int) -> Step:
    """Increases (or, below zero, decreases) anywhere on the edge, one stitch in each of the others."""

    def work(hands: Hands) -> None:
        for _ in range(abs(number)):
            (into_one(["sc", "sc"]) if number > 0 else together("sc"))(hands)
        rest("sc")(hands)

    return work


def worked(steps: Sequence[Step], edge: Sequence[Loop], *, leaves: bool = False) -> Hands:
    """The steps worked on *edge*. Raises RanOut where they do not use the whole edge (unless it *leaves* some)."""
    hands = run(steps, Hands(edge))
    if hands.waiting and not leaves:
        raise RanOut
    return hands

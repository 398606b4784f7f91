"""Joins that make a space: ", ending with ch 2, dc in first sc" closes the round with its last chain space."""

from __future__ import annotations

from collections import Counter

from .syntax import Aside, Chain, ColorChange, Join, Number, Repeat, Step, Turn, Work


def join_last_space(steps: list[Step]) -> list[Step]:
    """A chain and a taller stitch into the first stitch, at the end of a round, are its last space: as long as most."""
    last = next((i for i in range(len(steps) - 1, -1, -1) if not isinstance(steps[i], (Aside, Turn, ColorChange))), -1)
    if last < 0:
        return steps
    step, length = steps[last], _usual(steps)
    if isinstance(step, Repeat) and step.ending and (joined := _joined(step.ending, length)):
        step.ending = joined
    elif last > 1 and (joined := _joined(tuple(steps[last - 1 : last + 1]), length)):
        return [*steps[: last - 1], *joined, *steps[last + 1 :]]
    return steps


def _joined(steps: tuple[Step, ...], length: int) -> tuple[Step, ...]:
    if len(steps) < 2 or not length:
        return ()
    chain, stitch = steps[-2:]
    if not isinstance(chain, Chain) or chain.turning or not isinstance(stitch, Work) or not stitch.stitch.plain:
        return ()
    place = stitch.place
    if stitch.count is not None or stitch.stitch.height < 2 or place is None or place.kind != "first" or place.number is not None:
        return ()
    if chain.number.value >= length:
        return ()
    whole = Number(chain.start, chain.start, (length,))
    return (*steps[:-2], Chain(chain.start, stitch.end, whole), Join(stitch.start, stitch.end))


def _usual(steps: list[Step]) -> int:
    """The length of most chains of the round."""
    lengths: Counter[int] = Counter()
    for step in steps:
        for inner in step.body if isinstance(step, Repeat) else (step,):
            if isinstance(inner, Chain) and not inner.turning:
                lengths[inner.number.value] += 10 if isinstance(step, Repeat) else 1
    return max(lengths, key=lambda length: (lengths[length], length), default=0)

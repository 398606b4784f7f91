"""How many places a :class:`~..language.syntax.Place` takes, and what of a row's start a chain stands for."""

from __future__ import annotations

from collections.abc import Iterator

from ..language import syntax
from ..language.vocabulary import Stitch

HEIGHTS = ("sc", "hdc", "dc", "tr", "dtr", "trtr")


def is_space(place: syntax.Place) -> bool:
    """Whether stitches go into chain spaces there."""
    return place.kind == "space" or place.noun.startswith(("space", "corner")) or place.noun == "loop" or place.kind == "gap" and place.noun == "group"


def height_key(stitch: Stitch) -> str:
    """The plain stitch whose height *stitch* has, by its key: the question turning-chain is asked for each."""
    if stitch.base in HEIGHTS:
        return stitch.base
    return HEIGHTS[min(max(round(stitch.height), 1), len(HEIGHTS)) - 1]


def first_work(steps: tuple[syntax.Step, ...], after: syntax.Step | None = None) -> syntax.Work | syntax.Group | None:
    """The first stitches that are worked, looking into repeats; skipped stitches are passed over."""
    waiting = after is not None
    for step in flat(steps):
        if waiting:
            waiting = step is not after
        elif isinstance(step, syntax.Work) and step.stitch.kind not in ("skip", "chain") or isinstance(step, syntax.Group):
            return step
    return None


def first_place(steps: tuple[syntax.Step, ...]) -> syntax.Place | None:
    """Where the first stitches go."""
    if steps and type(steps[0]) is syntax.Work and steps[0].stitch.kind != "skip":
        return steps[0].place
    for step in flat(steps):
        if isinstance(step, syntax.StartAt):
            return step.place
        if isinstance(step, (syntax.Work, syntax.Group)) and not (isinstance(step, syntax.Work) and step.stitch.kind == "skip"):
            return step.place
    return None


def first_stitch(step: syntax.Work | syntax.Group | None) -> Stitch | None:
    """The stitch that *step* begins with."""
    if isinstance(step, syntax.Group):
        inner = first_work(step.body)
        return first_stitch(inner)
    return step.stitch if step is not None else None


def flat(steps: tuple[syntax.Step, ...]) -> Iterator[syntax.Step]:
    """Every step and those inside repeats, in the order written."""
    for step in steps:
        yield step
        if isinstance(step, syntax.Repeat):
            yield from flat(step.body)


def consumes(step: syntax.Step) -> bool:
    """Whether *step* works stitches (not just chains, turns and asides)."""
    return isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat, syntax.Spread, syntax.Again, syntax.Trust, syntax.Shaping, syntax.Edging))

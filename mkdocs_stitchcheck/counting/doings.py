"""Steps of a round that are no stitches: joins, rings, colours, references, the other side of a chain."""

from __future__ import annotations

from ..language import syntax
from .joining import join_to
from .working import Steps, Working, run

_MOST_REFERRING = 6  # rounds that refer to rounds that refer ..., in the middle of a round


def other_side(w: Working, step: syntax.OtherSide, steps: Steps, index: int) -> None:
    """The second side of the chain: two or one places fewer where the end chains were worked on the first side."""
    if w.joined or not w.chain:
        return
    length = w.chain
    order = (length - 1, length - 2, length) if w.corner else (length, length - 1, length - 2)
    w.side, w.side_used = 2, w.tally.used
    if any(_is_open_ended(later) for later in steps[index + 1 :]):
        w.options = max(w.options, 3)
    w.left = order[min(w.choice, 2)]


def _is_open_ended(step: syntax.Step) -> bool:
    if isinstance(step, (syntax.Work, syntax.Group)):
        # "sc down the other side" is all of that side: nothing is open
        return step.place is not None and step.place.kind in ("rest", "to_last") and step.place.noun != "side"
    return isinstance(step, syntax.Repeat) and step.extent != "times"


def ring(w: Working, step: syntax.Ring, steps: Steps, index: int) -> None:
    w.in_ring = True
    if step.chains is not None:
        w.tally.chain(w.wear(None), w.value(step.chains))


def join(w: Working, step: syntax.Join, steps: Steps, index: int) -> None:
    color = w.wear(None)
    join_to(w, step)
    if step.stitch is not None:
        if not w.in_ring:
            w.use(step.stitch.uses)
        w.worked = True
        w.tally.stitch(color, step.stitch, 1, step.stitch.makes)
    else:
        w.closed = w.worked
        key = (color, "sl st")
        w.tally.material[key] = w.tally.material.get(key, 0) + 1


def more(w: Working, step: syntax.More, steps: Steps, index: int) -> None:
    tally = w.once(step.body, no_places=True)
    for key, count in tally.material.items():
        w.tally.material[key] = w.tally.material.get(key, 0) + count


def again(w: Working, step: syntax.Again, steps: Steps, index: int) -> None:
    times = w.times(step.times)
    reference = step.reference
    before = steps[:index]
    if not reference.rounds and reference.piece in ("", "other side"):  # "repeat on the other side": what was just worked
        if w.chain and w.side == 1 and w.left == 0:
            w.side, w.side_used, w.left = 2, w.tally.used, w.chain
        start = max((k + 1 for k, s in enumerate(before) if isinstance(s, syntax.Again)), default=0)
        body = tuple(s for s in before[start:] if not isinstance(s, (syntax.Ring, syntax.Turn)))
        body = tuple(s for s in body if not (isinstance(s, syntax.Chain) and s is body[-1]))
        w.repeat(w.once(body), times)
        return
    body_steps = w.setting.resolve(step) if w.referring < _MOST_REFERRING else None
    w.referring += 1
    if body_steps is None:
        w.trust = w.trust or "it repeats a round that is not known"
    elif times == 1:
        run(w, body_steps)
    else:
        w.repeat(w.once(body_steps), times)
    w.referring -= 1


def trust(w: Working, step: syntax.Trust, steps: Steps, index: int) -> None:
    w.trust = w.trust or step.reason or "it cannot be counted"


def told_within(w: Working, step: syntax.Until | syntax.Shaping, steps: Steps, index: int) -> None:
    """Rows told by a measure or by how often they shape, where only stitches can be repeated: within a bracket or star."""
    w.trust = w.trust or "it tells of whole rows within a repeat"


def color_change(w: Working, step: syntax.ColorChange, steps: Steps, index: int) -> None:
    if step.last_stitch:
        w.next_color = step.color or step.name
    else:
        w.color = step.color or step.name
        w.next_color = None


def loops(w: Working, step: syntax.Loops, steps: Steps, index: int) -> None:
    w.loops |= {step.loop}
    w.loop = step.loop


def start_at(w: Working, step: syntax.StartAt, steps: Steps, index: int) -> None:
    """The place was looked at before the round began."""


def aside(w: Working, step: syntax.Aside, steps: Steps, index: int) -> None:
    w.asides |= {step.kind}

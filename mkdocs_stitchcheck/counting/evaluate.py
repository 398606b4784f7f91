"""One round on one edge: sets up the places, works the steps, and says what is left over."""

from __future__ import annotations

from ..language import syntax
from ..language.vocabulary import Stitch
from . import chains, repeating, stitching
from .edge import Edge
from .joining import close_joining, join_to, open_joining
from .places import HEIGHTS, first_place, first_stitch, first_work, height_key
from .questions import IMPLICIT, TURNING
from .working import HANDLERS, Remainder, Setting, Steps, Working, run

_MOST_REFERRING = 6  # rounds that refer to rounds that refer ..., in the middle of a round


def evaluate(
    steps: Steps,
    edge: Edge | None,
    setting: Setting,
    color: str = "",
    choice: int = 0,
    pending: syntax.Chain | None = None,
    piece: str = "",
) -> Working:
    """Works *steps* on *edge* (None: unknown). ``left`` of the result is what is left over, negative if too few.

    *pending* is a turning chain made at the end of the row before.
    """
    w = Working(edge, setting, color, choice)
    if edge is not None and edge.kind == "nothing":
        steps = _begin(w, steps)
    names_pieces = _look(w, steps)
    if w.chain:
        _open_chain(w, steps, pending)
    elif w.trailing:
        _extend(w, steps)
    if names_pieces:
        open_joining(w, steps, edge, piece)
    if pending is not None and not _has_own_chain(steps):
        chains.carry_over(w, pending, steps)
    if _is_bare_list(w, steps) and w.ask(IMPLICIT):
        _run_repeated(w, steps)
    else:
        run(w, steps)
    _finish(w, steps)
    return w


def _look(w: Working, steps: Steps) -> bool:
    """Whether *steps* name other pieces to be worked around; notes whether there is an increase by name."""
    found = False
    for step in steps:
        kind = type(step)
        if kind is syntax.Work:
            assert isinstance(step, syntax.Work)
            if step.stitch.kind == "increase":
                w.has_increase = True
            if step.place is not None and step.place.kind == "piece":
                found = True
        elif isinstance(step, syntax.Repeat):
            found = _look(w, step.body) or found
        elif isinstance(step, syntax.Group):
            found = found or step.place.kind == "piece"
        elif isinstance(step, syntax.Join):
            found = found or step.reference is not None and not step.reference.rounds
    return found


def _has_own_chain(steps: Steps) -> bool:
    for step in steps:
        if isinstance(step, syntax.Chain):
            return step.turning
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat)):
            return False
    return False


def _begin(w: Working, steps: Steps) -> Steps:
    """A round that makes its own ring or chain before it works into it; gives the steps that remain."""
    for index, step in enumerate(steps):
        if isinstance(step, syntax.Ring):
            if step.chains is not None:
                w.left = w.value(step.chains)
                w.tally.chain(w.wear(None), w.left)
            w.in_ring = True
            return steps[index + 1 :]
        if isinstance(step, syntax.Chain):
            later = first_work(steps[index + 1 :])
            if later is None or later.place is not None and later.place.kind in ("ring", "piece"):
                break
            if any(isinstance(other, syntax.Join) and other.reference is not None for other in steps):
                break
            number = w.value(step.number)
            w.tally.chain(w.wear(None), number)
            w.left = w.chain = number
            rest = steps[index + 1 :]
            if rest and isinstance(rest[0], syntax.Join):
                w.chain = 0
            return rest
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat)):
            break
    place = first_place(steps)
    if place is not None and place.kind == "ring":
        w.in_ring = True
    return steps


def _open_chain(w: Working, steps: Steps, pending: syntax.Chain | None) -> None:
    """How many places an open chain gives: n - k + 1 from the k-th chain on, one stitch more if the skipped count."""
    stitch = first_stitch(first_work(steps))
    place = first_place(steps)
    length = w.chain
    skip = next((s for s in steps if isinstance(s, (syntax.Work, syntax.Group, syntax.Repeat))), None)
    if place is not None and place.kind == "chain":
        k = w.times(place.number)
    elif place is not None and place.kind == "first" and place.noun == "chain":
        k = length if length == 2 else 1
    elif isinstance(skip, syntax.Work) and skip.stitch.kind == "skip":
        skipped = w.times(skip.place.number if skip.place is not None and skip.place.number else skip.count)
        w.first_chain = 1
        _count_skipped(w, stitch, skipped)
        return
    elif pending is not None or _has_own_chain(steps) or stitch is None or (place is not None and place.kind == "loops"):
        k = 1
    else:
        k = HEIGHTS.index(height_key(stitch)) + 2 if stitch.height else 2
    w.first_chain = k
    w.left = max(length - k + 1, 0)
    w.chain = w.left
    if stitch is not None and not _has_own_chain(steps):
        _count_skipped(w, stitch, k - 1, place.counts_as if place is not None else None)


def _count_skipped(w: Working, stitch: Stitch | None, skipped: int, said: tuple[tuple[str, int], ...] | None = None) -> None:
    if stitch is None:
        return
    key = height_key(stitch)
    if said is not None:
        counted = sum(many for kind, many in said if kind != "ch")
        for kind, many in said:
            if kind == "ch":
                w.tally.spaces[many] = w.tally.spaces.get(many, 0) + 1
        w.own.append((f"{TURNING} {key}", counted > 0, False))
        w.tally.made += counted
        w.tally.kinds[key] = w.tally.kinds.get(key, 0) + counted
        w.under_chain = counted > 0
        return
    least = 1 if key == "sc" else 2
    if skipped >= least and w.ask(f"{TURNING} {key}"):
        w.tally.made += 1
        w.tally.kinds[key] = w.tally.kinds.get(key, 0) + 1
        w.under_chain = True


def _extend(w: Working, steps: Steps) -> None:
    """Chains made at the end of the last row lengthen the next: "sc in 2nd ch from hook"."""
    place = first_place(steps)
    if place is not None and place.kind == "chain":
        w.left += max(w.trailing - w.times(place.number) + 1, 0)


def _is_bare_list(w: Working, steps: Steps) -> bool:
    """Two or more plain steps without multiplier, bracket, star, "around" or place: they may mean a repeat."""
    works = 0
    uses = 0
    if len(steps) < 2:
        return False
    for step in steps:
        if isinstance(step, syntax.Work):
            if step.place is not None or step.times is not None or step.stitch.kind in ("slip", "skip", "chain"):
                return False
            if step.stitch.kind in ("increase", "decrease") and step.count is not None and w.times(step.count) > 1:
                return False
            works += 1
            uses += w.times(step.count) * step.stitch.uses
        elif not isinstance(step, (syntax.Aside, syntax.Join, syntax.Loops, syntax.ColorChange)):
            return False
    return works > 1 and not w.unknown and not w.in_ring and 0 < uses < w.left and w.left % uses == 0


def _run_repeated(w: Working, steps: Steps) -> None:
    first = w.once(steps, cyclic=True)
    passes = w.left // first.used if first.used else 1
    w.open_ended = True
    w.repeat(first, passes)
    w.worked = True


def _finish(w: Working, steps: Steps) -> None:
    if w.joined:
        close_joining(w)
    if w.side == 2 and w.side_used >= 0:
        _close_other_side(w, steps)
    elif w.chain and w.left < 0 and w.setting.in_rounds and w.side == 1 and w.chain - 2 <= -w.left <= w.chain:
        w.left = 0  # worked along both sides without saying so
    if w.in_ring and w.remainder is None:
        w.left = 0
    if w.layered and abs(w.left) == 1:
        w.left = 0
    if w.tally.used_spaces and w.left > 0:
        w.left = 0  # stitches before a space are passed over
    if w.leaving and w.left > 0 and w.kept == w.left:
        w.left = 0


def _close_other_side(w: Working, steps: Steps) -> None:
    """Each chain between the two end ones is used once on each side, each end chain at least once."""
    used = w.tally.used - w.side_used
    least = w.chain - 2
    turned = max((i for i, step in enumerate(steps) if isinstance(step, syntax.OtherSide)), default=0)
    works = [s for s in steps[turned:] if isinstance(s, (syntax.Work, syntax.Group))]
    place = works[-1].place if works else None
    if place is not None and place.kind == "last":
        least += 1  # the last of them goes into an end chain
    short = least - used
    over = used - w.chain
    first_side = w.chain - w.side_used
    if first_side:
        w.left = first_side
    else:
        w.left = short if short > 0 else -over if over > 0 else 0


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
        return step.place is not None and step.place.kind in ("rest", "to_last")
    return isinstance(step, syntax.Repeat) and step.extent != "times"


def _ring(w: Working, step: syntax.Ring, steps: Steps, index: int) -> None:
    w.in_ring = True
    if step.chains is not None:
        w.tally.chain(w.wear(None), w.value(step.chains))


def _join(w: Working, step: syntax.Join, steps: Steps, index: int) -> None:
    color = w.wear(None)
    join_to(w, step)
    if step.stitch is not None:
        if not w.in_ring:
            w.use(step.stitch.uses)
        w.worked = True
        w.tally.stitch(color, step.stitch, 1, step.stitch.makes)
    else:
        key = (color, "sl st")
        w.tally.material[key] = w.tally.material.get(key, 0) + 1


def _more(w: Working, step: syntax.More, steps: Steps, index: int) -> None:
    tally = w.once(step.body, no_places=True)
    for key, count in tally.material.items():
        w.tally.material[key] = w.tally.material.get(key, 0) + count


def _again(w: Working, step: syntax.Again, steps: Steps, index: int) -> None:
    times = w.times(step.times)
    reference = step.reference
    before = steps[:index]
    if not reference.rounds and reference.piece in ("", "other side"):  # "repeat on the other side": what was just worked
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


def _trust(w: Working, step: syntax.Trust, steps: Steps, index: int) -> None:
    w.trust = w.trust or step.reason or "it cannot be counted"


def _color_change(w: Working, step: syntax.ColorChange, steps: Steps, index: int) -> None:
    if step.last_stitch:
        w.next_color = step.color or step.name
    else:
        w.color = step.color or step.name
        w.next_color = None


def _loops(w: Working, step: syntax.Loops, steps: Steps, index: int) -> None:
    w.loops.add(step.loop)


def _start_at(w: Working, step: syntax.StartAt, steps: Steps, index: int) -> None:
    """The place was looked at before the round began."""


def _aside(w: Working, step: syntax.Aside, steps: Steps, index: int) -> None:
    w.asides.add(step.kind)


HANDLERS.update(
    {
        syntax.Work: stitching.work,
        syntax.Group: stitching.group,
        syntax.Spread: stitching.spread,
        syntax.Repeat: repeating.repeat,
        syntax.Chain: chains.chain,
        syntax.Turn: chains.turn,
        syntax.Leave: chains.leave,
        syntax.OtherSide: other_side,
        syntax.Ring: _ring,
        syntax.Join: _join,
        syntax.More: _more,
        syntax.Again: _again,
        syntax.Trust: _trust,
        syntax.ColorChange: _color_change,
        syntax.Loops: _loops,
        syntax.Aside: _aside,
        syntax.StartAt: _start_at,
    }
)

__all__ = ["Remainder", "evaluate"]

"""One round on one edge: sets up the places, works the steps, and says what is left over."""

from __future__ import annotations

from ..language import syntax
from . import chains, doings, edgings, own_chain, repeating, stitching
from .clumps import add_gaps
from .edge import Edge
from .facing import faced
from .in_order import close_order
from .joining import close_joining, open_joining
from .places_of_chain import begin, close_other_side, extend, has_own_chain, open_chain
from .questions import IMPLICIT
from .working import HANDLERS, Remainder, Setting, Steps, Working, run


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
    if edge is not None and (edge.marks or edge.clumps):
        edge = faced(edge, steps, setting)
    w = (setting.working or Working)(edge, setting, color, choice)
    if edge is not None and edge.kind == "nothing":
        steps = begin(w, steps)
    if edge is not None and edge.clumps:
        add_gaps(w, edge, steps)
    names_pieces = _look(w, steps)
    if w.chain:
        open_chain(w, steps, pending)
    elif w.trailing:
        extend(w, steps)
    if names_pieces:
        open_joining(w, steps, edge, piece)
    if pending is not None and not has_own_chain(steps):
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
            if step.place is not None and (step.place.kind == "piece" or step.place.layers > 1 and step.place.reference is not None):
                found = True
        elif isinstance(step, syntax.Repeat):
            found = _look(w, step.body) or found
        elif isinstance(step, syntax.Group):
            found = found or step.place.kind == "piece"
        elif isinstance(step, syntax.Join):
            found = found or step.reference is not None and not step.reference.rounds
    return found


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
    if w.own_made:
        own_chain.leave(w)
    if w.joined:
        close_joining(w)
    if w.side == 2 and w.side_used >= 0:
        close_other_side(w, steps)
    elif w.chain and w.left < 0 and w.setting.in_rounds and w.side == 1 and w.chain - 2 <= -w.left <= w.chain:
        w.left = 0  # worked along both sides without saying so
    if w.in_ring and w.remainder is None:
        w.left = 0
    if w.layered and abs(w.left) == 1:
        w.left = 0
    if w.loose and w.tally.used_spaces:
        w.left = w.spaces = 0
    elif w.marks and (w.lengths or w.missing):
        close_order(w)
    elif w.tally.used_spaces and w.left > 0:
        w.left = 0  # stitches before a space are passed over
    if w.leaving and w.left > 0 and w.kept == w.left:
        w.left = 0


HANDLERS.update(
    {
        syntax.Work: stitching.work,
        syntax.Group: stitching.group,
        syntax.Spread: stitching.spread,
        syntax.Edging: edgings.edging,
        syntax.Repeat: repeating.repeat,
        syntax.Chain: chains.chain,
        syntax.Turn: chains.turn,
        syntax.Leave: chains.leave,
        syntax.OtherSide: doings.other_side,
        syntax.Ring: doings.ring,
        syntax.Join: doings.join,
        syntax.More: doings.more,
        syntax.Again: doings.again,
        syntax.Trust: doings.trust,
        syntax.ColorChange: doings.color_change,
        syntax.Loops: doings.loops,
        syntax.Aside: doings.aside,
        syntax.StartAt: doings.start_at,
        syntax.Until: doings.told_within,
        syntax.Shaping: doings.told_within,
    }
)

__all__ = ["Remainder", "evaluate"]

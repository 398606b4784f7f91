"""Repeats: "(2 sc, inc) x 6", "*...; rep from * around", "to last 2 sts", "ending with sc". Multiplied, never expanded."""

from __future__ import annotations

from dataclasses import replace

from ..language import syntax
from .in_order import as_often_as_fits, one_pass, passes, stitches_before
from .questions import STAR
from .tally import Tally
from .working import HANDLERS, Remainder, Steps, Working, reserved

_DEEP = 3
_LONG = 40


def repeat(w: Working, step: syntax.Repeat, steps: Steps, index: int) -> None:
    """Works a repeat as often as it says, or as the edge allows."""
    if _begins_once(w, step):
        HANDLERS[syntax.Work](w, step.body[0], step.body, 0)
        step = replace(step, body=step.body[1:])
    w.worked = True
    color = w.color
    first = w.once(step.body, cyclic=True)
    # After one pass the colour is settled; deep inside others the second look is not worth doubling the work.
    later = first if w.color == color or w.depth > _DEEP else w.once(step.body, cyclic=True)
    if w.marks and first.used_spaces and _in_order(w, step, steps, index):
        return
    if step.mark == "x" and step.times is not None and len(step.body) > 1:
        _inside(w, step)
        return
    if step.last is not None:
        _partial(w, step, first, later, steps, index)
        return
    if step.extent == "times" and (step.closed or step.times is not None):
        _times(w, first, later, _passes(w, step))
        return
    kept = reserved(w, steps, index)
    if step.extent == "to_last":
        kept = w.kept = w.times(step.left)
    w.open_ended = True
    if w.unknown:
        _times(w, first, later, 1)
        return
    in_spaces = bool(first.used_spaces)
    available = max((w.spaces if in_spaces else w.left) - kept, 0)
    if step.upto is not None and not in_spaces:
        available = stitches_before(w, step.upto)
    each = first.used_spaces if in_spaces else first.used
    if step.extent == "ending":
        _ending(w, step, first, later, available, each)
        return
    if not each:
        w.trust = w.trust or "a repeat that uses no stitches of the round before"
        _times(w, first, later, 1)
        return
    passes, over = divmod(available, each)
    _times(w, first, later, passes)
    if over:
        w.remainder = w.remainder or Remainder(step, each, over, available + kept, kept, in_spaces)


def _in_order(w: Working, step: syntax.Repeat, steps: Steps, index: int) -> bool:
    """Where the order of the spaces is known, each repeat is worked in its place."""
    if step.extent == "times" and (step.closed or step.times is not None):
        number = _passes(w, step)
        if step.last is None:
            return passes(w, step.body, number)
        if not passes(w, step.body, number - 1):
            return False
        one_pass(w, step.body[: step.last])
        return True
    if w.unknown:
        return False
    w.open_ended = True
    ending = step.ending if step.extent == "ending" else step.body[: step.last] if step.last is not None else ()
    keep = w.once((*ending, *steps[index + 1 :])).used_spaces if ending or index + 1 < len(steps) else 0
    least = reserved(w, steps, index)
    if step.extent == "to_last":
        if step.left_spaces:
            keep = max(keep, w.times(step.left))
        else:
            least = w.kept = w.times(step.left)
    worked = as_often_as_fits(w, step.body, keep, step.upto, least)
    if ending and (step.last is not None or not _ends_so(w, step, worked)):
        one_pass(w, ending)
    return True


def _ends_so(w: Working, step: syntax.Repeat, worked: int) -> bool:
    """Whether the last repeat has ended with the ending already."""
    body, ending = step.body, step.ending
    return worked > 0 and len(ending) <= len(body) and all(
        _alike(w, mine, its, whole=False) for mine, its in zip(ending, body[len(body) - len(ending) :], strict=True)
    )


def _inside(w: Working, step: syntax.Repeat) -> None:
    """"[2x: inc, 2 sc]": two increases and then two plain, or all of it twice; the stated count decides."""
    if w.options == 1:
        w.options = 2
    times = w.times(step.times)
    if w.choice:
        w.repeat(w.once(step.body), times)
        return
    w.repeat(w.once(step.body[:1]), times)
    w.repeat(w.once(step.body[1:]), 1)


def _partial(
    w: Working, step: syntax.Repeat, first: Tally, later: Tally, steps: Steps, index: int
) -> None:
    """"ending last rep at **": whole repeats, then once only as far as the double star."""
    last = w.once(step.body[: step.last])
    if step.extent == "times" and step.times is not None:
        _times(w, first, later, _passes(w, step) - 1)
        w.repeat(last, 1)
        return
    kept = reserved(w, steps, index)
    if step.extent == "to_last":
        kept = w.kept = w.times(step.left)
    w.open_ended = True
    available = max(w.left - kept, 0)
    passes, over = divmod(available - last.used, first.used) if first.used else (0, 0)
    _times(w, first, later, passes)
    w.repeat(last, 1)
    if over and not w.unknown:
        w.remainder = w.remainder or Remainder(step, first.used, over, available + kept, kept + last.used, False)


def _begins_once(w: Working, step: syntax.Repeat) -> bool:
    """"hdc in first st, ch 1, sk 1, hdc in next st, rep to end": the first stitch is worked once, if only so it divides."""
    if step.extent != "rest" or w.worked or w.unknown or w.depth or len(step.body) < 2:
        return False
    first = step.body[0]
    if not isinstance(first, syntax.Work) or first.place is None or first.place.kind != "first":
        return False
    whole, rest, once = (w.once(body, cyclic=True).used for body in (step.body, step.body[1:], step.body[:1]))
    return bool(whole) and bool(w.left % whole) and rest > 0 and (w.left - once) % rest == 0


def _passes(w: Working, step: syntax.Repeat) -> int:
    times = w.times(step.times)
    if step.counting == "more":
        return times + 1
    if step.counting == "star":
        return times + 1 if w.ask(STAR) else times
    return times


def _times(w: Working, first: Tally, later: Tally, passes: int) -> None:
    if first is later:
        w.repeat(first, max(passes, 0))
    elif passes > 0:
        w.repeat(first, 1)
        w.repeat(later, passes - 1)


def _ending(w: Working, step: syntax.Repeat, first: Tally, later: Tally, available: int, each: int) -> None:
    """Whole repeats, then the shortest beginning of the repeat that ends in the ending, else the ending itself."""
    last = w.once(step.ending)
    beginnings = _beginnings(w, step, available, each) if w.depth <= _DEEP and len(step.body) <= _LONG else []
    for tail in (*beginnings, last):
        if not each:
            break
        passes, over = divmod(available - tail.used, each)
        if passes >= 0 and not over:
            _times(w, first, later, passes)
            w.repeat(tail, 1)
            return
    over = (available - last.used) % each if each else available
    w.remainder = w.remainder or Remainder(step, each, over, available, last.used)
    passes = max((available - last.used) // each, 0) if each else 0
    _times(w, first, later, passes)
    w.repeat(last, 1)


def _beginnings(w: Working, step: syntax.Repeat, available: int, each: int) -> list[Tally]:
    """Beginnings of the repeat that end in its ending, shortest first: the empty one where the repeat ends so."""
    body, ending = step.body, step.ending
    found: list[Tally] = []
    if len(ending) <= len(body) and all(
        _alike(w, mine, its, whole=False) for mine, its in zip(ending, body[len(body) - len(ending) :], strict=True)
    ):
        found.append(Tally())
    for stop in range(len(ending), len(body) + 1):
        part = body[stop - len(ending) : stop]
        if not all(_alike(w, mine, its, whole=k > 0) for k, (mine, its) in enumerate(zip(ending, part, strict=True))):
            continue
        whole = w.once(body[:stop])
        last = part[-1]
        if len(ending) == 1 and isinstance(last, syntax.Work) and last.stitch.plain and _plain_number(w, last) > 1:
            found.extend(_within(w, body[: stop - 1], last, _plain_number(w, ending[0]), available, each))
        elif stop < len(body):
            found.append(whole)
    return found


def _within(w: Working, before: Steps, last: syntax.Work, least: int, available: int, each: int) -> list[Tally]:
    """Of "sc in next 3 sts" a beginning may hold 1, 2 or 3: the one that fits is solved for, not searched."""
    tally = w.once(before)
    most = _plain_number(w, last)
    if not each:
        return []
    number = (available - tally.used) % each
    if number < least:
        number += each * -((number - least) // each)
    if not least <= number <= most:
        return []
    tally.used += number
    tally.stitch(w.wear(last.color), last.stitch, number, number)
    return [tally]


def _plain_number(w: Working, step: syntax.Step) -> int:
    if not isinstance(step, syntax.Work):
        return 1
    if step.place is not None and step.place.number is not None:
        return w.value(step.place.number)
    return w.times(step.count) if step.place is None else 1


def _alike(w: Working, mine: syntax.Step, its: syntax.Step, whole: bool) -> bool:
    """Whether a step of the ending can be (the end of) a step of the repeat."""
    if isinstance(mine, syntax.Work) and isinstance(its, syntax.Work):
        if mine.stitch.key != its.stitch.key:
            return False
        own, others = _plain_number(w, mine), _plain_number(w, its)
        return own == others if whole else own <= others
    return type(mine) is type(its) and isinstance(mine, (syntax.Chain, syntax.Group))

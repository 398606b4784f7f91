""""dc in each dc around, working (2 dc, ch 2, 2 dc) in each corner sp": stitches and corners in one walk."""

from __future__ import annotations

from ..language import syntax
from .in_order import meant, next_space, take_space
from .places import is_space
from .tally import Tally
from .working import Steps, Working


def corners_on_the_way(w: Working, step: syntax.Work, steps: Steps, index: int) -> list[syntax.Work | syntax.Group]:
    """The steps right behind "in each st around" that go into each space of a kind, on the same way."""
    if not w.marks or step.place is None or step.place.kind != "rest" or step.place.number is not None or step.place.also:
        return []
    if is_space(step.place) or not step.stitch.plain:
        return []
    found: list[syntax.Work | syntax.Group] = []
    for later in steps[index + 1 :]:
        if isinstance(later, syntax.Aside):
            continue
        place = later.place if isinstance(later, (syntax.Work, syntax.Group)) else None
        if place is None or not is_space(place) or next_space(w, place) is None:
            break
        if place.kind != "rest" and not (step.place.each and _the_only(w, place) and _closes(steps, later)):
            break
        assert isinstance(later, (syntax.Work, syntax.Group))
        found.append(later)
    return found


def _the_only(w: Working, place: syntax.Place) -> bool:
    """"working 2 sc into the ch-2 space", where there is one: it lies on the way."""
    if place.kind != "space" or place.number is not None or place.each:
        return False
    here = w.total - w.left
    return sum(meant(w, place, index) and w.marks[index][0] >= here for index in range(w.mark_at, len(w.marks))) == 1


def _closes(steps: Steps, last: syntax.Step) -> bool:
    """Whether nothing is worked behind *last*: then it can only be on the way."""
    at = next(index for index, step in enumerate(steps) if step is last)
    return not any(isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat, syntax.Chain)) for step in steps[at + 1 :])


def sweep(w: Working, step: syntax.Work, corners: list[syntax.Work | syntax.Group]) -> None:
    """Works *step* into every stitch and *corners* into their spaces, in the order in which they come."""
    color = w.wear(step.color)
    bodies: list[tuple[syntax.Place, Tally]] = []
    for corner in corners:
        assert corner.place is not None
        bodies.append((corner.place, _in_one(w, corner)))
        w.swept |= {id(corner)}
    w.open_ended = w.worked = True
    count = w.times(step.count)
    while True:
        here = w.total - w.left
        coming = [(found, place, body) for place, body in bodies if (found := next_space(w, place)) is not None]
        if not coming:
            break
        _found, place, body = min(coming, key=lambda one: one[0])
        before = w.marks[_found][0] - here
        w.use(before)
        w.tally.stitch(color, step.stitch, before * count, before * count)
        take_space(w, place)
        w.tally.used_spaces += 1
        w.spaces -= 1
        w.tally.add(body)
        w.tally.groups += 1
    rest = max(w.left, 0)
    w.use(rest)
    w.tally.stitch(color, step.stitch, rest * count, rest * count)
    w.stretch = rest


def _in_one(w: Working, step: syntax.Work | syntax.Group) -> Tally:
    """What one place gives."""
    if isinstance(step, syntax.Group):
        body = w.once(step.body, no_places=True)
        body.clump(0, body.made, step.name)
        return body
    tally = w.new_tally()
    number = w.times(step.count) * w.times(step.times)
    tally.clump(0, number * step.stitch.makes, "")
    tally.stitch(w.wear(step.color), step.stitch, number, number * step.stitch.makes)
    return tally

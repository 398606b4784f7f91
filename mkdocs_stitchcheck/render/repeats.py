"""How often a round's repeat is worked in all, for the counter beside it."""

from __future__ import annotations

from ..language import syntax
from ..results import PatternResult, RoundResult


def star_in_all(pattern: PatternResult) -> bool | None:
    """How the pattern reads "rep from * 5 times": True for 5 in all, False for 5 more, None where it is undecided."""
    answer = next((r.answer for r in pattern.readings if r.question == "star-repeat"), "")
    return True if "in all" in answer else False if "more" in answer else None


def repeats_of(line: syntax.RoundLine, result: RoundResult | None, pattern: PatternResult) -> int | None:
    """The times of the first repeat of a round; None where there is none, where sizes differ or it can't be told."""
    repeat = next((step for step in line.steps or () if isinstance(step, syntax.Repeat)), None)
    if repeat is None:
        return None
    if repeat.extent == "rest" and result is not None and len(result.uses) == 1 and result.uses[0]:
        return _around(line, repeat, result.uses[0])
    if repeat.times is None or len(set(repeat.times.values)) != 1 or repeat.times.values[0] is None:
        return None
    in_all = star_in_all(pattern)
    if repeat.counting == "star" and in_all is None:
        return None
    times = repeat.times.values[0] + (repeat.counting == "more" or (repeat.counting == "star" and not in_all))
    return times if times > 1 else None


def _around(line: syntax.RoundLine, repeat: syntax.Repeat, uses: int) -> int | None:
    """The times of a repeat that is all of its round, by the stitches that once through takes."""
    if [step for step in line.steps or () if isinstance(step, syntax.Work | syntax.Repeat | syntax.Group)] != [repeat]:
        return None
    once = 0
    for step in repeat.body:
        if not isinstance(step, syntax.Work) or step.times is not None or step.spread:
            return None
        places = step.place.number.value if step.place is not None and step.place.number is not None else 1
        if step.place is not None and (step.place.kind != "next" or step.stitch.uses != 1):
            return None
        once += places if step.place is not None else (step.count.value if step.count is not None else 1) * step.stitch.uses
    return uses // once if once and uses % once == 0 and uses > once else None

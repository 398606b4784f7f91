"""Edits of one place in a round that would set it right."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from ..language import syntax
from ..language.vocabulary import SLIPS, Stitch, increase, stitches, together
from ..source import Statement
from .evaluate import evaluate
from .judge import Outcome, Start, judge
from .places import flat
from .program import Block, Program, Segment
from .sizing import entry
from .working import Setting, Steps

_LONGEST = 80  # steps of a round in which repairs are looked for
_NEAR = 12  # how far from the written number a repeat to the end is searched


@dataclass(slots=True)
class Repair:
    """One edit of the instruction: ``phrase`` says it ("x 6 instead of x 5"), ``edit`` is (start, end, text).

    ``cost`` is the size of the change, ``equal`` how many pairs of equal plain numbers the round then has.
    """

    phrase: str
    edit: tuple[int, int, str] | None
    cost: float
    equal: int


@dataclass(slots=True)
class Case:
    """A failing round: where it stands, what it works on, and what is demanded of a repair."""

    line: syntax.RoundLine
    steps: Steps
    rounds: int
    start: Start
    setting: Setting
    stated: tuple[syntax.Stated, ...]
    accepted: Callable[[Outcome], bool]
    piece: str = ""

    def works(self, steps: Steps, setting: Setting) -> bool:
        """Whether the round as changed fits and makes the stated count."""
        outcome = judge(_program(steps, self.rounds), self.start, setting, self.stated, self.piece)
        return outcome.right and self.accepted(outcome)


def best(case: Case) -> tuple[list[Repair], bool]:
    """The repairs to name (one, two that are equally likely, or none), and whether there is any at all."""
    if sum(1 for _ in flat(case.steps)) > _LONGEST:
        return [], True  # too long a round to try everything: the facts only
    found = sorted(_all(case), key=lambda repair: (repair.cost, -repair.equal))
    if not found:
        return [], False
    first = found[0]
    equally = [repair for repair in found if (repair.cost, repair.equal) == (first.cost, first.equal)]
    seen: dict[str, Repair] = {}
    for repair in equally:
        seen.setdefault(f"{repair.edit or repair.phrase}", repair)
    return list(seen.values()) if len(seen) <= 2 else [], True


def _all(case: Case) -> Iterator[Repair]:
    yield from _numbers(case)
    yield from _rewritten(case)


def _program(steps: Steps, rounds: int) -> Program:
    return Program([Block([Segment(steps, rounds)])])


# --- one written number ------------------------------------------------------------------------------------------


def _numbers(case: Case) -> Iterator[Repair]:
    for number, step in editable(case.steps):
        now = _value(number, case.setting)
        for other in (*_bridging(case, step, now), *_solutions(case, number, now)):
            setting = replace(case.setting, replaced=number, replacement=other, asking=False)
            if other >= 1 and other != now and case.works(case.steps, setting):
                yield Repair(
                    _number_phrase(case, number, step, now, other),
                    (*place, str(other)) if (place := entry(number, case.line.statement.text, case.setting.size)) else None,
                    abs(other - now),
                    _equal_pairs(case.steps, setting),
                )
                break


def editable(steps: Steps) -> Iterator[tuple[syntax.Number, syntax.Step]]:
    """Every number that may be a slip, with its step; labels and positions ("2nd ch") are never edited."""
    for step in flat(steps):
        if isinstance(step, syntax.Work):
            for number in (step.count, step.times):
                if number is not None:
                    yield number, step
        if isinstance(step, (syntax.Work, syntax.Group)):
            place = step.place
            if place is not None and place.number is not None and place.kind in ("next", "first", "last", "to_last", "rest"):
                yield place.number, step
        if isinstance(step, (syntax.Repeat, syntax.Group)) and step.times is not None:
            yield step.times, step
        if isinstance(step, syntax.Repeat) and step.left is not None:
            yield step.left, step
        if isinstance(step, syntax.Group) and not step.name:
            yield from editable(step.body)
        if isinstance(step, syntax.Chain) and not step.turning:
            yield step.number, step
        if isinstance(step, syntax.Leave) and step.number is not None:
            yield step.number, step
        if isinstance(step, syntax.Spread):
            yield step.number, step


def _value(number: syntax.Number, setting: Setting) -> int:
    values = number.values
    return values[setting.size if setting.size < len(values) else 0] or 0


def _bridging(case: Case, step: syntax.Step, now: int) -> list[int]:
    """Chains count where they lie over as many skipped stitches, and only there: numbers that make them so."""
    if isinstance(step, syntax.Chain):
        numbers = [number for number, other in editable(case.steps) if _skips(other)]
    elif _skips(step):
        numbers = [number for number, other in editable(case.steps) if isinstance(other, syntax.Chain)]
    else:
        return []
    return sorted({_value(number, case.setting) for number in numbers}, key=lambda value: abs(value - now))


def _skips(step: syntax.Step) -> bool:
    return isinstance(step, syntax.Work) and step.stitch.kind == "skip"


def _solutions(case: Case, number: syntax.Number, now: int) -> list[int]:
    """Uses and makes are straight lines in a number, so two points give the solution; a repeat to the end is not."""
    here = _at(case, number, now)
    there = _at(case, number, now + 1)
    if here[2] or there[2]:
        return [near for step in range(1, _NEAR + 1) for near in (now - step, now + step) if near >= 1]
    found: list[int] = []
    wanted = _wanted(case, here[1])
    for value, slope, goal in (
        (here[0], there[0] - here[0], 0),
        (here[1], there[1] - here[1], wanted if wanted is not None else here[1]),
    ):
        if value != goal and slope and (goal - value) % slope == 0:
            found.append(now + (goal - value) // slope)
    return found


def _at(case: Case, number: syntax.Number, value: int) -> tuple[int, int, bool]:
    setting = replace(case.setting, replaced=number, replacement=value, asking=False)
    w = evaluate(case.steps, case.start.edge, setting, "", 0, case.start.pending, case.piece)
    open_repeat = w.remainder is not None or any(
        isinstance(step, syntax.Repeat) and step.extent != "times" for step in flat(case.steps)
    )
    return w.left, w.tally.made, open_repeat or w.side == 2


def _wanted(case: Case, made: int) -> int | None:
    if not case.stated:
        return None
    stated = case.stated[-1]
    if stated.number is not None:
        return _value(stated.number, case.setting)
    if stated.form == "sum" and stated.parts:
        return sum(_value(part.number, case.setting) for part in stated.parts)
    edge = case.start.edge
    if stated.change is not None and edge is not None:
        return edge.stitches + stated.change
    return made


def _equal_ends(steps: Steps, setting: Setting) -> int:
    """How many pairs of equal shapings a list has, the round closed: "inc, sc 4, inc x 3, sc 4, inc x 2" is three and three."""
    runs: list[tuple[str, int]] = []
    for step in steps:
        if not isinstance(step, syntax.Work) or step.place is not None or step.times is not None or step.stitch.kind == "skip":
            if isinstance(step, (syntax.Repeat, syntax.Group, syntax.Work)):
                return 0
            continue
        kind = "" if step.stitch.plain else step.stitch.key
        number = 1 if step.count is None else setting.replacement if step.count is setting.replaced else _value(step.count, setting)
        if runs and runs[-1][0] == kind:
            runs[-1] = (kind, runs[-1][1] + number)
        else:
            runs.append((kind, number))
    if len(runs) > 2 and runs[0][0] == runs[-1][0]:
        runs[0] = (runs[0][0], runs[0][1] + runs.pop()[1])
    shaped = [run for run in runs if run[0]]
    return sum(one == other for at, one in enumerate(shaped) for other in shaped[at + 1 :])


def _equal_pairs(steps: Steps, setting: Setting) -> int:
    counts: dict[int, int] = {}
    for step in flat(steps):
        if isinstance(step, syntax.Work) and step.stitch.plain and step.stitch.kind == "plain":
            number = step.place.number if step.place is not None else step.count
            if number is not None:
                value = setting.replacement if number is setting.replaced else _value(number, setting)
                counts[value] = counts.get(value, 0) + 1
    return sum(count * (count - 1) // 2 for count in counts.values()) + _equal_ends(steps, setting)


def _number_phrase(case: Case, number: syntax.Number, step: syntax.Step, now: int, other: int) -> str:
    """"2 sc instead of 3 sc", "x 6 instead of x 5"; "the last" where the same words stand in the round before it."""
    text = case.line.statement.text
    if isinstance(step, syntax.Repeat) and number is step.times:
        if step.counting == "all":
            return f"x {other} instead of x {now}"
        return f"{other} times instead of {now}"
    if not step.start <= number.start < number.end <= step.end or not text[number.start : number.end].isdigit():
        return f"{other} instead of {now}"
    old = text[step.start : step.end].strip(" ,;.")
    new = (text[step.start : number.start] + str(other) + text[number.end : step.end]).strip(" ,;.")
    if len(old) > 40:
        return f"{other} instead of {now}"
    body = text[case.line.body[0] : case.line.body[1]] if case.line.body[1] else text
    return f"{new} instead of {_which(body, old, step.start - case.line.body[0])}{old}"


def _which(body: str, old: str, at: int) -> str:
    """"the first ", "the last " where the same words stand more than once in the round."""
    if body.count(old) < 2:
        return ""
    if body.rfind(old) <= at:
        return "the last "
    return "the first " if body.find(old) >= at else f"the {body.count(old, 0, max(at, 0)) + 1}. "


# --- one step written otherwise ----------------------------------------------------------------------------------


def _rewritten(case: Case) -> Iterator[Repair]:
    setting = replace(case.setting, asking=False)
    for steps, phrase, edit, cost in _variants(case.steps, case.line.statement):
        if case.works(steps, setting):
            yield Repair(phrase, edit, cost, _equal_pairs(steps, setting))


Variant = tuple[Steps, str, tuple[int, int, str] | None, float]


def _variants(steps: Steps, statement: Statement) -> Iterator[Variant]:
    """*steps* with one step exchanged, dropped or doubled, at any depth."""
    for index, step in enumerate(steps):
        before, after = steps[:index], steps[index + 1 :]
        if isinstance(step, syntax.Work):
            for stitch, english, cost in _others(step):
                word = statement.own(english)
                edit, old = _word_edit(step, statement, word)
                yield (*before, replace(step, stitch=stitch), *after), f"{word} for {old}", edit, cost
            if step.stitch.kind not in ("slip", "skip", "chain") and step.place is None:
                yield from _dropped_or_doubled(steps, index, statement.text)
        elif isinstance(step, syntax.Repeat):
            for body, phrase, edit, cost in _variants(step.body, statement):
                yield (*before, replace(step, body=body), *after), phrase, edit, cost


def _others(step: syntax.Work) -> Iterator[tuple[Stitch, str, float]]:
    """Stitches that may have been meant: inc for dec, and common slips of fingers and autocorrect."""
    stitch, table = step.stitch, stitches()
    if stitch.kind == "increase":
        if stitch.key == "inc":
            yield table["dec"], "dec", 1
        elif stitch.base in table:
            other = together(table[stitch.base], stitch.makes)
            yield other, other.key, 1
    elif stitch.kind == "decrease":
        if stitch.key in ("dec", "sc2tog"):
            yield table["inc"], "inc", 1
        elif stitch.base in table:
            other = increase(table[stitch.base], stitch.uses)
            yield other, other.key, 1
    for word in SLIPS.get(stitch.key, ()):
        if word in table and word != stitch.key:
            yield table[word], word, 0.5


def _word_edit(step: syntax.Work, statement: Statement, word: str) -> tuple[tuple[int, int, str] | None, str]:
    """Where the stitch's word stands in the step, to be replaced."""
    written = statement.text[step.start : step.end]
    for old in (statement.own(step.stitch.key).lower(), step.stitch.key, "increase", "decrease", "inc", "dec"):
        at = written.lower().find(old)
        if at >= 0 and old:
            return (step.start + at, step.start + at + len(old), word), written[at : at + len(old)]
    return None, statement.own(step.stitch.key)


def _dropped_or_doubled(steps: Steps, index: int, text: str) -> Iterator[Variant]:
    step = steps[index]
    assert isinstance(step, syntax.Work)
    count = (step.count.value if step.count is not None else 1) * max(step.stitch.uses, 1)
    written = text[step.start : step.end].strip() or step.stitch.key
    works = [other for other in steps if isinstance(other, (syntax.Work, syntax.Repeat, syntax.Group))]
    if len(works) > 1:
        if index + 1 < len(steps):
            cut = (step.start, steps[index + 1].start, "")
        else:
            cut = (steps[index - 1].end, step.end, "")
        yield (*steps[:index], *steps[index + 1 :]), f"without {written}", cut, count
    if step.count is None:  # with a number it would be another number
        yield (*steps[:index], step, *steps[index:]), f"{written} twice", (step.end, step.end, f", {written}"), count

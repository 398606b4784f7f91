"""The stitches of a round in the order in which they are worked, however they are written.

"(sc, inc) x 6", "*sc, inc; rep from * around" and "1 fM, Zun, 6 mal" on 12 stitches are one sequence. Where the order
can't be told from the words alone, there is none, and the trees are compared instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..language import syntax
from ..language.syntax import Number

Item = tuple[Any, ...]
Runs = tuple[tuple[Item, int], ...]

_MOST = 20_000  # stitches in one round that are written out
_DEEPEST = 20
_SILENT = (syntax.Aside, syntax.Ring, syntax.Join)


class Unknown(Exception):
    """The order can't be told."""


def sequence(steps: Sequence[syntax.Step] | None, uses: int | None, size: int = 0) -> Runs | None:
    """The stitches of a round that works into *uses* stitches, in one size, as runs of equal ones; None if not known."""
    if steps is None:
        return None
    try:
        writer = _Writer(size)
        items = writer.solved(tuple(steps), uses)
    except Unknown:
        return None
    return _runs(items)


def _runs(items: Sequence[Item]) -> Runs:
    runs: list[tuple[Item, int]] = []
    for item in items:
        if runs and runs[-1][0] == item:
            runs[-1] = (item, runs[-1][1] + 1)
        else:
            runs.append((item, 1))
    return tuple(runs)


def _used(item: Item) -> int:
    return int(item[1]) if item[0] == "st" else 0


class _Writer:
    def __init__(self, size: int) -> None:
        self.size = size
        self.loop = ""

    def number(self, number: Number | None, default: int = 1) -> int:
        """What a number says in this size."""
        if number is None:
            return default
        value = number.values[self.size if len(number.values) > 1 else 0]
        if value is None or value > _MOST:
            raise Unknown
        return value

    def solved(self, steps: tuple[syntax.Step, ...], uses: int | None) -> list[Item]:
        """The items of *steps*; what says "all the rest" takes what the other steps leave of *uses*."""
        open_ends = [step for step in steps if self._open(step)]
        if not open_ends:
            return self.many(steps, 0)
        if len(open_ends) > 1 or uses is None:
            raise Unknown
        at = next(index for index, step in enumerate(steps) if step is open_ends[0])
        before = self.many(steps[:at], 0)
        loop = self.loop
        behind = self.many(steps[at + 1 :], 0)
        self.loop = loop
        left = uses - sum(map(_used, before)) - sum(map(_used, behind))
        return before + self._rest(steps[at], left) + behind

    def _open(self, step: syntax.Step) -> bool:
        if isinstance(step, syntax.Repeat):
            return step.extent != "times" or step.counting == "star"
        place = getattr(step, "place", None)
        return place is not None and place.kind in ("rest", "to_last") and isinstance(step, (syntax.Work, syntax.Group))

    def _rest(self, step: syntax.Step, left: int) -> list[Item]:
        if isinstance(step, syntax.Repeat):
            if step.ending or step.last is not None:
                raise Unknown
            left -= self.number(step.left, 0) if step.extent == "to_last" else 0
            body = self.many(step.body, 1)
            return self._filling(body, left)
        assert isinstance(step, (syntax.Work, syntax.Group))
        left -= self.number(step.place.number, 0) if step.place is not None and step.place.kind == "to_last" else 0
        return self._filling(self._once(step), left)

    @staticmethod
    def _filling(body: list[Item], left: int) -> list[Item]:
        used = sum(map(_used, body))
        if used <= 0 or left < 0 or left % used or len(body) * (left // used) > _MOST:
            raise Unknown
        return body * (left // used)

    def many(self, steps: Sequence[syntax.Step], depth: int) -> list[Item]:
        """The items of steps without an open end."""
        if depth > _DEEPEST:
            raise Unknown
        items: list[Item] = []
        for step in steps:
            items += self._step(step, depth)
            if len(items) > _MOST:
                raise Unknown
        return items

    def _step(self, step: syntax.Step, depth: int) -> list[Item]:
        if self._open(step):
            raise Unknown
        if isinstance(step, syntax.Work):
            places = self._places(step)
            return self._times(self._once(step), places * self.number(step.times))
        if isinstance(step, syntax.Group):
            return self._times(self._once(step), self._places(step) * self.number(step.times))
        if isinstance(step, syntax.Repeat):
            more = 1 if step.counting == "more" else 0
            if step.last is not None or step.ending:
                raise Unknown
            return self._times(self.many(step.body, depth + 1), self.number(step.times) + more)
        if isinstance(step, syntax.Loops):
            self.loop = "" if step.loop == "both" else step.loop
            return []
        if isinstance(step, _SILENT):
            return []
        return [self._other(step, depth)]

    def _other(self, step: syntax.Step, depth: int) -> Item:
        if isinstance(step, syntax.Chain):
            return ("ch", self.number(step.number))
        if isinstance(step, syntax.Turn):
            return ("turn",)
        if isinstance(step, syntax.ColorChange):
            return ("color", step.color or step.name.lower(), step.last_stitch)
        if isinstance(step, syntax.Spread):
            return ("evenly", self.number(step.number), step.stitch.key)
        if isinstance(step, syntax.Leave):
            return ("leave", self.number(step.number, -1))
        if isinstance(step, syntax.More):
            return ("more", _runs(self.many(step.body, depth + 1)))
        raise Unknown

    @staticmethod
    def _times(items: list[Item], times: int) -> list[Item]:
        if len(items) * times > _MOST:
            raise Unknown
        return items * times

    def _places(self, step: syntax.Work | syntax.Group) -> int:
        """How often a step is worked: in how many places, or how many stitches one after the other."""
        place = step.place
        if isinstance(step, syntax.Work) and place is None:
            return self.number(step.count)
        assert place is not None
        if place.kind in ("same", "chain"):
            return 1
        if place.kind == "ring":
            return self.number(step.count) if isinstance(step, syntax.Work) else 1
        if place.kind not in ("next", "first", "last") or place.layers != 1 or place.noun == "space":
            raise Unknown
        places = self.number(place.number)
        if isinstance(step, syntax.Work) and step.stitch.uses > 1:
            if step.spread:
                raise Unknown
            if step.count is not None:
                return self.number(step.count)
            if places % step.stitch.uses:
                raise Unknown
            return places // step.stitch.uses
        if isinstance(step, syntax.Work) and step.count is not None and self.number(step.count) == places >= 5:
            return places
        return places

    def _once(self, step: syntax.Work | syntax.Group) -> list[Item]:
        """What one place of a step takes, as one item."""
        if isinstance(step, syntax.Group):
            body = self.many(step.body, 1)
            kinds = {(item[0], item[3], item[4]) for item in body if item[0] == "st" and item[1] == item[2] == 1}
            if len(kinds) == 1 and all(item[0] == "st" for item in body):
                return [("st", _into(step.place), len(body), body[0][3], body[0][4])]
            return [("st", _into(step.place), len(body), "group", _runs(body))]
        stitch, place = step.stitch, step.place
        loop = step.loop or stitch.loop or self.loop
        loop = "" if loop == "both" else loop
        uses, makes = stitch.uses, stitch.makes
        key = stitch.base if stitch.kind in ("increase", "decrease") and stitch.base else stitch.key
        if place is not None and stitch.uses == 1 and place.kind not in ("ring", "chain"):
            count = self.number(step.count)
            spread = place.kind == "next" and count >= 5 and count == self.number(place.number)
            makes = makes if spread else makes * count
        if place is not None and place.kind == "same":
            uses = 0
        if place is not None and place.kind == "chain":
            return [("from", self.number(place.number)), ("st", 1, makes * self.number(step.count), key, loop)]
        return [("st", uses, makes, key, loop)]


def _into(place: syntax.Place) -> int:
    return 0 if place.kind == "same" else 1


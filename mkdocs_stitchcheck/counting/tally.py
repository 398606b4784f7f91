"""What a stretch of steps uses and makes."""

from __future__ import annotations

from collections.abc import Sequence

from ..language.vocabulary import Stitch
from .edge import MOST_MARKS, PLAIN, Clump, Mark

Material = dict[tuple[str, str], int]


class Tally:
    """Sums over a stretch of steps. Repeats add a tally several times over; nothing is ever expanded.

    ``used`` places and ``used_spaces`` chain spaces are worked into, ``made`` stitches result. ``spaces`` are the chain
    spaces made, by length, and ``marks`` each in its place (None where they are too many); ``chains`` the chains in those that are not plain stitches; ``openings`` the chains that
    are. ``material`` counts what the hook does by (colour, stitch key); ``kinds`` the stitches of the new edge by the
    plain stitch they are made of; ``groups`` the groups worked into one place, ``clumps`` each of two or more stitches in its
    place (None where they are too many), ``named`` the groups that have a name.
    """

    __slots__ = ("chains", "clumps", "groups", "kinds", "made", "marks", "material", "named", "openings", "spaces", "used", "used_spaces")

    def __init__(self) -> None:
        self.used = 0
        self.made = 0
        self.used_spaces = 0
        self.chains = 0
        self.openings = 0
        self.groups = 0
        self.spaces: dict[int, int] = {}
        self.marks: Sequence[Mark] | None = ()
        self.material: Material = {}
        self.kinds: dict[str, int] = {}
        self.clumps: Sequence[Clump] | None = ()
        self.named: dict[str, int] = {}

    def add(self, other: Tally, times: int = 1) -> None:
        """Add *other*, *times* over."""
        if not times:
            return
        if other.spaces or other.marks is None:
            self._add_marks(other, times)
        if other.clumps or other.clumps is None:
            self._add_clumps(other, times)
        self.used += other.used * times
        self.made += other.made * times
        if other.spaces or other.groups or other.used_spaces:
            self._add_spaces(other, times)
        for key, count in other.material.items():
            self.material[key] = self.material.get(key, 0) + count * times
        for name, count in other.named.items():
            self.named[name] = self.named.get(name, 0) + count * times
        for kind, count in other.kinds.items():
            self.kinds[kind] = self.kinds.get(kind, 0) + count * times

    def _add_marks(self, other: Tally, times: int) -> None:
        mine, others = self.marks, other.marks
        if mine is None or others is None or len(mine) + len(others) * times > MOST_MARKS:
            self.marks = None
            return
        marks = list(mine)
        for time in range(times if others else 0):
            before = self.made + time * other.made
            marks.extend((before + place, length, kind) for place, length, kind in others)
        self.marks = marks

    def _add_clumps(self, other: Tally, times: int) -> None:
        mine, others = self.clumps, other.clumps
        if mine is None or others is None or len(mine) + len(others) * times > MOST_MARKS:
            self.clumps = None
            return
        shifts = (self.made + time * other.made for time in range(times))
        self.clumps = [*mine, *((shift + start, size, key) for shift in shifts for start, size, key in others)]

    def clump(self, start: int, size: int, key: str, times: int = 1) -> None:
        """*times* over, *size* stitches stand in one place, the first from the *start*-th made on."""
        if self.clumps is None or len(self.clumps) + times > MOST_MARKS:
            self.clumps = None
            return
        self.clumps = [*self.clumps, *((start + time * size, size, key) for time in range(times))]

    def space(self, length: int, kind: int = PLAIN) -> None:
        """A chain space is made behind the stitches made so far."""
        if not length:
            return
        self.spaces[length] = self.spaces.get(length, 0) + 1
        if self.marks is not None:
            self.marks = [*self.marks, (self.made, length, kind)] if len(self.marks) < MOST_MARKS else None

    def _add_spaces(self, other: Tally, times: int) -> None:
        self.used_spaces += other.used_spaces * times
        self.chains += other.chains * times
        self.openings += other.openings * times
        self.groups += other.groups * times
        for length, count in other.spaces.items():
            self.spaces[length] = self.spaces.get(length, 0) + count * times

    def stitch(self, color: str, stitch: Stitch, times: int, made: int) -> None:
        """*times* of *stitch* are worked in *color*; *made* stitches of the new edge come of it."""
        if not times:
            return
        key = (color, stitch.key)
        self.material[key] = self.material.get(key, 0) + times
        self.made += made
        kind = stitch.base if stitch.kind in ("increase", "decrease") else stitch.key
        self.kinds[kind] = self.kinds.get(kind, 0) + made

    def chain(self, color: str, number: int) -> None:
        """*number* chains are made; whether they count is for the caller to say."""
        key = (color, "ch")
        self.material[key] = self.material.get(key, 0) + number


def add_material(total: Material, more: Material, times: int = 1) -> None:
    """Add *more*, *times* over, to *total*."""
    for key, count in more.items():
        total[key] = total.get(key, 0) + count * times

"""What a stretch of steps uses and makes."""

from __future__ import annotations

from ..language.vocabulary import Stitch

Material = dict[tuple[str, str], int]


class Tally:
    """Sums over a stretch of steps. Repeats add a tally several times over; nothing is ever expanded.

    ``used`` places and ``used_spaces`` chain spaces are worked into, ``made`` stitches result. ``spaces`` are the chain
    spaces made, by length; ``chains`` the chains in those that are not plain stitches; ``openings`` the chains that
    are. ``material`` counts what the hook does by (colour, stitch key); ``kinds`` the stitches of the new edge by the
    plain stitch they are made of; ``groups`` the groups worked into one place.
    """

    __slots__ = ("chains", "groups", "kinds", "made", "material", "openings", "spaces", "used", "used_spaces")

    def __init__(self) -> None:
        self.used = 0
        self.made = 0
        self.used_spaces = 0
        self.chains = 0
        self.openings = 0
        self.groups = 0
        self.spaces: dict[int, int] = {}
        self.material: Material = {}
        self.kinds: dict[str, int] = {}

    def add(self, other: Tally, times: int = 1) -> None:
        """Add *other*, *times* over."""
        if not times:
            return
        self.used += other.used * times
        self.made += other.made * times
        if other.spaces or other.groups or other.used_spaces:
            self._add_spaces(other, times)
        for key, count in other.material.items():
            self.material[key] = self.material.get(key, 0) + count * times
        for kind, count in other.kinds.items():
            self.kinds[kind] = self.kinds.get(kind, 0) + count * times

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

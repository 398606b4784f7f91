"""The shape of work in the round, as a profile turned about its axis: height, girth and volume.

A round whose count changes by c rises by row height x sqrt(1 - (c / F)^2), and not at all from F on. F is the gain that
lies flat: 2 pi x row height / stitch width by geometry; stuffed work is rounder, because rows stretch, and takes
:mod:`.fabric`'s (derived; common practice). Counts stand at the middle of their rounds, as in *The Ideal Crochet Sphere*.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

RING_SHARE = 6 / 7  # a ring, or a hole drawn shut, is at least as flat as a start of six sc


@dataclass(frozen=True, slots=True)
class Stretch:
    """Rounds that all have ``count`` stitches: ``rounds`` of them, each ``height`` cm high; ``flat`` gains lie flat."""

    count: float
    height: float
    rounds: int = 1
    flat: float = 7.0


@dataclass(frozen=True, slots=True)
class Station:
    """A cut through the work, ``z`` cm along its axis: ``girth`` around it, ``straight`` the length of an oval's sides."""

    z: float
    girth: float
    straight: float = 0.0

    @property
    def radius(self) -> float:
        """Half of the narrower width, in cm."""
        return (self.girth - 2 * self.sides) / (2 * math.pi)

    @property
    def sides(self) -> float:
        """The straight length that the girth leaves room for, in cm."""
        return min(self.straight, self.girth / 2)

    @property
    def area(self) -> float:
        """The area of the cut in square cm."""
        return 2 * self.sides * self.radius + math.pi * self.radius**2


@dataclass(frozen=True, slots=True)
class Profile:
    """The cuts from start to end, in order, all in cm; ``around_body`` where the widest is not what is measured."""

    stations: tuple[Station, ...]
    around_body: float | None = None

    @property
    def length(self) -> float:
        """From start to end along the axis."""
        return self.stations[-1].z

    @property
    def widest(self) -> Station:
        """The cut with the longest way around."""
        return max(self.stations, key=lambda station: station.girth)

    @property
    def volume(self) -> float:
        """The room enclosed, in cubic cm: prismoids between the cuts (exact for cones and cylinders)."""
        cuts = [(station, station.sides, station.area) for station in self.stations]
        return sum(_prismoid(one, other) for one, other in pairwise(cuts))


_Cut = tuple[Station, float, float]  # with its straight length and its area


def _prismoid(one: _Cut, other: _Cut) -> float:
    (low, low_sides, low_area), (high, high_sides, high_area) = one, other
    if high.z == low.z:
        return 0.0
    middle = Station(0, (low.girth + high.girth) / 2, (low_sides + high_sides) / 2)
    return (high.z - low.z) / 6 * (low_area + 4 * middle.area + high_area)


def rise(height: float, gain: float, flat: float) -> float:
    """How far a round *height* cm high rises whose count changes by *gain*, where *flat* lies flat."""
    share = abs(gain) / flat
    return height * math.sqrt(1 - share * share) if share < 1 else 0.0


def profile(
    stretches: Sequence[Stretch], stitch_cm: float, *, begins: float | None = None, closed: bool = False,
    straight: float = 0.0, geometric: bool = False,
) -> Profile:
    """The profile of rounds with stitches *stitch_cm* wide.

    *begins* is the count that the first round is worked into; None for a ring, or for a chain that is worked along both
    sides, whose *straight* length in cm makes an oval. *closed* where the end is drawn shut. *geometric* for a shape that
    is round by design: half a round lies between its counts and the poles. Raises ValueError without rounds.
    """
    if not stretches:
        raise ValueError("a profile needs rounds")
    first, last = stretches[0], stretches[-1]
    if begins is None:
        start, gain = 2 * straight, _pole_gain(first, first.count - 2 * straight / stitch_cm, geometric)
    else:
        start, gain = (begins + first.count) / 2 * stitch_cm, first.count - begins
    stations = [Station(0.0, start, straight)]
    z = rise(first.height / 2, gain, first.flat)
    for index, stretch in enumerate(stretches):
        stations.append(Station(z, stretch.count * stitch_cm, straight))
        if stretch.rounds > 1:
            z += (stretch.rounds - 1) * stretch.height
            stations.append(Station(z, stretch.count * stitch_cm, straight))
        if index + 1 < len(stretches):
            following = stretches[index + 1]
            gain = following.count - stretch.count
            z += rise(stretch.height / 2, gain, stretch.flat) + rise(following.height / 2, gain, following.flat)
    if closed:
        z += rise(last.height / 2, _pole_gain(last, last.count, geometric), last.flat)
        stations.append(Station(z, 0.0, 0.0))
    else:
        before = stretches[-2].count if len(stretches) > 1 and last.rounds == 1 else last.count
        z += rise(last.height / 2, last.count - before, last.flat)
        stations.append(Station(z, last.count * stitch_cm, straight))
    return Profile(tuple(stations))


def _pole_gain(stretch: Stretch, count: float, geometric: bool) -> float:
    """The gain a round beside a ring or a closing."""
    return 2 * count if geometric else max(count, stretch.flat * RING_SHARE)


MOST_BALL_ROUNDS = 400
BALL_SLACK = 1.01  # stitches by which a count may be off


def is_ideal_ball(counts: Sequence[float], ratio: float) -> bool:
    """Whether counts are those of a ball by design, for rows *ratio* times as high as a stitch is wide.

    Round k of n has 2 n ratio sin((k - 1/2) pi / n) stitches (*The Ideal Crochet Sphere*, derived for any ratio), within
    one; the first and the last round may have the six of a ring. Such a ball is round without any stretch.
    """
    number = len(counts)
    if not 5 <= number <= MOST_BALL_ROUNDS:
        return False
    for k, count in enumerate(counts):
        ideal = 2 * number * ratio * math.sin((k + 0.5) * math.pi / number)
        at_end = k in (0, number - 1)
        if abs(count - ideal) > BALL_SLACK and not (at_end and ideal - 1 <= count <= max(6.0, ideal + 1)):
            return False
    return True

"""A drawn round: how far out it lies, where its items are, how much of the way around and how much height they take."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ..counting.in_full import Course
from ..counting.replaying import Item
from ..language.heights import real_height
from ..language.vocabulary import stitches as plain_stitches
from .curves import Curve
from .symbols import ROW, Point, height_key

LEAST_ROOM = 0.74  # of a stitch's width: closer, and symbols would touch
RING = 8.0


@dataclass(slots=True)
class Ring:
    """A drawn round: ``out`` its distance, ``shares`` where each item's middle is, ``room`` a stitch's width in units.

    ``widths`` are the items' shares of the way around, ``place_shares`` and ``space_shares`` are those of its places and spaces, ``raised`` how far the spaces stand out;
    ``start`` is where its first item begins, ``end`` the seam, ``label`` the middle of its lettering, ``seam`` the
    share of the way around that this takes. ``way`` is 1 counterclockwise, -1 back.
    ``across`` is set for a round that closes a ball: how far its middle lies above. ``sides`` are, for an oval, the places
    straight above or below the chain: how far from its middle, and whether on the second side.
    """

    out: float
    shares: list[float]
    room: float
    place_shares: list[float] = field(default_factory=list)
    space_shares: list[float] = field(default_factory=list)
    space_lifts: list[float] = field(default_factory=list)
    start: float = 0.0
    end: float = 0.0
    label: float = 0.0
    way: int = 1
    widths: list[float] = field(default_factory=list)
    across: float = 0.0
    seam: float = 0.0
    sides: list[tuple[float, bool] | None] = field(default_factory=list)


def flipped_ring(ring: Ring) -> Ring:
    return replace(ring, place_shares=ring.place_shares[::-1], space_shares=ring.space_shares[::-1],
                   space_lifts=ring.space_lifts[::-1], sides=ring.sides[::-1], way=-ring.way)


def spot(curve: Curve, ring: Ring, out: float, share: float) -> Point:
    """A place of a round; of a closing one on the other side of the rounds that open the ball."""
    x, y = curve.point(out, share)
    return (x, -ring.across - y) if ring.across else (x, y)


def corners(course: Course) -> list[int]:
    """The items that are corners: its longest spaces."""
    longest = max((item.length for item in course.items if item.kind == "space"), default=0)
    return [at for at, item in enumerate(course.items) if item.kind == "space" and item.length == longest]


def weight(item: Item) -> float:
    """How much of the way around an item takes, in stitches."""
    if item.kind == "space":
        return item.places * 0.9 if item.places else max(0.75, 0.5 * item.length + 0.1)
    if item.kind == "height":
        return 0.6
    if item.kind in ("slip", "picot"):
        return 0.0
    return 1.0


def course_height(course: Course) -> float:
    """The height of a round, in units: that of its tallest stitches."""
    tallest = max((_height(item) for item in course.items), default=1.0)
    return max(tallest, 1.0) * ROW


def _height(item: Item) -> float:
    if item.kind == "turning":
        return (1.0, 1.0, 1.5, 2.0, 3.0, 4.0)[min(item.length, 5)]
    if item.kind != "stitch":
        return 0.0
    return real_height(plain_stitches()[height_key(item)]) + (0.15 if item.stitch and item.stitch.kind == "group" else 0)

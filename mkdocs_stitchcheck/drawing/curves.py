"""The lines that rounds lie on: circles, polygons for motifs with corners, and the outline of an oval's chain.

A place on a line is its share of the way around, 0 to 1, counterclockwise from the start; *out* is the distance from the
middle (from the chain, for an oval; from the middle of a side, for a polygon).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Curve:
    """``corners`` of a polygon (0: none), or ``straight``, the length of an oval's chain (0: a circle).

    ``turn`` is where the way around starts, in degrees from the right.
    """

    corners: int = 0
    straight: float = 0.0
    turn: float = 90.0

    def length(self, out: float) -> float:
        """The way around at distance *out*."""
        if self.corners:
            return 2 * self.corners * out * math.tan(math.pi / self.corners)
        return 2 * self.straight + 2 * math.pi * out

    def out_for(self, length: float) -> float:
        """The distance at which the way around is *length*."""
        if self.corners:
            return length / (2 * self.corners * math.tan(math.pi / self.corners))
        return max(length - 2 * self.straight, 0.0) / (2 * math.pi)

    def point(self, out: float, share: float) -> Point:
        """The place at *share* of the way around."""
        share %= 1.0
        if self.corners:
            return self._on_side(out, share)
        if self.straight:
            return self._beside_chain(out, share)
        angle = math.radians(self.turn) + 2 * math.pi * share
        return out * math.cos(angle), -out * math.sin(angle)

    def _on_side(self, out: float, share: float) -> Point:
        side, along = divmod(share * self.corners, 1.0)
        (ax, ay), (bx, by) = (self._corner(out, side + k) for k in (0, 1))
        return ax + (bx - ax) * along, ay + (by - ay) * along

    def _corner(self, out: float, number: float) -> Point:
        angle = math.radians(self.turn) + 2 * math.pi * number / self.corners
        far = out / math.cos(math.pi / self.corners)
        return far * math.cos(angle), -far * math.sin(angle)

    def _beside_chain(self, out: float, share: float) -> Point:
        """From the tip at the right along the upper side, around the left end and back below."""
        half, quarter = self.straight / 2, math.pi * out / 2
        at = share * self.length(out)
        for piece, (cx, start) in enumerate(((half, 0.0), (0.0, 0.0), (-half, 90.0), (0.0, 0.0), (half, 270.0))):
            room = (quarter, self.straight, 2 * quarter, self.straight, quarter)[piece]
            if at > room and piece < 4:
                at -= room
                continue
            if piece == 1:
                return half - at, -out
            if piece == 3:
                return -half + at, out
            angle = math.radians(start) + (at / out if out else 0.0)
            return cx + out * math.cos(angle), -out * math.sin(angle)
        raise AssertionError("the last piece takes what is left")

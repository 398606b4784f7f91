"""The working edge: what the last round left to work into."""

from __future__ import annotations

from dataclasses import dataclass, replace

PLAIN, OPENING, CORNER, GAP = 0, 1, 2, 3

# A chain space in its place: how many stitches stand before it, its length in chains, and what it is. Of an OPENING the
# chains count as stitches; a CORNER was made among the stitches of a group; a GAP is where two groups meet without a chain.
Mark = tuple[int, int, int]
Clump = tuple[int, int, str]  # stitches in one place: where they start, how many, the name of the group
TURNED, KEPT, IN_ORDER = "turned", "kept", "in order"
MOST_MARKS = 4_000  # spaces that are kept in order; of more only the totals are


@dataclass(frozen=True, slots=True)
class Edge:
    """What can be worked into. An edge that nothing is known of is None where an ``Edge | None`` is asked for.

    ``stitches`` are the places for stitches (chains that count among them); ``spaces`` the chain spaces as
    (length in chains, how many), ``marks`` the same in their order, empty where that is not known. ``kind``:

    ============  ==========================================================================
    ``stitches``  the last round's stitches
    ``chain``     an open foundation chain of ``stitches`` chains: both sides can be worked
    ``ring``      a ring: stitches worked into it use no place
    ``nothing``   a piece that has not begun
    ============  ==========================================================================

    ``waiting`` are stitches that earlier rounds left unworked. ``trailing`` is a chain made at the end of the last
    round, beyond its stitches; ``apart`` where that stands on a line of its own, so that something new may begin with it.
    ``joined`` is a stitch with which that chain was joined to another piece, on a line before the round.
    ``clumps`` are stitches that stand together in one place, in their order.
    ``loose`` where only the stitches are known, because the round that made the spaces is wrong. Spaces and groups stand
    in the order in which they were made; ``way`` is ``turned`` or ``kept`` where the writer says that the work is turned or not
    before it goes on, ``in order`` where they stand in the order in which they are met.
    """

    stitches: int = 0
    spaces: tuple[tuple[int, int], ...] = ()
    kind: str = "stitches"
    waiting: int = 0
    trailing: int = 0
    marks: tuple[Mark, ...] = ()
    apart: bool = False
    joined: int = 0
    clumps: tuple[Clump, ...] = ()
    loose: bool = False
    way: str = ""

    def turned(self, rounds: bool = False) -> Edge:
        """As it is met after a turn, from its end to its beginning; in *rounds* the stitch of the join comes first."""
        total = self.stitches

        def place(end: int) -> int:
            return (total - end) % total + 1 if rounds and total else total - end

        marks = [(place(at + (length if kind == OPENING else 0)), length, kind) for at, length, kind in reversed(self.marks)]
        clumps = [(place(start + size), size, key) for start, size, key in reversed(self.clumps)]
        if rounds:
            marks.sort(key=lambda mark: mark[0])
            clumps.sort(key=lambda clump: clump[0])
        return replace(self, marks=tuple(marks), clumps=tuple(clumps), way=IN_ORDER)

    def in_order(self) -> Edge:
        """As it is met where the work is not turned."""
        return replace(self, way=IN_ORDER)

    def loosened(self, stitches: int) -> Edge:
        """So many stitches, of which nobody knows where the spaces are; as it is where there are none."""
        if not (self.spaces or self.marks):
            return Edge(stitches, (), "stitches", 0, self.trailing)
        return Edge(stitches, self.spaces, "stitches", 0, self.trailing, loose=True)

    def space_count(self, length: int | None = None) -> int:
        """How many chain spaces there are, of *length* chains or of any."""
        return sum(count for chains, count in self.spaces if length is None or chains == length)


NOTHING = Edge(kind="nothing")

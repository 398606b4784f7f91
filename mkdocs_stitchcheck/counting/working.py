"""A round in the working: places that are left, stitches that were made. One size and one reading at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from ..language import syntax
from .edge import Clump, Edge, Mark
from .places import is_space
from .questions import Answers
from .tally import Tally

if TYPE_CHECKING:
    from .edgings import Sides

LARGEST_NUMBER = 10**6
LARGEST_COUNT = 10**9

Steps = tuple[syntax.Step, ...]
# Gives the steps of one round that "as Rnd 5" stands for, or None where they are not to be had.
Resolver = Callable[[syntax.Again], Steps | None]
Where = tuple[tuple[Mark, ...], tuple[Clump, ...], int, int, int, int, int, int, int]


@dataclass(slots=True)
class Remainder:
    """A repeat, or stitches worked to the end, that do not come out even.

    Each pass uses ``each`` places, ``over`` of ``available`` remain. ``last`` are the stitches kept for the end.
    """

    step: syntax.Step
    each: int
    over: int
    available: int
    last: int = 0
    spaces: bool = False


@dataclass(slots=True)
class Setting:
    """What holds while a round is worked: answers to open questions, the size, whether it is a round or a row."""

    answers: Answers = field(default_factory=Answers)
    size: int = 0
    in_rounds: bool = True
    resolve: Resolver = lambda again: None
    pieces: Callable[[syntax.Reference], Edge | None] = lambda reference: None
    replaced: syntax.Number | None = None
    replacement: int = 0
    asking: bool = True
    working: Callable[[Edge | None, Setting, str, int], Working] | None = None  # what works a round; None: a Working
    sides: Callable[[], Sides | None] = lambda: None  # the edges of the piece so far
    partial: bool = False  # a working step: stitches of pieces held together may stay for later


class Working:
    """Counts the steps of one round on one edge.

    ``left`` are the places not yet used: negative where more were used than there are. ``unknown`` where the edge is
    not known: then nothing can be said of ``left``. ``open_ended`` where the steps take "all that are left".
    ``choice`` picks among the ``options`` that a form leaves open and the stated count decides.
    """

    # Most rounds leave these as they are, so they cost nothing a round.
    first_chain = 0  # the chain that the first stitch goes into, counted from the hook
    passed: syntax.Step | None = None  # "skip first ch": these chains are no places of the round
    side = 1  # of a foundation chain
    side_used = 0
    options = 1
    open_ended = False
    worked = False
    under_chain = False  # a turning chain has taken the first stitch's place
    height_stitches = 0  # made by the turning chain
    kept = 0  # of "to last N"
    leaving = False
    turned = False
    turned_last = False  # after the last stitches
    closed = False  # by a slip stitch
    told = ""  # what the count of an edging consists of
    waits = 0
    pending: syntax.Chain | None = None
    own: tuple[tuple[str, bool, bool], ...] = ()
    remainder: Remainder | None = None
    trust = ""
    loops: frozenset[str] = frozenset()
    layered = False
    asides: frozenset[str] = frozenset()
    next_color: str | None = None
    too_big: syntax.Number | None = None
    depth = 0
    corner = False  # the last stitches went several into one place
    joined: Mapping[str, int | None] = MappingProxyType({})  # pieces worked around, with their stitches
    pool_used: Mapping[str, int] = MappingProxyType({})
    pool = ""
    bridge = 0
    bridge_used = 0
    joined_before = False  # the stitch with which the bridge was joined, a line before, is one more than the round names
    astray: tuple[int, int] | None = None  # an opening is worked along after so many stitches, and lies behind so many
    held = 0  # stitches worked through both copies of a piece
    seamed: Mapping[str, int] = MappingProxyType({})  # of each copy of a piece, so many were worked together
    mismatch: tuple[syntax.Node, int, int] | None = None
    cyclic = False
    has_increase = False
    referring = 0
    asked: frozenset[str] = frozenset()
    in_group = False
    # Chain spaces of the edge in their order: see ``in_order``.
    marks: tuple[Mark, ...] = ()
    mark_at = 0  # the next space that may be worked
    missing = 0  # spaces asked for and not there
    stretch = 0  # stitches worked since the last space
    moved = False  # slip stitches at the start have moved it
    over = 0  # stitches left in front of a space, where those before it were worked
    clumps: tuple[Clump, ...] = ()  # groups of the edge, in their order
    passed_over = False  # a stitch of a group was named: those between are passed over
    loose = False  # nobody knows where the spaces are
    swept: frozenset[int] = frozenset()  # steps worked already, in the course of a step before them
    lengths: frozenset[int | None] = frozenset()  # of the spaces worked; None for any
    turned_to = (0, 0)  # the stitches and spaces that the start has moved on by, to begin in a space
    # A chain made in the round and worked along at once (see ``own_chain``): its places, those left, whether it is a block's
    # and whether its stitches lengthen the row.
    own_made = own_left = 0
    own_block = own_counted = False
    own_off: tuple[int, int] | None = None  # so many stitches along a chain that has room for so many
    loop = ""  # the loops that hold until others are named
    step: syntax.Step | None = None  # the step at hand

    def __init__(self, edge: Edge | None, setting: Setting, color: str, choice: int = 0) -> None:
        self.setting = setting
        self.tally = self.new_tally()
        self.choice = choice
        self.color = color
        self.colors: list[str] = []
        self.unknown = edge is None
        self.in_ring = False
        self.done: list[int] = []
        self.left = self.spaces = self.chain = self.trailing = self.total = 0
        if edge is not None:
            self.left = edge.stitches
            self.spaces = edge.space_count() if edge.spaces else 0
            self.trailing = edge.trailing
            if edge.loose:
                self.loose = True
            if edge.marks:
                self.marks = edge.marks
            self.total = edge.stitches
            self.clumps = edge.clumps
            if edge.kind == "ring":
                self.in_ring = True
            elif edge.kind == "chain":
                self.chain = edge.stitches

    def new_tally(self) -> Tally:
        """What a stretch of steps is counted with."""
        return Tally()

    def value(self, number: syntax.Number) -> int:
        """The written number, of the size at hand; 0 for a size that is not worked. Notes one that can't be meant."""
        setting = self.setting
        if number is setting.replaced:
            return setting.replacement
        values = number.values
        found = values[setting.size] if len(values) > 1 and setting.size < len(values) else values[0]
        if found is None:
            return 0
        if found > LARGEST_NUMBER:
            self.too_big = number
            return LARGEST_NUMBER
        if not found and len(values) == 1:
            self.too_big = number
        return found

    def times(self, number: syntax.Number | None) -> int:
        """As :meth:`value`, 1 where nothing is written."""
        return 1 if number is None else self.value(number)

    def use(self, places: int) -> None:
        """Work into, or pass over, *places* of the edge."""
        self.tally.used += places
        self.left -= places

    def ask(self, question: str) -> bool:
        """How *question* is read; remembers that it was put, unless the pattern declares the answer."""
        answers = self.setting.answers
        if self.setting.asking and question not in answers.declared:
            self.asked |= {question}
        return answers.get(question)

    def wear(self, color: str | None) -> str:
        """The colour of the stitches to come, noted among the round's colours."""
        now = self.color if color is None else color
        if now and now not in self.colors:
            self.colors.append(now)
        return now

    def once(self, steps: Steps, no_places: bool = False, cyclic: bool = False) -> Tally:
        """One pass over *steps*: what it uses and makes. The places left are as before afterwards.

        With *no_places* the stitches go into one place that is counted elsewhere; in a *cyclic* pass the last step
        stands beside the first.
        """
        outer, left, spaces, ring, was = self.tally, self.left, self.spaces, self.in_ring, self.cyclic
        self.tally = self.new_tally()
        self.in_ring, self.cyclic = ring or no_places, cyclic
        grouped, self.in_group = self.in_group, self.in_group or no_places
        place = self.where() if self.marks else None
        self.depth += 1
        run(self, steps)
        self.depth -= 1
        self.cyclic, self.in_group = was, grouped
        if place is not None:
            self.go_back(place)
        found, self.tally = self.tally, outer
        self.left, self.spaces, self.in_ring = left, spaces, ring
        return found

    def where(self) -> Where:
        """Where the work stands among the spaces, to come back to."""
        return self.marks, self.clumps, self.mark_at, self.missing, self.stretch, self.over, len(self.done), self.left, self.spaces

    def go_back(self, place: Where) -> None:
        """Back to a place that :meth:`where` gave."""
        self.marks, self.clumps, self.mark_at, self.missing, self.stretch, self.over, done, self.left, self.spaces = place
        del self.done[done:]

    def repeat(self, tally: Tally, times: int) -> None:
        """Take *tally* over, *times* over."""
        self.tally.add(tally, times)
        self.left -= tally.used * times
        self.spaces -= tally.used_spaces * times


Handler = Callable[..., None]  # (working, step, the steps it stands among, its index there)
HANDLERS: dict[type[syntax.Step], Handler] = {}


def run(working: Working, steps: Steps) -> None:
    """Works *steps* one after the other."""
    for index, step in enumerate(steps):
        working.step = step
        if working.swept and id(step) in working.swept:
            continue
        HANDLERS[type(step)](working, step, steps, index)


def reserved(working: Working, steps: Steps, index: int, spaces: bool = False) -> int:
    """Places that "all that are left" leaves to later steps "in last st" of the same stretch; *spaces* of chains."""
    kept = 0
    for step in steps[index + 1 :]:
        place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
        if place is not None and place.kind == "last" and is_space(place) is spaces:
            places = working.times(place.number)
            if isinstance(step, syntax.Work):
                places = max(places, step.stitch.uses)
            kept += places
    return kept

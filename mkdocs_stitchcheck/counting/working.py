"""A round in the working: places that are left, stitches that were made. One size and one reading at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from ..language import syntax
from .edge import Edge
from .questions import Answers
from .tally import Tally

LARGEST_NUMBER = 10**6
LARGEST_COUNT = 10**9

Steps = tuple[syntax.Step, ...]
# Gives the steps of one round that "as Rnd 5" stands for, or None where they are not to be had.
Resolver = Callable[[syntax.Again], Steps | None]


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


class Working:
    """Counts the steps of one round on one edge.

    ``left`` are the places not yet used: negative where more were used than there are. ``unknown`` where the edge is
    not known: then nothing can be said of ``left``. ``open_ended`` where the steps take "all that are left".
    ``choice`` picks among the ``options`` that a form leaves open and the stated count decides.
    """

    __slots__ = (
        "asides",
        "asked",
        "bridge",
        "bridge_used",
        "chain",
        "choice",
        "color",
        "colors",
        "corner",
        "cyclic",
        "depth",
        "first_chain",
        "has_increase",
        "in_ring",
        "joined",
        "kept",
        "layered",
        "leaving",
        "left",
        "loops",
        "mismatch",
        "next_color",
        "open_ended",
        "options",
        "own",
        "pending",
        "pool",
        "pool_used",
        "referring",
        "remainder",
        "setting",
        "side",
        "side_used",
        "spaces",
        "tally",
        "too_big",
        "trailing",
        "trust",
        "turned",
        "under_chain",
        "unknown",
        "waits",
        "worked",
    )  # fmt: skip

    def __init__(self, edge: Edge | None, setting: Setting, color: str, choice: int = 0) -> None:
        self.setting = setting
        self.tally = Tally()
        self.left = edge.stitches if edge is not None and edge.kind != "nothing" else 0
        self.spaces = edge.space_count() if edge is not None else 0
        self.unknown = edge is None
        self.in_ring = edge is not None and edge.kind == "ring"
        self.chain = edge.stitches if edge is not None and edge.kind == "chain" else 0
        self.first_chain = 0
        self.side = 1
        self.side_used = 0
        self.choice = choice
        self.options = 1
        self.open_ended = False
        self.worked = False
        self.under_chain = False
        self.kept = 0
        self.leaving = False
        self.turned = False
        self.waits = 0
        self.pending: syntax.Chain | None = None
        self.asked: set[str] = set()
        self.own: list[tuple[str, bool, bool]] = []
        self.remainder: Remainder | None = None
        self.trust = ""
        self.loops: set[str] = set()
        self.layered = False
        self.asides: set[str] = set()
        self.color = color
        self.colors: list[str] = []
        self.next_color: str | None = None
        self.too_big: syntax.Number | None = None
        self.depth = 0
        self.corner = False
        self.joined: dict[str, int | None] = {}
        self.bridge = 0
        self.bridge_used = 0
        self.mismatch: tuple[syntax.Node, int, int] | None = None
        self.trailing = edge.trailing if edge is not None else 0
        self.cyclic = False
        self.has_increase = False
        self.pool = ""
        self.referring = 0
        self.pool_used: dict[str, int] = {}

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
            self.asked.add(question)
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
        self.tally = Tally()
        self.in_ring, self.cyclic = ring or no_places, cyclic
        self.depth += 1
        run(self, steps)
        self.depth -= 1
        self.cyclic = was
        found, self.tally = self.tally, outer
        self.left, self.spaces, self.in_ring = left, spaces, ring
        return found

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
        HANDLERS[type(step)](working, step, steps, index)


def reserved(working: Working, steps: Steps, index: int) -> int:
    """Places that "all that are left" leaves to later steps "in last st" of the same stretch."""
    kept = 0
    for step in steps[index + 1 :]:
        place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
        if place is not None and place.kind == "last":
            places = working.times(place.number)
            if isinstance(step, syntax.Work):
                places = max(places, step.stitch.uses)
            kept += places
    return kept

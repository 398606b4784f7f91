"""A round worked as always, and everything it does written down in its order: what drawings are made from.

The counting itself is that of :mod:`.evaluate`; only the tally notes each change. Repeats stay multiplied in the notes.
"""

from __future__ import annotations

from typing import NamedTuple

from ..language import syntax
from ..language.vocabulary import Stitch
from .edge import PLAIN, Edge
from .tally import Tally
from .working import Setting, Working


class Used(NamedTuple):
    """So many places of the course before are worked into, or passed over."""

    places: int


class UsedSpaces(NamedTuple):
    """So many chain spaces of the course before are worked into, or passed over."""

    spaces: int


class MadeOf(NamedTuple):
    """So many stitches result, of chains."""

    places: int
    color: str


class Stitched(NamedTuple):
    """*times* of a stitch, of which ``made`` places result; ``loop`` as in :class:`~..language.syntax.Work`."""

    color: str
    stitch: Stitch
    times: int
    made: int
    loop: str
    step: syntax.Step | None


class Chained(NamedTuple):
    """Chains."""

    color: str
    number: int
    step: syntax.Step | None


class SpaceMade(NamedTuple):
    """The chains just made are a space."""

    length: int
    kind: int


class Again(NamedTuple):
    """A stretch, so many times over."""

    events: tuple[Event, ...]
    times: int


Event = Used | UsedSpaces | MadeOf | Stitched | Chained | SpaceMade | Again


class Log(Tally):
    """A tally that notes every change. ``made``, ``used`` and ``used_spaces`` are watched, as some steps change them."""

    __slots__ = ("_made", "_spaces", "_used", "events", "quiet", "working")

    def __init__(self, working: Working) -> None:
        self.working = working
        self.events: list[Event] = []
        self.quiet = False
        self._made = self._used = self._spaces = 0
        super().__init__()

    @property
    def made(self) -> int:
        """The stitches that result."""
        return self._made

    @made.setter
    def made(self, value: int) -> None:
        change, self._made = value - self._made, value
        if change and not self.quiet:
            self.events.append(MadeOf(change, self.working.color))

    @property
    def used(self) -> int:
        """The places worked into."""
        return self._used

    @used.setter
    def used(self, value: int) -> None:
        change, self._used = value - self._used, value
        if change and not self.quiet:
            self.events.append(Used(change))

    @property
    def used_spaces(self) -> int:
        """The chain spaces worked into."""
        return self._spaces

    @used_spaces.setter
    def used_spaces(self, value: int) -> None:
        change, self._spaces = value - self._spaces, value
        if change and not self.quiet:
            self.events.append(UsedSpaces(change))

    def add(self, other: Tally, times: int = 1) -> None:
        """Add *other*, *times* over, and note it as one."""
        self.quiet = True
        super().add(other, times)
        self.quiet = False
        events = tuple(other.events) if isinstance(other, Log) else ()
        if events and times > 0:
            self.events.append(Again(events, times))

    def space(self, length: int, kind: int = PLAIN) -> None:
        """A chain space is made."""
        super().space(length, kind)
        if length:
            self.events.append(SpaceMade(length, kind))

    def stitch(self, color: str, stitch: Stitch, times: int, made: int) -> None:
        """Stitches are worked."""
        self.quiet = True
        super().stitch(color, stitch, times, made)
        self.quiet = False
        if times > 0:
            step = self.working.step
            said = step.loop if isinstance(step, syntax.Work) else ""
            self.events.append(Stitched(color, stitch, times, made, said or stitch.loop or self.working.loop, step))

    def chain(self, color: str, number: int) -> None:
        """Chains are made."""
        super().chain(color, number)
        if number:
            self.events.append(Chained(color, number, self.working.step))


class Recording(Working):
    """A round in the working whose tallies are logs."""

    def __init__(self, edge: Edge | None, setting: Setting, color: str, choice: int = 0) -> None:
        super().__init__(edge, setting, color, choice)
        self.places = edge.stitches if edge is not None else 0

    def new_tally(self) -> Tally:
        """A tally that notes what is done."""
        return Log(self)

    @property
    def events(self) -> list[Event]:
        """Everything the round does, in its order."""
        return self.tally.events if isinstance(self.tally, Log) else []

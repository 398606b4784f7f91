"""What a round does, repeats expanded: one :class:`Item` after the other, each with what it is worked into."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from ..language import syntax
from ..language.vocabulary import Stitch, stitches
from .edge import OPENING
from .places import is_space
from .recording import Again, Chained, Event, MadeOf, Recording, SpaceMade, Stitched, Used, UsedSpaces

MOST_ITEMS = 1_200  # of one round


class NotDrawable(Exception):
    """A round that cannot be taken apart stitch by stitch; the text says why, to go after "Rnd 9:"."""


@dataclass(frozen=True, slots=True)
class Item:
    """One thing made in a round.

    ``kind``: ``stitch``; ``turning`` (chains that count as a stitch); ``space`` (chains between stitches); ``height``
    (a turning chain that does not count); ``picot``; ``slip`` (a slip stitch that moves the start). ``parents`` are the
    numbers of the places of the course before that it stands on, from 0 in the order in which they were made, ``space``
    that of the chain space it is worked into; neither for a ring. ``places`` is how many places of its own course it is
    (several for an opening), ``first`` the number of the first. ``length`` is in chains. ``far`` is true on the second
    side of a chain.
    """

    kind: str
    stitch: Stitch | None = None
    color: str = ""
    loop: str = ""
    parents: tuple[int, ...] = ()
    space: int | None = None
    places: int = 0
    first: int = 0
    length: int = 0
    far: bool = False


@dataclass(slots=True)
class Replay:
    """Works through the notes of one round. ``pending`` are chains whose part is not known yet."""

    w: Recording
    carried: int = 0  # a turning chain made at the end of the row before
    items: list[Item] = field(default_factory=list)
    places: int = 0
    at: int = 0
    taken: int = 0
    here: tuple[tuple[int, ...], int | None] = ((), None)
    fresh: tuple[str, int, int] | None = None  # ("place", first, how many) or ("space", first of the taken, how many)
    pending: Chained | None = None
    last_space: bool = False
    spread: tuple[Stitched, int, int] | None = None
    ring: int = 0  # the chains that the round closes to a ring

    def run(self) -> list[Item]:
        """All items in order. Raises :class:`NotDrawable`."""
        self._run(self.w.events)
        self._settle_chain(at_end=True)
        if self.carried and not any(item.kind in ("turning", "height") for item in self.items):
            self.items.insert(0, Item("height", color=self.w.color, length=self.carried))
        if self.places != self.w.tally.made or not self.items:
            raise NotDrawable("worked in a way that a chart can't show")
        return self.items

    def _run(self, events: Iterable[Event]) -> None:
        for event in events:
            if len(self.items) > MOST_ITEMS:
                raise NotDrawable("too large for a chart")
            match event:
                case Used():
                    self._use(event.places)
                case UsedSpaces():
                    self._use_spaces(event.spaces)
                case MadeOf():
                    self._made(event)
                case Stitched():
                    self._stitched(event)
                case Chained():
                    self._settle_chain()
                    if event.step is None or isinstance(event.step, syntax.Ring):
                        self.ring = event.number  # a foundation within the round
                        continue
                    self.pending, self.last_space = event, False
                case SpaceMade():
                    self._space(event)
                case Again():
                    self._again(event)

    # --- places of the course before

    def _use(self, places: int) -> None:
        if places == -1 and self.items and self.items[-1].kind == "turning":
            self.at = 0  # the chain stands in the space that comes, not on a stitch
            self.items[-1] = replace(self.items[-1], parents=(), space=-1)
            return
        if places < 0:
            raise NotDrawable("worked in a way that a chart can't show")
        self.fresh = ("place", self.at, places)
        self.at += places

    def _use_spaces(self, spaces: int) -> None:
        if spaces < 0 or not self.w.marks or self.taken + spaces > len(self.w.done):
            raise NotDrawable("works into chain spaces whose order isn't known")
        self.fresh = ("space", self.taken, spaces)
        self.taken += spaces
        before, length, kind = self.w.marks[self.w.done[self.taken - 1]]
        self.at = before + (length if kind == OPENING else 0)
        last = self.items[-1] if self.items else None
        if last is not None and last.kind == "turning" and last.space == -1:
            self.items[-1] = replace(last, space=self._space_number(self.taken - spaces))

    def _space_number(self, nth: int) -> int:
        return (self.w.done[nth] + self.w.turned_to[1]) % len(self.w.marks)

    def _targets(self, number: int, uses: int, spread: bool) -> list[tuple[tuple[int, ...], int | None]]:
        """What each of *number* stitches is worked into."""
        fresh, self.fresh = self.fresh, None
        if fresh is None or not fresh[2]:
            return [self.here] * number
        kind, first, count = fresh
        found: list[tuple[tuple[int, ...], int | None]]
        if kind == "space":
            found = [((), self._space_number(first + i * count // number)) for i in range(number)]
        elif uses <= 1 and not spread:
            found = [((first + i * count // number,), None) for i in range(number)]
        else:
            each = max(count // number, 1)
            ends = [first + (i + 1) * each for i in range(number - 1)] + [first + count]
            starts = [first, *ends[:-1]]
            found = [(tuple(range(a, b)), None) for a, b in zip(starts, ends, strict=True)]
        parents, space = found[-1]
        self.here = (parents[-1:], space)
        return found

    # --- what is made

    def _put(self, item: Item) -> None:
        self.items.append(replace(item, first=self.places))
        self.places += item.places

    def _made(self, event: MadeOf) -> None:
        chain, self.pending = self.pending, None
        if event.places < 0:
            raise NotDrawable("turns before its end")
        last = self.items[-1] if self.items else None
        if self.last_space and last is not None and last.kind == "space":
            self.items[-1] = replace(last, places=event.places)
            self.places += event.places
            return
        length = chain.number if chain is not None else self.carried or max(self.w.first_chain - 1, 0)
        self.carried = 0
        parents, space = self._targets(1, 1, False)[0] if self.fresh is not None else self.here
        for _ in range(event.places):
            self._put(Item("turning", color=event.color, parents=parents, space=space, places=1, length=length))

    def _space(self, event: SpaceMade) -> None:
        chain, self.pending = self.pending, None
        last = self.items[-1] if self.items else None
        if chain is None and last is not None and last.kind == "turning":
            self.items[-1] = replace(last, length=max(last.length - event.length, 1))
        self._put(Item("space", color=chain.color if chain else self.w.color, length=event.length))
        self.last_space = True

    def _settle_chain(self, at_end: bool = False) -> None:
        """Chains that became neither a stitch nor a space give height."""
        chain, self.pending, self.last_space = self.pending, None, False
        if chain is None:
            return
        if not at_end and not any(item.kind in ("stitch", "space") for item in self.items):
            self.items.append(Item("height", color=chain.color, length=chain.number))

    def _stitched(self, event: Stitched) -> None:
        stitch = event.stitch
        if stitch.kind == "slip" and not event.made:
            self._slipped(event)
            return
        self._settle_chain()
        if isinstance(event.step, syntax.Spread):
            self._spread(event)
            return
        exact = isinstance(event.step, syntax.Work) and event.step.spread
        for parents, space in self._targets(event.times, stitch.uses, exact):
            self._work(event, parents, space)

    def _work(self, event: Stitched, parents: tuple[int, ...], space: int | None) -> None:
        stitch = event.stitch
        if stitch.kind == "picot":
            self._put(Item("picot", stitch, event.color, length=3))
            return
        makes = event.made // event.times
        if stitch.uses == makes > 1:
            for parent in reversed(parents) if stitch.key == "x-st" else parents:  # a cross stitch goes back over itself
                self._put(Item("stitch", _one_of(stitch), event.color, event.loop, (parent,), space, 1))
            return
        for _ in range(max(makes, 1)):
            one = _one_of(stitch) if makes > 1 else stitch
            self._put(Item("stitch", one, event.color, event.loop, parents, space, min(makes, 1)))

    def _slipped(self, event: Stitched) -> None:
        if self.pending is not None and self.items:  # a picot
            self.items.append(Item("picot", None, event.color, length=self.pending.number))
            self.pending = None
            return
        if self.pending is not None and self.w.in_ring:
            self.ring, self.pending = self.pending.number, None
            return
        self._settle_chain()
        if not any(item.kind in ("stitch", "turning") for item in self.items):
            place = event.step.place if isinstance(event.step, syntax.Work) else None
            if place is not None and is_space(place) and self.w.marks:
                self.items.append(Item("slip", event.stitch, event.color, space=self.w.turned_to[1] % len(self.w.marks)))
                return
            if place is not None and place.noun == "chain" and place.kind == "next":
                return  # along the chains of a loop, to its middle
            done = sum(item.kind == "slip" for item in self.items)
            for k in range(min(event.times, MOST_ITEMS)):
                self.items.append(Item("slip", event.stitch, event.color, parents=(done + k + 1,)))

    def _spread(self, event: Stitched) -> None:
        """"inc 6 evenly": as evenly as whole stitches allow."""
        if self.spread is None:
            number = event.times
            self.spread = (event, number, 0)
            if self.fresh is not None and self.fresh[2] == number * event.stitch.uses:
                self._lay_out(event, None)
            return
        self._lay_out(self.spread[0], event)

    def _lay_out(self, changed: Stitched, plain: Stitched | None) -> None:
        self.spread = None
        _, at, _ = self.fresh or ("place", self.at, 0)
        self.fresh = None
        number, others = changed.times, plain.times if plain is not None else 0
        for unit in range(number + others):
            turn = (unit + 1) * number // (number + others) > unit * number // (number + others)
            event = changed if turn or plain is None else plain
            uses = event.stitch.uses
            self._work(event, tuple(range(at, at + uses)), None)
            at += uses

    def _again(self, event: Again) -> None:
        self._settle_chain()
        if _moves(event.events):
            self.fresh = None
            for _ in range(event.times):
                self._run(event.events)
                if len(self.items) > MOST_ITEMS:
                    raise NotDrawable("too large for a chart")
            return
        targets = self._targets(event.times, 1, False)
        for parents, space in targets:
            self.here = (parents, space)
            self._run(event.events)


def _moves(events: tuple[Event, ...]) -> bool:
    """Whether a stretch works into places of its own."""
    return any(isinstance(e, (Used, UsedSpaces)) or isinstance(e, Again) and _moves(e.events) for e in events)


def _one_of(stitch: Stitch) -> Stitch:
    """Of an increase, one of the stitches worked into the place."""
    return stitches().get(stitch.base, stitch)

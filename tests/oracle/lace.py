"""Lace at random: stitches and chain spaces in one list, worked place by place, and the words for what was done.

``generate_lace(seed)`` gives a :class:`~tests.oracle.page.Case`. What is made here is counted by appending to a Python list, so it shares
nothing with the checker. Chains beside an equal skip count as stitches (the contract of the project); all other chains are spaces.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field

from .lines import ANY, Expected, Line
from .page import Block, Case


@dataclass
class Spot:
    """One place of an edge: a stitch, or a chain space of ``length`` (``counted`` where its chains count as stitches)."""

    kind: str
    length: int = 0
    counted: bool = False
    corner: bool = False

    @property
    def space(self) -> bool:
        """Whether it is a chain space, or (without a length) the gap where two groups meet."""
        return self.kind in ("sp", "gap")


Edge = list[Spot]


def sts(kind: str, number: int) -> Edge:
    """So many stitches."""
    return [Spot(kind) for _ in range(number)]


def sp(length: int, counted: bool = False, corner: bool = False) -> Edge:
    """A chain space; none of no length."""
    return [Spot("sp", length, counted, corner)] if length else []


@dataclass
class Lace:
    """A piece of lace in the making."""

    rng: random.Random
    name: str
    kind: str
    number: int = 0
    lines: list[Line] = field(default_factory=list)
    edge: Edge = field(default_factory=list)
    counted: bool = True

    def say(self, text: str) -> None:
        """A line that counts nothing."""
        self.lines.append(Line(text))

    def foundation(self, text: str, makes: int, kind: str = "foundation") -> None:
        """A chain on a line of its own."""
        self.lines.append(Line(text, Expected(text, kind, None, None, ANY, ANY, makes, ANY, of="foundation")))

    def course(self, text: str, made: Edge, of: str, count: str | None = None, groups: str = "") -> None:
        """The next round or row, with what it made."""
        self.number += 1
        noun = self.rng.choice(("Rnd", "Rnd", "Round") if self.kind == "round" else ("Row", "Row", "Row"))
        label = f"{noun} {self.number}"
        if count is None:
            count = self._count(made, groups)
        makes = sum(1 if not one.space else one.length if one.counted else 0 for one in made)
        capital = text[0].upper() + text[1:] if self.rng.random() < 0.5 else text
        line = f"{label}: {capital}{count}"
        self.lines.append(Line(line, Expected(label, self.kind, self.number, self.number, 1, ANY, makes, ANY, (of,), of)))
        self.edge = made

    def _count(self, made: Edge, groups: str) -> str:
        way = self.rng.random()
        if not self.counted or way < 0.2:
            return ""
        kinds = Counter(one.kind for one in made if not one.space)
        text = ", ".join(f"{number} {kind}" for kind, number in kinds.items())
        counted = any(one.counted for one in made)
        if groups and way < 0.4:
            text = groups
        if way > 0.5 and not counted:
            spaces = Counter(one.length for one in made if one.kind == "sp")
            text += "".join(f", {number} ch-{length} {'sp' if number == 1 else 'sps'}" for length, number in spaces.items())
        return self.rng.choice((f" ({text})", f". ({text})", f". [{text}]"))

    def block(self) -> Block:
        """As it stands on a page."""
        self.say("Fasten off.")
        return Block(self.name, 1, self.lines)

    def join(self, top: str = "") -> str:
        """The end of a round."""
        return self.rng.choice(("join", "join with sl st", f"join with sl st in {top}" if top else "join with sl st", "sl st to join"))

    def times(self, body: str, number: int) -> str:
        """*body* so many times over."""
        if number == 1:
            return body
        return self.rng.choice((f"({body}) x {number}", f"({body}) {number} times", f"[{body}] {number} times", f"({body}) {_word(number)}"))

    def star(self, body: str, number: int) -> str:
        """*body* so many times in all, with a star."""
        if number == 1:
            return body
        more = self.rng.choice(("{} more times", "around", "{} times more"))
        if more != "around" and number == 2:
            more = "once more"
        return f"*{body}; rep from * {more.format(number - 1)}"


def _word(number: int) -> str:
    return {2: "twice", 3: "three times"}.get(number, f"{number} times")


def runs(edge: Edge) -> list[tuple[int, Spot | None]]:
    """Stretches of stitches, each with the space behind it (None at the end)."""
    found: list[tuple[int, Spot | None]] = []
    here = 0
    for one in edge:
        if one.space:
            found.append((here, one))
            here = 0
        else:
            here += 1
    if here:
        found.append((here, None))
    return found


def ring(lace: Lace) -> str:
    """How a motif begins; gives the words for the place."""
    if lace.rng.random() < 0.4:
        number = lace.rng.randint(4, 6)
        lace.foundation(lace.rng.choice((f"Ch {number}, join with sl st in first ch to form a ring.", f"Ch {number}, sl st in first ch to form a ring.")), ANY, ANY)
        return "ring"
    return "magic ring"


def granny(lace: Lace) -> None:
    """Groups in spaces, more on each side every round: any number of sides, with or without a chain between the groups."""
    rng = lace.rng
    sides, g, c = rng.randint(3, 8), rng.randint(2, 4), rng.randint(1, 4)
    s = rng.choice([n for n in (0, 1, 2) if n != c])
    first = ring(lace)
    lace.course(
        f"ch 3 (counts as dc), {g - 1} dc in {first}, ch {c}, {lace.times(f'{g} dc in ring, ch {c}', sides - 1)}, {lace.join('top of ch-3')}",
        [one for _ in range(sides) for one in (*sts("dc", g), *sp(c, corner=True))], "ring of groups",
        groups=f"{sides} groups of {g} dc",
    )
    for k in range(rng.randint(2, 5)):
        made: Edge = []
        corners = [at for at, one in enumerate(lace.edge) if one.corner]
        turned = lace.edge[corners[0] :] + lace.edge[: corners[0]]
        spots = [one for one in turned if one.space]
        for one in spots:
            made += [*sts("dc", g), *sp(c, corner=True), *sts("dc", g)] if one.corner else sts("dc", g)
            made += sp(s) or [Spot("gap")]
        lace.course(_granny_text(lace, sides, g, c, s, k), made, "granny",
                    groups=f"{sum(2 if one.corner else 1 for one in spots)} groups of {g} dc")


def _granny_text(lace: Lace, sides: int, g: int, c: int, s: int, k: int) -> str:
    rng = lace.rng
    corner = rng.choice((f"ch-{c} sp", "corner sp", f"corner ch-{c} sp", "corner"))
    between = f"ch {s}, " if s else ""
    one = f"{g} dc in next ch-{s} sp, ch {s}" if s else f"{g} dc between next 2 groups"
    side = lace.times(one, k) + ", " if k else ""
    if s and k > 1 and rng.random() < 0.3 and c != s:
        side = f"[{one}] to next corner, "
    moved = f"sl st in next {g - 1} dc and in next ch-{c} sp" if g > 1 else f"sl st in next ch-{c} sp"
    moved = rng.choice((moved, f"sl st to next ch-{c} sp", "sl st to corner sp"))
    start = f"{moved}, ch 3 (counts as dc), ({g - 1} dc, ch {c}, {g} dc) in same sp, {between}{side}"
    last = lace.star(f"({g} dc, ch {c}, {g} dc) in next {corner}, {between}{side}".rstrip(", "), sides - 1)
    return f"{start}{last}, {lace.join('top of ch-3')}"


def solid(lace: Lace) -> None:
    """Stitches along the sides, a group in each corner."""
    rng = lace.rng
    sides, g, c, m = rng.randint(3, 8), rng.randint(2, 5), rng.randint(1, 3), rng.randint(1, 3)
    first = ring(lace)
    lace.course(
        f"ch 3 (counts as dc), {g - 1} dc in {first}, ch {c}, {lace.times(f'{g} dc in ring, ch {c}', sides - 1)}, {lace.join('top of ch-3')}",
        [one for _ in range(sides) for one in (*sts("dc", g), *sp(c, corner=True))], "ring of groups",
    )
    for _ in range(rng.randint(1, 4)):
        made: Edge = []
        for one in lace.edge:
            made += [*sts("dc", m), *sp(c, corner=True), *sts("dc", m)] if one.space else sts("dc", 1)
        stretch = runs(lace.edge)
        corner = rng.choice((f"ch-{c} sp", "corner sp", "corner", f"corner ch-{c} sp"))
        group = f"({m} dc, ch {c}, {m} dc) in next {corner}" if m > 1 else f"(dc, ch {c}, dc) in next {corner}"
        begin, side = stretch[0][0] - 1, stretch[1][0]
        tail = stretch[-1][0] if stretch[-1][1] is None else 0
        head = f"dc in next {begin} dc, " if begin > 1 else "dc in next dc, " if begin else ""
        along = rng.choice((f"dc in next {side} dc", f"dc in each of next {side} dc", f"dc in next {side} sts"))
        if rng.random() < 0.3:
            along = "dc in each dc to next corner"
        end = f", dc in next {tail} dc" if tail > 1 else ", dc in next dc" if tail else ""
        lace.course(f"ch 3 (counts as dc), {head}{group}, {lace.star(f'{along}, {group}', sides - 1)}{end}, {lace.join('top of ch-3')}",
                    made, "solid")


def arches(lace: Lace) -> None:
    """Chain arches in rounds, moved on from arch to arch, filled and begun anew."""
    rng = lace.rng
    m = rng.randint(1, 3)
    n = (m + 1) * rng.randint(4, 9)
    first = ring(lace)
    lace.course(f"ch 1, {n} sc in {first}, {lace.join('first sc')}", sts("sc", n), "ring")
    k = rng.choice([j for j in (2, 3, 4, 5, 6) if j != m])
    lace.course(
        f"ch 1, sc in first sc, ch {k}, {lace.star(f'sk next {m} sc, sc in next sc, ch {k}', n // (m + 1) - 1)}, {_skip(m)}{lace.join('first sc')}",
        [one for _ in range(n // (m + 1)) for one in (*sts("sc", 1), *sp(k))], "arches",
    )
    for _ in range(rng.randint(1, 4)):
        spaces = [one for one in lace.edge if one.space]
        if not spaces:
            break
        k, many = spaces[0].length, len(spaces)
        k2 = rng.choice((2, 3, 4, 5, 6))
        way = rng.random()
        if way < 0.35:
            text = f"sl st in next ch-{k} sp, ch 1, sc in same sp, ch {k2}, {lace.star(f'sc in next ch-{k} sp, ch {k2}', many - 1)}"
            made = [one for _ in spaces for one in (*sts("sc", 1), *sp(k2))]
        elif way < 0.6:
            text = f"sl st in next ch-{k} sp, ch 4 (counts as dc, ch 1), dc in same sp, ch {k2}, {lace.star(f'(dc, ch 1, dc) in next ch-{k} sp, ch {k2}', many - 1)}"
            made = [one for _ in spaces for one in (*sts("dc", 1), *sp(1), *sts("dc", 1), *sp(k2))]
            lace.course(f"{text}, {lace.join('3rd ch of beg ch-4')}", made, "v in arches")
            return
        elif way < 0.8:
            text = f"ch 1, {k2} sc in each ch-{k} sp around"
            made = sts("sc", k2 * many)
        else:
            text = f"sl st in next ch-{k} sp, ch 3 (counts as dc), {k2} dc in same sp, {k2 + 1} dc in each ch-{k} sp around"
            made = sts("dc", (k2 + 1) * many)
        top = "top of ch-3" if "ch 3 (" in text else "first sc"
        lace.course(f"{text}, {lace.join(top)}", made, "into arches")


def _skip(number: int) -> str:
    return f"sk last {number} sc, " if number > 1 else "sk last sc, "


PIECES = {"granny": granny, "solid": solid, "arches": arches}


def generate_lace(seed: int, size: int = 9) -> Case:
    """The page of *seed*: two to four pieces of lace."""
    from .lace_rows import PIECES as ROWS

    rng = random.Random(seed)
    header = ["Title: A small thing", "Terms: US", "Special stitch: shell = 5 dc in one st",
              "Special stitch: V-st = (dc, ch 1, dc) in one st or sp"]  # fmt: skip
    names = rng.sample(("Square", "Doily", "Mat", "Scarf", "Strip", "Edge", "Panel", "Cloth"), rng.randint(2, 4))
    blocks = []
    for name in names:
        rows = rng.random() < 0.55
        make = rng.choice(list((ROWS if rows else PIECES).values()))
        lace = Lace(rng, name, "row" if rows else "round", counted=rng.random() < 0.9)
        make(lace)
        blocks.append(lace.block())
    return Case(seed, header, blocks).assemble()

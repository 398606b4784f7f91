"""A whole page: front matter, prose, headers and pieces, cut into blocks the way a blog cuts them."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from .forms import Writer
from .habits import implicit, two_in_one
from .limbs import SETS as LIMBS
from .lines import Expected, Line, Work
from .pieces import finish, some_piece, start
from .told import SETS as TOLD

NAMES = (
    "Body",
    "Head",
    "Ear",
    "Wing",
    "Tail",
    "Snout",
    "Collar",
    "Basket",
    "Coaster",
    "Strap",
    "Sleeve",
    "Fin",
    "Base",
    "Lid",
)
PROSE = (
    "A quiet paragraph about wool.",
    "Stop for a photograph.",
    "![The muzzle](muzzle.jpg)",
    "Tea helps.",
    "## Onwards",
)


@dataclass
class Block:
    """A piece as written: its heading and lines."""

    name: str
    make: int
    lines: list[Line]
    needs: tuple[str, ...] = ()  # pieces it cannot do without


@dataclass
class Case:
    """A page, and what is expected of each line that counts. Deterministic by seed."""

    seed: int
    header: list[str]
    blocks: list[Block]
    text: str = ""
    expected: list[Expected] = field(default_factory=list)
    makes: dict[str, int] = field(default_factory=dict)

    def assemble(self) -> Case:
        """Write the page anew from header and pieces, and set the line of each expectation."""
        page, placed = _page(random.Random(self.seed), self.header, self.blocks)
        self.text = "\n".join(page) + "\n"
        self.expected = []
        for number, line in placed:
            if line.expected is not None:
                line.expected.line = number
                self.expected.append(line.expected)
        self.makes = {block.name: block.make for block in self.blocks}
        return self


def _heading(rng: random.Random, block: Block) -> str:
    name, k = block.name, block.make
    if k == 1:
        return rng.choice([f"# {name}", f"# {name} (color A)", f"# {name}:"])
    return rng.choice(
        [
            f"# {name} (make {k})",
            f"# {name} (make {k}, color A)",
            f"# {name} x{k}",
            f"# {name.upper()} (MAKE {k})",
            f"# {name} ({k} pcs)",
            f"# {name} - make {k}",
        ]
    )


def _page(rng: random.Random, header: list[str], blocks: list[Block]) -> tuple[list[str], list[tuple[int, Line]]]:
    page: list[str] = []
    placed: list[tuple[int, Line]] = []
    if rng.random() < 0.5:
        page += ["---", "title: A small thing", "date: 2026-02-03", "---", ""]
    page += ["# A small thing", ""]
    indent, fence = "", "```"

    def open_block() -> None:
        nonlocal indent, fence
        way, fence = rng.random(), rng.choice(["```", "```", "~~~", "````"])
        indent = ""
        if way < 0.08:
            page.extend(["- in a list", ""])
            indent = "    "
        elif way < 0.14:
            indent = "> "
        page.append(f"{indent}{fence}crochet")

    def close_block() -> None:
        page.extend([f"{indent}{fence}", ""])

    open_block()
    page += [indent + line for line in header]
    for block in blocks:
        page.append(indent.rstrip())
        page.append(indent + _heading(rng, block))
        for i, line in enumerate(block.lines):
            if i and rng.random() < 0.05 and line.text.strip():  # no block of a blank line alone
                close_block()
                page.extend([rng.choice(PROSE), ""])
                open_block()
            placed.append((len(page) + 1, line))
            page += [(indent + part).rstrip() for part in line.text.split("\n")]
    close_block()
    return page, placed


def _block(work: Work, needs: tuple[str, ...] = ()) -> Block:
    return Block(work.name, work.make, work.lines, needs)


def _header(writer: Writer, hdc: bool) -> list[str]:
    lines = ["Title: A small thing", f"Terms: {writer.terms}", "Yarn: light (3), 50 g = 125 m"]
    lines += [f"Color {c}: {name}" for c, name in zip("ABC", ("slate", "cream", "red"), strict=True)]
    lines += ["Hook: 2.5 mm", "Notions: 8 mm safety eyes (2), polyester stuffing, stitch marker"]
    if hdc:
        lines.append(f"Turning chain: {writer.word('hdc')} does not count as a stitch")
    return lines


def generate(seed: int, size: int = 9) -> Case:
    """The page of *seed*; *size* is about how many lines a piece has."""
    rng = random.Random(seed)
    writer = Writer(rng, "UK" if rng.random() < 0.12 else "US")
    writer.colors = ("A", "B", "C")
    header = _header(writer, rng.random() < 0.3)
    way = rng.random()
    if way < 0.25:
        writer.star_in_all = False
    elif way < 0.4:
        writer.star_in_all = True
        header.append("Reading: rep from * 5 times is 5 in all")
    works: list[tuple[Work, tuple[str, ...]]] = []
    special = rng.random()
    if special < 0.05:
        work = start(writer, "Dome", "round")
        implicit(work, size)
        works.append((finish(work), ()))
    elif special < 0.09:
        work = start(writer, "Dome", "round")
        two_in_one(work, size)
        header.append(f"Reading: 2 {writer.word('sc')} is two in one stitch")
        return Case(seed, header, [_block(finish(work))]).assemble()
    elif special < 0.35:
        made = rng.choice(LIMBS if special < 0.2 else TOLD)(writer)
        works += [(work, tuple(other.name for other in made[:i])) for i, work in enumerate(made)]
    names = [name for name in NAMES if name not in {work.name for work, _ in works}]
    for name in rng.sample(names, rng.randint(1, 3)):
        works.append((some_piece(writer, name, rng.randint(3, size)), ()))
    return Case(seed, header, [_block(work, needs) for work, needs in works]).assemble()

"""Pages in two to seven sizes: the same words, a number for each size, every size worked by hand on its own edge.

``LISTS`` are the ways to write a number a size, ``COUNTS`` the ways to state one, ``KINDS`` the rounds: each gives an
instruction with a list in it, and the steps of each size. Common practice, no source; the numbers are invented.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from . import hands
from .hands import Loop, Step
from .lines import ANY, Expected, Line
from .page import Block, Case

NAMES = ("XS", "S", "M", "L", "XL", "2X", "3X")
Numbers = list[int | None]
Ways = list[Sequence[Step]]


def _commas(entries: list[str], open_: str = "(", close: str = ")", sep: str = ", ", space: str = " ") -> str:
    return f"{entries[0]}{space}{open_}{sep.join(entries[1:])}{close}"


def _two_brackets(entries: list[str], second: str = "[]") -> str:
    half = (len(entries) + 1) // 2
    return f"{entries[0]} ({', '.join(entries[1:half])}) {second[0]}{', '.join(entries[half:])}{second[1]}"


def _each_its_bracket(entries: list[str]) -> str:
    pairs = ("()", "[]", "{}")
    return entries[0] + "".join(f" {pairs[i % 3][0]}{e}{pairs[i % 3][1]}" for i, e in enumerate(entries[1:]))


LISTS: dict[str, tuple[Callable[[list[str]], str], int]] = {  # the way, and from how many sizes on
    "commas": (_commas, 2),
    "commas again": (_commas, 2),
    "no space": (lambda e: _commas(e, space=""), 3),
    "square": (lambda e: _commas(e, "[", "]"), 2),
    "curly": (lambda e: _commas(e, "{", "}"), 3),
    "hyphens": (lambda e: _commas(e, sep="-"), 3),
    "colons": (lambda e: _commas(e, sep=":"), 3),
    "slashes": ("/".join, 3),
    "two brackets": (_two_brackets, 4),
    "two kinds": (lambda e: _two_brackets(e, "{}"), 4),
    "a bracket each": (_each_its_bracket, 3),
}
COUNTS = ("({n})", "({n})", "({n} sts)", "[{n}]", ". {n} sts.", "= {n}", "(all)", ". You now have {n} sts")


@dataclass
class Sized:
    """A piece in the making, in all its sizes."""

    rng: random.Random
    sizes: tuple[str, ...]
    way: str
    edges: list[list[Loop]]
    rows: bool = False
    numbers: list[int] = field(default_factory=list)  # the last number of each size
    lines: list[Line] = field(default_factory=list)

    def list(self, values: Numbers, plain: bool = True) -> str:
        """A number for each size; one alone where it is the same (mostly) and *plain* allows."""
        if plain and len(set(values)) == 1 and values[0] is not None and self.rng.random() < 0.8:
            return str(values[0])
        dash = self.rng.choice(("-", "–"))
        write = LISTS["commas" if None in values and self.way in ("hyphens", "slashes") else self.way][0]
        return write([dash if value is None else str(value) for value in values])

    @property
    def counts(self) -> list[int]:
        return [len(edge) for edge in self.edges]


# --- kinds of round: (words, what each size works), or None where it does not suit --------------------------------------


def even(w: Sized) -> tuple[str, Ways] | None:
    words = w.rng.choice(("sc in each st {around}", "sc {around}", "1 sc in each sc", "sc in every st"))
    return words, [[hands.rest("sc")] for _ in w.sizes]


def so_many(w: Sized) -> tuple[str, Ways] | None:
    words = w.rng.choice(("sc in next {a} sts", "sc in each of next {a} sts", "work {a} sc"))
    return words.format(a=w.list(w.counts, "work" not in words)), [[hands.plain("sc", n)] for n in w.counts]


def regular(w: Sized, more: bool = True) -> tuple[str, Ways] | None:
    each: list[int] = []
    for n in w.counts:
        fits = [m for m in range(2, 13) if n % m == 0 and n // m >= (1 if more else 2)]
        if not fits:
            return None
        each.append(w.rng.choice(fits))
    uses = [n // m for n, m in zip(w.counts, each, strict=True)]
    beside = [u - (1 if more else 2) for u in uses]
    if min(beside) < 1:
        return None
    stitch = "inc" if more else w.rng.choice(("dec", "sc2tog"))
    plain = w.rng.choice(("{a} sc", "sc in next {a} sts", "sc {a}"))
    if "next" not in plain and len(w.sizes) == 2 and len(set(beside)) > 1:
        plain = "sc in next {a} sts"
    body = f"({plain.format(a=w.list(beside, False) if len(set(beside)) > 1 else beside[0])}, {stitch})"
    times = w.rng.choice(("x {m}", "{m} times", "x {m}"))
    if len(w.sizes) == 2 and len(set(each)) > 1:
        times = "{m} times"  # with two sizes "x 6 (7)" at the end would state seven stitches
    words = f"{body} {times.format(m=w.list(each))}"
    if all(n % u == 0 for n, u in zip(w.counts, uses, strict=True)) and w.rng.random() < 0.3:
        words = f"{body} {{around}}"
    step = hands.into_one(["sc", "sc"]) if more else hands.together("sc")
    return words, [[hands.times([hands.plain("sc", b), step], m)] for b, m in zip(beside, each, strict=True)]


def regular_dec(w: Sized) -> tuple[str, Ways] | None:
    return regular(w, False)


def some_inc(w: Sized) -> tuple[str, Ways] | None:
    """Some sizes increase, others do not: a 0 or a dash."""
    much: Numbers = [w.rng.choice((0, 1, 2, 3, 4)) if n > 6 else 0 for n in w.counts]
    if not any(much):
        return None
    written = [None if not n and w.rng.random() < 0.5 else n for n in much]
    if len(set(written)) == 1:
        return None
    head = w.rng.choice(("inc in next {a} sts", "2 sc in each of next {a} sts"))
    words = f"{head.format(a=w.list(written, False))}, sc to end"
    return words, [[hands.into_one(["sc", "sc"], n or 0), hands.rest("sc")] for n in much]


def with_tail(w: Sized) -> tuple[str, Ways] | None:
    """So many, one thing, and the rest."""
    first = [w.rng.randint(1, max(n // 2, 1)) for n in w.counts]
    if min(w.counts) < 6:
        return None
    what, step = w.rng.choice((("inc", hands.into_one(["sc", "sc"])), ("dec", hands.together("sc")), ("sk 1", hands.skip(1))))
    words = f"sc in next {w.list(first)} sts, {what}, sc to end"
    return words, [[hands.plain("sc", n), step, hands.rest("sc")] for n in first]


def opening(w: Sized) -> tuple[str, Ways] | None:
    """Chains over as many skipped stitches."""
    if min(w.counts) < 12:
        return None
    over = [w.rng.randint(2, n // 3) for n in w.counts]
    words = f"sc in next 2 sts, ch {w.list(over, False) if len(set(over)) > 1 else over[0]}, sk next {w.list(over)} sts, sc to end"
    if len(w.sizes) == 2 and len(set(over)) > 1:
        return None  # "ch 4 (6), sk": with two sizes a bracket behind a bare number may be a count
    return words, [[hands.plain("sc", 2), hands.skip(n), hands.chain(n), hands.rest("sc")] for n in over]


def evenly(w: Sized) -> tuple[str, Ways] | None:
    more = [w.rng.randint(1, max(n // 3, 1)) for n in w.counts]
    words = f"inc {w.list(more, False) if len(set(more)) > 1 else more[0]} evenly"
    return (words, [[hands.spread(n)] for n in more]) if len(w.sizes) > 2 else None


KINDS: dict[str, tuple[Callable[[Sized], tuple[str, Ways] | None], int]] = {
    "even": (even, 3), "so many": (so_many, 4), "regular": (regular, 8), "regular dec": (regular_dec, 5),
    "some sizes": (some_inc, 4), "tail": (with_tail, 4), "opening": (opening, 2), "evenly": (evenly, 2),
}  # fmt: skip


# --- lines --------------------------------------------------------------------------------------------------------------


def _count(w: Sized, made: Numbers) -> str:
    form = w.rng.choice(COUNTS)
    if form == "(all)":
        known = [str(n) for n in made if n is not None]
        return f" ({', '.join(known)})" if len(known) == len(made) > 1 else f" ({w.list(made)})"
    if form.startswith((".", "=")) and len(w.sizes) == 2:
        form = "({n})"
    written = w.list(made, len(w.sizes) > 2)
    if len(set(made)) == 1 and made[0] is not None:
        written = str(made[0])
    return ("" if form[0] == "." else " ") + form.format(n=written)


def _label(w: Sized, rounds: list[int]) -> tuple[str, int, int]:
    """"Rnd 4:", "Rnds 5-8 (9, 10):", with first and last of the first size; the numbers go on."""
    word = "Row" if w.rows else "Rnd"
    first = [number + 1 for number in w.numbers]
    last = [number + many for number, many in zip(w.numbers, rounds, strict=True)]
    w.numbers = last
    if max(rounds) == 1 or len(set(first)) > 1:
        number = w.list(first, False) if len(set(first)) > 1 else str(first[0])
        return f"{word} {number}:", first[0], first[0]
    return f"{word}s {first[0]}-{w.list(last)}:", first[0], last[0]


def _turn(w: Sized, words: str) -> str:
    words = words.replace("{around}", "across" if w.rows else "around")
    return f"ch 1, turn, {words}" if w.rows else words


def add(w: Sized) -> None:
    """One more line."""
    if w.rng.random() < 0.2:
        return _stretch(w)
    if w.rng.random() < 0.12 and len(w.sizes) > 2 and len(set(w.numbers)) == 1:
        return _only(w)
    names = list(KINDS)
    for _ in range(20):
        name = w.rng.choices(names, [KINDS[n][1] for n in names])[0]
        if max(w.counts) > 90 and name in ("regular", "evenly"):
            continue
        found = KINDS[name][0](w)
        if found is None:
            continue
        words, ways = found
        made = [hands.worked(steps, edge) for steps, edge in zip(ways, w.edges, strict=True)]
        if min(len(one.made) for one in made) < 4:
            continue
        label, first, last = _label(w, [1] * len(w.sizes))
        _write(w, name, f"{label} {_turn(w, words)}", made, (first, last), [1] * len(w.sizes))
        return None
    return None


def _stretch(w: Sized) -> None:
    """So many plain rounds, a number for each size."""
    rounds = [w.rng.randint(2, 6) for _ in w.sizes]
    if len(set(w.numbers)) > 1 or w.rng.random() < 0.4:
        if len(w.sizes) == 2 and len(set(rounds)) > 1:
            rounds = [rounds[0]] * 2
        word = "rows" if w.rows else "rnds"
        head, first, last = f"Next {w.list(rounds)} {word}:", None, None
        w.numbers = [number + many for number, many in zip(w.numbers, rounds, strict=True)]
    else:
        head, first, last = _label(w, rounds)
    made = [hands.worked([hands.rest("sc")], edge) for edge in w.edges]
    _write(w, "stretch", f"{head} {_turn(w, 'sc {around}')}", made, (first, last), rounds)


def _only(w: Sized) -> None:
    """A round for some of the sizes."""
    some = sorted(w.rng.sample(range(len(w.sizes)), w.rng.randint(1, len(w.sizes) - 1)))
    names = [w.sizes[i] for i in some]
    said = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
    number = w.numbers[0] + 1
    word = "Row" if w.rows else "Rnd"
    head = w.rng.choice((f"Size{'s' if len(some) > 1 else ''} {said} only: {word} {number}:", f"For size{'s' if len(some) > 1 else ''} {said}: {word} {number}:"))
    w.numbers = [number] * len(w.sizes)
    made = [hands.worked([hands.rest("sc")], edge) if i in some else None for i, edge in enumerate(w.edges)]
    _write(w, "only", f"{head} {_turn(w, 'sc {around}')}", made, (number, number), [int(i in some) for i in range(len(w.sizes))])


def _write(w: Sized, of: str, text: str, made: Sequence[hands.Hands | None], numbers: tuple[int | None, int | None], rounds: list[int]) -> None:
    counts: Numbers = [len(one.made) if one is not None else None for one in made]
    known = [n for n in counts if n is not None]
    stated = w.rng.random() < 0.9
    if stated:
        text += f" ({known[0]})" if of == "only" and len(set(known)) == 1 else _count(w, counts)
    w.edges = [one.made if one is not None else edge for one, edge in zip(made, w.edges, strict=True)]
    w.lines.append(Line(text, Expected(
        text.split(":")[0], "row" if w.rows else "round", numbers[0], numbers[1], tuple(rounds),
        tuple(one.used if one is not None else None for one in made), tuple(counts),
        tuple(counts) if stated else ANY, (of, w.way), of=f"sizes: {of}",
    )))  # fmt: skip


def generate_sized(seed: int, size: int = 9) -> Case:
    """The page of *seed*, in sizes; *size* is about how many lines a piece has."""
    rng = random.Random(seed)
    names = NAMES[: rng.randint(2, 7)]
    way = rng.choice([name for name, (_write_it, least) in LISTS.items() if least <= len(names)])
    header = ["Title: A small thing", "Terms: US", f"Sizes: {_commas(list(names))}"]
    blocks = []
    for name in rng.sample(("Body", "Cuff", "Crown", "Sleeve", "Yoke", "Panel"), rng.randint(1, 2)):
        w = Sized(rng, names, way, [[] for _ in names], rng.random() < 0.4)
        begins: Numbers = sorted(rng.sample(range(6, 40), len(names)))
        _begin(w, begins)
        for _ in range(rng.randint(3, size)):
            add(w)
        blocks.append(Block(name, rng.choice((1, 1, 2)), w.lines))
    return Case(seed, header, blocks).assemble()


def _begin(w: Sized, begins: Numbers) -> None:
    counts = [n or 0 for n in begins]
    w.numbers = [1] * len(counts)
    none = tuple(0 for _ in counts)
    if not w.rows:
        first = w.list(begins, False)
        text = f"Rnd 1: {first} sc in magic ring"
        made = [hands.Hands([]) for _ in counts]
        for one, n in zip(made, counts, strict=True):
            hands.ring("sc", n)(one)
        _write(w, "ring", text, made, (1, 1), [1] * len(counts))
        return
    chains = tuple(n + 1 for n in counts)
    w.lines.append(Line(f"Ch {w.list(list(chains), False)}.", Expected(
        "", "foundation", None, None, ANY, none, chains, ANY, ("chain", w.way), of="sizes: chain"
    )))  # fmt: skip
    edges = [[Loop("ch")] * n for n in counts]
    made = [hands.worked([hands.rest("sc")], edge) for edge in edges]
    _write(w, "first row", "Row 1: sc in 2nd ch from hook and in each ch across", made, (1, 1), [1] * len(counts))

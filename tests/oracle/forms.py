"""How designers write one step: tables of forms, each with a name, a text, and when it can stand.

The steps of a form are those of its family (``plain``, ``inc`` ...), so that a new form is one entry of a table.
In a text ``{s}`` is the stitch, ``{S}`` its long name, ``{n}`` a number, ``{word}`` that number as a word, ``{sk}`` the
verb for passing over. Sources: common practice, no source; the forms are those that published patterns use.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from . import hands
from .hands import Step

# US and UK names of the same stitches: Craft Yarn Council, Standards & Guidelines (2018), US/UK table.
ABBREVIATIONS = {
    "US": {"sc": "sc", "hdc": "hdc", "dc": "dc", "tr": "tr", "sl st": "sl st", "sk": "sk", "ch": "ch"},
    "UK": {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "sl st": "ss", "sk": "miss", "ch": "ch"},
}
LONG = {
    "US": {"sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble crochet"},
    "UK": {"sc": "double crochet", "hdc": "half treble", "dc": "treble", "tr": "double treble"},
}
WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times", 6: "six times"}


def always(_n: int) -> bool:
    return True


def one(n: int) -> bool:
    return n == 1


def few(n: int) -> bool:
    return 2 <= n <= 3


def many(n: int) -> bool:
    return n >= 2


def three_up(n: int) -> bool:
    return n >= 3


@dataclass(frozen=True)
class Form:
    """One way to write a step. Flags: ``alone`` only as a whole instruction, ``star`` holds a star, ``stop`` a full
    stop, ``bracket`` ends in a bracket, ``list`` holds a comma, ``sc`` only for single crochet."""

    name: str
    text: str
    when: Callable[[int], bool] = always
    flags: frozenset[str] = frozenset()


def form(text: str, when: Callable[[int], bool] = always, flags: str = "") -> Form:
    """A form named by its text."""
    return Form(text, text, when, frozenset(flags.split()))


PLAIN = [
    form("{n} {s}", many),
    form("{s} {n}", many),
    form("{n}{s}", three_up),
    form("{s}{n}", three_up),
    form("{s} in next {n} sts", many),
    form("{s} in next {n} st", many),
    form("{s} in each of next {n} sts", many),
    form("{s} in each of the next {n} sts", many),
    form("1 {s} in each of next {n} sts", many),
    form("{s} next {n}", many),
    form("{s} next {n} sts", many),
    form("{n} x {s}", many),
    form("{s} x {n}", many),
    form("{S} in the next {n} stitches", many),
    form("{S} {n}", many),
    form("{s}, {s}", lambda n: n == 2, "list"),
    form("{s}, {s}, {s}", lambda n: n == 3, "list"),
    form("{s}", one),
    form("1 {s}", one),
    form("one {s}", one),
    form("{s} in next st", one),
    form("1 {s} in next st", one),
]
PLAIN_ALL = [
    form("{s} around", flags="round"),
    form("{s} all around", flags="round"),
    form("{s} in each st around", flags="round"),
    form("1 {s} in each st around", flags="round"),
    form("{s} in every st"),
    form("{s} ea st around", flags="round"),
    form("{s} in each st"),
    form("1 {s} in each {s}", flags="even"),
    form("{s} in all {n} sts"),
    form("work {n} {s}"),
    form("{n} {s}", flags="lone"),  # "Turn. Ch 1. 24 sc" may be a count as well: not in rows
    form("{s} {n}"),
    form("{s} to end"),
    form("{s} across", flags="row"),
    form("{s} in each st across", flags="row"),
    form("{s} in rem sts"),
]
INC = [
    form("inc", flags="sc"),
    form("1 inc", flags="sc"),
    form("one inc", flags="sc"),
    form("2 {s} in next st"),
    form("2 {s} in one st"),
    form("({s}, {s}) in next st"),
    form("{s} twice in next st"),
    form("{s} inc"),
    form("{s}-inc"),
    form("inc {s}"),
    form("inc (2 {s} in same st)", flags="sc bracket"),
    form("{S} increase"),
    form("incr", flags="sc"),
    form("invisible inc", flags="sc"),
]
INCS = [
    form("{n} inc", many, "sc"),
    form("inc {n}", many, "sc"),
    form("inc x {n}", many, "sc"),
    form("inc x{n}", many, "sc"),
    form("incx{n}", many, "sc"),
    form("(inc) x{n}", many, "sc"),
    form("inc*{n}", many, "sc star"),
    form("{n}x inc", many, "sc"),
    form("inc {n} times", many, "sc"),
    form("inc {n}x", many, "sc"),
    form("inc in next {n} sts", many, "sc"),
    form("2 {s} in each of next {n} sts", many),
    form("2 {s} in next {n} sts", many),
    form("inc, inc", lambda n: n == 2, "sc list"),
    form("inc twice", lambda n: n == 2, "sc"),
]
INC_ALL = [
    form("inc in each st", flags="sc"),
    form("inc in every st", flags="sc"),
    form("inc in all {n} sts", flags="sc"),
    form("inc around", flags="sc round"),
    form("inc all around", flags="sc round"),
    form("2 {s} in each st around", flags="round"),
    form("2 {s} in each st"),
    form("2 {s} ea st around", flags="round"),
    form("2{s} in each st around", flags="round"),
    form("({s}, {s}) in each st around", flags="round"),
]
INTO_ONE = [
    form("{n} {s} in next st"),
    form("{n} {s} in one st"),
    form("{n}{s} in next st"),
    form("inc3", lambda n: n == 3, "sc"),
    form("{s} 3 times in next st", lambda n: n == 3),
    form("({s}, {s}, {s}) in next st", lambda n: n == 3),
]
DEC = [
    form("dec", flags="sc"),
    form("1 dec", flags="sc"),
    form("one dec", flags="sc"),
    form("{s}2tog"),
    form("{s} 2 tog"),
    form("{s}2 tog"),
    form("{s} dec"),
    form("{s}-dec"),
    form("inv dec", flags="sc"),
    form("invdec", flags="sc"),
    form("invisible dec", flags="sc"),
    form("invisible decrease", flags="sc"),
    form("dec over next 2 sts", flags="sc"),
    form("{s} next 2 sts tog"),
    form("{S} decrease"),
]
DECS = [
    form("{n} dec", many, "sc"),
    form("dec x {n}", many, "sc"),
    form("(dec) x{n}", many, "sc"),
    form("dec {n} times", many, "sc"),
    form("dec*{n}", many, "sc star"),
    form("[dec] {n} times", many, "sc"),
    form("{n}x dec", many, "sc"),
    form("{s}2tog {n} times", many),
    form("{s}2tog x {n}", many),
]
DEC_ALL = [
    form("dec around", flags="sc round"),
    form("dec all around", flags="sc round"),
    form("{s}2tog around", flags="round"),
    form("{s}2tog to end"),
]
TOGETHER = [
    form("{s}{n}tog"),
    form("dec3", lambda n: n == 3, "sc"),
    form("{s} {n} tog"),
    form("{s} next {n} sts tog"),
]
SKIP = [
    form("{sk} 1", one),
    form("{sk} next st", one),
    form("skip next st", one),
    form("miss 1 st", one),
    form("{sk} {n}", many),
    form("{sk} next {n} sts", many),
    form("skip {n} sts", many),
    form("miss {n} sts", many),
]
LAST = [
    form("{s} in last st", one),
    form("1 {s} in last st", one),
    form("{s} in last {n} sts", many),
    form("{s} in each of last {n} sts", many),
]
CHAIN = [form("ch {n}"), form("{n} ch", many), form("ch{n}", many), form("chain {n}")]
RING = [
    form("{n} {s} in magic ring"),
    form("{n} {s} in MR"),
    form("{n} {s} into magic ring"),
    form("{n} {s} in a magic circle"),
    form("{n} {s} into magic loop"),
    form("MR, {n} {s}"),
    form("MR {n} {s}"),
    form("magic ring, work {n} {s}"),
    form("start {n} {s} in a magic ring"),
    form("start with a magic ring, work {n} {s}"),
    form("make a magic ring, ch 1, {n} {s} in ring; pull tight"),
    form("{n} {s} in adjustable ring"),
    form("ch 2, {n} {s} in 2nd ch from hook", flags="sc"),
    form("ch 2, {n} {s} in first ch", flags="sc"),
    form("MR {n}", flags="sc"),
    form("{n} {s} in the loop"),
    form("MR {S} {n}"),
]
JOIN = [
    form("join"),
    form("sl st to join"),
    form("join with {ss} in first {s}"),
    form("{ss} in first st"),
    form("{ss} to join"),
]


@dataclass(frozen=True)
class Bit:
    """A piece of an instruction: its words, what the hands do, and the names of the forms in it."""

    text: str
    steps: tuple[Step, ...]
    names: tuple[str, ...] = ()
    flags: frozenset[str] = frozenset()


def joined(bits: Sequence[Bit], separator: str = ", ") -> Bit:
    """Bits one after the other."""
    return Bit(
        separator.join(bit.text for bit in bits if bit.text),
        tuple(step for bit in bits for step in bit.steps),
        tuple(name for bit in bits for name in bit.names),
        frozenset(flag for bit in bits for flag in bit.flags if flag != "bracket")
        | (bits[-1].flags & {"bracket"} if bits else frozenset()),
    )


@dataclass
class Writer:
    """A designer: terms, habits, and a pen. ``banned`` holds the flags of forms that cannot stand just now.

    ``star_in_all`` is how this designer counts "rep from * 5 times": in all, or more; None: does not write it.
    """

    rng: random.Random
    terms: str = "US"
    habits: dict[int, Form] = field(default_factory=dict)
    used: Counter[str] = field(default_factory=Counter)
    banned: set[str] = field(default_factory=set)
    colors: tuple[str, ...] = ()
    star_in_all: bool | None = None

    def pick(self, table: Sequence[Form], n: int = 1, avoid: str = "", only: str = "") -> Form:
        """A form of the table that can stand; the one this designer is used to more often than another."""
        avoided = self.banned | set(avoid.split())
        fit = [f for f in table if f.when(n) and not f.flags & avoided and set(only.split()) <= f.flags]
        if not fit:
            raise LookupError(f"no form for {n}")
        habit = self.habits.get(id(table))
        if habit in fit and self.rng.random() < 0.5:
            return habit
        chosen = self.rng.choice(fit)
        self.habits[id(table)] = chosen
        return chosen

    def word(self, stitch: str) -> str:
        """The stitch in this designer's terms."""
        return ABBREVIATIONS[self.terms].get(stitch, stitch)

    def text(self, template: str, stitch: str = "sc", n: int = 1, **more: Any) -> str:
        """A form's text filled in."""
        return template.format(
            s=self.word(stitch),
            S=LONG[self.terms].get(stitch, stitch),
            n=n,
            sk=self.word("sk"),
            ss=self.word("sl st"),
            word=WORDS[n] if 0 <= n < len(WORDS) else n,
            **more,
        )

    def bit(
        self,
        table: Sequence[Form],
        steps: Sequence[Step],
        n: int = 1,
        stitch: str = "sc",
        avoid: str = "",
        only: str = "",
    ) -> Bit:
        """Steps in the words of one of the table's forms."""
        if stitch != "sc":
            avoid += " sc"
        chosen = self.pick(table, n, avoid, only)
        self.used[chosen.name] += 1
        return Bit(self.text(chosen.text, stitch, n), tuple(steps), (chosen.name,), chosen.flags)

    def plain(self, n: int, stitch: str = "sc", avoid: str = "") -> Bit:
        return self.bit(PLAIN, [hands.plain(stitch, n)], n, stitch, avoid) if n else Bit("", ())

    def _whole(self, table: Sequence[Form], body: Step, n: int, stitch: str, avoid: str) -> Bit:
        """A form for the whole edge: with a number in it, so many; without, as many as there are."""
        bit = self.bit(table, (), n, stitch, avoid)
        step = hands.times([body], n) if "{n}" in bit.names[0] else hands.until([body])
        return Bit(bit.text, (step,), bit.names, bit.flags)

    def plain_all(self, n: int, stitch: str = "sc", avoid: str = "row") -> Bit:
        return self._whole(PLAIN_ALL, hands.plain(stitch), n, stitch, avoid)

    def inc(self, stitch: str = "sc", avoid: str = "") -> Bit:
        return self.bit(INC, [hands.into_one([stitch, stitch])], 1, stitch, avoid)

    def incs(self, n: int, stitch: str = "sc", avoid: str = "") -> Bit:
        if n == 1:
            return self.inc(stitch, avoid)
        return self.bit(INCS, [hands.into_one([stitch, stitch], n)], n, stitch, avoid)

    def inc_all(self, n: int, stitch: str = "sc", avoid: str = "row") -> Bit:
        return self._whole(INC_ALL, hands.into_one([stitch, stitch]), n, stitch, avoid)

    def into_one(self, k: int, stitch: str = "sc", avoid: str = "") -> Bit:
        return self.bit(INTO_ONE, [hands.into_one([stitch] * k)], k, stitch, avoid)

    def dec(self, stitch: str = "sc", avoid: str = "") -> Bit:
        return self.bit(DEC, [hands.together(stitch)], 1, stitch, avoid)

    def decs(self, n: int, stitch: str = "sc", avoid: str = "") -> Bit:
        if n == 1:
            return self.dec(stitch, avoid)
        return self.bit(DECS, [hands.together(stitch, 2, n)], n, stitch, avoid)

    def dec_all(self, stitch: str = "sc", avoid: str = "row") -> Bit:
        return self.bit(DEC_ALL, [hands.all_together(stitch)], 1, stitch, avoid)

    def together(self, k: int, stitch: str = "sc", avoid: str = "") -> Bit:
        return self.bit(TOGETHER, [hands.together(stitch, k)], k, stitch, avoid)

    def skip(self, n: int) -> Bit:
        return self.bit(SKIP, [hands.skip(n)], n, avoid="")

    def last(self, n: int, stitch: str = "sc") -> Bit:
        return self.bit(LAST, [hands.plain(stitch, n)], n, stitch)

    def chain(self, n: int) -> Bit:
        return self.bit(CHAIN, [hands.chain(n)], n)

    def ring(self, n: int, stitch: str = "sc") -> Bit:
        return self.bit(RING, [hands.ring(stitch, n)], n, stitch)

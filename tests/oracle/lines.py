"""The lines of one piece in the making: the edge in hand, the rounds written so far, and what each must count to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from . import counts
from .forms import Bit, Writer
from .hands import Loop, RanOut, Step, worked
from .labels import Family, label

ANY = "any"  # stands where the contract leaves a value open
Value = int | None | str | tuple[int | None, ...]  # one a size in a pattern with sizes


@dataclass
class Expected:
    """What the checker must say of a written line. ``line`` is the file's, set when the page is put together."""

    label: str
    kind: str = ANY
    first: Value = None
    last: Value = None
    worked: Value = 1
    uses: Value = None
    makes: Value = None
    stated: Value = None
    forms: tuple[str, ...] = ()
    of: str = ""  # the kind of round
    line: int = 0


@dataclass
class Line:
    """A written line, with what it counts to if it is one that counts."""

    text: str
    expected: Expected | None = None


@dataclass
class Work:
    """A piece in the making."""

    writer: Writer
    name: str
    family: Family
    kind: str
    make: int = 1
    number: int = 0
    edge: list[Loop] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    done: dict[int, tuple[Step, ...]] = field(default_factory=dict)
    leaves: set[int] = field(default_factory=set)
    counted: bool = True  # whether this designer states counts at all

    @property
    def n(self) -> int:
        return len(self.edge)

    def say(self, text: str) -> None:
        """A line that counts nothing."""
        self.lines.append(Line(text))

    def _kind(self) -> str:
        return self.kind if self.family.sure else ANY

    def _count(self, made: Sequence[Loop], before: int, of: str, bit: Bit) -> counts.Count:
        quiet = of == "even" and self.writer.rng.random() < 0.3 and "bracket" not in bit.flags
        if not self.counted or quiet:
            return counts.NONE
        return counts.count(self.writer, made, before, "star" if "star" in bit.flags else "")

    def foundation(self, text: str, makes: int, kind: str = "foundation", uses: Value = ANY) -> None:
        """A foundation on a line of its own."""
        self.lines.append(Line(text, Expected(text, kind, None, None, ANY, uses, makes, ANY, of="foundation")))

    def round(
        self, bit: Bit, of: str, *, leaves: bool = False, uses: Value = None, edge: list[Loop] | None = None
    ) -> None:
        """The next round: *bit* worked on the edge in hand (or on *edge*)."""
        hands = worked(bit.steps, self.edge if edge is None else edge, leaves=leaves)
        if of == "ring" and "ch 2, " in bit.text:
            uses = ANY  # the one chain of "ch 2, 6 sc in 2nd ch from hook" may be called a place worked into, or not
        before, self.edge = self.n, hands.made
        self.number += 1
        self.done[self.number] = bit.steps
        if leaves:
            self.leaves.add(self.number)
        stated = self._count(hands.made, before, of, bit)
        number: Value = self.number
        head = label(self.writer, self.family, self.number)
        if self.kind == "round" and self.number > 2 and self.writer.rng.random() < 0.02:
            head, number = "Next rnd:", ANY
            del self.done[self.number]  # it has no number to be called by
        text = self._sentence(head, bit.text, stated.text)
        self.lines.append(
            Line(
                text,
                Expected(
                    head,
                    self._kind(),
                    number,
                    number,
                    1,
                    hands.used if uses is None else uses,
                    self.n,
                    self._stated(stated),
                    (*bit.names, head, stated.name),
                    of,
                ),
            )
        )

    def _stated(self, stated: counts.Count) -> Value:
        return ANY if stated.number is None and stated.text else stated.number

    def _sentence(self, head: str, body: str, count: str) -> str:
        if head[-1] in "-\u2013" and re.match(r"\d+\s*x?\s*[(\[]", body):
            head = head.rstrip(" -\u2013") + ":"  # "Round 2 - 4(sc, inc)" would be rounds 2 to 4
        if self.writer.rng.random() < 0.15:
            body = body[:1].upper() + body[1:]
        if count in (f" ({self.n})", f" [{self.n}]") and self.writer.rng.random() < 0.03:
            return f"{head} [{self.n}] {body}"  # the count first
        mark = f" @ {self.writer.rng.randint(1, 40)}:{self.writer.rng.randint(0, 59):02}"
        if ", " in body and self.writer.rng.random() < 0.05:
            body = body.replace(", ", ",\n      ", 1)  # a round goes on in the next line
        return f"{head} {body}{count}" + (mark if count.endswith(")") and self.writer.rng.random() < 0.03 else "")

    def stretch(self, bit: Bit, times: int, of: str = "range") -> None:
        """The same instruction for several rounds: stated once, a count each, or "for 4 rounds"."""
        rng, before = self.writer.rng, self.n
        a, b = self.number + 1, self.number + times
        uses, made_each = self._replay(bit, times)
        changes = len({before, *made_each}) > 1
        head, body = label(self.writer, self.family, a, b), bit.text
        if not changes and self.kind == "round" and rng.random() < 0.25:
            head = label(self.writer, self.family, a)
            body += rng.choice([f" for {times} rounds", f" for {times} rnds", f" ({self.n}) x {times} rounds"])
        count = counts.NONE if body.endswith(f") x {times} rounds") else self._range_count(before, made_each)
        stated = self.n if count is counts.NONE and body.endswith(f") x {times} rounds") else self._stated(count)
        names = (*bit.names, head, count.name)
        self.lines.append(
            Line(
                f"{head} {body}{count.text}",
                Expected(head, self._kind(), a, b, times, uses, self.n, stated, names, of),
            )
        )

    def _replay(self, bit: Bit, times: int) -> tuple[int, list[int]]:
        """Work *bit* again and again: what the first round used, what each made."""
        uses, made_each = 0, []
        for i in range(times):
            hands = worked(bit.steps, self.edge)
            uses = hands.used if i == 0 else uses
            self.edge = hands.made
            self.number += 1
            self.done[self.number] = bit.steps
            made_each.append(self.n)
        return uses, made_each

    def _range_count(self, before: int, made_each: Sequence[int]) -> counts.Count:
        rng = self.writer.rng
        changes = len({before, *made_each}) > 1
        if changes and rng.random() < 0.4:
            return counts.Count(" " + "".join(f"({n})" for n in made_each), None, "a count each")
        if not self.counted or (not changes and rng.random() < 0.2):
            return counts.NONE
        if changes:
            return counts.Count(f" ({self.n})", self.n, "last count")
        if rng.random() < 0.12:
            return counts.Count(f" ({self.n} sts each)", self.n, "sts each")
        return counts.count(self.writer, self.edge, before)

    def again(self) -> bool:
        """A reference to an earlier round, worked on the edge in hand. False where none comes out."""
        rng = self.writer.rng
        word = {"round": "Rnd", "row": "Row"}[self.kind]
        fits = [r for r in self.done if r > 1 and r not in self.leaves and self._comes_out(self.done[r])]
        if not fits:
            return False
        r = rng.choice(fits)
        how = rng.choice(["as {w} {r}", "same as {l} {r}", "rep {w} {r}", "repeat {l} {r}", "as {l} {r}"])
        bit = Bit(how.format(w=word, l=word.lower(), r=r), self.done[r], (how,))
        if self.n == len(worked(self.done[r], self.edge).made) and rng.random() < 0.3:
            self._more_times(word, r)
        else:
            self.round(bit, "reference")
        return True

    def block_again(self) -> bool:
        """Two neighbouring rounds again, once or twice. False where it does not come out."""
        rng, word = self.writer.rng, {"round": "Rnds", "row": "Rows"}[self.kind]
        pairs = [(r, r + 1) for r in self.done if r > 1 and r + 1 in self.done and not {r, r + 1} & self.leaves]
        if not pairs:
            return False
        x, y = rng.choice(pairs)
        k = rng.choice([1, 2, 2, 3])
        bits = [Bit("", self.done[r]) for r in (x, y)] * k
        edge, number, done = self.edge, self.number, dict(self.done)
        try:
            uses = [self._replay(bit, 1)[0] for bit in bits]
            if self.n > 90:
                raise RanOut
        except RanOut:
            self.edge, self.number, self.done = edge, number, done
            return False
        how = rng.choice(["rep {w} {x}-{y}", "rep {w} {x} and {y}", "repeat {w} {x}-{y}", "rep {w} {x} to {y}"])
        text = how.format(w=word, x=x, y=y) + {1: "", 2: " twice", 3: " 3 times"}[k]
        a, b = number + 1, number + 2 * k
        if rng.random() < 0.4:
            text = text[:1].upper() + text[1:] + "."
            self.lines.append(
                Line(text, Expected(text, ANY, ANY, ANY, 2 * k, uses[0], self.n, None, (how,), "block again"))
            )
            return True
        head = label(self.writer, self.family, a, b)
        count = f" ({self.n})" if self.counted and rng.random() < 0.6 else ""
        stated = self.n if count else None
        self.lines.append(
            Line(
                f"{head} {text}{count}",
                Expected(head, self._kind(), a, b, 2 * k, uses[0], self.n, stated, (how, head), "block again"),
            )
        )
        return True

    def _comes_out(self, steps: Sequence[Step]) -> bool:
        try:
            return 4 <= len(worked(steps, self.edge).made) <= 90
        except RanOut:
            return False

    def _more_times(self, word: str, r: int) -> None:
        k = self.writer.rng.randint(2, 4)
        number = {2: "two", 3: "three", 4: "four"}[k]
        form = self.writer.rng.choice(["Rep {w} {r} {number} more times.", "Rep {w} {r}, {k} times more."])
        text = form.format(w=word, r=r, number=number, k=k)
        for i in range(1, k + 1):
            self.done[self.number + i] = self.done[r]
        self.number += k
        self.lines.append(Line(text, Expected(text, ANY, ANY, ANY, k, self.n, self.n, None, (form,), "reference")))

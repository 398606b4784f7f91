"""The oracle's expectations against what the checker says, and the smallest page that still shows a disagreement."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from .lines import ANY, Expected
from .page import Case, generate

FAILING = ("error", "warning")
HARMLESS = frozenset({"count-missing"})  # a warning where a designer states no count at all


@dataclass
class Disagreement:
    """One line on which the two differ."""

    seed: int
    line: int
    of: str
    forms: tuple[str, ...]
    why: str
    written: str
    text: str = field(repr=False, default="")

    def __str__(self) -> str:
        forms = "; ".join(self.forms)
        return f"seed {self.seed} line {self.line} [{self.of}: {forms}]\n    {self.written}\n    {self.why}"


def _one(values: tuple[Any, ...]) -> Any:
    return values[0] if values else None


def _sized(expected: Expected, found: Any) -> Iterator[str]:
    """As :func:`_differences`, of a line in several sizes."""
    worked = tuple(work.worked for work in found.sizes)
    pairs = (("kind", expected.kind, found.kind), ("first", expected.first, found.first), ("last", expected.last, found.last),
             ("worked", expected.worked, worked), ("uses", expected.uses, found.uses), ("makes", expected.makes, found.makes),
             ("stated", expected.stated, found.stated))  # fmt: skip
    for name, wanted, got in pairs:
        if wanted != ANY and wanted != got:
            yield f"{name}: {wanted} by hand, the checker says {got}"
    if str(found.status) not in ("checked", "counted"):
        yield f"status {found.status} {found.trust}".rstrip()


def _differences(expected: Expected, found: Any) -> Iterator[str]:
    if isinstance(expected.makes, tuple):
        yield from _sized(expected, found)
        return
    pairs = {
        "kind": (expected.kind, found.kind),
        "first": (expected.first, found.first),
        "last": (expected.last, found.last),
        "worked": (expected.worked, found.worked),
        "uses": (expected.uses, _one(found.uses)),
        "makes": (expected.makes, _one(found.makes)),
        "stated": (expected.stated, _one(found.stated)),
    }
    for name, (wanted, got) in pairs.items():
        if wanted != ANY and wanted != got:
            yield f"{name}: {wanted} by hand, the checker says {got}"
    if str(found.status) not in ("checked", "counted"):
        yield f"status {found.status} {found.trust}".rstrip()


def disagreements(case: Case, check: Callable[[str], Any]) -> list[Disagreement]:
    """Every line of *case* on which *check* says something else, and every error or warning it reports on it."""
    result = check(case.text)
    found = {line.line: line for pattern in result.patterns for line in pattern.rounds}
    expected = {line.line: line for line in case.expected}
    written = case.text.split("\n")
    out: list[Disagreement] = []

    def report(line: int, why: list[str]) -> None:
        if why:
            one = expected.get(line)
            out.append(
                Disagreement(
                    case.seed,
                    line,
                    one.of if one else "",
                    one.forms if one else (),
                    "; ".join(why),
                    written[line - 1] if 0 < line <= len(written) else "",
                    case.text,
                )
            )

    said: dict[int, list[str]] = {}
    for finding in result.findings:
        if str(finding.severity) in FAILING and finding.rule not in HARMLESS:
            said.setdefault(finding.span.line, []).append(f"{finding.severity}[{finding.rule}] {finding.message}")
    for number in sorted(set(found) | set(expected) | set(said)):
        why = list(said.get(number, ()))
        if number in expected and number not in found:
            why.append("not among the checker's lines")
        elif number in found and number not in expected:
            why.append(f"the checker counts this line ({found[number].kind}), the oracle does not")
        elif number in found:
            why += _differences(expected[number], found[number])
        report(number, why)
    pieces = {piece.name: piece.make for pattern in result.patterns for piece in pattern.pieces}
    lower = {name.lower(): make for name, make in pieces.items()}
    for name, make in case.makes.items():
        if lower.get(name.lower()) != make:
            report(1, [f"piece {name} is to be made {make} times, the checker has {pieces}"])
    return out


def smallest(case: Case, check: Callable[[str], Any]) -> Disagreement:
    """The first disagreement of *case* on the smallest page that still shows one on a line with the same words."""
    first = disagreements(case, check)[0]
    names = {
        block.name
        for block in case.blocks
        for line in block.lines
        if first.written and first.written.strip() in line.text
    }
    kept = [block for block in case.blocks if block.name in names]
    kept = [block for block in case.blocks if block in kept or any(block.name in other.needs for other in kept)]
    small = Case(case.seed, case.header, kept or case.blocks).assemble()
    best = next((d for d in disagreements(small, check) if d.written.strip() == first.written.strip()), None)
    if best is None:
        case.assemble()
        return first
    block = small.blocks[-1]
    while len(block.lines) > 1 and block.lines[-1].text.split("\n")[0].strip() != best.written.strip():
        last = block.lines.pop()
        small.assemble()
        again = next((d for d in disagreements(small, check) if d.written.strip() == first.written.strip()), None)
        if again is None:
            block.lines.append(last)
            small.assemble()
            break
        best = again
    return best


@dataclass
class Tally:
    """A long run: lines compared, forms met, and the disagreements. ``failed`` counts the differing lines by form."""

    lines: int = 0
    pages: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    forms: Counter[str] = field(default_factory=Counter)
    failed: Counter[str] = field(default_factory=Counter)
    wrong: list[Disagreement] = field(default_factory=list)


def compare(
    lines: int, seed: int, check: Callable[[str], Any], size: int = 9, make: Callable[[int, int], Case] = generate
) -> Tally:
    """Pages from *seed* on until *lines* written lines are compared; one disagreement is kept a page, made small."""
    tally = Tally()
    seeds = random.Random(seed)
    while tally.lines < lines:
        case = make(seeds.randrange(2**32), size)
        tally.pages += 1
        tally.lines += len(case.expected)
        for one in case.expected:
            tally.kinds[one.of] += 1
            tally.forms.update(set(one.forms))
        differing = disagreements(case, check)
        for wrong in differing:
            tally.failed.update(set(wrong.forms))
        if differing:
            tally.wrong.append(smallest(case, check))
    return tally


def suspects(tally: Tally) -> list[tuple[str, int, int]]:
    """Forms whose lines differ at least half the time, as (name, differing, met): where to look first."""
    found = [(name, bad, tally.forms[name]) for name, bad in tally.failed.items() if 2 * bad >= tally.forms[name]]
    return sorted(found, key=lambda one: -one[1])

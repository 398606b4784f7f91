"""How a round or row, or a stretch of them, is called at the head of its line: families that go together."""

from __future__ import annotations

from dataclasses import dataclass

from .forms import Writer

ORDINALS = {1: "st", 2: "nd", 3: "rd"}


def ordinal(n: int) -> str:
    """1st, 2nd, 3rd, 4th, 11th ..."""
    return f"{n}{'th' if 10 <= n % 100 <= 20 else ORDINALS.get(n % 10, 'th')}"


@dataclass(frozen=True)
class Family:
    """Labels of one designer: of one round, of a stretch (``{a}`` to ``{b}``, ``{k}`` of them), of two neighbours."""

    single: tuple[str, ...]
    stretch: tuple[str, ...]
    pair: tuple[str, ...] = ()
    sure: bool = True  # whether the word says round or row


ROUNDS = (
    Family(
        ("Rnd {a}:",),
        ("Rnds {a}-{b}:", "Rnds {a}\u2013{b}:", "Rnds {a} - {b}:", "Rnd {a}-{b}:"),
        ("Rnds {a} and {b}:",),
    ),
    Family(
        ("Rnd {a}:",),
        ("Rnds {a}-{b} ({k} rnds):", "Rnds {a}-{b}: ({k} rounds)", "Rnd {a} to Rnd {b}:"),
        ("Rnds {a} & {b}:",),
    ),
    Family(("Round {a}:", "Round {a} -"), ("Rounds {a}-{b}:", "Rounds {a} through {b}:", "Rounds {a} to {b}:")),
    Family(("Rnd. {a}:", "Rnd. {a}"), ("Rnds. {a}-{b}:",)),
    Family(("Rnd {a}.", "Rnd {a} -", "Rnd {a} \u2013"), ("Rnds {a}-{b}.", "Rnds {a} to {b} -")),
    Family(("RND {a}:", "ROUND {a}:"), ("RNDS {a}-{b}:", "ROUNDS {a}-{b}:")),
    Family(("Rd {a}:",), ("Rds {a}-{b}:",)),
    Family(("{o} rnd:",), ("{o} to {p} rnds:", "{o} to {p} rnds inclusive:"), ("{o} and {p} rnds:",)),
    Family(("{a} rnd:",), ("{a}-{b} rnd:",)),
    Family(("R{a}:",), ("R{a}-R{b}:", "R{a} \u2013 R{b}:", "R{a}-{b}:", "R{a}~{b}:"), sure=False),
    Family(("R {a}:",), ("R {a}-{b}:",), sure=False),
    Family(("{a}.",), ("{a}-{b}.", "{a}. - {b}.", "{a}-{b}. ({k} rnds)"), sure=False),
    Family(("{a}:",), ("{a}-{b}:", "{a}-{b} ({k}R):"), sure=False),
    Family(("{a})",), ("{a}-{b})",), sure=False),
    Family(("Rnd {a}:", "Rnd {a} (color B):"), ("Rnds {a}-{b}:", "Rnds {a}-{b} (color A):")),
    Family(("Rnd {a}:", "Rnd {a} (see photo):"), ("Rnds {a}-{b}: ({k} rnds)",)),
    Family(("**Rnd {a}:**",), ("**Rnds {a}-{b}:**",)),
    Family(("- Rnd {a}:",), ("- Rnds {a}-{b}:",)),
    Family(("rnd {a}:",), ("rnds {a}-{b}:",)),
)
ROWS = (
    Family(("Row {a}:",), ("Rows {a}-{b}:", "Rows {a}\u2013{b}:", "Row {a}-{b}:"), ("Rows {a} and {b}:",)),
    Family(
        ("Row {a}:",),
        ("Rows {a} to {b}:", "Rows {a}-{b} ({k} rows):", "Rows {a}-{b}: ({k} rows)"),
        ("Rows {a} & {b}:",),
    ),
    Family(("Row {a} ({side}):",), ("Rows {a}-{b}:",)),
    Family(("{o} row:",), ("{o} to {p} rows:",), ("{o} and {p} rows:",)),
    Family(("ROW {a}:",), ("ROWS {a}-{b}:",)),
    Family(("Row {a}.", "Row {a} -"), ("Rows {a}-{b}.",)),
    Family(("Row {a} - {side}:",), ("Rows {a}-{b}:",)),
    Family(("{a} row:",), ("{a}-{b} rows:",)),
)


def label(writer: Writer, family: Family, a: int, b: int | None = None) -> str:
    """The label of round *a*, or of rounds *a* to *b*."""
    side = "RS" if a % 2 else "WS"
    table = family.single
    if b is not None and b > a:
        table = family.pair if b == a + 1 and family.pair and writer.rng.random() < 0.5 else family.stretch
    last = b if b is not None else a
    chosen = writer.rng.choice(table)
    writer.used[chosen] += 1
    return chosen.format(a=a, b=last, o=ordinal(a), p=ordinal(last), k=last - a + 1, side=side)

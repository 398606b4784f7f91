"""Patterns of any length, right in every round, in a mix of the forms that blogs use."""

from __future__ import annotations

from collections.abc import Iterator

HEADER = """Title: A long tube
Terms: US
Yarn: light (3), 50 g = 125 m
Color A: slate, shown as #6d7a86
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
Notions: polyester stuffing, yarn needle

# Tube (color A)
Rnd 1: 6 sc in magic ring (6)
"""

# Six rounds that end on the count they began with; {0} is the first round's number, {1} the second's ...
_FORMS = (
    "Rnd {}: (sc, inc) x 3 (9)\n",
    "Rnd {}: *sc in next 2 sts, inc; rep from * around (12)\n",
    "Rnd {}: sc in each st around (12)\n",
    "Rnd {}: [2 sc, dec] 3 times (9)\n",
    "Rnd {}: sc 9 - 9 sc\n",
    "Rnd {}: (1 sc, sc2tog) * 3 = 6\n",
)


def rounds(number: int) -> Iterator[str]:
    """The lines of rounds 2 to *number*."""
    for at in range(2, number + 1):
        yield _FORMS[(at - 2) % len(_FORMS)].format(at)


def pattern(number: int) -> str:
    """A Markdown page whose pattern has *number* rounds, every one checked."""
    return f"# A page\n\n```crochet\n{HEADER}{''.join(rounds(number))}Stuff firmly.\nFasten off and close the hole with the yarn needle.\n```\n"


# Six rows that end on the counts they began with; {n} is the row's number; each number once a size, or in a list.
_SIZED = (
    ("Row {n}: ch 1, turn, (sc in next {a} sts, inc) x 3 ({b})\n", lambda c: (c // 3 - 1, c + 3)),
    ("Row {n}: ch 1, turn, sc across ({b})\n", lambda c: (0, c + 3)),
    ("Row {n}: ch 1, turn, sc in next {a} sts, sc to end ({b})\n", lambda c: (c // 2, c + 3)),
    ("Row {n}: ch 1, turn, [{a} sc, dec] 3 times ({b})\n", lambda c: (c // 3 - 1, c)),
    ("Row {n}: ch 1, turn, sc in next {a} sts ({b})\n", lambda c: (c, c)),
    ("Row {n}: ch 1, turn, sc across = {b} sts\n", lambda c: (0, c)),
)


def sized(number: int, sizes: int) -> str:
    """A Markdown page whose pattern has *number* rows in so many sizes, every one checked."""
    counts = [24 + 6 * size for size in range(sizes)]
    listed = "" if sizes == 1 else "Sizes: 1 (" + ", ".join(map(str, range(2, sizes + 1))) + ")\n"
    lines = [f"Row 1: sc in 2nd ch from hook and in each ch across ({_list(counts)})\n"]
    for at in range(2, number + 1):
        form, numbers = _SIZED[(at - 2) % len(_SIZED)]
        pairs = [numbers(count) for count in counts]
        lines.append(form.format(n=at, a=_list([a for a, _b in pairs]), b=_list([b for _a, b in pairs])))
    head = f"Title: A long panel\nTerms: US\n{listed}\n# Panel\nCh {_list([count + 1 for count in counts])}.\n"
    return f"# A page\n\n```crochet\n{head}{''.join(lines)}Fasten off.\n```\n"


def _list(numbers: list[int]) -> str:
    first, *others = map(str, numbers)
    return f"{first} ({', '.join(others)})" if others else first

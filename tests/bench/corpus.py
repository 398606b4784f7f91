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

"""Patterns of any length, right in every round, in a mix of the forms that blogs use."""

from __future__ import annotations

import random
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


# --- pages as they differ on a blog ------------------------------------------------------------------------------------

_MORE = (
    "({a} sc, inc) x 6 ({b})", "*sc in next {a} sts, inc; rep from * around ({b})", "[{a} sc, 2 sc in next st] 6 times - {b}",
    "(sc {a}, inc)*6 [{b}]", "sc in next {a} sts, inc, repeat 6 times. ({b} sts)",
)  # fmt: skip
_SAME = ("sc around ({b})", "sc in each st around ({b})", "{b} sc ({b})", "1 sc in each of the {b} sts", "sc around = {b} sts")
_FEWER = (
    "({a} sc, dec) x 6 ({b})", "*sc in next {a} sts, sc2tog; rep from * around ({b})", "[{a} sc, invdec] 6 times ({b})",
    "(sc {a}, dec)*6 [{b}]",
)  # fmt: skip
_NAMES = ("Hare", "Newt", "Plover", "Gourd", "Bell", "Pebble", "Otter", "Lamp", "Snail", "Turnip", "Curlew", "Kettle")
_SIZED_UP = 6


def blog_page(number: int, length: int = 40) -> str:
    """The page of a blog with the number *number*: prose, and a toy of *length* rounds whose forms and counts are its own."""
    chance = random.Random(number)
    name = f"{chance.choice(_NAMES)} {number}"
    head = HEADER.split("\n#")[0].replace("A long tube", name).replace("2.5 mm", f"{chance.choice((2, 2.5, 3))} mm")
    piece = f"# Body (color A)\nRnd 1: 6 sc in magic ring (6)\n{''.join(_ball(chance, length))}"
    end = "Stuff firmly.\nFasten off and weave in the end.\n"
    prose = "".join(f"{chance.choice(_PROSE)}\n\n" for _ in range(4))
    return f"# {name}\n\n{prose}```crochet\n{head}\n{piece}{end}```\n\n{chance.choice(_PROSE)}\n"


_PROSE = (
    "I made this one for the window that looks out on the marsh, and it has stood there since, a little faded by now.",
    "The yarn is what was left of a blanket. Any other does as well, as long as it is tightly spun and the hook is small.",
    "There is a *second* version without the stripe, which I'll write down when the evenings are longer.",
    "Tell me how yours came out, and where you had to look twice: I read every letter, and mend what isn't clear.",
)


def _ball(chance: random.Random, length: int) -> Iterator[str]:
    """Rounds 2 to *length*: wider, even, narrower, as often as they fit, each in a form of this designer's choice."""
    wide, same, narrow = chance.choice(_MORE), chance.choice(_SAME), chance.choice(_FEWER)
    at, sixes, growing = 2, 1, True
    while at <= length:
        if sixes == (top := min(8, _SIZED_UP)) and growing:
            growing = False
            last = min(at + chance.randrange(2, 6), length)
            label = f"Rnds {at}-{last}" if last > at else f"Rnd {at}"
            yield f"{label}: {same.format(b=6 * top)}\n"
            at = last + 1
            continue
        if sixes == 1 and not growing:
            growing = True
        form, sixes, before = (wide, sixes + 1, sixes) if growing else (narrow, sixes - 1, sixes)
        inner = before - 1 if growing else before - 2
        words = form.format(a=inner, b=6 * sixes) if inner else ("inc x 6 (12)" if growing else "dec x 6 (6)")
        yield f"Rnd {at}: {words}\n"
        at += 1


# What stands in its place in the sites that are compared: forty lines of a language that everybody highlights.
CODE = "".join(
    f"def turn_{at}(rows: list[int], by: int = {at}) -> dict[str, int]:  # {at}\n    return {{'row': sum(rows[:by]) * {at}.5, \"by\": by}}\n"
    for at in range(20)
)

"""Kinds of round in a spiral: each makes an instruction for an edge of *n* stitches, or None where it does not suit.

``KINDS`` is the table; a new kind is one function and its entry. The hands are asked afterwards whether it comes out.
"""

from __future__ import annotations

from collections.abc import Callable

from . import hands, repeats
from .forms import Bit, Writer, joined

Kind = Callable[[Writer, int], Bit | None]
LIST = "stop star"  # forms that do not stand inside a repeat


def _divisors(n: int, smallest: int = 2, largest: int = 12) -> list[int]:
    return [d for d in range(smallest, largest + 1) if n % d == 0]


def over(writer: Writer, body: Bit, n: int, star: bool | None = None) -> Bit:
    """The body over the whole edge, counted or "around"."""
    if n >= 2 and writer.rng.random() < 0.65:
        return repeats.times_over(writer, body, n, star_in_all=star)
    return repeats.all_around(writer, body)


def even(writer: Writer, n: int) -> Bit | None:
    return writer.plain_all(n)


def double(writer: Writer, n: int) -> Bit | None:
    if n > 24:
        return None
    if n <= 12 and writer.rng.random() < 0.5:
        return writer.incs(n)
    return writer.inc_all(n)


def halve(writer: Writer, n: int) -> Bit | None:
    if n % 2 or n < 6:
        return None
    if n <= 24 and writer.rng.random() < 0.6:
        return writer.decs(n // 2)
    return writer.dec_all()


def regular_inc(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in _divisors(n) if n // m >= 2]
    if not fits or n > 72:
        return None
    m = 6 if 6 in fits and writer.rng.random() < 0.6 else writer.rng.choice(fits)
    parts = [writer.plain(n // m - 1, avoid=LIST), writer.inc(avoid=LIST)]
    if writer.rng.random() < 0.3:
        parts.reverse()
    return over(writer, joined(parts), m, star=writer_star(writer))


def regular_dec(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in _divisors(n) if n // m >= 3]
    if not fits or n < 9:
        return None
    m = 6 if 6 in fits and writer.rng.random() < 0.6 else writer.rng.choice(fits)
    parts = [writer.plain(n // m - 2, avoid=LIST), writer.dec(avoid=LIST)]
    if writer.rng.random() < 0.3:
        parts.reverse()
    return over(writer, joined(parts), m, star=writer_star(writer))


def writer_star(writer: Writer) -> bool | None:
    """How this designer counts "rep from * 5 times"; see page.py, which declares it."""
    star = getattr(writer, "star_in_all", None)
    return star if star is None else bool(star)


def staggered_inc(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in _divisors(n, 3) if n // m >= 3]
    if not fits or n > 72:
        return None
    m = writer.rng.choice(fits)
    a = n // m - 1
    h = writer.rng.randint(1, a - 1)
    inner = repeats.times_over(
        writer, joined([writer.plain(a, avoid=LIST), writer.inc(avoid=LIST)]), m - 1, avoid="outer bracket stop"
    )
    return joined([writer.plain(h, avoid=LIST), writer.inc(avoid=LIST), inner, writer.plain(a - h, avoid=LIST)])


def staggered_dec(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in _divisors(n, 3) if n // m >= 4]
    if not fits:
        return None
    m = writer.rng.choice(fits)
    a = n // m - 2
    h = writer.rng.randint(1, a - 1)
    inner = repeats.times_over(
        writer, joined([writer.plain(a, avoid=LIST), writer.dec(avoid=LIST)]), m - 1, avoid="outer bracket stop"
    )
    return joined([writer.plain(h, avoid=LIST), writer.dec(avoid=LIST), inner, writer.plain(a - h, avoid=LIST)])


def repeat_and_tail(writer: Writer, n: int) -> Bit | None:
    """A repeat that leaves some: counted, "to last", or "ending with"."""
    a = writer.rng.randint(1, 4)
    turns = writer.rng.randint(2, 8)
    left = n - turns * (a + 1)
    if left < 1 or left > a + 12:
        return None
    body = joined([writer.plain(a, avoid=LIST), writer.inc(avoid=LIST)])
    way = writer.rng.random()
    if way < 0.5 or left == 0:
        inner = repeats.times_over(writer, body, turns, avoid="stop bracket")
        return joined([inner, writer.plain(left, avoid=LIST)])
    if way < 0.8:
        tail = writer.last(left) if writer.rng.random() < 0.5 else writer.plain(left, avoid=LIST)
        return joined([repeats.to_last(writer, body, left), tail])
    if left == a and turns >= 2:
        tail = writer.rng.choice([writer.last(left), writer.plain(left, avoid=LIST)])
        return repeats.ending(writer, body, tail, a + 1)
    return None


def nested(writer: Writer, n: int) -> Bit | None:
    """A repeat in a repeat: [(sc, inc) x 2, 3 sc] x 3."""
    choices = [
        (a, b, c, d)
        for a in (1, 2, 3)
        for b in (2, 3)
        for c in (1, 2, 3, 4)
        for d in range(2, 9)
        if d * (b * (a + 1) + c) == n
    ]
    if not choices:
        return None
    a, b, c, d = writer.rng.choice(choices)
    inner_body = joined([writer.plain(a, avoid=LIST), writer.inc(avoid=LIST)])
    inner = repeats.times_over(writer, inner_body, b, avoid="outer square bracket stop star")
    body = joined([inner, writer.plain(c, avoid=LIST)])
    return Bit(f"[{body.text}] x {d}", (hands.times(body.steps, d),), (*body.names, "nested"), body.flags)


def prefix_inside(writer: Writer, n: int) -> Bit | None:
    """[2x: inc, 2 sc] x4 means (2 inc, 2 sc) x 4 or (inc, 2 sc) x 2, four times: only where both fit differently."""
    if n % 6:
        return None
    d = n // 6
    if d < 2:
        return None
    steps = [hands.times([hands.into_one(["sc", "sc"]), hands.plain("sc", 2)], 2)]
    return Bit(f"[2x: inc, 2 {writer.word('sc')}] x{d}", (hands.times(steps, d),), ("prefix inside",))


def heights(writer: Writer, n: int) -> Bit | None:
    """Stitches of several heights in one round."""
    if n < 12:
        return None
    parts, left = [], n
    for stitch in ("sc", "hdc", "dc", "hdc"):
        k = writer.rng.randint(1, max(1, left // 5))
        parts.append(writer.plain(k, stitch, avoid=LIST))
        left -= k
    parts.append(writer.plain(left, avoid=LIST))
    return joined(parts)


def oval(writer: Writer, n: int) -> Bit | None:
    """inc, sc a, inc x 3, sc a, inc x 2: the second round of an oval."""
    if n % 2 or n < 10 or n > 60:
        return None
    a = (n - 6) // 2
    return joined(
        [
            writer.inc(avoid=LIST),
            writer.plain(a, avoid=LIST),
            writer.incs(3, avoid=LIST),
            writer.plain(a, avoid=LIST),
            writer.incs(2, avoid=LIST),
        ]
    )


def corners(writer: Writer, n: int) -> Bit | None:
    """So many in one stitch, at each corner."""
    fits = [m for m in (3, 4, 5) if n % m == 0 and n // m >= 2]
    if not fits or n > 60:
        return None
    m = writer.rng.choice(fits)
    body = joined([writer.plain(n // m - 1, avoid=LIST), writer.into_one(3, avoid=LIST)])
    return over(writer, body, m, star=writer_star(writer))


def three_together(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in (2, 3, 4) if n % m == 0 and n // m >= 4]
    if not fits:
        return None
    m = writer.rng.choice(fits)
    return over(writer, joined([writer.plain(n // m - 3, avoid=LIST), writer.together(3, avoid=LIST)]), m)


def both_ways(writer: Writer, n: int) -> Bit | None:
    """Increases and decreases in one round."""
    a = n - 10
    if a < 2:
        return None
    return joined(
        [
            writer.plain(2, avoid=LIST),
            writer.incs(3, avoid=LIST),
            writer.plain(a, avoid=LIST),
            writer.decs(2, avoid=LIST),
            writer.plain(1, avoid=LIST),
        ]
    )


def opening(writer: Writer, n: int) -> Bit | None:
    """Chains over as many skipped stitches."""
    if n < 14:
        return None
    gap = writer.rng.randint(2, 5)
    before = writer.rng.randint(2, n - gap - 2)
    return joined(
        [
            writer.plain(before, avoid=LIST),
            writer.chain(gap),
            writer.skip(gap),
            writer.plain(n - gap - before, avoid=LIST),
        ]
    )


def skip_decrease(writer: Writer, n: int) -> Bit | None:
    """Stitches passed over as a decrease."""
    fits = [m for m in _divisors(n, 3, 8) if n // m >= 3]
    if not fits or n < 12:
        return None
    m = writer.rng.choice(fits)
    return over(writer, joined([writer.plain(n // m - 1, avoid=LIST), writer.skip(1)]), m)


def pair(writer: Writer, n: int) -> Bit | None:
    """One decrease between two plain stretches."""
    if n < 10:
        return None
    before = writer.rng.randint(1, n - 4)
    return joined([writer.plain(before, avoid=LIST), writer.dec(avoid=LIST), writer.plain(n - before - 2, avoid=LIST)])


def to_last_then(writer: Writer, n: int) -> Bit | None:
    """Plain to the last few, and something there."""
    if n < 9:
        return None
    s = writer.word("sc")
    if writer.rng.random() < 0.5:
        return joined(
            [Bit(f"{s} to last 2 sts", (hands.rest("sc", 2),), ("sc to last 2 sts",)), writer.dec(avoid=LIST)]
        )
    return joined([Bit(f"{s} in each st to last st", (hands.rest("sc", 1),), ("to last st",)), writer.inc(avoid=LIST)])


def evenly(writer: Writer, n: int) -> Bit | None:
    """Increases or decreases spread evenly: only the totals are fixed."""
    k = writer.rng.choice([2, 3, 4, 6])
    if n < 4 * k:
        return None
    grow = writer.rng.random() < 0.6 and n < 60
    text = writer.rng.choice(
        [
            "{w} {k} evenly",
            "{w} {k} sts evenly around",
            "{s} around, {v} {k} sts evenly spaced",
        ]
    )
    text = text.format(w="inc" if grow else "dec", v="increasing" if grow else "decreasing", k=k, s=writer.word("sc"))
    return Bit(text, (hands.spread(k if grow else -k),), ("evenly",))


def pieces_of_color(writer: Writer, n: int) -> Bit | None:
    """A colour change in the middle of a round."""
    colors = getattr(writer, "colors", ())
    if len(colors) < 2 or n < 9:
        return None
    first, second = writer.rng.sample(list(colors), 2)
    a = writer.rng.randint(2, n - 6)
    b = writer.rng.randint(2, n - a - 2)
    c = n - a - b
    s = writer.word("sc")
    way = writer.rng.randrange(5)
    if way == 0:
        text = f"({first}) {a} {s}, ({second}) {b} {s}, ({first}) {c} {s}"
    elif way == 1:
        text = f"{a} {s} {first}, {b} {s} {second}, {c} {s} {first}"
    elif way == 2:
        text = (
            f"with {first}, {s} in next {a} sts, change to {second}, {s} in next {b} sts, change to {first}, {s} to end"
        )
    elif way == 3:
        text = f"[{first}] {s} {a}, [{second}] {s} {b}, [{first}] {s} {c}"
    else:
        text = f"{s} {a}, change to color {second}, {s} {b}, switch to color {first}, {s} {c}"
    return Bit(text, (hands.plain("sc", a), hands.plain("sc", b), hands.plain("sc", c)), (f"colors {way}",))


def back_loops(writer: Writer, n: int) -> Bit | None:
    """A loop choice before, in or after the step."""
    s = writer.word("sc")
    text = writer.rng.choice(
        [
            "BLO: {s} around",
            "BLO {s} around",
            "{s} in BLO around",
            "{s} BLO around",
            "In BLO, {s} in each st around",
            "FLO: {s} around",
            "working in back loops only, {s} in each st around",
            "{s} in back loops only around",
            "{s}blo around",
            "{s} in front loops only of each st around",
            "{s} in FLO around",
        ]
    )
    return Bit(text.format(s=s), (hands.rest("sc"),), (text,))


def back_loop_inc(writer: Writer, n: int) -> Bit | None:
    inner = regular_inc(writer, n)
    if inner is None or "outer" in inner.flags:
        return None
    start = writer.rng.choice(["In BLO, ", "BLO: ", "in back loops only, ", "In FLO: "])
    return Bit(start + inner.text, inner.steps, (*inner.names, "loop prefix"), inner.flags)


def slip_at_end(writer: Writer, n: int) -> Bit | None:
    """A slip stitch closes the round and counts for nothing."""
    inner = regular_inc(writer, n) if n <= 60 else even(writer, n)
    if inner is None or inner.flags & {"outer", "stop", "unmarked"}:
        return None
    join = writer.rng.choice([writer.word("sl st"), "join", "sl st to join", "sl st in first st", "join with sl st"])
    return Bit(f"{inner.text}, {join}", inner.steps, (*inner.names, "slip at end"), inner.flags - {"bracket"})


def last_partial(writer: Writer, n: int) -> Bit | None:
    """Whole repeats but for the last, which ends early."""
    choices = [(a, b, m) for a in (1, 2, 3) for b in (1, 2, 3, 4) for m in range(2, 9) if m * (a + 1 + b) - b == n]
    if not choices:
        return None
    a, b, m = writer.rng.choice(choices)
    first = joined([writer.plain(a, avoid=LIST), writer.inc(avoid=LIST)])
    return repeats.last_at_double_star(writer, first, writer.plain(b, avoid=LIST), m)


def offset(writer: Writer, n: int) -> Bit | None:
    """A few stitches more, into the next round: the start moves, the count stays."""
    s, k = writer.word("sc"), writer.rng.randint(2, 3)
    text = writer.rng.choice(
        [f"{s} around, {s} {k} more", f"{s} in each st around, then {s} {k} more to reach the side"]
    )
    return Bit(text, (hands.rest("sc"),), ("offset",))


KINDS: dict[str, tuple[Kind, int]] = {
    "even": (even, 6),
    "double": (double, 2),
    "halve": (halve, 2),
    "regular": (regular_inc, 9),
    "regular dec": (regular_dec, 8),
    "staggered": (staggered_inc, 4),
    "staggered dec": (staggered_dec, 4),
    "tail": (repeat_and_tail, 5),
    "nested": (nested, 3),
    "prefix inside": (prefix_inside, 1),
    "heights": (heights, 2),
    "oval": (oval, 2),
    "corners": (corners, 2),
    "three together": (three_together, 2),
    "both ways": (both_ways, 2),
    "opening": (opening, 2),
    "skip decrease": (skip_decrease, 1),
    "pair": (pair, 2),
    "to last": (to_last_then, 3),
    "evenly": (evenly, 1),
    "color": (pieces_of_color, 3),
    "loops": (back_loops, 2),
    "loops inc": (back_loop_inc, 1),
    "last partial": (last_partial, 2),
    "offset": (offset, 1),
    "slip": (slip_at_end, 2),
}


def some_round(writer: Writer, n: int) -> tuple[str, Bit]:
    """A kind of round that suits *n* stitches, with its instruction."""
    names = list(KINDS)
    weights = [KINDS[name][1] for name in names]
    for _ in range(40):
        name = writer.rng.choices(names, weights)[0]
        if n > 60 and name in ("regular", "double", "staggered", "corners"):
            continue
        bit = KINDS[name][0](writer, n)
        if bit is not None:
            return name, bit
    return "even", writer.plain_all(n)

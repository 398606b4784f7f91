"""Rounds that grow or shrink by a repeat, and what they share."""

from __future__ import annotations

from collections.abc import Callable

from . import hands, repeats
from .forms import Bit, Writer, joined

Kind = Callable[[Writer, int], Bit | None]


LIST = "stop star"  # forms that do not stand inside a repeat


def divisors(n: int, smallest: int = 2, largest: int = 12) -> list[int]:
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
    fits = [m for m in divisors(n) if n // m >= 2]
    if not fits or n > 72:
        return None
    m = 6 if 6 in fits and writer.rng.random() < 0.6 else writer.rng.choice(fits)
    parts = [writer.plain(n // m - 1, avoid=LIST), writer.inc(avoid=LIST)]
    if writer.rng.random() < 0.3:
        parts.reverse()
    return over(writer, joined(parts), m, star=writer.star_in_all)


def regular_dec(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in divisors(n) if n // m >= 3]
    if not fits or n < 9:
        return None
    m = 6 if 6 in fits and writer.rng.random() < 0.6 else writer.rng.choice(fits)
    parts = [writer.plain(n // m - 2, avoid=LIST), writer.dec(avoid=LIST)]
    if writer.rng.random() < 0.3:
        parts.reverse()
    return over(writer, joined(parts), m, star=writer.star_in_all)


def staggered_inc(writer: Writer, n: int) -> Bit | None:
    fits = [m for m in divisors(n, 3) if n // m >= 3]
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
    fits = [m for m in divisors(n, 3) if n // m >= 4]
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

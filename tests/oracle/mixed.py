"""Rounds that are no plain repeat of one increase or decrease: corners, ovals, openings, colours, loops."""

from __future__ import annotations

from . import hands
from .forms import Bit, Writer, joined
from .shaping import LIST, divisors, over


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
    return over(writer, body, m, star=writer.star_in_all)


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
    fits = [m for m in divisors(n, 3, 8) if n // m >= 3]
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
    if len(writer.colors) < 2 or n < 9:
        return None
    first, second = writer.rng.sample(writer.colors, 2)
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


def offset(writer: Writer, n: int) -> Bit | None:
    """A few stitches more, into the next round: the start moves, the count stays."""
    s, k = writer.word("sc"), writer.rng.randint(2, 3)
    text = writer.rng.choice(
        [f"{s} around, {s} {k} more", f"{s} in each st around, then {s} {k} more to reach the side"]
    )
    return Bit(text, (hands.rest("sc"),), ("offset",))

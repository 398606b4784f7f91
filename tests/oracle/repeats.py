"""Every style of repeat: ``{b}`` is what is repeated, ``{n}`` how often, ``{more}`` one less, ``{left}`` what stays."""

from __future__ import annotations

from . import hands
from .forms import TIMES, Bit, Form, Writer, form, many


def _worded(n: int) -> bool:
    return 2 <= n <= 6


TIMES_OVER = [
    form("({b}) x {n}"),
    form("({b}) x{n}"),
    form("({b})x{n}"),
    form("({b}) \u00d7 {n}"),
    form("({b}) * {n}", flags="star"),
    form("({b})*{n}", flags="star"),
    form("({b}) {n}x"),
    form("({b}) {n}X"),
    form("({b}) ({n}X)", flags="bracket"),
    form("[{b}] x {n}", flags="square"),
    form("[{b}] {n} times", flags="square"),
    form("[{b}] {times}", _worded, "square"),
    form("({b}) {n} times"),
    form("({b}) {times}", _worded),
    form("({b}) x {n} times"),
    form("({b}) repeat {n} times"),
    form("({b}) rep {n} times"),
    form("{{{b}}} x{n}"),
    form("<{b}> x{n}"),
    form("{n} x ({b})", flags="bracket"),
    form("{n}({b})", flags="bracket"),
    form("{n}x [{b}]", flags="square bracket"),
    form("({b}){n}"),
    form("({b}). X{n}", flags="stop"),
    form("*{b}* x {n}", flags="star outer"),
    form("*{b}* {n} times", flags="star outer"),
    form("*{b}* repeat {n} times", flags="star outer"),
    form("*{b}* rep from * to * a total of {n} times", many, "star outer"),
    form("*{b}; rep from * {more} more times", many, "star outer semi"),
    form("*{b}; rep from * {more} times more", many, "star outer semi"),
    form("*{b}, rep from * {more} more times", many, "star outer semi"),
    form("*{b}; repeat from * {more_times} more", lambda n: 2 <= n <= 3, "star outer semi"),
    form("*{b}; rep from * {star} times", lambda n: n > 2, "star outer semi starred"),
    form("*{b}; repeat between *'s {more_times} more", lambda n: 2 <= n <= 3, "star outer semi"),
    form("**{b}** x {n}", flags="star outer"),
    form("\u2020{b}; rep from \u2020 {more} more times", many, "outer semi"),
]
ALL_AROUND = [
    form("({b}) around", flags="round"),
    form("[{b}] around", flags="square round"),
    form("({b}) rep"),
    form("({b}), repeat"),
    form("({b}) repeat to end"),
    form("({b}) rep to end"),
    form("({b}) to end"),
    form("({b}) to eor", flags="round"),
    form("({b}) until end of rnd", flags="round"),
    form("({b}) across", flags="row"),
    form("*{b}* around", flags="star outer round"),
    form("*{b}* repeat around", flags="star outer round"),
    form("*{b}* to eor", flags="star outer round"),
    form("*{b}; rep from * around", flags="star outer semi round"),
    form("*{b}*", flags="star outer bracket"),
    form("*{b}* rep bet **", flags="star outer"),
    form("**{b}** rep", flags="star outer"),
    form("*{b}; rep from *-* the entire round", flags="star outer semi round"),
    form("*{b}, rep from * around", flags="star outer semi round"),
    form("*{b}. Rep from * around", flags="star outer semi stop round"),
    form("*{b}; rep from * to end", flags="star outer semi"),
    form("*{b}; rep from * across", flags="star outer semi row"),
    form("*{b}; repeat *-*", flags="star outer semi"),
    form("{b}, rep to end", flags="outer semi unmarked"),
    form("{b}, repeat", flags="outer semi unmarked"),
]
TO_LAST = [
    form("({b}) to last {left} sts"),
    form("({b}) to last {left}", many),
    form("[{b}] to last {left} sts", flags="square"),
    form("*{b}* to last {left} sts", flags="star outer"),
    form("*{b}; rep from * to last {left} sts", flags="star outer semi"),
    form("({b}) rep until {left} sts remain", many),
]
ENDING = [
    form("*{b}; rep from * around, ending with {end}", flags="star outer semi round"),
    form("*{b}; rep from * across, ending with {end}", flags="star outer semi row"),
    form("*{b}; rep from * to end, ending with {end}", flags="star outer semi"),
]


def _clashes(body: Bit) -> str:
    """Flags that a repeat around this body must not have: no star within stars, no square brackets within square."""
    avoid = " ".join(flag for flag in ("star", "square") if flag in body.flags)
    if "outer" in body.flags:
        avoid += " outer"
    return avoid


def _filled(writer: Writer, chosen: Form, body: Bit, **more: object) -> str:
    writer.used[chosen.name] += 1
    return chosen.text.format(b=body.text, **more)


def times_over(writer: Writer, body: Bit, n: int, avoid: str = "", star_in_all: bool | None = None) -> Bit:
    """The body *n* times in all. ``star_in_all`` is how this designer counts "rep from * 5 times" (None: not used)."""
    if star_in_all is None:
        avoid += " starred"
    chosen = writer.pick(TIMES_OVER, n, f"{avoid} {_clashes(body)}")
    more = "once" if n == 2 else TIMES.get(n - 1, "")
    text = _filled(
        writer, chosen, body, n=n, more=n - 1, times=TIMES.get(n, ""), more_times=more, star=n if star_in_all else n - 1
    ).replace("rep from * 1 more times", "rep from * 1 more time")
    return Bit(text, (hands.times(body.steps, n),), (*body.names, chosen.name), body.flags - {"bracket"} | chosen.flags)


def all_around(writer: Writer, body: Bit, avoid: str = "row") -> Bit:
    """The body to the end of the round."""
    chosen = writer.pick(ALL_AROUND, 1, f"{avoid} {_clashes(body)}")
    text = _filled(writer, chosen, body)
    return Bit(text, (hands.until(body.steps),), (*body.names, chosen.name), body.flags - {"bracket"} | chosen.flags)


def to_last(writer: Writer, body: Bit, left: int) -> Bit:
    """The body until *left* stitches are left."""
    chosen = writer.pick(TO_LAST, left, _clashes(body))
    text = _filled(writer, chosen, body, left=left).replace("last 1 sts", "last st")
    return Bit(
        text, (hands.until(body.steps, left),), (*body.names, chosen.name), body.flags - {"bracket"} | chosen.flags
    )


def ending(writer: Writer, body: Bit, end: Bit, size: int, avoid: str = "row") -> Bit:
    """Whole repeats of *size* places, then what ends it."""
    chosen = writer.pick(ENDING, 1, f"{avoid} {_clashes(body)}")
    text = _filled(writer, chosen, body, end=end.text)

    def work(maker: hands.Hands) -> None:
        while len(maker.waiting) >= size:
            hands.run(body.steps, maker)
        hands.run(end.steps, maker)

    return Bit(text, (work,), (*body.names, chosen.name), body.flags - {"bracket"} | chosen.flags)


def last_at_double_star(writer: Writer, first: Bit, second: Bit, turns: int) -> Bit:
    """*first, ** second; rep from * around, ending last rep at **."""
    name = "ending last rep at **"
    end = writer.rng.choice(["ending last rep at **", "end last rep at **", "ending last repeat at **"])
    text = f"*{first.text}, ** {second.text}; rep from * around, {end}"
    writer.used[name] += 1
    steps = (hands.times([*first.steps, *second.steps], turns - 1), *first.steps)
    return Bit(text, steps, (*first.names, *second.names, name), frozenset({"star", "outer"}))


__all__ = ["all_around", "ending", "last_at_double_star", "times_over", "to_last"]

"""How a count is stated: ``{n}`` the count, ``{d}`` the change, ``{s}`` the stitch; and where it stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from .forms import Form, Writer, always, form
from .hands import Loop

TOTAL = [
    form(" ({n})"),
    form(" ({n})", always, "again"),
    form(" [{n}]"),
    form(" {{{n}}}", flags="rare"),
    form(" <{n}>", flags="rare"),
    form(" /{n}/", flags="rare"),
    form(" |{n}|", flags="rare"),
    form(" ({n} sts)"),
    form(" [{n} sts]"),
    form(" ({n} st)"),
    form(" ({n} stitches)"),
    form(" ({n} {s})", flags="one"),
    form(" [{n}{s}]", flags="one"),
    form(" = {n}"),
    form(" ={n}"),
    form(" = {n} sts"),
    form(" = ({n})"),
    form(" (={n})"),
    form(" - {n} {s}", flags="one"),
    form(" \u2013 {n} sts"),
    form(" \u2014 {n} sts"),
    form(" -- {n}"),
    form(". {n} {s}.", flags="one"),
    form(". {n} sts"),
    form(". {n} {s} made", flags="one"),
    form(". You now have {n} sts"),
    form(". {n} sts total"),
    form(". Total: {n} {s}", flags="one"),
    form(". St count: {n}"),
    form(" *{n} sts*", flags="star"),
    form(" **({n})**"),
    form(" **{n} sts**"),
    form(" ({n}) sts"),
    form(" ( {n} )"),
    form(" ({n} )."),
    form(" ({n})."),
    form(" [{n}]."),
    form(" ({n} sts total)"),
]
CHANGED = [
    form(" ({n} sts, {d} inc'd)", lambda d: d > 0),
    form(" (+{d})", lambda d: d > 0, "bare"),
    form(" ({d} sts increased)", lambda d: d > 0, "bare"),
    form(". {n} rem", lambda d: d < 0),
    form(". {e} sts dec - {n} sts", lambda d: d < 0),
    form(" ({n} sts, {e} dec'd)", lambda d: d < 0),
]


@dataclass(frozen=True)
class Count:
    """A stated count as written, and its number (None where only a change is stated or nothing)."""

    text: str
    number: int | None
    name: str


NONE = Count("", None, "no count")


def one_kind(made: Sequence[Loop]) -> str | None:
    """The stitch that all of them are, if they are all of one kind."""
    kinds = {loop.kind for loop in made}
    return kinds.pop() if len(kinds) == 1 else None


def count(writer: Writer, made: Sequence[Loop], before: int, avoid: str = "") -> Count:
    """A stated count for a round that made *made* from *before* stitches."""
    kind, n = one_kind(made), len(made)
    if kind is None or kind == "ch":
        avoid += " one"
    if kind is None and writer.rng.random() < 0.4:
        kinds = Counter(loop.kind for loop in made)
        text = ", ".join(f"{number} {writer.word(one)}" for one, number in kinds.items())
        return Count(f" ({text})", None, "kinds")
    change = n - before
    if change and before and writer.rng.random() < 0.06:
        chosen: Form = writer.pick(CHANGED, change, avoid)
        text = chosen.text.format(n=n, d=change, e=-change)
        writer.used[chosen.name] += 1
        return Count(text, None if "bare" in chosen.flags else n, chosen.name)
    if writer.rng.random() < 0.75:
        avoid += " rare"
    chosen = writer.pick(TOTAL, 1, avoid)
    writer.used[chosen.name] += 1
    return Count(chosen.text.format(n=n, s=writer.word(kind or "")), n, chosen.name)

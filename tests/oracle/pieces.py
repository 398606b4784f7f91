"""Kinds of piece: how each begins, goes on and ends. ``KINDS`` is the table; a new kind is a function and its entry."""

from __future__ import annotations

from collections.abc import Callable

from . import hands, rows
from .forms import Bit, Writer, joined
from .joined import joined_rounds
from .labels import ROUNDS, ROWS
from .lines import ANY, Expected, Line, Work
from .rounds import some_round
from .shaping import LIST, even

ASIDES = (
    "Stuff firmly.",
    "Place marker.",
    "Do not stuff.",
    "> It should look like a small cap now.",
    ">> Photograph here.",
    "Insert safety eyes between Rnds {a} and {b}.",
    "Start stuffing.",
    "Continue stuffing as you go.",
    "",
)


ENDS = (
    "Fasten off.",
    "Fasten off, leaving a 20 cm tail for sewing.",
    "FO",
    "Finish off and weave in ends.",
    "Cut yarn.",
)


RING_CHAIN = (
    "Ch 4, sl st in first ch to form a ring.",
    "Ch 4, join to form a ring.",
    "Ch 5. Join with sl st to first ch to form a ring.",
)


TUBE = ("Ch {n}, join being careful not to twist.", "Ch {n}, sl st in first ch to form a ring.")


def start(writer: Writer, name: str, kind: str, make: int = 1) -> Work:
    """A piece with a house style of labels."""
    return Work(writer, name, writer.rng.choice(ROUNDS if kind == "round" else ROWS), kind, make)


def rounds_on(work: Work, number: int) -> None:
    """*number* more written lines in a spiral."""
    writer, rng = work.writer, work.writer.rng
    for _ in range(number):
        if rng.random() < 0.12 and work.number > 2:
            work.say(rng.choice(ASIDES[:5] if work.number < 4 else ASIDES).format(a=work.number - 1, b=work.number))
        way = rng.random()
        if way < 0.1 and work.number > 2 and work.again():
            continue
        if way < 0.13 and work.number > 4 and work.block_again():
            continue
        if way < 0.24:
            bit = even(writer, work.n)
            assert bit is not None
            work.stretch(bit, rng.randint(2, 6))
            continue
        if way < 0.27 and 6 <= work.n <= 12:
            bit = writer.inc_all(work.n) if rng.random() < 0.5 else None
            if bit is not None and "{n}" not in bit.names[0]:
                work.stretch(bit, 2, "range growing")
                continue
        of, bit = some_round(writer, work.n)
        if work.n > 90 and of not in ("even", "halve", "regular dec"):
            bit = even(writer, work.n)
            of = "even"
            assert bit is not None
        work.round(bit, of)


def ball(work: Work, size: int) -> None:
    """A magic ring and rounds in a spiral."""
    n = work.writer.rng.choice([4, 5, 6, 6, 6, 6, 7, 8])
    work.round(work.writer.ring(n), "ring")
    rounds_on(work, size)


def unnumbered_start(work: Work, size: int) -> None:
    """The ring on a line without a number; Round 1 is the second worked."""
    form = work.writer.rng.choice(["Make a magic ring with {n} {s}.", "Start with {n} {s} in a magic ring."])
    work.foundation(form.format(n=6, s=work.writer.word("sc")), 6, ANY, uses=ANY)
    work.edge = [hands.Loop("sc")] * 6
    rounds_on(work, size)


def ring_of_chains(work: Work, size: int) -> None:
    """Chains closed to a ring, worked into."""
    writer = work.writer
    work.say(writer.rng.choice(RING_CHAIN))
    work.lines[-1].expected = Expected(work.lines[-1].text, ANY, None, None, ANY, ANY, ANY, ANY, of="foundation")
    n = writer.rng.choice([6, 8, 10])
    s = writer.word("sc")
    form = writer.rng.choice(["{n} {s} in ring", "ch 1, {n} {s} in ring", "ch 1, {n} {s} into ring"])
    work.round(Bit(form.format(n=n, s=s), (hands.ring("sc", n),), (form,)), "ring")
    rounds_on(work, size)


def tube(work: Work, size: int) -> None:
    """A long chain closed to a tube, each chain worked."""
    writer = work.writer
    n = writer.rng.randint(5, 9) * 4
    form = writer.rng.choice(TUBE)
    work.foundation(form.format(n=n), n)
    s = writer.word("sc")
    bit = writer.rng.choice(
        [f"{s} in each ch around", f"ch 1, {s} in each ch around", f"1 {s} in each ch", f"{s} around"]
    )
    work.round(Bit(bit, (hands.plain("sc", n),), (form, bit)), "tube", edge=[hands.Loop("ch")] * n)
    rounds_on(work, size)


def foundation_stitches(work: Work, size: int) -> None:
    """Foundation stitches, joined."""
    n = work.writer.rng.randint(5, 9) * 4
    text = work.writer.rng.choice(["fsc {n}, join", "{n} fsc, join"])
    if work.writer.terms == "UK":
        return ball(work, size)
    work.round(Bit(text.format(n=n), (hands.ring("sc", n),), (text,)), "foundation stitches")
    return rounds_on(work, size)


def oval(work: Work, size: int) -> None:
    """Both sides of a chain, in the families of the trade's tables: 2(n - 1), 2n, 2n + 2 and three in each end."""
    writer, rng = work.writer, work.writer.rng
    n = rng.randint(5, 14)
    s = writer.word("sc")
    side = rng.choice(
        [
            "on other side of ch: ",
            "working on the other side of the chain, ",
            "continue on the opposite side of foundation ch, ",
            "rotate to work along opposite side, ",
            "working in free loops of ch, ",
        ]
    )
    work.foundation(rng.choice([f"Ch {n}.", f"ch {n}", f"Chain {n}."]), n)
    along, back = hands.plain("sc", n - 3), hands.plain("sc", n - 3)
    families: dict[str, tuple[str, list[hands.Step], int]] = {
        # sc in 2nd, n - 3 more, 3 in the last, back n - 3, 2 in the first: 2n
        "2n": (
            f"{s} in 2nd ch from hook, {s} {n - 3}, 3 {s} in last ch; {side}{s} {n - 3}, inc in last",
            [hands.plain("sc"), along, hands.into_one(["sc"] * 3), back, hands.into_one(["sc", "sc"])],
            2 * n - 3,
        ),
        "2n plain words": (
            f"{s} in 2nd ch, {s} in next {n - 3} ch, 3 {s} in last ch; {side}{s} in next {n - 3} ch, inc",
            [hands.plain("sc"), along, hands.into_one(["sc"] * 3), back, hands.into_one(["sc", "sc"])],
            2 * n - 3,
        ),
        # inc in 2nd, n - 3 more, 4 in the last, back n - 3, inc: 2n + 2
        "2n + 2": (
            f"inc in 2nd ch from hook, {s} {n - 3}, 4 {s} in last ch, {side}{s} {n - 3}, inc in last ch",
            [hands.into_one(["sc", "sc"]), along, hands.into_one(["sc"] * 4), back, hands.into_one(["sc", "sc"])],
            2 * n - 3,
        ),
        # 3 in each end chain: 2n
        "3 and 3": (
            f"3 {s} in 2nd ch from hook, {s} in next {n - 3} ch, 3 {s} in last ch, {side}{s} {n - 3}",
            [hands.into_one(["sc"] * 3), along, hands.into_one(["sc"] * 3), back],
            2 * n - 4,
        ),
        # one in each chain down both sides: 2(n - 1)
        "2(n - 1)": (
            f"{s} in 2nd ch from hook, {s} {n - 2}; {side}{s} {n - 1}",
            [hands.plain("sc", n - 1), hands.plain("sc", n - 1)],
            2 * n - 2,
        ),
    }
    name = rng.choice(list(families))
    text, steps, places = families[name]
    work.round(Bit(text, tuple(steps), (f"oval {name}",)), "oval start", uses=places, edge=[hands.Loop("ch")] * places)
    rounds_on(work, size)


def panel(work: Work, size: int) -> None:
    """Rows on a foundation chain."""
    stitch = work.writer.rng.choice(["sc", "sc", "sc", "hdc", "dc"])
    rows.panel(work, stitch, stitch == "hdc", size + 2)


def _flatten(work: Work) -> None:
    """An even opening worked shut through both layers."""
    writer = work.writer
    if work.n % 2:
        work.round(joined([writer.plain(work.n - 2, avoid=LIST), writer.dec(avoid=LIST)]), "pair")
    k = work.n // 2
    s = writer.word("sc")
    form = writer.rng.choice(
        [
            "Flatten and {s} across through both layers ({k})",
            "Flatten and {s} {k} through both layers ({k})",
            "Fold flat and {s} across through both layers ({k})",
        ]
    )
    text = form.format(s=s, k=k)
    work.lines.append(Line(text, Expected(text, "step", None, None, ANY, ANY, k, k, (form,), "layers")))


def ear(work: Work, size: int) -> None:
    """A small flattened piece."""
    ball(work, min(size, 4))
    _flatten(work)


KINDS: dict[str, tuple[Callable[[Work, int], None], str, int]] = {
    "ball": (ball, "round", 10),
    "unnumbered start": (unnumbered_start, "round", 1),
    "ring of chains": (ring_of_chains, "round", 1),
    "tube": (tube, "round", 1),
    "foundation stitches": (foundation_stitches, "round", 1),
    "oval": (oval, "round", 3),
    "joined": (joined_rounds, "round", 3),
    "panel": (panel, "row", 5),
    "ear": (ear, "round", 2),
}


def finish(work: Work) -> Work:
    """Fasten off."""
    work.say(work.writer.rng.choice(ENDS))
    return work


def some_piece(writer: Writer, name: str, size: int) -> Work:
    """A piece of some kind."""
    names = list(KINDS)
    kind = writer.rng.choices(names, [KINDS[k][2] for k in names])[0]
    build, form, _ = KINDS[kind]
    work = start(writer, name, form, writer.rng.choice([1, 1, 1, 2, 2, 4]))
    work.counted = writer.rng.random() > 0.06
    writer.banned = set() if work.counted else {"bracket"}  # without counts a bracket at the end would be taken for one
    build(work, size)
    writer.banned = set()
    return finish(work)

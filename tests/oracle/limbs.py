"""Pieces that belong together: legs into a body, arms into a body, a brim in loops left free. ``SETS`` is the table."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from . import hands
from .forms import Bit, Writer, joined
from .labels import ROUNDS
from .lines import ANY, Work
from .pieces import ball, finish, rounds_on, start
from .shaping import LIST


def legs_and_body(writer: Writer) -> list[Work]:
    """Two legs, then a body around both, with a bridge of chains or without."""
    rng, s = writer.rng, writer.word("sc")
    leg = start(writer, "Leg", "round", 2)
    leg.family = ROUNDS[0]
    ball(leg, 1)
    while leg.n > 24:
        leg.round(
            writer.dec_all()
            if leg.n % 2 == 0
            else joined([writer.plain(leg.n - 2, avoid=LIST), writer.dec(avoid=LIST)]),
            "halve",
        )
    a = leg.n
    leg.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    leg.say("Fasten off the first leg. Do not fasten off the second leg.")
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    c = rng.randint(2, 5)
    whole = [hands.plain("sc", 2 * a + 2 * c)]
    if rng.random() < 0.65:
        text = (
            f"ch {c}, join to first leg with {s}, {s} {a - 1} around leg, {s} in {c} ch, {s} {a} around second leg, "
            f"{s} in other side of {c} ch"
        )
    else:
        c = 0
        whole = [hands.plain("sc", 2 * a)]
        text = f"{s} in next st of Leg 1, {s} {a - 1}, {s} {a} around Leg 2"
    # Both legs and both sides of the bridge: a + b + 2c places (trade tables, joining two legs).
    body.round(Bit(text, tuple(whole), ("legs joined",)), "legs", edge=[hands.Loop("sc")] * (2 * a + 2 * c))
    rounds_on(body, 3)
    return [leg, finish(body)]


def arms_and_body(writer: Writer) -> list[Work]:
    """Flattened arms worked into the body: four stitches of the arm and four of the body together."""
    s, rng = writer.word("sc"), writer.rng
    k = rng.choice([3, 4])
    arm = start(writer, "Arm", "round", 2)
    arm.round(writer.ring(6), "ring")
    arm.round(
        Bit(
            f"({s} 2, inc) x 2" if k == 4 else f"{s} around",
            (
                (hands.times([hands.plain("sc", 2), hands.into_one(["sc", "sc"])], 2),)
                if k == 4
                else (hands.rest("sc"),)
            ),
        ),
        "regular",
    )
    finish(arm)
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    body.round(writer.ring(6), "ring")
    body.round(Bit(f"2 {s} in each st around", (hands.until([hands.into_one(["sc", "sc"])]),)), "double")
    body.round(Bit(f"({s}, inc) x 6", (hands.times([hands.plain("sc"), hands.into_one(["sc", "sc"])], 6),)), "regular")
    body.round(
        Bit(f"({s} 2, inc) x 6", (hands.times([hands.plain("sc", 2), hands.into_one(["sc", "sc"])], 6),)), "regular"
    )
    x = rng.randint(2, 4)
    y = 24 - 2 * k - 2 * x
    body.round(
        Bit(
            f"{s} {x}, {s} through arm and body {k}, {s} {y}, {s} through arm and body {k}, {s} {x}",
            (hands.plain("sc", 24),),
            ("through arm and body",),
        ),
        "arms",
        uses=ANY,
    )
    rounds_on(body, 2)
    return [arm, finish(body)]


def cap_and_brim(writer: Writer) -> list[Work]:
    """A round in the back loops, and a brim in the front loops it left free."""
    s, rng = writer.word("sc"), writer.rng
    cap = start(writer, "Cap", "round")
    cap.family = ROUNDS[0]
    ball(cap, 2)
    while cap.n > 48:
        cap.round(
            writer.dec_all()
            if cap.n % 2 == 0
            else joined([writer.plain(cap.n - 2, avoid=LIST), writer.dec(avoid=LIST)]),
            "halve",
        )
    if cap.number not in cap.done:  # an unnumbered round can't be named
        cap.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    n, r = cap.n, cap.number
    cap.round(Bit(f"BLO {s} around", (hands.rest("sc"),), ("BLO",)), "loops")
    cap.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    finish(cap)
    brim = start(writer, "Brim", "round")
    brim.family = ROUNDS[0]
    brim.edge = [hands.Loop("sc")] * n
    text = rng.choice(
        ["{s} in the free front loops of Rnd {r} of Cap", "{s} in each free front loop of Rnd {r} of the Cap"]
    )
    brim.round(Bit(text.format(s=s, r=r), (hands.rest("sc"),), ("free loops",)), "free loops")
    rounds_on(brim, 1)
    return [cap, finish(brim)]


SETS: Sequence[Callable[[Writer], list[Work]]] = (legs_and_body, arms_and_body, cap_and_brim)

"""Rounds closed by a slip stitch, with a chain at the start that counts or does not."""

from __future__ import annotations

from . import hands
from .forms import JOIN, Bit
from .lines import Work


def joined_rounds(work: Work, size: int) -> None:
    """Rounds closed by a slip stitch, with a chain at the start that counts (dc) or does not (sc, hdc)."""
    writer, rng = work.writer, work.writer.rng
    stitch = rng.choice(["sc", "hdc", "dc", "dc"])
    s, base = writer.word(stitch), {"sc": 6, "hdc": 8, "dc": 12}[stitch]
    lead = {"sc": "ch 1", "hdc": "ch 2 (does not count as a st)", "dc": f"ch 3 (counts as {s})"}[stitch]
    counts = stitch == "dc"

    def close() -> str:
        return writer.text(writer.pick(JOIN).text, stitch)

    ring = writer.rng.choice(["magic ring", "MR"])
    work.round(
        Bit(f"{lead}, {base - counts} {s} in {ring}, {close()}", (hands.ring(stitch, base),), ("joined ring",)), "ring"
    )
    steps: tuple[hands.Step, ...]
    if counts:
        steps = (hands.turning(stitch), hands.ring(stitch, 1), hands.until([hands.into_one([stitch, stitch])]))
        text = f"{lead}, {s} in same st, 2 {s} in each st around, {close()}"
    else:
        steps = (hands.until([hands.into_one([stitch, stitch])]),)
        text = f"{lead}, 2 {s} in each st around, {close()}"
    work.round(Bit(text, steps, ("joined double",)), "joined")
    for a in range(1, rng.randint(2, max(2, min(size, 5)))):
        m = work.n // (a + 1)
        group = [hands.plain(stitch, a), hands.into_one([stitch, stitch])]
        first = f"{s} in next {a} sts" if a > 1 else f"{s} in next st"
        body = f"{first}, 2 {s} in next st"
        if counts:
            rest = f"{s} in next {a - 1} sts, " if a > 2 else f"{s} in next st, " if a == 2 else ""
            text = f"{lead}, {rest}2 {s} in next st, ({body}) x {m - 1}, {close()}"
            steps = (
                hands.turning(stitch),
                hands.plain(stitch, a - 1),
                hands.into_one([stitch, stitch]),
                hands.times(group, m - 1),
            )
        else:
            text = f"{lead}, ({body}) x {m}, {close()}" if rng.random() < 0.5 else f"{lead}, ({body}) around, {close()}"
            steps = (hands.times(group, m),)
        work.round(Bit(text, steps, ("joined inc",)), "joined")
    if rng.random() < 0.6:
        steps = ((hands.turning(stitch),) if counts else ()) + (hands.rest(stitch),)
        bit = Bit(f"{lead}, {s} in each st around, {close()}", steps, ("joined even",))
        if rng.random() < 0.5:
            work.round(bit, "joined")
        else:
            work.stretch(bit, rng.randint(2, 4), "range joined")

"""Rows, back and forth: foundation chains, turning chains that count or do not, shaping at the ends, short rows."""

from __future__ import annotations

from collections.abc import Callable

from . import hands, repeats
from .forms import Bit, Writer, joined
from .lines import Work
from .shaping import LIST

HEIGHT = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
ORDINAL = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th"}

FIRST = (
    "{s} in {k} ch from hook and in each ch across",
    "{s} in {k} ch from hook, {s} in each ch across",
    "{s} in {k} ch from hook and in each ch to end",
    "1 {s} in {k} ch from hook, 1 {s} in each ch across",
    "{s} in {k} ch from hook, {s} in next {m} ch",
    "{s} in {k} ch from hook, {s} {m}",
    "{s} in {k} ch from hook and in each remaining ch",
)
FIRST_SC = ("from the 2nd ch from hook: {all} {s}",)
COUNTED = (
    "{s} in {k} ch from hook ({skipped} skipped ch count as {s}) and in each ch across",
    "{s} in {k} ch from hook (counts as 2 {s}), {s} in each ch across",
    "skip {skipped} ch (count as 1 {s}), 1 {s} in each ch across",
)
CHAINS = ("Ch {n}.", "Ch {n}", "Chain {n}.", "{n} ch.", "ch {n}", "Make {n} ch.", "With color A, ch {n}.")


def first_row(work: Work, stitch: str, width: int, counts: bool) -> None:
    """The foundation chain for *width* stitches and the row into it."""
    writer, rng = work.writer, work.writer.rng
    skipped = HEIGHT[stitch]
    chains = width + skipped - (1 if counts else 0)
    template = rng.choice(CHAINS)
    writer.used[template] += 1
    work.foundation(template.format(n=chains), chains)
    places = chains - skipped
    if counts:
        form = rng.choice(COUNTED)
        steps: tuple[hands.Step, ...] = (hands.ring(stitch, 1), hands.plain(stitch, places))
    else:
        form = rng.choice(FIRST + (FIRST_SC if stitch == "sc" else ()))
        steps = (hands.plain(stitch, places),)
    writer.used[form] += 1
    text = form.format(s=writer.word(stitch), k=ORDINAL[skipped + 1], m=places - 1, all=places, skipped=skipped)
    work.round(Bit(text, steps, (form,)), "foundation row", edge=[hands.Loop("ch")] * places)


def _even(writer: Writer, n: int, s: str) -> Bit:
    return writer.plain_all(n, s, avoid="round lone")


def _both_inc(writer: Writer, n: int, s: str) -> Bit | None:
    middle = Bit(f"{writer.word(s)} to last st", (hands.rest(s, 1),), ("to last st",))
    if writer.rng.random() < 0.5:
        middle = writer.plain(n - 2, s, avoid=LIST)
    return joined([writer.inc(s, avoid=LIST), middle, writer.inc(s, avoid=LIST)])


def _both_dec(writer: Writer, n: int, s: str) -> Bit | None:
    if n < 6:
        return None
    middle = Bit(f"{writer.word(s)} to last 2 sts", (hands.rest(s, 2),), ("to last 2 sts",))
    if writer.rng.random() < 0.5:
        middle = writer.plain(n - 4, s, avoid=LIST)
    return joined([writer.dec(s, avoid=LIST), middle, writer.dec(s, avoid=LIST)])


def _start_dec(writer: Writer, n: int, s: str) -> Bit | None:
    if n < 5:
        return None
    end = writer.rng.choice(
        ["{s} to end", "{s} in next {n} sts", "{s} across", "{s} in each st across", "{s} in rem sts"]
    )
    return joined(
        [writer.dec(s, avoid=LIST), Bit(end.format(s=writer.word(s), n=n - 2), (hands.plain(s, n - 2),), (end,))]
    )


def _end_dec(writer: Writer, n: int, s: str) -> Bit | None:
    if n < 5:
        return None
    start = writer.rng.choice(["{s} across to last 2 sts", "{s} in each st to last 2 sts", "{s} in next {n} sts"])
    return joined(
        [Bit(start.format(s=writer.word(s), n=n - 2), (hands.plain(s, n - 2),), (start,)), writer.dec(s, avoid=LIST)]
    )


def _repeat(writer: Writer, n: int, s: str) -> Bit | None:
    fits = [m for m in range(2, 9) if n % m == 0 and n // m >= 2]
    if not fits or n > 40:
        return None
    m = writer.rng.choice(fits)
    body = joined([writer.plain(n // m - 1, s, avoid=LIST), writer.inc(s, avoid=LIST)])
    if writer.rng.random() < 0.5:
        return repeats.all_around(writer, body, avoid="round")
    return repeats.times_over(writer, body, m)


def _mesh(writer: Writer, n: int, s: str) -> Bit | None:
    """Openings along a row: ch 1, skip 1."""
    if n % 2 == 0 or n < 7:
        return None
    word, sk = writer.word(s), writer.word("sk")
    body = Bit(f"ch 1, {sk} 1, {word} in next st", (hands.chain(1), hands.skip(1), hands.plain(s)), ("mesh",))
    return joined(
        [
            Bit(word + " in first st", (hands.plain(s),), ("in first st",)),
            repeats.all_around(writer, body, "round unmarked"),
        ]
    )


def _ending(writer: Writer, n: int, s: str) -> Bit | None:
    """*sc, inc; rep from * across, ending with 1 sc."""
    a = writer.rng.randint(1, 3)
    if n % (a + 1) != a or n < 2 * a + 3:
        return None
    body = joined([writer.plain(a, s, avoid=LIST), writer.inc(s, avoid=LIST)])
    return repeats.ending(
        writer, body, writer.rng.choice([writer.last(a, s), writer.plain(a, s, avoid=LIST)]), a + 1, "round"
    )


SHAPES: tuple[tuple[str, Callable[[Writer, int, str], Bit | None], int], ...] = (
    ("even", _even, 5),
    ("row inc", _both_inc, 2),
    ("row dec", _both_dec, 2),
    ("row start dec", _start_dec, 2),
    ("row end dec", _end_dec, 2),
    ("row repeat", _repeat, 3),
    ("row mesh", _mesh, 1),
    ("row ending", _ending, 1),
)


def turn_of(writer: Writer, stitch: str, said: bool) -> str:
    """The words for chain and turn at the start of a row, for a chain that does not count."""
    k = HEIGHT[stitch] if stitch != "hdc" else 2
    no = " (does not count as a st)" if said else ""
    form = writer.rng.choice(
        ["ch {k}{no}, turn, ", "turn, ch {k}{no}, ", "Turn. Ch {k}{no}. ", "ch {k}{no} & turn, ", "ch {k}{no}, turn. "]
    )
    writer.used[form] += 1
    return form.format(k=k, no=no)


def counted_row(work: Work, stitch: str) -> None:
    """A row whose turning chain is its first stitch."""
    writer, n = work.writer, work.n
    s, k = writer.word(stitch), HEIGHT[stitch]
    lead = writer.rng.choice(
        [
            f"ch {k} (counts as {s}), turn, ",
            f"turn, ch {k} (counts as first {s}), ",
            f"ch {k} (counts as 1 {s}), turn, ",
        ]
    )
    forms = {
        "{s} in each st across": n - 1,
        "sk first st, {s} in each st across": n - 1,
        "{s} in next {m} sts": n - 1,
        "{s} in next {l} sts, {s} in top of tch": n - 1,
        "{s} in same st, {s} in each st across": n,
    }
    form = writer.rng.choice(list(forms))
    writer.used[form] += 1
    steps: tuple[hands.Step, ...] = (hands.turning(stitch),)
    if "same st" in form:
        steps += (hands.ring(stitch, 1),)
    steps += (hands.plain(stitch, n - 1),) if "next" in form else (hands.rest(stitch),)
    text = lead + form.format(s=s, m=n - 1, l=n - 2)
    work.round(Bit(text, steps, (form, "counted turning chain")), "row counted")


def panel(work: Work, stitch: str, said: bool, rows: int) -> None:
    """A panel in rows on a foundation chain; ``said``: each row says that its chain does not count."""
    writer, rng = work.writer, work.writer.rng
    counts = stitch in ("dc", "tr")
    first_row(work, stitch, rng.randint(6, 30), counts)
    shapes, weights = [shape[:2] for shape in SHAPES], [shape[2] for shape in SHAPES]
    while work.number < rows:
        if counts:
            counted_row(work, stitch)
            continue
        if rng.random() < 0.12 and work.again():
            continue
        if rng.random() < 0.05 and work.number > 3 and work.block_again():
            continue
        of, shape = rng.choices(shapes, weights)[0]
        bit = shape(writer, work.n, stitch)
        if work.n > 70 and of not in ("row dec", "row start dec", "row end dec"):
            break  # grown as wide as one still likes to read; no narrowing row need come out of it
        if bit is None:
            continue
        lead = turn_of(writer, stitch, said)
        whole = Bit(lead + bit.text, bit.steps, bit.names, bit.flags)
        if of == "even" and rng.random() < 0.3:
            work.stretch(whole, rng.randint(2, 4), "range rows")
        elif of == "even" and work.n > 9 and rng.random() < 0.2:
            short_row(work, lead, stitch)
        else:
            work.round(whole, of)


def short_row(work: Work, lead: str, stitch: str) -> None:
    """A row that leaves some stitches unworked."""
    writer, n = work.writer, work.n
    left = writer.rng.randint(2, 4)
    s = writer.word(stitch)
    form = writer.rng.choice(
        [
            "{s} {m}, leave rem {l} sts unworked",
            "{s} in next {m} sts, leaving rem {l} sts unworked",
            "{s} in next {m} sts, leave last {l} sts unworked",
            "{s} to last {l} sts, turn",
        ]
    )
    writer.used[form] += 1
    bit = Bit(lead + form.format(s=s, m=n - left, l=left), (hands.plain(stitch, n - left),), (form,))
    work.round(bit, "short row", leaves=True)

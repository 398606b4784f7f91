"""Joins, divisions and pieces told in a maker's words: ``SETS`` is the table, taken up by ``page.py``.

Counts by hand: both legs and both sides of the bridge make a + b + 2c; k pairs make k (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from . import hands, rows
from .forms import Bit, Writer, joined
from .labels import ROUNDS, ROWS
from .lines import ANY, Expected, Line, Work
from .pieces import ball, finish, rounds_on, start
from .rounds import some_round
from .shaping import LIST


def _on(work: Work, number: int) -> None:
    """More rounds, without a word of rounds that another piece has."""
    for _ in range(number):
        of, bit = some_round(work.writer, work.n)
        work.round(bit, of)


def _leg(writer: Writer, name: str = "Leg") -> Work:
    """A limb of at most 24 stitches, worked twice."""
    leg = start(writer, name, "round", 2)
    leg.family = ROUNDS[0]
    ball(leg, 1)
    while leg.n > 24:
        even = leg.n % 2 == 0
        halve = joined([writer.plain(leg.n - 2, avoid=LIST), writer.dec(avoid=LIST)])
        leg.round(writer.dec_all() if even else halve, "halve")
    leg.round(Bit(f"{writer.word('sc')} around", (hands.rest("sc"),)), "even")
    return leg


def _joined_round(work: Work, text: str, steps: Sequence[hands.Step], name: str, places: int, uses: int | None = None) -> None:
    """A round around other pieces: no later round can be worked as this one."""
    work.edge = []
    work.round(Bit(text, tuple(steps), (name,)), "joined pieces", uses=uses, edge=[hands.Loop("sc")] * places)
    work.done.pop(work.number, None)


# What stands on a line before the round ("" for nothing), the round, and which places are counted: both legs (a each)
# and sides of the bridge (c each). ``x`` is one stitch less than a leg has.
BRIDGED = (
    ("", "ch {c}, {s} {a} on first leg, {s} {c} along the ch, {s} {a} on second leg, {s} {c} along the other side of the ch", 2),
    ("", "ch {c}, {s} in each st around first leg, {s} in {c} ch, {s} in each st around second leg, {s} in other side of ch", 2),
    ("", "ch {c}, {s} in each st of the first leg, {s} in each ch, {s} in each st of the second leg, {s} in other side of each ch", 2),
    ("", "{a} {s} on leg 2, ch {c}, {a} {s} on leg 1, {c} {s} along the ch", 1),
    ("", "{s} {a} on second leg, ch {c}, {s} {a} on first leg, ch {c}", 0),
    ("", "ch {c}, sl st to first leg, {s} {a} around first leg, {s} in {c} ch, {s} {a} around second leg, {s} in {c} ch", 2),
    ("", "with the second leg still on your hook, ch {c} and join to first leg with a {s}, {s} {x} around first leg, {s} in next {c} ch, {s} {a} around second leg, {s} in next {c} ch", 2),
    ("", "ch {c} from the second leg and join with a {s}, {s} {x} around first leg, {s} in {c} ch, {s} {a} around second leg, {s} in {c} ch", 2),
    ("With the second leg still on your hook, ch {c} and join to first leg with a {s}.", "{s} {a} around first leg, {s} in {c} ch, {s} {a} around second leg, {s} in {c} ch", 2),
    ("Ch {c} from the second leg and join with a {s}.", "{s} {a} around first leg, {c} {s} on the ch, {s} {a} around second leg, {c} {s} on the other side of the ch", 2),
)  # fmt: skip


def legs_in_words(writer: Writer) -> list[Work]:
    """Two legs and a bridge, in the wordings of ``BRIDGED``."""
    rng, s = writer.rng, writer.word("sc")
    leg = _leg(writer)
    a, c = leg.n, rng.randint(2, 5)
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    before, text, sides = rng.choice(BRIDGED)
    fill = {"s": s, "a": a, "c": c, "x": a - 1}
    if before:
        body.say(before.format(**fill))
    whole = 2 * a + 2 * c
    body.number = leg.number
    _joined_round(body, text.format(**fill), [hands.plain("sc", whole)], text, whole, 2 * a + sides * c)
    _on(body, 2)
    return [leg, finish(body)]


def bridge_again(writer: Writer) -> list[Work]:
    """A bridge left alone in one round and worked along on both sides in the next."""
    rng, s = writer.rng, writer.word("sc")
    leg = _leg(writer)
    a, c = leg.n, rng.randint(2, 5)
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    body.number = leg.number
    _joined_round(body, f"{s} {a} on leg 2, ch {c}, {s} {a} on leg 1", [hands.plain("sc", 2 * a)], "bridge left", 2 * a)
    text = rng.choice([f"{s} {a}, {s} in next {c} ch, {s} {a}, {s} in other side of {c} ch", f"{s} around"])
    whole = 2 * a + 2 * c
    _joined_round(body, text, [hands.plain("sc", whole)], "bridge again", whole)
    _on(body, 2)
    return [leg, finish(body)]


def legs_touching(writer: Writer) -> list[Work]:
    """Legs worked together where they touch: k stitches of each make k."""
    rng, s = writer.rng, writer.word("sc")
    leg = _leg(writer)
    a = leg.n
    k = rng.randint(1, min(4, a - 2))
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    body.number = leg.number
    around = f"{s} {a - k} around first leg, {s} {a - k} around second leg"
    if rng.random() < 0.5:
        text = rng.choice([f"{s} {k} through both legs, {around}", f"holding legs side by side, {s} {k} through both, {around}"])
        whole = 2 * (a - k) + k
        steps = (hands.together("sc", 2, k), hands.plain("sc", 2 * (a - k)))
        _joined_round(body, text, steps, "through both legs", whole + k)
    else:
        seam = rng.choice([f"Hold legs side by side, {s} through both for {k} sts.", f"Holding both legs together, {s} through both for {k} sts."])
        if k > 1:
            body.lines.append(Line(seam, Expected(seam, "step", None, None, ANY, 2 * k, k, ANY, ("seam",), "seam")))
            _joined_round(body, around, [hands.plain("sc", 2 * (a - k))], "after a seam", 2 * (a - k))
        else:
            _joined_round(body, f"{s} {a} on leg 2, {s} {a} on leg 1", [hands.plain("sc", 2 * a)], "legs", 2 * a)
    _on(body, 2)
    return [leg, finish(body)]


def _trunk(writer: Writer) -> Work:
    body = start(writer, "Body", "round")
    body.family = ROUNDS[0]
    body.round(writer.ring(6), "ring")
    body.round(writer.inc_all(6), "double")
    double = (hands.until([hands.into_one(["sc", "sc"])]),)
    body.round(Bit(f"2 {writer.word('sc')} in each st around", double), "double")
    return body


def arms_in_words(writer: Writer) -> list[Work]:
    """Arms worked in, flattened or open, and told in words."""
    rng, s = writer.rng, writer.word("sc")
    arm = start(writer, "Arm", "round", 2)
    arm.family = ROUNDS[0]
    arm.round(writer.ring(6), "ring")
    arm.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    finish(arm)
    body = _trunk(writer)
    x = rng.randint(2, 5)
    if rng.random() < 0.5:
        pair = rng.choice(["3 sts of arm and 3 sts of body worked together", f"{s} 3 through both arm and body", f"hold arm against body, {s} 3 through both layers"])
        y = 24 - 6 - 2 * x
        text = f"{s} {x}, {pair}, {s} {y}, {pair}, {s} {x}"
        body.round(Bit(text, (hands.plain("sc", 24),), (pair,)), "arms", uses=ANY)
        body.done.pop(body.number, None)
    else:
        y = 24 - 2 * x
        text = f"{s} {x}, {s} 6 around first arm, {s} {y}, {s} 6 around second arm, {s} {x}"
        _joined_round(body, text, [hands.plain("sc", 36)], "open arms", 36)
    rounds_on(body, 2)
    return [arm, finish(body)]


def pair_of_ears(writer: Writer) -> list[Work]:
    """Two flat pieces held together and worked through both."""
    rng, s = writer.rng, writer.word("sc")
    ear = start(writer, "Ear", "round", 2)
    ear.family = ROUNDS[0]
    ball(ear, 2)
    if ear.number not in ear.done:
        ear.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    finish(ear)
    n = ear.n
    text = rng.choice([f"holding ears together, ({s} through both pieces) x {n}", f"hold both ears together, {s} {n} through both layers"])
    _joined_round(ear, text, [hands.together("sc", 2, n)], "held together", 2 * n)
    return [ear]


def front_as_back(writer: Writer) -> list[Work]:
    """A back, and a front worked as the back to a mark, from mark to mark, or altogether."""
    rng, s = writer.rng, writer.word("sc")
    width = rng.randint(8, 20)
    back, front = start(writer, "Back", "row"), start(writer, "Front", "row")
    back.family = front.family = ROWS[0]
    rows.first_row(back, "sc", width, False)
    turn = "ch 1 (does not count as a st), turn, "
    plain = Bit(f"{turn}{s} in each st across", (hands.rest("sc"),))
    way = rng.choice(["to", "from", "whole"])
    if way == "from":
        back.say("**")
    k = rng.randint(2, 4)
    back.stretch(plain, k, "range rows")
    if way == "from":
        back.say("**")
    elif way == "to":
        back.lines[-1].text += " **" if not back.lines[-1].text.endswith("*") else "\n**"
    top = back.number
    narrower = Bit(f"{turn}dec, {s} to end", (hands.together("sc"), hands.rest("sc")))
    if way != "whole":
        back.round(narrower, "row start dec")
    finish(back)
    if way == "from":
        rows.first_row(front, "sc", width, False)
    text = {"to": "Work as for Back to **.", "from": "Rep from ** to ** as for Back.", "whole": rng.choice(["Same as Back.", "Work the same as the Back."])}[way]
    worked = k if way == "from" else top
    first = front.number + 1
    front.number, front.edge = front.number + worked, [hands.Loop("sc")] * width
    front.lines.append(Line(text, Expected(text, ANY, first, front.number, worked, width, width, None, (text,), "copied")))
    front.round(narrower, "row start dec")
    return [back, finish(front)]


def every_other(writer: Writer) -> list[Work]:
    """Even rows said once, the others written."""
    s, rng = writer.word("sc"), writer.rng
    work = start(writer, "Wedge", "row")
    work.family = ROWS[0]
    rows.first_row(work, "sc", rng.randint(6, 16), False)
    lead = "ch 1 (does not count as a st), turn, "
    even = Bit(f"{lead}{s} in each st across", (hands.rest("sc"),))
    work.round(even, "even")
    words = rng.choice([" and all even rows:", " & all even-numbered rows:", " and every alternate row:"])
    work.lines[-1].text = work.lines[-1].text.replace("Row 2:", f"Row 2{words}", 1)
    for index in range(rng.randint(2, 4)):
        text = rng.choice([f"{lead}inc, {s} to end", f"{lead}{s} to last st, inc"])
        wider = (hands.into_one(["sc", "sc"]), hands.rest("sc"))
        work.round(Bit(text, wider, (words,)), "every other")
        told = work.lines[-1].expected
        if index and told is not None:  # the even row before it is not written, and this line stands for both
            told.first, told.last, told.worked, told.forms = work.number, work.number + 1, 2, (words,)
            work.number += 1
            work.lines[-1].text = work.lines[-1].text.replace(f"Row {work.number - 1}:", f"Row {work.number}:", 1)
    return [finish(work)]


def divided(writer: Writer) -> list[Work]:
    """Stitches left, and taken up again: a neck in two halves."""
    s, rng = writer.word("sc"), writer.rng
    work = start(writer, "Yoke", "row")
    work.family = ROWS[0]
    width = rng.randint(16, 30)
    rows.first_row(work, "sc", width, False)
    lead = "ch 1 (does not count as a st), turn, "
    half, gap = width // 2 - 2, width - 2 * (width // 2 - 2)
    side = [hands.Loop("sc")] * half
    if rng.random() < 0.5:
        work.edge = side
        work.say(rng.choice([f"Divide for neck: work on these {half} sts only.", f"Divide for armholes: work on the first {half} sts only."]))
        work.round(Bit(f"{lead}{s} in each st across", (hands.rest("sc"),)), "divided")
    else:
        rest = rng.choice(["leave rem sts unworked", "leave remaining sts unworked"])
        work.round(Bit(f"{lead}{s} {half}, {rest}", (hands.plain("sc", half),), (rest,)), "short row", leaves=True)
    work.round(Bit(f"{lead}{s} in each st across", (hands.rest("sc"),)), "even")
    work.say("Fasten off.")
    work.say("Return to skipped sts.")
    work.number = 1
    work.edge = [hands.Loop("sc")] * (gap + half)
    text = f"{writer.word('sk')} next {gap} sts, join yarn in next st, {s} in next {half} sts"
    work.round(Bit(text, (hands.skip(gap), hands.plain("sc", half)), ("taken up",)), "taken up")
    work.round(Bit(f"{lead}{s} in each st across", (hands.rest("sc"),)), "even")
    return [finish(work)]


def fewer_each_row(writer: Writer) -> list[Work]:
    """Rows that each leave stitches at the end."""
    s, rng = writer.word("sc"), writer.rng
    work = start(writer, "Gusset", "row")
    work.family = ROWS[0]
    rows.first_row(work, "sc", rng.randint(14, 24), False)
    k, times, n = rng.randint(1, 2), rng.randint(2, 4), work.n
    text = f"ch 1 (does not count as a st), turn, {s} across, working {k} st{'s' if k > 1 else ''} less each row"
    a, b = work.number + 1, work.number + times
    last = n - k * times
    line = f"Rows {a}-{b}: {text} ({last})"
    work.lines.append(Line(line, Expected(f"Rows {a}-{b}:", "row", a, b, times, n - k, last, last, ("less each row",), "fewer")))
    work.number, work.edge = b, [hands.Loop("sc")] * last
    work.round(Bit(f"ch 1 (does not count as a st), turn, {s} in each st across", (hands.rest("sc"),)), "even")
    return [finish(work)]


def openings(writer: Writer) -> list[Work]:
    """A buttonhole or thumb opening and its way back; bare numbers with private letters; a sentence on slip stitches."""
    s, rng = writer.word("sc"), writer.rng
    work = _trunk(writer)
    k, x = rng.randint(2, 6), rng.randint(3, 8)
    rest = 24 - k - x
    name, back = rng.choice([("buttonhole", "buttonhole"), ("for the thumb", "opening"), ("thumb hole", "gap")])
    steps = (hands.plain("sc", x), hands.chain(k), hands.skip(k), hands.plain("sc", rest))
    work.round(Bit(f"{s} {x}, {name}: ch {k}, {writer.word('sk')} {k}, {s} {rest}", steps, (name,)), "opening")
    text = f"{s} in next {x} sts, {s} in each ch across the {back}, {s} in next {rest} sts"
    work.round(Bit(text, (hands.plain("sc", 24),), (back,)), "way back")
    if writer.terms == "US":
        steps = (hands.plain("sc", x), hands.into_one(["sc", "sc"]), hands.plain("sc", 23 - x))
        work.round(Bit(rng.choice([f"{x}, i, {23 - x}", f"{x} i {23 - x}"]), steps, ("private letters",)), "letters")
    work.say(rng.choice(["Sl st to centre back.", "Sl st to opposite side."]))
    work.round(Bit(f"{s} around", (hands.rest("sc"),)), "even")
    return [finish(work)]


def leaf_in_words(writer: Writer) -> list[Work]:
    """Around a chain in spatial words; each end chain is shared, or worked on both sides."""
    s, rng = writer.word("sc"), writer.rng
    work = start(writer, "Leaf", "round")
    work.family = ROUNDS[0]
    n = rng.randint(7, 13)
    work.foundation(f"Ch {n}.", n)
    side = n - 2  # the places of one side, but for the tip
    three = hands.into_one(["sc"] * 3)
    turns = ("turn and continue along the opposite side of the foundation chain", "continue working on the opposite side of the chain", "now working up the other side", "working in the unused loops on the other side of the starting chain")
    oval = [hands.plain("sc", side), three, hands.plain("sc", side - 1), hands.into_one(["sc", "sc"])]
    forms: list[tuple[str, list[hands.Step], int]] = [
        (f"{s} in 2nd ch from hook, {s} up one side, 3 {s} in tip, {s} down the other side", [hands.plain("sc", side), three, hands.plain("sc", side)], 2 * side + 1),
        (f"{s} up one side, 3 in tip, down the other", [hands.plain("sc", side), three, hands.plain("sc", side)], 2 * side + 1),
        (f"(skip first ch) {s} {side}, 3 {s} in last ch; along other side: {s} {side - 1}, inc", oval, 2 * side + 1),
        (f"{s} in 2nd ch from hook, {s} {side - 1}, 3 {s} in last ch, {rng.choice(turns)}, {s} {side - 1}, 2 {s} in last ch", oval, 2 * side + 1),
        (f"from 2nd ch from hook ({s} {side - 1}, inc, {s}) down one side, ch 2, repeat on the other side", [hands.times([hands.plain("sc", side - 1), hands.into_one(["sc", "sc"]), hands.plain("sc")], 2)], 2 * side + 2),
    ]  # fmt: skip
    if writer.terms != "US":
        del forms[1]
    text, steps, places = rng.choice(forms)
    work.edge = [hands.Loop("ch")] * places
    work.round(Bit(text, tuple(steps), (text.split(",")[0],)), "leaf", uses=places)
    if "ch 2, repeat" not in text:
        rounds_on(work, 1)
    return [finish(work)]


SETS: Sequence[Callable[[Writer], list[Work]]] = (
    legs_in_words, legs_in_words, bridge_again, legs_touching, arms_in_words, pair_of_ears, front_as_back, every_other,
    divided, fewer_each_row, openings, leaf_in_words, leaf_in_words,
)  # fmt: skip

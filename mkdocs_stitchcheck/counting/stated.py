"""The count a round states, held against what it makes."""

from __future__ import annotations

from dataclasses import dataclass

from ..language import syntax
from .counted_groups import SOFT_KINDS, beside_groups, corners, group_sizes, groups, named
from .edge import Edge
from .questions import CHAINS
from .working import Working


@dataclass(slots=True)
class Verdict:
    """``total`` is the stated count of stitches (None where none is stated); ``right`` whether the round makes it.

    ``part`` is the count of one kind that is wrong, with what there is of it; ``change`` a stated change that is.
    """

    total: int | None = None
    right: bool = True
    part: syntax.KindCount | None = None
    actual: int = 0
    change: int | None = None
    number: syntax.Number | None = None


NONE_STATED = Verdict()


def compare(stated: syntax.Stated | None, w: Working, before: Edge | None) -> Verdict:
    """Holds *stated* against what *w* made on the edge *before*."""
    if stated is None:
        return NONE_STATED
    made = w.tally.made
    if stated.form == "total" and stated.number is not None and stated.change is None:
        number = w.value(stated.number)
        if number != made and w.tally.openings and not w.bridge and stated.parts and number == w.tally.kinds.get(stated.parts[0].kind):
            return Verdict(made, number=stated.number)  # "(9 dc)" beside chains over openings: the dc alone
        return Verdict(number, number == made, number=stated.number)
    return _OTHER_FORMS.get(stated.form, _total)(stated, w, before)


def _total(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    made = w.tally.made
    if stated.number is not None:
        number = w.value(stated.number)
        known = before is not None and before.kind == "stitches" and stated.change is not None
        if number == made and known:
            changed = _changed(stated, w, before)
            return Verdict(number, number=stated.number) if changed.right else changed
        return Verdict(number, number == made, number=stated.number)
    if stated.change is not None:
        return _changed(stated, w, before)
    return Verdict()


def _changed(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    if stated.change is None:
        return _total(stated, w, before)
    if before is None or before.kind not in ("stitches", "ring"):
        return Verdict()
    wanted = before.stitches + stated.change
    if stated.number is not None and w.value(stated.number) != w.tally.made:
        return Verdict(w.value(stated.number), False, number=stated.number)
    return Verdict(wanted, wanted == w.tally.made, number=stated.change_number, change=stated.change)


def _sum(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    total = sum(w.value(part.number) for part in stated.parts)
    if stated.number is not None and len(stated.parts) < 2:
        total = w.value(stated.number)
    return Verdict(total, total == w.tally.made)


def _each(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    """"12 on each leg": the round makes 12, or as many on each of two."""
    number = stated.number or (stated.parts[0].number if stated.parts else None)
    if number is None:
        return Verdict()
    each, made = w.value(number), w.tally.made
    total = made if each and made in (each, 2 * each) else each
    return Verdict(total, total == made, number=number)


def _about(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    bounds = [w.value(part.number) for part in stated.parts]
    if stated.number is not None and not bounds:
        bounds = [w.value(stated.number)]
    if not bounds:
        return Verdict()
    low, high = min(bounds), max(bounds)
    made = w.tally.made
    if len(bounds) == 1:
        return Verdict()
    return Verdict(made if low <= made <= high else low, low <= made <= high)


def _kinds(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    made = w.tally.made
    total = made
    wrong: Verdict | None = None
    single = len(stated.parts) == 1 and stated.number is None and _is_stitch(stated.parts[0].kind)
    for part in stated.parts:
        number = w.value(part.number)
        if part.kind.startswith("space"):
            number = sum(w.value(other.number) for other in stated.parts if other.kind == part.kind)
        if part.size is not None and w.tally.clumps:
            wrong = wrong or _sized(part, w, [other for other in stated.parts if other.size is not None])
            continue
        found = _of_kind(part.kind, w, number)
        if part.share:
            if found and number and found % number:
                wrong = wrong or Verdict(made, False, part=part, actual=found, number=part.number)
            continue
        if found is None or number == found or single and number == made:
            continue
        if _is_stitch(part.kind) or single:
            total += number - (made if single else found)
        wrong = wrong or Verdict(made, False, part=part, actual=found, number=part.number)
    if wrong is not None:
        wrong.total = total
        if single and wrong.part is not None and _is_stitch(wrong.part.kind):
            wrong.part = None if wrong.actual == made else wrong.part
        return wrong
    if stated.number is not None:
        number = w.value(stated.number)
        chains = w.tally.chains if not w.setting.answers.get(CHAINS) else 0
        right = number in (made, made + chains)
        return Verdict(made if right else number, right, number=stated.number)
    return Verdict(total)


def _sized(part: syntax.KindCount, w: Working, sized: list[syntax.KindCount]) -> Verdict | None:
    """"4 groups of 3 dc": so many have that size, and none has a size that is not stated."""
    number, size = w.value(part.number), w.value(part.size) if part.size is not None else 0
    ways = group_sizes(w)
    said = {w.value(other.size) for other in sized if other.size is not None}
    if any(sizes[size] == number and set(sizes) <= said for sizes in ways):
        return None
    odd = [one for one in ways[0] if one not in said]
    if len(odd) == 1 and sum(ways[0].values()) == number:
        return Verdict(w.tally.made, False, part=part, actual=odd[0], number=part.size)
    return Verdict(w.tally.made, False, part=part, actual=next((n for n in (sizes[size] for sizes in ways) if n != number), 0), number=part.number)


def _is_stitch(kind: str) -> bool:
    return not (kind in ("chain", "ch") or kind.startswith(("space", "corner")) or kind in SOFT_KINDS or " " in kind)


def _of_kind(kind: str, w: Working, number: int) -> int | None:
    """How many of *kind* the round makes; None for a kind that is not kept count of."""
    tally = w.tally
    if kind in ("", "stitch"):
        plain = tally.made - tally.openings
        return plain if number == plain else tally.made
    if kind in ("chain", "ch"):
        return tally.chains + tally.openings
    if kind in ("corner space", "corner"):
        return corners(w)
    if kind.startswith("space"):
        length = kind[5:].strip(" -")
        if length.isdigit():
            return tally.spaces.get(int(length), 0)
        return sum(tally.spaces.values())
    if kind in tally.named:
        return named(w, kind, number)
    if kind in SOFT_KINDS or " " in kind and kind not in tally.kinds:
        return groups(w, kind, number)
    if kind in tally.kinds:
        return number if number in beside_groups(w, kind) else tally.kinds[kind]
    if kind == "sl st":
        return sum(count for (_, key), count in tally.material.items() if key == kind)
    worked = sum(count for (_, key), count in tally.material.items() if key == kind)
    if worked:
        return worked
    if kind in _STITCH_KEYS:
        return 0
    return groups(w, kind, number)


def _unknown(stated: syntax.Stated, w: Working, before: Edge | None) -> Verdict:
    return Verdict()


_STITCH_KEYS = frozenset(("sc", "hdc", "dc", "tr", "dtr", "trtr", "inc", "dec", "bobble", "popcorn", "cluster", "puff"))
_OTHER_FORMS = {
    "total": _total,
    "kinds": _kinds,
    "sum": _sum,
    "each": _each,
    "change": _changed,
    "about": _about,
    "unknown": _unknown,
}

"""Which number is wrong: the count, the instruction, or nobody can tell. The neighbours of a round are asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from ..findings import Edit
from ..language import syntax
from .judge import Outcome
from .repairs import Case, Repair, best
from .sizing import entry

Edits = tuple[tuple[int, int, str], ...]


@dataclass(slots=True)
class Neighbours:
    """What the rounds before and after say.

    ``accepts(n)``: whether the next round, worked on n stitches, fits and makes its own count; None where there is
    no next round that says anything. ``before`` is the name of the round before if its count was verified, ``after``
    the name of the next.
    """

    accepts: Callable[[int], bool | None]
    before: str = ""
    after: str = ""


@dataclass(slots=True)
class Blame:
    """``slip`` is "count", "instruction" or "" (the facts only)."""

    slip: str = ""
    suggestion: str = ""
    choices: list[Edits] = field(default_factory=list)
    sure: bool = False
    elsewhere: list[tuple[Edit, ...]] = field(default_factory=list)  # edits of another line


def find(outcome: Outcome, case: Case | None, near: Neighbours) -> Blame:
    """Decides between count and instruction as the contract of the project has it."""
    made, stated = outcome.makes, outcome.verdict.total
    fits = outcome.fits
    takes_made = near.accepts(made)
    takes_stated = near.accepts(stated) if stated is not None else None
    if stated is not None and fits and takes_made and takes_stated is False:
        return _count(outcome, near, case, after=True)
    repairs, any_repair = best(case) if case is not None else ([], False)
    if stated is not None and stated != made and takes_stated and takes_made is False:
        return _instruction(repairs, outcome, near, True)
    if not fits:
        follows = bool(takes_stated) if stated is not None else False
        return _instruction(repairs, outcome, near, follows) if repairs else Blame()
    if stated is not None and not outcome.verdict.right and not any_repair:
        return _count(outcome, near, case, after=False)
    if stated is not None and outcome.last.in_ring and len(repairs) == 1 and not takes_made and not takes_stated:
        return _either(_count(outcome, near, case, after=False), repairs[0], outcome)
    return Blame()


def _either(count: Blame, repair: Repair, outcome: Outcome) -> Blame:
    """Into a ring any number goes, so nothing tells the count from the number of stitches: both are named."""
    text = f"Either the count is the slip: write ({_right_number(outcome)}), or {repair.phrase} agrees with it."
    return Blame("", text, [*count.choices, *([(repair.edit,)] if repair.edit is not None else [])])


def _count(outcome: Outcome, near: Neighbours, case: Case | None, after: bool) -> Blame:
    number = outcome.verdict.number
    right = _right_number(outcome)
    said = f"write ({right})"
    if after:
        reason = f"{near.after} works into {outcome.makes}, so the count is the likely slip: {said}."
    elif near.before:
        reason = f"The instruction uses all the stitches of {near.before}, so the count is the likely slip: {said}."
    else:
        reason = f"The instruction comes out even, so the count is the likely slip: {said}."
    edits: list[Edits] = []
    if number is not None and number.end > number.start:
        text = case.line.statement.text if case is not None else ""
        place = entry(number, text, outcome.last.setting.size)
        edits = [((*place, str(right)),)] if place is not None else []
    return Blame("count", reason, edits, after and bool(near.before))


def _right_number(outcome: Outcome) -> int:
    """What the number that was read as the count should say: the total, one kind's count, or the change."""
    verdict = outcome.verdict
    if verdict.part is not None:
        return verdict.actual
    if verdict.change is not None and outcome.before is not None:
        return abs(outcome.makes - outcome.before.stitches)
    if outcome.wrong_each is not None and outcome.wrong_each < len(outcome.each):
        return outcome.each[outcome.wrong_each][1]
    return outcome.makes


def _instruction(repairs: list[Repair], outcome: Outcome, near: Neighbours, after: bool) -> Blame:
    stated = outcome.verdict.total is not None
    speakers = _speakers(near, after, stated)
    if not repairs:
        if near.after and after:
            return Blame("instruction", f"{near.after} works into {outcome.verdict.total}, so the instruction is the likely slip.")
        return Blame("instruction")
    sure = after and bool(near.before) and len(repairs) == 1
    choices: list[Edits] = [(repair.edit,) for repair in repairs if repair.edit is not None]
    phrases = [repair.phrase for repair in repairs]
    if len(phrases) == 1:
        text = f"{_capital(phrases[0])} agrees with {speakers}."
    else:
        text = f"Either {phrases[0]}, or {phrases[1]}, agrees with {speakers}."
    return Blame("instruction", text, choices, sure)


def _speakers(near: Neighbours, after: bool, stated: bool) -> str:
    count = "the count" if stated else ""
    if near.before and after:
        who = "both neighbours"
    elif after:
        who = near.after
    else:
        who = near.before
    return " and ".join(part for part in (count, who) if part) or "the stitches there are"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:] if text[:2] not in ("x ",) and not text[:1].isdigit() else text


def edits_of(blame: Blame, line: syntax.RoundLine) -> tuple[tuple[Edit, ...], tuple[tuple[Edit, ...], ...]]:
    """The edits of a finding, and all alternatives where there are two."""
    made = [
        tuple(Edit(line.statement.span(start, end), text) for start, end, text in choice) for choice in blame.choices
    ]
    made.extend(blame.elsewhere)
    if not made:
        return (), ()
    return made[0], tuple(made) if len(made) > 1 else ()

"""Rounds that are alike, drawn once: "rounds 10-16 alike", "rows 4-29 as rows 2 and 3"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..counting.in_full import Course
from ..counting.replaying import Item

_LEAST = 3  # so many rounds alike are folded


@dataclass(frozen=True, slots=True)
class Drawn:
    """A course to draw. ``first`` and ``last`` are the numbers it stands for; ``note`` what is said of rounds left out
    above it. ``color`` is the
    letter of its colour, where that is to be told. ``flipped`` where what stands on it counts it from its other end, for the rows left out."""

    course: Course
    label: str
    note: str = ""
    flipped: bool = False
    color: str = ""


def folded(courses: Sequence[Course]) -> list[Drawn]:
    """The courses to draw, in order."""
    found: list[Drawn] = []
    at = 0
    while at < len(courses):
        course = courses[at]
        alike = _repeats(courses, at, 1)
        if course.kind == "round" and alike >= _LEAST and _is_tube(course):
            last = courses[at + alike - 1]
            flipped = course.back and alike % 2 == 0
            found.append(Drawn(course, _span(course, last), flipped=flipped))
            at += alike
            continue
        period = next((p for p in (1, 2, 3, 4) if course.kind == "row" and _repeats(courses, at, p) * p >= p + max(p, 2)), 0)
        if period == 1:
            period = 2  # rows go to and fro: one each way is drawn
            number = _repeats(courses, at, 1)
        else:
            number = _repeats(courses, at, period) * period if period else 0
        if period and number > period + 1:
            found += [Drawn(one, _span(one, one)) for one in courses[at : at + period - 1]]
            drawn_last = courses[at + period - 1]
            left_out = number - period
            found.append(Drawn(drawn_last, _span(drawn_last, drawn_last), _note(courses, at, period, number), left_out % 2 == 1))
            at += number
            continue
        found.append(Drawn(course, _span(course, course)))
        at += 1
    return found


def _is_tube(course: Course) -> bool:
    return all(item.kind in ("stitch", "height", "turning") for item in course.items)


def _span(first: Course, last: Course) -> str:
    if first.number is None:
        return ""
    return str(first.number) if first is last else f"{first.number}–{last.number}"


def _note(courses: Sequence[Course], at: int, period: int, number: int) -> str:
    first, last = courses[at + period], courses[at + number - 1]
    shown = [courses[at + k].number for k in range(period)]
    if first.number is None or None in shown:
        return f"{number - period} more rows alike"
    said = f"{shown[0]} and {shown[-1]}" if period == 2 else f"{shown[0]} to {shown[-1]}"
    rows = "Row" if first is last else "Rows"
    return f"{rows} {_span(first, last)} as rows {said}"


def _repeats(courses: Sequence[Course], at: int, period: int) -> int:
    """How often the *period* courses from *at* on come one after the other, the first time counted."""
    if at + period > len(courses) or courses[at].begins != "course":
        return 1
    number = 1
    while True:
        start = at + number * period
        if start + period > len(courses):
            return number
        if not all(_same(courses[at + k], courses[start + k]) for k in range(period)):
            return number
        number += 1


def _same(one: Course, other: Course) -> bool:
    return (
        one is other
        or one.count == other.count and one.kind == other.kind and one.back == other.back and one.joined == other.joined
        and other.begins == "course" and len(one.items) == len(other.items)
        and all(map(_same_item, one.items, other.items))
    )


def _same_item(one: Item, other: Item) -> bool:
    return one == other or (
        one.kind == other.kind and one.color == other.color and one.loop == other.loop and one.parents == other.parents
        and one.space == other.space and one.length == other.length
        and (one.stitch.key if one.stitch else "") == (other.stitch.key if other.stitch else "")
    )

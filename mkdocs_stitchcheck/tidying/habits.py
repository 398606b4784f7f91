"""The house style of a pattern: what the settings say, else what its writer does most."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from ..language.syntax import Repeat, RoundLine
from ..settings import HouseStyle
from .counts import noun_of, plain_total
from .counts import style_of as count_style
from .labels import word_of
from .repeats import bracket_pairs
from .repeats import style_of as repeat_style
from .steps import order_of, walk

_LABELS = {"rnd": "Rnd", "rnds": "Rnd", "round": "Round", "rounds": "Round", "r": "R", "rs": "R"}
_BRACKETS = {"(": "round", "[": "square"}


@dataclass(frozen=True, slots=True)
class Style:
    """How the rounds of a pattern are to look. ``stars``: repeats between stars stay; ``nouns``: "(24 sts)"."""

    label: str = "Rnd"
    bracket: str = "("
    stars: bool = False
    order: str = "number first"
    counts: str = "brackets"
    nouns: bool = False
    times: str = "x"


def style_of(lines: Iterable[RoundLine], house: HouseStyle) -> Style:
    """The style for a pattern of these rounds: each part as *house* says where the writer set it, else by habit."""
    found = _habits(lines)

    def part(name: str, default: str) -> str:
        return default if name in house.chosen else _most(found[name], default)

    brackets = part("brackets", house.brackets)
    in_brackets = sum(number for name, number in found["brackets"].items() if name != "stars")
    return Style(
        label=part("labels", house.labels),
        bracket="[" if brackets == "square" else "(",
        stars="brackets" not in house.chosen and found["stars"]["stars"] > in_brackets,
        order=part("order", house.order),
        counts=part("counts", house.counts),
        nouns=found["nouns"]["sts"] > found["nouns"][""],
        times=part("repeats", house.repeats),
    )


def _most(counted: Counter[str], default: str) -> str:
    """The most frequent entry; *default* where none is, or where it is as frequent."""
    most = max(counted.values(), default=0)
    return default if counted[default] == most else max(counted, key=lambda name: counted[name])


def _habits(lines: Iterable[RoundLine]) -> dict[str, Counter[str]]:
    found: dict[str, Counter[str]] = {
        part: Counter() for part in ("labels", "brackets", "stars", "order", "counts", "nouns", "repeats")
    }
    for line in lines:
        text = line.statement.text
        if word_of(line) in _LABELS:
            found["labels"][_LABELS[word_of(line)]] += 1
        _of_steps(line, text, found)
        for stated in line.stated:
            if not plain_total(stated) or stated.start < line.body[1]:
                continue
            if style := count_style(text, stated):
                found["counts"][style] += 1
            if (noun := noun_of(text, stated)) is not None:
                found["nouns"]["sts" if noun else ""] += 1
    return found


def _of_steps(line: RoundLine, text: str, found: dict[str, Counter[str]]) -> None:
    steps = list(walk(line.steps or ()))
    for step in steps:
        if order := order_of(text, step):
            found["order"][order] += 1
    repeats = [step for step in steps if isinstance(step, Repeat)]
    mates = bracket_pairs(text, line.body[0]) if repeats else {}
    for repeat in repeats:
        bracket, times = repeat_style(text, repeat, mates)
        if bracket == "*":
            found["stars"]["stars"] += 1
        if bracket in _BRACKETS:
            found["brackets"][_BRACKETS[bracket]] += 1
        if times:
            found["repeats"][times] += 1

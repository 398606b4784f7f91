"""Whole patterns in house styles: each round comes to what it comes to when worked by hand, and few mutants survive.

The patterns stand in ``cases/styles/*.md`` (``test_cases.py`` checks that nothing is found in them); ``by_hand.txt``
beside them has every round again in single letters, worked here one stitch after the other by the oracle's hands.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from case_files import CASES, Case, read_cases
from oracle import hands
from oracle.hands import Loop, Step

from mkdocs_stitchcheck import check_text

FOLDER = CASES / "styles"
STYLES = [case for path in sorted(FOLDER.glob("*.md")) for case in read_cases(path)]
Worked = tuple[int, int, int]  # uses of the first round, makes of the last, rounds

_STEP = re.compile(r"(?P<letter>[rsidmkc])(?P<number>\d*)|\((?P<body>[^()]*)\)(?P<times>\d+)")


def worked_by_hand(path: Path) -> dict[str, list[Worked]]:
    """The rounds of every pattern, by its title."""
    found: dict[str, list[Worked]] = {}
    title = ""
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            title = line.strip("[]")
            found[title.lower()] = []
        elif line and title:
            found[title.lower()] += piece_by_hand(line)
    return found


def piece_by_hand(line: str) -> list[Worked]:
    """The rounds of one piece: each works into the whole of what the one before made."""
    edge: list[Loop] = []
    rounds = []
    for text in line.split("|"):
        start = re.match(r"@(\d+) ", text)
        if start:
            edge = [Loop("place")] * int(start[1])
        length = re.search(r" x(\d+)$", text)
        body = text[start.end() if start else 0 : length.start() if length else None]
        worked = hands.worked(steps(body), edge)
        first = worked
        for _ in range(1, int(length[1]) if length else 1):
            worked = hands.worked(steps(body), worked.made)
        edge = worked.made
        rounds.append((first.used, len(worked.made), int(length[1]) if length else 1))
    return rounds


def steps(body: str) -> list[Step]:
    found: list[Step] = []
    assert not _STEP.sub("", body).strip(), body
    for match in _STEP.finditer(body):
        if match["body"] is not None:
            found.append(hands.times(steps(match["body"]), int(match["times"])))
        else:
            found.append(step(match["letter"], int(match["number"] or 1)))
    return found


def step(letter: str, number: int) -> Step:
    match letter:
        case "r":
            return hands.ring("sc", number)
        case "s":
            return hands.plain("sc", number)
        case "i":
            return hands.into_one(["sc", "sc"], number)
        case "m":
            return hands.into_one(["sc"] * number)
        case "d":
            return hands.together("sc", 2, number)
        case "k":
            return hands.skip(number)
        case _:
            return hands.chain(number)


BY_HAND = worked_by_hand(FOLDER / "by_hand.txt")


def test_there_are_enough() -> None:
    assert len(STYLES) >= 10
    for case in STYLES:
        assert sum(length for _uses, _makes, length in BY_HAND[case.title.lower()]) >= 20


@pytest.mark.parametrize("case", STYLES, ids=[case.title for case in STYLES])
def test_rounds_come_to_what_they_come_to_by_hand(case: Case) -> None:
    result = check_text(case.text, case.path)
    rounds = [one for pattern in result.patterns for one in pattern.rounds if one.counts]
    came = [(one.uses[0] if one.uses[0] else 0, one.makes[0], one.worked) for one in rounds]
    by_hand = BY_HAND[case.title.lower()]
    told = [f"{one.label}: {has}, by hand {wants}" for one, has, wants in zip(rounds, came, by_hand, strict=False)]
    assert came == by_hand, "\n".join(told)
    assert [one.stated[0] for one in rounds] == [makes for _uses, makes, _length in by_hand]

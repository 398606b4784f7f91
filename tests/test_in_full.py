"""Rounds taken apart stitch by stitch agree with what was checked, and with what a maker would say of each stitch."""

from __future__ import annotations

from itertools import pairwise

import pytest
from drawn_patterns import all_pieces, checked, counted

from mkdocs_stitchcheck.counting.in_full import Course, in_full
from mkdocs_stitchcheck.results import Status


def courses_of(text: str) -> list[Course]:
    pattern = checked(text)
    (full,) = in_full(pattern).values()
    assert not full.why_not
    return full.courses


def parents(course: Course) -> list[tuple[int, ...]]:
    return [item.parents for item in course.items if item.places]


def test_counts_are_the_checked_ones_over_all_cases_and_pages() -> None:
    seen = 0
    for pattern, piece, full in all_pieces():
        if full.courses and (pattern.syntax.header.sizes or any(l.each and len(l.each) != l.worked for l in piece.rounds)):
            last = [line.makes[0] for line in piece.rounds if line.counts and line.makes[0] is not None][-1]
            assert full.courses[-1].count == last  # ranges of sizes, and long repeats, are told in short
        elif full.courses:
            seen += 1
            assert [course.count for course in full.courses] == list(counted(piece)), piece.name
            assert [sum(i.places for i in course.items) for course in full.courses] == list(counted(piece))
    assert seen > 400


def test_only_what_was_checked_is_taken_apart_and_the_round_is_named() -> None:
    for _pattern, piece, full in all_pieces():
        lines = [line for line in piece.rounds if line.counts]
        wrong = [line for line in lines if line.status not in (Status.CHECKED, Status.COUNTED)]
        assert not wrong or not full.courses
        assert bool(full.why_not) != bool(full.courses) or not any(line.worked for line in lines)
        if wrong and wrong[0] is lines[0] and wrong[0].label:
            assert full.why_not.startswith(wrong[0].label)


def test_every_stitch_stands_on_a_place_that_is_there_and_in_order() -> None:
    for _pattern, piece, full in all_pieces():
        for before, course in pairwise(full.courses):
            used = [parent for item in course.items for parent in item.parents if item.kind != "slip"]
            assert all(0 <= parent < before.count for parent in used), (piece.name, course.label)
            first = [item.parents[0] for item in course.items if item.parents and item.kind == "stitch"]
            falls = sum(b < a for a, b in pairwise(first)) if not course.back else sum(b > a for a, b in pairwise(first))
            assert falls <= 1 or any(key == "x-st" for line in piece.rounds for _c, key in line.stitches), (piece.name, course.label)


def test_increases_and_decreases() -> None:
    courses = courses_of("Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, dec) x 4 (8)")
    assert courses[0].begins == "ring" and parents(courses[0]) == [()] * 6
    assert parents(courses[1]) == [(n // 2,) for n in range(12)]
    assert parents(courses[2])[:4] == [(0,), (1, 2), (3,), (4, 5)]


def test_rows_go_back() -> None:
    courses = courses_of("Ch 5.\nRow 1: sc in 2nd ch from hook and in each ch across (4)\nRow 2: ch 1, turn, dec, sc 2 (3)")
    assert (courses[0].begins, courses[0].chains, courses[0].skipped) == ("chain", 5, 1)
    assert courses[1].back and parents(courses[1]) == [(3, 2), (1,), (0,)]
    assert courses[1].items[0].kind == "height" and courses[1].items[0].length == 1


def test_both_sides_of_a_chain() -> None:
    text = "Ch 5.\nRnd 1: sc in 2nd ch from hook, sc 2, 3 sc in last ch; on other side of ch: sc 2, inc in last (10)"
    (course,) = courses_of(text)
    assert [p for (p,) in parents(course)] == [0, 1, 2, 3, 3, 3, 2, 1, 0, 0]
    assert [item.far for item in course.items] == [False] * 6 + [True] * 4


def test_spaces_and_turning_chains() -> None:
    courses = courses_of(
        "Rnd 1: ch 4, sl st in first ch to form a ring, ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) x 3, "
        "join with sl st in top of ch-3 (12 dc, 4 ch-2 sps)\n"
        "Rnd 2: sl st in next 2 dc and in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, "
        "*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, join with sl st in top of ch-3 "
        "(24 dc, 4 ch-2 sps, 4 ch-1 sps)"
    )
    first, second = courses
    assert (first.begins, first.chains, first.spaces, first.joined) == ("ring", 4, 4, True)
    assert [item.kind for item in first.items[:4]] == ["turning", "stitch", "stitch", "space"]
    into = [item.space for item in second.items if item.places]
    assert into == [0] * 6 + [1] * 6 + [2] * 6 + [3] * 6
    assert [i.parents or i.space for i in second.items if i.kind == "slip"] == [(1,), (2,), 0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (13)", "Rnd 2: a wrong number"),
        ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: sc as established (9)", "Rnd 2: taken on trust"),
        ("Rnd 1: 5000 sc in magic ring (5000)", "Rnd 1: too large for a chart"),
        ("Rnd 1: 6 sc in magic ring (6)\nRnds 2-900: sc around (6)", "too many rounds"),
        ("Rnd 1: 200 sc in magic ring (200)\nRnds 2-150: sc around (200)", "too many rounds"),
    ],
)
def test_why_not(text: str, said: str) -> None:
    (full,) = in_full(checked(text)).values()
    assert said in full.why_not and not full.courses


def test_evenly_spread() -> None:
    courses = courses_of("Rnd 1: 12 sc in magic ring (12)\nRnd 2: inc 4 evenly (16)")
    doubled = [p for p in range(12) if sum((p,) == q for q in parents(courses[1])) == 2]
    assert len(doubled) == 4 and {b - a for a, b in pairwise(doubled)} == {3}

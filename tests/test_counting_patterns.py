"""Ranges, references, readings and blame over whole pieces, on trees made by hand.

Counts of discs, balls and hyperbolic planes: common practice, no source, and hyperbolic class notes (ratio 5/4; N = 1 from 6).
"""

from __future__ import annotations

import time

import pytest
from trees import REST, RING, Tree, again, around, chain, number, place, ring, times, turn, work

from mkdocs_stitchcheck.counting import readings
from mkdocs_stitchcheck.counting.questions import Answers
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.results import Status


def disc(rounds: int) -> Tree:
    """6, 12, 18 ... in so many rounds."""
    tree = ring().round(2, work("inc", 6), count=12)
    for r in range(3, rounds + 1):
        tree.round(r, times(6, work("sc", r - 2), work("inc")), count=6 * r)
    return tree


# --- ranges and references ---------------------------------------------------------------------------------------


def test_a_range_is_replayed() -> None:
    tree = ring().round(2, work("inc", where=REST), last=7, count=384)  # hyperbolic class notes, N = 1
    line = tree.last()
    assert (line.worked, line.uses, line.makes, line.status) == (6, (6,), (384,), Status.CHECKED)
    assert line.each[0] == (6, 12) and line.each[-1] == (192, 384)
    assert line.stitches == {("", "inc"): 6 + 12 + 24 + 48 + 96 + 192}


def test_an_increase_in_a_range_that_is_for_one_round_only() -> None:
    tree = disc(4).round(5, times(6, work("sc", 3), work("inc")), last=7, count=30)
    tree.round(8, times(6, work("sc", 3), work("inc")), count=30)
    assert tree.rules() == ["range-changes-count"]
    message = tree.findings.items[0].message
    assert "Rnd 5 makes 30" in message and "Rnds 6 and 7 would then leave 6 over" in message
    assert tree.count().rounds[-1].uses == (24,)


def test_the_first_rounds_count_for_a_range_that_grows() -> None:
    tree = ring().round(2, work("inc", where=place("first")), work("sc", where=REST), last=4, count=7)
    tree.round(5, work("sc", where=REST), count=9)
    assert tree.rules() == ["range-changes-count"]


def test_a_range_with_a_wrong_count_is_wrong_in_each_round() -> None:
    tree = disc(4).round(5, work("sc", where=REST), last=7, count=25)
    tree.round(8, times(6, work("sc", 3), work("inc")), count=30)
    assert tree.rules() == ["count-mismatch"]
    assert "24 stitches in each of the three rounds; you wrote 25" in tree.findings.items[0].message


def test_one_line_for_several_rounds() -> None:
    tree = disc(2).round(3, work("sc", where=REST), count=12, length=4).round(7, work("dec", 6), count=6)
    assert tree.rules() == []
    assert tree.count().rounds[2].worked == 4


def test_a_count_for_each_round_of_a_range() -> None:
    for counts, rules in (((12, 24, 48), []), ((12, 25, 48), ["count-mismatch"]), ((12, 48), ["range-length"])):
        tree = ring().round(2, work("inc", where=REST), last=4)
        line = tree.pattern.pieces[0].lines[-1]
        assert isinstance(line, syntax.RoundLine)
        line.stated = tuple(syntax.Stated(9, 12, number=number(count)) for count in counts)
        assert tree.rules() == rules


@pytest.mark.parametrize(("last", "length", "wrong"), [(7, 4, True), (7, 3, False), (3, None, True)])
def test_the_length_of_a_range(last: int, length: int | None, wrong: bool) -> None:
    tree = disc(4).round(5, work("sc", where=REST), last=last, count=24, length=length)
    assert ("range-length" in tree.rules()) is wrong


def test_rows_again() -> None:
    tree = disc(3).round(4, again(2), count=36).round(5, again(3, 4, 2), last=8, count=1)
    assert tree.rules()[0] in ("stitches-left-over", "range-changes-count", "count-mismatch", "repeat-does-not-fit")
    fair = ring(8).round(2, work("sc", where=REST), count=8).round(3, work("sc", where=REST), count=8)
    fair.round(4, again(2, 3, 2), last=7, count=8).round(8, again(2), count=8)
    assert fair.rules() == []
    assert fair.count().rounds[3].worked == 4
    assert "range-length" in fair.round(9, again(2, 3, 3), last=12, count=8).rules()


def test_a_long_stretch_is_not_worked_round_by_round() -> None:
    tree = ring().round(2, work("inc", 6), count=12).round(3, work("dec", 6), count=6).line("step", again(2, 3, 400_000))
    began = time.process_time()
    line = tree.last()
    assert line.stitches == {("", "inc"): 2_400_000, ("", "dec"): 2_400_000}
    assert time.process_time() - began < 1


@pytest.mark.parametrize(
    ("step", "rule"),
    [(again(9), "unknown-round"), (again(3), "circular-reference"), (again(1, piece="Bodice"), "unknown-piece")],
)
def test_a_reference_that_leads_nowhere(step: syntax.Again, rule: str) -> None:
    tree = disc(2).round(3, step, count=12).round(4, work("sc", where=REST), count=12)
    assert tree.rules() == [rule]
    assert tree.count().rounds[-1].status is Status.CHECKED


def test_numbers_left_out_and_used_twice() -> None:
    assert disc(2).round(4, work("sc", where=REST), count=12).rules() == ["round-missing"]
    assert disc(2).round(2, work("sc", where=REST), count=12).rules() == ["round-twice"]
    odd = disc(2).round(3, work("sc", where=REST), count=12).round(5, work("sc", where=REST), count=12)
    assert odd.round(4, work("sc", where=REST), count=12).rules() == []


def test_more_than_can_be_counted() -> None:
    tree = ring().round(2, work("inc", where=place("first")), work("sc", where=REST), last=20_000)
    assert "number-out-of-range" in tree.rules()
    assert "number-out-of-range" in ring().round(2, work("inc", where=REST), last=40).rules()


def test_work_where_there_is_none() -> None:
    assert Tree().round(1, work("sc", where=REST), count=6).rules() == ["nothing-to-work-into"]
    fastened = ring().line("step", syntax.Aside(0, 0, "fasten-off")).round(2, work("inc", 6), count=12)
    assert fastened.rules() == ["after-fasten-off"]


# --- after a wrong round, and who is to blame ---------------------------------------------------------------------


def test_the_count_is_the_slip() -> None:
    tree = disc(2).round(3, times(6, work("sc"), work("inc")), count=19)
    tree.round(4, times(6, work("sc", 2), work("inc")), count=24)
    (finding,) = (tree.count(), tree.findings.items)[1]
    assert finding.message == "Rnd 3 makes 18 stitches; you wrote 19."
    assert finding.suggestion == "Rnd 4 works into 18, so the count is the likely slip: write (18)."
    assert finding.label == "works into 12 stitches and makes 18"
    assert [edit.text for edit in finding.edits] == ["18"] and finding.sure


def test_the_instruction_is_the_slip() -> None:
    tree = disc(2).round(3, times(5, work("sc"), work("inc")), count=18)
    tree.round(4, times(6, work("sc", 2), work("inc")), count=24)
    tree.count()
    first, second = tree.findings.items
    assert (first.rule, second.rule) == ("stitches-left-over", "count-mismatch")
    assert first.group == second.group is not None
    assert first.suggestion == "x 6 instead of x 5 agrees with the count and both neighbours."
    assert tree.count().rounds[-1].status is Status.CHECKED


def test_a_slip_of_the_finger() -> None:
    tree = disc(4).round(5, times(6, work("sc", 2), work("dc")), count=18).round(6, work("dec", 9), count=9)
    assert tree.rules() == ["stitches-left-over"]
    assert "dec for dc" in tree.findings.items[0].suggestion.lower()


def test_only_the_facts() -> None:
    steps = (work("sc", 3), work("inc"), work("sc", 3), work("inc"), work("sc", 3))
    tree = ring(12).round(2, *steps, count=14).round(3, work("sc", where=REST), count=14)
    tree.count()
    assert all(not finding.edits and not finding.alternatives for finding in tree.findings.items)
    assert tree.findings.items[0].suggestion == "Rnd 3 works into 14, so the instruction is the likely slip."


def test_two_repairs_are_named_with_or() -> None:
    tree = ring(11).round(2, work("sc", 4), work("inc"), work("sc", 4), count=12).round(3, work("sc", 12), count=12)
    tree.count()
    assert " or " in tree.findings.items[0].suggestion and len(tree.findings.items[0].alternatives) == 2


def test_a_repeat_that_does_not_fill_the_round() -> None:
    tree = disc(3).round(4, around(work("sc", where=place("next", 3)), work("inc")), count=24)
    tree.round(5, work("sc", where=REST), count=24)
    assert tree.rules() == ["repeat-does-not-fit"]
    assert "groups of 4, which do not fill 18 stitches: 2 remain" in tree.findings.items[0].message
    assert tree.count().rounds[-1].status is Status.CHECKED


def test_what_follows_from_a_line_that_is_not_read() -> None:
    tree = disc(2)
    tree.round(3, count=None)
    tree.pattern.pieces[-1].lines[-1].steps = None  # type: ignore[attr-defined]
    tree.round(4, work("sc", where=REST)).round(5, work("dec", 6), count=6).round(6, work("sc", where=REST), count=6)
    statuses = [line.status for line in tree.count().rounds]
    assert statuses[2:] == [Status.UNREAD, Status.ON_TRUST, Status.ON_TRUST, Status.CHECKED]


def test_words_that_cannot_be_counted() -> None:
    tree = disc(2).round(3, syntax.Trust(0, 0, "evenly"), count=18).round(4, work("sc", where=REST), count=18)
    assert tree.rules() == ["on-trust"]
    assert [line.status for line in tree.count().rounds][2:] == [Status.ON_TRUST, Status.CHECKED]


# --- one reading for the whole pattern ----------------------------------------------------------------------------


def star(many: int, *body: syntax.Step) -> syntax.Repeat:
    return syntax.Repeat(0, 0, body, number(many), "times", "star", mark="*")


def test_six_in_all_by_the_letter() -> None:
    assert disc(2).round(3, star(5, work("sc"), work("inc")), count=18).rules() == []


def test_a_reading_is_chosen_for_the_whole_pattern() -> None:
    tree = disc(2).round(3, star(6, work("sc"), work("inc")), count=18)
    tree.round(4, star(6, work("sc", 2), work("inc")), count=24)
    assert tree.rules() == []
    assert ("star-repeat", "rep from * 5 times is 5 in all") in [(r.question, r.answer) for r in tree.count().readings]


def test_one_round_alone_is_a_guess() -> None:
    assert disc(2).round(3, star(6, work("sc"), work("inc")), count=18).rules() == ["reading-guessed"]


def test_a_declared_reading_binds() -> None:
    tree = Tree(readings={"star-repeat": "all"}).round(1, work("sc", 6, RING), count=6)
    tree.round(2, star(6, work("inc")), count=12)
    assert tree.rules() == []
    assert tree.count().readings[0].why == "declared"


def test_two_in_one() -> None:
    tree = ring().round(2, work("sc", 2, REST), count=12)
    tree.round(3, times(6, work("sc"), work("sc", 2, number_first=True)), count=18)
    tree.round(4, times(6, work("sc"), work("sc"), work("sc", 2, number_first=True)), count=24)
    assert tree.rules() == []


def test_a_list_is_repeated() -> None:
    tree = disc(2).round(3, work("sc"), work("inc"), count=18).round(4, work("sc", 2), work("inc"), count=24)
    assert tree.rules() == []


def test_nothing_decides_on_hdc() -> None:
    tree = Tree().round(1, work("fhdc", 20), count=20, kind="row")
    tree.row(2, chain(2, True), turn(), work("hdc", where=REST), count=20)
    assert tree.rules() == ["reading-undecided"]


def test_own_words_are_evidence_for_silent_rows() -> None:
    tree = Tree().line("foundation", chain(43))
    tree.row(1, work("hdc", where=place("chain", 3)), work("hdc", where=REST), count=42)
    tree.row(2, chain(2, True, counts_as=()), turn(), work("hdc", where=REST), count=41)
    assert tree.rules() == ["count-mismatch"]
    finding = tree.findings.items[0]
    assert finding.message == "Row 1 makes 41 stitches; you wrote 42. The skipped chains do not count, as Row 2 says."
    assert finding.suggestion.endswith("write (41).")


def test_a_chain_one_is_no_stitch_though_one_row_would_pass_so() -> None:
    tree = Tree().line("foundation", chain(9))
    tree.row(1, work("sc", where=place("chain", 2)), work("sc", where=REST), count=9)
    tree.row(2, chain(1, True), turn(), work("sc", where=REST), count=8)
    assert tree.rules() == ["count-mismatch"]


def test_the_most_rounds_win() -> None:
    line = syntax.RoundLine("round", Tree()._statement("x"), None, ())
    speakers = [readings.Speaker(line, ("slip-stitches",), lambda a, y=yes: a["slip-stitches"] is y) for yes in (False, False, True)]
    choice = readings.choose(Answers(), speakers, [], readings.Counter({"slip-stitches": 3}))
    assert choice.answers.get("slip-stitches") is False
    assert not choice.guessed and not choice.undecided

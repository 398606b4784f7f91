"""Uses and makes of every kind of step, on trees made by hand.

The table of elementary stitches, foundations and ovals: common practice, no source (2.1, 2.2 and 2.5 of the trade's
arithmetic); published checks ch 95 -> 93, ch 210 -> 209: seen in published patterns.
"""

from __future__ import annotations

import pytest
from trees import REST, RING, Tree, around, chain, number, place, ring, stitch, times, turn, work

from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.results import Status

GROUP = (work("sc"), work("hdc"), work("dc"))


@pytest.mark.parametrize(
    ("steps", "uses", "makes"),
    [
        ((work("sc", where=REST),), 12, 12),
        ((work("inc", where=REST),), 12, 24),
        ((work("dec", where=REST),), 12, 6),
        ((work("sc3tog", 4),), 12, 4),
        ((work("sc", 2, REST),), 12, 24),
        ((times(4, work("sc", 2), work("inc")),), 12, 16),
        ((times(3, work("sc", 2), work("inc"), counting="more"),), 12, 16),
        ((around(work("sc"), work("inc")),), 12, 18),
        ((work("sk", 2), work("sc", where=REST)), 12, 10),
        ((work("sc", where=place("to_last", 2)), work("dec")), 12, 11),
        ((work("sc", where=REST), work("inc", where=place("last"))), 12, 13),
        ((syntax.Group(0, 0, GROUP, place(REST)),), 12, 36),
        ((work("sc", 6, place("next", 6)), work("sc", 3, place("next", 2)), work("sc", 4)), 12, 16),
        ((work("sc", 11), work("sc", 1, place("same")), work("sc")), 12, 13),
        ((work("dec", where=place("next", 3), spread=True), work("sc", 9)), 12, 10),
        ((syntax.Spread(0, 0, number(3), stitch("inc")),), 12, 15),
        ((syntax.Spread(0, 0, number(3), stitch("dec")),), 12, 9),
        ((work("sc", where=REST), syntax.More(0, 0, (work("sc", 3),))), 12, 12),
        ((work("sc", where=REST), work("sl st")), 12, 12),
        ((work("sc", 8), work("sl st", 4)), 12, 12),
        ((work("sc", where=REST), syntax.Join(0, 0)), 12, 12),
        ((syntax.Join(0, 0, stitch("sc")), work("sc", 11)), 12, 12),
        ((work("sc", 4), chain(4), work("sk", 4), work("sc", 4)), 12, 12),
        ((around(work("sc"), chain(1), work("sk", 1)),), 12, 12),
        ((around(work("sk", 1), work("sc"), chain(1)),), 12, 12),
        ((around(work("sc"), chain(2)),), 12, 12),
        ((work("picot"), work("sc", where=REST)), 12, 12),
        ((work("sc", 8), syntax.Leave(0, 0, number(4))), 8, 8),
        ((work("sc", 8), turn()), 8, 8),
        ((around(work("sc", 3), work("inc"), extent="to_last", left=number(4)), work("sc", 4)), 12, 14),
        ((around(work("sc"), work("sk", 1), work("sc"), extent="ending", ending=(work("sc"),)),), 12, 8),
    ],
)
def test_a_round_uses_and_makes(steps: tuple[syntax.Step, ...], uses: int, makes: int) -> None:
    tree = ring(12).round(2, *steps, count=makes)
    line = tree.last()
    assert (line.uses, line.makes, line.status) == ((uses,), (makes,), Status.CHECKED)
    assert tree.findings.items == []


def test_a_ring_uses_nothing() -> None:
    assert ring().last().uses == (0,)


@pytest.mark.parametrize(
    ("key", "chains", "first", "makes"),
    [("sc", 9, 2, 8), ("hdc", 43, 3, 41), ("hdc", 9, 2, 8), ("dc", 95, 4, 93), ("tr", 20, 5, 17), ("dtr", 20, 6, 16)],
)
def test_a_foundation_chain(key: str, chains: int, first: int, makes: int) -> None:
    tree = Tree().line("foundation", chain(chains))
    tree.row(1, work(key, where=place("chain", first)), work(key, where=place("rest", each=True)), count=makes)
    assert tree.last().makes == (makes,)
    assert "count-mismatch" not in [finding.rule for finding in tree.findings.items]


def test_a_slip_stitch_into_the_last_chain_is_a_stitch() -> None:
    tree = Tree().line("foundation", chain(13))
    steps = (work("sc", where=place("chain", 2)), work("sc", 10), work("sl st", where=place("last", noun="chain")))
    assert tree.row(1, *steps, count=12).rules() == []


def test_a_stitch_and_a_space_along_a_chain() -> None:
    tree = Tree().line("foundation", chain(210))
    body = (chain(1), work("sk", 1), work("sc", where=place("next", noun="chain")))
    assert tree.row(1, work("sc", where=place("chain", 2)), around(*body), count=209).rules() == []


@pytest.mark.parametrize(
    ("chains", "first", "tip", "back", "end", "makes"),
    [(10, 1, 1, 9, 0, 18), (7, 1, 3, 4, 2, 14), (10, 2, 4, 7, 2, 22), (11, 3, 3, 8, 0, 22)],
)
def test_both_sides_of_a_chain(chains: int, first: int, tip: int, back: int, end: int, makes: int) -> None:
    steps: list[syntax.Step] = [
        work("sc", first, place("chain", 2)), work("sc", chains - 3), work("sc", tip, place("last", noun="chain")),
        syntax.OtherSide(0, 0), work("sc", back),
    ]  # fmt: skip
    if end:
        steps.append(work("sc", end, place("last")))
    assert Tree().line("foundation", chain(chains)).round(1, *steps, count=makes).rules() == []


def test_the_rest_of_the_other_side_is_settled_by_the_count() -> None:
    for makes in (14, 13, 12):
        steps = (work("sc", where=place("chain", 2)), work("sc", 5), syntax.OtherSide(0, 0), work("sc", where=REST))
        tree = Tree().line("foundation", chain(7))
        assert tree.round(1, *steps, count=makes - 2).rules() == []


def test_around_straight_into_a_chain_goes_along_both_sides() -> None:
    tree = Tree().line("foundation", chain(8))
    assert tree.round(1, work("sc", where=place("chain", 2)), work("sc", where=REST), count=14).rules() == []


def test_a_turning_chain_that_counts_is_the_first_stitch() -> None:
    tree = Tree().line("foundation", chain(22))
    tree.row(1, work("dc", where=place("chain", 4)), work("dc", where=REST), count=20)
    tree.row(2, chain(3, True), turn(), work("dc", where=REST), count=20)
    said = chain(3, True, counts_as=(("dc", 1),))
    tree.row(3, said, turn(), work("sk", where=place("first")), work("dc", 18), work("dc", where=place("last")), count=20)
    tree.row(4, chain(3, True), turn(), work("dc", where=place("same")), work("dc", where=REST), count=21)
    assert tree.rules() == []


def test_a_turning_chain_at_the_end_belongs_to_the_next_row() -> None:
    tree = Tree().line("foundation", chain(22))
    tree.row(1, work("dc", where=place("chain", 4)), work("dc", where=REST), chain(3, True), turn(), count=20)
    assert tree.row(2, work("dc", 19), count=20).rules() == []


def test_a_stitch_longer_chain_is_a_stitch_and_a_space() -> None:
    tree = ring(12)
    tree.round(2, chain(5, True, counts_as=(("dc", 1), ("ch", 2))), work("dc", 11), count=12)
    tree.round(3, syntax.Group(0, 0, (work("sc"), work("sc")), place("space", each=True)), count=2)
    assert tree.rules() == []


def test_layers_give_half() -> None:
    for stitches, halves in ((6, (3,)), (9, (4, 5))):
        for half in halves:
            tree = ring(stitches).line("step", work("sc", where=place(REST, layers=2)), count=half)
            assert tree.rules() == []
            assert tree.count().pieces[0].flattened
    assert "stitches-left-over" not in ring(8).line("step", work("sc", where=place(REST, layers=2)), count=5).rules()


def test_what_waits_can_be_taken_up() -> None:
    tree = ring(24).round(2, work("sc", 18), syntax.Leave(0, 0), count=18).round(3, work("sc", 24), count=24)
    assert tree.rules() == []


def test_materials_by_color() -> None:
    tree = Tree()
    tree.pattern.pieces[0].color = "A"
    tree.round(1, work("sc", 6, RING), count=6)
    change = syntax.ColorChange(0, 0, "B", "B", last_stitch=True)
    tree.round(2, work("inc", 6), change, count=12)
    tags = (syntax.ColorChange(0, 0, "A", "A"), work("sc"), syntax.ColorChange(0, 0, "B", "B"), work("sc"))
    tree.round(3, times(6, *tags), count=12)
    piece = tree.count().pieces[0]
    assert piece.rounds[1].stitches == {("A", "inc"): 6}
    assert piece.rounds[2].stitches == {("A", "sc"): 6, ("B", "sc"): 6}
    assert (piece.rounds[2].color, piece.rounds[2].colors) == ("B", ("A", "B"))
    assert piece.stitches == {("A", "sc"): 12, ("A", "inc"): 6, ("B", "sc"): 6}


def test_a_color_that_runs_over_from_one_pass_to_the_next() -> None:
    body = (work("sc"), syntax.ColorChange(0, 0, "B", "B"), work("sc"))
    assert ring(12).round(2, times(6, *body)).last().stitches == {("", "sc"): 1, ("B", "sc"): 11}


def test_kinds_are_each_counted() -> None:
    body = (work("sc", 2), chain(2))
    kinds = [syntax.KindCount(0, 0, number(12), "sc"), syntax.KindCount(0, 0, number(6), "space")]
    right = syntax.Stated(0, 3, "kinds", parts=tuple(kinds))
    assert ring(12).round(2, times(6, *body), count=right).rules() == []
    kinds[1] = syntax.KindCount(0, 0, number(5), "space")
    wrong = syntax.Stated(0, 3, "kinds", parts=tuple(kinds))
    assert ring(12).round(2, times(6, *body), count=wrong).rules() == ["count-mismatch"]


def test_nothing_is_expanded() -> None:
    tree = ring(1000)
    assert tree.round(2, times(1000, work("inc", 1)), count=2000).last().makes == (2000,)
    assert ring().round(2, times(10**6, times(10**6, work("sc")))).rules() == ["number-out-of-range"]


def test_each_size_is_worked_by_itself() -> None:
    tree = Tree(sizes=("S", "M"))
    sizes = syntax.Work(0, 0, stitch("sc"), number(6, 8), place(RING))
    tree.round(1, sizes, count=(6, 8))
    tree.round(2, work("inc", where=REST), count=(12, 16))
    tree.round(3, syntax.Repeat(0, 0, (work("sc"), work("inc")), number(6, 8)), count=(18, 25))
    line = tree.last()
    assert (line.uses, line.makes, line.stated) == ((12, 16), (18, 24), (18, 25))
    (finding,) = tree.findings.items
    assert finding.message.startswith("Size M: Rnd 3 makes 24 stitches")

"""The checker against stitches counted one by one: right patterns at random, and the oracle against the trade's tables.

Long runs: ``python -m tests.oracle --rounds 10000 --seed N``.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest
from oracle import counts, forms, generate, hands, labels, repeats, rounds, rows
from oracle.compare import compare
from oracle.lace import generate_lace
from oracle.lines import ANY
from oracle.pieces import KINDS
from oracle.sizes import generate_sized

from mkdocs_stitchcheck import check_text

LINES_A_SEED = 50
SEEDS = range(30)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_checker_agrees_with_hands(seed: int) -> None:
    tally = compare(LINES_A_SEED, seed, lambda text: check_text(text, "oracle.md"))
    assert tally.lines >= LINES_A_SEED
    if tally.wrong:
        pytest.fail("\n\n".join(f"{one}\n{one.text}" for one in tally.wrong[:3]), pytrace=False)


@pytest.mark.parametrize("seed", range(100, 108))
def test_the_checker_agrees_with_lace_laid_out_place_by_place(seed: int) -> None:
    tally = compare(LINES_A_SEED, seed, lambda text: check_text(text, "oracle.md"), make=generate_lace)
    assert tally.lines >= LINES_A_SEED
    if tally.wrong:
        pytest.fail("\n\n".join(f"{one}\n{one.text}" for one in tally.wrong[:3]), pytrace=False)


def edge(n: int, kind: str = "sc") -> list[hands.Loop]:
    return [hands.Loop(kind)] * n


def makes(steps: Sequence[hands.Step], n: int, kind: str = "sc") -> int:
    return len(hands.worked(steps, edge(n, kind)).made)


@pytest.mark.parametrize(("base", "stitch"), [(6, "sc"), (8, "hdc"), (12, "dc"), (16, "tr")])
def test_flat_circles_by_hand(base: int, stitch: str) -> None:
    # Count in round r is base x r (sc, hdc and dc: common practice, no source; tr: from memory).
    made = makes([hands.ring(stitch, base)], 0)
    for r in range(2, 9):
        made = makes([hands.times([hands.plain(stitch, r - 2), hands.into_one([stitch] * 2)], base)], made)
        assert made == base * r


@pytest.mark.parametrize(
    ("chains", "first", "counts", "stitches"),
    # Published foundations (common practice, no source): chains, chain of the first stitch, whether the skipped chains
    # count, stitches of the first row.
    [
        (95, 4, True, 93),
        (210, 2, False, 209),
        (32, 3, False, 30),
        (176, 4, True, 174),
        (180, 4, True, 178),
        (38, 4, True, 36),
        (38, 4, False, 35),
        (24, 2, False, 23),
        (29, 2, False, 28),
        (40, 2, False, 39),
    ],
)
def test_foundations_by_hand(chains: int, first: int, counts: bool, stitches: int) -> None:
    worked_into = edge(chains, "ch")[first - 1 :]
    steps = [hands.ring("dc", 1)] * counts + [hands.rest("dc")]
    assert len(hands.worked(steps, worked_into).made) == stitches


def test_increases_on_every_chain_by_hand() -> None:
    # ch 26; 1 dc in the 4th, 2 dc in each other chain, the skipped chains count: 46 (common practice, no source).
    steps = [hands.ring("dc", 1), hands.plain("dc"), hands.until([hands.into_one(["dc", "dc"])])]
    assert makes(steps, 23, "ch") == 46


def test_legs_joined_by_hand() -> None:
    # a + b + 2c: 20 + 4 + 20 + 4 = 48; 18 + 3 + 18 + 3 = 42 (common practice, no source).
    assert makes([hands.rest("sc")], 20 + 4 + 20 + 4) == 48
    assert makes([hands.plain("sc", 18), hands.plain("sc", 3), hands.plain("sc", 18), hands.plain("sc", 3)], 42) == 42


def test_hyperbolic_rows_by_hand() -> None:
    # Ratio 2 : 1 from 6: 6, 12, 24 ... 384 (Henderson & Taimina, Crocheting the Hyperbolic Plane, 2001); from 20 with
    # every fourth stitch doubled: 25.
    made, seen = 6, [6]
    for _ in range(6):
        made = makes([hands.until([hands.into_one(["sc", "sc"])])], made)
        seen.append(made)
    assert seen == [6, 12, 24, 48, 96, 192, 384]
    assert makes([hands.until([hands.plain("sc", 3), hands.into_one(["sc", "sc"])])], 20) == 25


def test_hands_notice_what_does_not_come_out() -> None:
    with pytest.raises(hands.RanOut):
        makes([hands.times([hands.plain("sc", 2), hands.into_one(["sc", "sc"])], 6)], 20)
    with pytest.raises(hands.RanOut):
        makes([hands.plain("sc", 5)], 6)
    with pytest.raises(hands.RanOut):
        makes([hands.until([hands.together("sc")])], 7)
    with pytest.raises(hands.RanOut):
        makes([hands.until([hands.plain("sc", 2), hands.into_one(["sc", "sc"])])], 20)


def test_the_generator_is_the_same_for_a_seed() -> None:
    assert generate(11).text == generate(11).text
    assert generate(11).expected == generate(11).expected
    assert generate(11).text != generate(12).text


def test_every_form_is_met_and_what_is_stated_is_what_was_made() -> None:
    met: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    for seed in range(1500):
        case = generate(seed)
        written = case.text.split("\n")
        for one in case.expected:
            met.update(one.forms)
            kinds[one.of] += 1
            assert one.stated in (None, ANY, one.makes)
            assert one.label.split("\n")[0].split()[0] in written[one.line - 1]
    tables = (
        forms.PLAIN,
        forms.PLAIN_ALL,
        forms.INC,
        forms.INCS,
        forms.INC_ALL,
        forms.INTO_ONE,
        forms.DEC,
        forms.DECS,
        forms.DEC_ALL,
        forms.TOGETHER,
        forms.SKIP,
        forms.LAST,
        forms.RING,
        repeats.TIMES_OVER,
        repeats.ALL_AROUND,
        repeats.TO_LAST,
        repeats.ENDING,
    )
    assert [form.name for table in tables for form in table if not met[form.name]] == []
    assert set(rounds.KINDS) <= set(kinds)
    assert {shape[0] for shape in rows.SHAPES} <= set(kinds)


def test_tables_name_a_form_once() -> None:
    for table in (forms.PLAIN, forms.INC, forms.DEC, repeats.TIMES_OVER, repeats.ALL_AROUND):
        assert len({form.name for form in table}) == len(table)
    assert all(family.single and family.stretch for family in (*labels.ROUNDS, *labels.ROWS))
    assert len(KINDS) >= 9
    assert len(counts.TOTAL) >= 30


@pytest.mark.parametrize("seed", range(12))
def test_every_size_agrees_with_hands(seed: int) -> None:
    tally = compare(LINES_A_SEED, seed, lambda text: check_text(text, "oracle.md"), make=generate_sized)
    assert tally.lines >= LINES_A_SEED
    if tally.wrong:
        pytest.fail("\n\n".join(f"{one}\n{one.text}" for one in tally.wrong[:3]), pytrace=False)

"""Numbers changed by one in right patterns must be noticed: the check on the checks.

See ``mutants.py``; ``python -m tests.mutants site_example --survivors`` prints the table and what went unnoticed.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import mutants
import pytest
from case_files import CASES, all_cases

from mkdocs_stitchcheck import check_text

SITE = Path(__file__).parent.parent / "site_example"
# Where a number changed by one goes unnoticed: the case, and why no count can tell.
EXPLAINED = {
    **dict.fromkeys((
        "joining/legs_in_words: Told on a line before the round, the stitch of the join not among those of the round",
        "joining/legs_in_words: Told on a line before the round, the stitch of the join among them",
        "joining/legs_in_words: A chain from the second leg", "joining/legs_in_words: The join told at the end of the legs",
    ), "the stitch of the join may be among those that the round names for its leg, or one more: both are right"),
    "joining/layers_and_legs: An odd number flattened": "of 2k + 1 stitches k or k + 1 may come: both are right",
    "rows/edgings: Around a washcloth, in three ways to count the corners": "another number in the corners, counted in another of the three ways",
    "rows/edgings: Two stitches in each row end of dc, and two to every three rows": "two to three of 20 rows may be 13 or 14",
    "editor/multiples: A multiple in the note, the heading, the chain's own line": "the multiple may be of chains or of stitches: both are let pass",
    **dict.fromkeys((
        "spaces/groups_named: One corner of four with a longer chain", "spaces/groups_named: Two corners of four with a longer chain",
    ), "all corners alike, or two pairs or three kinds of them, are as long as the writer says"),
    "spaces/groups_named: A count of the dc alone beside meshes": "the count names the dc alone, and no row works into the mesh",
    "pages/blocks: A block that the site never shows": "it is not checked, and a warning says so",
    "readings/questions: A reading that rests on one round": "the other reading fits, and a warning says so",
    "repeats/extents: Sc to the last stitch, then a step": "the increase moves, and what remains makes up for it",
    "rows/short_rows: Moving the start of the round": "how far the start moves changes no count",
    **dict.fromkeys((
        "sizes/lists: A hat in four sizes", "sizes/lists: Hyphens between the larger sizes", "sizes/lists: Not for this size",
        "sizes/lists: With two sizes the last bracket is the count", "sizes/whole_pieces: Mittens with a thumb",
        "sizes/whole_pieces: A yoke top in five sizes",
    ), "what is worked to the end makes up for the number before it"),
    "spaces/joins: A join that counts as the last space": "the space is as long as the writer says, whatever the chain",
    "rounds/ranges: A number of rounds, a full stop, and the count with its stitch": "no round follows to tell how many there are",
    **dict.fromkeys((
        "spaces/groups_and_mesh: A pineapple", "spaces/groups_and_mesh: A doily in vintage wording", "spaces/groups_and_mesh: A shell blanket",
    ), "rounds that state no count, or groups and spaces counted without their stitches and chains"),
    "styles/pasted: Bartholomew the pond newt": "a number alone behind a step through both layers is not read as its count",
    "spaces/whole_motifs: A solid square": "a corner whose length no count and no round behind it names is as long as the writer says",
    "spaces/vintage: A mat with a full stop behind every short word": "the height of a turning chain changes no count",
    "stitches/decreases: Decreasing to a number over rounds without a count": "on trust",
    **dict.fromkeys((
        "stitches/increases: An explanation after the increase", "rounds/copied: Stars that close before a number of times",
    ), "the words in brackets only explain the increase"),
    "stitches/plain: Elementary stitches": "dc3tog over 3 and dc2tog over 3 skipping the middle both make one of three",
    "words/other_languages: German: rows with turning chains": "the height of a turning chain counts for nothing",
    "words/other_languages: German: taller stitches": "slip stitches may count or not: the other reading fits, and a warning says so",
    "rounds/said_once: Chains that count, in a sentence": "a sentence on other chains than the rounds have changes nothing",
    **dict.fromkeys((
        "spaces/corner_to_corner: A cloth that grows to eight blocks and shrinks again",
        "spaces/corner_to_corner: In other words, with the times written out",
    ), "a remark on how rows grow is held against no count; a turned row stands on its first stitch, which some slip over and some don't; "
       "a pair of blocks too few to tell which of two chains is the slip"),
    "docs/patterns/mudflat-cloth.md": "a turned row stands on its first stitch, which some slip over and some don't",
    "spaces/corner_to_corner: Smaller blocks, in UK terms": "too few blocks to tell which is the usual one",
    "spaces/rows_go_back: Filet that is not the same from both ends": "no row goes into the last one's spaces, and its count names no chains",
    "docs/patterns/gull-path-runner.md": "what the skipped chains of a first mesh are made of; one stitch before a space is passed over in silence",
    "docs/patterns/teasel-bookmark.md": "what stands between the last stitch and a shell whose space comes next is passed over in silence",
    "docs/patterns/foam-doily.md": "slip stitches along a loop to its middle, and the height of a turning chain, change no count",
    "docs/patterns/scallop-blanket.md": "the first sc is the one under the chain or the one after it: either fits",
    "starts/own_chains: Strands of hair": "how long strands are is for the writer to say",
    "starts/both_sides_in_words: A leaf, the same again on the other side": "the chains at the tip are no stitches",
    "words/notes: Words that cannot be counted": "on trust",
    "styles/strangers: Ruprecht the turnip": "the slip stitch at the end of the leaf may be the join: with a stitch more before it, it is",
    "words/strangers: Hollyhock pencil pouch": "chains beside the stitches of a petal change no count, and petals are not counted by their repeat",
    "spaces/place_first: Into each loop, a petal": "the base of a chain is one place, however long the chain is called",
    "spaces/place_first: A chain for a loop to hang it by": "a loop is as long as the writer says",
    "spaces/place_first: A chain in place of the first stitch": "the height of a turning chain changes no count",
    "words/strangers: Posy the picnic bear": "a picot spelled out is as long as the writer says, and not counted by its repeat",
}


def right_pages() -> Iterator[tuple[str, str]]:
    """Everything in the example site, and the cases that are right as they stand (the rest give no mutants)."""
    yield from ((str(Path(path).relative_to(SITE)), text) for path, text in mutants.pages_at([SITE]))
    for folder in sorted({slips.parent for slips in CASES.rglob("slips.tsv")}):
        yield from ((Path(path).name, text) for path, text in mutants.pages_at(sorted(folder.glob("*.md"))))
    for case in all_cases():
        yield f"{case.name}|{case.path}", case.text


def _name(path: str) -> str:
    """What a page is called in EXPLAINED: the case, or the page of the example site."""
    return path.rpartition("|")[0] or path


@pytest.fixture(scope="module")
def table() -> mutants.Table:
    return mutants.table_of(right_pages(), lambda text, path: check_text(text, path.rpartition("|")[2]))


def test_numbers_changed_by_one_are_noticed(table: mutants.Table) -> None:
    unexplained = [m.name for m in table.survivors if _name(m.path) not in EXPLAINED]
    print(table)
    assert sum(table.made.values()) > 3000
    assert table.share_found() >= 0.99, "\n".join([str(table), *unexplained])
    assert unexplained == []


def test_every_explanation_is_still_needed(table: mutants.Table) -> None:
    assert set(EXPLAINED) == {_name(m.path) for m in table.survivors} & set(EXPLAINED)


def test_the_example_site_is_right(table: mutants.Table) -> None:
    # The bookmark is the site's page that is listed as not yet cleared: its slip is there on purpose.
    assert [path for path in table.wrong_pages if "|" not in path] == ["docs/patterns/heron-bookmark.md"]


@pytest.mark.parametrize(("kind", "share"), [("regular", 0.90), ("staggered", 0.75)])
def test_the_edit_named_undoes_the_slip(table: mutants.Table, kind: str, share: float) -> None:
    missed = [f"{m.name}: {m.offered}" for m in table.not_undone if m.target.kind == kind]
    print(table)
    assert table.found[kind] >= 40
    assert table.share_undone(kind) >= share, "\n".join([str(table), *missed])


@pytest.mark.parametrize(
    ("line", "kind", "numbers"),
    [
        ("Rnd 3: (sc, inc) x 6 (18)", "regular", "6 18"),
        ("Rnd 4: *sc in next 2 sts, inc; rep from * around (24)", "regular", "2 24"),
        ("Rnd 9: 2 sc, inc, (4 sc, inc) x 5, 2 sc (36)", "staggered", "2 4 5 2 36"),
        ("Rnd 8: [sc 3, inc] six times = 30", "regular", "3 30 six"),
        ("Rnds 5-7: sc in each st around (24)", "range", "24"),
        ("Row 2: ch 1, turn, dec, sc in next 6 sts (7)", "row", "6 7"),
        ("Row 1: hdc in 3rd ch from hook and in each ch across (41)", "row", "41"),
        (
            "Rnd 1: sc in 2nd ch from hook, sc 2, 3 sc in last ch; on other side of ch: sc 2, inc in last (10)",
            "oval",
            "2 3 2 10",
        ),
        ("Rnd 6: as Rnd 5. You now have 24 sts", "plain", "24"),
        ("Ch 9.", "foundation", "9"),
        ("Rnd 17: sc around (36) @ 12:30", "plain", "36"),
        ("7) - 12) 1 sc in each st around. 30", "plain", "1 30"),
        ("Rnd 3: Sl st to next ch-2 sp, 3 dc between next 2 groups (3)", "spaces", "3 3"),
    ],
)
def test_the_scanner_finds_the_numbers_that_count(line: str, kind: str, numbers: str) -> None:
    found = mutants.targets(f"```crochet\n{line}\n```\n")
    assert [target.written for target in found] == numbers.split()
    assert {target.kind for target in found} == {kind}


@pytest.mark.parametrize(
    "line",
    [
        "Fasten off, leaving a 20 cm tail.",
        "Insert safety eyes between Rnds 7 and 8, with 6 stitches between them.",
        "> Rnd 3: 6 sc (6)",
        "# Ear (make 2)",
        "Rnd 5: sc around",
        "Hook: 2.5 mm",
        "Gauge: 26 sc x 28 rnds = 10 cm",
    ],
)
def test_the_scanner_leaves_other_numbers_alone(line: str) -> None:
    assert mutants.targets(f"```crochet\n{line}\n```\n") == []

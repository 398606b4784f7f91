"""What holds of every page, tried on pages put together from the parts that patterns are made of, right and wrong ones."""

from __future__ import annotations

import json
import random
import subprocess
import sys
from pathlib import Path

import pytest
from everything import PAGE, WAYS, checked
from hypothesis import given, settings
from hypothesis import strategies as st
from oracle import generate

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.report import report

HERE = Path(__file__).parent
NAMES = st.sampled_from(["Body", "Ears", "Left wing", "Sc", "Rnd 3", "<b>x</b>", "Öse", ""])
STITCHES = st.sampled_from(
    ["sc", "inc", "dec", "hdc", "dc", "tr", "ch", "sk", "sl", "bobble", "sc2tog", "inc3", "FPdc", "invdec", "dc2tog", "picot", "puff", "2sc", "blorp", "MC", "X"] + ["sl st", "2 sc in next st", "ch-2 sp"]
)
NUMBERS = st.one_of(st.integers(0, 40), st.sampled_from([99, 1000, 10**6, 10**18]))


@st.composite
def steps(draw: st.DrawFn, depth: int = 3) -> str:
    """What a round says: stitches, groups, repeats in all their spellings, nested."""
    kind = draw(st.integers(0, 12 if depth else 5))
    stitch, number = draw(STITCHES), draw(NUMBERS)
    if kind == 0:
        return f"{number} {stitch}"
    if kind == 1:
        return f"{stitch} in next {number} sts"
    if kind == 2:
        return f"{stitch} in each {draw(st.sampled_from(['st', 'ch', 'sc', 'ch-1 sp']))} {draw(st.sampled_from(['around', 'across', 'to end', 'to last 2 sts']))}"
    if kind == 3:
        return draw(
            st.sampled_from(
                ["change to color B", "join with sl st to first sc", "ch 3 (counts as dc)", "turn", "in BLO", "leave 3 sts unworked",
                 "6 sc in magic ring", "ch 1, turn", "in the next ch-2 sp, 3 dc", "with A, 3 sc", "place a marker"]
            )
        )  # fmt: skip
    if kind in (4, 5):
        return stitch
    inner = ", ".join(draw(st.lists(steps(depth - 1), min_size=0, max_size=4)))
    times = draw(st.sampled_from([f"x {number}", f"{number} times", "around", "across", "", "twice", f"repeat {number} times", "to end"]))
    if kind in (6, 7):
        return f"({inner}) {times}"
    if kind == 8:
        return f"[{inner}] {times}"
    if kind == 9:
        return f"*{inner}; rep from * {draw(st.sampled_from(['around', f'{number} more times', 'to last 3 sts', 'to *']))}"
    if kind == 10:
        return f"({inner}) in next st"
    return f"{inner}; {stitch}"


@st.composite
def lines(draw: st.DrawFn) -> str:
    """A line of a piece."""
    n = draw(st.integers(1, 12))
    label = draw(st.sampled_from([f"Rnd {n}: ", f"Rnds {n}-{n + 3}: ", f"Row {n} (WS): ", f"{n}. ", "Next rnd: ", "", f"Rnds {n}, {n + 2} and {n + 4}: "]))
    said = ", ".join(draw(st.lists(steps(), min_size=1, max_size=4)))
    count = draw(st.sampled_from(["", f" ({draw(NUMBERS)})", f" [{draw(NUMBERS)} sts]", " (12, 14)", f" = {draw(NUMBERS)}", " (6 sc, 2 ch-2 sps)"]))
    other = draw(
        st.sampled_from(
            [None, None, None, f"Rep Rnds {n}-{n + 1} twice.", f"Rnd {n + 1}: as Rnd {n}", "Fasten off.", "Stuff firmly.", "Ch 9.", "> note", ">> private",
             ">> right as written: so it is", "# Tail (make 2, color B)", "Row 2 (left): as for Body", "", "Sizes S only:", "12:30 the ears"]
        )
    )  # fmt: skip
    return f"{label}{said}{count}" if other is None else other


HEADERS = st.sampled_from(
    ["Title: A seal", "Terms: UK", "Terms: US", "Color A: slate, shown as #6d7a86", "Color B: red", "Sizes: S (M, L)", "Gauge: 20 sc x 22 rnds = 10 cm", "Hook: 4 mm",
     "Yarn: medium (4), 50 g = 85 m", "Special stitch: bobble = 5 dc tog; uses 1, makes 1", "Abbreviations: X = sc; V = inc", "Turning chain: counts as dc",
     "Draft: yes", "Show: chart, shape, size, yarn, rounds, abbreviations, materials", "Swatch: 20 sc x 20 rows = 12 g", "Terms: letters", "Terms: de"]
)  # fmt: skip


@st.composite
def pages(draw: st.DrawFn) -> str:
    """A page with a pattern, cut into blocks in one of the ways of a blog."""
    head = draw(st.lists(HEADERS, max_size=4))
    body = ["Rnd 1: 6 sc in magic ring (6)", *draw(st.lists(lines(), min_size=1, max_size=8))]
    if draw(st.booleans()):
        body.insert(0, f"# {draw(NAMES)}")
    around = draw(st.sampled_from(["", "", "> ", "- ", "    ", ">  - "]))
    fence = draw(st.sampled_from(["```", "```", "~~~", "````"]))
    block = [f"{fence}crochet", *head, *body, fence]
    return "\n".join(["# Page", "", *(around + line for line in block), "", "Words behind it."]) + "\n"


@pytest.mark.parametrize("way", WAYS)
@settings(max_examples=40, deadline=None)
@given(pages())
def test_nothing_fails_and_doing_it_again_changes_nothing(way: str, text: str) -> None:
    WAYS[way](text, PAGE)


@settings(max_examples=200, deadline=None)
@given(pages())
def test_places_are_in_the_text(text: str) -> None:
    checked(text)
    checked(text.replace("\n", "\r\n"))
    checked(text, "pattern.txt")


@pytest.mark.parametrize("way", WAYS)
def test_right_pages_and_what_slips_make_of_them(way: str) -> None:
    """Pages of the oracle, which use every form, each with one word changed for another of the same page."""
    for seed in range(12):
        text = generate(seed, 4).text
        chance = random.Random(seed)
        words = text.split(" ")
        at, other = chance.randrange(len(words)), chance.choice(words)
        WAYS[way](text, PAGE)
        WAYS[way](" ".join([*words[:at], other, *words[at + 1 :]]), PAGE)


def _told(texts: list[str]) -> dict[str, str]:
    return {text: report("json", [check_text(text, PAGE)]) for text in texts}


@settings(max_examples=30, deadline=None)
@given(st.lists(pages(), min_size=2, max_size=4, unique=True), st.randoms(use_true_random=False))
def test_the_order_of_pages_changes_nothing(texts: list[str], chance: random.Random) -> None:
    first = _told(texts)
    chance.shuffle(texts)
    assert _told(texts) == first


_IN_ORDER = """
import json, sys
from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.report import report
texts = json.load(sys.stdin)
json.dump([report("json", [check_text(text, "page.md")]) for text in texts], sys.stdout)
"""


def test_a_program_that_began_with_other_pages_says_the_same() -> None:
    """Nothing that is kept from one page for the next may show in what is said of it."""
    texts = [generate(seed, 5).text for seed in range(25)]
    texts += [text.replace("sc", "dc", 3) for text in texts[:8]] + [text.replace(" 6", " 7", 2) for text in texts[:8]]
    orders = [list(range(len(texts))), list(reversed(range(len(texts))))]
    orders.append(random.Random(1).sample(orders[0], len(texts)))
    found = []
    for order in orders:
        given_texts = json.dumps([texts[at] for at in order])
        ended = subprocess.run([sys.executable, "-c", _IN_ORDER], input=given_texts, capture_output=True, text=True, check=True, cwd=HERE.parent)
        found.append(dict(zip(order, json.loads(ended.stdout), strict=True)))
    assert found[0] == found[1] == found[2]

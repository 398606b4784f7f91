"""A pattern in several sizes on page and sheet: a column a size, and one size alone where a reader has chosen it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.estimates.effort import effort
from mkdocs_stitchcheck.estimates.yarn import yarn_table
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.render import render_block, stylesheet
from mkdocs_stitchcheck.render.by_size import of_size, sized
from mkdocs_stitchcheck.render.sheet import render_sheet
from mkdocs_stitchcheck.source import Source

SITE = Path(__file__).parent.parent / "site_example" / "docs" / "patterns"
CAP = """Title: Ebb cap
Terms: US
Sizes: S (M, L)
Yarn: medium (4), 100 g = 200 m
Color A: kelp, 40 (50, 60) g
Hook: 5 mm
Gauge: 14 sc x 16 rnds = 10 cm

# Cap (color A)
Rnd 1: 6 (7, 8) sc in magic ring (6 (7, 8))
Rnd 2: inc around (12 (14, 16))
Sizes M and L only: Rnd 3: (sc, inc) x – (7, 8) (– (21, 24))
Rnds 4-6 (8, 9): sc around (12 (21, 24))
Next rnd: sc in next 12 (21, 24) sts
"""


def page_of(text: str, prefix: str = "") -> str:
    page = f"```crochet\n{text}```\n"
    (block,) = find_blocks(Source(page, "cap.md"), Findings())
    return render_block(check_text(page, "cap.md"), block, prefix=prefix)


def words(html: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", html))


@pytest.mark.parametrize(
    ("text", "of_m"),
    [
        ("24 (30, 36) sts", "30 sts"), ("24(30, 36)", "30"), ("24 (30-36) sts", "30 sts"), ("24 (30:36)", "30"),
        ("24 [30, 36]", "30"), ("24/30/36", "30"), ("24 (30) [36]", "30"), ("sc in next – (–, 2) sts", "sc in next – sts"),
        ("34 (40, 46) cm around", "40 cm around"), ("5.5 (6, 6.5) cm", "6 cm"), ("(2 sc, inc) x 6 (7, 8)", "(2 sc, inc) x 7"),
        ("no list (at all)", "no list (at all)"),
    ],
)  # fmt: skip
def test_a_list_is_cut_into_its_sizes(text: str, of_m: str) -> None:
    assert of_size(text, 3, 1) == of_m
    assert words(str(sized(text, 3))) == text, "as written where no size is chosen"


def test_a_column_for_each_size() -> None:
    page = page_of(CAP)
    assert re.findall(r'class="sc-s sc-s(\d) sc-count"', page)[:3] == ["1", "2", "3"]
    row = re.search(r"<tr[^>]*>\s*<th[^>]*>Rnd 2</th>.*?</tr>", page, re.DOTALL)
    assert row is not None
    assert re.findall(r'data-size="(\w)">(\d+)</td>', row[0]) == [("S", "12"), ("M", "14"), ("L", "16")]
    last = re.search(r"<tr[^>]*>\s*<th[^>]*>Next rnd</th>.*?</tr>", page, re.DOTALL)
    assert last is not None
    assert re.findall(r">(\[\d+\])</td>", last[0]) == ["[12]", "[21]", "[24]"]


def test_rounds_and_boxes_of_some_sizes_are_marked() -> None:
    page = page_of(CAP)
    only = re.search(r"<tr([^>]*)>\s*<th[^>]*>Rnd 3</th>.*?</tr>", page, re.DOTALL)
    assert only is not None
    assert 'class="sc-s sc-s2 sc-s3"' in only[1]
    assert "Sizes M and L only: " in words(only[0])
    assert len(re.findall(r'aria-label="Rnd \d done"', page)) == 3 + 6  # rounds 4 to 9 in the largest
    assert '<span class="sc-s sc-s3"><input type="checkbox" aria-label="Rnd 9 done"' in page


def test_a_size_is_chosen_by_buttons_that_need_no_script() -> None:
    page = page_of(CAP)
    assert re.findall(r'class="sc-p1-(\d)"', page) == ["0", "1", "2", "3"]
    assert page.count('type="radio"') == 4 and "<script" not in page
    assert ".sc-p1 .sc-s{:has(.sc-p1-1:checked) &:not(.sc-s1),:has(.sc-p1-2:checked) &:not(.sc-s2)," in stylesheet()
    assert 'class="sc-p1"' in page


def test_in_a_list_of_posts_there_is_nothing_to_choose() -> None:
    assert "sc-p1-" not in page_of(CAP, prefix="cap")


def test_one_size_needs_no_choice() -> None:
    assert "sc-p1-" not in page_of("Title: Pebble\n# Pebble\nRnd 1: 6 sc in magic ring (6)\n")


def test_yarn_and_time_of_each_size_are_counted() -> None:
    pattern = check_text(CAP, "cap.txt").patterns[0]
    metres = [yarn_table(pattern, place=place).colors[0].metres for place in range(3)]
    stitches = [time.stitches for place in range(3) if (time := effort(pattern, place=place)) is not None]
    # By hand: ring, double, in M and L one more round, plain rounds and the last; an increase is one stitch worked.
    assert stitches == [6 + 6 + 12 * 4, 7 + 7 + 14 + 21 * 6, 8 + 8 + 16 + 24 * 7]
    assert metres[0] < metres[1] < metres[2]


def test_the_sheet_has_sizes_time_and_a_column_each() -> None:
    page = f"```crochet\n{CAP}```\n"
    file = check_text(page, "cap.md")
    sheet = render_sheet(file, file.patterns[0], address="https://example.org/cap/")
    assert "<h2>Sizes</h2>" in sheet and "<h2>Time</h2>" in sheet
    assert re.findall(r'<th scope="col" class="sc-s sc-s\d count"><bdi>(\w)</bdi>', sheet) == ["S", "M", "L"]
    assert 'class="screen"><fieldset' in sheet
    large = render_sheet(file, file.patterns[0], address="https://example.org/cap/", large=True)
    assert 'class="sc-s sc-s2 sc-s3"' in large


def test_rows_by_the_gauge_are_said() -> None:
    text = (SITE / "driftwood-beanie.md").read_text(encoding="utf-8")
    file = check_text(text, "b.md")
    page = "".join(render_block(file, block) for block in find_blocks(Source(text, "b.md"), Findings()))
    assert "(about 6 (7, 8, 10) rounds by the gauge)" in words(page)

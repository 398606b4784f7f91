"""The pages that the benchmarks measure: right, every round checked, and as different as they are said to be. Nothing is timed."""

from __future__ import annotations

import pytest
from bench.corpus import blog_page, pattern, sized

from mkdocs_stitchcheck import Status, check_text


@pytest.mark.parametrize("number", range(0, 120, 7))
def test_pages_of_a_blog(number: int) -> None:
    result = check_text(blog_page(number), "page.md")
    assert not result.fails(strict=True), result.findings
    rounds = result.patterns[0].rounds
    assert {line.status for line in rounds} <= {Status.CHECKED, Status.COUNTED}
    assert sum(line.worked for line in rounds) == 40
    assert blog_page(number) == blog_page(number) != blog_page(number + 1)


@pytest.mark.parametrize("length", [10, 100, 1_000])
def test_long_patterns(length: int) -> None:
    rounds = check_text(pattern(length), "page.md").patterns[0].rounds
    assert len(rounds) == length and all(line.status is Status.CHECKED for line in rounds)


@pytest.mark.parametrize("sizes", [1, 2, 9])
def test_patterns_in_sizes(sizes: int) -> None:
    rounds = [line for line in check_text(sized(30, sizes), "page.md").patterns[0].rounds if line.counts]
    assert len(rounds) == 30 and all(line.status is Status.CHECKED and len(line.makes) == sizes for line in rounds)


def test_a_slip_on_each_page_is_found() -> None:
    for number in range(20):
        text = blog_page(number)
        assert "inc x 6 (12)" in text
        assert check_text(text.replace("inc x 6 (12)", "inc x 6 (13)", 1), "page.md").fails()

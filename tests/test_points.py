"""The hundred points: every row says what becomes of it, and every checked point finds three slips planted in right pages.

``points/*.md`` are whole pages that are right; ``points/planted.tsv`` holds the slips: the point, the page, how a line of
it begins (the first that does), what it becomes (``\\n`` for a line end, nothing: it goes), the rule that finds it, and
wording of the message (pieces cut at ``...``).
"""

from __future__ import annotations

import csv
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import pytest
from test_cases import occurs, words_of

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.rules import DEFAULT_SEVERITIES
from mkdocs_stitchcheck.rules.points import CHECKED, HELPED, TOPICS, YOURS, Point, points

FOLDER = Path(__file__).parent / "points"
PAGES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.md"))}
LEAST = 3  # slips planted for each checked point


class Planted(NamedTuple):
    """One row of ``planted.tsv``."""

    point: int
    page: str
    line: str
    becomes: str
    rule: str
    says: str

    @property
    def name(self) -> str:
        return f"{self.point}:{self.rule}:{self.page}:{self.becomes[:40]}"


def planted() -> list[Planted]:
    with (FOLDER / "planted.tsv").open(encoding="utf-8", newline="") as file:
        rows = csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)
        return [Planted(int(row["point"]), row["page"], row["line"], row["becomes"], row["rule"], row["says"] or "")
                for row in rows]


SLIPS = planted()


def test_a_hundred_points() -> None:
    assert [point.number for point in points()] == list(range(1, 101))
    kinds = Counter(point.kind for point in points())
    assert set(kinds) == {CHECKED, HELPED, YOURS}
    assert kinds[CHECKED] >= 50 and kinds[CHECKED] + kinds[HELPED] >= 70
    assert {point.topic for point in points()} == set(TOPICS)


@pytest.mark.parametrize("point", points(), ids=lambda point: str(point.number))
def test_a_point_is_whole(point: Point) -> None:
    """A checked point names rules that exist and has slips for one of them; a question is a question."""
    assert set(point.rules) <= set(DEFAULT_SEVERITIES)
    assert point.says.endswith((".", "?"))
    own = [slip for slip in SLIPS if slip.point == point.number]
    assert {slip.rule for slip in own} <= set(point.rules)
    if point.kind == CHECKED:
        assert point.rules and len(own) >= LEAST
    if point.kind == YOURS:
        assert "?" in point.says and not point.rules


@pytest.mark.parametrize("page", PAGES)
def test_the_pages_are_right(page: str) -> None:
    found = check_text(PAGES[page], f"{page}.md").findings
    assert [finding.message for finding in found if finding.severity is not Severity.CAUTION] == []


@pytest.mark.parametrize("slip", SLIPS, ids=[slip.name for slip in SLIPS])
def test_a_planted_slip_is_found(slip: Planted) -> None:
    text = PAGES[slip.page]
    lines = text.split("\n")
    at = next(number for number, line in enumerate(lines) if line.startswith(slip.line))
    lines[at : at + 1] = slip.becomes.split("\\n") if slip.becomes else []
    changed = "\n".join(lines)
    assert changed != text
    before = {(finding.rule, finding.message) for finding in check_text(text, f"{slip.page}.md").findings}
    found = [finding for finding in check_text(changed, f"{slip.page}.md").findings
             if (finding.rule, finding.message) not in before or finding.rule == "small-parts"]
    told = "\n".join(f"{finding.span.line} {finding.rule}: {words_of(finding)}" for finding in found)
    named = [finding for finding in found if finding.rule == slip.rule]
    assert named, f"no {slip.rule}:\n{told}"
    assert any(all(occurs(piece, words_of(finding)) for piece in filter(None, slip.says.split(" ... "))) for finding in named), told

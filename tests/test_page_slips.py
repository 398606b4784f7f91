"""A whole page that is right as it stands, and the slips that are found when one of its lines is replaced.

``slips.tsv`` beside the page: the line, what it becomes, the rule reported, where (``any``: wherever), wording that the
message holds (pieces cut at ``... ``), and the rules of findings that truly follow and may come with it.
"""

from __future__ import annotations

import csv
from pathlib import Path
from typing import NamedTuple

import pytest
from case_files import CASES
from test_cases import occurs, words_of

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.findings import Finding, Severity
from mkdocs_stitchcheck.results import Status

FOLDERS = sorted(path.parent for path in CASES.rglob("slips.tsv"))


class Slip(NamedTuple):
    """One row of ``slips.tsv``."""

    page: Path
    line: int
    becomes: str
    rule: str
    at: str
    must_say: list[str]
    also: list[str]

    @property
    def name(self) -> str:
        return f"{self.page.stem}:{self.line}: {self.rule}: {self.becomes[:50]}"


def pages() -> list[Path]:
    return [next(folder.glob("*.md")) for folder in FOLDERS]


def slips() -> list[Slip]:
    found = []
    for page in pages():
        with (page.parent / "slips.tsv").open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE):
                also = [rule for rule in (row["also"] or "").split(",") if rule]
                found.append(
                    Slip(
                        page,
                        int(row["line"]),
                        row["becomes"],
                        row["rule"],
                        row["at"],
                        row["must_say"].split(" ... "),
                        also,
                    )
                )
    return found


def places(findings: list[Finding]) -> list[tuple[str, str]]:
    return [(finding.rule, finding.message) for finding in findings]


@pytest.mark.parametrize("page", pages(), ids=lambda page: page.stem)
def test_the_page_is_right(page: Path) -> None:
    result = check_text(page.read_text(encoding="utf-8"), page.name)
    assert [f for f in result.findings if f.severity not in (Severity.INFO, Severity.CAUTION)] == []
    lines = [line for pattern in result.patterns for line in pattern.rounds if line.counts]
    assert lines and {line.status for line in lines} == {Status.CHECKED}


def test_there_are_enough_slips() -> None:
    assert len(slips()) >= 35


@pytest.mark.parametrize("slip", slips(), ids=[slip.name for slip in slips()])
def test_slip(slip: Slip) -> None:
    text = slip.page.read_text(encoding="utf-8")
    clean = places(check_text(text, slip.page.name).findings)
    lines = text.split("\n")
    assert lines[slip.line - 1] != slip.becomes
    lines[slip.line - 1] = slip.becomes
    findings = check_text("\n".join(lines), slip.page.name).findings
    told = "\n".join(f"{f.span.line}:{f.span.column} {f.severity} {f.rule}: {words_of(f)}" for f in findings)
    named = [f for f in findings if f.rule == slip.rule and slip.at in ("any", str(f.span.line))]
    assert named, f"no {slip.rule} at line {slip.at}:\n{told}"
    group = named[0].group
    words = " ".join(words_of(f) for f in findings if f is named[0] or (group is not None and f.group == group))
    missing = [piece for piece in slip.must_say if not occurs(piece, words)]
    assert not missing, f"{missing} is not said:\n{told}"
    others = [
        f
        for f in findings
        if f not in named
        and (f.rule, f.message) not in clean
        and f.rule not in slip.also
        and f.severity != Severity.INFO
    ]
    assert not others, f"this does not follow from the slip:\n{told}"
    assert len(named) == 1, f"one slip is one finding:\n{told}"

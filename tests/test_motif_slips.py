"""Slips planted in motifs, lace, filet, blocks and colour grids: a space count, a corner, a group, a number of times, a
multiple, the chain to begin with, each one more and one fewer. All must be found, and the right text stays silent.

Left alone is what no count can tell: heights of turning chains, slip stitches to where a round begins, labels, and chains
and stitches of a last round that nothing names or goes into.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from case_files import all_cases

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.findings import Severity

SITE = Path(__file__).parent.parent / "site_example" / "docs" / "patterns"
LEAST = 0.99
MOTIFS = (
    "rock-pool-square", "salt-pan-square", "samphire-coaster", "scallop-blanket", "teasel-bookmark", "gull-path-runner",
    "mudflat-cloth", "sail-pot-holder", "foam-doily",
)  # fmt: skip
CASES = (
    "spaces/whole_motifs: A granny square in six rounds with an edging", "spaces/whole_motifs: A solid square",
    "spaces/whole_motifs: A hexagon of clusters", "spaces/motifs: A hexagon", "spaces/corner_to_corner: A cloth that grows",
    "spaces/rows_go_back: Filet", "rows/tapestry: A sail in two colours",
)  # fmt: skip
_LINE = re.compile(r"^(?:(?:Rnd|Row|Ch)s? ?\d|\d+(?:st|nd|rd|th) (?:rnd|row)|# .*multiple)", re.IGNORECASE)
_LABEL = re.compile(r"^(?:(?:Rnds?|Rows?) [\d-]+(?: \(RS\))?:|\d+(?:st|nd|rd|th) \w+[.:])", re.IGNORECASE)
KINDS = {
    "count": re.compile(r"(?<=[(,;] )?\b\d+(?= (?:sc|dc|d c|s c|sts|ch-\d (?:sps?|lps?|loops)|corner sps|sps|spaces|shells?|blocks?|groups|clusters))(?=[^()]*\)\.?$)|(?<=\()\d+(?=\)\.?$)"),
    "corner": re.compile(r"(?<=[( ])\d(?= (?:dc|sc|d c|s c)[,)])(?=[^()]*\) in )|(?<=ch )\d(?=, \d? ?(?:dc|d c|sc)\) in )"),
    "group": re.compile(r"\b\d+(?= (?:dc|d c|sc|s c) in (?:next|each|same|ring|ch-\d))"),
    "space named": re.compile(r"(?<=in next ch-)\d(?= (?:sp|lp|loop))|(?<=in each ch-)\d(?= sp)|(?<=sk next ch-)\d(?= sp)"),
    "times": re.compile(r"(?<=\) x )\d+|(?<=\) )\d+(?= times)|(?<=from \* )\d+(?= more)"),
    "stitches": re.compile(r"(?<=in next )\d+(?= (?:dc|d c|sc|sts|ch)\b)|\b\d+(?= sc,? (?:A|B|\())|(?<=\([AB]\) )\d+(?= sc)"),
    "multiple": re.compile(r"(?<=multiple of )\d+|(?<=multiple of \d \+ )\d+"),
    "foundation": re.compile(r"(?<=^Ch )\d+(?=\.$)"),
}


def right_texts() -> Iterator[tuple[str, str]]:
    for name in MOTIFS:
        yield name, (SITE / f"{name}.md").read_text(encoding="utf-8")
    for case in all_cases():
        if case.name.startswith(CASES) and not re.search(r"\b(?:too|wrong|one)\b", case.name):
            yield case.name, case.text


def planted(text: str) -> Iterator[tuple[str, str, str]]:
    """(kind, the line with the slip, the whole text with it) for every number that a kind of slip may change."""
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if not _LINE.match(line):
            continue
        label = _LABEL.match(line)
        seen: set[int] = set()
        for kind, pattern in KINDS.items():
            for found in pattern.finditer(line, label.end() if label else 0):
                if found.start() in seen or _moves_only(line, found.start()):
                    continue
                seen.add(found.start())
                for other in (int(found.group()) + 1, int(found.group()) - 1):
                    slip = f"{line[: found.start()]}{other}{line[found.end() :]}"
                    yield kind, slip, "\n".join([*lines[:at], slip, *lines[at + 1 :]])


def _moves_only(line: str, at: int) -> bool:
    """Whether the number is of slip stitches that lead to where the round begins."""
    return re.search(r"\bsl st (?:in|to|into) (?:each of )?next $", line[:at], re.IGNORECASE) is not None


def serious(text: str) -> list[str]:
    return [f.message for f in check_text(text, "piece.md").findings if f.severity in (Severity.ERROR, Severity.WARNING)]


def test_there_are_slips_of_every_kind() -> None:
    kinds = [kind for _name, text in right_texts() for kind, _slip, _changed in planted(text)]
    assert {kind: kinds.count(kind) > 2 for kind in KINDS} == dict.fromkeys(KINDS, True)
    assert len(kinds) > 900


@pytest.mark.parametrize(("name", "text"), list(right_texts()), ids=[name for name, _text in right_texts()])
def test_the_right_text_is_silent(name: str, text: str) -> None:
    assert serious(text) == []


def test_slips_in_motifs_are_found() -> None:
    made, missed = 0, []
    for name, text in right_texts():
        for kind, slip, changed in planted(text):
            made += 1
            if not serious(changed):
                missed.append(f"{name}, {kind}: {slip}")
    assert len(missed) <= made * (1 - LEAST), "\n".join([f"{len(missed)} of {made} missed", *missed])

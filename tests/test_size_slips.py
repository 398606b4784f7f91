"""Slips planted in whole pieces in several sizes: one entry of a list, or the count of one size, one more or one fewer.

Each must be found and name the size. Left alone is what no count can tell: measures, and stitches before "to end".
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
_LIST = re.compile(r"(?<![\d.])\d+(?: ?(?:\([\d, –-]+\)|\[[\d, –-]+\]))+(?! ?(?:\[|cm|mm|g|m|balls))")
_ENTRY = re.compile(r"\d+")
_HEADER = re.compile(r"^(?:[A-Z][\w ]+: .*(?:cm|g|mm|balls)\b|Sizes:|Sizes? .* only: *$)")
# How many plain rounds there are shows only in the number of the next round, and there may be none.
_PLAIN = re.compile(r"^(?:Next \d|Rnds \d+-\d)[^:]*(?=:)")
_NUMBERED = re.compile(r"^(?:Rnds?|Rows?) \d")
_ABSORBED = re.compile(r"\b(?:to end|evenly)\b")


def whole_pieces() -> Iterator[tuple[str, str]]:
    for name in ("driftwood-beanie", "estuary-top"):
        yield name, (SITE / f"{name}.md").read_text(encoding="utf-8")
    for case in all_cases():
        if case.name.startswith("sizes/whole_pieces") and "too few" not in case.name:
            yield case.name, case.text


def sizes_of(text: str) -> tuple[str, ...]:
    return check_text(text, "piece.md").patterns[0].syntax.header.sizes


def planted(text: str) -> Iterator[tuple[int, str, str]]:
    """(place of the size, the line as it stood, the text with one entry changed) for every entry of every list."""
    lines = text.split("\n")
    for at, line in enumerate(lines):
        if _HEADER.match(line) or not re.search(r"\d", line):
            continue
        label = _PLAIN.match(line)
        after = next((other for other in lines[at + 1 :] if re.match(r"Next|Rnd|Row|Fasten|#", other)), "")
        start = label.end() if label is not None and not _NUMBERED.match(after) else 0
        if len(sizes_of(text)) == 2 and ":" in line:
            start = line.index(":")  # "Row 41 (61):" is a count unless both sizes go on so
        for found in _LIST.finditer(line, start):
            if _ABSORBED.search(line) and found.end() < line.rfind("("):
                continue
            for place, entry in enumerate(_ENTRY.finditer(found.group())):
                for other in (int(entry.group()) + 1, int(entry.group()) - 1):
                    start, end = found.start() + entry.start(), found.start() + entry.end()
                    slip = f"{line[:start]}{other}{line[end:]}"
                    yield place, slip, "\n".join([*lines[:at], slip, *lines[at + 1 :]])


@pytest.mark.parametrize(("name", "text"), list(whole_pieces()), ids=[name for name, _text in whole_pieces()])
def test_slips_in_one_size_are_found_and_name_it(name: str, text: str) -> None:
    right = check_text(text, "piece.md")
    assert not [f for f in right.findings if f.severity in (Severity.ERROR, Severity.WARNING)], "a false alarm"
    sizes = right.patterns[0].syntax.header.sizes
    missed: list[str] = []
    number = 0
    for place, slip, changed in planted(text):
        number += 1
        said = [f.message for f in check_text(changed, "piece.md").findings if f.severity is Severity.ERROR]
        if not any(re.search(rf"\bSizes? [^:]*\b{re.escape(sizes[place])}\b", message) for message in said):
            missed.append(f"{sizes[place]}: {slip} -> {said[:1]}")
    assert number > 12
    assert len(missed) <= number * (1 - LEAST), "\n".join([f"{len(missed)} of {number}", *missed[:20]])

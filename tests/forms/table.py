"""Reads the tables of forms, ``*.tsv`` beside this file. ``README.md`` describes their columns."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).parent
COLUMNS = ("no", "before", "form", "uses", "makes", "covers", "expect", "header")
LINE_BREAK = "¦"
TAB = "⇥"  # a tab within a form

_STARTS_IN = {
    "terms: uk": {"sc": "dc", "inc": "inc", "dec": "dec"},
    "terms: letters": {"sc": "X", "inc": "V", "dec": "A"},
}
_START = re.compile(r"(?P<stitches>\d+)(?P<kind>r|d)?(?:@(?P<last>\d+))?")


@dataclass(frozen=True)
class Form:
    """One form: its number, the lines before it, the lines it is, and what the checker must make of them."""

    number: str
    before: str
    form: str
    uses: tuple[str, ...]
    makes: tuple[str, ...]
    covers: tuple[str, ...]
    expect: tuple[str, ...]
    header: str

    @property
    def name(self) -> str:
        """The form as the list of gaps names it."""
        start = f" [{self.before}]" if self.before else ""
        return f"{self.number}{start} {self.form}"

    @property
    def section(self) -> str:
        return self.number[0]

    @property
    def lines(self) -> list[str]:
        """The lines of the form itself."""
        return [line.strip().replace(TAB, "\t") for line in self.form.split(LINE_BREAK)]

    @property
    def lead(self) -> list[str]:
        """The lines before it: header, piece and start."""
        header = [line.strip() for line in self.header.split(LINE_BREAK) if line.strip()]
        terms = [] if any(line.lower().startswith("terms") for line in header) else ["Terms: US"]
        return [*header, *terms, "", *(self._in_terms(line) for line in start_lines(self.before))]

    def _in_terms(self, line: str) -> str:
        """The start in the terms of the pattern."""
        if not _START.fullmatch(self.before):
            return line
        words = next((words for terms, words in _STARTS_IN.items() if terms in self.header.lower()), {})
        for word, name in words.items():
            line = re.sub(rf"\b{word}\b", name, line)
        return line


def start_lines(before: str) -> list[str]:
    """The lines that leave the stitches on hand: see the README for how *before* is written."""
    short = _START.fullmatch(before)
    if not short:
        return [line.strip() for line in before.split(LINE_BREAK) if line.strip()]
    stitches, last = int(short["stitches"]), int(short["last"] or 1)
    if short["kind"] == "r":
        lines = [f"Ch {stitches + 1}.", f"Row 1: sc in 2nd ch from hook and in each ch across ({stitches})"]
        plain = f"ch 1 (does not count), turn, sc in each st across ({stitches})"
    elif short["kind"] == "d":
        lines = [
            f"Ch {stitches + 2}.",
            f"Row 1: dc in 4th ch from hook (skipped ch count as dc), dc in each ch across ({stitches})",
        ]
        plain = f"ch 3 (counts as dc), turn, dc in next {stitches - 1} sts ({stitches})"
    else:
        lines = [f"Rnd 1: {stitches} sc in magic ring ({stitches})"]
        plain = f"sc in each st around ({stitches})"
    name = "Row" if short["kind"] else "Rnd"
    if last > 1:
        lines.append(f"{name}s 2-{last}: {plain}" if last > 2 else f"{name} 2: {plain}")
    return [f"# {'Strip' if short['kind'] else 'Ball'}", *lines]


def tables() -> list[Path]:
    return sorted(FOLDER.glob("*.tsv"))


def all_forms() -> list[Form]:
    """Every form of every table. A form stands once."""
    forms = [form for path in tables() for form in read_table(path)]
    seen: set[str] = set()
    for form in forms:
        key = f"{form.name} {form.header}"
        if key in seen:
            raise ValueError(f"twice: {form.name}")
        seen.add(key)
    return forms


def read_table(path: Path) -> Iterator[Form]:
    with path.open(encoding="utf-8", newline="") as file:
        rows = csv.reader(file, delimiter="\t", quoting=csv.QUOTE_NONE)
        if tuple(next(rows)) != COLUMNS:
            raise ValueError(f"{path.name}: the first line names the columns {', '.join(COLUMNS)}")
        for row in rows:
            if not row or row[0].startswith("//"):
                continue
            if len(row) > len(COLUMNS) or len(row) < 3:
                raise ValueError(f"{path.name}: {row}")
            no, before, form, uses, makes, covers, expect, header = [*row, *[""] * (len(COLUMNS) - len(row))]
            yield Form(no, before, form, _cut(uses), _cut(makes), _cut(covers), _cut(expect, ";"), header)


def _cut(text: str, at: str = "/") -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(at) if part.strip())

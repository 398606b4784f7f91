"""Reads the case files: Markdown pages of prose, each case a heading, an input fence and an ``expect`` fence.

The format is described for writers in ``cases/README.md``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

CASES = Path(__file__).parent / "cases"
STATUSES = ("checked", "counted", "on-trust", "mismatch", "unread")
SEVERITIES = ("error", "warning", "advice", "info", "caution", "*")
FLAGS = ("no findings", "also infos", "fails", "does not fail")

_FENCE = re.compile(r"(`{3,}|~{3,})(.*)")
_FINDING = re.compile(
    r"(?P<severity>error|warning|advice|info|caution|\*) (?P<rules>[a-z*-]+(?: \+ [a-z*-]+)*) at "
    r"(?P<line>any|\d+)(?::(?P<column>\d+))?(?:: (?P<pieces>.*))?"
)
_LINE = re.compile(r"(?:(?P<piece>[^,:]+), )?(?P<label>[^,:]+): (?P<facts>.+)")
_FACT = re.compile(rf"(uses|makes|stated|worked) ((?:\d+|-)(?:/(?:\d+|-))*)(?: |$)|({'|'.join(STATUSES)})(?: |$)")
_ALL = re.compile(rf"all (\d+) ({'|'.join(STATUSES)})")
_PIECE = re.compile(r"piece (.+): make (\d+)")


@dataclass
class ExpectedFinding:
    """One expected finding, or several of one group (``rules``), with wording that must occur."""

    text: str
    severity: str
    rules: tuple[str, ...]
    line: int | None
    column: int | None
    pieces: tuple[str, ...]
    mended: list[str] | None = None  # None: not asked; []: no mending edit; two: "or"


@dataclass
class ExpectedLine:
    """One expected written line with the facts asked of it."""

    text: str
    piece: str
    label: str
    facts: dict[str, str]


@dataclass
class Expectation:
    """What an ``expect`` fence asks."""

    findings: list[ExpectedFinding] = field(default_factory=list)
    lines: list[ExpectedLine] = field(default_factory=list)
    pieces: list[tuple[str, int]] = field(default_factory=list)
    readings: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    patterns: list[str] = field(default_factory=list)
    all_of: tuple[int, str] | None = None
    flags: set[str] = field(default_factory=set)


@dataclass
class Case:
    """One case: its place in the case file, the text to check, and what is expected."""

    file: Path
    title: str
    prose: str
    kind: str  # crochet, markdown, txt
    text: str  # as checked
    offset: int  # lines that come before the writer's first line
    expected: list[str]
    start: int  # first line (from 0) of the expect fence's content in the case file
    end: int
    source: list[str] = field(default_factory=list)

    @property
    def name(self) -> str:
        return f"{self.file.relative_to(CASES).with_suffix('')}: {self.title}"

    @property
    def path(self) -> str:
        return "case.txt" if self.kind == "txt" else "case.md"

    @property
    def expectation(self) -> Expectation:
        return parse_expectation(self.expected, self.name)


@dataclass
class _Fence:
    info: str
    content: list[str]
    start: int
    end: int


def case_files() -> list[Path]:
    """Every case file. A Markdown file beside a ``slips.tsv`` is a whole page, and a README no case file."""
    return sorted(
        path for path in CASES.rglob("*.md") if path.name != "README.md" and not (path.parent / "slips.tsv").exists()
    )


def all_cases() -> list[Case]:
    """Every case of every file, in order; a name is used once."""
    cases = [case for path in case_files() for case in read_cases(path)]
    seen: set[str] = set()
    for case in cases:
        if case.name in seen:
            raise ValueError(f"two cases are called {case.name!r}")
        seen.add(case.name)
    return cases


def read_cases(path: Path) -> Iterator[Case]:
    """The cases of one file."""
    title, prose, fences = "", [], []
    for item in [*_items(path.read_text(encoding="utf-8").split("\n")), "## end"]:
        if isinstance(item, _Fence):
            fences.append(item)
        elif item.startswith("## "):
            if fences:
                yield _case(path, title, prose, fences)
            title, prose, fences = item[3:].strip(), [], []
        else:
            prose.append(item)


def _items(lines: list[str]) -> Iterator[str | _Fence]:
    number = 0
    while number < len(lines):
        opening = _FENCE.fullmatch(lines[number])
        if not opening:
            yield lines[number]
            number += 1
            continue
        start = number + 1
        mark = opening[1]
        number = start
        while number < len(lines) and not (lines[number].startswith(mark) and not lines[number].strip(mark[0]).strip()):
            number += 1
        if number == len(lines):
            raise ValueError(f"fence opened on line {start} is never closed")
        yield _Fence(opening[2].strip(), lines[start:number], start, number)
        number += 1


def _case(path: Path, title: str, prose: list[str], fences: list[_Fence]) -> Case:
    infos = [fence.info.split()[0] if fence.info else "" for fence in fences]
    if len(fences) != 2 or infos[1] != "expect" or infos[0] not in ("crochet", "markdown", "txt"):
        raise ValueError(f"{path.name}: {title}: one input fence and one expect fence, not {infos}")
    given, expect = fences
    kind, *options = given.info.split()
    lines = given.content
    if kind == "crochet":
        lines = ["```crochet", *lines, "```"]
    text = "\n".join(lines) + "\n"
    if "crlf" in options:
        text = text.replace("\n", "\r\n")
    if "bom" in options:
        text = "\ufeff" + text
    return Case(
        path,
        title,
        "\n".join(prose).strip(),
        kind,
        text,
        int(kind == "crochet"),
        expect.content,
        expect.start,
        expect.end,
    )


def parse_expectation(lines: list[str], name: str) -> Expectation:
    """The expectation that *lines* state. Raises ValueError with the line that cannot be read."""
    expected = Expectation()
    for line in lines:
        if not line.strip():
            continue
        try:
            _add(expected, line)
        except (ValueError, IndexError) as error:
            raise ValueError(f"{name}: cannot read the expectation {line!r}") from error
    if not (lines and any(line.strip() for line in lines)):
        raise ValueError(f"{name}: nothing is expected")
    return expected


def _add(expected: Expectation, line: str) -> None:
    text = line.strip()
    if line.startswith((" ", "\t")):
        _add_mending(expected.findings[-1], text)
    elif text in FLAGS:
        expected.flags.add(text)
    elif match := _FINDING.fullmatch(text):
        expected.findings.append(_finding(text, match))
    elif match := _ALL.fullmatch(text):
        expected.all_of = (int(match[1]), match[2])
    elif match := _PIECE.fullmatch(text):
        expected.pieces.append((match[1], int(match[2])))
    elif text.startswith("pattern "):
        expected.patterns.append(text.removeprefix("pattern "))
    elif text.startswith("reading "):
        question, _, pieces = text.removeprefix("reading ").partition(": ")
        expected.readings.append((question, _pieces(pieces)))
    elif match := _LINE.fullmatch(text):
        expected.lines.append(ExpectedLine(text, match["piece"] or "", match["label"], _facts(match["facts"])))
    else:
        raise ValueError(text)


def _add_mending(finding: ExpectedFinding, text: str) -> None:
    if text == "not mended":
        finding.mended = []
    elif text.startswith("mended: "):
        finding.mended = [text.removeprefix("mended: ")]
    elif text.startswith("or: ") and finding.mended:
        finding.mended.append(text.removeprefix("or: "))
    else:
        raise ValueError(text)


def _finding(text: str, match: re.Match[str]) -> ExpectedFinding:
    return ExpectedFinding(
        text,
        match["severity"],
        tuple(match["rules"].split(" + ")),
        None if match["line"] == "any" else int(match["line"]),
        int(match["column"]) if match["column"] else None,
        _pieces(match["pieces"] or ""),
    )


def _pieces(text: str) -> tuple[str, ...]:
    return tuple(piece for piece in text.split(" ... ") if piece)


def _facts(text: str) -> dict[str, str]:
    facts: dict[str, str] = {}
    at = 0
    while at < len(text):
        match = _FACT.match(text, at)
        if not match:
            raise ValueError(text)
        facts[match[1] or "status"] = match[2] or match[3]
        at = match.end()
    return facts

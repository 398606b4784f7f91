"""Where a page's prose holds a pattern: runs of lines that read as rounds, with the steps and remarks among them."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from ..checks.outside import looks_like_a_round, looks_like_its_words
from ..fences import prose_lines
from ..source import BlockLine, Source

ROUND, STEP, HEADING, REMARK = "round", "step", "heading", "remark"

_ORDERED = re.compile(r"(\d{1,3})[.)]\s+$")
_EMPHASIS = re.compile(r"(\*\*|__)(.{1,60}?):?\1:?|([A-Z][A-Z &'-]{1,40}):?")
_HARD_BREAK = re.compile(r"(?:\\\s*+|(?<!\s)\s{2,}+|<br\s*+/?+>\s*+)$", re.IGNORECASE)
_LIST_MARK = re.compile(r"(?:[-+*•]|\d{1,9}[.)])[ \t]+(?:\[[ xX]\][ \t]+)?$")
_KEPT_PREFIX = re.compile(r"[ \t>]*")
_PICTURE = re.compile(r"!\[|<img|\[!\[", re.IGNORECASE)
_NAME = re.compile(r"[^\W\d_][\w '&/-]{0,40}(?:\([^()]{1,40}\))?:?")
_MOST_BETWEEN = 2  # lines of remarks that may stand between rounds without a blank line
_LONGEST_REMARK = 300

IsStep = Callable[[str], bool]


@dataclass(slots=True)
class Entry:
    """One line of the page that goes into a block: what it is, and its words there."""

    line: BlockLine
    kind: str
    number: int | None = None  # in a numbered list
    prefix: str = ""  # the indent and quote marks before it, without the mark of a list

    @property
    def words(self) -> str:
        """Its text without what breaks a line in Markdown."""
        return _HARD_BREAK.sub("", self.line.text).strip()


@dataclass(slots=True)
class Run:
    """Lines that become one block, first to last of the file; blank lines between them belong to it."""

    entries: list[Entry] = field(default_factory=list)

    @property
    def first(self) -> int:
        return self.entries[0].line.number

    @property
    def last(self) -> int:
        return self.entries[-1].line.number

    @property
    def rounds(self) -> int:
        """How many lines of rounds it has."""
        return sum(entry.kind == ROUND for entry in self.entries)


def find_runs(source: Source, is_step: IsStep) -> list[Run]:
    """The runs of *source*, a Markdown page; *is_step* says whether the check reads a line as a working step."""
    entries = _classified(source, is_step)
    runs: list[Run] = []
    current: list[Entry] = []
    for entry in entries:
        if current and not _goes_on(current[-1], entry, source):
            runs += _closed(current)
            current = []
        current.append(entry)
    return runs + _closed(current)


def _classified(source: Source, is_step: IsStep) -> list[Entry]:
    seen: set[int] = set()
    entries = []
    for line in prose_lines(source):
        raw = source.line(line.number)
        if line.number in seen or not line.text.strip():
            continue
        seen.add(line.number)
        entry = Entry(line, "", _ordered(raw, line), _prefix(raw[: line.column - 1]))
        entry.kind = _kind(entry.words, is_step)
        entries.append(entry)
    _number_lists(entries)
    return entries


def _prefix(before: str) -> str:
    kept = _KEPT_PREFIX.match(_LIST_MARK.sub("", before))
    return kept.group() if kept else ""


def _kind(text: str, is_step: IsStep) -> str:
    if looks_like_a_round(text):
        return ROUND
    if _PICTURE.search(text):
        return ""
    if _EMPHASIS.fullmatch(text) or len(text.split()) <= 6 and _NAME.fullmatch(text) and not is_step(text):
        return HEADING
    if is_step(text):
        return STEP
    return REMARK if len(text) <= _LONGEST_REMARK else ""


def _ordered(raw: str, line: BlockLine) -> int | None:
    marker = _ORDERED.search(raw[: line.column - 1])
    return int(marker[1]) if marker else None


def _number_lists(entries: Sequence[Entry]) -> None:
    """A numbered list from 1 whose lines all say stitches and a count is a pattern whose numbers are the rounds'."""
    start = 0
    while start < len(entries):
        end = start + 1
        if entries[start].number == 1 and entries[start].kind != ROUND:
            while end < len(entries) and entries[end].number == (entries[end - 1].number or 0) + 1:
                end += 1
            listed = entries[start:end]
            if len(listed) > 1 and all(looks_like_its_words(entry.words) for entry in listed):
                for entry in listed:
                    entry.kind = ROUND
        start = end


def _goes_on(before: Entry, after: Entry, source: Source) -> bool:
    """Whether two lines of prose may stand in one block: nothing but blank lines between, and both of a pattern."""
    between = [source.line(number).strip(" \t>") for number in range(before.line.number + 1, after.line.number)]
    if any(between):
        return False
    if not before.kind or not after.kind or before.prefix.count(">") != after.prefix.count(">"):
        return False
    if after.number is not None and after.number == 1 and before.number not in (None, 0):
        return False
    return not between or (before.kind != REMARK and after.kind != REMARK)


def _closed(entries: list[Entry]) -> list[Run]:
    """The runs in a stretch of lines: what stands before the first round but its heading, and behind the last, goes."""
    pieces: list[list[Entry]] = [[]]
    remarks = 0
    for entry in entries:
        remarks = remarks + 1 if entry.kind == REMARK else 0
        if remarks > _MOST_BETWEEN:
            pieces.append([])
            continue
        pieces[-1].append(entry)
    return [run for piece in pieces if (run := _trimmed(piece)) is not None]


def _trimmed(entries: list[Entry]) -> Run | None:
    rounds = [at for at, entry in enumerate(entries) if entry.kind == ROUND]
    if not rounds:
        return None
    first = rounds[0]
    while first and entries[first - 1].kind in (STEP, HEADING):
        first -= 1
        if entries[first].kind == HEADING:
            break
    last = rounds[-1] + 1
    while last < len(entries) and entries[last].kind == STEP:
        last += 1
    kept = entries[first:last]
    for one, after in pairwise([*kept, None]):
        # A name with no round behind it heads nothing here.
        if one is not None and one.kind == HEADING and (after is None or after.kind not in (ROUND, STEP)):
            one.kind = REMARK
    return Run(kept)

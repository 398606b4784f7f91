"""A page with its rounds in pattern blocks: every word stays, only marks of lists and emphasis go."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ..fences.words import FENCE_WORD
from ..findings import Severity
from ..results import FileResult
from ..source import Source
from .runs import HEADING, REMARK, ROUND, Entry, Run, find_runs

Check = Callable[[str], FileResult]

_LINE_END = re.compile(r"\r\n|\n|\r")
_LABEL = r"(?:rnds?|rounds?|rows?|r)\.?\s?\d{1,3}(?:\s?[-–]\s?\d{1,3})?\s?[:.)]"
_NEXT_LABEL = re.compile(rf"(?<=[)\].;])\s+(?=\*{{0,2}}{_LABEL})", re.IGNORECASE)
_BOLD_LABEL = re.compile(r"^(\*\*|__)(.{1,40}?)\1(:?)\s*")
_TITLE = re.compile(r"^#[ \t]+(?P<title>\S.*)$|^title:[ \t]*(?P<matter>\S.*)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Adopted:
    """A page as it would stand: its text, how many blocks and lines of rounds, how many were read and are wrong."""

    text: str
    blocks: int = 0
    rounds: int = 0
    errors: int = 0


def adopt(text: str, check: Check) -> Adopted:
    """*text*, a Markdown page, with the rounds of its prose in pattern blocks; *check* reads a page.

    What stands in blocks, code, comments and headings already stays. Adopting again changes nothing.
    """
    source = Source(text)
    runs = find_runs(source, lambda words: _is_step(words, check))
    if not runs:
        return Adopted(text)
    lines = _LINE_END.split(text)
    end = next(iter(_LINE_END.findall(text)), "\n")
    before = check(text)
    title = "" if before.patterns else _title(text)
    for run in reversed(runs):
        block = list(_block(run, title if run is runs[0] else ""))
        above = [""] if run.first > 1 and lines[run.first - 2].strip(" \t>") else []
        below = [""] if run.last < len(lines) and lines[run.last].strip(" \t>") else []
        lines[run.first - 1 : run.last] = [*above, *block, *below]
    written = end.join(lines)
    after = check(written)
    errors = sum(finding.severity is Severity.ERROR for finding in after.findings)
    errors -= sum(finding.severity is Severity.ERROR for finding in before.findings)
    return Adopted(written, len(runs), sum(run.rounds for run in runs), max(errors, 0))


def _title(text: str) -> str:
    found = {name: value for match in _TITLE.finditer(text[:20_000]) for name, value in match.groupdict().items() if value}
    title = found["title"].rstrip("# \t\r") if "title" in found else found.get("matter", "").strip("'\" \t\r")
    return re.sub(r"[*_`#{}\[\]]", "", title).strip()


def _is_step(words: str, check: Check) -> bool:
    """Whether the check reads a line as a working step or foundation, and says nothing against it."""
    if len(words) > 300 or not words:
        return False
    result = check(f"```{FENCE_WORD}\nRnd 1: 6 sc in magic ring (6)\n{words}\n```\n")
    kinds = [line.kind for pattern in result.patterns for piece in pattern.syntax.pieces for line in piece.lines]
    quiet = all(finding.span.line != 3 or finding.severity not in (Severity.ERROR, Severity.WARNING) for finding in result.findings)
    return kinds[1:] in (["step"], ["foundation"]) and quiet


def _block(run: Run, title: str) -> Iterator[str]:
    """The lines of a block, each with the indent or quote marks that its lines had in common."""
    prefix = min((entry.prefix for entry in run.entries), key=len)
    yield f"{prefix}```{FENCE_WORD}"
    if title:
        yield f"{prefix}Title: {title}"
    for at, entry in enumerate(run.entries):
        if entry.kind == HEADING and (at or title):
            yield prefix.rstrip()
        for words in _words(entry):
            yield f"{prefix}{words}"
    yield f"{prefix}```"


def _words(entry: Entry) -> Iterator[str]:
    text = entry.words
    if entry.kind == HEADING:
        yield "# " + text.strip("*_: ").strip()
    elif entry.kind == ROUND:
        label = f"Rnd {entry.number}: " if entry.number is not None and not re.match(_LABEL, text.strip("*_ "), re.IGNORECASE) else ""
        for part in _NEXT_LABEL.split(text):
            yield label + _BOLD_LABEL.sub(r"\2\3 ", part.strip())
            label = ""
    else:
        yield f"> {text}" if entry.kind == REMARK else text

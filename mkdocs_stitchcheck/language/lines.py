"""Cuts pattern blocks into statements: which lines belong together, and what each begins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .. import late_re as re
from ..source import BlockLine, Statement
from .cells import table_row
from .line_beginnings import FOUNDATION, what_begins, what_else_begins
from .listed import Listed, find_lists, may_lead
from .normalise import normalise
from .round_labels import find_label
from .size_words import sizes_named
from .statements import LONGEST, Cut, Growing, continues
from .translation import Translator
from .translators import translators

_BULLET = re.compile(r"\s*(?:[-+•·◦▪‣●○–]\s+|\[[ xX]?\]\s+)+")
_STAR_BULLET = re.compile(r"\s*\*\s+(?=(?:r(?:oun)?n?d?s?|rows?)\.?\s*\d|\d+(?:st|nd|rd|th)?\s+r|\d+\s*[.:])", re.IGNORECASE)
_RULED = re.compile(r"\s*(?:[*=~.\u2022-]\s?){3,}$")  # "***", "---": a line drawn between two parts
# The foot of a printed page in text that was copied from it.
_FOOT = re.compile(
    r"\s*(?:(?:\u00a9|\(c\)(?=[^\d]{0,60}(?:19|20)\d\d\b)|copyright\b(?!\s*:)|all rights reserved\b).{0,200}|-?\s*page\s+\d{1,4}(?:\s*(?:of|/)\s*\d{1,4})?\s*-?|"
    r"\d{1,4}\s*(?:/|of)\s*\d{1,4}|\d{1,4}|(?:https?://|www\.)\S{1,200})\s*$",
    re.IGNORECASE,
)
# A gap, a word or a number longer than anybody's: many expressions would look at every part of it.
_GAP = " " * 100
_RUN = re.compile(r"(?<!\s)\s{200,}+\S|(?<![A-Za-z])[A-Za-z]{200}|(?<!\d)\d{200}")


def cut_blocks(blocks: Sequence[Sequence[BlockLine]], terms: str = "") -> list[Cut]:
    """The statements of all blocks, in order. A statement never reaches from one block into the next.

    *terms* is the site's default for patterns that declare none.
    """
    cuts: list[Cut] = []
    blocks = [[part for line in lines for part in _rounds_of(line)] for lines in blocks]
    readers = translators(blocks, terms)
    for number, lines in enumerate(blocks):
        cuts.extend(_cut(lines, number, readers))
    return cuts


# "... (18). Rnd 4: ...": a second round on the same line, behind a count or a full stop and with a colon of its own.
_SECOND_ROUND = re.compile(r"(?<=[.;)\]}])\s+(?=(?:rounds?|rnds?|rows?|rd|r)\.?\s*\d+(?:\s*(?:-|to)\s*\d+)?\s*(?:\([^()]{1,20}\)\s*)?:)", re.IGNORECASE)


def _is_too_long(text: str) -> bool:
    """Whether nobody can have typed this line, and no expression should have to look through it."""
    return len(text) > LONGEST or len(text) >= 200 and _RUN.search(text) is not None


def _rounds_of(line: BlockLine) -> list[BlockLine]:
    """The line, cut where a second round begins on it; a gap at its end that nobody typed is no part of it."""
    if line.text.endswith(_GAP):
        line = BlockLine(line.number, line.column, line.text.rstrip())
    if ":" not in line.text or line.text.lstrip()[:1] in (">", "#") or len(line.text) > LONGEST:
        return [line]
    starts = [0, *(match.end() for match in _SECOND_ROUND.finditer(line.text))]
    if len(starts) == 1:
        return [line]
    ends = [*starts[1:], len(line.text)]
    return [BlockLine(line.number, line.column + start, line.text[start:end]) for start, end in zip(starts, ends, strict=True)]


def _cut(lines: Sequence[BlockLine], block: int, readers: Iterator[Translator | None]) -> list[Cut]:
    cuts: list[Cut] = []
    growing: Growing | None = None

    def close() -> None:
        nonlocal growing
        if growing is not None:
            cuts.append(growing.cut(block))
        growing = None

    lists = _lists(lines)
    listed: frozenset[int] = frozenset()
    for index, line in enumerate(lines):
        reader = next(readers)
        if reader is None and index in lists:
            close()
            listed = lists[index].members
            cuts.append(Cut("header", lists[index].statement, block))
        if index in listed:
            continue
        if _is_too_long(line.text):
            close()
            cuts.append(Cut("too-long", Statement([line]), block))
            continue
        plain = normalise(line.text)
        if "|" in plain:
            plain = table_row(plain)
        if not plain.strip() or _RULED.match(plain):
            close()
            continue
        plain, cut = _unbulleted(plain)
        plain, named = sizes_named(plain) if plain.lstrip()[:1] not in (">", "#") else (plain, "")
        if named and not plain.strip():
            close()
            cuts.append(Cut("sizes", Statement([line]), block, sizes=named))
            continue
        reading = reader.line(plain) if reader is not None else None
        text = plain if reading is None else reading.text
        if _FOOT.match(text) and not (text.strip().isdigit() and growing is not None and continues(growing, text, False, 0)):
            cuts.append(Cut("foot", Statement([line]), block))
            continue
        begins = what_begins(text, line)
        if growing is not None and not named and not begins.kind and continues(growing, text, cut, _indent(line.text)) and not growing.full(text):
            growing.add(line, plain, reading)
            continue
        close()
        begins = begins if begins.kind else what_else_begins(text)
        growing = Growing(begins.kind, [], [], _indent(line.text), begins.label, begins.reason, begins.near, sizes=named)
        growing.add(line, plain, reading)
    close()
    return cuts


def _lists(lines: Sequence[BlockLine]) -> dict[int, Listed]:
    """Lists under "Materials:", "Abbreviations used" and the like, by the index of their first line."""
    if not any(may_lead(line.text) for line in lines):
        return {}
    plain = ["" if _is_too_long(line.text) else normalise(line.text) for line in lines]
    return find_lists(lines, plain, lambda text: bool(FOUNDATION.match(text)) or _begins_work(text))


def _begins_work(text: str) -> bool:
    """Whether a line begins a heading, a note or a round, or asks to go on in what is worked."""
    return text.lstrip()[:1] in ("#", ">") or find_label(text) is not None and not re.match(r"\s*\d", text)


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip())


def _unbulleted(text: str) -> tuple[str, bool]:
    """The text with a bullet made blank, and whether there was one."""
    match = _STAR_BULLET.match(text) or (_BULLET.match(text) if text.lstrip()[:1] in "-+•·◦▪‣●○[" else None)
    if match is None or not text[match.end() :].strip():
        return text, False
    if text.lstrip()[:1] in "-+" and re.match(r"[-+\s]*\d+\s*(?:sts?|sc)?\s*$", text):
        return text, False
    return " " * match.end() + text[match.end() :], True

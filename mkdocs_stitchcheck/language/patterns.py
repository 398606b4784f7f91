"""Puts a page's statements together into patterns: headers, pieces, rounds, steps and notes, each read."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..findings import Findings
from ..source import BlockLine
from .before_rounds import prepare, read_headers
from .in_blocks import mark_blocks
from .labelled_lines import read_round
from .lines import cut_blocks
from .lines_beside import (
    read_definition,
    read_excuse,
    read_foot,
    read_near_label,
    read_note,
    read_private,
    read_sizes,
    read_too_long,
)
from .piece_headings import link_same, read_piece_heading
from .plain_headings import header_key, keep_in_place, mark_headings
from .problems import report_rest
from .reading import Reading
from .statements import Cut
from .syntax import Pattern, RoundLine
from .told_rounds import said_of_rounds
from .unkeyed import mark_unkeyed
from .unlabelled_lines import read_foundation, read_other, read_step

# How each kind of line is read.
_READERS: dict[str, Callable[[Reading, Cut], None]] = {
    "header": lambda _reading, _cut: None,  # read before the rounds
    "unkeyed": lambda _reading, _cut: None,
    "heading": read_piece_heading,
    "plain-heading": read_piece_heading,
    "round": read_round,
    "foundation": read_foundation,
    "step": read_step,
    "other": read_other,
    "sizes": read_sizes,
    "note": read_note,
    "private": read_private,
    "excuse": read_excuse,
    "definition": read_definition,
    "near-label": read_near_label,
    "foot": read_foot,
    "too-long": read_too_long,
}


def read_patterns(
    blocks: Sequence[Sequence[BlockLine]],
    headings: Sequence[str],
    findings: Findings,
    *,
    terms: str = "",
    plain: bool = False,
) -> list[Pattern]:
    """The patterns that *blocks* of one page hold; *headings* are the Markdown headings before each block.

    A second ``Title:`` starts a second pattern. *terms* is the site's own default where a pattern declares none.
    *plain* is true for a text file, whose prose is gathered in one info.
    """
    cuts = cut_blocks(blocks, terms)
    mark_headings(cuts)
    keep_in_place(cuts)
    parts = [part for part in _split_patterns(cuts) if part]
    for part in parts:
        mark_unkeyed(part)
    return [_read(Reading(part, headings, findings, terms, plain)) for part in parts]


def _split_patterns(cuts: list[Cut]) -> list[list[Cut]]:
    parts: list[list[Cut]] = [[]]
    titled = False
    for cut in cuts:
        if cut.kind == "header" and header_key(cut) == "title":
            if titled:
                parts.append([])
            titled = True
        parts[-1].append(cut)
    return parts


def _read(reading: Reading) -> Pattern:
    """The header lines first, then the rest in order."""
    pattern = reading.pattern
    read_headers(reading)
    prepare(reading)
    for cut in reading.cuts:
        try:
            if not said_of_rounds(reading, cut):
                _READERS[cut.kind](reading, cut)
        except Exception as fault:  # noqa: BLE001 - a bug of ours costs one line, never the page
            _fault(reading, cut, fault)
    report_rest(reading)
    link_same(reading)
    for piece in pattern.pieces:
        mark_blocks(piece)
    pattern.title = pattern.header.title
    pattern.draft = pattern.header.draft
    return pattern


def _fault(reading: Reading, cut: Cut, fault: Exception) -> None:
    reading.findings.add(
        "checker-fault", cut.statement.span(),
        f"The checker itself failed on this line ({type(fault).__name__}); it is not checked.",
        suggestion="This is a bug of stitchcheck, not of the pattern: please report it with this line.",
    )  # fmt: skip
    if reading.state.piece is not None:
        reading.state.piece.lines.append(RoundLine("step", cut.statement, None, None))

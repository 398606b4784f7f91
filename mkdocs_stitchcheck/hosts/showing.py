"""A checked page's blocks as HTML, and which of them have been shown."""

from __future__ import annotations

import os
import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ..fences import Block, find_blocks, match_block
from ..findings import Finding, Findings
from ..render.addresses import slug
from ..render.findings_box import findings_box
from ..render.options import PageOptions
from ..render.page import render_block
from ..rules import default_severity
from ..source import Source, Span
from .machine_data import machine_data
from .pages import PageCheck, PlacedFinding, Spot, fault_at

if TYPE_CHECKING:
    from .conversion import Site

_HEADING = re.compile(r" {0,3}(#{1,6})(?:\s|$)")
_FENCE = re.compile(r"[ >]*(?:```|~~~)")
_NO_HEADING_LEVEL = 2  # a piece's, where nothing above has one: the page's title is the theme's


class Showing:
    """Shows the blocks of one page once. ``file`` is the File of mkdocs, where there is one."""

    def __init__(self, check: PageCheck, file: Any, site: Site | None, both_terms: bool = False) -> None:
        self.check = check
        self._file, self._site, self._both_terms = file, site, both_terms
        self._shown: set[int] = set()
        self._faults: list[Finding] = []

    @property
    def _show_findings(self) -> bool:
        return self._site is None or self._site.show_findings

    def pair(self, text: str) -> list[Spot] | None:
        """Where the checked blocks stand in *text*, the page as it is now.

        None if *text* has a block that was not checked. One that was checked and is not there any more is passed over.
        """
        if text not in self.check.spots:
            self.check.spots[text] = self._find_spots(text)
        return self.check.spots[text]

    def _find_spots(self, text: str) -> list[Spot] | None:
        spots: list[Spot] = []
        at = 0
        for block in self._blocks_of(text):
            while at < len(self.check.blocks) and match_block([self.check.blocks[at]], block.text) is None:
                at += 1
            if at == len(self.check.blocks):
                return None
            # The blank line that _blocks_of puts in front makes a line's number what is its index in the text.
            spots.append(Spot(block.opening.line - 2, block.end_line - 1, block.opening.column - 1, at))
            at += 1
        return spots

    def _blocks_of(self, text: str) -> list[Block]:
        # Front matter is gone from the text or is shown as it stands; a blank line keeps a rule of dashes from being it.
        try:
            return find_blocks(Source(f"\n{text}"), Findings())
        except Exception as error:  # noqa: BLE001 - as below; the blocks are then told as not shown
            self._faults.append(fault_at(Span(1, 1, 1, 1), "shown", error))
            return []

    def index_of(self, body: str, nth: int) -> int | None:
        """The index of the *nth* checked block with this *body*."""
        block = match_block(self.check.blocks, body, nth)
        return None if block is None else next(i for i, own in enumerate(self.check.blocks) if own is block)

    def show(self, index: int) -> str:
        """The HTML of a block; that of an empty one is a comment, so that something stands in its place."""
        self._shown.add(index)
        key = (index, self._prefix(), id(self._site), self._show_findings)
        html = self.check.html.get(key)
        if html is None:
            html = self._guarded(self.check.blocks[index]) or "<!-- nothing for readers -->"
            self.check.html[key] = html
        return html if self._site is None else self._site.finished(html, self._file)

    def _guarded(self, block: Block) -> str:
        """A block's HTML, or, where a bug of ours prevents that, a box that says so: the page isn't lost for it."""
        try:
            return self._render(block)
        except Exception as error:  # noqa: BLE001 - whatever it is, the writer gets one clear error at this block
            fault = fault_at(block.opening, "shown", error)
            self._faults.append(fault)
            return f'<div class="stitchcheck sc">\n{findings_box([fault], self.check.result.path).text}\n</div>'

    def _render(self, block: Block) -> str:
        options = PageOptions() if self._site is None else self._site.options_for(self._file, self.check)
        options = replace(options, heading_level=self._level_at(block), both_terms=self._both_terms)
        return render_block(
            self.check.result, block, prefix=self._prefix(), show_findings=self._show_findings, options=options
        )

    def _prefix(self) -> str:
        """Nothing on the page itself; in a list of posts, where ids of several pages come together, the page's name."""
        page = getattr(self._file, "page", None)
        if page is None or self._file.url == page.url:
            return ""
        return slug(os.path.splitext(self._file.src_uri)[0], "page")

    def _level_at(self, block: Block) -> int:
        """The level of a piece's heading in *block*: one below the heading that it stands under."""
        level, inside = _NO_HEADING_LEVEL, False
        for line in self.check.source.lines[: block.opening.line - 1]:
            if _FENCE.match(line):
                inside = not inside
            heading = None if inside else _HEADING.match(line)
            if heading:
                level = min(len(heading[1]) + 1, 6)
        return level

    def outside(self) -> str:
        """What stands at a page's end: what machines read, where no plugin puts that into the head, and what was found
        outside every block, where findings are shown."""
        data = machine_data(self.check.result) if self._site is None else ""
        if not self._show_findings:
            return data
        within = {n for block in self.check.blocks for n in range(block.opening.line, block.end_line + 1)}
        found = [finding for finding in self.check.result.findings if finding.span.line not in within]
        box = findings_box(found, self.check.result.path).text
        return data + (f'<div class="stitchcheck sc">\n{box}\n</div>' if box else "")

    def besides(self) -> list[PlacedFinding]:
        """What showing the page brought up: a warning for every checked block that was not shown, and our faults."""
        unseen = [
            _finding(
                "block-not-shown", block, "This pattern block was checked, but the site doesn't show it.",
                "Another Markdown extension takes it away before it is read; move it to the page's top level.",
            )
            for index, block in enumerate(self.check.blocks)
            if index not in self._shown
        ]
        return [self.check.locate(finding) for finding in (*unseen, *self._faults)]


def _finding(rule: str, block: Block, message: str, suggestion: str) -> Finding:
    return Finding(rule, default_severity(rule), block.opening, message, suggestion)

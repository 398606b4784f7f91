"""From a page's fences to pattern blocks and to what is to be said about them."""

from __future__ import annotations

from collections.abc import Iterator
from weakref import WeakKeyDictionary

from ..findings import Edit, Findings
from ..source import BlockLine, Source, Span
from .block import Block
from .closing import Ending
from .columns import expanded, offset_at, prefix_end
from .opening import Option
from .page import Fate, Found, Page
from .scan import scan
from .words import FENCE_WORD, HEADER_KEYS, KNOWN_OPTIONS

#: Of more unknown options than this on one fence, only so many are named.
_MOST_OPTIONS = 10

_pages: WeakKeyDictionary[Source, Page] = WeakKeyDictionary()


def _page(source: Source) -> Page:
    """The page of a source, read once for its blocks and its prose."""
    page = _pages.get(source)
    if page is None:
        page = _pages[source] = scan(source.lines)
    return page


def find_blocks(source: Source, findings: Findings) -> list[Block]:
    """The pattern blocks of a Markdown page, in order. What keeps a pattern from being read or shown is reported.

    A block that is never closed, or has an unknown option, is read all the same; one that the site does not show is not.
    """
    blocks = []
    for found in _page(source).found:
        if found.fate is Fate.SHOWN:
            block = _block(source, found)
            blocks.append(block)
            _report_shown(source, found, block, findings)
        elif found.fate is Fate.NEAR:
            _report_near(found, findings)
        else:
            _report_not_shown(found, findings)
    return blocks


def prose_lines(source: Source) -> Iterator[BlockLine]:
    """The lines of prose: outside blocks, front matter, other code and comments, and no headings.

    A line's text begins behind the marks of lists and quotes. A line that a comment cuts comes in parts.
    """
    yield from _page(source).prose


def _block(source: Source, found: Found) -> Block:
    fence = found.fence
    end = found.end
    if found.ending is not Ending.CLOSED:
        while end > fence.line + 1 and not source.lines[end - 1].strip():
            end -= 1
    body = tuple(_body_line(source.lines[index], index, fence.width) for index in range(fence.line + 1, end))
    closed = found.ending in (Ending.CLOSED, Ending.MEANT)
    return Block(
        lines=body,
        opening=_opening_span(found),
        options={option.key: option.value for option in fence.opening.options},
        heading=found.heading,
        end_line=found.last + 1 if closed else max(end, fence.line + 1),
        nested=fence.width > 0,
        closed=found.ending is Ending.CLOSED,
    )


def _body_line(line: str, index: int, width: int) -> BlockLine:
    prefix = prefix_end(line)
    at = offset_at(line, min(width, len(expanded(line[:prefix]))))
    return BlockLine(index + 1, at + 1, line[at:])


def _opening_span(found: Found) -> Span:
    opening = found.fence.opening
    return Span(found.fence.line + 1, opening.at + 1, found.fence.line + 1, opening.end + 1)


def _report_shown(source: Source, found: Found, block: Block, findings: Findings) -> None:
    unknown = [option for option in found.fence.opening.options if option.key not in KNOWN_OPTIONS]
    for option in unknown[:_MOST_OPTIONS]:
        _report_option(found, option, len(unknown), findings)
    if found.ending is not Ending.CLOSED:
        _report_unclosed(source, found, findings)
    elif not any(line.text.strip() for line in block.lines):
        findings.add(
            "block-not-shown",
            block.opening,
            "This pattern block is empty: nothing of it will be on the page.",
            suggestion="Write the pattern in it, or take the block out.",
        )
    if found.outer >= 0:
        findings.add(
            "block-not-shown",
            block.opening,
            f"The code opened in line {found.outer + 1} is never closed, so the site may show this pattern as plain text.",
            suggestion=f"Close it with the same marks, before line {found.fence.line + 1}.",
        )


def _report_option(found: Found, option: Option, number: int, findings: Findings) -> None:
    line = found.fence.line + 1
    from difflib import get_close_matches

    near = get_close_matches(option.key.casefold()[:40], [*KNOWN_OPTIONS, *HEADER_KEYS], 1, 0.75)
    known = ", ".join(sorted(KNOWN_OPTIONS)) or "none"
    if near and near[0] in KNOWN_OPTIONS:
        way_out = f"Did you mean “{near[0]}”?"
    elif near:
        key = near[0].capitalize()
        way_out = f"“{key}: ...” is written on a line of its own inside the block; take it off this line."
    else:
        way_out = f"Take it off; options known here: {known}."
    if number > _MOST_OPTIONS:
        way_out += f" There are {number} such words on this line; the first {_MOST_OPTIONS} are named."
    findings.add(
        "unknown-option",
        Span(line, option.start + 1, line, option.end + 1),
        f"“{_short(option.key)}” is not an option of a pattern block, and the site may show the block as plain text.",
        suggestion=way_out,
    )


def _report_unclosed(source: Source, found: Found, findings: Findings) -> None:
    mark, line = _short(found.fence.opening.mark), found.end + 1
    what = {
        Ending.MEANT: f"The closing marks in line {line} are not quite those of the opening, so the site does not "
        "end the block there.",
        Ending.REOPENED: f"This pattern block is not closed before the next one begins in line {line}.",
        Ending.LEFT: "This pattern block is not closed: a line after it stands further left than the block.",
        Ending.FILE: "This pattern block is never closed.",
    }[found.ending]
    place = "exactly below the opening marks" if found.fence.width or found.ending is Ending.MEANT else "below it"
    findings.add(
        "unclosed-block",
        _opening_span(found),
        what,
        suggestion=f"End it with a line that holds nothing but {mark}, {place}.",
    )


def _report_near(found: Found, findings: Findings) -> None:
    opening, line = found.fence.opening, found.fence.line + 1
    span = Span(line, opening.word_at + 1, line, opening.word_at + len(opening.word) + 1)
    if opening.word == FENCE_WORD and len(opening.mark) > 2 and opening.mark[0] in "`~":
        findings.add(
            "fence-not-read",
            span,
            f"In braces “{FENCE_WORD}” needs a full stop before it, so this block is not read as a pattern.",
            suggestion=f"Write .{FENCE_WORD}, or leave the braces out.",
            edits=(Edit(span, f".{FENCE_WORD}"),),
        )
        return
    if opening.word == FENCE_WORD:
        findings.add(
            "fence-not-read",
            _opening_span(found),
            "This looks like the start of a pattern, but its marks are not those of a block, so it is not checked.",
            suggestion=f"Begin it with ```{FENCE_WORD} and end it with ```.",
        )
        return
    findings.add(
        "fence-not-read",
        span,
        f"“{_short(opening.word)}” is not “{FENCE_WORD}”, so this block is neither checked nor shown as a pattern.",
        suggestion=f"Write {FENCE_WORD}.",
        edits=(Edit(span, FENCE_WORD),),
    )


def _report_not_shown(found: Found, findings: Findings) -> None:
    if found.fate is Fate.AFTER_MARK:
        message = "The site reads no block on the same line as the mark of a list, so this pattern is not checked."
        way_out = "Put the block on lines of its own below the item, indented by four blanks."
    elif found.fate is Fate.CODE:
        message = "This pattern is indented so far that the site shows it as plain code; it is not checked."
        way_out = "Move it to the left, or indent it by four blanks below a list item or a note."
    elif found.fate is Fate.INSIDE:
        message = f"This pattern stands inside the code opened in line {found.outer + 1}, so it is not checked."
        way_out = "Close that code before it; if the pattern is an example, open that code with four marks."
    elif found.where == "comment":
        message = "This pattern stands in a comment, so it is neither checked nor shown."
        way_out = "Take the comment marks off when the pattern is to be seen."
    else:
        message = f"This pattern stands inside <{found.where}>, so no reader sees it and it is not checked."
        way_out = f"Move it out, or close the <{found.where}> before it."
    findings.add("block-not-shown", _opening_span(found), message, suggestion=way_out)


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."

"""A pattern block, and the small questions that hosts and the command line ask about one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..source import BlockLine, Source, Span
from .words import HEADER_LINE, ROUND_LINE


@dataclass(frozen=True, slots=True)
class Block:
    """One pattern block of a file.

    ``lines`` is the body without the prefixes of lists, quotes, admonitions and tabs. ``opening`` is the opening fence
    from its first mark. ``options`` holds what stands behind the fence word. ``heading`` is the nearest Markdown
    heading since the block before ("" if none). ``end_line`` is the line of the closing fence, or the last line where
    there is none (then ``closed`` is false). ``nested`` says that the block stands in a list, quote, admonition or tab.
    """

    lines: tuple[BlockLine, ...]
    opening: Span
    options: dict[str, str] = field(default_factory=dict)
    heading: str = ""
    end_line: int = 0
    nested: bool = False
    closed: bool = True

    @property
    def text(self) -> str:
        """The body as one text."""
        return "\n".join(line.text for line in self.lines)


def whole_text(source: Source) -> Block:
    """A text file as one block: every line of it."""
    lines = tuple(BlockLine(number, 1, text) for number, text in enumerate(source.lines, 1))
    return Block(lines, Span(1, 1, 1, len(source.lines[0]) + 1), end_line=len(lines))


def has_pattern(text: str) -> bool:
    """Whether a text file found in a folder holds a pattern: a known header or a labelled round."""
    return any(HEADER_LINE.match(line) or ROUND_LINE.match(line) for line in Source(text).lines)


def match_block(blocks: Sequence[Block], body_text: str, nth: int = 0) -> Block | None:
    """The block whose body a host has handed over, or None.

    Hosts expand tabs, cut blanks and give no position, so bodies are compared without regard to blanks. Of several
    equal ones the *nth* (from 0) is meant; a host that converts a page more than once gets the last.
    """
    wanted = _plain(body_text)
    equal = [block for block in blocks if _plain(block.text) == wanted]
    return equal[min(max(nth, 0), len(equal) - 1)] if equal else None


def _plain(text: str) -> list[str]:
    # Python-Markdown drops the two characters with which it marks its own places.
    lines = [" ".join(line.split()) for line in text.replace("\x02", "").replace("\x03", "").split("\n")]
    while lines and not lines[-1]:
        lines.pop()
    while lines and not lines[0]:
        lines.pop(0)
    return lines

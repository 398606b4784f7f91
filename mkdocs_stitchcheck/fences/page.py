"""What a page holds: its fences that concern a pattern, and its prose."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum, auto

from ..source import BlockLine
from .closing import Ending, Fence


class Fate(Enum):
    """What becomes of a fence that holds a pattern, or was meant to."""

    SHOWN = auto()
    NEAR = auto()  # the fence word or the marks are not quite right
    AFTER_MARK = auto()  # on the line of a list's mark
    CODE = auto()  # indented code
    HIDDEN = auto()  # in a comment or an unseen element
    INSIDE = auto()  # in other code opened with marks as many


@dataclass(frozen=True, slots=True)
class Found:
    """A fence found, and its lines: the body is ``lines[fence.line + 1:end]``, ``last`` the last line that it takes.

    ``where`` says what hides it; ``outer`` is the line of the code that holds (or swallows) it, -1 if none.
    """

    fence: Fence
    fate: Fate
    ending: Ending = Ending.CLOSED
    end: int = 0
    last: int = 0
    heading: str = ""
    where: str = ""
    outer: int = -1


@dataclass(slots=True)
class Page:
    """A page's fences that concern a pattern, and its lines of prose."""

    found: list[Found] = field(default_factory=list)
    prose: list[BlockLine] = field(default_factory=list)


def heading_text(text: str) -> str:
    """A heading's words without its marks, attributes and emphasis."""
    plain = text.strip()
    if plain.endswith("}") and "{" in plain:
        plain = plain[: plain.rindex("{")]
    plain = plain.rstrip().rstrip("#").strip()
    return plain.replace("**", "").replace("`", "").strip("*_ ")

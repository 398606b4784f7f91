"""One pass over a page: every fence with what becomes of it, and the prose between them."""

from __future__ import annotations

from typing import NamedTuple

from .. import late_re as re
from ..source import BlockLine
from .closing import Closings, Ending, Fence, fence_at
from .columns import offset_at, prefix_end
from .containers import Containers
from .front_matter import front_matter_end
from .markup import Markup
from .opening import Opening, read_after_list_mark, read_almost, read_opening
from .page import Fate, Found, Page, heading_text
from .words import FENCE_WORD, HEADER_LINE, OTHER_PATTERN_WORDS, ROUND_LINE

_UNDERLINE = re.compile(r"(?:=+|-+) *$")


class _State(NamedTuple):
    """What a return to an earlier line needs to know."""

    line: int
    stack: tuple[str, ...]
    fresh: bool
    listed: bool
    code: bool
    heading: str
    found: int
    prose: int
    swallowed: int


def scan(lines: list[str]) -> Page:
    """Read a page from its first line to its last."""
    return _Scan(lines).run()


class _Scan:
    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        self.page = Page()
        self.containers = Containers()
        self.markup = Markup()
        self.closings = Closings(lines)
        self.heading = ""
        self.was_fresh = True  # whether a block might begin in the present line
        self.title: tuple[str, int, tuple[str, ...]] | None = None  # perhaps a heading, if a line of === follows
        self.swallowed = -1  # an opening that is never closed, after which superfences shows no fence
        self.opened: _State | None = None  # the page before the line in which the present comment began
        self.no_inline_before = -1  # no comment within a line closes before this line
        self.no_comment = False  # no comment that begins from here on is closed

    def run(self) -> Page:
        index = front_matter_end(self.lines)
        while True:
            while index < len(self.lines):
                index = self._line(index)
            if self.markup.hidden != "comment" or self.opened is None:
                return self.page
            index = self._not_a_comment(index)

    def _line(self, index: int) -> int:
        """Read one line, or the fence that it opens; gives the index of the next one."""
        line = self.lines[index]
        at = prefix_end(line)
        before = self._state(index) if "<!--" in line else None
        self.was_fresh = self.containers.fresh
        if line[at : at + 1] in ("`", "~"):
            opening = read_opening(line, at)
            if opening is not None:
                return self._fence(index, line, opening, before)
        if not self.markup.hidden:
            almost = read_almost(line, at) or read_after_list_mark(line, at)
            if almost is not None:
                return self._meant(index, line, almost)
        elif self.markup.inline and at == len(line) and self.opened is not None and self.markup.hidden == "comment":
            return self._not_a_comment(index)
        start = self._enter(index)
        return self._text(index, line, start, before)

    # -- fences ---------------------------------------------------------------------------------------------------

    def _fence(self, index: int, line: str, opening: Opening, before: _State | None) -> int:
        start = self._enter(index)
        fence = fence_at(line, index, opening)
        self.title = None
        if self.markup.hidden:
            return self._unseen(fence, Fate.HIDDEN, self.markup.hidden)
        if self.containers.code and not self.markup.raw:
            return self._unseen(fence, Fate.CODE, "")
        if opening.pattern:
            return self._pattern(fence)
        if opening.near:
            return self._near(fence)
        ending, end = self.closings.find(fence, pattern=False)
        if ending is not Ending.CLOSED:
            if ending is Ending.FILE and self.swallowed < 0:
                self.swallowed = index
            return self._text(index, line, start, before)
        if opening.word.casefold() in OTHER_PATTERN_WORDS and any(ROUND_LINE.match(line) or HEADER_LINE.match(line) for line in self.lines[index + 1 : end]):
            return self._near(fence)
        self._look_inside(fence, end)
        self._after(end)
        return end + 1

    def _after(self, last: int) -> None:
        """A fence is a line of text to what follows it."""
        if not self.markup.raw:
            self.containers.fresh = False
        self.title = None

    def _pattern(self, fence: Fence) -> int:
        ending, end = self.closings.find(fence, pattern=True)
        if ending is Ending.LEFT:
            end, last = self._past_the_edge(fence, end)
        elif ending in (Ending.CLOSED, Ending.MEANT):
            last = end
        else:
            last = end - 1
        self.page.found.append(
            Found(fence, Fate.SHOWN, ending, end, last, self.heading, outer=self.swallowed)
        )
        self.heading = ""
        self._after(last)
        return max(last, fence.line) + 1

    def _past_the_edge(self, fence: Fence, end: int) -> tuple[int, int]:
        """Lines that stand further left than their fence, up to a closing fence: surely meant as the pattern."""
        close = self.closings.find_loose(end - 1, fence.opening.mark)
        if close >= 0 and all(self.lines[at].strip("> \t") for at in range(end, close)):
            return close, close
        return end, end - 1

    def _near(self, fence: Fence) -> int:
        ending, end = self.closings.find(fence, pattern=True)
        last = end if ending in (Ending.CLOSED, Ending.MEANT) else end - 1
        self.page.found.append(Found(fence, Fate.NEAR, ending, end, last))
        self._after(last)
        return max(last, fence.line) + 1

    def _meant(self, index: int, line: str, opening: Opening) -> int:
        """An opening that no host reads, to a line with the same marks."""
        self._enter(index)
        fate = Fate.NEAR if opening.near else Fate.AFTER_MARK
        last = max(self.closings.find_loose(index, opening.mark), index)
        self.page.found.append(Found(Fence(opening, index, 0, 0), fate, Ending.CLOSED, last, last))
        self._after(last)
        return last + 1

    def _unseen(self, fence: Fence, fate: Fate, where: str) -> int:
        ending, end = self.closings.find(fence, pattern=False)
        if fence.opening.pattern:
            self.page.found.append(Found(fence, fate, ending, end, end, where=where))
        return end + 1 if ending is Ending.CLOSED else fence.line + 1

    def _look_inside(self, outer: Fence, end: int) -> None:
        """A pattern within other code is an example if that code has more marks, or other ones; else an accident."""
        mark = outer.opening.mark
        for index in range(outer.line + 1, end):
            line = self.lines[index]
            if FENCE_WORD not in line:
                continue
            opening = read_opening(line, prefix_end(line))
            if opening is not None and opening.pattern and opening.mark.startswith(mark):
                fence = fence_at(line, index, opening)
                self.page.found.append(Found(fence, Fate.INSIDE, end=index, last=index, outer=outer.line))

    # -- text -----------------------------------------------------------------------------------------------------

    def _enter(self, index: int) -> int:
        """Go into the containers of a line; gives the offset of its own text."""
        if self.markup.hidden or self.markup.raw:
            return 0
        return offset_at(self.lines[index], self.containers.enter(self.closings.lines.texts[index]))

    def _text(self, index: int, line: str, start: int, before: _State | None) -> int:
        if self.containers.code and not self.markup.hidden and not self.markup.raw:
            self.title = None
            return index + 1
        markup, was_hidden = self.markup, self.markup.hidden
        tag = not was_hidden and not markup.raw and markup.begin_raw(line)
        parts = markup.visible(line, start, (not self.no_comment, index >= self.no_inline_before))
        if markup.began:
            self.opened = before if markup.hidden == "comment" else None
        if tag or markup.raw or markup.stands_alone:
            self._block_markup(line)
        elif not was_hidden and not markup.hidden and self._heading(index, line, start):
            return index + 1
        shown = [BlockLine(index + 1, a + 1, line[a:b]) for a, b in parts if line[a:b].strip()]
        self._title(line, start, shown)
        self.page.prose.extend(shown)
        return index + 1

    def _block_markup(self, line: str) -> None:
        """Raw HTML at the start of a line stands by itself, outside every list and quote."""
        if self.markup.raw and self.markup.count_raw(line):
            self.markup.raw = ""
        self.containers.leave()

    def _heading(self, index: int, line: str, start: int) -> bool:
        """Whether the line is a heading, or the underline of the one before."""
        if line.startswith("#", start):
            self.heading = heading_text(line[start:].lstrip("#"))
            self.title = None
            return True
        if self.title and self.title[2] == self.containers.stack and _UNDERLINE.match(line, start):
            self.heading = heading_text(self.title[0])
            del self.page.prose[self.title[1] :]
            self.title, self.containers.fresh = None, True
            return True
        return False

    def _title(self, line: str, start: int, shown: list[BlockLine]) -> None:
        """Remember a line that begins a paragraph: an underline would make it a heading."""
        first = self.was_fresh and not self.containers.opened and not self.markup.raw and len(shown) == 1
        self.title = (line[start:], len(self.page.prose), self.containers.stack) if first else None

    # -- comments that are none -----------------------------------------------------------------------------------

    def _state(self, index: int) -> _State:
        containers, page = self.containers, self.page
        return _State(
            index, containers.stack, containers.fresh, containers.listed, containers.code, self.heading,
            len(page.found), len(page.prose), self.swallowed,
        )  # fmt: skip

    def _not_a_comment(self, index: int) -> int:
        """A comment that is never closed is text: go back to the line in which it seemed to begin."""
        state = self.opened
        assert state is not None
        if self.markup.inline:
            self.no_inline_before = index
        else:
            self.no_comment = True
            self.no_inline_before = index
        self.markup = Markup()
        self.containers.return_to(state.stack, state.fresh, state.listed, state.code)
        self.heading, self.title, self.opened, self.swallowed = state.heading, None, None, state.swallowed
        del self.page.found[state.found :]
        del self.page.prose[state.prose :]
        return state.line

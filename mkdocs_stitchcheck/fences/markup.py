"""HTML on the page: comments and elements whose content no reader sees, and raw blocks that are not read as Markdown."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re

#: Elements of which a browser shows nothing, or nothing as a page.
_UNSEEN = "script|style|template|textarea"
_BLOCKS = (
    "address|article|aside|blockquote|body|center|details|dialog|dir|div|dl|fieldset|figcaption|figure|footer|form|"
    "h[1-6]|header|hgroup|iframe|main|map|menu|nav|noscript|object|ol|output|p|pre|progress|section|svg|table|tbody|"
    "tfoot|thead|ul|video"
)
_TOKEN = re.compile(rf"<!--|<({_UNSEEN})(?![\w-])", re.IGNORECASE)
_BLOCK = re.compile(rf" {{0,3}}<({_BLOCKS})(?![\w-])([^<>]*)", re.IGNORECASE)
_MARKDOWN = re.compile(r"\bmarkdown\b", re.IGNORECASE)
_TICKS = re.compile(r"`+")


def code_spans(line: str) -> list[tuple[int, int]]:
    """The stretches of a line that stand between equal runs of backticks."""
    runs = [(mark.start(), mark.end()) for mark in _TICKS.finditer(line)]
    following: list[int] = [-1] * len(runs)
    last: dict[int, int] = {}
    for index in range(len(runs) - 1, -1, -1):
        length = runs[index][1] - runs[index][0]
        following[index] = last.get(length, -1)
        last[length] = index
    spans, index = [], 0
    while index < len(runs):
        if following[index] >= 0:
            spans.append((runs[index][0], runs[following[index]][1]))
            index = following[index]
        index += 1
    return spans


def _tokens(line: str, start: int) -> Iterator[re.Match[str]]:
    """Where something hidden may open in ``line[start:]``, outside code spans."""
    spans = code_spans(line) if "`" in line else []
    at = 0
    for token in _TOKEN.finditer(line, start):
        while at < len(spans) and spans[at][1] <= token.start():
            at += 1
        if at == len(spans) or token.start() < spans[at][0]:
            yield token


class Markup:
    """What hides the text at the present place: ``hidden`` is "" or ``comment`` or the name of an element.

    ``inline`` says that the comment began within a paragraph: Python-Markdown lets such a one end at a blank line and
    shows it as text. ``raw`` is the element of a raw HTML block, ``depth`` how often it is open. Of the line read last,
    ``began`` says that what is hidden now began in it, ``stands_alone`` that something hidden at the start of a line
    ended in it.
    """

    __slots__ = ("began", "depth", "hidden", "inline", "raw", "stands_alone")

    def __init__(self) -> None:
        self.hidden, self.inline, self.raw, self.depth = "", False, "", 0
        self.began = self.stands_alone = False

    def close(self, line: str, start: int) -> int:
        """Look for the end of what is hidden; the offset behind it, or -1."""
        if self.hidden == "comment":
            at = line.find("-->", start)
            end = at + 3 if at >= 0 else -1
        else:
            tag = re.compile(rf"</{self.hidden}\b", re.IGNORECASE).search(line, start)
            end = tag.end() if tag else -1
        if end >= 0:
            self.hidden, self.began = "", False
            self.stands_alone = self.stands_alone or not self.inline
        return end

    def visible(self, line: str, start: int, comments: tuple[bool, bool]) -> list[tuple[int, int]]:
        """The stretches of ``line[start:]`` that a reader sees. ``comments``: whether a comment at the start of a
        line, and one within a line, may open here at all (an unclosed one is text)."""
        seen: list[tuple[int, int]] = []
        self.began = self.stands_alone = False
        if not self.hidden and "<" not in line:
            return [(start, len(line))]
        if self.hidden:
            start = self.close(line, start)
            if start < 0:
                return seen
        for token in _tokens(line, start):
            if token.start() < start:
                continue
            inline = token.start() > 3 or bool(line[: token.start()].strip())
            if not token[1] and not comments[inline]:
                continue
            seen.append((start, token.start()))
            self.hidden, self.inline = (token[1] or "comment").casefold(), inline
            self.began = True
            start = self.close(line, token.end())
            if start < 0:
                return seen
        seen.append((start, len(line)))
        return seen

    def begin_raw(self, text: str) -> bool:
        """Whether this line begins a raw HTML block (or the tag of one that holds Markdown)."""
        block = _BLOCK.match(text)
        if block is None:
            return False
        if not _MARKDOWN.search(block[2]) and not block[2].endswith("/"):
            self.raw, self.depth = block[1].casefold(), 0
        return True

    def count_raw(self, line: str) -> bool:
        """Count the tags of the raw block's element in this line; true when the last one closes."""
        for tag in re.finditer(rf"<(/?){self.raw}(?![\w-])", line, re.IGNORECASE):
            self.depth += -1 if tag[1] else 1
            if self.depth <= 0:
                self.raw = ""
                return True
        return False

"""Where a line stands: in which lists, quotes, admonitions and tabs, and whether it is indented code.

These are Python-Markdown's rules and not CommonMark's: what belongs to a list item or an admonition is indented by four.
"""

from __future__ import annotations

from .. import late_re as re

_QUOTE = re.compile(r" {0,3}> ?")
_LIST = re.compile(r" {0,3}(?:[*+-]|\d+\.) +(?=\S|$)")
_BODY = re.compile(r'!!! ?[\w-]|\?\?\?\+? ?["\w-]|===[+!]{0,2} +"')
_TEXT_BODY = re.compile(r" {0,3}(?:\[\^[^\]]{1,200}\]:|: {1,3}(?=\S))")
_RULE = re.compile(r" {0,3}([-*_])(?: {0,2}\1){2,} *$")
_INDENT = "    "
_LONGEST_RULE = 400  # a longer line is not tried: each level of a list would read all of it again

#: Deeper nesting is not followed; the hosts stop at the depth that Python's stack allows.
LIMIT = 60


def _is_rule(text: str, at: int) -> bool:
    return len(text) - at < _LONGEST_RULE and _RULE.match(text, at) is not None


class Containers:
    """Follows the containers from line to line.

    ``stack`` holds one mark for each: ``>`` a quote, ``-`` a list item, ``!`` the body of an admonition, a tab, a
    foldable note, a footnote or a definition. ``fresh`` is true where a new block may begin, ``listed`` in the lines of a
    list before the next blank one (where an item may follow at once), ``code`` within indented code.
    """

    __slots__ = ("code", "fresh", "listed", "opened", "stack")

    def __init__(self) -> None:
        self.leave()

    def leave(self) -> None:
        """Back to the page itself, at the start of a block."""
        self.stack: tuple[str, ...] = ()
        self.fresh, self.listed, self.code, self.opened = True, False, False, False

    def return_to(self, stack: tuple[str, ...], fresh: bool, listed: bool, code: bool) -> None:
        """Back to an earlier line."""
        self.stack, self.fresh, self.listed, self.code = stack, fresh, listed, code

    def _inside(self, text: str) -> tuple[int, int]:
        """How many of the containers go on in this line, and where what they hold begins."""
        at = 0
        for depth, kind in enumerate(self.stack):
            if kind == ">":
                quote = _QUOTE.match(text, at)
                if quote is None:
                    return depth, at
                at = quote.end()
            elif text.startswith(_INDENT, at):
                at += len(_INDENT)
            else:
                return depth, at
        return len(self.stack), at

    def enter(self, text: str) -> int:
        """Take the next line (tabs expanded); gives the column at which its own text begins."""
        self.opened = False
        depth, at = self._inside(text)
        if not text[at:].strip(" "):
            self.fresh, self.listed = True, False
            return len(text)
        if depth < len(self.stack) and not self._goes_on(text, at, depth):
            self.stack = self.stack[:depth]
        elif depth < len(self.stack):
            self.fresh = self.code = False
            return at
        if text.startswith(_INDENT, at):
            self.code, self.fresh = self.fresh or self.code, False
            return at
        self.code = False
        return self._open(text, at)

    def _goes_on(self, text: str, at: int, depth: int) -> bool:
        """Whether a line that lacks the indentation still belongs to the paragraph before (a lazy line)."""
        if self.fresh or self.stack[depth] == "!" or self._begins(text, at):
            return False
        if self.stack[depth] == "-" and _LIST.match(text, at):
            self.fresh = True  # the next item of the same list
            return False
        return True

    @staticmethod
    def _begins(text: str, at: int) -> bool:
        return bool(
            text.startswith("#", at) or _BODY.match(text, at) or _QUOTE.match(text, at) or _is_rule(text, at)
        )

    def _open(self, text: str, at: int) -> int:
        """Containers that begin in this line."""
        # In the lines of a list before a blank one, Python-Markdown keeps the indentation: it sees only further items.
        tight = self.listed and not self.fresh and self.stack[-1:] == ("-",)
        while len(self.stack) < LIMIT:
            quote = None if tight else _QUOTE.match(text, at)
            item = (self.fresh or tight) and not _is_rule(text, at)
            mark = quote or (_LIST.match(text, at) if item else None)
            if mark is None:
                break
            tight = False
            self.listed = not quote
            self.stack += (">" if quote else "-",)
            self.opened = self.fresh = True
            at = mark.end()
            if text.startswith(_INDENT, at):
                self.code, self.fresh = True, False
                return at
        if tight:
            return at
        return self._text(text, at)

    def _text(self, text: str, at: int) -> int:
        rest_is_blank = not text[at:].strip(" ")
        body = len(self.stack) < LIMIT and _BODY.match(text, at)
        if body or (len(self.stack) < LIMIT and _TEXT_BODY.match(text, at)):
            self.stack += ("!",)
            self.opened = True
            self.fresh = bool(body)
        else:
            self.fresh = rest_is_blank or _is_rule(text, at) or text.startswith("#", at)
        return at

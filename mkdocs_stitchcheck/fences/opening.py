"""The line that opens a fence: its marks, its word, its options, and whether the word was meant to be ``crochet``."""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re
from .words import FENCE_WORD

# What superfences accepts after the marks; any other text there makes the line ordinary text.
_MARK = re.compile(r"(`{3,}|~{3,})[ \t]*")
_WORD = re.compile(r"\.?([\w#.+-]++)(?=[\t ]|$)")
_OPTION = re.compile(r"""([^\s=]+)(?:=("[^"]*"|'[^']*'|\S*))?""")
_HOST_OPTION = re.compile(r"""[a-zA-Z]\w*(?:=(?:"[^"]*"|'[^']*'))?(?=[\t ]|$)""", re.ASCII)
_REST = re.compile(r"[ \t]")
_LETTERS = re.compile(r"\W*([^\W\d_]+)")

# A fence typed with too few marks, or with marks that a telephone made of them.
_ALMOST = re.compile(r"(`{1,2}|~{1,2}|['’‘´\"”“]{2,4})[ \t]{0,3}\{?[ \t]?\.?(\w{1,12})\}?[ \t]*$")
_AFTER_LIST_MARK = re.compile(r"(?:(?:[*+-]|\d{1,9}[.)])[ \t]+|>[ \t]*)+(?=`{3}|~{3})")


@dataclass(frozen=True, slots=True)
class Option:
    """One option as written on the fence; ``start`` and ``end`` are offsets in the line."""

    key: str
    value: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Opening:
    """A fence's opening line.

    ``at`` is the offset of its first mark; ``word`` the fence word at ``word_at``. ``pattern`` says that it opens a
    pattern, ``near`` that the word was meant to. ``fence`` is false where the hosts take the line for ordinary text.
    """

    at: int
    mark: str
    word: str
    word_at: int
    options: tuple[Option, ...] = ()
    fence: bool = True
    pattern: bool = False
    near: bool = False
    end: int = 0


def is_near(word: str) -> bool:
    """Whether *word* is the fence word but for case, punctuation after it, or one letter (or two swapped)."""
    found = _LETTERS.match(word[:40])
    if found is None or word == FENCE_WORD:
        return False
    letters = found[1].casefold()
    return letters == FENCE_WORD or _one_slip(letters, FENCE_WORD)


def _one_slip(a: str, b: str) -> bool:
    """One letter added, lost or changed, or two neighbours swapped."""
    if abs(len(a) - len(b)) > 1:
        return False
    while a and b and a[0] == b[0]:
        a, b = a[1:], b[1:]
    while a and b and a[-1] == b[-1]:
        a, b = a[:-1], b[:-1]
    return (len(a) <= 1 and len(b) <= 1) or (len(a) == 2 and a == b[::-1])


def _options(line: str, start: int, end: int) -> tuple[Option, ...]:
    """The options of ``line[start:end]``; classes and ids of an attribute list are no options."""
    while start < end and line[start] in " \t{":
        start += 1
    while end > start and line[end - 1] in " \t}":
        end -= 1
    found = []
    for part in _OPTION.finditer(line, start, end):
        if not part[1].startswith((".", "#")):
            value = part[1] if part[2] is None else part[2].strip("\"'")
            found.append(Option(part[1], value, part.start(), part.end()))
    return tuple(found)


def _hosts_read(rest: str) -> bool:
    """Whether superfences takes what follows the word as options (values in quotation marks) or attributes."""
    rest = rest.strip(" \t")
    if rest.startswith("{"):
        return rest.endswith("}")
    at = 0
    while at < len(rest):
        option = _HOST_OPTION.match(rest, at)
        if option is None:
            return False
        at = option.end()
        while at < len(rest) and rest[at] in " \t":
            at += 1
    return True


def read_opening(line: str, at: int) -> Opening | None:
    """The fence opened at offset *at* of *line*, or None where no host would see one and none was meant."""
    marks = _MARK.match(line, at)
    if marks is None:
        return None
    start, end = marks.end(), len(line.rstrip(" \t"))
    info = line[start:end]
    if marks[1][0] == "`" and "`" in info:
        return None  # code within a line, as ```this```
    if not info:
        return Opening(at, marks[1], "", start, end=max(end, marks.end(1)))
    if info.startswith("{"):
        return _attribute_list(line, marks[1], at, start, end)
    word = _WORD.match(line, start, end)
    if word is not None:
        name, word_at, rest = word[1], word.start(1), word.end()
        fence = _hosts_read(line[rest:end])
    else:
        name = _REST.split(info, maxsplit=1)[0]
        word_at, rest, fence = start, start + len(name), False
    return _opening(line, at, marks[1], name, word_at, rest, end, fence)


def _attribute_list(line: str, mark: str, at: int, start: int, end: int) -> Opening | None:
    """```` ```{.crochet #id key=value} ````: the first class is the fence word."""
    closed = line.endswith("}", start, end)
    for part in _OPTION.finditer(line, start + 1, end - 1 if closed else end):
        if part[0].startswith("."):
            word_at = part.start() + 1
            return _opening(line, at, mark, part[0][1:], word_at, part.end(), end, closed)
    first = _OPTION.match(line, start + 1, end - 1 if closed else end)
    if first is not None and (first[0] == FENCE_WORD or is_near(first[0])):
        return Opening(at, mark, first[0], first.start(), fence=closed, near=True, end=end)
    return Opening(at, mark, "", start, fence=True, end=end) if closed else None


def _opening(
    line: str, at: int, mark: str, name: str, word_at: int, rest: int, end: int, fence: bool
) -> Opening | None:
    pattern, near = name == FENCE_WORD, is_near(name)
    if not (fence or pattern or near):
        return None
    options = _options(line, rest, end) if pattern else ()
    return Opening(at, mark, name, word_at, options, fence, pattern, near, end)


def read_almost(line: str, at: int) -> Opening | None:
    """A line that was surely meant to open a pattern, with marks that no host reads: ``'''crochet``, two backticks."""
    found = _ALMOST.match(line, at) if len(line) - at < 80 else None
    if found is None or not (found[2] == FENCE_WORD or is_near(found[2])):
        return None
    return Opening(at, found[1], found[2], found.start(2), fence=False, near=True, end=len(line.rstrip(" \t")))


def read_after_list_mark(line: str, at: int) -> Opening | None:
    """``- ```crochet``: a pattern opened on the line of a list's mark, where Python-Markdown reads no fence."""
    if FENCE_WORD[:3] not in line.casefold() or ("```" not in line and "~~~" not in line):
        return None
    marks = _AFTER_LIST_MARK.match(line, at)
    opening = read_opening(line, marks.end()) if marks else None
    return opening if opening and (opening.pattern or opening.near) else None

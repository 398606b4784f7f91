"""Front matter, which MkDocs takes off the page before Markdown sees it."""

from __future__ import annotations

from .. import late_re as re

_OPEN = re.compile(r"---[ \t]*$")
_CLOSE = re.compile(r"(?:---|\.\.\.)[ \t]*$")
_KEY = re.compile(r"[^\s#][^:]*:(?:\s|$)")
_FENCE = re.compile(r"```|~~~")


def front_matter_end(lines: list[str]) -> int:
    """How many lines the front matter takes, its two marks included; 0 where there is none.

    MkDocs leaves the text on the page where it is not a YAML mapping, so a rule (``---``) at the top of a page and
    another one below a pattern hide nothing.
    """
    if not _OPEN.match(lines[0]):
        return 0
    keys = False
    for index, line in enumerate(lines[1:], 1):
        if _CLOSE.match(line):
            return index + 1 if keys else 0
        if _FENCE.match(line):
            return 0
        keys = keys or bool(_KEY.match(line))
    return 0

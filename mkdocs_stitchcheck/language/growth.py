"""Remarks on how rows grow: "working 1 more block each row", "increasing by 1 block each row". Their counts say it, too."""

from __future__ import annotations

from .cursor import Cursor
from .syntax import Aside, Step

LEADS = ("working", "having", "with", "adding", "making", "increasing", "decreasing", "there", "you")
_NOUNS = (
    "block", "blocks", "group", "groups", "shell", "shells", "mesh", "meshes", "sp", "sps", "space", "spaces",
    "cluster", "clusters", "loop", "loops", "square", "squares",
)  # fmt: skip


def read_growth(cursor: Cursor) -> list[Step] | None:
    """growth = lead ["by"] N ["more" | "fewer" ...] noun ("each" | "every" | "per" | "in each") ("row" | "rnd")"""
    start, at = cursor.start, cursor.at
    cursor.phrase(("there will be", "there is", "there are", "you will have", "you have"))
    if cursor.at == at:
        cursor.accept(*LEADS)
    cursor.accept("by")
    number = cursor.number(article=True)
    more = cursor.accept("more", "fewer", "less", "additional", "extra")
    if number is None or not cursor.accept(*_NOUNS):
        cursor.at = at
        return None
    more = cursor.accept("more", "fewer", "less") or more
    cursor.accept("in", "on")
    lead = cursor.tokens[at].text
    if not (more or lead in ("increasing", "decreasing", "adding")) or not (cursor.accept("each", "every", "per") and cursor.accept("row", "rnd", "round", "time")):
        cursor.at = at
        return None
    return [Aside(start, cursor.end, "remark")]

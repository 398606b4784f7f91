"""What a page says to readers of the check: that the counts were checked, and what that does not mean."""

from __future__ import annotations

from collections import Counter

from ..findings import Severity
from ..results import PatternResult, Status
from .html import Html, el, join

_MEANS = (
    "Every round was added up, stitch by stitch: it uses the stitches of the round before, and it makes the number "
    "given at its end."
)
_TRUST = " Where the words leave the number to you, as with “as established”, the count is the designer's own."
_NOT = (
    "This does not mean that somebody has made it from this text, and it says nothing of size, yarn, placing, sewing or "
    "safety."
)


def counts_checked(pattern: PatternResult) -> bool:
    """Whether readers may be told so: no draft, at least one round checked, none wrong or unread, nothing excused away."""
    lines = [line for line in pattern.rounds if line.counts]
    status = Counter(line.status for line in lines)
    bad = status[Status.MISMATCH] + status[Status.UNREAD]
    errors = any(f.severity is Severity.ERROR and f.excused is None for f in pattern.findings)
    sure = status[Status.CHECKED] + status[Status.COUNTED]
    return bool(sure) and not bad and not errors and not pattern.draft and sure >= status[Status.ON_TRUST]


def statement() -> tuple[str, str]:
    """The sentences of what the check means and what it does not."""
    return _MEANS, _NOT


def checked_mark(pattern: PatternResult) -> Html | None:
    """"Stitch counts checked", to be opened for what it means; None where that cannot be said."""
    if not counts_checked(pattern):
        return None
    trust = any(line.status is Status.ON_TRUST for line in pattern.rounds)
    return el(
        "details",
        el("summary", "Stitch counts checked"),
        el("p", _MEANS + (_TRUST if trust else "")),
        el("p", _NOT),
        class_="sc-checked",
    )


def writers_summary(pattern: PatternResult) -> Html | None:
    """"31 of 32 checked, 1 on trust": for the writer alone."""
    lines = [line for line in pattern.rounds if line.counts]
    if not lines:
        return None
    status = Counter(line.status for line in lines)
    parts = [f"{status[Status.CHECKED]} of {len(lines)} checked"]
    words = {
        Status.COUNTED: "counted (no count stated)",
        Status.ON_TRUST: "on trust",
        Status.MISMATCH: "with an error",
        Status.UNREAD: "not read",
    }
    parts += [f"{status[key]} {text}" for key, text in words.items() if status[key]]
    return el("p", join("For you as the writer: ", ", ".join(parts), "."), class_="sc-writer")

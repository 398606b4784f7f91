"""What is reported: a finding with its rule, place, message and the edit that mends it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from .source import Span


class Severity(StrEnum):
    """How much a finding weighs: an error fails the build, a warning only with ``--strict``, the rest never."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"
    INFO = "info"
    CAUTION = "caution"
    OFF = "off"


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace the text at ``span`` by ``text``."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Label:
    """A second place that a message points at, with what is to be said under it (may be empty)."""

    span: Span
    text: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One problem.

    ``message`` is one or two plain sentences in a maker's words and stands alone. ``suggestion`` says how to mend it;
    ``edits`` do so (with ``alternatives`` where two repairs are equally likely: each is a tuple of edits, the first is
    ``edits``). ``sure`` is true where both neighbours of a round speak for the edit. ``label`` stands under the marks
    of the code frame. Findings of one slip share a ``group``. ``follows`` are plain sentences on what only follows
    from it.
    ``excused`` holds the writer's reason where the place is excused. ``waits`` says why it does not fail although its
    severity would: "draft", or "not-yet" (the page is listed as not yet cleared); empty otherwise.
    """

    rule: str
    severity: Severity
    span: Span
    message: str
    suggestion: str = ""
    edits: tuple[Edit, ...] = ()
    alternatives: tuple[tuple[Edit, ...], ...] = ()
    sure: bool = False
    label: str = ""
    also: tuple[Label, ...] = ()
    group: int | None = None
    pattern: str | None = None
    piece: str | None = None
    round: int | None = None
    follows: tuple[str, ...] = ()
    excused: str | None = None
    waits: str = ""

    def with_(self, **changes: object) -> Finding:
        """A copy with some fields changed."""
        return replace(self, **changes)  # type: ignore[arg-type]

    def fails(self, strict: bool = False) -> bool:
        """Whether it fails a build: an error, with *strict* a warning too, that is neither excused nor waiting."""
        failing = (Severity.ERROR, Severity.WARNING) if strict else (Severity.ERROR,)
        return self.severity in failing and self.excused is None and not self.waits


@dataclass(slots=True)
class Findings:
    """Collects findings. A stage adds to it and never raises for a slip of the writer's."""

    items: list[Finding] = field(default_factory=list)
    _groups: int = 0

    def new_group(self) -> int:
        """A number that findings of one and the same slip share."""
        self._groups += 1
        return self._groups

    def add(self, rule: str, span: Span, message: str, **more: object) -> Finding:
        """Report *rule* at *span* with the rule's own severity (or ``severity=`` given here)."""
        from .rules import default_severity

        severity = more.pop("severity", None) or default_severity(rule)
        finding = Finding(rule, severity, span, message, **more)  # type: ignore[arg-type]
        self.items.append(finding)
        return finding

"""Findings of one slip brought together, as the outputs for people show them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..findings import Finding
from ..source import Span
from .frames import Mark

WEIGHT = ("error", "warning", "caution", "advice", "info")


@dataclass(frozen=True, slots=True)
class Group:
    """One slip: its findings, the weightiest first."""

    findings: tuple[Finding, ...]

    @classmethod
    def of(cls, *findings: Finding) -> Group:
        """The group of *findings* that belong together."""
        return cls(tuple(sorted(findings, key=lambda finding: WEIGHT.index(finding.severity))))

    @property
    def head(self) -> Finding:
        """The finding whose place and severity stand for all."""
        return self.findings[0]

    @property
    def rules(self) -> str:
        """The rules by name: ``stitches-left-over, count-mismatch``."""
        return ", ".join(dict.fromkeys(finding.rule for finding in self.findings))

    @property
    def message(self) -> str:
        """The messages as one text."""
        return " ".join(dict.fromkeys(finding.message for finding in self.findings))

    @property
    def suggestions(self) -> tuple[str, ...]:
        """What mends it, each said once."""
        return tuple(dict.fromkeys(finding.suggestion for finding in self.findings if finding.suggestion))

    @property
    def follows(self) -> tuple[str, ...]:
        """What only follows from it, each said once."""
        return tuple(dict.fromkeys(line for finding in self.findings for line in finding.follows))

    @property
    def marks(self) -> list[Mark]:
        """Every place that is meant, each once; what is said at one place twice is said together."""
        labels: dict[Span, list[str]] = {}
        for finding in self.findings:
            for span, label in ((finding.span, finding.label), *((also.span, also.text) for also in finding.also)):
                said = labels.setdefault(span, [])
                if label and label not in said:
                    said.append(label)
        return [Mark(span, "; ".join(said)) for span, said in labels.items()]

    def fails(self, strict: bool) -> bool:
        """Whether any of its findings fails."""
        return any(finding.fails(strict) for finding in self.findings)


def grouped(findings: Iterable[Finding]) -> list[Group]:
    """*findings* with those of one slip together, where the first of them stands. Excused ones are left out."""
    together: dict[object, list[Finding]] = {}
    for number, finding in enumerate(findings):
        if finding.excused is None:
            key = ("alone", number) if finding.group is None else (finding.pattern, finding.group)
            together.setdefault(key, []).append(finding)
    return [Group.of(*members) for members in together.values()]

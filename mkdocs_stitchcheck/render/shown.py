"""What ``Show:`` lines name: the parts that a writer places, or asks for."""

from __future__ import annotations

from ..language import syntax
from ..results import PatternResult


def names(line: syntax.HeaderLine) -> list[str]:
    """The parts that one line names, in order."""
    return [name.strip().lower() for name in line.value.replace(";", ",").split(",")]


def named_parts(pattern: PatternResult) -> set[str]:
    """The parts that a pattern's lines name."""
    return {name for line in pattern.syntax.header.lines if line.key == "show" for name in names(line)}

"""Bugs of ours, met while something is made of a checked page: each is one error at its pattern, and the rest goes on."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from mkdocs.exceptions import PluginError

from ..results import PatternResult
from ..source import Span
from .pages import PageCheck, PlacedFinding, fault_at

_T = TypeVar("_T")


class Faults:
    """The faults of a build."""

    def __init__(self) -> None:
        self.found: list[PlacedFinding] = []

    def guard(
        self, doing: str, check: PageCheck, pattern: PatternResult | None, work: Callable[[], _T], instead: _T
    ) -> _T:
        """What *work* gives; where it fails by a fault of ours, *instead*, and one finding at *pattern* (none: the first).

        *doing* says in the passive what was done with it: "shown".
        """
        try:
            return work()
        except PluginError:  # said plainly already
            raise
        except Exception as fault:  # noqa: BLE001 - whatever it is, the writer gets one clear error at this pattern
            first = pattern or next(iter(check.result.patterns), None)
            line = 1 if first is None else first.line
            self.found.append(check.locate(fault_at(Span(line, 1, line, 1), doing, fault)))
            return instead

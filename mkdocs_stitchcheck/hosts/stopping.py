"""The one exception with which a page stops a build."""

from __future__ import annotations

from mkdocs.exceptions import PluginError
from pymdownx.superfences import SuperFencesException

from .pages import PageCheck
from .telling import slips


class PatternSlip(PluginError, SuperFencesException):  # type: ignore[misc]
    """A page with something that fails; its text holds each place and what is wrong there.

    Superfences swallow whatever doesn't derive from their exception, MkDocs shows a plain message only for what derives
    from its own, and others show nothing but the text.
    """


def slip_of(check: PageCheck, strict: bool) -> PatternSlip:
    """The exception for a page, with everything on it that fails."""
    failing = [found for found in check.findings() if found.finding.fails(strict)]
    return PatternSlip("\n".join([f"{check.result.path}: a pattern doesn't add up.", *(s for _, s in slips(failing))]))

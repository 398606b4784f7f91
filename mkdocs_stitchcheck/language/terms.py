"""US or UK: in which terms a pattern's words are read, and where it mixes the two."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..findings import Findings
from ..source import Statement
from .syntax import Header

# Names that exist in one system alone, as abbreviations (with what is built from them: sc2tog, hdcinc) or in words.
_US = re.compile(r"\b(?:h?sc|hdc|fsc|fhdc|rsc|esc|scs)(?:\d|\b|inc\b|dec\b|tog)|\b(?:single crochet|half double crochet)\b", re.IGNORECASE)
_UK = re.compile(r"\b(?:htr)(?:\d|\b|inc\b|dec\b)|\bhalf treble\b", re.IGNORECASE)

# What ``Terms:`` declares, as a reader is told of it.
TERMS_IN_WORDS = {
    "US": "US terms", "UK": "UK terms", "letters": "letters", "da": "Danish", "de": "German", "es": "Spanish",
    "fr": "French", "ja": "Japanese", "nl": "Dutch", "pt": "Portuguese", "ru": "Russian",
}  # fmt: skip


def settle_terms(header: Header, statements: Iterable[Statement], findings: Findings) -> tuple[str, bool]:
    """The system ("US" or "UK") that the words show, else the declared one, else US; and whether anything decided.

    Reports mixed-terms once: at ``Terms`` where it is declared, else at the first word of the rarer system.
    """
    us: list[tuple[Statement, re.Match[str]]] = []
    uk: list[tuple[Statement, re.Match[str]]] = []
    for statement in statements:
        us.extend((statement, match) for match in _US.finditer(statement.text))
        uk.extend((statement, match) for match in _UK.finditer(statement.text))
    declared = header.terms if header.terms in ("US", "UK") else ""
    shown = "US" if len(us) > len(uk) else "UK" if len(uk) > len(us) else declared or ("US" if us else "")
    against = [*us] if declared == "UK" else [*uk] if declared == "US" else []
    if against or (us and uk):
        _report(header, declared, us, uk, shown or declared or "US", findings)
    system = shown or declared or "US"
    return system, bool(shown or declared)


def _report(
    header: Header,
    declared: str,
    us: list[tuple[Statement, re.Match[str]]],
    uk: list[tuple[Statement, re.Match[str]]],
    shown: str,
    findings: Findings,
) -> None:
    line = header.first("terms") if declared else None
    words = {system: sorted({match[0].lower() for _s, match in found}) for system, found in (("US", us), ("UK", uk))}
    if us and uk:
        message = f"{words['US'][0]} is a US name and {words['UK'][0]} a UK name; the pattern is read in {shown} terms."
    else:
        system = "US" if us else "UK"
        message = f"{words[system][0]} is a {system} name, but the pattern says {declared}; it is read in {shown} terms."
    places = us if shown == "UK" else uk
    if line is not None:
        start = line.value_start
        span = line.statement.span(start, len(line.statement.text.rstrip()))
        findings.add("mixed-terms", span, message, suggestion=f"Write Terms: {shown}, or change the names.")
        return
    statement, match = (places or us or uk)[0]
    where = statement.span(match.start(), match.end())
    findings.add("mixed-terms", where, message, suggestion="Use the names of one system, and say which in Terms.")

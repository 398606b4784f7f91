"""US or UK: in which terms a pattern's words are read, and where it mixes the two."""

from __future__ import annotations

from collections.abc import Sequence

from .. import late_re as re
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


def settle_terms(header: Header, statements: Sequence[Statement], findings: Findings) -> tuple[str, bool]:
    """The system ("US" or "UK") that the words show, else the declared one, else US; and whether anything decided.

    Reports mixed-terms once: at ``Terms`` where it is declared, else at the first word of the rarer system.
    """
    text = "\n".join(statement.text for statement in statements)
    us, uk = len(_US.findall(text)), len(_UK.findall(text)) if "tr" in text.casefold() else 0
    declared = header.terms if header.terms in ("US", "UK") else ""
    shown = "US" if us > uk else "UK" if uk > us else declared or ("US" if us else "")
    against = us if declared == "UK" else uk if declared == "US" else 0
    if against or (us and uk):
        _report(header, declared, _found(_US, statements), _found(_UK, statements), shown or declared or "US", findings)
    system = shown or declared or "US"
    return system, bool(shown or declared)


def _found(words: re.Pattern[str], statements: Sequence[Statement]) -> list[tuple[Statement, re.Match[str]]]:
    return [(statement, match) for statement in statements for match in words.finditer(statement.text)]


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

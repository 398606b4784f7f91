"""When a pattern was last corrected, as its header says it: ``Corrected 2026-03-20: ...`` or ``Corrected: 2026-03-20``."""

from __future__ import annotations

import re

from ..language.syntax import Header, HeaderLine

_DATE = (
    r"\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[./]\s?\d{1,2}[./]\s?\d{2,4}"
    r"|\d{1,2}(?:st|nd|rd|th|\.)?\s+[^\W\d_]{3,9}\.?,?\s+\d{4}|[^\W\d_]{3,9}\.?\s+\d{1,2}(?:st|nd|rd|th)?,?\s+\d{4}"
    r"|[^\W\d_]{3,9}\s+\d{4}"
)
_IN_LABEL = re.compile(rf"correct\w*(?:\s+on)?\s+({_DATE})", re.IGNORECASE)
_IN_VALUE = re.compile(rf"\s*(?:on\s+)?({_DATE})(?!\d)", re.IGNORECASE)


def correction_date(line: HeaderLine) -> str:
    """The date of one ``Corrected`` line as written; "" where it has none."""
    found = _IN_LABEL.match(line.label) or _IN_VALUE.match(line.value)
    return " ".join(found[1].split()) if found else ""


def corrected_on(header: Header) -> str:
    """The latest date of correction as written: of dates in ISO form the greatest, else that of the last line."""
    dates = [date for line in header.lines if line.key == "corrected" and (date := correction_date(line))]
    if dates and all(re.fullmatch(r"\d{4}-\d{2}-\d{2}", date) for date in dates):
        return max(dates)
    return dates[-1] if dates else ""

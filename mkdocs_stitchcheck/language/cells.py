"""Rounds pasted as rows of a table: "| R3 | (sc, inc) x 6 | 18 |"."""

from __future__ import annotations

from .. import late_re as re

_WORD = r"(?:rounds?|rnds?|rds?|rows?|rs?)"
_ROW = re.compile(rf"\s*\|\s*{_WORD}?\.?\s*\d|\s*{_WORD}\.?\s*\d[\d\s-]*\|", re.IGNORECASE)
_RULE = re.compile(r"[\s|:-]+$")


def table_row(text: str) -> str:
    """A row with its cells parted as in a line, "label: instruction = count", of the same length.

    The rule under a table's head becomes blank; what is no row of a table stays as it is.
    """
    if _RULE.match(text):
        return " " * len(text)
    if not _ROW.match(text):
        return text
    bars = [index for index, char in enumerate(text) if char == "|"]
    signs = dict.fromkeys(bars, " ")
    inner = [index for index in bars if text[:index].strip() and text[index + 1 :].strip()]
    if inner:
        signs[inner[0]] = ":"
    if len(inner) > 1 and text[inner[-1] + 1 :].strip(" |")[:1].isdigit():
        signs[inner[-1]] = "="
    return "".join(signs.get(index, char) for index, char in enumerate(text))

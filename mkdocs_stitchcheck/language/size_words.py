"""Words that a line is for some sizes only: "Sizes M and L only:", "For size L:", "All sizes:"."""

from __future__ import annotations

from collections.abc import Sequence

from .. import late_re as re

_NAMES = r"(?P<names>[^\s:()\[\]][^:()\[\]]{0,50}?)"
_ONLY = re.compile(
    rf"[(\[]?\s*\b(?:for\s+)?(?:the\s+)?sizes?\s+{_NAMES}\s+only\b\s*[)\]]?\s*[:,]?", re.IGNORECASE
)
_FOR = re.compile(rf"\s*for\s+(?:the\s+)?sizes?\s+{_NAMES}\s*:", re.IGNORECASE)
_ALL = re.compile(r"\s*(?:for\s+)?all\s+sizes\s*:?", re.IGNORECASE)
_LABEL = re.compile(r"^\s*+(?:[\w.]++[\d\s,-]*+[:.]?\s*+)?$")
_CUT = re.compile(r"\s*(?:,|/|;|&|\band\b|\bor\b|\+)\s*", re.IGNORECASE)
_SPAN = re.compile(r"\s*(?:-|\bto\b|\bthrough\b)\s*", re.IGNORECASE)
ALL = "all"


def sizes_named(text: str) -> tuple[str, str]:
    """The text with such words made blank, not a character moved, and the names in them; "" where there are none."""
    if "size" not in text[:120].lower():
        return text, ""
    match = _ALL.match(text)
    if match is not None:
        return " " * match.end() + text[match.end() :], ALL
    match = _FOR.match(text) or _ONLY.search(text[:140])
    if match is None or not _LABEL.match(text[: match.start()]):
        return text, ""
    names = match["names"].strip()
    blank = " " * (match.end() - match.start())
    if match.group().rstrip().endswith(":") and match.start() and match.group().lstrip()[:1] in "([":
        blank = blank[:-1] + ":"  # the label's own colon
    return text[: match.start()] + blank + text[match.end() :], names


def size_indexes(names: str, sizes: Sequence[str]) -> tuple[frozenset[int] | None, str]:
    """The places of the named sizes among *sizes* (None for all), and the first name that is not one of them."""
    if names == ALL:
        return None, ""
    lowered = [size.lower() for size in sizes]
    if names.lower() in lowered:
        return frozenset((lowered.index(names.lower()),)), ""
    found: set[int] = set()
    for name in _CUT.split(names):
        if not name:
            continue
        if name.lower() in lowered:
            found.add(lowered.index(name.lower()))
            continue
        ends = [end.lower() for end in _SPAN.split(name)]
        if len(ends) != 2 or not all(end in lowered for end in ends):
            return None, name
        first, last = sorted(lowered.index(end) for end in ends)
        found.update(range(first, last + 1))
    return frozenset(found), ""

"""What one written word means: a stitch of the table, or one of the number families (sc3tog)."""

from __future__ import annotations

from .. import late_re as re
from .vocabulary import Stitch, together, words, words_of

_TOGETHER = re.compile(r"([a-z ]{1,20}?)\s?(\d{1,2})\s?tog", re.IGNORECASE)


def meaning(word: str, system: str) -> Stitch | None:
    """The stitch that *word* means in *system* ("US" or "UK"), or None."""
    known = words(system)
    found = known.get(words_of(word))
    number = _TOGETHER.fullmatch(word)
    if found is None and number is not None and int(number[2]) >= 2:
        base = known.get(words_of(number[1]))
        return together(base, int(number[2])) if base is not None else None
    return found

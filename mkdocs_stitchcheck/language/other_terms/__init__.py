"""Other languages and shorthands in which a pattern may be written once it says so: ``Terms: de``, ``Terms: letters``.

Common practice, no source: what words patterns use is known from memory, not from a standard. A table says what its words
mean in the trade's English, and nothing of it is read without the declaration.
"""

from __future__ import annotations

from collections.abc import Iterable

from .danish import DANISH
from .dutch import DUTCH
from .french import FRENCH
from .german import GERMAN
from .iberian import PORTUGUESE, SPANISH
from .letters import LETTERS
from .russian import RUSSIAN
from .table import OtherTerms, folded

__all__ = ["OTHER_TERMS", "OtherTerms", "likely_terms"]

OTHER_TERMS: dict[str, OtherTerms] = {
    terms.code: terms for terms in (GERMAN, LETTERS, DANISH, DUTCH, FRENCH, SPANISH, PORTUGUESE, RUSSIAN)
}


def likely_terms(words: Iterable[str]) -> OtherTerms | None:
    """The one language that more than half of *words* are of, and at least two different ones; None where none is."""
    known = [folded(word) for word in words]
    shares = {code: [word for word in known if word in terms.words] for code, terms in OTHER_TERMS.items()}
    best = max(shares, key=lambda code: len(shares[code]))
    found = shares[best]
    if len(set(found)) < 2 or len(found) * 2 <= len(known) or sum(len(share) == len(found) for share in shares.values()) > 1:
        return None
    return OTHER_TERMS[best]

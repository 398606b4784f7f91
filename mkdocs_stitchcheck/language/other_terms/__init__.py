"""Other languages and shorthands in which a pattern may be written once it says so: ``Terms: de``, ``Terms: letters``.

Common practice, no source: what words patterns use is known from memory, not from a standard. A table says what its words
mean in the trade's English, and nothing of it is read without the declaration.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from importlib import import_module

from .table import OtherTerms, folded

__all__ = ["OTHER_TERMS", "OtherTerms", "likely_terms"]

_HOMES = {
    "de": ("german", "GERMAN"),
    "letters": ("letters", "LETTERS"),
    "da": ("danish", "DANISH"),
    "nl": ("dutch", "DUTCH"),
    "fr": ("french", "FRENCH"),
    "es": ("iberian", "SPANISH"),
    "pt": ("iberian", "PORTUGUESE"),
    "ru": ("russian", "RUSSIAN"),
}


class _Tables(Mapping[str, OtherTerms]):
    """The tables by their codes; each is fetched when it is first asked for, since most pages need none."""

    def __getitem__(self, code: str) -> OtherTerms:
        module, name = _HOMES[code]
        table: OtherTerms = getattr(import_module(f".{module}", __package__), name)
        return table

    def __iter__(self) -> Iterator[str]:
        return iter(_HOMES)

    def __len__(self) -> int:
        return len(_HOMES)

    def __contains__(self, code: object) -> bool:
        return code in _HOMES


OTHER_TERMS: Mapping[str, OtherTerms] = _Tables()


def likely_terms(words: Iterable[str]) -> OtherTerms | None:
    """The one language that more than half of *words* are of, and at least two different ones; None where none is."""
    known = [folded(word) for word in words]
    shares = {code: [word for word in known if word in terms.words] for code, terms in OTHER_TERMS.items()}
    best = max(shares, key=lambda code: len(shares[code]))
    found = shares[best]
    if len(set(found)) < 2 or len(found) * 2 <= len(known) or sum(len(share) == len(found) for share in shares.values()) > 1:
        return None
    return OTHER_TERMS[best]

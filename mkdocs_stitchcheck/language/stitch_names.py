"""The names of stitches as they are looked for in a round: by their first word, the longest first."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from . import vocabulary
from .vocabulary import Stitch

Names = list[tuple[tuple[str, ...], Stitch]]


@cache
def stitch_index(system: str) -> dict[str, list[tuple[tuple[str, ...], Stitch]]]:
    """The ways to write a stitch, by their first word, the longest first."""
    return index_words(vocabulary.words(system))


def index_words(words: Mapping[tuple[str, ...], Stitch]) -> dict[str, Names]:
    index: dict[str, Names] = {}
    for key, stitch in words.items():
        index.setdefault(key[0], []).append((key, stitch))
    for entries in index.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return index


@cache
def stitch_endings(system: str, first: str) -> dict[str, Names]:
    """The names that begin with the word *first*, by their second word, the longest first; "" has those of one word.

    A word that begins a name ("sc") begins dozens, and nearly all of them end with the second.
    """
    names = stitch_index(system)[first]
    single = [entry for entry in names if len(entry[0]) == 1]
    found: dict[str, Names] = {}
    for entry in names:
        if len(entry[0]) > 1:
            found.setdefault(entry[0][1], []).append(entry)
    return {second: entries + single for second, entries in found.items()} | {"": single}

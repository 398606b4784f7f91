"""Tables of phrases, found by their first word, and of readers by the words at which they can begin."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Generic, TypeVar

from .tokens import Token

PhraseIndex = dict[str, list[tuple[tuple[str, ...], str]]]


class Phrases:
    """A table of phrases (words separated by single spaces), found by their first word."""

    __slots__ = ("index",)

    def __init__(self, phrases: Iterable[str]) -> None:
        self.index: PhraseIndex = {}
        for phrase in phrases:
            words = tuple(phrase.split())
            self.index.setdefault(words[0], []).append((words, phrase))
        for entries in self.index.values():
            entries.sort(key=lambda entry: -len(entry[0]))


@cache
def indexed(phrases: tuple[str, ...]) -> PhraseIndex:
    return Phrases(phrases).index


_R = TypeVar("_R")


class FirstWords(Generic[_R]):
    """Readers in the order in which they are tried, each with the words it can begin at; None for any word.

    At a number all are tried, at a word only those that can begin there.
    """

    __slots__ = ("_all", "_any", "_at")

    def __init__(self, *readers: tuple[_R, Iterable[str] | None]) -> None:
        firsts = [(reader, None if words is None else frozenset(words)) for reader, words in readers]
        known = frozenset().union(*(words for _reader, words in firsts if words is not None))
        self._all = tuple(reader for reader, _words in firsts)
        self._any = tuple(reader for reader, words in firsts if words is None)
        self._at = {word: tuple(reader for reader, words in firsts if words is None or word in words) for word in known}

    def at(self, token: Token | None) -> tuple[_R, ...]:
        """The readers to try where *token* is the next one."""
        if token is None:
            return self._any
        return self._all if token.kind == "number" else self._at.get(token.text, self._any)

"""Finds the phrases of a table of other terms in a line: the longest that stands at a place, with what its classes stand for."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field

from .. import late_re as re
from .other_terms import OtherTerms
from .other_terms.table import Pattern, folded

_TOKEN = re.compile(r"(?P<number>\d+)|(?P<word>[^\W\d_](?:[^\W\d_]|[\u0300-\u036f])*(?:'[^\W\d_]+)?)|(?P<mark>\S)")


@dataclass(slots=True)
class Token:
    """A word, number or mark of a line."""

    kind: str
    text: str  # as looked up
    start: int
    end: int
    written: str


@dataclass(slots=True)
class Match:
    """A phrase that stands somewhere: its answer, the tokens it takes, what its classes stand for."""

    answer: str
    length: int
    numbers: list[Token] = field(default_factory=list)
    stitches: list[str] = field(default_factory=list)
    words: list[Token] = field(default_factory=list)


class Phrasebook:
    """The phrases of *terms*. Words that the writer declares with another meaning are left alone (*declared*)."""

    def __init__(self, terms: OtherTerms, declared: frozenset[str]) -> None:
        self.terms = terms
        self.declared = declared

    def match(self, tokens: list[Token], at: int) -> Match | None:
        """The longest phrase that stands at *at*."""
        best: Match | None = None
        for first in self._firsts(tokens, at):
            for pattern, answer in self.terms.index.get(first, ()):
                found = self._fits(pattern, answer, tokens, at)
                if found is not None and (best is None or found.length > best.length):
                    best = found
        return best

    @staticmethod
    def _firsts(tokens: list[Token], at: int) -> Iterator[str]:
        token = tokens[at]
        yield token.text
        if token.kind == "number":
            yield "#"
        if token.written == "x":
            yield "$"
        if token.kind == "word":
            yield "%"

    def _fits(self, pattern: Pattern, answer: str, tokens: list[Token], at: int) -> Match | None:
        match = Match(answer, 0)
        index = at
        for place, element in enumerate(pattern):
            if place and index < len(tokens) and _joins(tokens, index) and "." not in element:
                index += 1
            if index >= len(tokens):
                return None
            token = tokens[index]
            if token.text in element and self._allowed(token, place):
                pass
            elif "%" in element:
                found = self._stitch(tokens, index)
                if found is None:
                    return None
                index += found[1] - 1
                match.stitches.append(found[0])
            elif "#" in element and token.kind == "number":
                match.numbers.append(token)
            elif "@" in element and token.kind == "word":
                match.words.append(token)
            elif not ("$" in element and token.written == "x"):
                return None
            index += 1
        match.length = index - at
        return match

    def _stitch(self, tokens: list[Token], at: int) -> tuple[str, int] | None:
        for pattern, answer in self.terms.stitch_index.get(tokens[at].text, ()):
            match = self._fits(pattern, answer, tokens, at)
            if match is not None:
                return match.answer, match.length
        return None

    def _allowed(self, token: Token, place: int) -> bool:
        if token.kind != "word":
            return True
        if token.text in self.declared:
            return False
        return place > 0 or token.text not in self.terms.cased or token.written.isupper()


def _joins(tokens: list[Token], at: int) -> bool:
    """A full stop right behind a word: the word is shortened."""
    return tokens[at].text == "." and tokens[at - 1].kind == "word" and tokens[at - 1].end == tokens[at].start


def tokens_of(text: str, first: int = 0, last: int | None = None) -> list[Token]:
    """The words, numbers and marks of ``text[first:last]``."""
    found = []
    for match in _TOKEN.finditer(text, first, len(text) if last is None else last):
        kind = match.lastgroup or "mark"
        written = match[0]
        looked_up = folded(written) if kind == "word" else written
        found.append(Token(kind, looked_up, match.start(), match.end(), unicodedata.normalize("NFC", written)))
    return found

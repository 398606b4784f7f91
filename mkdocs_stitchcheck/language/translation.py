"""Puts lines in declared other terms into the trade's English words, and keeps the way back to every written word.

A line is gone through from left to right; the longest phrase of the table that stands at a place is taken. What no phrase
knows stays as it is and is reported, if a round cannot use it, in the writer's own letters.
"""

from __future__ import annotations

from collections.abc import Sequence

from .. import late_re as re
from ..source import Reading, Stretch
from .labels import known_key, split_key
from .other_terms import OtherTerms
from .other_terms.table import folded
from .phrasebook import Phrasebook, tokens_of
from .readings import Writer, write_answer

_TRANSLATED_HEADERS = ("gauge", "swatch", "abbreviations", "special stitch", "turning chain", "notions", "eyes", "stuffing")
MEANINGS = ("abbreviations", "special stitch")
_CLAUSE_END = frozenset(",;.:")
_FIRST_ROUND = re.compile(r"\s*(?:r|rnd|rd|round)\.?\s*1\s*[:.)]\s*\d{1,3}\s*x(?=\s*(?:$|[(\[=.]))", re.IGNORECASE)
_CHAINS = re.compile(r"\s*(?:\d+\s*)?ch\b", re.IGNORECASE)


class Translator:
    """Reads lines in *terms*. Words that the writer declares with another meaning are left alone (*declared*)."""

    def __init__(self, terms: OtherTerms, declared: frozenset[str] = frozenset()) -> None:
        self.terms = terms
        self.phrasebook = Phrasebook(terms, declared)
        self._after_chain = False

    def line(self, text: str) -> Reading | None:
        """The reading of one normalised line; None where nothing in it is to be read otherwise."""
        bare = text.lstrip()
        if not bare or bare.startswith(">"):
            return None
        header = self._header(text)
        if header is not None:
            return header if header.text != text else None
        head = _head_end(text)
        name = folded(text[:head].strip(" \t#:"))
        if name in self.terms.last_headings:
            return self._joined(text, [(0, head, "# Making up" if bare.startswith("#") else "Making up")])
        first = head if bare.startswith("#") or self._is_name(text, head) else 0
        begins = _FIRST_ROUND.match(text) if self.terms.ring_unsaid and not self._after_chain else None
        self._after_chain = _CHAINS.match(text) is not None
        return self._reading(text, first) if begins is None else self._into_ring(text, begins.end())

    def _into_ring(self, text: str, end: int) -> Reading:
        """"R1: 6X (6)": where nothing else is there to work into, the first round is worked into a ring."""
        writer = Writer()
        self._write(writer, text, 0, end)
        writer.add(" in magic ring", end - 1, end, False)
        self._write(writer, text, end, len(text))
        return self._done(writer)

    def _is_name(self, text: str, head: int) -> bool:
        """Whether the words before a bracket are a piece's name: no word of work and no number among them."""
        if any(character.isdigit() for character in text[:head]):
            return False
        tokens = tokens_of(text[:head])
        at = 0
        while at < len(tokens):
            match = self.phrasebook.match(tokens, at)
            if match is not None and not match.answer.startswith("~"):
                return False
            at += match.length if match else 1
        return True

    # --- header lines ------------------------------------------------------------------------------------------------

    def _header(self, text: str) -> Reading | None:
        split = split_key(text)
        if split is None:
            return None
        label, at = split
        key = known_key(label)
        written = folded(label.split("(")[0].strip())
        english = ""
        if key is None:
            head = written.partition(" ")[0]
            known = self.terms.keys.get(written)
            if known is None and self.terms.keys.get(head) in ("Color", "Yarn", "Hook"):
                known = f"{self.terms.keys[head]} {label.split('(')[0].split(None, 1)[1].strip()}"
            if known is None:
                return None
            english, key = known, known_key(known)
        value = self._value(text, at, key or "")
        if not english:
            return value
        lead = len(text) - len(text.lstrip())
        body = value or Reading(text, (Stretch(0, len(text), 0, len(text), True),), self.terms.own)
        writer = Writer()
        writer.add(english, lead, lead + len(label), False)
        writer.add(": ", lead + len(label), at, False)
        for stretch in body.stretches:
            if stretch.last > at:
                cut = max(at - stretch.first, 0) if stretch.exact else 0
                writer.add(body.text[stretch.start + cut : stretch.end], stretch.first + cut, stretch.last, stretch.exact)
        return self._done(writer)

    def _value(self, text: str, at: int, key: str) -> Reading | None:
        if key not in _TRANSLATED_HEADERS:
            return None if not key else Reading(text, (Stretch(0, len(text), 0, len(text), True),), self.terms.own)
        if key not in MEANINGS:
            return self._reading(text, at)
        writer = Writer()
        writer.add(text[:at], 0, at, True)
        for match in re.finditer(r"([^=;,]*=)([^=;,]*[;,]?)|[^=;,]+[;,]?|.", text[at:]):
            middle = at + (match.end(1) if match[1] else match.start())
            writer.add(text[at + match.start() : middle], at + match.start(), middle, True)
            self._write(writer, text, middle, at + match.end())
        return self._done(writer)

    # --- phrases ----------------------------------------------------------------------------------------------------

    def meaning(self, text: str) -> str:
        """Words in English, single spaces."""
        reading = self._reading(text, 0)
        return " ".join((reading.text if reading else text).split())

    def _reading(self, text: str, first: int) -> Reading | None:
        writer = Writer()
        writer.add(text[:first], 0, first, True)
        changed = self._write(writer, text, first, len(text))
        return self._done(writer) if changed else None

    def _done(self, writer: Writer) -> Reading:
        return writer.reading(self.terms.own)

    def _joined(self, text: str, pieces: Sequence[tuple[int, int, str]]) -> Reading:
        writer = Writer()
        at = 0
        for first, last, english in pieces:
            writer.add(text[at:first], at, first, True)
            writer.add(english, first, last, False)
            at = last
        self._write(writer, text, at, len(text))
        return self._done(writer)

    def _write(self, writer: Writer, text: str, first: int, last: int) -> bool:
        """Adds ``text[first:last]`` in English; whether anything is read otherwise."""
        tokens = tokens_of(text, first, last)
        at, index, changed = first, 0, False
        clause = len(writer.parts)
        while index < len(tokens):
            token = tokens[index]
            match = self.phrasebook.match(tokens, index)
            if match is None:
                if token.text in _CLAUSE_END or (token.text in "([)]"):
                    writer.add(text[at : token.end], at, token.end, True)
                    at, clause = token.end, len(writer.parts)
                index += 1
                continue
            changed = True
            end = tokens[index + match.length - 1].end
            writer.add(text[at : token.start], at, token.start, True)
            writer.phrases.append((token.start, end, match.answer == "~"))
            if match.answer.startswith("!"):
                writer.lift(match.answer[1:], clause, token.start, end)
            else:
                write_answer(writer, match, token.start, end, text)
            at, index = end, index + match.length
            if match.answer == "~and" and not (index < len(tokens) and tokens[index].kind == "number"):
                clause = len(writer.parts)
        writer.add(text[at:last], at, last, True)
        return changed


def _head_end(text: str) -> int:
    """Where a heading's name ends: at a bracket, a spaced dash or a colon."""
    match = re.search(r"[(\[]|\s-+\s|:", text)
    return match.start() if match else len(text)

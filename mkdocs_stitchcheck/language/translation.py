"""Puts lines in declared other terms into the trade's English words, and keeps the way back to every written word.

A line is gone through from left to right; the longest phrase of the table that stands at a place is taken. What no phrase
knows stays as it is and is reported, if a round cannot use it, in the writer's own letters.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from .. import late_re as re
from ..source import BlockLine, Reading, Stretch
from .keys import TERMS_OF_WORD
from .labels import known_key, split_key
from .normalise import normalise
from .other_terms import OTHER_TERMS, OtherTerms
from .other_terms.table import Pattern, folded
from .round_labels import FoundLabel
from .syntax import Number

_TOKEN = re.compile(r"(?P<number>\d+)|(?P<word>[^\W\d_](?:[^\W\d_]|[\u0300-\u036f])*(?:'[^\W\d_]+)?)|(?P<mark>\S)")
_CAPTURE = re.compile(r"([#%@])(\d)")
_DECLARATION = re.compile(r"(?:^|[:;,])\s*([^\W\d_]{1,12})\s*=\s*([^;,=]{1,60})")
_TRANSLATED_HEADERS = ("gauge", "swatch", "abbreviations", "special stitch", "turning chain", "notions", "eyes", "stuffing")
_MEANINGS = ("abbreviations", "special stitch")
_CLAUSE_END = frozenset(",;.:")
_MOST_EVERY = 60
_FIRST_ROUND = re.compile(r"\s*(?:r|rnd|rd|round)\.?\s*1\s*[:.)]\s*\d{1,3}\s*x(?=\s*(?:$|[(\[=.]))", re.IGNORECASE)
_CHAINS = re.compile(r"\s*(?:\d+\s*)?ch\b", re.IGNORECASE)


@dataclass(slots=True)
class _Token:
    kind: str
    text: str  # as looked up
    start: int
    end: int
    written: str


@dataclass(slots=True)
class _Match:
    """A phrase that stands somewhere: its answer, the tokens it takes, what its classes stand for."""

    answer: str
    length: int
    numbers: list[_Token] = field(default_factory=list)
    stitches: list[str] = field(default_factory=list)
    words: list[_Token] = field(default_factory=list)


class _Writer:
    """Builds a reading from pieces, each with the place it stands for."""

    def __init__(self) -> None:
        self.parts: list[str] = []
        self.places: list[tuple[int, int, bool]] = []
        self.phrases: list[tuple[int, int, bool]] = []

    def add(self, text: str, first: int, last: int, exact: bool) -> None:
        if text:
            self.parts.append(text)
            self.places.append((first, last, exact))

    def lift(self, verb: str, index: int, first: int, last: int) -> None:
        """Puts a verb in front of its clause, which begins with the piece *index*."""
        space = " " if index and self.parts[index - 1].strip() else ""
        self.parts.insert(index, f"{space}{verb} ")
        self.places.insert(index, (first, last, False))

    def reading(self, own: Mapping[str, str]) -> Reading:
        """What was written, as a reading."""
        stretches = []
        at = 0
        for part, (first, last, exact) in zip(self.parts, self.places, strict=True):
            stretches.append(Stretch(at, at + len(part), first, last, exact))
            at += len(part)
        return Reading("".join(self.parts), tuple(stretches), own, tuple(self.phrases))


class Translator:
    """Reads lines in *terms*. Words that the writer declares with another meaning are left alone (*declared*)."""

    def __init__(self, terms: OtherTerms, declared: frozenset[str] = frozenset()) -> None:
        self.terms = terms
        self.declared = declared
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
        writer = _Writer()
        self._write(writer, text, 0, end)
        writer.add(" in magic ring", end - 1, end, False)
        self._write(writer, text, end, len(text))
        return self._done(writer)

    def _is_name(self, text: str, head: int) -> bool:
        """Whether the words before a bracket are a piece's name: no word of work and no number among them."""
        if any(character.isdigit() for character in text[:head]):
            return False
        tokens = _tokens(text[:head])
        at = 0
        while at < len(tokens):
            match = self._match(tokens, at)
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
        writer = _Writer()
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
        if key not in _MEANINGS:
            return self._reading(text, at)
        writer = _Writer()
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
        writer = _Writer()
        writer.add(text[:first], 0, first, True)
        changed = self._write(writer, text, first, len(text))
        return self._done(writer) if changed else None

    def _done(self, writer: _Writer) -> Reading:
        return writer.reading(self.terms.own)

    def _joined(self, text: str, pieces: Sequence[tuple[int, int, str]]) -> Reading:
        writer = _Writer()
        at = 0
        for first, last, english in pieces:
            writer.add(text[at:first], at, first, True)
            writer.add(english, first, last, False)
            at = last
        self._write(writer, text, at, len(text))
        return self._done(writer)

    def _write(self, writer: _Writer, text: str, first: int, last: int) -> bool:
        """Adds ``text[first:last]`` in English; whether anything is read otherwise."""
        tokens = _tokens(text, first, last)
        at, index, changed = first, 0, False
        clause = len(writer.parts)
        while index < len(tokens):
            token = tokens[index]
            match = self._match(tokens, index)
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
                _answer(writer, match, token.start, end, text)
            at, index = end, index + match.length
            if match.answer == "~and" and not (index < len(tokens) and tokens[index].kind == "number"):
                clause = len(writer.parts)
        writer.add(text[at:last], at, last, True)
        return changed

    def _match(self, tokens: list[_Token], at: int) -> _Match | None:
        """The longest phrase that stands at *at*."""
        best: _Match | None = None
        for first in self._firsts(tokens, at):
            for pattern, answer in self.terms.index.get(first, ()):
                found = self._fits(pattern, answer, tokens, at)
                if found is not None and (best is None or found.length > best.length):
                    best = found
        return best

    @staticmethod
    def _firsts(tokens: list[_Token], at: int) -> Iterator[str]:
        token = tokens[at]
        yield token.text
        if token.kind == "number":
            yield "#"
        if token.written == "x":
            yield "$"
        if token.kind == "word":
            yield "%"

    def _fits(self, pattern: Pattern, answer: str, tokens: list[_Token], at: int) -> _Match | None:
        match = _Match(answer, 0)
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

    def _stitch(self, tokens: list[_Token], at: int) -> tuple[str, int] | None:
        for pattern, answer in self.terms.stitch_index.get(tokens[at].text, ()):
            match = self._fits(pattern, answer, tokens, at)
            if match is not None:
                return match.answer, match.length
        return None

    def _allowed(self, token: _Token, place: int) -> bool:
        if token.kind != "word":
            return True
        if token.text in self.declared:
            return False
        return place > 0 or token.text not in self.terms.cased or token.written.isupper()


def _joins(tokens: list[_Token], at: int) -> bool:
    """A full stop right behind a word: the word is shortened."""
    return tokens[at].text == "." and tokens[at - 1].kind == "word" and tokens[at - 1].end == tokens[at].start


def _answer(writer: _Writer, match: _Match, start: int, end: int, text: str) -> None:
    """Writes a phrase's answer; its numbers keep their own places, every other word stands for the whole phrase."""
    answer = match.answer.removeprefix("~")
    if answer in ("every inc", "every dec"):
        first = int(match.numbers[0].text[:4])
        joined = answer == "every inc" or int(match.numbers[1].text[:4]) == first + 1
        if 1 <= first <= _MOST_EVERY and joined:
            writer.add(f" ({', '.join(['sc'] * (first - 1) + [answer[6:]])}) around ", start, end, False)
        else:
            writer.add(text[start:end], start, end, True)
        return
    at = 0
    for capture in _CAPTURE.finditer(answer):
        writer.add(answer[at : capture.start()], start, end, False)
        place = int(capture[2]) - 1
        if capture[1] == "%":
            writer.add(match.stitches[place], start, end, False)
        else:
            token = (match.numbers if capture[1] == "#" else match.words)[place]
            writer.add(text[token.start : token.end], token.start, token.end, True)
        at = capture.end()
    writer.add(answer[at:] if at or answer else " ", start, end, False)


def _tokens(text: str, first: int = 0, last: int | None = None) -> list[_Token]:
    found = []
    for match in _TOKEN.finditer(text, first, len(text) if last is None else last):
        kind = match.lastgroup or "mark"
        written = match[0]
        looked_up = folded(written) if kind == "word" else written
        found.append(_Token(kind, looked_up, match.start(), match.end(), unicodedata.normalize("NFC", written)))
    return found


def _head_end(text: str) -> int:
    """Where a heading's name ends: at a bracket, a spaced dash or a colon."""
    match = re.search(r"[(\[]|\s-+\s|:", text)
    return match.start() if match else len(text)


# --- which lines are in which terms ------------------------------------------------------------------------------------


def translators(blocks: Sequence[Sequence[BlockLine]], site_terms: str = "") -> Iterator[Translator | None]:
    """For every line of every block, in order, who reads it: None in US and UK terms.

    What a pattern declares holds for the whole of it; a second title begins another pattern. *site_terms* is the default.
    """
    lines = [normalise(line.text) for block in blocks for line in block]
    parts: list[list[str]] = [[]]
    titled = False
    for line in lines:
        split = split_key(line)
        if split is not None and _is_title(split[0]):
            if titled:
                parts.append([])
            titled = True
        parts[-1].append(line)
    for part in parts:
        translator = _translator(part, site_terms)
        yield from (translator for _ in part)


def _is_title(label: str) -> bool:
    return known_key(label) == "title" or label.lower() == "titel"


def _translator(lines: list[str], site_terms: str) -> Translator | None:
    code = site_terms
    for line in lines:
        split = split_key(line) if ":" in line else None
        if split is not None and known_key(split[0]) == "terms":
            word = re.split(r"[(,;/]| and | with ", re.sub(r"\b(?:crochet|terms?)\b", " ", line[split[1] :].lower()))[0]
            code = TERMS_OF_WORD.get(word.strip(" ."), "")
            break
    terms = OTHER_TERMS.get(code)
    if terms is None:
        return None
    return Translator(terms, frozenset(_redefined(lines, Translator(terms))))


def _redefined(lines: list[str], plain: Translator) -> Iterator[str]:
    """Words of the table that the header gives another meaning: then they are not the table's."""
    declaring = False
    for line in lines:
        split = split_key(line) if ":" in line else None
        if split is not None:
            key = known_key(split[0]) or (known_key(plain.terms.keys.get(folded(split[0]), "")))
            declaring = key in _MEANINGS
        elif not line[:1].isspace():
            declaring = False
        if declaring:
            for word, meaning in _DECLARATION.findall(line):
                own, other = plain.meaning(word), plain.meaning(meaning.strip(" ."))
                if own != other and folded(own) != folded(word) and own not in other.split("(")[0]:
                    yield folded(word)


def joined(texts: Sequence[str], readings: Sequence[Reading | None]) -> Reading | None:
    """The reading of a statement of several lines, joined by single spaces; None where no line has one."""
    own = next((reading.own for reading in readings if reading is not None), None)
    if own is None:
        return None
    parts: list[str] = []
    stretches: list[Stretch] = []
    phrases: list[tuple[int, int, bool]] = []
    at = here = 0
    for text, reading in zip(texts, readings, strict=True):
        lines = reading.stretches if reading is not None else (Stretch(0, len(text), 0, len(text), True),)
        stretches.extend(Stretch(s.start + at, s.end + at, s.first + here, s.last + here, s.exact) for s in lines)
        parts.append(text if reading is None else reading.text)
        phrases.extend((first + here, last + here, silent) for first, last, silent in (reading.phrases if reading else ()))
        at += len(parts[-1]) + 1
        here += len(text) + 1
    return Reading(" ".join(parts), tuple(stretches), own, tuple(phrases))


def placed_label(found: FoundLabel, reading: Reading) -> FoundLabel:
    """A label that was found in a reading, with its places in the writer's text."""
    label = found.label
    label.start, label.end = reading.place(label.start, label.end)
    label.written = tuple(_placed(number, reading) for number in label.written)
    if label.length is not None:
        label.length = _placed(label.length, reading)
    found.body = reading.place(max(found.body - 1, 0), found.body)[1]
    found.heads = [reading.place(*head) for head in found.heads]
    if found.count is not None:
        found.count = reading.place(*found.count)
    return found


def _placed(number: Number, reading: Reading) -> Number:
    start, end = reading.place(number.start, number.end)
    return replace(number, start=start, end=end)

"""How the words of another language are written down as data."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product

from ... import late_re as re
from ..normalise import normalise

_ELEMENT = re.compile(r"#|%|@|[^\W\d_]+(?:'[^\W\d_]+)?|\d+|\S")
_CHOICE = re.compile(r"\[([^\[\]]*)\]|(\S+)")
# Umlauts and the like are also written with two letters.
_TWO_LETTERS = {"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "å": "aa", "ø": "oe", "æ": "ae"}

Pattern = tuple[frozenset[str], ...]  # what may stand at each place
Index = dict[str, list[tuple[Pattern, str]]]


@dataclass(frozen=True)
class OtherTerms:
    """The words of one language or shorthand, and the English words of the trade that they stand for.

    ``phrases``: what is written -> what it is read as, where ``#`` is a number, ``%`` a stitch of the table and ``@`` any
    word, taken up again as ``#1``, ``%1``, ``@1``; ``a|b`` is either word, ``[a]`` one that may be missing. A full stop
    behind a word is passed over inside a phrase. The longest phrase that fits is taken. An answer that begins with ``!``
    is the verb of its clause and read in front of it ("den Kopf ausstopfen"); with ``~``, a word that alone makes no
    instruction ("und"). ``numbered`` are phrases whose answer depends on a number ("every 3rd").
    ``names``: for the stitches by their key, the abbreviation and the name. ``further``: other words to be explained.
    ``headers``: words for keys of header lines. ``making_up``: headings of that piece.
    """

    code: str
    name: str
    stitches: Mapping[str, str]
    phrases: Mapping[str, str]
    names: Mapping[str, tuple[str, str]]
    numbered: Mapping[str, str] = field(default_factory=dict)
    further: Mapping[str, str] = field(default_factory=dict)
    headers: Mapping[str, str] = field(default_factory=dict)
    making_up: tuple[str, ...] = ()
    cased: frozenset[str] = frozenset()  # words that are read in capitals only
    ring_unsaid: bool = False  # whether "R1: 6X" by itself begins with a ring

    @property
    def translates(self) -> bool:
        """Whether the names are of another language, so that the English ones stand beside them."""
        return self.code != "letters"

    @property
    def title(self) -> str:
        """What the list of abbreviations is called."""
        return f"{self.name} terms" if self.translates else self.name.removeprefix("the ")

    @cached_property
    def own(self) -> dict[str, str]:
        """The writer's word for each stitch, by its English key."""
        return {key: word for key, (word, _name) in self.names.items()}

    @cached_property
    def keys(self) -> dict[str, str]:
        """The keys of header lines by the words for them, as they are looked up."""
        return {folded(word): key for word, key in self.headers.items()}

    @cached_property
    def last_headings(self) -> frozenset[str]:
        """Headings of making up, as they are looked up."""
        return frozenset(map(folded, self.making_up))

    @cached_property
    def index(self) -> Index:
        """Every phrase by each word that may begin it, the longest first."""
        return _indexed((self.phrases, self.numbered, self.stitches))

    @cached_property
    def stitch_index(self) -> Index:
        """The names of stitches by each word that may begin them, the longest first."""
        return _indexed((self.stitches,))

    @cached_property
    def words(self) -> frozenset[str]:
        """Every word of the table, to tell the language that a text may be in."""
        patterns = (pattern for entries in self.index.values() for pattern, _answer in entries)
        return frozenset(word for pattern in patterns for element in pattern for word in element if word.isalpha())


def folded(word: str) -> str:
    """*word* as it is looked up: lower case, composed, look-alike letters made one."""
    return normalise(unicodedata.normalize("NFC", word).lower())


def _indexed(tables: Iterable[Mapping[str, str]]) -> Index:
    found: Index = {}
    for table in tables:
        for phrase, answer in table.items():
            for pattern in variants(phrase):
                for first in pattern[0]:
                    found.setdefault(first, []).append((pattern, answer))
    return {first: sorted(entries, key=lambda entry: -len(entry[0])) for first, entries in found.items()}


def variants(phrase: str) -> Iterator[Pattern]:
    """The phrase with and without each word that may be missing; a choice of several words stands as one element."""
    choices: list[list[Pattern]] = []
    for optional, plain in _CHOICE.findall(phrase):
        single: set[str] = set()
        ways: list[Pattern] = []
        for way in (optional or plain).split("|"):
            for spelling in {way, "".join(_TWO_LETTERS.get(letter, letter) for letter in way)}:
                cut = _ELEMENT.findall(folded(spelling))
                if len(cut) == 1:
                    single.add(cut[0])
                else:
                    ways.append(tuple(frozenset((element,)) for element in cut))
        if single:
            ways.append((frozenset(single),))
        choices.append([*ways, ()] if optional else ways)
    for chosen in product(*choices):
        pattern = tuple(element for way in chosen for element in way)
        if pattern:
            yield pattern

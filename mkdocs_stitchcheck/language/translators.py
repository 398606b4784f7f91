"""Which lines of a page are in which terms: declared in the header, or the default of the site."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .. import late_re as re
from ..source import BlockLine
from .keys import TERMS_OF_WORD
from .labels import known_key, split_key
from .normalise import normalise
from .other_terms import OTHER_TERMS
from .other_terms.table import folded
from .translation import MEANINGS, Translator

_DECLARATION = re.compile(r"(?:^|[:;,])\s*([^\W\d_]{1,12})\s*=\s*([^;,=]{1,60})")


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
            declaring = key in MEANINGS
        elif not line[:1].isspace():
            declaring = False
        if declaring:
            for word, meaning in _DECLARATION.findall(line):
                own, other = plain.meaning(word), plain.meaning(meaning.strip(" ."))
                if own != other and folded(own) != folded(word) and own not in other.split("(")[0]:
                    yield folded(word)

"""A writer's sentence in the other terms: US names put into UK ones and back. The one place where the two are swapped.

Page, sheet and PDF take their UK and US words from here, whole patterns by way of ``mkdocs_stitchcheck/retold.py``, which
also reads what comes out and leaves a line as it was where it would be worked otherwise. Whoever shows both terms side
by side calls :func:`swapped` for a sentence, or :func:`swaps` for the places, and hands over :func:`own_words` of the
pattern, so that a word to which the writer gave a meaning of its own is left alone.

Names and equivalence: Craft Yarn Council, *Standards & Guidelines for Knitting and Crochet* (2018). Skip and miss, gauge
and tension, yarn over and yarn over hook: common practice, no source; "tension" is also a thing of the hands, so only a
header line called so is swapped back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from .. import late_re as re
from .syntax import Header
from .vocabulary import DECREASE_WORDS, INCREASE_WORDS, LOOPS, plain_names, words, words_of

_LONGEST_SHORT = 5  # letters of an abbreviation

# What may be built on to a stitch's name without a space: FPdc, scblo, dc3tog, hdcinc, fsc.
_LOOPS = "|".join(sorted((name for names in LOOPS.values() for name in names if name.isalpha()), key=len, reverse=True))
_SHAPING = "|".join(sorted((*INCREASE_WORDS, *DECREASE_WORDS), key=len, reverse=True))
_BEFORE = rf"(?:fp|bp|inv|{_SHAPING}|ex|[fre]|{_LOOPS}|tfl)?"
_AFTER = rf"(?:\d{{0,2}}tog(?:s|{_LOOPS})?|{_SHAPING}|cl|{_LOOPS}|tfl|fp|bp)?"
_ADDRESS = re.compile(r"(?:https?://|www\.|mailto:)\S+", re.IGNORECASE)

# Words besides the names of stitches, as they are put into the other terms.
_HABITS = {
    "US": {
        "skip": "miss", "skips": "misses", "skipping": "missing", "skipped": "missed", "sk": "miss",
        "gauge": "tension", "yarn over hook": "yarn over hook", "yarn over": "yarn over hook", "yo": "yoh",
        "hhdc": "hhtr",
    },
    "UK": {
        "miss": "skip", "misses": "skips", "missing": "skipping", "missed": "skipped", "yarn over hook": "yarn over", "yarn round hook": "yarn over", "yoh": "yo", "yrh": "yo", "hhtr": "hhdc",
    },
}  # fmt: skip
# One also misses a bus, and a piece is missing: back it goes only before what can be skipped.
_SKIPPED = re.compile(r"\s+(?:(?:the\s+)?(?:next|first|last)|\d+|one|a|ch|sts?|stitch(?:es)?)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Swap:
    """``text[start:end]`` becomes ``words``."""

    start: int
    end: int
    words: str


def swapped(text: str, system: str, to: str, own: frozenset[str] = frozenset()) -> str:
    """*text*, written in the terms *system* ("US" or "UK"), in the terms *to*. *own* words (lower case) stay."""
    parts, at = [], 0
    for swap in swaps(text, system, to, own):
        parts += [text[at : swap.start], swap.words]
        at = swap.end
    return "".join([*parts, text[at:]])


def swaps(text: str, system: str, to: str, own: frozenset[str] = frozenset()) -> Iterator[Swap]:
    """What changes in *text* where it is put from *system* into *to*, in order; nothing for a word of *own*."""
    if system == to or {system, to} != {"US", "UK"}:
        return
    table, _pattern = _table(system)
    for whole, word, start, end in _words_found(text, system):
        if whole in own or word in own:
            continue
        short, long = table[word]
        new = long if short.lower() in own else short
        if new != word:
            yield Swap(start, end, _cased(text[start:end], new))


@lru_cache(maxsize=4096)
def _words_found(text: str, system: str) -> tuple[tuple[str, str, int, int], ...]:
    """The words of *text* that change: as far as they hang together, by themselves, and where they stand. The same rounds
    come again and again on a site."""
    addresses = [match.span() for match in _ADDRESS.finditer(text)]
    found = []
    for match in _table(system)[1].finditer(text):
        word = " ".join(match["word"].lower().split())
        if any(start <= match.start() < end for start, end in addresses):
            continue
        if word.startswith("miss") and not _SKIPPED.match(text, match.end()):
            continue
        found.append((match[0].lower(), word, *match.span("word")))
    return tuple(found)


def can_be_swapped(header: Header) -> bool:
    """Whether a pattern is in US or UK terms: it declares one of the two, or nothing."""
    return header.terms in ("US", "UK") or not header.terms and header.first("terms") is None


def own_words(header: Header, system: str) -> frozenset[str]:
    """The words, in lower case, to which a pattern gives a meaning that they don't have in *system*, and its colours.

    So is a word that the pattern explains and that the other terms have no word for: "rsc = reverse sc" stays "rsc".
    """
    known, others = words(system), words("UK" if system == "US" else "US")
    declared = (
        special.word
        for special in header.special.values()
        if special.stitch is None or known.get(words_of(special.word)) != special.stitch
        or words_of(swapped(special.word, system, "UK" if system == "US" else "US")) not in others
    )
    return frozenset(word.lower() for word in (*declared, *header.colors))


def _cased(before: str, after: str) -> str:
    """*after* in the capitals of *before*: "Sc" gives "Dc", "SC" gives "DC"."""
    if before.isupper() and len(before) > 1:
        return after.upper()
    return after[:1].upper() + after[1:] if before[:1].isupper() else after


@cache
def _table(system: str) -> tuple[dict[str, tuple[str, str]], re.Pattern[str]]:
    """Every word that changes, with what stands for it (short, in full), and what finds it, the longest first."""
    table: dict[str, tuple[str, str]] = {}
    for us, uk in plain_names():
        given, other = (us, uk) if system == "US" else (uk, us)
        for word in given:
            apart = all(len(part) == 1 for part in word.split())  # "d c", as old patterns print it
            short = apart or " " not in word and len(word) <= _LONGEST_SHORT
            table.setdefault(word, (other[0] if short else other[1], other[1]))
    table |= {word: (new, new) for word, new in _HABITS[system].items()}
    names = "|".join(r"\s+".join(map(re.escape, word.split())) for word in sorted(table, key=len, reverse=True))
    return table, re.compile(rf"(?<![^\W\d_]){_BEFORE}(?P<word>{names})s?{_AFTER}(?![^\W\d_])", re.IGNORECASE)

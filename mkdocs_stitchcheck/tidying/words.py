"""The words of rounds as a tidy pattern writes them: lower case, but post stitches as FPdc."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from .. import late_re as re
from ..language import vocabulary
from ..language.words import (
    EACH,
    FIRST,
    LAST,
    NEXT,
    NOUNS,
    PREPOSITIONS,
    RING_ADJECTIVES,
    RING_NOUNS,
    SAME,
    TIMES_WORDS,
)

LABEL_WORD = r"(?:rounds?|rnds?|rds?|rows?|rs?)"
NAME = r"[^\W\d_]+(?:[ .-]{1,2}[^\W\d_]+){0,3}(?:\d{1,2}tog)?"
STITCH_NOUN = r"(?:sts?|stitch(?:es)?)"

_POST = re.compile(r"(fp|bp)([a-z]+)", re.IGNORECASE)
_FURTHER = ["tog", "together", "x", "times", "time", "rep", "repeat", "from", "to", "and", "the", "of", "end", "then", "with", "more", "even", "evenly", "only", "sts", "rem", "remaining", "turn", "join", "hook", "both"]  # fmt: skip


@cache
def plain_words() -> frozenset[str]:
    """Every word of two letters or more that is written in lower case: stitches, and words of places and repeats."""
    names = {
        word
        for system in vocabulary.SYSTEMS
        for key in vocabulary.words(system)
        for word in key
        if len(word) > 1 and word.isalpha()
    }
    return frozenset(
        names.union(EACH, NEXT, SAME, FIRST, LAST, PREPOSITIONS, RING_ADJECTIVES, RING_NOUNS, TIMES_WORDS, _FURTHER)
        | {noun for noun in NOUNS if len(noun) > 1}
    )


@cache
def _post_stitches() -> frozenset[str]:
    bases = {key[0] for system in vocabulary.SYSTEMS for key in vocabulary.words(system) if len(key) == 1}
    return frozenset(side + base for side in ("fp", "bp") for base in bases if side + base in bases)


def in_case(word: str) -> str:
    """*word* in the case that a tidy pattern gives it; words that are not of the trade stay as they are."""
    low = word.lower()
    if low in _post_stitches() and (post := _POST.fullmatch(word)):
        return post[1].upper() + post[2].lower()
    return low if low in plain_words() and (word.isupper() or word.istitle()) else word


_SECOND_SENTENCE = re.compile(r"[^\W\d_]{2}\. [A-Z][a-z]|\d\. [A-Z][a-z]|[)\]]\. [A-Z][a-z]")
_WORD = re.compile(r"[^\W\d_]{2,}")


def cased_words(text: str, start: int, end: int, sentences: bool = False) -> Iterator[tuple[int, int, str]]:
    """The words of ``text[start:end]`` whose case a tidy pattern changes, with how they become.

    With *sentences* a capital at *start* begins a sentence, and stays as it does behind a full stop.
    """
    for match in _WORD.finditer(text, start, end):
        new = in_case(match[0])
        begins = (sentences and match.start() == start) or _begins_sentence(text, match.start())
        if new != match[0] and not (match[0].istitle() and begins):
            yield match.start(), match.end(), new


def in_sentences(text: str, start: int, end: int) -> bool:
    """Whether a round is written in sentences, each with a capital: "Turn. Ch 1. Sc in each st."."""
    return _SECOND_SENTENCE.search(text, start, end) is not None


def _begins_sentence(text: str, at: int) -> bool:
    """Whether a capital stands at *at* because a sentence begins there."""
    while at > 0 and text[at - 1] == " ":
        at -= 1
    return at == 0 or text[at - 1] in ".!"

"""Remarks that stand inside a round: "- I like to check here (12)", "inc in every other st: (sc, inc) x 3", "(12) phew".

They are looked for only where a round could not be read, and only words without a number, stitch or doing are passed over.
"""

from __future__ import annotations

from functools import cache

from . import vocabulary
from .cursor import Context
from .tokens import OPENING, Token

_WORKS = frozenset((
    "turn", "join", "leave", "leaving", "change", "switch", "color", "colour", "fasten", "repeat", "rep", "skip", "sk", "miss",
    "blo", "flo", "loop", "loops", "work", "marker", "stuff", "insert", "attach", "sew", "unworked", "remaining", "rem", "twice",
    "once", "thrice", "as", "with", "until", "evenly", "marker", "side", "chain", "space", "corner", "corners",
))  # fmt: skip
_TELLING = ("this", "which", "it", "that", "these", "so", "it's", "you", "i", "we", "don't", "remember", "just", "yes", "no", "phew")
_COMES_TO = ("becomes", "become", "makes", "gives", "to", "=", ">")
_NOUNS = ("st", "sts", "stitches", "stitch")


@cache
def _stitches() -> frozenset[str]:
    return frozenset(key[0] for system in vocabulary.SYSTEMS for key in vocabulary.words(system))


def without_remarks(tokens: list[Token], context_words: frozenset[str]) -> list[Token] | None:
    """The tokens without their remarks; None where there are none. *context_words* are declared words and colours."""
    label = _leading(tokens)
    start = label if label is not None else 0
    counted = _count_at_end(tokens)
    kept = tokens[start:]
    if counted is not None and counted[1] + 1 < len(tokens) and _is_remark(tokens[counted[1] + 1 :], context_words):
        kept = tokens[start : counted[1] + 1]
        return kept
    stop = counted[0] if counted is not None else len(tokens)
    for index in range(start + 1, stop - 1):
        if not _dash(tokens, index) and not (tokens[index].text == "," and tokens[index + 1].text in _TELLING):
            continue
        said = tokens[index + 1 : stop]
        change = _change_of(said, tokens[counted[0] + 1].text) if counted is not None else None
        if change is not None or _is_remark(said, context_words):
            first = index
            while first > start and tokens[first - 1].text == "-":
                first -= 1
            return tokens[start:first] + (change or []) + tokens[stop:]
    return kept if start else None


def remark_at_end(tokens: list[Token], at: int, stop: int, context: Context) -> int | None:
    """Where a bracket opens that ends the instruction and holds a remark alone: "- 34 sc (this is the fold)"."""
    last = stop - 1
    while last > at and tokens[last].text == ".":
        last -= 1
    if last <= at or tokens[last].text not in (")", "]") or tokens[last].mate <= at:
        return None
    opening = tokens[last].mate
    words = frozenset((*context.special_words, *context.colors)) - {"a", "i"}
    return opening if _is_remark(tokens[opening + 1 : last], words) else None


def _dash(tokens: list[Token], index: int) -> bool:
    return tokens[index].text == "-" and not (tokens[index].glued and tokens[index + 1].glued)


def _leading(tokens: list[Token]) -> int | None:
    """Where the instruction begins behind a name of it: "inc in every other st: (sc, inc) x 3"."""
    for index, token in enumerate(tokens):
        if token.text in OPENING or token.kind == "number":
            return None
        if token.text == ":" and index:
            spelled = any(other.text in ("(", "[", "*") for other in tokens[index + 1 :])
            return index + 1 if spelled else None
    return None


def _count_at_end(tokens: list[Token]) -> tuple[int, int] | None:
    """The opening and closing of the last bracket that begins with a number."""
    depth: list[int] = []
    found = None
    for index, token in enumerate(tokens):
        if token.text in ("(", "["):
            depth.append(index)
        elif token.text in (")", "]") and depth:
            opening = depth.pop()
            if not depth and tokens[opening + 1].kind == "number" and index - opening <= 4:
                found = opening, index
    return found


def _is_remark(tokens: list[Token], context_words: frozenset[str]) -> bool:
    words = [token.text for token in tokens if token.kind == "word"]
    if not words or any(token.kind == "number" or token.text in OPENING or token.text == "*" for token in tokens):
        return False
    return not any(word in _WORKS or word in context_words or len(word) > 1 and word in _stitches() for word in words)


def _change_of(tokens: list[Token], count: str) -> list[Token] | None:
    """"40 becomes 32 sts", where 32 is the count in the bracket: as a change, "(-8)", that is checked beside the count."""
    words = [token for token in tokens if token.text not in (".", *_NOUNS)]
    if len(words) != 3 or not words[0].kind == words[2].kind == "number" or words[1].text not in _COMES_TO:
        return None
    if max(len(words[0].text), len(words[2].text)) > 6:
        return None
    start, end = words[0].start, words[0].end
    if words[2].text != count:
        # "2 to 6" may be a stretch of stitches; "9 becomes 13" is a count of its own, beside the one in the bracket.
        own = words[2]
        told = [Token("mark", "(", own.start, own.start), own, Token("mark", ")", own.end, own.end)]
        return told if words[1].text.startswith("become") else None
    change = int(count) - int(words[0].text)
    sign = Token("mark", "-" if change < 0 else "+", start, start)
    number = Token("number", str(abs(change)), start, start)  # no place of its own: nothing to edit there
    return [Token("mark", "(", start, start), sign, number, Token("mark", ")", end, end)] if change else []

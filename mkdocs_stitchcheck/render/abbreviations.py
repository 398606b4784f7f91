"""The abbreviations that a pattern uses, with their meaning in the pattern's own terms."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from ..language import syntax, vocabulary
from ..language.other_terms import OTHER_TERMS, OtherTerms
from ..language.vocabulary import Stitch
from ..results import PatternResult
from .context import Context
from .html import Html, el, lines
from .materials import READ_SO, part_title
from .switching import in_other_terms
from .words import clean

# Words besides stitches. Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (2018), master list;
# MR, FO, ea and the like: common practice, no source.
_OTHER_WORDS = {
    "alt": "alternate",
    "approx": "approximately",
    "beg": "beginning",
    "bet": "between",
    "BLO": "back loop only",
    "BL": "back loop",
    "FLO": "front loop only",
    "FL": "front loop",
    "ch-sp": "chain space",
    "cont": "continue",
    "ea": "each",
    "eor": "end of round",
    "FO": "fasten off",
    "foll": "following",
    "hk": "hook",
    "lp": "loop",
    "lps": "loops",
    "MR": "magic ring",
    "patt": "pattern",
    "pm": "place marker",
    "prev": "previous",
    "rem": "remaining",
    "rep": "repeat",
    "rpt": "repeat",
    "rnd": "round",
    "rnds": "rounds",
    "RS": "right side",
    "WS": "wrong side",
    "sp": "space",
    "sps": "spaces",
    "st": "stitch",
    "sts": "stitches",
    "tbl": "through the back loop",
    "tch": "turning chain",
    "t-ch": "turning chain",
    "tog": "together",
    "yo": "yarn over",
    "yoh": "yarn over hook",
    "yrh": "yarn round hook",
}
_PLURALS = {"st": "sts", "rnd": "rnds", "sp": "sps", "lp": "lps"}
_SHOUTED = frozenset({"BL", "FL", "FO", "MR", "RS", "WS"})  # in lower case they may be other words
_WORD = re.compile(r"(?<!\w)[^\W\d_]+(?:-[^\W\d_]+)?(?!\w)")
_LONGEST_NAME = 4
_MOST_NESTED = 40


def _steps(steps: tuple[syntax.Step, ...] | None, depth: int = 0) -> Iterator[syntax.Step]:
    for step in steps or ():
        yield step
        if depth < _MOST_NESTED and isinstance(step, (syntax.Group, syntax.Repeat, syntax.More)):
            yield from _steps(step.body, depth + 1)
            if isinstance(step, syntax.Repeat):
                yield from _steps(step.ending, depth + 1)


def _stitches(pattern: PatternResult) -> dict[str, Stitch]:
    """Every stitch that the rounds work, by its key, in the order of first use."""
    found: dict[str, Stitch] = {}
    for piece in pattern.syntax.pieces:
        for line in piece.lines:
            if not isinstance(line, syntax.RoundLine):
                continue
            for step in _steps(line.steps):
                if isinstance(step, (syntax.Work, syntax.Spread)) or (isinstance(step, syntax.Join) and step.stitch):
                    stitch = step.stitch
                    assert stitch is not None
                    found.setdefault(stitch.key, stitch)
                elif isinstance(step, syntax.Chain):
                    found.setdefault("ch", vocabulary.stitches()["ch"])
    return found


def _texts(pattern: PatternResult) -> list[str]:
    """What readers see of the rounds: no private notes."""
    return [
        clean(line.statement.written)
        for piece in pattern.syntax.pieces
        for line in piece.lines
        if line.kind not in ("private", "excuse", "note")
    ]


@cache
def _spellings(system: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """How each stitch may be written, by its key."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for words, stitch in vocabulary.words(system).items():
        found.setdefault(stitch.key, []).append(words)
    return {key: tuple(spellings) for key, spellings in found.items()}


def _runs(texts: list[str]) -> set[tuple[str, ...]]:
    """Every run of up to four words in *texts*."""
    runs: set[tuple[str, ...]] = set()
    for text in dict.fromkeys(texts):
        words = vocabulary.words_of(text)
        for length in range(1, _LONGEST_NAME + 1):
            runs.update(zip(*(words[i:] for i in range(length)), strict=False))
    return runs


def meaning(stitch: Stitch, system: str) -> str:
    """What a stitch is called in words; increases and decreases say how many of which."""
    base = vocabulary.stitches().get(stitch.base)
    if base is not None and base.key != stitch.key:
        plain = vocabulary.abbreviation(base, system)
        if stitch.kind == "increase":
            return f"increase: {stitch.makes} {plain} in one stitch"
        if stitch.kind == "decrease":
            return f"decrease: {stitch.uses} {plain} worked together"
    return vocabulary.full_name(stitch, system)


def _stitch_entries(pattern: PatternResult, runs: set[tuple[str, ...]]) -> Iterator[tuple[str, str]]:
    system = pattern.syntax.system
    spellings = _spellings(system)
    declared = {special.word.lower() for special in pattern.syntax.header.special.values()}
    for key, stitch in _stitches(pattern).items():
        words = vocabulary.abbreviation(stitch, system)
        means = meaning(stitch, system)
        used = [" ".join(spelling) for spelling in spellings.get(key, ()) if spelling in runs]
        short = min(used, key=len) if used and vocabulary.words_of(words) not in runs else words
        if short.lower() not in declared and short.lower() != means.lower():
            yield short, means
        if stitch.kind in ("increase", "decrease") and stitch.base in vocabulary.stitches():
            base = vocabulary.stitches()[stitch.base]
            yield vocabulary.abbreviation(base, system), vocabulary.full_name(base, system)


def _own_entries(pattern: PatternResult, terms: OtherTerms, texts: list[str]) -> Iterator[tuple[str, str]]:
    """The words of another language or shorthand that the rounds use, with the English name of each stitch."""
    for key, stitch in _stitches(pattern).items():
        own, name = terms.names.get(key, ("", ""))
        means = meaning(stitch, "US")
        if own:
            yield own, name if name.lower() == means.lower() or not terms.translates else f"{name} ({means})"
        base = terms.names.get(stitch.base) if stitch.kind in ("increase", "decrease") else None
        if base is not None:
            yield base[0], f"{base[1]} ({vocabulary.stitches()[stitch.base].name})" if terms.translates else base[1]
    words = {word for text in dict.fromkeys(texts) for word in _WORD.findall(text)}
    yield from ((word, means) for word, means in terms.further.items() if word in words)


def _other_entries(texts: list[str]) -> Iterator[tuple[str, str]]:
    words = {word for text in dict.fromkeys(texts) for word in _WORD.findall(text)}
    low = {word.lower() for word in words}
    used = {w: m for w, m in _OTHER_WORDS.items() if w in words or (w not in _SHOUTED and w.lower() in low)}
    for word, means in used.items():
        plural = _PLURALS.get(word)
        if plural is not None and plural in used:
            yield f"{word}, {plural}", f"{means}, {used[plural]}"
        elif word not in _PLURALS.values() or next(k for k, v in _PLURALS.items() if v == word) not in used:
            yield word, means


def entries(pattern: PatternResult) -> list[tuple[str, str]]:
    """(abbreviation, meaning) of everything that the rounds use, sorted; the writer's own declarations among them."""
    texts = _texts(pattern)
    found: dict[str, tuple[str, str]] = {}
    for special in pattern.syntax.header.special.values():
        found[special.word.lower()] = (special.word, clean(special.text))
    terms = OTHER_TERMS.get(pattern.syntax.header.terms)
    if terms is not None:
        used = tuple(_own_entries(pattern, terms, texts))
    else:
        used = (*_stitch_entries(pattern, _runs(texts)), *_other_entries(texts))
    for word, means in used:
        found.setdefault(word.lower(), (word, means))
    return sorted(found.values(), key=lambda entry: entry[0].lower())


def _other(text: str, pattern: PatternResult, ctx: Context) -> Html | None:
    return in_other_terms(text, pattern, ctx.options.both_terms)


def abbreviations(pattern: PatternResult, ctx: Context) -> Html | None:
    """The list of abbreviations, and how the pattern counts its turning chains and slip stitches."""
    found = entries(pattern)
    rows = [el("div", el("dt", word, dir="auto"), "\n", el("dd", means, _other(f"{word}: {means}", pattern, ctx), dir="auto")) for word, means in found]
    said = [line for line in pattern.syntax.header.lines if line.key in READ_SO]
    notes = [el("p", f"{clean(line.label)}: {clean(line.value)}", dir="auto") for line in said]
    if not rows and not notes:
        return None
    terms = OTHER_TERMS.get(pattern.syntax.header.terms)
    title = part_title(f"Abbreviations, {terms.title if terms else pattern.syntax.system + ' terms'}", ctx)
    body = el("dl", lines("", rows, ""), class_="sc-abbr") if rows else None
    return el("div", lines("", title, body, notes, ""), class_="sc-part sc-abbreviations")

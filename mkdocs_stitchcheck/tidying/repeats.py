"""Repeats in one style: "(2 sc, inc) x 6", the other brackets where one repeat stands in another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .. import late_re as re
from ..language.syntax import Number, Repeat
from ..language.tokens import CLOSING, OPENING, match_brackets, tokenize
from ..language.words import NUMBER_WORDS
from .pen import Pen

_N = rf"(?:\d+|{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})"
_TIMES = (
    rf"(?:(?:repeat|rep)\s+)?(?:(?:x\s{{0,4}}|\*\s{{0,4}}){_N}(?:\s{{0,4}}times?)?|{_N}\s{{0,4}}(?:x|times?)|{_N}|twice|thrice"
    rf"|[(\[]\s{{0,4}}(?:x\s{{0,4}}{_N}|{_N}\s{{0,4}}(?:x|times?))\s{{0,4}}[)\]])"
)
_MULTIPLIER = re.compile(rf"\s{{0,4}}[.,]?\s{{0,4}}{_TIMES}", re.IGNORECASE)
_PREFIX = re.compile(r"\d+\s{0,4}(?:x|times)?\s{0,4}", re.IGNORECASE)
_STRETCH = r"(?:around|across|to (?:the )?end)"
_PAIRED = re.compile(rf"\s{{0,4}}(\*)\s{{0,4}}(?:{_TIMES}|(?:(?:repeat|rep)\s+)?({_STRETCH}))", re.IGNORECASE)
_FROM = re.compile(
    rf"\s{{0,4}}[,;]?\s{{0,4}}(?:repeat|rep) from \* (?:(?:{_N} more times?|{_N} times more|(?:once|twice) more)|({_STRETCH}))",
    re.IGNORECASE,
)


@dataclass(slots=True)
class Pair:
    """Two brackets of a text, or two stars that become brackets: ``repeat`` where they hold one."""

    opening: int
    closing: int
    repeat: Repeat | None = None
    extent: str = ""  # for stars: what stands behind the closing bracket, without a number


def bracket_pairs(text: str, start: int) -> dict[int, int]:
    """Where the bracket that opens at an offset closes, for every pair from *start* on."""
    tokens = tokenize(text, start)
    match_brackets(tokens)
    return {
        token.start: tokens[token.mate].start
        for token in tokens
        if token.kind == "mark" and token.text in OPENING and token.mate >= 0
    }


def opening_of(text: str, repeat: Repeat) -> int:
    """Where the bracket or star of *repeat* stands; -1 for a repeat without one."""
    return text.find(repeat.mark, repeat.start, repeat.end) if repeat.mark in OPENING or repeat.mark == "*" else -1


def has_extent(repeat: Repeat) -> bool:
    """Whether the repeat says how often, so that its brackets are those of a repeat and not of a remark or a place."""
    return repeat.times is not None or repeat.extent != "times"


def star_pair(text: str, repeat: Repeat) -> Pair | None:
    """The stars of *repeat* as brackets, where brackets say the same."""
    if repeat.mark != "*" or not repeat.closed or not repeat.body or repeat.last is not None or repeat.ending:
        return None
    if text[repeat.start : repeat.start + 2] == "**" or text[repeat.start : repeat.start + 1] != "*":
        return None
    end = repeat.body[-1].end
    paired = _PAIRED.fullmatch(text, end, repeat.end)
    found = paired or _FROM.fullmatch(text, end, repeat.end)
    if found is None or (repeat.times is not None and len(repeat.times.values) > 1):
        return None
    right = {"times": ("all",) if paired else ("more",), "rest": ("all", "more", "star")}.get(repeat.extent, ())
    if repeat.counting not in right or (repeat.extent == "times") != (repeat.times is not None):
        return None
    between = text[repeat.start : end]
    if ". " in between or ";" in between:
        return None
    stretch = found[found.lastindex or 0] if found.lastindex and found[found.lastindex] != "*" else ""
    return Pair(repeat.start, end, repeat, stretch if repeat.extent == "rest" else "")


def tidy_repeats(pen: Pen, repeats: Sequence[Repeat], start: int, house: str, times: str, stars: bool) -> None:
    """Give repeats their brackets and multipliers; *stars* leaves those written with stars as they are."""
    text = pen.text
    mates = bracket_pairs(text, start)
    of_bracket = {opening_of(text, repeat): repeat for repeat in repeats if repeat.closed and has_extent(repeat)}
    pairs = [Pair(opening, closing, of_bracket.get(opening)) for opening, closing in mates.items()]
    if not stars:
        pairs += [pair for repeat in repeats if (pair := star_pair(text, repeat)) is not None]
    for pair, bracket in _with_brackets(text, pairs, house):
        repeat = pair.repeat
        if repeat is None:
            continue
        if text[pair.opening] == "*":
            _from_stars(pen, pair, repeat, bracket, times)
        else:
            _rebracket(pen, pair, bracket)
            _tidy_times(pen, pair, repeat, times)


def _with_brackets(text: str, pairs: Sequence[Pair], house: str) -> Iterator[tuple[Pair, str]]:
    """Each pair with its opening bracket, inner ones first: a repeat differs from the brackets right within it."""
    waiting: list[tuple[Pair, str]] = []
    other = "[" if house == "(" else "("
    for pair in sorted(pairs, key=lambda pair: pair.closing):
        inner: set[str] = set()
        while waiting and waiting[-1][0].opening > pair.opening:
            inner.add(waiting.pop()[1])
        bracket = text[pair.opening]
        if pair.repeat is not None:
            bracket = other if house in inner and other not in inner else house
        waiting.append((pair, bracket))
        yield pair, bracket


def _rebracket(pen: Pen, pair: Pair, bracket: str) -> None:
    text, opening, closing = pen.text, pair.opening, pair.closing
    inner, start = closing, opening + 1
    while inner > start and text[inner - 1] == " ":
        inner -= 1
    while start < inner and text[start] == " ":
        start += 1
    if text[closing] != OPENING[text[opening]] or not pen.one_line(opening, opening + 1):
        return
    pen.replace(opening, opening + 1, bracket)
    pen.replace(closing, closing + 1, OPENING[bracket])
    pen.replace(opening + 1, start, "")
    pen.replace(inner, closing, "")


def _said(number: Number, times: str) -> str:
    return f" x {number.value}" if times == "x" else f" {number.value} times"


def _tidy_times(pen: Pen, pair: Pair, repeat: Repeat, times: str) -> None:
    number, text, end = repeat.times, pen.text, pair.closing + 1
    if number is None or len(number.values) > 1 or number.value < 2 or repeat.counting != "all":
        return
    if repeat.start == pair.opening and _MULTIPLIER.fullmatch(text, end, repeat.end):
        if pen.one_line(pair.closing, repeat.end):
            pen.replace(end, repeat.end, _said(number, times))
    elif (
        repeat.end == end
        and _PREFIX.fullmatch(text, repeat.start, pair.opening)
        and pen.one_line(repeat.start, end)
        and pen.replace(repeat.start, pair.opening, "")
    ):
        pen.insert(end, _said(number, times))


def _from_stars(pen: Pen, pair: Pair, repeat: Repeat, bracket: str, times: str) -> None:
    if not pen.one_line(repeat.start, repeat.end):
        return
    extent = f" {pair.extent.lower()}" if pair.extent else ""
    if repeat.times is not None:
        more = 1 if repeat.counting == "more" else 0
        extent = _said(Number(0, 0, (repeat.times.value + more,)), times)
    inner = repeat.body[0].start
    if not pen.text[repeat.start + 1 : inner].strip() and pen.replace(pair.closing, repeat.end, OPENING[bracket] + extent):
        pen.replace(repeat.start, inner, bracket)


def style_of(text: str, repeat: Repeat, mates: dict[int, int]) -> tuple[str, str]:
    """How a repeat is written: its bracket ("*" for stars, "" where others stand in it), and "x", "times" or ""."""
    at = opening_of(text, repeat)
    if at < 0 or not has_extent(repeat) or not repeat.closed:
        return "", ""
    if text[at] == "*":
        return "*", ""
    closing = mates.get(at, -1)
    if closing < 0:
        return "", ""
    nested = any(char in OPENING or char in CLOSING for char in text[at + 1 : closing])
    behind = text[closing + 1 : repeat.end].lower()
    said = "times" if "times" in behind and "x" not in behind else "x" if repeat.times is not None and "x" in behind else ""
    return "" if nested else text[at], said if repeat.counting == "all" else ""

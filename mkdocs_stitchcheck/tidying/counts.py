"""Stated counts in one style: "(24)", "[24]", "= 24", "- 24 sts"."""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re
from ..language.syntax import RoundLine, Stated
from .pen import Pen
from .words import STITCH_NOUN

_OPENING = re.compile(r"[-=\s]{0,6}[(\[{</|]?\s*=?\s*")
_CLOSING = ")]}>/|"
_NOUN_BEHIND = re.compile(rf"\s*{STITCH_NOUN}(?![^\W_])", re.IGNORECASE)
_NOUN = re.compile(rf"\s*({STITCH_NOUN})?", re.IGNORECASE)
_END = re.compile(rf"\s{{0,4}}(?:{STITCH_NOUN})?\s{{0,4}}\.?\s{{0,9}}(?:@|$)", re.IGNORECASE)
_IN_BRACKETS = ("brackets", "square brackets")
_SIGNS = {"brackets": ("(", ")"), "square brackets": ("[", "]"), "equals sign": ("= ", ""), "dash": ("- ", "")}
STYLE_OF_SIGN = {"(": "brackets", "[": "square brackets", "=": "equals sign", "-": "dash"}


def style_of(text: str, stated: Stated) -> str:
    """The style in which a count is written; "" for words that no style has."""
    return STYLE_OF_SIGN.get(text[stated.start : stated.start + 1], "")


def plain_total(stated: Stated) -> bool:
    """Whether it is nothing but a number of stitches."""
    number = stated.number
    return (
        stated.form == "total"
        and stated.change is None
        and number is not None
        and len(number.values) == 1
        and not number.word
        and all(part.kind in ("", "stitch") for part in stated.parts)
    )


def noun_of(text: str, stated: Stated) -> str | None:
    """The noun behind a plain total ("sts", or "" for none); None where other words stand there."""
    assert stated.number is not None
    inner = text[stated.number.end : stated.end].rstrip(" )]}>/|")
    found = _NOUN.fullmatch(inner)
    return (found[1] or "") if found else None


def tidy_counts(pen: Pen, line: RoundLine, style: str, nouns: bool) -> None:
    """Write the counts behind the instruction in *style*, plain ones with or without "sts"."""
    behind = [stated for stated in line.stated if stated.start >= line.body[1]]
    if not behind:
        return
    alone = len(behind) == 1
    # Of several counts, one a round, the nouns stay: "(12 sts)(24 sts)" reads badly.
    put_in_brackets = [_tidy_count(pen, stated, *((style, nouns) if alone else (_bracketed(style), None))) for stated in behind]
    _tidy_gap(pen, line.body[1], min(stated.start for stated in behind), any(put_in_brackets))


def _bracketed(style: str) -> str:
    return style if style in _IN_BRACKETS else "brackets"


def _tidy_gap(pen: Pen, end: int, start: int, put_in_brackets: bool) -> None:
    """One space before the count; a comma or colon before it goes, and the stop before one that got its brackets."""
    if not pen.text[end:start].strip(" ,;:." if put_in_brackets else " ,;:"):
        pen.replace(end, start, " ")


@dataclass(slots=True)
class _Parts:
    """Where the parts of a count stand: from ``start`` its opening sign, from ``inner`` its words, closed to ``end``."""

    start: int
    inner: int
    words_end: int
    end: int
    bracketed: bool
    led: bool  # "You now have 24 sts"


def _parts(pen: Pen, stated: Stated) -> _Parts | None:
    text, end = pen.text, stated.end
    if pen.written[stated.start : stated.start + 1] == "*":
        return None  # *24 sts*
    opening = _OPENING.match(text, stated.start, end)
    assert opening is not None
    inner, words_end = opening.end(), end
    bracketed = any(char in "([{</|" for char in opening[0])
    if bracketed:
        if text[end - 1 : end] not in _CLOSING:
            return None
        words_end = inner + len(text[inner : end - 1].rstrip())
    led = not (text[inner : inner + 1].isdigit() or text[inner : inner + 1] in "+-?")
    return _Parts(stated.start, inner, words_end, end, bracketed, led)


def _tidy_count(pen: Pen, stated: Stated, style: str, nouns: bool | None) -> bool:
    """Write one count in *style*; whether it had no brackets and has them now."""
    parts = _parts(pen, stated)
    if parts is None or not pen.one_line(parts.start, parts.end):
        return False
    if not parts.bracketed and (parts.led or (style not in _IN_BRACKETS and _after_stop(pen.text, parts.start))):
        return False
    if not parts.bracketed and stated.number is not None and len(stated.number.values) > 1:
        return False  # 24 (30, 36) sts
    emphasised = "*" in pen.written[max(0, parts.start - 1) : parts.start]
    more_follows = _END.match(pen.text, parts.end) is None
    if stated.form != "total" or stated.change is not None or parts.led or emphasised or more_follows:
        if not parts.bracketed:
            return False
        style = _bracketed(style)
    before, after = _SIGNS[style]
    written = pen.replace(parts.start, parts.inner, before)
    _tidy_noun(pen, stated, parts, None if nouns is None else nouns or style == "dash", after)
    return written and not parts.bracketed and style in _IN_BRACKETS


def _tidy_noun(pen: Pen, stated: Stated, parts: _Parts, wanted: bool | None, after: str) -> None:
    """The closing sign, and before it "sts" for a plain total, or nothing; also for "(24) sts". None: nouns stay."""
    text, number = pen.text, stated.number
    noun = noun_of(text, stated) if wanted is not None and plain_total(stated) else None
    if noun is None or number is None:
        pen.replace(parts.words_end, parts.end, after)
        if parts.led or number is None or not text[number.end : number.end + 1].isalpha():
            return
        pen.insert(number.end, " ")  # (24sc)
        return
    outside = _NOUN_BEHIND.match(text, parts.end) if parts.bracketed and not noun else None
    end = outside.end() if outside else parts.end
    said = (" st" if number.value == 1 else " sts") if wanted else ""
    if pen.one_line(number.end, end):
        pen.replace(number.end, end, said + after)


def _after_stop(text: str, at: int) -> bool:
    """Whether a sentence ended before *at*."""
    return text[max(0, at - 8) : at].rstrip().endswith(".")

"""Headings of pieces: "# Ears (make 2, color B)", "EARS (MAKE 2) - white", "Legs x2", "Body, continued"."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .. import late_re as re
from ..source import ReadStatement, Statement
from .near import distance
from .round_labels import find_moment
from .words import value_of

_COUNT = r"(?P<{0}>\d{{1,6}}|two|three|four|five|six|seven|eight|nine|ten|twelve)"
_MAKE = re.compile(
    rf"\b(?:make|makes|work|crochet)\s*:?\s*{_COUNT.format('make')}\b|(?:^|[\s(,])[x]\s?{_COUNT.format('times')}\b|"
    rf"\b{_COUNT.format('pieces')}\s*(?:pcs?\b|pieces?\b|parts?\b|x\b|times\b|of each\b|of these\b|alike\b)|\((?P<bare>\d{{1,3}})\)",
    re.IGNORECASE,
)
_NUMBERED_WORD = re.compile(r"[(\[,-]\s*([a-z]{3,6})\s*:?\s*(?:\d{1,3}|two|three|four|five|six|eight)\b", re.IGNORECASE)
_NOT_MADE = ("male", "mane", "mare", "mate", "maze", "lake", "cake", "take", "wake", "bake", "made")
_COLOR = re.compile(r"\b(?:colou?r|col\.?|in|with|using)\s+(?P<name>[^\W_][^,()\[\]/]{0,40})", re.IGNORECASE)
_CONTINUED = re.compile(r"(?<![\s,(-])[\s,(-]*+\b(?:continued|cont'?d?\.?|cont\.|goes on|part 2|part two)\b\)?", re.IGNORECASE)
_COPIES = re.compile(
    r"\b(?P<n>\d{1,2}|one|two|three|four|five|six)\s+(?:(?P<each>each\s+(?:in|of|with)|in each of)|(?:of (?:them|these)\s+)?(?:in|of|with|using))\s++(?:colou?rs?\s++)?"
    r"(?P<name>(?(each)[^;()\[\]\d]{1,60}|[^,;&()\[\]\d]{1,25}?))(?=\s*+(?:,|;|&|\+|\band\b|[)\]]|$))",
    re.IGNORECASE,
)
_SAME = re.compile(r"\b(?:same as|as|like)\s+(?:the\s+|for\s+)?(?P<name>[^\W\d_][^,()\[\]]{0,40})", re.IGNORECASE)
_MAKING_UP = re.compile(
    r"\s*(?:making[ -]up|to make up|make up|assembly|assembling(?: the [^\W\d_]{1,15})?|finishing(?: touches| up)?|"
    r"(?:(?:let's |now )?put(?:ting)?|sew(?:ing)?|join(?:ing)?) (?:(?:it|them|everything|(?:all )?the (?:pieces|parts)|your [^\W\d_]{1,15}|[^\W\d_]{1,15}) )?(?:all |back )?together|"
    r"(?:finishing|assembly) (?:and|&) (?:finishing|assembly)|"
    r"finish|sewing(?: up)?|to finish|joining(?: the pieces)?|construction|face|details|final assembly|to assemble)\s*[:!]?\s*$",
    re.IGNORECASE,
)
_TRIM = " \t:.-,;*#(["


@dataclass(slots=True)
class Heading:
    """What a heading says. ``name`` without quantity and colour; ``color`` a declared key or None."""

    name: str
    make: int = 1
    color: str | None = None
    color_name: str = ""
    continued: bool = False
    making_up: bool = False
    same_as: str = ""
    moment: int | None = None
    copies: tuple[tuple[str, int], ...] = ()  # "one in A and one in C": how many of them in which colour
    mistyped: tuple[int, int] | None = None  # where a word stands that is nearly "make", before a number


def read_heading(statement: Statement, colors: Mapping[str, str]) -> Heading:
    """heading = ["#"] name ["(" {make | color | remark} ")"] ["-" make | color] ["@" moment] ; *colors* as in Context."""
    text = statement.words
    moment = find_moment(text)
    if moment is not None:
        text = text[: moment[0]]
    text = re.sub(r"^\d{1,2}[.)]\s+", "", text.strip().lstrip("#").strip())
    heading = Heading(text, moment=moment[1] if moment else None)
    if _MAKING_UP.match(text):
        heading.name, heading.making_up = text.rstrip(": "), True
        if isinstance(statement, ReadStatement):
            heading.name = statement.written.strip(" #:*\t")
        return heading
    continued = _CONTINUED.search(text)
    if continued:
        heading.continued = True
        text = text[: continued.start()] + text[continued.end() :]
    made = _MAKE.search(text)
    if made:
        digits = next(group for group in made.groups() if group)
        heading.make = value_of(digits)
    else:
        heading.mistyped = _nearly_make(statement.words)
    _read_color(heading, text, colors)
    heading.name = _name(text, made)
    return heading


def _nearly_make(text: str) -> tuple[int, int] | None:
    """Where "mke" stands in "# ARM (mke 2)"; one letter off is enough in so short a word."""
    for match in _NUMBERED_WORD.finditer(text):
        if match[1].lower() not in _NOT_MADE and any(distance(match[1].lower(), word) == 1 for word in ("make", "makes")):
            return match.span(1)
    return None


def _read_color(heading: Heading, text: str, colors: Mapping[str, str]) -> None:
    heading.copies = _copies(text, colors)
    if heading.copies:
        heading.color = heading.color_name = heading.copies[0][0]
        return
    match = re.search(r"[(\[]([^)\]]*)[)\]]?", text)
    parts = re.split(r"[,;]", match[1]) if match else []
    parts += [part for part in re.split(r"\s-+\s|:\s", text)[1:]]
    for part in parts:
        found = _COLOR.search(part)
        name = (found["name"] if found else part).strip(" .:)]*")
        for candidate in (name, name.split(" and ")[0].strip()):
            key = colors.get(candidate.lower())
            if key is not None:
                heading.color, heading.color_name = key, candidate
                return
        if found and re.match(r"\s*col", part, re.IGNORECASE):
            heading.color_name = name
            return


def _copies(text: str, colors: Mapping[str, str]) -> tuple[tuple[str, int], ...]:
    """"make 2, one in A and one in C", "one each in A and C": how many are made in each of two or more colours."""
    found: dict[str, int] = {}
    for match in _COPIES.finditer(text):
        number = value_of(match["n"])
        names = re.split(r"\s*(?:,|&|\band\b)\s*", match["name"]) if match["each"] else [match["name"]]
        for name in names:
            key = colors.get(name.strip().lower())
            if key is None:
                return ()
            found[key] = found.get(key, 0) + number
    return tuple(found.items()) if len(found) > 1 else ()


def _name(text: str, made: re.Match[str] | None) -> str:
    name = re.split(r"[(\[]|\s-+\s|:", text, maxsplit=1)[0]
    if made and made.start() < len(name):
        name = name[: made.start()]
    return name.strip(_TRIM) or text.strip(_TRIM)


def is_making_up(text: str) -> bool:
    """Whether a line is a heading of the steps that put the pieces together: "Assembly:", "FINISHING"."""
    return bool(_MAKING_UP.match(text.lstrip("# ")))


def same_as(text: str) -> str:
    """The piece that "same as Left ear" names, or ""."""
    match = _SAME.search(text)
    return match["name"].strip() if match else ""

"""Prose outside the pattern blocks that belongs into the pattern: it is not checked and will not be on the sheet."""

from __future__ import annotations

from collections.abc import Iterable

from .. import late_re as re
from ..fences import prose_lines
from ..findings import Findings
from ..source import BlockLine, Source, Span

# "Rnds 5-8", "round 5", "R5": never a year, a date or a decimal.
_NUMBER = r"\d{1,3}(?![\d]|[./,-]\d{1,4}[./-]\d|\.\d)"
_ROUND = re.compile(rf"\b(?:(?:rnds?|rounds?|rows?)\b\.?[ \t]{{0,3}}|R(?=\d)){_NUMBER}", re.IGNORECASE)

# A line that begins like a round: label, number, mark.
_LABEL = re.compile(
    r"\W{0,8}(?:rnds?|rounds?|rows?|r)\.?[ \t]{0,3}\d{1,3}(?:[ \t]?(?:[-–~]|to|and|&)[ \t]?r?\d{1,3})?"
    r"(?:[ \t]?\([^()]{1,20}\))?[ \t]?\*{0,2}[:：.)–-]",
    re.IGNORECASE,
)
# What the rest of it holds if it is one: counted stitches, or a stitch word and a count at its end.
_STITCHES = r"(?:sc|hdc|dc|tr|dtr|htr|inc|dec|ch|sl[ \t]?st|sts?|stitch(?:es)?|chains?|single|double|treble|increase|decrease)"
_COUNTED = re.compile(rf"\b\d{{1,4}}[ \t]?{_STITCHES}\b|\b{_STITCHES}[ \t]?(?:\d|x[ \t]?\d)", re.IGNORECASE)
_STITCH = re.compile(rf"\b{_STITCHES}\b", re.IGNORECASE)
_COUNT = re.compile(r"[(\[][ \t]?\d{1,5}(?:[ \t][\w ,-]{1,30})?[)\]][.*_ \t]*$")


def check_prose(source: Source, piece_names: list[str], findings: Findings) -> None:
    """Warn, once a line, of prose that names a piece and a round, or looks like a round (``outside-the-pattern``)."""
    pieces = _pieces(piece_names)
    reported: set[int] = set()
    for line in prose_lines(source):
        if line.number in reported:
            continue
        found = _looks_like_a_round(line) or _names_both(line, pieces)
        if found is not None:
            span, message = found
            reported.add(line.number)
            findings.add(
                "outside-the-pattern",
                span,
                f"{message} outside the pattern: it is not checked and will not be on the printed sheet.",
                suggestion="Move it into a pattern block, or leave it here if it is only a remark.",
            )


def _pieces(names: Iterable[str]) -> re.Pattern[str] | None:
    """Any of the names as whole words, one or several of it (Ear, ears)."""
    forms: set[str] = set()
    for name in names:
        word = " ".join(name.split()).casefold()
        if len(word) > 1:
            forms.update((word, f"{word}s", f"{word.removesuffix('y')}ies"))
        if len(word) > 3:
            forms.add(word.removesuffix("s"))
    if not forms:
        return None
    ordered = sorted(forms, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(re.escape(form) for form in ordered)})(?!\w)", re.IGNORECASE)


def looks_like_a_round(text: str) -> bool:
    """Whether a line of prose begins with a round's label and goes on with stitches."""
    label = _LABEL.match(text)
    return label is not None and looks_like_its_words(text[label.end() :])


def looks_like_its_words(text: str) -> bool:
    """Whether words are those of a round: counted stitches, or a stitch and a count at the end."""
    return bool(_COUNTED.search(text) or (_STITCH.search(text) and _COUNT.search(text[-60:])))


def _looks_like_a_round(line: BlockLine) -> tuple[Span, str] | None:
    if not looks_like_a_round(line.text):
        return None
    indent = len(line.text) - len(line.text.lstrip())
    return _span(line, indent, len(line.text.rstrip())), "This looks like a round, and it stands"


def _names_both(line: BlockLine, pieces: re.Pattern[str] | None) -> tuple[Span, str] | None:
    place = _ROUND.search(line.text) if pieces else None
    piece = pieces.search(line.text) if pieces and place else None
    if place is None or piece is None:
        return None
    return (
        _span(line, place.start(), place.end()),
        f"This speaks of “{piece[0][:40]}” and “{place[0]}”, and it stands",
    )


def _span(line: BlockLine, start: int, end: int) -> Span:
    return Span(line.number, line.column + start, line.number, line.column + end)

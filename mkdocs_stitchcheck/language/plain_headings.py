"""Headings of pieces without a sign: short lines without stitch words, directly before a first round or a foundation."""

from __future__ import annotations

from .. import late_re as re
from . import vocabulary
from .headings import is_making_up
from .labels import known_key, near_key, split_key
from .multipliers import REPEAT_WORDS
from .statements import Cut

_HEADING_WORDS = 6
_NUMBERED_HEADING = re.compile(r"^\s*\d{1,2}[.)]\s+")


def header_key(cut: Cut) -> str | None:
    """The standard key of a header line; None where it is unknown."""
    split = split_key(cut.statement.text)
    return known_key(split[0]) if split else None


def mark_headings(cuts: list[Cut]) -> None:
    """A short line without stitch words directly before a first round or a foundation is a piece's heading."""
    for index, cut in enumerate(cuts):
        if cut.kind not in ("other", "step", "header") or (cut.kind == "header" and header_key(cut) is not None):
            continue
        text = cut.statement.text.strip()
        if is_making_up(text) and index + 1 < len(cuts):
            cut.kind = "plain-heading"
            continue
        if cut.kind == "header" and _mistyped_key(text):
            continue
        if len(cut.statement.lines) > 1 or _WITH_COLOR.match(text.rstrip(",:")) or not _heading_like(text) or not _first_follows(cuts, index):
            continue
        if cut.kind == "step" and not (text.endswith(":") or text.isupper() or "(" in text):
            continue
        cut.kind, cut.statement = "plain-heading", cut.statement.as_read()


def _mistyped_key(text: str) -> bool:
    """"Notoins: two eyes, stuffing": a word near a header's, with something behind it; "Hood: in grey" is a piece."""
    split = split_key(text)
    if split is None or len(split[0]) < 6 or near_key(split[0]) is None:
        return False
    value = text[split[1] :].strip().lower()
    return bool(value) and not value.startswith(("(", "[", "with ", "in ", "make ", "x"))


def keep_in_place(cuts: list[Cut]) -> None:
    """"Tassel: cut 6 strands of 20 cm" below rounds is a step of the work there, no line of the header."""
    worked = False
    for cut in cuts:
        if cut.kind in ("round", "foundation"):
            worked = True
        elif cut.kind == "header":
            key = header_key(cut)
            if key == "title":
                worked = False
            split = split_key(cut.statement.text)
            if worked and key is None and split is not None and near_key(split[0]) is None:
                cut.kind = "step"


def _heading_like(text: str) -> bool:
    name = _NUMBERED_HEADING.sub("", text).split("(")[0].split("[")[0].rstrip(" :")
    words = name.replace("-", " ").split()
    if not words or words[0].lower() in REPEAT_WORDS or len(words) > _HEADING_WORDS or "." in name or not any(ch.isalpha() for ch in name):
        return False
    index = vocabulary.words("US")
    return not any((word.lower(),) in index and word.lower() not in ("cl", "bo", "ps", "loop", "bobble") for word in words)


# "With B.", "Start with MC.": between a heading and its first round.
_WITH_COLOR = re.compile(
    r"\s*(?:(?:start|begin|work|worked)(?:ing)?\s+)?(?:with|in|using)\s+(?!(?:an?\s+)?(?:magic|ring|loop|slip|ch))[^.:\d]{1,25}\.?\s*$", re.IGNORECASE
)


# "Using B, work rounds 1-9 of Base.": the first rounds of a piece are those of another.
_OF_ANOTHER = re.compile(r"\b(?:work|make|crochet|rep(?:eat)?|follow)\s+(?:rnds|rounds|rows)\s+1\b.{1,20}\b(?:of|from)\s+[^\W\d_]", re.IGNORECASE)
_PREPARES = re.compile(r"\s*(?:turn|join|rejoin|attach|hold|flip|find|count|with|using)\b", re.IGNORECASE)


def _first_follows(cuts: list[Cut], index: int) -> bool:
    text = cuts[index].statement.text
    shouted, exclaimed = text.isupper(), text.rstrip().endswith(("!", "?"))
    for cut in cuts[index + 1 :]:
        if cut.kind in ("step", "other") and _OF_ANOTHER.search(cut.statement.text):
            return True
        if shouted and cut.kind == "step" and _PREPARES.match(cut.statement.text):
            continue
        if cut.kind in ("note", "private", "excuse") or cut.kind in ("step", "other", "foundation") and _WITH_COLOR.match(cut.statement.text):
            continue
        if cut.kind == "foundation":
            return True
        if cut.kind == "round" and cut.label is not None:
            label = cut.label.label
            if exclaimed and label.first != 1:
                return False  # "Last bit of stuffing!" in mid-piece
            return label.first == 1 or (label.first is None and "foundation" in label.name.lower()) or label.first is not None
        return False
    return False

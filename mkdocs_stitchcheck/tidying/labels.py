"""Labels in one style: "Rnd 4:", "Rnds 5-7:", "Row 2:"."""

from __future__ import annotations

from .. import late_re as re
from ..language.syntax import RoundLabel, RoundLine
from .pen import Pen
from .words import LABEL_WORD

_WORD_BEFORE = re.compile(rf"(?<![^\W_])({LABEL_WORD})?\.?\s{{0,4}}#?\s{{0,4}}(?:no\.?\s{{0,4}})?$", re.IGNORECASE)
_WORD_AFTER = re.compile(r"\s{0,4}\.?\s{0,4}(rounds?|rnds?|rds?|rows?)\b\.?", re.IGNORECASE)
_ORDINAL = re.compile(r"(?:st|nd|rd|th)(?![^\W\d_])", re.IGNORECASE)
_INCLUSIVE = re.compile(r"\s{0,4},?\s{0,4}(?:incl(?:usive|uded|uding)?|both included)\b\.?", re.IGNORECASE)
_CLOSER = re.compile(r"\s*(?:[:;|>=.)]\s*|-{1,2}(?=[\s:])\s*){0,4}")
_BEFORE_BRACKET = re.compile(r"\s*[.-]\s*(?=[(\[])")
AMBIGUOUS = ("", "r", "rs")  # what stands before the number does not say whether rounds or rows are meant


def word_of(line: RoundLine) -> str:
    """The word of the label as written, in lower case; "" for a mere number or no label."""
    label = line.label
    if label is None or not label.written:
        return ""
    return _head(line.statement.text, label)[2].lower()


def _head(text: str, label: RoundLabel) -> tuple[int, int, str]:
    """Where word and numbers of the label stand, and the word."""
    before = _WORD_BEFORE.search(text, label.start, label.written[0].start)
    start, word = (before.start(), before[1] or "") if before else (label.written[0].start, "")
    end = label.written[-1].end
    ordinal = _ORDINAL.match(text, end)
    end = ordinal.end() if ordinal else end
    if not word:
        start = label.written[0].start
        after = _WORD_AFTER.match(text, end)
        word, end = (after[1], after.end()) if after and after.end() <= max(label.end, end) else ("", end)
    inclusive = _INCLUSIVE.match(text, end)
    return start, inclusive.end() if inclusive else end, word


def tidy_label(pen: Pen, line: RoundLine, word: str, flat: bool) -> None:
    """Write the label with *word* for rounds, and a colon behind it. *flat*: the piece is worked to and fro."""
    label = line.label
    if label is None or label.start >= label.end:
        return
    end = label.end
    if label.written and _plainly_numbered(label):
        start, head_end, written = _head(pen.text, label)
        if written.lower()[1:].endswith("s") and len(label.written) == 1:
            return  # "Rounds 7 to 9 ..." of which only the 7 was taken for a number
        if not written and label.start < start:
            return  # a word that is none of the trade's
        if not (flat and label.kind == "round" and written.lower() in AMBIGUOUS):
            pen.replace(start, head_end, in_style(label, word))
        if dot := _BEFORE_BRACKET.match(pen.text, head_end, end):
            pen.replace(head_end, dot.end(), " ")
        end = max(end, head_end)
        if ":" in pen.text[head_end:end]:
            return
    _tidy_closer(pen, line, label, end)


def _tidy_closer(pen: Pen, line: RoundLine, label: RoundLabel, end: int) -> None:
    if label.side and label.side.lower() not in pen.text[label.start : end].lower():
        return  # "Row 1 RS: ..."
    limit = max(line.body[0], end)
    closer = _CLOSER.match(pen.text, end, limit)
    if closer is None or not pen.text[closer.end() :].strip():
        return
    if not pen.replace(end, closer.end(), ": "):
        signs = end + len(closer[0].rstrip())
        pen.replace(end, signs, ":")


def _plainly_numbered(label: RoundLabel) -> bool:
    """Whether the written numbers are just the ends of the stretches, upwards."""
    ends = [number for first, last in label.numbers for number in ((first, last) if last != first else (first,))]
    return ends == [number.value for number in label.written] and ends == sorted(set(ends))


def in_style(label: RoundLabel, word: str) -> str:
    """"Rnd 4", "Rnds 5-7", "Rnds 5, 7, 9", "R4", "Rows 2-3"."""
    stretches: list[tuple[int, int]] = []
    for first, last in label.numbers:
        if stretches and first == stretches[-1][1] + 1:
            stretches[-1] = (stretches[-1][0], last)
        else:
            stretches.append((first, last))
    numbers = ", ".join(f"{first}-{last}" if last != first else f"{first}" for first, last in stretches)
    word = "Row" if label.kind == "row" else word
    if word == "R":
        return f"R{numbers}"
    return f"{word}{'s' if '-' in numbers or ',' in numbers else ''} {numbers}"

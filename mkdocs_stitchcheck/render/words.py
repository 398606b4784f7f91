"""The writer's words as readers see them: what Markdown needed is taken off, nothing else is changed."""

from __future__ import annotations

import html
import re

from ..language import syntax
from ..language.round_labels import find_moment
from ..results import PatternResult, RoundResult
from .by_size import of_size, sized
from .html import Html

_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
_ENTITY = re.compile(r"&(?:[a-zA-Z]{2,8}|#\d{1,7}|#[xX][0-9a-fA-F]{1,6});")
_BULLET = re.compile(r"^(?:[-+•]|\*(?=\s)(?!.*\*))\s+")
_NOTE = re.compile(r"^\s*>\s?")


def clean(text: str) -> str:
    """*text* without Markdown's escapes, entities and outer emphasis, on one line."""
    text = " ".join(text.split())
    if "\\" in text:
        text = _ESCAPED.sub(r"\1", text)
    if "&" in text:
        text = _ENTITY.sub(lambda m: html.unescape(m.group()), text)
    for mark in ("**", "__"):
        if len(text) > 4 and text.startswith(mark) and text.endswith(mark) and text.count(mark) == 2:
            text = text[2:-2]
    return text.strip()


def instruction(line: syntax.RoundLine) -> str:
    """What to do in a round: its words without label and count. A step's or foundation's whole words."""
    written = line.statement.written
    start, end = line.body
    text = written[start:end] if end > start or line.label is not None else written
    return _loose_end(clean(text))


def _loose_end(text: str) -> str:
    """*text* without a mark that belonged to the label or the count."""
    return text.lstrip(":.").rstrip("=:").strip() if text.strip(":=.") else text


def step_text(line: syntax.Line) -> str:
    """A working step's words, whole, without the mark of the film."""
    moment = find_moment(line.statement.text)
    return clean(_BULLET.sub("", line.statement.written[: moment[0] if moment else None].strip()))


def note(line: syntax.Line) -> str:
    """A note's words without its ``>``."""
    return clean("\n".join(_NOTE.sub("", part.text) for part in line.statement.lines))


def label_text(line: syntax.RoundLine) -> str:
    """"Rnd 7", "Rows 3-5 (RS)": the label for readers; ranges get an en dash."""
    label = line.label
    if label is None:
        return ""
    text = clean(label.text or label.name)
    text = re.sub(r"(?<=\d)\s?-\s?(?=\d)", "–", text)
    if label.side and label.side.lower() not in text.lower():
        text = f"{text} ({label.side})"
    if label.section and label.section.lower() not in text.lower():
        text = f"{label.section}, {text}"
    return text


def sizes(values: tuple[int | None, ...]) -> str:
    """One number, or one a size as "24 (30, 36)"; a dash for a size that is not worked; "" where nothing is known."""
    if not any(value is not None for value in values):
        return ""
    first, *rest = ["–" if value is None else str(value) for value in values]
    return f"{first} ({', '.join(rest)})" if rest else first


def stated_text(line: syntax.RoundLine, result: RoundResult | None) -> str:
    """The count that a round states, as readers see it; "?" where it is not written yet, "" where none is stated."""
    parts = [_one_stated(line, stated, result) for stated in line.stated]
    return ", ".join(part for part in parts if part)


def label_said(line: syntax.RoundLine, pattern: PatternResult) -> Html | str:
    """The label with its numbers for the sizes: "Rnds 6–18 (22, 26)"."""
    label, number = line.label, len(pattern.syntax.header.sizes)
    if label is None or number < 2:
        return label_text(line)
    listed = [one for one in label.written if len(one.values) == number]
    if not listed:
        return sized(label_text(line), number)
    word = "Row" if label.kind == "row" else "Rnd"
    many = "s" if len(label.written) > 1 else ""
    section = f"{label.section}, " if label.section else ""
    side = f" ({label.side})" if label.side else ""
    first = f"{sizes(label.written[0].values)}–" if many else ""
    return sized(f"{section}{word}{many} {first}{sizes(label.written[-1].values)}{side}", number)


def stated_in(line: syntax.RoundLine, result: RoundResult | None, number: int, place: int) -> str:
    """The count that a round states in the size with number *place*, of *number* sizes."""
    parts = []
    for stated in line.stated:
        if stated.form == "total" and stated.number is not None:
            values = stated.number.values
            value = values[place if place < len(values) else 0]
            parts.append("–" if value is None else str(value))
        else:
            parts.append(of_size(_one_stated(line, stated, result.in_size(place) if result else None), number, place))
    return ", ".join(part for part in parts if part)


def _one_stated(line: syntax.RoundLine, stated: syntax.Stated, result: RoundResult | None) -> str:
    if stated.form == "unknown":
        return "?"
    if stated.form == "total" and stated.number is not None:
        return sizes(stated.number.values)
    words = clean(line.statement.written[stated.start : stated.end]).strip("()[]{}<>=. ")
    if stated.form == "change" and stated.number is None and result is not None:
        total = sizes(result.makes)
        return f"{total} ({words})" if total else words
    return words

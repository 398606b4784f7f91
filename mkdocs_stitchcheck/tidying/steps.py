"""Steps in one style: "5 sc" or "sc 5", commas between them, single spaces, words in lower case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from .. import late_re as re
from ..language.syntax import (
    Again,
    Aside,
    Chain,
    ColorChange,
    Group,
    Join,
    More,
    Repeat,
    RoundLine,
    Spread,
    Step,
    Trust,
    Turn,
    Work,
)
from .pen import Pen
from .words import NAME, cased_words, in_sentences

_NUMBER_FIRST = re.compile(rf"(\d+)\s*({NAME})", re.IGNORECASE)
_STITCH_FIRST = re.compile(rf"({NAME}?)\s*(\d+)", re.IGNORECASE)
_MULTIPLIED = re.compile(
    r"([^\W\d_]+?(?:[ .-]{1,2}[^\W\d_]+?){0,3}(?:\d{1,2}tog)?)\s*(?:[x*]\s*(\d+)(?:\s*times)?|(\d+)\s*(?:x|times))", re.IGNORECASE
)
_MULTIPLIED_FIRST = re.compile(rf"(\d+)\s*x\s*({NAME})", re.IGNORECASE)
_PLAIN_PLURALS = ("ss", "ps", "ls", "sls", "skip")
_WORKING = (Work, Repeat, Group)
_SEPARATED = (Work, Repeat, Group, Chain, Turn, Join, Spread)
_SEPARATORS = (",", "+", "/", "&", "-", ";", ",,")
_WRITERS_WORDS = (Aside, ColorChange, Again, Trust)
_SPACES = re.compile(r"\s{2,}|[^\S ]")


def walk(steps: Sequence[Step]) -> Iterator[Step]:
    """Every step with those inside it. Nesting is bounded by the reader."""
    for step in steps:
        yield step
        for inner in bodies(step):
            yield from walk(inner)


def bodies(step: Step) -> Iterator[tuple[Step, ...]]:
    """The runs of steps that stand within *step*."""
    if isinstance(step, Repeat | Group | More):
        yield step.body
    if isinstance(step, Repeat) and step.ending:
        yield step.ending


# --- order --------------------------------------------------------------------------------------------------------


def order_of(text: str, step: Step) -> str:
    """"number first" or "stitch first" for a step that could be written either way; "" for any other."""
    read = _counted(text, step)
    if read is None or read[2]:
        return ""
    return "number first" if text[step.start].isdigit() else "stitch first"


def _counted(text: str, step: Step) -> tuple[str, str, bool] | None:
    """Number and name of "5 sc", "sc5", "sc x 5", and whether it multiplies more than a plain stitch ("inc x 6")."""
    if not isinstance(step, Work) or step.place is not None or step.times is not None or step.color is not None:
        return None
    if step.count is None or step.count.word or len(step.count.values) > 1 or step.stitch.kind in ("skip", "chain"):
        return None
    found, multiplied = None, False
    for form in (_MULTIPLIED_FIRST, _MULTIPLIED):
        if match := form.fullmatch(text, step.start, step.end):
            found, multiplied = [part for part in match.groups() if part is not None], True
            break
    else:
        for form in (_NUMBER_FIRST, _STITCH_FIRST):
            if match := form.fullmatch(text, step.start, step.end):
                found = list(match.groups())
                break
    if found is None:
        return None
    number, name = found if found[0].isdigit() else (found[1], found[0])
    if int(number) != step.count.value or (name[-1:] == "s" and name not in _PLAIN_PLURALS):
        return None
    return number, name, multiplied and step.stitch.kind not in ("plain", "post", "slip")


def tidy_order(pen: Pen, steps: Sequence[Step], order: str, times: str) -> None:
    """Write counted stitches as "5 sc" or "sc 5", and multiplied increases as "inc x 6" or "inc 6 times"."""
    beyond = {id(inner) for step in walk(steps) if isinstance(step, More) for inner in step.body}
    for step in walk(steps):
        read = _counted(pen.text, step)
        if read is None or id(step) in beyond or not pen.one_line(step.start, step.end):
            continue
        number, name, multiplied = read
        at = pen.text.find(name, step.start)
        name = pen.written[at : at + len(name)]
        if multiplied:
            new = f"{name} x {number}" if times == "x" else f"{name} {number} times"
        else:
            new = f"{number} {name}" if order == "number first" else f"{name} {number}"
        pen.replace(step.start, step.end, _cased(new))


def _cased(text: str) -> str:
    """*text*, whose words are a stitch's name, in the case of a tidy pattern."""
    for start, end, new in cased_words(f" ,{text}", 2, len(text) + 2):
        text = text[: start - 2] + new + text[end - 2 :]
    return text


# --- what stands between ------------------------------------------------------------------------------------------


def tidy_separators(pen: Pen, steps: Sequence[Step], stars: bool) -> None:
    """A comma and a space between steps. With *stars* a semicolon ends what is repeated, and stays."""
    for one, following in pairwise(steps):
        gap = pen.text[one.end : following.start]
        sign = gap.strip()
        if one.end > following.start or not isinstance(one, _SEPARATED) or not isinstance(following, _SEPARATED):
            if sign == "," and one.end <= following.start:
                pen.replace(one.end, following.start, ", ")
            continue
        bare = not sign and gap and isinstance(one, _WORKING) and isinstance(following, _WORKING)
        if bare or (sign in _SEPARATORS and not (sign == ";" and stars)):
            pen.replace(one.end, following.start, ", ")
    for step in steps:
        for inner in bodies(step):
            tidy_separators(pen, inner, stars)


# --- words and spaces ---------------------------------------------------------------------------------------------


def _own_words(line: RoundLine) -> bytearray:
    """Which signs of a round are the writer's own words: remarks, colours, names of pieces."""
    own = bytearray(len(line.statement.text) + 1)
    for step in walk(line.steps or ()):
        if isinstance(step, _WRITERS_WORDS) or (isinstance(step, Join) and step.reference is not None):
            own[step.start : step.end] = b"\1" * (step.end - step.start)
    return own


def tidy_words(pen: Pen, line: RoundLine, declared: frozenset[str]) -> None:
    """Words of the trade in lower case; *declared* are those that the writer declared in a case of their own."""
    own = _own_words(line)
    end = max((stated.end for stated in line.stated), default=line.body[1])
    sentences = line.label is None or in_sentences(pen.text, *line.body)
    for start, stop, new in cased_words(pen.text, line.body[0], max(end, line.body[1]), sentences):
        if pen.text[start:stop].lower() not in declared and not any(own[start:stop]):
            pen.replace(start, stop, new)


def tidy_spaces(pen: Pen, line: RoundLine) -> None:
    """One space where several stand, outside of the writer's own words."""
    own = _own_words(line)
    start = line.label.start if line.label is not None else line.body[0]
    end = max((stated.end for stated in line.stated), default=line.body[1])
    for match in _SPACES.finditer(pen.written, start, max(end, line.body[1])):
        if not any(own[match.start() : match.end()]):
            pen.replace(match.start(), match.end(), " ")

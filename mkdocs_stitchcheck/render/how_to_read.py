"""How to read a pattern, explained by its own first brackets, repeat, range and number at the end."""

from __future__ import annotations

from collections.abc import Iterator

from ..language import syntax
from ..results import PatternResult, RoundResult
from .boxes import round_word
from .html import Html, el, lines
from .repeats import star_in_all
from .spoken import repeats_in_words
from .words import clean, instruction, label_text, sizes, stated_text

_LONGEST = 120  # a longer round explains nothing


def how_to_read(pattern: PatternResult) -> Html | None:
    """A box to be opened; None where the pattern has no round that explains anything."""
    rounds = [line for line in pattern.rounds if line.counts and not line.syntax.not_written]
    parts = [part for part in (_repeat(pattern, rounds), _number(rounds), _range(rounds), _sizes(pattern)) if part]
    if not parts:
        return None
    rows = [el("p", el("strong", shown, dir="auto"), el("br"), said) for shown, said in parts]
    return el("details", el("summary", "How to read this"), lines("", rows, ""), class_="sc-how")


def _shown(line: RoundResult) -> str:
    said, count = instruction(line.syntax), stated_text(line.syntax, line)
    return f"{label_text(line.syntax)}: {said}{f' ({count})' if count else ''}"


def _short(rounds: list[RoundResult]) -> Iterator[RoundResult]:
    return (line for line in rounds if line.syntax.label is not None and len(_shown(line)) <= _LONGEST)


def _repeat(pattern: PatternResult, rounds: list[RoundResult]) -> tuple[str, str] | None:
    for line in _short(rounds):
        repeat = next((step for step in line.syntax.steps or () if isinstance(step, syntax.Repeat)), None)
        sentences = repeats_in_words(line.syntax, star_in_all(pattern))[:1]
        if repeat is None or not sentences:
            continue
        written = line.syntax.statement.written
        body = clean(written[repeat.body[0].start : repeat.body[-1].end]).strip(" ,;*()[]{}<>")
        mark = "stars" if repeat.mark.startswith("*") else "brackets"
        return _shown(line), f"What stands in {mark} belongs together: “{body}”. {sentences[0]}"
    return None


def _number(rounds: list[RoundResult]) -> tuple[str, str] | None:
    for line in _short(rounds):
        stated = line.syntax.stated
        if len(stated) == 1 and stated[0].form == "total" and sizes(line.makes):
            word = "row" if line.kind == "row" else "round"
            return _shown(line), f"The number at the end, {stated_text(line.syntax, line)}, is how many stitches you have when the {word} is done."
    return None


def _range(rounds: list[RoundResult]) -> tuple[str, str] | None:
    for line in _short(rounds):
        label = line.syntax.label
        if label is not None and len(label.numbers) == 1 and 1 < line.worked <= 1000:
            first, last = label.numbers[0]
            if last - first + 1 != line.worked:
                continue
            words = f"{line.worked} {'rows' if line.kind == 'row' else 'rounds'}"
            alike = "all worked alike" if not line.each else "each worked by these words"
            return _shown(line), f"{round_word(label)} {first} to {round_word(label)} {last}: {words}, {alike}."
    return None


def _sizes(pattern: PatternResult) -> tuple[str, str] | None:
    names = pattern.syntax.header.sizes
    if len(names) < 2:
        return None
    shown = next((sizes(line.makes) for line in pattern.rounds if len(line.makes) == len(names) and sizes(line.makes)), "")
    return (shown, f"One number a size, in this order: {', '.join(names)}.") if shown else None

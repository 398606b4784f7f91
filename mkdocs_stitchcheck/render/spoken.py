"""Repeats in words, for the large-print sheet: a screen reader drops stars and brackets, and tired eyes lose them."""

from __future__ import annotations

from collections.abc import Iterator

from ..language import syntax
from .words import clean, sizes

_MOST_NESTED = 20
_MOST_SENTENCES = 6


def repeats_in_words(line: syntax.RoundLine, star_in_all: bool | None = None) -> list[str]:
    """A sentence for each repeat of a round, outermost first.

    ``star_in_all`` is how the pattern reads "rep from * 5 times": True for 5 in all, False for 5 more, None undecided
    (then the sentence leaves the number to the writer's words).
    """
    found = []
    for repeat in _repeats(line.steps or ()):
        sentence = _sentence(repeat, line, star_in_all)
        if sentence:
            found.append(sentence)
        if len(found) == _MOST_SENTENCES:
            break
    return found


def _repeats(steps: tuple[syntax.Step, ...], depth: int = 0) -> Iterator[syntax.Repeat]:
    for step in steps:
        if isinstance(step, syntax.Repeat):
            yield step
        if depth < _MOST_NESTED and isinstance(step, (syntax.Repeat, syntax.Group, syntax.More)):
            yield from _repeats(step.body, depth + 1)


def _sentence(repeat: syntax.Repeat, line: syntax.RoundLine, star_in_all: bool | None) -> str:
    if not repeat.body:
        return ""
    written = line.statement.written
    body = clean(written[repeat.body[0].start : repeat.body[-1].end]).strip(" ,;*()[]{}<>")
    row = "row" if line.label is not None and line.label.kind == "row" else "round"
    if repeat.extent == "rest":
        return f"Work “{body}” again and again to the end of the {row}."
    if repeat.extent == "to_last" and repeat.left is not None:
        left = sizes(repeat.left.values)
        return f"Work “{body}” again and again until {left} {'stitch is' if left == '1' else 'stitches are'} left."
    if repeat.extent == "ending":
        return f"Work “{body}” again and again, and end as written."
    if repeat.times is None:
        return ""
    return _times(body, repeat, star_in_all)


def _times(body: str, repeat: syntax.Repeat, star_in_all: bool | None) -> str:
    assert repeat.times is not None
    more = repeat.counting == "more" or (repeat.counting == "star" and star_in_all is False)
    if repeat.counting == "star" and star_in_all is None:
        return f"Work “{body}”, then repeat it as written."
    times = sizes(tuple(None if v is None else v + more for v in repeat.times.values))
    return f"Work “{body}” {times} {'time' if times == '1' else 'times'} in all."

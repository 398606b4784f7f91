"""What is read for a written line, with the way back to every written word, and how it is put together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from .. import late_re as re
from ..source import Reading, Stretch
from .phrasebook import Match
from .round_labels import FoundLabel
from .syntax import Number

_CAPTURE = re.compile(r"([#%@])(\d)")
_MOST_EVERY = 60


class Writer:
    """Builds a reading from pieces, each with the place it stands for."""

    def __init__(self) -> None:
        self.parts: list[str] = []
        self.places: list[tuple[int, int, bool]] = []
        self.phrases: list[tuple[int, int, bool]] = []

    def add(self, text: str, first: int, last: int, exact: bool) -> None:
        if text:
            self.parts.append(text)
            self.places.append((first, last, exact))

    def lift(self, verb: str, index: int, first: int, last: int) -> None:
        """Puts a verb in front of its clause, which begins with the piece *index*."""
        space = " " if index and self.parts[index - 1].strip() else ""
        self.parts.insert(index, f"{space}{verb} ")
        self.places.insert(index, (first, last, False))

    def reading(self, own: Mapping[str, str]) -> Reading:
        """What was written, as a reading."""
        stretches = []
        at = 0
        for part, (first, last, exact) in zip(self.parts, self.places, strict=True):
            stretches.append(Stretch(at, at + len(part), first, last, exact))
            at += len(part)
        return Reading("".join(self.parts), tuple(stretches), own, tuple(self.phrases))


def write_answer(writer: Writer, match: Match, start: int, end: int, text: str) -> None:
    """Writes a phrase's answer; its numbers keep their own places, every other word stands for the whole phrase."""
    answer = match.answer.removeprefix("~")
    if answer in ("every inc", "every dec"):
        first = int(match.numbers[0].text[:4])
        joined = answer == "every inc" or int(match.numbers[1].text[:4]) == first + 1
        if 1 <= first <= _MOST_EVERY and joined:
            writer.add(f" ({', '.join(['sc'] * (first - 1) + [answer[6:]])}) around ", start, end, False)
        else:
            writer.add(text[start:end], start, end, True)
        return
    at = 0
    for capture in _CAPTURE.finditer(answer):
        writer.add(answer[at : capture.start()], start, end, False)
        place = int(capture[2]) - 1
        if capture[1] == "%":
            writer.add(match.stitches[place], start, end, False)
        else:
            token = (match.numbers if capture[1] == "#" else match.words)[place]
            writer.add(text[token.start : token.end], token.start, token.end, True)
        at = capture.end()
    writer.add(answer[at:] if at or answer else " ", start, end, False)


def joined(texts: Sequence[str], readings: Sequence[Reading | None]) -> Reading | None:
    """The reading of a statement of several lines, joined by single spaces; None where no line has one."""
    own = next((reading.own for reading in readings if reading is not None), None)
    if own is None:
        return None
    parts: list[str] = []
    stretches: list[Stretch] = []
    phrases: list[tuple[int, int, bool]] = []
    at = here = 0
    for text, reading in zip(texts, readings, strict=True):
        lines = reading.stretches if reading is not None else (Stretch(0, len(text), 0, len(text), True),)
        stretches.extend(Stretch(s.start + at, s.end + at, s.first + here, s.last + here, s.exact) for s in lines)
        parts.append(text if reading is None else reading.text)
        phrases.extend((first + here, last + here, silent) for first, last, silent in (reading.phrases if reading else ()))
        at += len(parts[-1]) + 1
        here += len(text) + 1
    return Reading(" ".join(parts), tuple(stretches), own, tuple(phrases))


def placed_label(found: FoundLabel, reading: Reading) -> FoundLabel:
    """A label that was found in a reading, with its places in the writer's text."""
    label = found.label
    label.start, label.end = reading.place(label.start, label.end)
    label.written = tuple(_placed(number, reading) for number in label.written)
    if label.length is not None:
        label.length = _placed(label.length, reading)
    found.body = reading.place(max(found.body - 1, 0), found.body)[1]
    found.heads = [reading.place(*head) for head in found.heads]
    if found.count is not None:
        found.count = reading.place(*found.count)
    return found


def _placed(number: Number, reading: Reading) -> Number:
    start, end = reading.place(number.start, number.end)
    return replace(number, start=start, end=end)

"""The rounds of one piece by number; lines without a number take the next ones."""

from __future__ import annotations

from bisect import bisect_right

from ..language import syntax

Stretch = tuple[int, int, syntax.RoundLine, int]  # first and last number, the line, rounds of the line before these


class Rounds:
    """Finds the line that holds a round.

    ``last`` is the highest number written. ``before`` is, for each line without a number, the highest before it.
    """

    def __init__(self, piece: syntax.Piece) -> None:
        self.stretches: list[Stretch] = []
        self.before: dict[int, int] = {}
        self.last = 0
        assumed: list[Stretch] = []
        highest = 0
        for line in piece.lines:
            if not isinstance(line, syntax.RoundLine):
                continue
            if line.label is not None and line.label.numbers:
                found = _written(line)
                self.stretches.extend(found)
                high = found[-1][1] if len(found) == 1 else max(stretch[1] for stretch in found)
                self.last = max(self.last, high)
                highest = max(highest, high)
                continue
            self.before[id(line)] = highest
            rounds = _unwritten(line)
            if rounds:
                assumed.append((highest + 1, highest + rounds, line, 0))
                highest += rounds
        self.highest = highest
        self.stretches.sort(key=_first)
        self.firsts = [stretch[0] for stretch in self.stretches]
        self.assumed = assumed
        self.assumed_firsts = [stretch[0] for stretch in assumed]

    def find(self, number: int, besides: syntax.RoundLine | None = None) -> tuple[syntax.RoundLine, int] | None:
        """The line that holds round *number* and its place there; not *besides* itself, and of twins the first."""
        found = _look(self.stretches, self.firsts, number, besides)
        if found is None or found[0] is besides:
            found = _look(self.assumed, self.assumed_firsts, number, besides) or found
        return found

    def has(self, number: int) -> bool:
        """Whether there is a round *number*."""
        return self.find(number) is not None


def _first(stretch: Stretch) -> int:
    return stretch[0]


def _look(
    stretches: list[Stretch], firsts: list[int], number: int, besides: syntax.RoundLine | None
) -> tuple[syntax.RoundLine, int] | None:
    at = bisect_right(firsts, number) - 1
    best: tuple[syntax.RoundLine, int] | None = None
    for index in range(at, max(at - 8, -1), -1):  # a few, for numbers used twice
        low, high, line, offset = stretches[index]
        if low <= number <= high and (line is not besides or best is None):
            best = (line, offset + number - low)
    return best


def _written(line: syntax.RoundLine) -> list[Stretch]:
    label = line.label
    assert label is not None
    if len(label.numbers) == 1:
        first, last = label.numbers[0]
        if first == last and label.length is None:
            return [(first, first, line, 0)]
        low = min(first, last)
        return [(low, low + covered(line) - 1, line, 0)]
    found: list[Stretch] = []
    offset = 0
    for first, last in label.numbers:
        low, high = min(first, last), max(first, last)
        found.append((low, high, line, offset))
        offset += high - low + 1
    return found


def _unwritten(line: syntax.RoundLine) -> int:
    """How many rounds a line without a number works: "Next rnd:", "Rep Rnd 5 three more times"."""
    again = [step for step in line.steps or () if isinstance(step, syntax.Again) and step.reference.rounds]
    if again and not any(step.reference.piece for step in again):
        rounds = 0
        for step in again:
            once = sum(abs(last - first) + 1 for first, last in step.reference.rounds)
            rounds += once * (max(step.times.value, 0) if step.times is not None else 1)
        return rounds
    return covered(line) if line.label is not None else 0


def covered(line: syntax.RoundLine, size: int = 0) -> int:
    """How many rounds a line covers, by its numbers or by its stated length."""
    label = line.label
    if label is None:
        return 1
    numbers = label.numbers
    if label.written and len(label.written[-1].values) > 1:
        return _of_size(label, size)
    if len(numbers) == 1 and label.length is None:
        return abs(numbers[0][1] - numbers[0][0]) + 1
    if len(numbers) == 1:
        count = abs(numbers[0][1] - numbers[0][0]) + 1
    else:
        count = sum(abs(last - first) + 1 for first, last in numbers)
    if label.length is not None and count <= 1:
        values = label.length.values
        return max(values[size if size < len(values) else 0] or 0, 1)
    return max(count, 1)


def _of_size(label: syntax.RoundLabel, size: int) -> int:
    """"Rnds 2-5 (7, 9)": how many rounds in the size at hand; 0 where it has none."""
    if len(label.written) < 2:
        return 1
    last = label.written[-1].values[size] if size < len(label.written[-1].values) else label.written[-1].value
    return max(last - label.written[-2].value + 1, 0) if last is not None else 0

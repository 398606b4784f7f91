"""Near words: how many slips of the finger lie between two words, and the nearest of several."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST = 60  # longer words are no slips of anything


def distance(one: str, other: str) -> int:
    """Letters added, dropped, changed or swapped with their neighbour (optimal string alignment) between two words.

    Two words of more than 60 letters that differ are as far apart as the longer is long.
    """
    if one == other:
        return 0
    if max(len(one), len(other)) > _LONGEST:
        return max(len(one), len(other))
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        row = [i]
        for j, b in enumerate(other, 1):
            best = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a != b))
            if i > 1 and j > 1 and a == other[j - 2] and b == one[i - 2]:
                best = min(best, before[j - 2] + 1)
            row.append(best)
        before, last = last, row
    return last[-1]


def nearest(word: str, choices: Iterable[str], limit: int = 2) -> str | None:
    """The choice within *limit* slips of *word* and within a third of its own length; the first of equals, else None."""
    best: tuple[int, str] | None = None
    for choice in choices:
        if abs(len(choice) - len(word)) > limit:
            continue
        far = distance(word, choice)
        if far <= limit and far * 3 <= len(choice) and (best is None or far < best[0]):
            best = (far, choice)
    return best[1] if best else None


def all_nearest(word: str, choices: Iterable[str], limit: int = 2) -> list[str]:
    """Every choice at the least distance from *word*, in order of the alphabet; within *limit* slips, one for a short word."""
    allowed = min(limit, max(1, len(word) // 3))
    found = sorted({(distance(word, choice), choice) for choice in choices if abs(len(choice) - len(word)) <= allowed})
    return [choice for far, choice in found if far == found[0][0] and far <= allowed]

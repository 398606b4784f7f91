"""One thing written in two ways: style. One line a pattern, however much there is."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.other_terms import OTHER_TERMS
from ..results import PatternResult
from ..source import Statement
from .reading import heard, is_whole, said

_STITCH = r"(?:sc|hdc|dc|tr|htr|dtr)"


@dataclass(frozen=True, slots=True)
class Habit:
    """Ways to write the same thing; ``least`` is how often the thing must be written before a second way is told."""

    what: str
    ways: tuple[tuple[str, re.Pattern[str]], ...]
    least: int = 3
    in_header: bool = False


def _ways(**ways: str) -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((name.replace("_", " "), re.compile(pattern, re.MULTILINE)) for name, pattern in ways.items())


HABITS: tuple[Habit, ...] = (
    Habit("Repeats", _ways(x=r"[)\]}] ?[xX] ?\d", times=r"[)\]}] ?\d+ times\b", star=r"[)\]}] ?\* ?\d"), 2),
    Habit("Repeats stand", _ways(round_brackets=r"\)(?= ?(?:[xX*] ?\d|\d+ times|around\b))",
                                 square_brackets=r"\](?= ?(?:[xX*] ?\d|\d+ times|around\b))")),
    Habit("Numbers stand", _ways(before_the_stitch=rf"(?<![\w.])\d+ ?{_STITCH}(?![\w])",
                                 after_the_stitch=rf"(?<![\w\d] ){_STITCH} ?\d+(?! ?(?:tog|sts?|in|x|times)\b)(?!tog)"), 6),
    Habit("Stitches", _ways(small_letters=rf"(?<![A-Za-z]){_STITCH}(?![A-Za-z])",
                            capitals=r"(?<![A-Za-z])(?:SC|HDC|DC|TR|HTR|DTR)(?![A-Za-z])"), 4),
    Habit("Times", _ways(figures=r"\b\d+ times\b",
                         words=r"\b(?:four|five|six|seven|eight|nine|ten|eleven|twelve) times\b")),
    Habit("Rounds", _ways(Rnd=r"\n\W*(?:Rnds?|RNDS?|rnds?)\b(?= ?\d)", Round=r"\n\W*(?:Rounds?|ROUNDS?)\b(?= ?\d)",
                          R=r"\n\W*R(?=\d)"), 4),
    Habit("Ranges of rounds", _ways(dash=r"\n\W*[A-Za-z]+ ?\d+ ?-", to=r"\n\W*[A-Za-z]+ ?\d+ (?:to|through)\b"), 5),
    Habit("Counts", _ways(round_brackets=r"\(\d+(?: sts?| stitches| sc)?\)\.?\s*$", square_brackets=r"\[\d+(?: sts?| stitches| sc)?\]\.?\s*$",
                          an_equals_sign=r"= ?\d+(?: sts?)?\.?\s*$"), 4),
    Habit("Units stand", _ways(with_a_space=r"\d (?:mm|cm|g|m)\b", without_a_space=r"\d(?:mm|cm|g|m)\b"), 3, True),
)
_SHOWN = 3


def check_style(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """style: what is written in two ways, with a place for the rarer one. Once a whole pattern; not in other terms."""
    if pattern.header.terms in OTHER_TERMS or not is_whole(pattern.header):
        return
    rounds = _Joined([line.statement for piece in pattern.pieces for line in piece.lines if line.kind == "round"])
    measured = [line.statement for line in pattern.header.lines if line.key not in ("title", "notes")]
    everything = _Joined([*measured, *said(pattern)])
    told, first = [], None
    for habit in HABITS:
        found = _rarer(habit, everything if habit.in_header else rounds)
        if found is not None:
            told.append(found[0])
            first = first or found[1]
    told += list(_around_in_rows(pattern, result))
    if not told:
        return
    if first is None:
        first = next((line.syntax.statement, 0, 0) for piece in result.pieces if piece.flat for line in piece.rounds)
    statement, start, end = first
    more = f" And {len(told) - _SHOWN} more." if len(told) > _SHOWN else ""
    findings.add(
        "style", statement.span(start, end or None), f"{' '.join(told[:_SHOWN])}{more}",
        suggestion="Choose one way; stitchcheck tidy writes the rounds in it.",
    )


class _Joined:
    """Statements as one text, each behind a line's end: searched at once, with the way back to the statement."""

    def __init__(self, statements: list[Statement]) -> None:
        self._statements = statements
        self.text = "".join([f"\n{statement.text}" for statement in statements])
        self._starts = list(accumulate((len(statement.text) + 1 for statement in statements), initial=0))

    def place(self, match: re.Match[str]) -> tuple[Statement, int, int]:
        """The statement in which *match* ends, and where it stands there."""
        at = bisect_right(self._starts, match.end() - 2) - 1
        first = self._starts[at] + 1
        return self._statements[at], max(match.start() - first, 0), match.end() - first


def _rarer(habit: Habit, joined: _Joined) -> tuple[str, tuple[Statement, int, int]] | None:
    """What is said of a habit of which two ways are found, and the first place of the rarer one."""
    ways = []
    for at, (name, words) in enumerate(habit.ways):
        if words.search(joined.text):
            ways.append((name, words))
        elif len(ways) + len(habit.ways) - at < 3:
            return None  # no two ways any more
    found = {name: list(words.finditer(joined.text)) for name, words in ways}
    if sum(map(len, found.values())) < habit.least:
        return None
    ordered = sorted(found, key=lambda name: -len(found[name]))
    most, rare = ordered[0], ordered[-1]
    place = joined.place(found[rare][0])
    said_most, said_rare = _SHOWN_AS.get(most, _with(most)), _SHOWN_AS.get(rare, _with(rare))
    return f"{habit.what} {_are(habit.what)}{said_most}, and {said_rare} in line {place[0].line}.", place


_SHOWN_AS = {"x": "with x", "star": "with *", "times": "with times", "dash": "with a dash", "to": "with to"}


def _are(what: str) -> str:
    return "" if what.endswith("stand") else "are written "


def _with(name: str) -> str:
    if name in ("Rnd", "Round", "R"):
        return f"as {name}"
    return name if name.startswith(("before", "after", "with")) else f"with {name}" if name.startswith("an ") else f"in {name}"


_AROUND = re.compile(r"\b(?:in each st around|rep(?:eat)? around|\) around)\b", re.IGNORECASE)
_ACROSS = re.compile(r"\b(?:in each st(?:itch)? across|across row)\b", re.IGNORECASE)


def _around_in_rows(pattern: syntax.Pattern, result: PatternResult) -> Iterator[str]:
    """"around" in rows, "across" in rounds: told with the first place."""
    if "around" not in heard(pattern) and "across" not in heard(pattern):
        return
    for piece in result.pieces:
        for line in piece.rounds:
            text = line.syntax.statement.text
            if line.kind == "row" and _AROUND.search(text):
                yield f"{line.label} is a row, and says around; rows go across."
                return
            if line.kind == "round" and _ACROSS.search(text):
                yield f"{line.label} is a round, and says across; rounds go around."
                return

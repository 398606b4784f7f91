"""The edits that findings suggest, applied to a text so that nothing else changes and nothing gets worse."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from . import late_re as re
from .findings import Edit, Finding, Severity
from .results import FileResult, RoundResult, Status
from .source import Span

Check = Callable[[str], FileResult]

_LINE_END = re.compile(r"\r\n|\n|\r")
_PASSES = 5  # a mended round may show the next one to be wrong
_ONE_BY_ONE = 200  # more repairs than this are not tried singly where all together do harm


@dataclass(frozen=True, slots=True)
class Repair:
    """The edits for one slip. ``sure`` where both neighbours of the round speak for them."""

    edits: tuple[Edit, ...]
    rule: str
    sure: bool


@dataclass(frozen=True, slots=True)
class Mended:
    """A text with the repairs that were applied to it, and how many were left because they would have done harm."""

    text: str
    repairs: tuple[Repair, ...] = ()
    left: int = 0


def repairs(result: FileResult, even_unsure: bool = False) -> list[Repair]:
    """The repairs that *result* suggests, none twice and none across another: the sure ones, or the likely ones too.

    Where two repairs are equally likely neither is: the writer has to choose.
    """
    chosen: list[Repair] = []
    taken: list[Span] = []
    for repair in (*map(_repair, result.findings), *_missing_counts(result)):
        if repair is None or not (repair.sure or even_unsure):
            continue
        spans = [edit.span for edit in repair.edits]
        if not any(_cross(span, other) for span in spans for other in taken):
            chosen.append(repair)
            taken.extend(spans)
    return chosen


def _repair(finding: Finding) -> Repair | None:
    if not finding.edits or finding.excused is not None or len(finding.alternatives) > 1:
        return None
    return Repair(finding.edits, finding.rule, finding.sure)


def _missing_counts(result: FileResult) -> Iterator[Repair]:
    """The count that each round lacks, where its stitches are counted and the round after it takes just as many."""
    for piece in (piece for pattern in result.patterns for piece in pattern.pieces):
        for line, following in zip_longest(piece.rounds, piece.rounds[1:]):
            if line.counts and line.status is Status.COUNTED and _takes_all(following, line.makes):
                body_end = line.syntax.body[1]
                words = line.syntax.statement.text[:body_end].rstrip()
                place = line.syntax.statement.span(len(words) - 1, len(words))
                end = Span(place.end_line, place.end_column, place.end_line, place.end_column)
                yield Repair((Edit(end, f" ({line.makes[0]})"),), "count-missing", sure=True)


def _takes_all(following: RoundResult | None, made: tuple[int | None, ...]) -> bool:
    if len(made) != 1 or made[0] is None:
        return False
    return following is None or following.status in (Status.CHECKED, Status.COUNTED)


def _cross(one: Span, other: Span) -> bool:
    first, second = sorted((one, other))
    if first == second:
        return True
    return (second.line, second.column) < (first.end_line, first.end_column)


def apply(text: str, edits: Iterable[Edit]) -> str:
    """*text* with *edits* made and every other character as it was. New line ends are like those of the text.

    Raises ValueError for an edit that lies outside the text, or across another one.
    """
    places = _Places(text)
    pieces: list[str] = []
    at = 0
    for start, end, new in sorted((*places.of(edit.span), edit.text) for edit in edits):
        if start < at:
            raise ValueError("two edits lie across one another")
        pieces += (text[at:start], new.replace("\n", places.line_end))
        at = end
    return "".join((*pieces, text[at:]))


class _Places:
    """Where lines and columns stand in a text."""

    def __init__(self, text: str) -> None:
        ends = list(_LINE_END.finditer(text))
        self._starts = [int(text.startswith("\ufeff")), *(end.end() for end in ends)]
        self._ends = [*(end.start() for end in ends), len(text)]
        self.line_end = ends[0][0] if ends else "\n"

    def of(self, span: Span) -> tuple[int, int]:
        start, end = self._offset(span.line, span.column), self._offset(span.end_line, span.end_column)
        if end < start:
            raise ValueError(f"an edit ends before it begins: {span}")
        return start, end

    def _offset(self, line: int, column: int) -> int:
        if not 1 <= line <= len(self._starts):
            raise ValueError(f"line {line} is not in the text")
        offset = self._starts[line - 1] + column - 1
        if not self._starts[line - 1] <= offset <= self._ends[line - 1]:
            raise ValueError(f"column {column} is not in line {line}")
        return offset


# --- never worse than before --------------------------------------------------------------------------------------


def mend(text: str, check: Check, even_unsure: bool = False) -> Mended:
    """*text* with the repairs that *check* suggests, each only where the checked result is better with it."""
    applied: list[Repair] = []
    left = 0
    result = check(text)
    for _ in range(_PASSES):
        suggested = repairs(result, even_unsure)
        if not suggested:
            break
        text, result, kept = _keep_what_helps(text, result, suggested, check)
        applied.extend(kept)
        left = len(suggested) - len(kept)
        if not kept:
            break
    return Mended(text, tuple(applied), left)


def _keep_what_helps(
    text: str, result: FileResult, suggested: Sequence[Repair], check: Check
) -> tuple[str, FileResult, list[Repair]]:
    mended, after = _tried(text, suggested, check)
    if after is not None and _helps(result, after):
        return mended, after, list(suggested)
    if len(suggested) == 1 or len(suggested) > _ONE_BY_ONE:
        return text, result, []
    kept: list[Repair] = []
    best, best_result = text, result
    for repair in suggested:
        mended, after = _tried(text, [*kept, repair], check)
        if after is not None and _helps(best_result, after):
            best, best_result = mended, after
            kept.append(repair)
    return best, best_result, kept


def _tried(text: str, chosen: Sequence[Repair], check: Check) -> tuple[str, FileResult | None]:
    try:
        mended = apply(text, [edit for repair in chosen for edit in repair.edits])
    except ValueError:
        return text, None
    return mended, check(mended)


def _helps(before: FileResult, after: FileResult) -> bool:
    """Whether *after* is better: less is found, or the same and more is checked; and no round is known no more."""
    heavier, lighter = weight(before), weight(after)
    more_checked = _rounds(after, Status.CHECKED) > _rounds(before, Status.CHECKED)
    known = _rounds(after, Status.CHECKED, Status.COUNTED) >= _rounds(before, Status.CHECKED, Status.COUNTED)
    return known and (lighter < heavier or (lighter == heavier and more_checked))


def weight(result: FileResult) -> tuple[int, int, int, int]:
    """How heavy the findings of *result* are: errors, warnings, advice, infos that aren't excused. Fewer is better."""
    open_ = [finding.severity for finding in result.findings if finding.excused is None]
    kinds = (Severity.ERROR, Severity.WARNING, Severity.ADVICE, Severity.INFO)
    return tuple(open_.count(kind) for kind in kinds)  # type: ignore[return-value]


def _rounds(result: FileResult, *of: Status) -> int:
    return sum(line.worked for pattern in result.patterns for line in pattern.rounds if line.status in of)

"""A text with its rounds in one house style, each line only where the check says the same of it as before."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from ..findings import Edit, Severity
from ..language.syntax import Pattern, Repeat, RoundLine
from ..mending import apply
from ..results import FileResult, PatternResult, RoundResult, Status
from ..settings import HouseStyle
from .counts import tidy_counts
from .habits import Style, style_of
from .labels import tidy_label
from .pen import Pen
from .repeats import tidy_repeats
from .sameness import facts, found_on, frame, making
from .steps import tidy_order, tidy_separators, tidy_spaces, tidy_words, walk

Check = Callable[[str], FileResult]
_T = TypeVar("_T")

_ROUNDS = 4  # a line that became tidy may let its neighbour follow
_PASSES = 12  # lines are taken back one after the other as long as anything differs
_NOT_READ = ("unreadable-line", "unbalanced-mark", "unknown-stitch", "two-meanings", "number-out-of-range", "checker-fault")


@dataclass(frozen=True, slots=True)
class Tidied:
    """A text in house style. ``changed`` are the lines (from 1) that were rewritten.

    ``unread`` are lines that could not be read, ``left`` those that would be read in another way if they were
    rewritten, and ``other_terms`` the rounds in letters or another language; all of them stay as they are.
    """

    text: str
    changed: tuple[int, ...] = ()
    left: tuple[int, ...] = ()
    unread: tuple[int, ...] = ()
    other_terms: tuple[int, ...] = ()


def tidy(text: str, check: Check, house: HouseStyle) -> Tidied:
    """*text* in the style that *house* says, or, where its writer set nothing, in the style of most of its rounds.

    Every written line uses, makes and states the same as before, and the same is found on it; a line for which this
    can't be kept is left as it is. Tidying again changes nothing.
    """
    written, result = text, check(text)
    unread = tuple(sorted(_unread(result)))
    left: set[int] = set()
    for _ in range(_ROUNDS):
        kept, left = _once(text, result, check, house)
        if not kept.edits:
            break
        text, result = kept.text, kept.result
    changed = tuple(number for number, (a, b) in enumerate(zip(_lines(written), _lines(text), strict=True), 1) if a != b)
    other = {line.line for pattern in result.patterns for line in pattern.rounds if _in_other_terms(line)}
    return Tidied(text, changed, tuple(sorted(left)), unread, tuple(sorted(other.difference(unread))))


def _once(text: str, result: FileResult, check: Check, house: HouseStyle) -> tuple[_Kept, set[int]]:
    """One rewriting; where a whole pattern is read otherwise, one that leaves the order of number and stitch in it."""
    fixed: set[int] = set()
    while True:
        kept = _keep_what_is_the_same(text, result, _plan(result, house, fixed), check)
        if kept.troubled <= fixed:
            return kept, kept.left
        fixed |= kept.troubled


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


# --- what would be edited -----------------------------------------------------------------------------------------


Plan = dict[int, list[Edit]]  # the first line of a statement -> its edits


def _plan(result: FileResult, house: HouseStyle, fixed: set[int]) -> Plan:
    """The edits for every round that was read, by its line. In the patterns *fixed* the order of words stays."""
    untouchable = _unread(result) | {f.span.line for f in result.findings if f.excused is not None}
    plan: Plan = {}
    for index, pattern in enumerate(result.patterns):
        lines = [(line.syntax, flat) for line, flat in _rounds(pattern) if _is_read(line)]
        style = style_of((line for line, _flat in lines), house)
        declared = _declared(pattern.syntax)
        order = index not in fixed and _plainly_counted(pattern)
        for line, flat in lines:
            if line.line not in untouchable and line.line not in plan:
                edits = list(_edits(line, style, flat, declared, order))
                if edits:
                    plan[line.line] = edits
    return _without_crossing(plan)


def _rounds(pattern: PatternResult) -> Iterator[tuple[RoundResult, bool]]:
    """Every written line, and whether its piece may be worked to and fro, so that "R2" may be a row."""
    for piece in pattern.pieces:
        flat = piece.flat or any(line.turned or line.kind == "row" for line in piece.rounds)
        yield from ((line, flat) for line in piece.rounds)


def _is_read(line: RoundResult) -> bool:
    syntax = line.syntax
    if syntax.kind != "round" or line.status is Status.UNREAD or not syntax.steps or _in_other_terms(line):
        return False
    return all(step.closed for step in walk(syntax.steps) if isinstance(step, Repeat))


def _in_other_terms(line: RoundResult) -> bool:
    """Whether the round was read by way of English words: its style is that of another language."""
    statement = line.syntax.statement
    return line.syntax.kind == "round" and (statement.reading is not None or len(statement.text) != len(statement.written))


def _unread(result: FileResult) -> set[int]:
    """The lines that could not be read, and those where a mark or word was in doubt."""
    lines = {line.line for pattern in result.patterns for line in pattern.rounds if line.status is Status.UNREAD}
    doubtful = (Severity.ERROR, Severity.WARNING)
    told = {f.span.line for f in result.findings if f.rule in _NOT_READ and f.severity in doubtful}
    return lines | told | {
        line.line
        for pattern in result.patterns
        for line in pattern.rounds
        if told and any(part.number in told for part in line.syntax.statement.lines)
    }


def _declared(pattern: Pattern) -> frozenset[str]:
    """The words that the header gives a meaning: they keep the case in which they are written."""
    words = list(pattern.header.special)
    words += [color.key for color in pattern.header.colors.values()]
    words += [color.name for color in pattern.header.colors.values()]
    return frozenset(part for word in words for part in word.lower().split())


def _plainly_counted(pattern: PatternResult) -> bool:
    """Whether "2 sc" is two stitches in this pattern, as "sc 2" is: then the one may be written for the other."""
    answers = [reading.answer for reading in pattern.readings if reading.question.startswith("number-stitch")]
    return pattern.syntax.header.terms in ("", "US", "UK") and not any("in one" in answer for answer in answers)


def _edits(line: RoundLine, style: Style, flat: bool, declared: frozenset[str], order: bool) -> Iterator[Edit]:
    pen = Pen(line.statement)
    steps = line.steps or ()
    repeats = [step for step in walk(steps) if isinstance(step, Repeat)]
    tidy_label(pen, line, style.label, flat)
    tidy_repeats(pen, repeats, line.body[0], style.bracket, style.times, style.stars)
    if order:
        tidy_order(pen, steps, style.order, style.times)
    tidy_counts(pen, line, style.counts, style.nouns)
    tidy_separators(pen, steps, any(repeat.mark == "*" for repeat in repeats))
    tidy_words(pen, line, declared)
    tidy_spaces(pen, line)
    return pen.edits()


def _without_crossing(plan: Plan) -> Plan:
    """*plan* without a statement whose edits would lie across those of the one before it."""
    kept: Plan = {}
    end = (0, 0)
    for line in sorted(plan):
        first, last = plan[line][0].span, plan[line][-1].span
        if (first.line, first.column) >= end:
            kept[line] = plan[line]
            end = (last.end_line, last.end_column)
    return kept


# --- never another making -----------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Kept:
    """What can be rewritten, the lines that can't, and the patterns of which a whole would be read otherwise."""

    text: str
    result: FileResult
    edits: Plan = field(default_factory=dict)
    left: set[int] = field(default_factory=set)
    troubled: set[int] = field(default_factory=set)


def _keep_what_is_the_same(text: str, before: FileResult, plan: Plan, check: Check) -> _Kept:
    left: set[int] = set()
    troubled: set[int] = set()
    for attempt in range(_PASSES):
        if not plan:
            break
        try:
            rewritten = apply(text, [edit for edits in plan.values() for edit in edits])
        except ValueError:
            return _Kept(text, before, {}, left | set(plan), troubled)
        after = check(rewritten)
        differing = _blamed(before, after, plan)
        if differing is None:
            return _Kept(rewritten, after, plan, left, troubled)
        if not differing or attempt == _PASSES - 1:
            differing, patterns = _whole_patterns(before, after, plan)
            troubled |= patterns
        left |= differing
        plan = {line: edits for line, edits in plan.items() if line not in differing}
    return _Kept(text, before, {}, left, troubled)


def _blamed(before: FileResult, after: FileResult, plan: Plan) -> set[int] | None:
    """The lines of *plan* to take back so that nothing but places differs; None where nothing does.

    Empty where something differs and no single line is to blame.
    """
    old, new = _by_line(before), _by_line(after)
    otherwise = {
        line for line in plan if line not in new or line not in old or making(old[line].syntax) != making(new[line].syntax)
    }
    if otherwise:
        return otherwise
    changed = _changed(old, new, facts) + _changed(found_on(before), found_on(after), lambda told: told)
    if not changed:
        return None if frame(before) == frame(after) else set()
    # What changed first is to blame; what comes after it may only follow from it.
    return {min(changed)} if min(changed) in plan else set()


def _changed(old: dict[int, _T], new: dict[int, _T], of: Callable[[_T], object]) -> list[int]:
    return [line for line in {*old, *new} if line not in old or line not in new or of(old[line]) != of(new[line])]


def _whole_patterns(before: FileResult, after: FileResult, plan: Plan) -> tuple[set[int], set[int]]:
    """The lines of *plan* in the patterns that differ, and which these are; all where that can't be told."""
    old, new = _by_line(before), _by_line(after)
    changed = {*_changed(old, new, facts), *_changed(found_on(before), found_on(after), lambda told: told)}
    patterns = set()
    if len(before.patterns) == len(after.patterns):
        for index, (was, now) in enumerate(zip(frame(before), frame(after), strict=True)):
            pattern = before.patterns[index]
            if was != now or any(pattern.line <= line <= pattern.end_line for line in changed):
                patterns.add(index)
    spans = [(before.patterns[index].line, before.patterns[index].end_line) for index in patterns]
    lines = {line for line in plan if any(first <= line <= last for first, last in spans)}
    if not lines:
        return set(plan), set(range(len(before.patterns)))
    return lines, patterns


def _by_line(result: FileResult) -> dict[int, RoundResult]:
    return {line.line: line for pattern in result.patterns for line in pattern.rounds}

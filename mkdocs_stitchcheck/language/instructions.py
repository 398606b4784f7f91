"""Reads what a round or step says: steps with stitches, repeats and doings, and the counts at its end."""

from __future__ import annotations

from dataclasses import dataclass, field

from .. import late_re as re
from ..source import Statement
from .around_steps import leading_count, name_private, tail_before_doings
from .copying import Copies
from .cursor import Context, Cursor, Unreadable
from .edgings import read_edging
from .full_stops import without_stops
from .references import read_reference
from .remarks import without_remarks
from .remembered import Memory, said
from .sentences import read_sentences
from .settling import settle
from .size_lists import fold_sizes
from .steps import Steps
from .syntax import Number, Reference, Stated, Step
from .tokens import NESTING_LIMIT, OPENING, Unmatched, match_brackets, statement_tokens

# "... through both layers. 4": behind such a step a number alone is its count.
_ACROSS = re.compile(r"\b(?:layers|sides|edges|thicknesses|closed|together|shut)\s*[.,;:=-]\s*\d+\s*\.?\s*$", re.IGNORECASE)


@dataclass(slots=True)
class Instruction:
    """What was read: steps (None where a word stopped the reading), counts, a length, rounds named, and problems."""

    steps: tuple[Step, ...] | None = ()
    stated: tuple[Stated, ...] = ()
    length: Number | None = None
    references: tuple[Reference, ...] = ()
    problems: list[Unreadable] = field(default_factory=list)
    body: tuple[int, int] = (0, 0)
    not_written: bool = False
    otherwise: tuple[tuple[Step, ...], tuple[Stated, ...]] | None = None  # the steps and counts of a second reading

    def copied(self, copies: Copies) -> Instruction:
        """The same, of nodes of its own; without problems."""
        steps = None if self.steps is None else copies.all(self.steps)
        stated = copies.all(self.stated)
        length = None if self.length is None else copies.of(self.length)
        references = copies.all(self.references)
        other = None if self.otherwise is None else (copies.all(self.otherwise[0]), copies.all(self.otherwise[1]))
        body = copies.place(self.body[0]), copies.place(self.body[1])
        return Instruction(steps, stated, length, references, [], body, self.not_written, other)


_MEMORY: Memory[tuple[Instruction, int]] = Memory()  # each with the place where it was read


def read_instruction(
    statement: Statement, context: Context, start: int, end: int | None = None, *, step: bool = False
) -> Instruction:
    """instruction = {step separator} tail ; *step* for a working step, whose sentences may say anything but stitches.

    Never raises: what can't be read stands in ``problems``, and ``steps`` is then None. Where a number alone at the
    end may be the count or stitches, it is read as the count, and ``otherwise`` has the other reading.
    """
    what = said(statement, context, start, len(statement.text) if end is None else end, step)
    known = _MEMORY.recall(what, context) if what is not None else None
    if known is not None:
        return known[0].copied(Copies(known[1], start - known[1]))
    result = _anew(statement, context, start, end, step)
    if what is not None and not result.problems:
        _MEMORY.keep(what, context, (result.copied(Copies()), start))
    return result


def _anew(statement: Statement, context: Context, start: int, end: int | None, step: bool) -> Instruction:
    result, either = _instruction(statement, context, start, end, step, bare=not step or _ACROSS.search(statement.words, start) is not None)
    if either:
        other, _ = _instruction(statement, context, start, end, step, bare=False)
        if result.steps is None and other.steps is not None:
            return other
        if other.steps is not None and not other.problems:
            result.otherwise = other.steps, other.stated
    if result.steps is None and not step:
        plain, _ = _instruction(statement, context, start, end, step, bare=True, remarks=True)
        if plain.steps and not plain.problems:
            return plain
    return result


def _instruction(
    statement: Statement, context: Context, start: int, end: int | None, step: bool, bare: bool, remarks: bool = False
) -> tuple[Instruction, bool]:
    """The instruction, and whether a bare number was read as its count."""
    stop = len(statement.text) if end is None else end
    tokens = without_stops(statement_tokens(statement, start, stop))
    result = Instruction(body=(start, stop))
    disagree: list[Unreadable] = []
    if context.sizes > 1:
        tokens = fold_sizes(tokens, context.sizes, disagree)
    if remarks:
        without = without_remarks(tokens, frozenset((*context.special_words, *context.colors)) - {"a", "i"})
        if without is None:
            return Instruction(None), False
        tokens = without
    name_private(tokens, context)
    unmatched, deepest = match_brackets(tokens)
    if deepest > NESTING_LIMIT:
        first = next(token for token in tokens if token.text in OPENING)
        result.problems.append(Unreadable("unreadable-line", first.start, first.end, f"Brackets are nested more than {NESTING_LIMIT} deep here.", "Write it in fewer brackets."))
        result.steps = None
        return result, False
    cursor = Cursor(statement, tokens, context)
    if len(tokens) <= 2 and tokens and all(token.text in "?." for token in tokens):
        result.not_written = True
        result.steps = ()
        return result, False
    either = False
    try:
        either = _read(cursor, result, unmatched, step, bare)
    except Unreadable as problem:
        result.problems.append(problem)
        result.steps = None
    except RecursionError:
        result.problems.append(Unreadable("unreadable-line", start, stop, "This is nested too deep to be read.", "Write it in fewer brackets."))
        result.steps = None
    if disagree:
        result.problems, result.steps = disagree, None
    return result, either


def _read(cursor: Cursor, result: Instruction, unmatched: list[Unmatched], step: bool, bare: bool) -> bool:
    leading = leading_count(cursor)
    tail, later = tail_before_doings(cursor, bare and leading is None)
    counts = tail.counts
    if leading is not None:
        counts = counts or [leading]
    _unmatched_problems(result, unmatched)
    result.stated = tuple(counts)
    result.length = tail.length
    end = cursor.tokens[tail.stop - 1].end if tail.stop else cursor.start
    result.body = (cursor.start if cursor.tokens else result.body[0], end)
    if cursor.statement.reading is not None:
        result.body = cursor.statement.reading.whole(cursor.statement.text, *result.body)
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, tail.stop)
    reader = Steps(result.problems)
    steps = read_edging(inside) or (read_sentences(inside, reader) if step else reader.read(inside))
    if later is not None:
        steps.extend(reader.read(Cursor(cursor.statement, cursor.tokens, cursor.context, later, cursor.stop)))
    result.stated = result.stated or tuple(reader.counts)
    if step:
        result.references = tuple(_references(inside))
    result.steps = tuple(settle(steps, tail))
    return tail.either


def _references(cursor: Cursor) -> list[Reference]:
    """Every place where rounds are named, for the check that they exist; "of Head" holds for those without a name."""
    found = []
    cursor.at = 0
    while not cursor.done:
        if cursor.peek() in ("between", "over", "to", "on", "at", "around", "under", "rnd", "rnds", "round", "rounds", "row", "rows", "in", "after", "from"):
            at = cursor.at
            cursor.at += cursor.peek() not in ("rnd", "rnds", "round", "rounds", "row", "rows")
            try:
                reference = read_reference(cursor)
            except Unreadable:
                reference = None
            if reference is not None and cursor.peek() not in ("times", "time"):  # "every alt row 4 times" names no row 4
                found.append(reference)
                continue
            cursor.at = at
        cursor.at += 1
    return found


def _unmatched_problems(result: Instruction, unmatched: list[Unmatched]) -> None:
    """One problem for each kind of mismatch: a row of open brackets is told once."""
    opened = closed = False
    for pair in unmatched:
        if pair.closing is None:
            if opened:
                continue
            opened = True
        elif pair.opening is None:
            if closed:
                continue
            closed = True
        if pair.opening is not None and pair.closing is not None:
            right = OPENING[pair.opening.text]
            message = f"This bracket opens with {pair.opening.text} and closes with {pair.closing.text}."
            problem = Unreadable("unbalanced-mark", pair.closing.start, pair.closing.end, message, f"Close it with {right}.", right)
        elif pair.opening is not None:
            message = f"The bracket that opens here with {pair.opening.text} is never closed; it is read as going on to the end of the round."
            problem = Unreadable("unbalanced-mark", pair.opening.start, pair.opening.end, message, f"Close it with {OPENING[pair.opening.text]}.")
        else:
            assert pair.closing is not None
            message = f"A bracket closes here with {pair.closing.text}, but none was opened."
            problem = Unreadable("unbalanced-mark", pair.closing.start, pair.closing.end, message, "Open it where it begins, or take it out.")
        result.problems.append(problem)

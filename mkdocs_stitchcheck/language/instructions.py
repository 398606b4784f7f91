"""Reads what a round or step says: steps with stitches, repeats and doings, and the counts at its end."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..late_dataclasses import dataclass, field, replace
from ..source import Statement
from .copying import Copies
from .cursor import Context, Cursor, Unreadable
from .doings import read_doing
from .joined_spaces import join_last_space
from .multipliers import MARKS, REPEAT_WORDS, read_extent
from .places import read_place
from .references import read_reference
from .remarks import without_remarks
from .remembered import Memory, said
from .repeats import build, closes_unopened, read_bracket, read_star
from .shaping import SHAPING_WORDS, read_shaping
from .size_lists import fold_sizes
from .stated import Tail, find_tail, read_count
from .stitchwork import is_measure, read_number_first, read_ring, read_stitch_first, unknown_word
from .syntax import (
    Again,
    Aside,
    Chain,
    ColorChange,
    Group,
    Join,
    Leave,
    Loops,
    More,
    Number,
    OtherSide,
    Place,
    Reference,
    Repeat,
    Ring,
    Spread,
    Stated,
    Step,
    Trust,
    Turn,
    Work,
)
from .tokens import NESTING_LIMIT, OPENING, Token, Unmatched, match_brackets, statement_tokens
from .vocabulary import stitches
from .words import FILLERS

_SEPARATORS = frozenset(",;.:+/&-|=!")


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
    result, either = _instruction(statement, context, start, end, step, bare=not step)
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
    tokens = statement_tokens(statement, start, stop)
    result = Instruction(body=(start, stop))
    disagree: list[Unreadable] = []
    if context.sizes > 1:
        tokens = fold_sizes(tokens, context.sizes, disagree)
    if remarks:
        without = without_remarks(tokens, frozenset((*context.special_words, *context.colors)) - {"a", "i"})
        if without is None:
            return Instruction(None), False
        tokens = without
    _name_private(tokens, context)
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
    leading = _leading_count(cursor)
    tail, later = _tail_before_doings(cursor, bare and leading is None)
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
    reader = _Steps(result.problems)
    steps = reader.sentences(inside) if step else reader.read(inside)
    if later is not None:
        steps.extend(reader.read(Cursor(cursor.statement, cursor.tokens, cursor.context, later, cursor.stop)))
    result.stated = result.stated or tuple(reader.counts)
    if step:
        result.references = tuple(_references(inside))
    result.steps = tuple(_finish(steps, tail))
    return tail.either


_PRIVATE = {"d": "dec", "i": "inc"}


def _name_private(tokens: list[Token], context: Context) -> None:
    """"8 d 8", "[25] 6 i 17": between bare numbers the letters d and i are a decrease and an increase."""
    if not any(token.text in _PRIVATE for token in tokens):
        return
    leading = tokens[0].text in OPENING and len(tokens) > 3 and tokens[1].kind == "number" and tokens[2].text == OPENING[tokens[0].text] if tokens else False
    begin = 3 if leading else 0
    stop = next((index for index, token in enumerate(tokens) if index >= begin and token.kind == "mark" and token.text != ","), len(tokens))
    body = tokens[begin:stop]
    letters = [index for index, token in enumerate(body, begin) if token.text in _PRIVATE]
    if not letters or any(token.kind != "number" and token.text not in (",", *_PRIVATE) for token in body):
        return
    if len(letters) == len(body) or any(token.text in context.special_words or token.text in context.colors for token in body):
        return
    for index in reversed(letters):
        token = tokens[index]
        tokens[index] = replace(token, text=_PRIVATE[token.text])
        for at in (index + 1, index):
            if begin < at < len(tokens) and tokens[at - 1].text != "," and tokens[at].text != ",":
                tokens.insert(at, Token("mark", ",", tokens[at].start, tokens[at].start))


def _tail_before_doings(cursor: Cursor, bare: bool) -> tuple[Tail, int | None]:
    """The tail, perhaps with sentences behind it that are mere doings: "... 20 sc. Fasten off." and where those begin."""
    tail = find_tail(cursor, bare)
    if tail.counts:
        return tail, None
    closing = cursor.tokens[cursor.stop - 1] if cursor.stop > cursor.at else None
    if closing is not None and closing.text == ")" and closing.mate > cursor.at:
        # "4 dec = 4 sc (rest left unworked)"
        inside = Cursor(cursor.statement, cursor.tokens, cursor.context, closing.mate + 1, cursor.stop - 1)
        left = read_doing(inside) if inside.peek() in ("rest", "rem", "remaining", "the", "leave", "leaving") else None
        if left and inside.done and isinstance(left[0], Leave):
            before = find_tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, closing.mate))
            if before.counts:
                return before, closing.mate + 1
    stops = [i for i in range(cursor.at, cursor.stop - 1) if cursor.tokens[i].text in (".", ",", ";")][-3:]
    for index in reversed(stops):
        probe = Cursor(cursor.statement, cursor.tokens, cursor.context, index + 1, cursor.stop)
        try:
            found = read_doing(probe)
        except Unreadable:
            found = None
        while not probe.done and probe.peek() in (".", ",", ";"):
            probe.at += 1
        if not found or not probe.done or not all(isinstance(step, (Aside, Turn, Join, ColorChange)) for step in found):
            break
        before = find_tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, index), bare)
        if before.counts:
            return before, index + 1
    return tail, None


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
            if reference is not None:
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


def _leading_count(cursor: Cursor) -> Stated | None:
    """"[24] 3 sc, inc ...": a bracketed number in front is the count."""
    opening = cursor.token()
    if opening is None or opening.text not in OPENING or opening.mate != cursor.at + 2 or not cursor.is_number(1, words=False):
        return None
    following = cursor.tokens[opening.mate + 1] if opening.mate + 1 < cursor.stop else None
    if following is None or following.text in ("x", "times"):
        return None
    if following.text in OPENING and following.mate == cursor.stop - 1:
        return None
    at = cursor.at
    cursor.at += 1
    number = cursor.number()
    if number is None:
        cursor.at = at
        return None
    cursor.at = opening.mate + 1
    return Stated(opening.start, cursor.tokens[opening.mate].end, "total", number)


class _Steps:
    """Reads steps one after the other; marks that do not match are noted and the reading goes on."""

    def __init__(self, problems: list[Unreadable]) -> None:
        self.problems = problems
        self.counts: list[Stated] = []

    def read(self, cursor: Cursor) -> list[Step]:
        """steps = {step [separator]}"""
        steps: list[Step] = []
        while not cursor.done:
            token = cursor.tokens[cursor.at]
            if token.kind == "mark" and token.text in _SEPARATORS:
                cursor.at += 1
                continue
            steps.extend(self._step(cursor, steps))
        return steps

    def _step(self, cursor: Cursor, before: list[Step]) -> list[Step]:
        token = cursor.tokens[cursor.at]
        at = cursor.at
        if token.text in OPENING and (token.mate >= 0 or token.text != "<"):
            if any(isinstance(step, _WORKING) for step in before) and self._count_inside(cursor):
                return []
            return read_bracket(cursor, before, self.read)
        if token.text in MARKS and token.kind == "mark":
            return read_star(cursor, self.read, self.problems)
        if token.text in ")]}>":
            cursor.at += 1
            return []
        if token.kind == "number" and is_measure(cursor):
            return self._measure(cursor)
        if token.text in SHAPING_WORDS and (shaped := read_shaping(cursor)):
            return shaped
        if before and token.text in ("all", "around", "round") and (whole := self._all_around(cursor, before)):
            return whole
        for reader in (read_ring, self._number_first, self._stitch_first, read_doing):
            cursor.at = at
            found = reader(cursor)
            if found is not None and cursor.at > at:
                return found
        cursor.at = at
        found = self._repeat_word(cursor, before)
        if found is not None:
            return found
        cursor.at = at
        if token.text in ("next", "in", "over") and (placed := self._unnamed(cursor)):
            return placed
        if token.text in FILLERS and at + 1 < cursor.stop:
            cursor.at += 1
            return []
        raise unknown_word(cursor)

    def _count_inside(self, cursor: Cursor) -> bool:
        """A count with only doings behind it: "sc around (24), place marker"."""
        opening = cursor.tokens[cursor.at]
        if opening.mate < 0 or opening.mate >= cursor.stop or not cursor.is_number(1, words=False) or cursor.depth:
            return False
        inner = cursor.tokens[cursor.at + 1 : opening.mate]
        if opening.glued and cursor.at and cursor.tokens[cursor.at - 1].kind == "word":
            return False  # "A(8 sc)"
        if any(token.text in ("in", "into", "x", "times") for token in inner):
            return False
        after = Cursor(cursor.statement, cursor.tokens, cursor.context, opening.mate + 1, cursor.stop)
        if after.peek() in ("x", "*", "times", "around") or after.is_number():
            return False
        if any(token.text in REPEAT_WORDS for token in after.tokens[after.at : after.stop]):
            return False
        inside = Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at + 1, opening.mate)
        found = read_count(inside, opening.start, cursor.tokens[opening.mate].end)
        if not isinstance(found, Stated) or self._works_later(after):
            return False
        self.counts.append(found)
        cursor.at = opening.mate + 1
        return True

    def _works_later(self, cursor: Cursor) -> bool:
        while not cursor.done:
            if self._works(cursor) and cursor.peek() not in ("sl", "ss", "slst", "join"):
                return True
            cursor.at += 1
        return False

    def _number_first(self, cursor: Cursor) -> list[Step] | None:
        prefix = self._bracket_prefix(cursor)
        return prefix if prefix is not None else read_number_first(cursor, self.read)

    def _stitch_first(self, cursor: Cursor) -> list[Step] | None:
        if self._is_doing(cursor):
            return None
        return read_stitch_first(cursor, self.read)

    @staticmethod
    def _is_doing(cursor: Cursor) -> bool:
        """"slip marker", "pop the eyes in": words that begin like a stitch."""
        return cursor.peek() == "slip" and cursor.peek(1) == "marker" or cursor.peek() == "pop" and cursor.peek(1) in ("the", "your", "them")

    def _bracket_prefix(self, cursor: Cursor) -> list[Step] | None:
        """"[2x: inc, 2 sc] x 4": a multiplier inside the bracket, for all that follows in it."""
        if not (cursor.is_number(words=False) and cursor.peek(1) in ("x", "times") and cursor.peek(2) == ":"):
            return None
        start = cursor.start
        number = cursor.number()
        cursor.at += 2
        body = self.read(cursor)
        return [Repeat(start, cursor.end, tuple(body), number, mark="x")]

    def _measure(self, cursor: Cursor) -> list[Step]:
        start = cursor.start
        while not cursor.done and cursor.peek() not in (",", ";", "("):
            cursor.at += 1
        return [Aside(start, cursor.end, "remark")]

    def _repeat_word(self, cursor: Cursor, before: list[Step]) -> list[Step] | None:
        """"sc, sc, 2 sc in next st, repeat": all that came before is repeated."""
        if cursor.peek() not in REPEAT_WORDS:
            return None
        at = cursor.at
        if any(cursor.peek(ahead) in MARKS for ahead in range(1, 4)):
            raise closes_unopened(cursor)
        extent = read_extent(cursor)
        if extent is None or not before:
            cursor.at = at
            return None
        first = next((i for i, step in enumerate(before) if not isinstance(step, (Aside, ColorChange, Loops, Turn, Chain))), None)
        if first is None:
            cursor.at = at
            return None
        body = before[first:]
        del before[first:]
        return [build(cursor, body[0].start, body, extent, "", True, self.read)]

    def _all_around(self, cursor: Cursor, before: list[Step]) -> list[Step] | None:
        """"5 sc, inc - all the way round": the list that came before is repeated."""
        at = cursor.at
        place = read_place(cursor) if cursor.tokens[at - 1].text in (",", ";", "-") else None
        first = next((i for i, step in enumerate(before) if not isinstance(step, (Aside, ColorChange, Loops, Turn, Chain))), None)
        body = before[first:] if first is not None else []
        listed = len(body) > 1 and all(isinstance(step, Work) and (step.place is None or step.place.kind != "rest") for step in body)
        if place is None or place.kind != "rest" or place.each or not cursor.done or not listed:
            cursor.at = at
            return None
        del before[first:]
        return [Repeat(body[0].start, cursor.end, tuple(body), None, "rest", closed=True)]

    def _unnamed(self, cursor: Cursor) -> list[Step] | None:
        """"next 2 sts tog": a place whose stitch is left out."""
        from .vocabulary import together

        at, start = cursor.at, cursor.start
        place = read_place(cursor)
        if place is not None and place.number is not None and cursor.accept("tog", "together"):
            cursor.phrase(("as one",))
            return [Work(start, cursor.end, together(stitches()["sc"], max(2, min(place.number.value, 100))))]
        cursor.at = at
        return None

    # --- working steps: sentences --------------------------------------------------------------------------------

    def sentences(self, cursor: Cursor) -> list[Step]:
        """Each clause is a doing, or counted work, or words without stitches; a clause with stitch work is read strictly."""
        steps: list[Step] = []
        while not cursor.done:
            if cursor.peek() in _SEPARATORS or cursor.peek() in (")", "]", "}"):
                cursor.at += 1
                continue
            at = cursor.at
            cursor.accept("and", "then", "now", "&", "with")
            if seam := self._seam(cursor):
                steps.append(seam)
                continue
            if self._works(cursor) and not self._is_doing(cursor):
                worked = self._step(cursor, steps)
                _through_both(worked, steps)
                steps.extend(worked)
                continue
            cursor.at = at
            found = read_doing(cursor)
            if found is None and cursor.accept("and", "then", "&"):
                found = read_doing(cursor)
            if found is not None and cursor.at > at:
                steps.extend(found)
                continue
            cursor.at = at
            start = cursor.start
            cursor.at += 1
            while not cursor.done and not (cursor.peek() in (",", ";", ".") or cursor.peek() in ("and", "then", "&", "with") and self._works_ahead(cursor)):
                cursor.at += 1
            steps.append(Aside(start, cursor.end, "remark"))
        return steps

    @staticmethod
    def _seam(cursor: Cursor) -> Aside | None:
        """"sl st the short ends together": stitches that sew, as many as it takes."""
        matched = cursor.match_stitch()
        if matched is None or cursor.peek(matched[1]) not in ("the", "both", "these", "your"):
            return None
        stop = next((i for i in range(cursor.at, cursor.stop) if cursor.tokens[i].text in (".", ";", ",")), cursor.stop)
        words = [token for token in cursor.tokens[cursor.at : stop]]
        if any(token.kind == "number" for token in words) or not any(token.text in ("together", "closed", "shut", "place") for token in words):
            return None
        start, cursor.at = cursor.start, stop
        return Aside(start, cursor.end, "sew")

    def _works_ahead(self, cursor: Cursor) -> bool:
        cursor.at += 1
        works = self._works(cursor)
        cursor.at -= 1
        return works

    @staticmethod
    def _works(cursor: Cursor) -> bool:
        """Whether stitches to be worked stand here."""
        if cursor.peek() in ("work", "make"):
            cursor_ahead = 1
        else:
            cursor_ahead = 0
        if cursor.is_number(cursor_ahead):
            return cursor.match_stitch(cursor_ahead + 1) is not None and cursor.peek(cursor_ahead + 1) not in ("chain",)
        if cursor.peek(cursor_ahead) in OPENING:
            return cursor.match_stitch(cursor_ahead + 1) is not None or (cursor.is_number(cursor_ahead + 1) and cursor.match_stitch(cursor_ahead + 2) is not None)
        matched = cursor.match_stitch(cursor_ahead)
        return matched is not None and cursor.peek(cursor_ahead) not in ("cross", "chain", "loop", "slip", "miss", "close")


def _through_both(worked: list[Step], before: list[Step]) -> None:
    """"Fold opening, stitch together with 6 sc": after folding, a number of stitches goes through both layers."""
    if not any(isinstance(step, Aside) and step.kind == "flatten" for step in before):
        return
    for step in worked:
        if isinstance(step, Work) and step.place is None and step.count is not None and step.stitch.plain:
            step.place = Place(step.start, step.end, "next", step.count, layers=2, noun="layers")
            step.count = None


def _finish(steps: list[Step], tail: Tail) -> list[Step]:
    """Chains that give height are told from chains between stitches; a ring without stitches takes the stated count.

    "sc around, increasing 6 evenly" is one thing: the stitches around are among those that are spread.
    """
    _whole_round(steps, tail)
    _ring_for_all(steps)
    _through_held(steps)
    _keep_back(steps)
    _down_the_other(steps)
    if any(isinstance(step, Spread) or isinstance(step, Repeat) and step.mark == "every" for step in steps):
        steps = [s for s in steps if not (isinstance(s, Work) and s.place is not None and s.place.kind == "rest")]
    _mark_turning(steps)
    steps = join_last_space(steps)
    _first_chains(steps)
    only = [step for step in steps if not isinstance(step, (Aside, ColorChange))]
    if len(only) == 1 and isinstance(only[0], Ring) and only[0].chains is None and tail.counts and tail.counts[0].number is not None:
        ring, number = only[0], tail.counts[0].number
        place = Place(ring.start, ring.end, "ring")
        steps.append(Work(ring.start, ring.end, stitches()["sc"], Number(ring.end, ring.end, number.values), place))
    return steps


def _through_held(steps: Sequence[Step], held: Reference | None = None) -> None:
    """"Holding ears together, (sc through both) x 8": both are the pieces held."""
    for step in steps:
        if isinstance(step, Aside) and step.reference is not None:
            held = step.reference
        elif isinstance(step, Repeat):
            _through_held(step.body, held)
        elif isinstance(step, Work) and held is not None and step.place is not None and step.place.layers > 1 and step.place.reference is None:
            step.place.reference = held
            if not held.piece.lower().endswith("s"):
                step.place.kind = "piece"  # one piece held against the one at hand


def _keep_back(steps: list[Step]) -> None:
    """"sc across, work 1 st less each row": the stitches that stay are not among those worked across."""
    for before, step in pairwise(steps):
        if isinstance(step, Leave) and step.number is not None and isinstance(before, Work):
            place = before.place
            if place is not None and place.kind == "rest" and place.number is None and place.layers == 1:
                place.kind, place.number = "to_last", step.number


def _down_the_other(steps: list[Step]) -> None:
    """"sc up one side, 3 in tip, down the other", "sc down the other side": the rest of the chain's other side."""
    turned = next((i for i in range(len(steps) - 1, -1, -1) if isinstance(steps[i], OtherSide)), None)
    if turned is None:
        return
    if turned and isinstance(steps[turned - 1], Turn):
        del steps[turned - 1]  # "turn and continue along the other side": the work is only swung round
        turned -= 1
    rest = [step for step in steps[turned:] if isinstance(step, (*_WORKING, Again))]
    before = [step for step in steps[:turned] if isinstance(step, Work) and step.place is not None and step.place.kind == "rest"]
    end = steps[turned].end
    if not rest and before:
        steps.insert(turned + 1, Work(end, end, before[-1].stitch, None, Place(end, end, "rest", noun="side")))
    elif len(rest) == 1 and isinstance(rest[0], Work) and rest[0].place is None and rest[0].count is None and rest[0].stitch.plain:
        rest[0].place = Place(end, end, "rest", noun="side")


def _whole_round(steps: list[Step], tail: Tail) -> None:
    """"sc BLO (20)": one bare stitch as a whole round, with a count, is worked around."""
    works = [step for step in steps if isinstance(step, _WORKING)]
    if len(works) != 1 or not isinstance(works[0], Work) or not tail.counts or tail.counts[0].number is None:
        return
    work = works[0]
    if work.stitch.plain and work.stitch.kind in ("plain", "post") and work.count is None and work.place is None and tail.counts[0].number.value > 1:
        work.place = Place(work.start, work.end, "rest")


def _ring_for_all(steps: list[Step]) -> None:
    """"6 sc + 1 bobble in magic ring": all of them go into the ring."""
    works = [step for step in steps if isinstance(step, (Work, Group))]
    if len(works) > 1 and works[-1].place is not None and works[-1].place.kind == "ring" and not any(isinstance(s, Ring) for s in steps):
        for work in works[:-1]:
            if isinstance(work, Work) and work.place is None and work.stitch.kind != "skip":
                work.place = Place(work.start, work.end, "ring")


def _first_chains(steps: list[Step]) -> None:
    """"Ch 2, 6 sc in first ch": the first chain that was made is the last one counted from the hook."""
    made: Chain | None = None
    for step in steps:
        if isinstance(step, Chain):
            made = step
        elif isinstance(step, (Work, Group)) and step.place is not None:
            place = step.place
            if made is not None and place.kind == "first" and place.noun == "chain" and place.number is None:
                place.kind, place.number = "chain", made.number
                made.turning = False
            made = None


_WORKING = (Work, Group, Repeat, Spread, More, Trust)


def _mark_turning(steps: list[Step]) -> None:
    working = [i for i, step in enumerate(steps) if isinstance(step, _WORKING)]
    moves = next((n for n, i in enumerate(working) if not _moves(steps[i])), 0)
    first = working[moves] if working else len(steps)
    last = working[-1] if working else -1
    for index, step in enumerate(steps):
        if not isinstance(step, Chain):
            continue
        if index < first and working:
            step.turning = _gives_height(steps, index, first)
        elif index > last and working:
            step.turning = any(isinstance(other, Turn) for other in steps[last + 1 :])
        elif not working and any(isinstance(other, Turn) for other in steps):
            step.turning = True


def _moves(step: Step) -> bool:
    """A slip stitch before anything else moves to where the round begins: the chain after it gives height."""
    return isinstance(step, Work) and step.stitch.kind == "slip" and step.place is not None


def _gives_height(steps: list[Step], index: int, first: int) -> bool:
    """Whether a chain before the first stitch gives height: not a foundation, a bridge to a leg, or an opening."""
    chain, following = steps[index], steps[first]
    assert isinstance(chain, Chain)
    between = steps[index + 1 : first]
    if any(isinstance(step, (OtherSide,)) or (isinstance(step, Join) and step.reference is not None) for step in between):
        return False
    if isinstance(following, (Work, Group)) and following.place is not None and following.place.kind == "chain":
        return False
    if isinstance(following, Work) and following.stitch.kind == "skip" and following.count is not None:
        return following.count.value != chain.number.value or chain.number.value == 1
    return True

"""Reads the steps of a round one after the other: rings, numbers, stitches, brackets, stars and doings."""

from __future__ import annotations

from .counts import read_count
from .cursor import Cursor, Unreadable
from .doings import read_doing
from .multipliers import MARKS, REPEAT_WORDS, read_extent
from .no_stitches import is_measure, unknown_word
from .place_first import PLACED_FIRST, read_place_first
from .places import read_place
from .repeats import build, read_bracket
from .rings import read_ring
from .settling import WORKING
from .shaping import SHAPING_WORDS, read_shaping
from .stars import closes_unopened, read_star
from .stitchwork import read_number_first, read_stitch_first
from .syntax import Aside, Chain, ColorChange, Loops, Repeat, Stated, Step, Turn, Work
from .tokens import OPENING
from .vocabulary import stitches, together
from .words import FILLERS

SEPARATORS = frozenset(",;.:+/&-|=!")


class Steps:
    """Reads steps one after the other; marks that do not match are noted and the reading goes on."""

    def __init__(self, problems: list[Unreadable]) -> None:
        self.problems = problems
        self.counts: list[Stated] = []

    def read(self, cursor: Cursor) -> list[Step]:
        """steps = {step [separator]}"""
        steps: list[Step] = []
        while not cursor.done:
            token = cursor.tokens[cursor.at]
            if token.kind == "mark" and token.text in SEPARATORS:
                cursor.at += 1
                continue
            steps.extend(self.step(cursor, steps))
        return steps

    def step(self, cursor: Cursor, before: list[Step]) -> list[Step]:
        """What stands at the cursor; *before* is what was read so far, of which a repeat may take a part."""
        token = cursor.tokens[cursor.at]
        at = cursor.at
        if token.text in OPENING and (token.mate >= 0 or token.text != "<"):
            if any(isinstance(step, WORKING) for step in before) and self._count_inside(cursor):
                return []
            return read_bracket(cursor, before, self.read)
        if token.text in MARKS and token.kind == "mark":
            return read_star(cursor, self.read, self.problems)
        if token.text in ")]}>":
            cursor.at += 1
            return []
        if token.kind == "number" and is_measure(cursor):
            return _measure(cursor)
        if token.text in PLACED_FIRST and (placed := read_place_first(cursor, self.read)):
            return placed
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
        if token.text in ("next", "in", "over") and (placed := _unnamed(cursor)):
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
        if not isinstance(found, Stated) or _works_later(after):
            return False
        self.counts.append(found)
        cursor.at = opening.mate + 1
        return True

    def _number_first(self, cursor: Cursor) -> list[Step] | None:
        prefix = self._bracket_prefix(cursor)
        return prefix if prefix is not None else read_number_first(cursor, self.read)

    def _stitch_first(self, cursor: Cursor) -> list[Step] | None:
        if is_doing(cursor):
            return None
        return read_stitch_first(cursor, self.read)

    def _bracket_prefix(self, cursor: Cursor) -> list[Step] | None:
        """"[2x: inc, 2 sc] x 4": a multiplier inside the bracket, for all that follows in it."""
        if not (cursor.is_number(words=False) and cursor.peek(1) in ("x", "times") and cursor.peek(2) == ":"):
            return None
        start = cursor.start
        number = cursor.number()
        cursor.at += 2
        body = self.read(cursor)
        return [Repeat(start, cursor.end, tuple(body), number, mark="x")]

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


def is_doing(cursor: Cursor) -> bool:
    """"slip marker", "pop the eyes in": words that begin like a stitch."""
    return cursor.peek() == "slip" and cursor.peek(1) == "marker" or cursor.peek() == "pop" and cursor.peek(1) in ("the", "your", "them")


def works(cursor: Cursor) -> bool:
    """Whether stitches to be worked stand here."""
    if cursor.peek() in ("work", "make", "crochet"):
        cursor_ahead = 1
    else:
        cursor_ahead = 0
    if cursor.is_number(cursor_ahead):
        return cursor.match_stitch(cursor_ahead + 1) is not None and cursor.peek(cursor_ahead + 1) not in ("chain",)
    if cursor.peek(cursor_ahead) in OPENING:
        return cursor.match_stitch(cursor_ahead + 1) is not None or (cursor.is_number(cursor_ahead + 1) and cursor.match_stitch(cursor_ahead + 2) is not None)
    matched = cursor.match_stitch(cursor_ahead)
    return matched is not None and cursor.peek(cursor_ahead) not in ("cross", "chain", "loop", "slip", "miss", "close")


def _works_later(cursor: Cursor) -> bool:
    while not cursor.done:
        if works(cursor) and cursor.peek() not in ("sl", "ss", "slst", "join"):
            return True
        cursor.at += 1
    return False


def _measure(cursor: Cursor) -> list[Step]:
    start = cursor.start
    while not cursor.done and cursor.peek() not in (",", ";", "("):
        cursor.at += 1
    return [Aside(start, cursor.end, "remark")]


def _unnamed(cursor: Cursor) -> list[Step] | None:
    """"next 2 sts tog": a place whose stitch is left out."""
    at, start = cursor.at, cursor.start
    place = read_place(cursor)
    if place is not None and place.number is not None and cursor.accept("tog", "together"):
        cursor.phrase(("as one",))
        return [Work(start, cursor.end, together(stitches()["sc"], max(2, min(place.number.value, 100))))]
    cursor.at = at
    return None

"""Repeats marked with stars: "*sc, inc; rep from * around", "*sc 3*, inc; rep between stars", "**" within."""

from __future__ import annotations

from .cursor import Cursor, Unreadable
from .multipliers import MARKS, REPEAT_WORDS, Extent, read_extent, read_times
from .repeats import Reader, build
from .syntax import Repeat, Step, Work
from .tokens import NESTING_LIMIT, OPENING


def read_star(cursor: Cursor, read_steps: Reader, notes: list[Unreadable]) -> list[Step]:
    """star = "*" steps "*" [extent] | "*" steps [";"] "rep from *" [extent] | "*" steps  (unclosed: to the end)"""
    first = cursor.at
    mark = cursor.tokens[first].text
    run = _run(cursor, first, mark)
    start = cursor.start
    closing, kind = _find_end(cursor, first + run, mark, run)
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, first + run, closing)
    inside.depth = cursor.depth + 1
    if inside.depth > NESTING_LIMIT:
        raise Unreadable("unreadable-line", start, start + 1, "Repeats are nested too deep here.", "Write the round in fewer repeats.")
    if kind == "open" and inside.done:
        raise _unmatched(cursor, first, "This star stands alone: there is nothing to repeat.")
    body, last = _two_parts(cursor, inside, mark, run, read_steps)
    if kind == "open":
        cursor.at = cursor.stop
        last_step = body[-1] if body else None
        if isinstance(last_step, Work) and last_step.place is not None and last_step.place.kind == "rest" and not last_step.place.each:
            last_step.place = None  # "*3 sc, inc around": the whole is repeated around
        notes.append(_unmatched(cursor, first, f"The repeat that begins at this {mark} is never closed; it is read as going on to the end of the round."))
        return [Repeat(start, cursor.end, tuple(body), None, "rest", mark=mark, closed=False)]
    if kind == "pair":
        cursor.at = closing + _run(cursor, closing, mark)
        from_star = _from_follows(cursor)
        extent = read_extent(cursor, star=from_star) or Extent()
        return [build(cursor, start, body, extent, mark, True, read_steps)] if body else []
    cursor.at = closing
    extent = read_extent(cursor, star=True) or Extent()
    step = build(cursor, start, body, extent, mark, True, read_steps)
    if extent.partial and isinstance(step, Repeat):
        step.last = last
    if last is not None and isinstance(step, Repeat) and (part := _then_part(cursor, body[:last], mark)) is not None:
        return [step, part]
    return [step]


def _then_part(cursor: Cursor, body: list[Step], mark: str) -> Repeat | None:
    """"..., then from * to ** once": the first part of the stretch is worked again by itself."""
    at, start = cursor.at, cursor.start
    while cursor.accept(",", ";", ".", "then", "and", "work", "rep", "repeat"):
        pass
    if cursor.accept("from") and cursor.accept(mark):
        cursor.accept("to", "-")
        run = 0
        while cursor.accept(mark):
            run += 1
        found = read_times(cursor) if run > 1 else None
        if found is not None:
            cursor.accept("more")
            return Repeat(start, cursor.end, tuple(body), found[0], mark=mark)
    cursor.at = at
    return None


def _two_parts(cursor: Cursor, inside: Cursor, mark: str, run: int, read_steps: Reader) -> tuple[list[Step], int | None]:
    """The steps of a stretch, and how many of them stand before a doubled mark in it ("*A, ** B; rep from *")."""
    for index in range(inside.at, inside.stop):
        if cursor.tokens[index].text == mark and _run(cursor, index, mark) != run:
            stop, inside.stop = inside.stop, index
            first = read_steps(inside)
            inside.stop = stop
            inside.at = index + _run(cursor, index, mark)
            return [*first, *read_steps(inside)], len(first)
    return read_steps(inside), None


def _unmatched(cursor: Cursor, at: int, message: str) -> Unreadable:
    token = cursor.tokens[at]
    return Unreadable("unbalanced-mark", token.start, token.end, message, "Close the repeat where it ends, or take the mark out.")


def _run(cursor: Cursor, at: int, mark: str) -> int:
    length = 1
    while at + length < cursor.stop and cursor.tokens[at + length].text == mark and cursor.tokens[at + length].glued:
        length += 1
    return length


def _from_follows(cursor: Cursor) -> bool:
    ahead = 1 if cursor.peek() in (",", ";", ".") else 0
    return cursor.peek(ahead) in REPEAT_WORDS and cursor.peek(ahead + 1) == "from"


def _find_end(cursor: Cursor, at: int, mark: str, run: int) -> tuple[int, str]:
    """Where the stretch behind a star ends: at its twin ("pair"), at "rep from *" ("from"), or nowhere ("open")."""
    index = at
    tokens = cursor.tokens
    while index < cursor.stop:
        token = tokens[index]
        if token.text in OPENING and index < token.mate < cursor.stop:
            index = token.mate + 1
            continue
        if token.text == mark:
            if run == 1 and _marks_a_stop(cursor, index, mark):
                index += _run(cursor, index, mark)
                continue
            if not _multiplies(cursor, index):
                return index, "pair"
        elif token.text in REPEAT_WORDS and _is_from(cursor, index, mark):
            return index, "from"
        index += 1
    return cursor.stop, "open"


def _marks_a_stop(cursor: Cursor, index: int, mark: str) -> bool:
    """Whether a doubled mark inside a stretch is where the last repeat ends: "rep from *" comes later."""
    if _run(cursor, index, mark) < 2 or cursor.tokens[index - 1].text == mark:
        return False
    return any(
        cursor.tokens[at].text in REPEAT_WORDS and _is_from(cursor, at, mark) for at in range(index + 2, cursor.stop)
    )


def _multiplies(cursor: Cursor, index: int) -> bool:
    """"(2 sc, inc) * 6": a star between a bracket and a number, with the repeat's own end still to come."""
    tokens = cursor.tokens
    after = tokens[index + 1] if index + 1 < cursor.stop else None
    if after is None or after.kind != "number" or index == 0:
        return False
    following = tokens[index + 2].text if index + 2 < cursor.stop else ""
    return following not in ("times", "x", "more") and any(
        token.text == tokens[index].text for token in tokens[index + 2 : cursor.stop]
    )


def _is_from(cursor: Cursor, index: int, mark: str) -> bool:
    tokens, stop = cursor.tokens, cursor.stop
    for ahead in range(1, 4):
        if index + ahead < stop and tokens[index + ahead].text == mark:
            return True
    following = tokens[index + 1].text if index + 1 < stop else ""
    if following in ("from", "between") or mark not in MARKS:
        return True
    return following in ("around", "across", "to", "") or index + 1 >= stop


def closes_unopened(cursor: Cursor) -> Unreadable:
    """"rep from *" where no star stands before it."""
    token = cursor.tokens[cursor.at]
    return Unreadable(
        "unbalanced-mark", token.start, token.end,
        "This says to repeat from a star, but no star stands before it in the round.",
        "Put a * where the repeat begins.",
    )  # fmt: skip

"""Repeats in brackets, "(sc, inc) x 6", "(5 dc, ch 1) in next sp", and what one has of extent, place and colour."""

from __future__ import annotations

from collections.abc import Callable

from .. import late_re as re
from .cursor import Cursor, Unreadable
from .loops import loop_here
from .multipliers import REPEAT_WORDS, Extent, read_extent
from .syntax import Aside, Chain, ColorChange, Group, Join, Leave, Loops, Number, Repeat, StartAt, Step, Work
from .tokens import NESTING_LIMIT, OPENING
from .vocabulary import stitches

Reader = Callable[[Cursor], list[Step]]
REMARK_WORDS = frozenset(["counts", "count", "counted", "not", "note", "optional", "see", "photo", "picture", "as"])


def color_key(cursor: Cursor, ahead: int = 0) -> tuple[str, int] | None:
    """color = ["color"] (key | name) ; the declared key and the tokens it takes. A one-letter key is a capital."""
    token = cursor.token(ahead)
    if token is None:
        return None
    skip = 0
    if token.text in ("color", "colour", "col", "yarn", "shade"):
        skip = 1
        if cursor.peek(ahead + 1) == ".":
            skip = 2
        token = cursor.token(ahead + skip)
        if token is None:
            return None
    known = cursor.context.colors
    if not known:
        return None
    words = [one.text for one in cursor.tokens[cursor.at + ahead + skip : min(cursor.at + ahead + skip + 3, cursor.stop)]]
    if skip and words and (shade := known.get(f"shade {words[0]}")) is not None:
        return shade, skip + 1
    for length in range(len(words), 0, -1):
        key = known.get(" ".join(words[:length]))
        if key is not None:
            if length == 1 and len(token.text) == 1 and not skip and not cursor.statement.text[token.start].isupper():
                return None
            return key, skip + length
    return None


def read_bracket(cursor: Cursor, before: list[Step], read_steps: Reader) -> list[Step]:
    """bracket = "(" steps ")" [extent | place] | "(" color ")" | "(" loop ")" | "(" remark ")" """
    opening = cursor.tokens[cursor.at]
    first, mate = cursor.at, opening.mate
    if cursor.depth >= NESTING_LIMIT:
        raise Unreadable(
            "unreadable-line", opening.start, opening.end,
            f"Brackets are nested more than {NESTING_LIMIT} deep here.", "Write the round in fewer brackets.",
        )  # fmt: skip
    stop = mate if 0 <= mate < cursor.stop else cursor.stop
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, first + 1, stop)
    inside.depth = cursor.depth + 1
    cursor.at = stop + 1 if stop == mate else stop
    if inside.done:
        return []
    if mate == stop and (joined := _joined_space(cursor, inside, before)):
        return joined
    special = _tag(cursor, inside, opening.start)
    if special is not None:
        return special
    attached = _attached(cursor, first, before)
    body, remark = _body(cursor, inside, read_steps, first, stop)
    if remark is not None:
        return [remark]
    if body and all(isinstance(step, Leave) for step in body):
        return list(body)  # "turn (rest left unworked)"
    if attached and mate == stop and _says_increase(before[-1], body):
        return [Aside(opening.start, cursor.end, "remark")]
    if attached and mate == stop and _is_gloss(before[-1], body):
        return [Aside(opening.start, cursor.end, "remark")]
    extent = read_extent(cursor)
    if mate != stop and extent is None:
        return [Repeat(opening.start, cursor.end, tuple(body), None, "rest", mark=opening.text, closed=False)]
    if extent is None and mate == stop and len(body) == 1 and isinstance(body[0], Work) and body[0].stitch.kind == "skip":
        return list(body)  # "(skip first ch) sc 5"
    if extent is None:
        if attached and before and mate == stop:
            return [Aside(opening.start, cursor.end, "remark")]
        return [Repeat(opening.start, cursor.end, tuple(body), mark=opening.text, closed=mate == stop)]
    return [build(cursor, opening.start, body, extent, opening.text, mate == stop, read_steps)]


_COUNTS_AS_SPACE = re.compile(
    r"\s*counts? as (?:an? |the )?(?:last |final |first )?ch(?:ain)?[- ]?(\d{1,3})[- ]?(?:sp|space|loop|lp)s?\s*", re.IGNORECASE
)


def _joined_space(cursor: Cursor, inside: Cursor, before: list[Step]) -> list[Step] | None:
    """"ch 1, sc in first st (counts as ch-2 sp)": the chain and the stitch together are that space."""
    first, last = inside.tokens[inside.at], inside.tokens[inside.stop - 1]
    match = _COUNTS_AS_SPACE.fullmatch(cursor.statement.words, first.start, last.end)
    skip = [step for step in before[-2:-1] if isinstance(step, Work) and step.stitch.kind == "skip"]
    if match is None or len(before) < 2 + len(skip) or not isinstance(before[-2 - len(skip)], Chain):
        return None
    if not isinstance(before[-1], (Work, Join)):
        return None
    stitch = before.pop()
    del before[len(before) - len(skip) :]
    chain = before.pop()
    before.extend(skip)
    number = Number(chain.start, stitch.end, (int(match[1]),))
    return [Chain(chain.start, stitch.end, number), Join(stitch.start, cursor.end)]


def _attached(cursor: Cursor, first: int, before: list[Step]) -> bool:
    """Whether the bracket explains the step before it ("inc (2 sc in same st)"): no comma stands between."""
    return bool(before) and not isinstance(before[-1], (ColorChange, Loops, StartAt)) and cursor.tokens[first - 1].text not in (",", ";", ".", ":", "and", "then", "+") if first else False


def _says_increase(before: Step, body: list[Step]) -> bool:
    """"2 sc in same st (inc)": the stitches go into a stitch of their own."""
    if len(body) != 1 or not isinstance(body[0], Work) or body[0].stitch.kind != "increase" or body[0].count is not None:
        return False
    if isinstance(before, Work) and before.place is not None and before.place.kind in ("same", "next"):
        before.place.kind = "next"
        return True
    return False


def _is_gloss(before: Step, body: list[Step]) -> bool:
    """"inc (2 sc in same st)", "dec (sc2tog)": the bracket says the same again."""
    if len(body) != 1 or not isinstance(before, Work) or before.stitch.kind not in ("increase", "decrease"):
        return False
    inner = body[0]
    if isinstance(inner, Work):
        return inner.place is not None and inner.place.kind in ("next", "same") or inner.stitch.uses == before.stitch.uses > 1
    return isinstance(inner, Group)


def _tag(cursor: Cursor, inside: Cursor, start: int) -> list[Step] | None:
    """A bracket that holds exactly a colour or a loop: it holds from here on."""
    found = color_key(inside)
    if found is not None and cursor.peek() in ("x", "*") and inside.match_stitch() is not None:
        found = None  # a letter that is a stitch too, multiplied: not a tag
    if found is not None and inside.at + found[1] == inside.stop:
        if cursor.peek() == "x" and cursor.is_number(1):
            cursor.at += 1
            number = cursor.number()
            return [Work(start, cursor.end, stitches()["sc"], number, color=found[0])]
        return [ColorChange(start, cursor.end, found[0], found[0])]
    loop = loop_here(inside)
    if loop:
        inside.accept("only")
        if inside.done:
            return [Loops(start, cursor.end, loop)]
    inside.at = inside.at if not loop else cursor.at
    return None


def _body(cursor: Cursor, inside: Cursor, read_steps: Reader, first: int, stop: int) -> tuple[list[Step], Aside | None]:
    tokens = cursor.tokens[first + 1 : stop]
    digits = any(token.kind == "number" for token in tokens)
    start = cursor.tokens[first].start
    of_multiple = any(token.text in ("multiple", "multiples", "divisible") for token in tokens)
    if of_multiple or tokens[0].text in ("see", "approx", "about", "optional") or not digits and tokens[0].text in REMARK_WORDS:
        return [], Aside(start, cursor.end, "remark")
    inside.at = first + 1
    try:
        body = read_steps(inside)
    except Unreadable as problem:
        if digits or problem.rule == "number-out-of-range" or _multiplied(cursor) or any(t.text in OPENING for t in tokens):
            raise
        return [], Aside(start, cursor.end, "remark")
    if not body or all(isinstance(step, Aside) for step in body):
        return [], Aside(start, cursor.end, "remark")
    return body, None


def _multiplied(cursor: Cursor) -> bool:
    return cursor.peek() in ("x", "*", "around", "across", "times") or cursor.is_number() or cursor.peek() in REPEAT_WORDS


def build(
    cursor: Cursor, start: int, body: list[Step], extent: Extent, mark: str, closed: bool, read_steps: Reader
) -> Step:
    """The repeat or group that a body and what follows it make."""
    ending: tuple[Step, ...] = ()
    if extent.ending:
        ending = tuple(read_steps(cursor))
    if extent.times is not None:
        return Repeat(start, cursor.end, tuple(body), extent.times, counting=extent.counting, mark=mark, closed=closed)
    place = extent.place
    if ending:
        return Repeat(start, cursor.end, tuple(body), None, "ending", ending=ending, mark=mark, closed=closed)
    if place is None or (place.kind == "rest" and not place.each):
        return Repeat(start, cursor.end, tuple(body), None, "rest", left=None, mark=mark, closed=closed)
    if place.kind == "to_space" and not place.each:
        return Repeat(start, cursor.end, tuple(body), None, "to_space", mark=mark, closed=closed, upto=place.upto)
    if place.kind == "to_last":
        return Repeat(start, cursor.end, tuple(body), None, "to_last", left=place.number, left_spaces=place.within == "spaces", mark=mark, closed=closed)
    return Group(start, cursor.end, tuple(body), place)

"""Stated counts at the end of a round: "(24)", "= 24 sts", "- 24 sc", "[16 dc, 16 ch]", "(18)(27)", "(+6)"."""

from __future__ import annotations

from .count_nouns import STITCH_WORDS
from .counts import Tail, read_count
from .cursor import Cursor
from .open_counts import bare_count, open_count
from .remarks import remark_at_end
from .syntax import Number, Stated
from .tokens import CLOSING, Token
from .words import ROUND_WORDS


def find_tail(cursor: Cursor, bare: bool = True) -> Tail:
    """Takes counts and a length off the end of the tokens between the cursor and its stop; moves nothing.

    With *bare* a number alone behind a whole instruction is the count too.

    tail = {bracketed count | "=" count | "-" count | "." count | "for N rounds" | "x N rows"} ["."] ["(" remark ")"]
    """
    tail = _tail(cursor, bare)
    if not tail.counts and (opening := remark_at_end(cursor.tokens, cursor.at, cursor.stop, cursor.context)) is not None:
        shorter = _tail(Cursor(cursor.statement, cursor.tokens, cursor.context, cursor.at, opening), bare)
        return shorter if shorter.counts else tail
    return tail


def _tail(cursor: Cursor, bare: bool) -> Tail:
    tail = Tail(stop=cursor.stop)
    while tail.stop > cursor.at:
        stop = _strip(cursor.tokens, cursor.at, tail.stop)
        tail.stop = stop
        if _bracketed(cursor, tail) or _length_words(cursor, tail) or _noun_after_bracket(cursor, tail):
            continue
        if tail.counts or not (open_count(cursor, tail) or bare and bare_count(cursor, tail)):
            break
        _change_before(cursor, tail)
        tail.stop = _strip(cursor.tokens, cursor.at, tail.stop)
        last = [token.text for token in cursor.tokens[max(cursor.at, tail.stop - 2) : tail.stop]]
        if len(last) == 2 and last[0] in ROUND_WORDS and last[1] in CLOSING:
            _bracketed(cursor, tail)  # "42 sc (6 rnds). Total: 42 sts"
        else:
            _length_words(cursor, tail)
        break
    _join_change(tail)
    return tail


def _change_before(cursor: Cursor, tail: Tail) -> None:
    """"2 sts dec - 28 sts": a change may stand before an open count."""
    at, found = tail.stop, tail.counts[:]
    tail.stop = _strip(cursor.tokens, cursor.at, tail.stop)
    if not (open_count(cursor, tail) and tail.counts[0].form == "change"):
        tail.stop, tail.counts[:] = at, found


def _join_change(tail: Tail) -> None:
    """"2 sts dec - 18 sts": a change and the total are one count."""
    if len(tail.counts) == 2:
        change, total = sorted(tail.counts, key=lambda count: count.form != "change")
        if change.form == "change" and change.number is None and total.form == "total" and total.change is None:
            total.change, total.change_number = change.change, change.change_number
            total.start, total.end = min(change.start, total.start), max(change.end, total.end)
            tail.counts[:] = [total]


def _strip(tokens: list[Token], at: int, stop: int) -> int:
    while stop > at and tokens[stop - 1].text in (".", ",", ";", ":"):
        stop -= 1
    return stop


def _bracketed(cursor: Cursor, tail: Tail) -> bool:
    tokens = cursor.tokens
    closing = tokens[tail.stop - 1]
    if closing.text in "/|" and closing.kind == "mark":
        return _between_bars(cursor, tail)
    if closing.text not in CLOSING or closing.mate < cursor.at:
        return False
    opening = closing.mate
    inside = Cursor(cursor.statement, tokens, cursor.context, opening + 1, tail.stop - 1)
    start = tokens[opening].start
    before = [tokens[index] for index in (opening - 2, opening - 1) if index >= cursor.at]
    found = read_count(inside, start, closing.end)
    if found is None:
        return False
    if isinstance(found, Number):
        tail.length = found
        tail.stop = opening
        return True
    if _is_multiplier(before) or _is_worked(before, found) or before and before[-1].kind == "number" and tokens[opening].glued:
        return False
    plain = found.form == "total" and not any(part.kind for part in found.parts)
    glued = tokens[opening].glued and bool(before) and before[-1].kind == "word"
    if tail.counts and found.form != "change" and (not plain or glued):
        return False
    tail.stop = opening
    if tail.stop > cursor.at and tokens[tail.stop - 1].text == "=":
        tail.stop -= 1
        found.start = tokens[tail.stop].start
    tail.counts.insert(0, found)
    return True


def _is_worked(before: list[Token], found: Stated) -> bool:
    """"in each loop work (1 sc, 1 hdc, 1 dc)", "in each loop: (1 sc, 1 dc)": what is worked there."""
    return bool(before) and (before[-1].text in ("work", "make", "crochet") or before[-1].text == ":" and len(found.parts) > 1)


def _is_multiplier(before: list[Token]) -> bool:
    """A bracket right behind a multiplication sign is a multiplier, not a count: "inc x (6)", but not "inc 6x (12)"."""
    return bool(before) and before[-1].text == "x" and not (len(before) > 1 and before[0].kind == "number")


def _between_bars(cursor: Cursor, tail: Tail) -> bool:
    tokens, bar = cursor.tokens, cursor.tokens[tail.stop - 1].text
    for opening in range(tail.stop - 2, max(cursor.at, tail.stop - 8) - 1, -1):
        if tokens[opening].text == bar:
            inside = Cursor(cursor.statement, tokens, cursor.context, opening + 1, tail.stop - 1)
            found = read_count(inside, tokens[opening].start, tokens[tail.stop - 1].end)
            if isinstance(found, Stated):
                tail.counts.insert(0, found)
                tail.stop = opening
                return True
            return False
    return False


def _noun_after_bracket(cursor: Cursor, tail: Tail) -> bool:
    """"(24) sts": the noun behind the bracket is dropped."""
    tokens = cursor.tokens
    if tail.stop - cursor.at > 2 and tokens[tail.stop - 1].text in STITCH_WORDS and tokens[tail.stop - 2].text in CLOSING:
        tail.stop -= 1
        if _bracketed(cursor, tail):
            return True
        tail.stop += 1
    return False


def _length_words(cursor: Cursor, tail: Tail) -> bool:
    """"for 4 rounds", "x 3 rounds", "(18) x 3 rows", "4 rounds in total": how many rounds the line covers."""
    tokens, stop = cursor.tokens, tail.stop
    if tail.length is not None or stop - cursor.at < 2 or tokens[stop - 1].text not in ROUND_WORDS[:8]:
        return False
    at = stop - 2
    if at > cursor.at and tokens[at].text in ("more", "further"):
        at -= 1
    if at > cursor.at and tokens[at].text == "more":
        at -= 1
    inside = Cursor(cursor.statement, tokens, cursor.context, at, stop)
    number = inside.number()
    if number is None:
        return False
    lead = tokens[at - 1].text if at > cursor.at else ""
    dashed = lead == "-" and not tokens[at - 1].glued and at - 2 >= cursor.at and tokens[at - 2].kind != "number"
    if lead in ("for", "x", "*") or dashed or (lead in (",", ";", ".") and at > cursor.at):
        tail.length = number
        tail.stop = at - 1
        if tail.stop > cursor.at and tokens[tail.stop - 1].text in ("work", "even"):
            tail.stop = tail.stop if tokens[tail.stop - 1].text == "even" else tail.stop - 1
        return True
    return False

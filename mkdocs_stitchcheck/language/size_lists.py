"""Numbers for each size, "24 (30, 36)": cut into one token before anything else is read.

The separators are those of print: commas, hyphens, colons, slashes, one kind of bracket or several, no spaces; a dash
or 0 for a size that is not worked. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .. import late_re as re
from .cursor import Unreadable
from .round_labels import FoundLabel
from .tokens import NUMBER_LIMIT, OPENING, Token, tokenize
from .words import NOUNS

_SEPARATORS = frozenset(",-:/;")
_BRACKETS = frozenset("([{")
# A number behind one of these is one of a list, whatever follows.
_LEADS = frozenset(("next", "last", "first", "to", "x", "sc", "hdc", "dc", "tr", "ch", "inc", "dec", "sk", "skip", "of", "each"))
_ENDS = frozenset(".,;")
_WAY_OUT = "Write one number for each size, as in 24 (30, 36); a dash stands for a size that is not worked."


@dataclass(slots=True)
class _Group:
    """A bracket, or what stands before it, that holds nothing but numbers: the numbers, and the index behind it."""

    values: list[int | None]
    stop: int


def fold_sizes(tokens: list[Token], sizes: int, problems: list[Unreadable]) -> list[Token]:
    """*tokens* with each list of *sizes* numbers as one number token whose ``values`` it holds.

    A list of another length goes to *problems* (``sizes-disagree``) and is left out: a count elsewhere is still found.
    """
    folded: list[Token] = []
    at = 0
    while at < len(tokens):
        try:
            found = _list_at(tokens, at, sizes)
        except Unreadable as problem:
            problems.append(problem)
            while at < len(tokens) and tokens[at].start < problem.end:
                at += 1
            continue
        if found is None:
            folded.append(tokens[at])
            at += 1
            continue
        first = tokens[at]
        shown = next((str(value) for value in found.values if value is not None), "0")
        text = str(found.values[0]) if found.values[0] is not None else shown
        folded.append(Token("number", text, first.start, tokens[found.stop - 1].end, first.glued, values=tuple(found.values)))
        at = found.stop
    return folded


_SLASHED_LABEL = re.compile(r"((?:/(?:\d{1,6}|-)){1,11})\s*(?:[:.;=>|]|-\s)")
_IN_LABEL = re.compile(r"\s*((?:[(\[{][\d\s,:/;-]{1,60}[)\]}]\s*)+)(?:[:.;=>|]|-\s)")


def sized_label(text: str, found: FoundLabel, sizes: int, before: tuple[int | None, ...] = ()) -> FoundLabel:
    """"Rnds 2-5 (7, 9):": the last round of each size stands in the label; else *found* as it is.

    *before* are the numbers of the round before, one a size: with two sizes "Rnd 41 (61)" is a number for each size
    where both go on with them, else "Rnd 1 (6)" is a count. Raises Unreadable for a list of another length.
    """
    label = found.label
    if label.length is not None and label.end > label.length.end and not label.written:
        return _sized_length(text, found, sizes)
    if not label.written or sizes < 3 and len(label.written) < 2 and not _goes_on_from(text, found, before):
        return found  # "Rnd 1 (6):" is a count
    last = label.written[-1]
    values: list[int | None] = [last.value]
    slashed = _SLASHED_LABEL.match(text, last.end)
    if slashed is not None:
        values += [None if entry == "-" else int(entry) for entry in slashed[1][1:].split("/")]
        if len(values) == sizes:
            last.values = tuple(values)
            label.end = slashed.end(1)
            return FoundLabel(label, slashed.end(), found.heads, None, found.bare)
        return found
    match = _IN_LABEL.match(text, last.end)
    if match is None:
        return found
    tokens, at = tokenize(match[1]), 0
    while (group := _bracket(tokens, at)) is not None:
        values, at = values + group.values, group.stop
    if at < len(tokens) or len(values) != sizes:
        return found
    last.values = tuple(values)
    label.end = match.end(1)
    return FoundLabel(label, match.end(), found.heads, None, found.bare)


def _goes_on_from(text: str, found: FoundLabel, before: tuple[int | None, ...]) -> bool:
    """Whether "41 (61)" is the next number in both of two sizes."""
    number = found.label.written[-1]
    match = _IN_LABEL.match(text, number.end)
    inner = match[1].strip().strip("()[]{} ") if match is not None else ""
    if len(before) != 2 or None in before or before[0] == before[1] or not inner.isdigit() or len(inner) > 6:
        return False
    return (number.value, int(inner)) == tuple(value + 1 for value in before if value is not None)


def _sized_length(text: str, found: FoundLabel, sizes: int) -> FoundLabel:
    """"Next 8 (10, 12) rnds:": how many rounds in each size."""
    length = found.label.length
    assert length is not None
    written = text[length.start : length.end]
    if not any(sign in written for sign in "([{/"):
        return found
    tokens = tokenize(written)
    group = _slashed(tokens, 0, sizes) or (_led(tokens, 0, [_value(tokens[0])], sizes) if tokens[0].kind == "number" else None)
    values = group.values if group is not None and group.stop == len(tokens) else None
    if values is None and sizes == 2 and len(tokens) == 4 and tokens[2].kind == "number":
        values = [_value(tokens[0]), _value(tokens[2])]
    if values is None:
        how_many = sum(token.kind == "number" for token in tokens)
        declared = f"the pattern has {sizes} sizes" if sizes > 1 else "the pattern has no line Sizes:"
        raise Unreadable(
            "sizes-disagree", length.start, length.end, f"These are {how_many} numbers, but {declared}.", _WAY_OUT
        )
    length.values = tuple(values)
    return found


def _list_at(tokens: list[Token], at: int, sizes: int) -> _Group | None:
    token = tokens[at]
    if token.kind == "number":
        if at and tokens[at - 1].text in _BRACKETS and (found := _row(tokens, at, sizes)):
            return found
        return _slashed(tokens, at, sizes) or _led(tokens, at, [_value(token)], sizes)
    if token.text == "-":
        if at and tokens[at - 1].text in _BRACKETS and (found := _row(tokens, at, sizes)):
            return found
        following = _bracket(tokens, at + 1)
        opened = at > 0 and (tokens[at - 1].text in _BRACKETS or tokens[at - 1].text == "=")
        if following is not None and sizes > 2 and _all_brackets(tokens, at + 1) == sizes - 1:
            return _led(tokens, at, [None], sizes)
        if following is not None and (opened or None in following.values or _wanted(tokens, at, following.stop)):
            return _led(tokens, at, [None], sizes)
    return None


def _all_brackets(tokens: list[Token], at: int) -> int:
    """How many numbers and dashes stand in the brackets from here on."""
    found = 0
    while (group := _bracket(tokens, at)) is not None:
        found, at = found + len(group.values), group.stop
    return found


def _led(tokens: list[Token], at: int, values: list[int | None], sizes: int) -> _Group | None:
    """A number and the brackets behind it: as many numbers as sizes."""
    stop = at + 1
    first = _bracket(tokens, stop)
    if first is None:
        return None
    if len(first.values) == 1 and (sizes == 2 or _bracket(tokens, first.stop) is None) and not _goes_on(tokens, at, first, sizes):
        return None  # "inc x 6 (12)": the count
    while len(values) < sizes and (group := _bracket(tokens, stop)) is not None:
        if len(group.values) == sizes and len(values) == 1 and not _unit(tokens, group.stop) and not _of_chain(tokens, at):
            return None  # "inc x 6 (12, 14, 16)": the count of each size
        values = values + group.values
        stop = group.stop
    if len(values) == sizes:
        return _Group(values, stop)
    if len(first.values) == 1 and sizes > 2 and not _unit(tokens, first.stop):
        return None
    raise _disagree(tokens, at, stop, len(values), sizes)


def _goes_on(tokens: list[Token], at: int, first: _Group, sizes: int) -> bool:
    """Whether a bracket with one number is a list of two: a unit, another bracket or more of the round follows it."""
    if _unit(tokens, first.stop):
        return True
    if sizes != 2:
        return False
    if first.stop < len(tokens) and tokens[first.stop].text in OPENING:
        return True
    if any(token.text not in _ENDS for token in tokens[first.stop :]):
        return not (first.stop < len(tokens) and tokens[first.stop].text in _ENDS) or _works(tokens, first.stop)
    return _of_chain(tokens, at) and _value(tokens[at]) != first.values[0]  # "Ch 24 (30)."


def _of_chain(tokens: list[Token], at: int) -> bool:
    return at > 0 and tokens[at - 1].text in ("ch", "chain", "chains")


def _works(tokens: list[Token], at: int) -> bool:
    """Whether more of the instruction follows, and not just "fasten off"."""
    return any(token.text in _LEADS or token.kind == "number" for token in tokens[at:])


def _wanted(tokens: list[Token], at: int, stop: int) -> bool:
    before = tokens[at - 1].text if at else ""
    return before in _LEADS or _unit(tokens, stop)


def _unit(tokens: list[Token], at: int) -> bool:
    """A noun, a stitch or "times" behind a list."""
    if at >= len(tokens):
        return False
    word = tokens[at].text
    return word in NOUNS or word in ("times", "more", "rnds", "rows", "rounds", "row", "rnd", "round") or (
        tokens[at].kind == "word" and word in _LEADS - {"to", "x", "of", "each", "next", "last", "first"}
    )


def _bracket(tokens: list[Token], at: int) -> _Group | None:
    """"(30, 36)": a bracket of numbers and dashes alone."""
    if at >= len(tokens) or tokens[at].text not in _BRACKETS:
        return None
    closing = OPENING[tokens[at].text]
    values, stop, _seps = _entries(tokens, at + 1)
    if not values or stop >= len(tokens) or tokens[stop].text != closing:
        return None
    return _Group(values, stop + 1)


def _entries(tokens: list[Token], at: int) -> tuple[list[int | None], int, list[str]]:
    """Numbers and dashes with one separator between them, as far as they go."""
    values: list[int | None] = []
    seps: list[str] = []
    stop = at
    while at < len(tokens):
        token = tokens[at]
        if token.kind == "number":
            values.append(_value(token))
        elif token.text == "-":
            values.append(None)
        else:
            break
        at = stop = at + 1
        if at < len(tokens) and tokens[at].text in _SEPARATORS and at + 1 < len(tokens):
            following = tokens[at + 1]
            if following.kind == "number" or following.text == "-":
                seps.append(tokens[at].text)
                at += 1
                continue
        if at < len(tokens) and tokens[at].kind == "number" and not tokens[at].glued:
            seps.append(" ")
            continue
        break
    return values, stop, seps


def _row(tokens: list[Token], at: int, sizes: int) -> _Group | None:
    """"(24, 30, 36)", "(24, 30, 36 sts)": a count for each size, from the first on."""
    values, stop, seps = _entries(tokens, at)
    if len(values) < 2 or stop >= len(tokens):
        return None
    closed = tokens[stop].text == OPENING[tokens[at - 1].text]
    named = tokens[stop].kind == "word" and _unit(tokens, stop)
    if len(values) == sizes and (closed or named):
        return _Group(values, stop)
    if closed and len(set(seps)) == 1 and not (at > 1 and tokens[at - 2].kind == "number"):
        raise _disagree(tokens, at - 1, stop + 1, len(values), sizes)
    return None


def _slashed(tokens: list[Token], at: int, sizes: int) -> _Group | None:
    """"24/30/36"."""
    values: list[int | None] = [_value(tokens[at])]
    stop = at + 1
    while stop + 1 < len(tokens) and tokens[stop].text == "/" and tokens[stop].glued and tokens[stop + 1].kind == "number":
        if not tokens[stop + 1].glued:
            break
        values.append(_value(tokens[stop + 1]))
        stop += 2
    if len(values) == 1 or at and tokens[at - 1].text == "/":
        return None
    if len(values) == sizes:
        return _Group(values, stop)
    raise _disagree(tokens, at, stop, len(values), sizes)


def _value(token: Token) -> int:
    return int(token.text) if len(token.text) < 10 else NUMBER_LIMIT + 1


def _disagree(tokens: Sequence[Token], at: int, stop: int, found: int, sizes: int) -> Unreadable:
    return Unreadable(
        "sizes-disagree", tokens[at].start, tokens[stop - 1].end,
        f"These are {found} numbers, but the pattern has {sizes} sizes.", _WAY_OUT,
    )  # fmt: skip

"""Cuts a statement into words, numbers and marks, each with its place."""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re
from ..source import Statement

_TOKEN = re.compile(r"(\d+)|([^\W\d_]+(?:'[^\W\d_]+)?)|(\S)")
_KINDS = ("", "number", "word", "mark")  # by the number of the group

OPENING = {"(": ")", "[": "]", "{": "}", "<": ">"}
CLOSING = {closing: opening for opening, closing in OPENING.items()}
NESTING_LIMIT = 64
NUMBER_LIMIT = 10**6


@dataclass(slots=True)
class Token:
    """A word (lower case), number or mark. ``glued`` is true where nothing stands between it and the one before.

    ``mate`` is the index of the matching bracket, -1 where there is none. ``values`` are the numbers of a list that
    has one for each size.
    """

    kind: str  # "number", "word", "mark"
    text: str
    start: int
    end: int
    glued: bool = False
    mate: int = -1
    values: tuple[int | None, ...] | None = None


def tokenize(text: str, start: int = 0, end: int | None = None) -> list[Token]:
    """The tokens of ``text[start:end]``; their places are offsets in *text*."""
    tokens: list[Token] = []
    last = -1
    for match in _TOKEN.finditer(text, start, len(text) if end is None else end):
        at, stop = match.span()
        kind, piece = _KINDS[match.lastindex or 0], match[0]
        if kind == "word":
            piece = piece.lower()
            if "'" in piece and piece.endswith("'s") and len(piece) < 7 and piece[:-2] not in ("it", "that", "let"):
                piece = piece[:-2] + "s"  # "19 sc's"
        tokens.append(Token(kind, piece, at, stop, at == last))
        last = stop
    return tokens


def statement_tokens(statement: Statement, start: int, end: int) -> list[Token]:
    """The tokens of ``statement.text[start:end]``; where it has a reading, its English words with the writer's places."""
    reading = statement.reading
    if reading is None:
        return tokenize(statement.text, start, end)
    tokens = []
    for token in tokenize(reading.text):
        token.start, token.end = reading.place(token.start, token.end)
        if start <= token.start and token.end <= end:
            tokens.append(token)
    return tokens


@dataclass(slots=True)
class Unmatched:
    """A bracket problem: an opening without end, an end without opening, or a pair of two kinds."""

    opening: Token | None
    closing: Token | None


def match_brackets(tokens: list[Token]) -> tuple[list[Unmatched], int]:
    """Sets ``mate`` of every bracket and returns what does not match, and the deepest nesting.

    A closing bracket of another kind closes the innermost opening one if its own kind is not open. ``<`` and ``>``
    are brackets only as a pair.
    """
    problems: list[Unmatched] = []
    stack: list[int] = []
    deepest = 0
    for index, token in enumerate(tokens):
        if token.kind != "mark":
            continue
        if token.text in OPENING:
            stack.append(index)
            deepest = max(deepest, len(stack))
        elif token.text in CLOSING:
            _close(tokens, stack, index, problems)
    for index in stack:
        if tokens[index].text != "<":
            problems.append(Unmatched(tokens[index], None))
    return problems, deepest


def _close(tokens: list[Token], stack: list[int], index: int, problems: list[Unmatched]) -> None:
    closing = tokens[index]
    while stack and tokens[stack[-1]].text == "<" and closing.text != ">":
        stack.pop()
    if not stack or (closing.text == ">" and tokens[stack[-1]].text != "<"):
        if closing.text != ">":
            problems.append(Unmatched(None, closing))
        return
    if tokens[stack[-1]].text != CLOSING[closing.text]:
        inner = stack[-1]
        if len(stack) > 1 and tokens[stack[-2]].text == CLOSING[closing.text]:
            problems.append(Unmatched(tokens[stack.pop()], None))
        else:
            problems.append(Unmatched(tokens[inner], closing))
    opening = stack.pop()
    tokens[opening].mate, closing.mate = index, opening

"""A colour or a piece by another name, wherever the pattern says it, and only where the making stays the same."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lsprotocol import types

from ..findings import Edit, Severity
from ..mending import apply
from ..results import FileResult, PatternResult
from ..source import Span
from .page import Page

_KEY = re.compile(r"[A-Z]{1,3}\d?|[A-Za-z]{3,20}")
_NAME = re.compile(r"\w[\w '’&-]{0,60}")
_LED = r"(?:colou?rs?|col\.?|yarns?|with|in|to|use|using|and|or|of|[(\[{/,&+]|\d) ?"


class CannotRename(Exception):
    """Why a name can't be changed so, in a plain sentence."""


@dataclass(frozen=True)
class Name:
    """A name under the pointer, where it stands, and how it is found elsewhere in the pattern."""

    kind: str  # key (a colour's letter), color, piece
    words: str
    span: Span
    pattern: PatternResult


def name_at(page: Page, position: types.Position) -> Name | None:
    """The colour or piece that is named at *position*; None where there is none."""
    number, column = position.line + 1, page.column_of(position)
    pattern = page.pattern_at(number)
    if pattern is None or page.block_at(number) is None:
        return None
    for kind, words in _names(pattern):
        for span in _places(page, pattern, kind, words):
            if span.line == number and span.column <= column <= span.end_column:
                return Name(kind, words, span, pattern)
    return None


def rename(page: Page, position: types.Position, new: str) -> list[types.TextEdit]:
    """The edits that call the name at *position* *new*. Raises :class:`CannotRename` with a plain sentence."""
    found, new = name_at(page, position), new.strip()
    if found is None:
        raise CannotRename("There is no colour and no piece of the pattern here.")
    _must_fit(found, new)
    edits = [
        Edit(span, _like(page.words(span), found.words, new))
        for span in _places(page, found.pattern, found.kind, found.words)
    ]
    _must_stay(page, apply(page.text, edits), new)
    return [page.text_edit(edit) for edit in edits]


def _names(pattern: PatternResult) -> Iterator[tuple[str, str]]:
    for key, color in pattern.syntax.header.colors.items():
        yield "key", key
        if color.name and len(color.name) > 2:
            yield "color", color.name
    for piece in sorted(pattern.pieces, key=lambda piece: -len(piece.name)):
        if piece.syntax.heading is not None and piece.name and not piece.syntax.making_up:
            yield "piece", piece.name


def _places(page: Page, pattern: PatternResult, kind: str, words: str) -> Iterator[Span]:
    """Where the pattern's blocks say the name."""
    search = _search(kind, words)
    for block in page.blocks:
        for line in block.lines:
            if pattern.line <= line.number <= max(pattern.end_line, pattern.line):
                for match in search.finditer(line.text):
                    group = next(n for n in range(1, search.groups + 1) if match.group(n) is not None)
                    start, end = match.span(group)
                    yield Span(line.number, line.column + start, line.number, line.column + end)


def _search(kind: str, words: str) -> re.Pattern[str]:
    name = re.escape(words)
    if kind != "key":  # in the singular or the plural
        return re.compile(rf"(?<!\w)({name})(?!\w)|(?<!\w)({name})(?=s(?!\w))", re.IGNORECASE)
    if len(words) > 1:
        return re.compile(rf"(?<!\w)({name})(?!\w)")
    return re.compile(rf"(?<!\w){_LED}({name})(?![\w'’])|(?<![\w'’])({name}) ?(?=[:)\]}}=(])")


def _like(written: str, old: str, new: str) -> str:
    """*new* with a small first letter where the mention has one and the name itself has not."""
    return new[:1].lower() + new[1:] if written[:1].islower() and old[:1].isupper() else new


def _must_fit(found: Name, new: str) -> None:
    shape = _KEY if found.kind == "key" else _NAME
    if not shape.fullmatch(new):
        example = "a capital letter, as in B" if found.kind == "key" else "letters, as in Left ear"
        raise CannotRename(f"“{new[:40]}” can't be a name here: write {example}.")
    taken = {words.lower() for kind, words in _names(found.pattern) if words != found.words}
    if new.lower() in taken:
        raise CannotRename(f"There is another {new} in this pattern.")


def _must_stay(page: Page, text: str, new: str) -> None:
    """Every round works into and makes the same as before, and no error is new."""
    after = page.check(text)
    if _making(after) != _making(page.result) or _errors(after) > _errors(page.result):
        raise CannotRename(f"With {new} some line would be read in another way, so nothing was changed.")


def _making(result: FileResult) -> list[object]:
    """What is made, without any name."""
    pieces = [piece for pattern in result.patterns for piece in pattern.pieces]
    rounds: list[object] = [
        (line.label, line.uses, line.makes, line.stated, line.worked, line.status, sum(line.stitches.values()))
        for piece in pieces
        for line in piece.rounds
    ]
    return [*rounds, *((piece.make, piece.line, piece.syntax.making_up, len(piece.syntax.lines)) for piece in pieces)]


def _errors(result: FileResult) -> int:
    heavy = (Severity.ERROR, Severity.WARNING)
    return sum(finding.severity in heavy and finding.excused is None for finding in result.findings)

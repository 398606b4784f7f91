"""Instructions read before are copied: a page says the same whatever was read before it."""

from __future__ import annotations

import random
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

from mkdocs_stitchcheck import FileResult, check_text
from mkdocs_stitchcheck.language import instructions, remembered
from mkdocs_stitchcheck.language.cursor import Context
from mkdocs_stitchcheck.language.instructions import read_instruction
from mkdocs_stitchcheck.language.syntax import Node
from mkdocs_stitchcheck.source import BlockLine, Statement

ROOT = Path(__file__).parent
PAGES = sorted([*ROOT.glob("cases/**/*.md"), *ROOT.parent.glob("site_example/docs/**/*.md")])


def forget() -> None:
    instructions._MEMORY.forget()


def dump(of: object, seen: dict[int, int] | None = None) -> object:
    """A tree as plain data; a node that hangs in two places is the same one in both."""
    seen = {} if seen is None else seen
    if isinstance(of, list | tuple):
        return [dump(one, seen) for one in of]
    if isinstance(of, Statement):
        return of.line, of.text
    if not is_dataclass(of):
        return repr(of)
    if isinstance(of, Node):
        if id(of) in seen:
            return f"number {seen[id(of)]}"
        seen[id(of)] = len(seen)
    return type(of).__name__, [(field.name, dump(getattr(of, field.name), seen)) for field in fields(of)]


def said(result: FileResult) -> list[object]:
    """Everything that was found and counted, and how every line was read."""
    lines = [line for pattern in result.patterns for piece in pattern.syntax.pieces for line in piece.lines]
    counts = [(line.label, line.uses, line.makes, line.stated, line.status) for pattern in result.patterns for line in pattern.rounds]
    return [result.findings, counts, [(line.kind, line.line, dump(line)) for line in lines]]


def test_a_page_says_the_same_after_all_others() -> None:
    alone = {}
    for page in PAGES:
        forget()
        alone[page] = said(check_text(page.read_text(encoding="utf-8"), str(page)))
    assert len(alone) > 50
    random.Random(7).shuffle(PAGES)
    for page in PAGES:
        assert said(check_text(page.read_text(encoding="utf-8"), str(page))) == alone[page], page


def test_a_page_says_the_same_twice() -> None:
    """What counting changes in a tree is never kept."""
    forget()
    page = "```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: (sc, inc) x 3 (10)\nRnd 3: (sc, inc) x 3 (10)\n```\n"
    first = said(check_text(page))
    assert said(check_text(page)) == first


def read(text: str, context: Context, label: str = "Rnd 1: ") -> object:
    statement = Statement([BlockLine(1, 1, label + text)])
    return dump(read_instruction(statement, context, len(label)))


def test_names_that_a_pattern_declares() -> None:
    """A word is a colour, a piece or a stitch only where it is declared: either way round."""
    plain = Context(colors={}, pieces=set())
    for text, own in (
        ("5 sc b, 1 sc", Context(colors={"b": "B"})),
        ("5 sc B, 1 sc", Context(colors={"b": "B"})),
        ("change to ash, sc around", Context(colors={"ash": "A"})),
        ("sc 4 through ears", Context(pieces={"ears"})),
        ("sc around the bell jar, join", Context(pieces={"bell jar"})),
    ):
        fresh = []
        for context in (plain, own):
            forget()
            fresh.append(read(text, context))
        forget()
        assert [read(text, plain), read(text, own), read(text, plain)] == [*fresh, fresh[0]], text
        forget()
        assert [read(text, own), read(text, plain)] == fresh[::-1], text


def test_copies_stand_where_they_are_read() -> None:
    """Behind another label the places are others, and nothing else is."""
    text = "(sc in next 2 sts, inc) x 6, ch 1, turn (24)"
    context = Context()
    for label in ("Rnd 1: ", "Rnd 10: ", "R1:", "Rnds 100 to 104: "):
        forget()
        alone = read(text, context, label)
        forget()
        read(text, context)
        assert read(text, context, label) == alone


def test_threads_share_a_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    """A web server converts in several threads: one that is full lets go of one reading at a time, and no thread fails."""
    monkeypatch.setattr(remembered, "_LIMIT", 2)
    memory: remembered.Memory[int] = remembered.Memory()
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)

    def keep(thread: int) -> None:
        for number in range(3000):
            memory.keep((f"{thread} sc {number}", 1, False, "US", 1, False), Context(), number)

    try:
        with ThreadPoolExecutor(8) as threads:
            list(threads.map(keep, range(8)))
    finally:
        sys.setswitchinterval(before)
    assert len(memory._shared) == 2

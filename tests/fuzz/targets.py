"""What is fuzzed: each target takes a text and must neither raise nor say anything that can't be."""

from __future__ import annotations

from collections.abc import Callable

from mkdocs_stitchcheck.fences import find_blocks, prose_lines
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.language.normalise import normalise
from mkdocs_stitchcheck.language.tokens import NESTING_LIMIT, match_brackets, tokenize
from mkdocs_stitchcheck.source import Source

from ..everything import WAYS, checked


def tokens(text: str) -> None:
    """Tokens lie in order within the text, nothing but white space lies between them, and mates are mates."""
    plain = normalise(text)
    assert len(plain) == len(text)
    found = tokenize(plain)
    last = 0
    for token in found:
        assert last <= token.start < token.end <= len(plain)
        assert not plain[last : token.start].strip(), plain[last : token.start]
        assert token.glued == (token.start == last and last > 0)
        last = token.end
    assert not plain[last:].strip()
    _, deepest = match_brackets(found)
    assert deepest >= 0 and NESTING_LIMIT > 0
    for index, token in enumerate(found):
        assert token.mate == -1 or found[token.mate].mate == index


def header(text: str) -> None:
    """The text as header lines above a round."""
    checked(f"```crochet\n{text.replace('`', '')}\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n")


def fences(text: str) -> None:
    """Blocks and prose come in order and are parts of the page's lines."""
    source = Source(text, "page.md")
    last = 0
    for block in find_blocks(source, Findings()):
        assert last < block.opening.line <= block.end_line <= len(source.lines)
        last = block.opening.line
        for line in block.lines:
            assert source.line(line.number).endswith(line.text) or line.text in source.line(line.number)
    for line in prose_lines(source):
        assert line.text in source.line(line.number)


def rounds(text: str) -> None:
    """The text as the rounds of a piece."""
    checked(f"```crochet\n# Ball\nRnd 1: 6 sc in magic ring (6)\n{text.replace('`', '')}\n```\n")


def check(text: str) -> None:
    """The text as a page, and as a pattern in a file of its own."""
    checked(text)
    checked(text, "pattern.txt")


def everything(text: str) -> None:
    """Every command, report, page and drawing."""
    for way in WAYS.values():
        way(text, "page.md")


TARGETS: dict[str, Callable[[str], None]] = {
    "tokens": tokens, "header": header, "fences": fences, "rounds": rounds, "check": check, "everything": everything,
}  # fmt: skip

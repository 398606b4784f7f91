"""Positions: a marked word is found at its exact line and column of the file, in every nesting that a page may have."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mkdocs_stitchcheck.fences import find_blocks, prose_lines, whole_text
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.source import BlockLine, Source, Span

# Each page holds the marked word once, or as often as patterns stand on it. The places are counted by hand.
PLACES = {
    "plain": ("```crochet\nRnd 1: 6 MARK (6)\n```\n", [(2, 10)]),
    "front matter": ("---\ntitle: Vole\n---\n\n# Vole\n\n```crochet\nRnd 1: 6 MARK (6)\n```\n", [(8, 10)]),
    "front matter closed by dots": ("---\ntitle: Vole\n...\n```crochet\nRnd 1: 6 MARK\n```\n", [(5, 10)]),
    "byte-order mark": ("\ufeff```crochet\nRnd 1: 6 MARK\n```\n", [(2, 10)]),
    "byte-order mark and front matter": ("\ufeff---\na: b\n---\n```crochet\nMARK\n```\n", [(5, 1)]),
    "CRLF": ("---\r\na: b\r\n---\r\n\r\n```crochet\r\nRnd 1: 6 MARK\r\n```\r\n", [(6, 10)]),
    "CR": ("Text\r\r```crochet\rRnd 1: 6 MARK\r```\r", [(4, 10)]),
    "a tab is one column": ("```crochet\nRnd 1:\tMARK\t(6)\n```\n", [(2, 8)]),
    "bulleted list": ("- item\n\n    ```crochet\n    Rnd 1: MARK\n    ```\n", [(4, 12)]),
    "numbered list, no blank line": ("1. item\n    ~~~crochet\n    MARK\n    ~~~\n", [(3, 5)]),
    "list indented by tabs": ("* item\n\n\t```crochet\n\tRnd 1: MARK\n\t```\n", [(4, 9)]),
    "list in a list": ("- a\n    - b\n\n        ```crochet\n        MARK\n        ```\n", [(5, 9)]),
    "list in a list, tabs": ("- a\n\t- b\n\n\t\t```crochet\n\t\tMARK\n\t\t```\n", [(5, 3)]),
    "tab and blanks mixed": ("- a\n    - b\n\n\t    ```crochet\n    \tMARK\n        ```\n", [(5, 6)]),
    "quote": ("> text\n>\n> ```crochet\n> Rnd 1: MARK\n> ```\n", [(4, 10)]),
    "quote in a quote": ("> > ```crochet\n> > MARK\n> > ```\n", [(2, 5)]),
    "quote in a list": ("- a\n\n    > ```crochet\n    > MARK\n    > ```\n", [(4, 7)]),
    "list in a quote": ("> - a\n>\n>     ```crochet\n>     MARK\n>     ```\n", [(4, 7)]),
    "note for readers in a quote": ("> ```crochet\n> > a MARK\n> ```\n", [(2, 7)]),
    "note for readers in a list": ("- a\n\n    ```crochet\n    > a MARK\n    ```\n", [(4, 9)]),
    "admonition": ('!!! note "Head"\n    ```crochet\n    MARK\n    ```\n', [(3, 5)]),
    "admonition after a blank line": ("!!! note\n\n    Text.\n\n    ```crochet\n    MARK\n    ```\n", [(6, 5)]),
    "foldable note": ('??? tip "Head"\n    ```crochet\n    MARK\n    ```\n', [(3, 5)]),
    "open foldable note": ("???+ tip\n    ```crochet\n    MARK\n    ```\n", [(3, 5)]),
    "two content tabs": (
        '=== "Small"\n\n    ```crochet\n    MARK\n    ```\n\n=== "Large"\n\n    ```crochet\n    x MARK\n    ```\n',
        [(4, 5), (10, 7)],
    ),
    "admonition in a list": ("- a\n\n    !!! note\n\n        ```crochet\n        MARK\n        ```\n", [(6, 9)]),
    "tab in an admonition in a list": (
        '1. a\n\n    !!! note\n\n        === "x"\n\n            ```crochet\n            MARK\n            ```\n',
        [(8, 13)],
    ),
    "quote in an admonition": ("!!! note\n    > ```crochet\n    > MARK\n    > ```\n", [(3, 7)]),
    "admonition in a quote": ("> !!! note\n>     ```crochet\n>     MARK\n>     ```\n", [(3, 7)]),
    "list in an admonition": ("!!! note\n    - a\n\n        ```crochet\n        MARK\n        ```\n", [(5, 9)]),
    "behind a comment": ("<!-- ```crochet -->\n\n```crochet\nMARK\n```\n", [(4, 1)]),
    "behind a comment of many lines": ("<!--\n```crochet\nx\n```\n-->\n\n```crochet\nMARK\n```\n", [(8, 1)]),
    "behind indented code": ("Text\n\n    ```crochet\n    x\n    ```\n\n```crochet\nMARK\n```\n", [(8, 1)]),
    "behind an example in a longer fence": ("````\n```crochet\nx\n```\n````\n```crochet\nMARK\n```\n", [(7, 1)]),
    "in a longer fence of its own": ("`````crochet\n```\nMARK\n`````\n", [(3, 1)]),
    "tildes": ("~~~~ crochet\nMARK\n~~~~\n", [(2, 1)]),
    "attribute list": ("``` {.crochet #vole}\nMARK\n```\n", [(2, 1)]),
    "two patterns on a page": ("```crochet\nMARK\n```\n\nText.\n\n```crochet\n\n  MARK\n```\n", [(2, 1), (9, 3)]),
    "raw div": ("<div>\n```crochet\nMARK\n```\n</div>\n", [(3, 1)]),
    "wide letters count one each": ("```crochet\n編み図 🧶 MARK\n```\n", [(2, 7)]),
}


def places(source: Source, lines: list[BlockLine]) -> list[tuple[int, int]]:
    """Where the marked word stands, by the positions that the block lines state; checked against the file itself."""
    found = []
    for line in lines:
        at = line.text.find("MARK")
        if at >= 0:
            found.append((line.number, line.column + at))
            assert source.line(line.number)[line.column + at - 1 :].startswith("MARK")
    return found


@pytest.mark.parametrize("name", PLACES)
def test_marked_word(name: str) -> None:
    text, expected = PLACES[name]
    source, findings = Source(text), Findings()
    blocks = find_blocks(source, findings)
    assert places(source, [line for block in blocks for line in block.lines]) == expected
    for block in blocks:
        opening = source.line(block.opening.line)[block.opening.column - 1 : block.opening.end_column - 1]
        assert opening[:3] in ("```", "~~~") and opening.rstrip().endswith(("crochet", "}"))
        assert source.line(block.end_line).strip("> \t").strip("`~") == ""


@pytest.mark.parametrize("ends", ["\r\n", "\r"])
@pytest.mark.parametrize("name", PLACES)
def test_other_line_ends_and_a_mark_before_them_move_nothing(name: str, ends: str) -> None:
    text, expected = PLACES[name]
    source = Source("\ufeff" + text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\n", ends))
    blocks = find_blocks(source, Findings())
    assert places(source, [line for block in blocks for line in block.lines]) == expected


def test_columns_of_the_opening() -> None:
    blocks = find_blocks(Source("- a\n\n\t```crochet \n\tx\n\t```\n"), Findings())
    assert [block.opening for block in blocks] == [Span(3, 2, 3, 12)]
    assert blocks[0].end_line == 5 and blocks[0].nested


def test_text_file_is_one_block() -> None:
    block = whole_text(Source("\ufeffTitle: Vole\r\n\r\nRnd 1: MARK\r\n"))
    assert [(line.number, line.column, line.text) for line in block.lines] == [
        (1, 1, "Title: Vole"), (2, 1, ""), (3, 1, "Rnd 1: MARK"), (4, 1, ""),
    ]  # fmt: skip
    assert block.end_line == 4


def test_prose_begins_behind_the_marks() -> None:
    source = Source("---\na: b\n---\n- one\n\n    > two\n\n<!-- no -->three <!-- no --> four\n")
    assert [(line.number, line.column, line.text.strip()) for line in prose_lines(source)] == [
        (4, 3, "one"), (6, 7, "two"), (8, 12, "three"), (8, 29, "four"),
    ]  # fmt: skip


PIECES = st.sampled_from(
    ["```crochet", "```", "~~~", "~~~crochet", "````", "``` {.crochet a=b}", "```Crochet", "'''crochet", "`` ` ",
     "> ", ">", "- ", "1. ", "    ", "\t", " ", "\n", "\n", "\n\n", "\r\n", "\r", "---\n", "a: b\n", "!!! note", '=== "x"',
     "??? x", "<!--", "-->", "<div>", "</div>", "<script>", "</script>", "# Head", "===", "Rnd 1: sc (6)", "\ufeff", "\x00",
     "\ud800", "\x0b", "\x1c", "\u2028", "\x02", "[^1]:", ": x", "é"]
)  # fmt: skip


@given(st.one_of(st.text(), st.lists(PIECES, max_size=60).map("".join)))
def test_every_line_stands_where_it_says(text: str) -> None:
    source = Source(text)
    blocks = find_blocks(source, Findings())
    numbers = [line.number for block in blocks for line in block.lines]
    assert numbers == sorted(set(numbers))  # in order, and no line in two blocks
    for line in [*(line for block in blocks for line in block.lines), *prose_lines(source), *whole_text(source).lines]:
        assert source.line(line.number)[line.column - 1 :][: len(line.text)] == line.text
    for block in blocks:
        assert 1 <= block.opening.line <= block.end_line <= len(source.lines)
    assert not set(numbers) & {line.number for line in prose_lines(source)}

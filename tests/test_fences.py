"""Pattern blocks: which are read, which are reported instead, and what the hosts make of the same pages."""

from __future__ import annotations

import re
import subprocess
import sys

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mkdocs_stitchcheck.checks.outside import check_prose
from mkdocs_stitchcheck.fences import find_blocks, has_pattern, match_block
from mkdocs_stitchcheck.fences.opening import is_near
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.source import Source

BODY = "Rnd 1: 6 sc (6)"


def read(text: str) -> tuple[list[str], list[tuple[str, int, int]]]:
    """The bodies of the blocks, and the rule, line and column of each finding."""
    findings = Findings()
    blocks = find_blocks(Source(text), findings)
    return [block.text for block in blocks], [(f.rule, f.span.line, f.span.column) for f in findings.items]


@pytest.mark.parametrize(
    ("text", "rule", "line", "column"),
    [
        ("```Crochet\nx\n```", "fence-not-read", 1, 4),
        ("``` crohcet\nx\n```", "fence-not-read", 1, 5),
        ("```crochet:\nx\n```", "fence-not-read", 1, 4),
        ("```crochets\nx\n```", "fence-not-read", 1, 4),
        ("~~~{.Crochet}\nx\n~~~", "fence-not-read", 1, 6),
        ("~~~{crochet}\nx\n~~~", "fence-not-read", 1, 5),
        ("- a\n\n    ```crotchet\n    x\n    ```", "fence-not-read", 3, 8),
        ("''' crochet\nx\n'''", "fence-not-read", 1, 1),
        ("``crochet\nx\n``", "fence-not-read", 1, 1),
        ("<!--\n```crochet\nx\n```\n-->", "block-not-shown", 2, 1),
        ("<script>\n```crochet\nx\n```\n</script>", "block-not-shown", 2, 1),
        ("Text\n\n    ```crochet\n    x\n    ```", "block-not-shown", 3, 5),
        ("- a\n\nText\n\n    ```crochet\n    x\n    ```", "block-not-shown", 5, 5),
        ("- a\n\n        ```crochet\n        x\n        ```", "block-not-shown", 3, 9),
        ("- ```crochet\n  x\n  ```", "block-not-shown", 1, 3),
        ("```md\n```crochet\nx\n```\n", "block-not-shown", 2, 1),
    ],
)
def test_pattern_not_read_is_one_warning(text: str, rule: str, line: int, column: int) -> None:
    assert read(text) == ([], [(rule, line, column)])


@pytest.mark.parametrize(
    ("text", "body", "rule", "line", "column"),
    [
        ("Text\n\n```crochet\nx\ny\n", "x\ny", "unclosed-block", 3, 1),
        ("```crochet\nx\n````\n\nText\n", "x", "unclosed-block", 1, 1),
        ("```crochet\nx\n  ```\n\nText\n", "x", "unclosed-block", 1, 1),
        ("- a\n\n    ```crochet\n    x\n\nText\n", "x", "unclosed-block", 3, 5),
        ("> ```crochet\n> x\n\nText\n", "x", "unclosed-block", 1, 3),
        ("- a\n\n    ```crochet\nx\n```\n\nText\n", "x", "unclosed-block", 3, 5),
        ("```crochet show=no\nx\n```", "x", "unknown-option", 1, 12),
        ("```crochet titel='a b'\nx\n```", "x", "unknown-option", 1, 12),
        ("```{.crochet #a .b titel=x}\nx\n```", "x", "unknown-option", 1, 20),
        ("```crochet\n\n  \n```", "\n  ", "block-not-shown", 1, 1),
        ("~~~\ncode\n\n```crochet\nx\n```\n", "x", "block-not-shown", 4, 1),
    ],
)
def test_block_with_a_slip_is_read_all_the_same(text: str, body: str, rule: str, line: int, column: int) -> None:
    assert read(text) == ([body], [(rule, line, column)])


def test_unclosed_block_ends_where_the_next_begins() -> None:
    assert read("```crochet\nx\n\n```crochet\ny\n```\n") == (["x", "y"], [("unclosed-block", 1, 1)])


@pytest.mark.parametrize(
    "text",
    [
        "````\n```crochet\nx\n```\n````",
        "~~~md\n```crochet\nx\n```\n~~~",
        "- a\n\n    ````\n    ```crochet\n    ```\n    ````",
        "Write `` ```crochet `` at the front.",
        "```crochet```",
        "```python\nx\n```",
        "```\nRnd 1\n```",
        "`<!--` and `crochet`",
        "---\na: |\n  ```crochet\n---\n",
        "We crochet\n",
    ],
)
def test_examples_and_other_code_are_quiet(text: str) -> None:
    assert read(text) == ([], [])


# Fence words of common highlighters (from memory), and neighbours of the word that are none.
@pytest.mark.parametrize("word", ["python", "c", "rust", "coffeescript", "racket", "crystal", "croc", "text", "ricochet"])
def test_language_names_are_never_near(word: str) -> None:
    assert not is_near(word)


def test_messages_say_what_and_the_way_out() -> None:
    findings = Findings()
    find_blocks(Source("```Crochet\nx\n```\n\n```crochet yran=a\nx\n````\n"), findings)
    said = [(f.message, f.suggestion) for f in findings.items]
    assert said == [
        ("“Crochet” is not “crochet”, so this block is neither checked nor shown as a pattern.", "Write crochet."),
        (
            "“yran” is not an option of a pattern block, and the site may show the block as plain text.",
            "“Yarn: ...” is written on a line of its own inside the block; take it off this line.",
        ),
        (
            "The closing marks in line 7 are not quite those of the opening, so the site does not end the block there.",
            "End it with a line that holds nothing but ```, exactly below the opening marks.",
        ),
    ]
    assert findings.items[0].edits[0].text == "crochet"


def test_headings_name_the_blocks_below_them() -> None:
    text = "Vole\n====\n\n```crochet\nx\n```\n\n## **Ears** ## {#e}\n\n```crochet\ny\n```\n```crochet\nz\n```\n"
    assert [block.heading for block in find_blocks(Source(text), Findings())] == ["Vole", "Ears", ""]


def test_rules_around_a_pattern_are_no_front_matter() -> None:
    assert read("---\n\nNote: x\n\n```crochet\nx\n```\n\n---\n") == (["x"], [])


def test_match_block_ignores_tabs_and_blanks() -> None:
    blocks = find_blocks(Source("- a\n\n\t```crochet\n\ta\tb \n\n\t```\n\n```crochet\nc\n```\n\n```crochet\nc\n```"), Findings())
    assert match_block(blocks, "a  b\n") is blocks[0]
    assert match_block(blocks, "c", 1) is blocks[2]
    assert match_block(blocks, "c", 7) is blocks[2]
    assert match_block(blocks, "d") is None


@pytest.mark.parametrize("text", ["Title: Vole", "x\n  yarn: light", "**Rnd 3:** sc", "R3: sc", "Row 2", "Rounds 4-6", "Color A: x"])
def test_text_file_with_a_pattern(text: str) -> None:
    assert has_pattern(text)


@pytest.mark.parametrize("text", ["", "Sitemap: x", "Contact: us", "mkdocs==1.6", "arrow 2", "R2D2", "around 5", "the title: x"])
def test_text_file_without(text: str) -> None:
    assert not has_pattern(text)


# -- an outside reference: pymdown-extensions' superfences, with the containers' own extensions ------------------------

EXTENSIONS = ["admonition", "footnotes", "def_list", "attr_list", "pymdownx.details", "pymdownx.tabbed", "pymdownx.superfences"]


def on_the_page(text: str) -> list[str]:
    """The bodies that superfences hands to a custom fence and that are then seen on the page."""
    handed: list[str] = []

    def formatter(source: str, *_: object, **__: object) -> str:
        handed.append(source)
        return f"<b>@@{len(handed) - 1}@@</b>"

    fence = {"name": "crochet", "class": "crochet", "format": formatter, "validator": lambda *_: True}
    html = markdown.markdown(
        text,
        extensions=EXTENSIONS,
        extension_configs={"pymdownx.superfences": {"custom_fences": [fence]}, "pymdownx.tabbed": {"alternate_style": True}},
    )
    html = re.sub(r"<!--.*?-->|<script.*?</script>", "", html, flags=re.DOTALL)
    return [handed[int(number)] for number in re.findall(r"@@(\d+)@@", html)]


def wrap(kind: str, text: str) -> str:
    """The text as the content of a container."""
    lines = text.split("\n")
    four = [f"    {line}" if line else "" for line in lines]
    match kind:
        case "quote":
            return "\n".join(f"> {line}" for line in lines)
        case "tight quote":
            return "> Text\n" + "\n".join(f"> {line}".rstrip() for line in lines)
        case "bullet":
            return "- item\n\n" + "\n".join(four)
        case "tight bullet":
            return "* item\n" + "\n".join(four)
        case "number":
            return "1. item\n2. item\n\n" + "\n".join(four)
        case "admonition":
            return '!!! note "Head"\n\n' + "\n".join(four)
        case "tight admonition":
            return "!!! note\n" + "\n".join(four)
        case "details":
            return '??? tip "Head"\n\n' + "\n".join(four)
        case "tab":
            return '=== "Small"\n\n' + "\n".join(four)
        case "code":
            return "Text\n\n" + "\n".join(four)
        case "comment":
            return f"<!--\n{text}\n-->"
        case "div":
            return f"<div>\n{text}\n</div>"
        case "script":
            return f"<script>\n{text}\n</script>"
        case "longer":
            return f"``````\n{text}\n``````"
        case "tabbed bullet":
            return "- item\n\n" + "\n".join(f"\t{line}" if line else "" for line in lines)
        case "paragraph":
            return f"Before.\n\n{text}\n\nAfter."
    raise AssertionError(kind)


INNER = ["quote", "tight quote", "bullet", "tight bullet", "number", "admonition", "tight admonition", "details", "tab",
         "code", "tabbed bullet", "paragraph"]  # fmt: skip
OUTER = [*INNER, "comment", "div", "script", "longer"]
FENCES = ["```crochet\n{}\n\n> note\n```", "~~~~ crochet\n{}\n  deeper\n~~~~", "``` {{.crochet #a}}\n{}\n```"]


def plain(bodies: list[str]) -> list[str]:
    """Without tabs (superfences expands them) and blanks at line ends."""
    return ["\n".join(line.expandtabs(4).rstrip() for line in body.split("\n")) for body in bodies]


@pytest.mark.parametrize("outer", OUTER)
@pytest.mark.parametrize("inner", INNER)
@pytest.mark.parametrize("fence", FENCES)
def test_same_bodies_as_superfences(outer: str, inner: str, fence: str) -> None:
    nested = wrap(outer, wrap(inner, fence.format("Rnd 1: 6 sc (6)")))
    text = f"# Page\n\n{nested}\n\nText.\n\n{fence.format('Rnd 2: inc x 6 (12)')}\n"
    assert plain(read(text)[0]) == plain(on_the_page(text))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(INNER), min_size=3, max_size=5), st.sampled_from(FENCES))
def test_same_bodies_in_deep_nesting(kinds: list[str], fence: str) -> None:
    text = fence.format(BODY)
    for kind in kinds:
        text = wrap(kind, text)
    assert plain(read(text)[0]) == plain(on_the_page(text))


# -- prose outside the pattern -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("Sew the ears to Rnds 5-8 of the Head.", [(1, 17)]),
        ("Rnd 5: sc around (24)", [(1, 1)]),
        ("- **Row 5:** 3 sc, inc", [(1, 3)]),
        ("```crochet\nx\n```\n\n> R7: sc in each st around (24)", [(5, 3)]),
        ("I love round 5 of every film festival.", []),
        ("The head took until round 3.5.2026.", []),
        ("Head, Round 2026 edition", []),
        ("## Sew the head to Rnd 5", []),
        ("Sew the head to Rnd 5\n------", []),
        ("<!-- Sew the head to Rnd 5 -->", []),
        ("```\nSew the head to Rnd 5\n```", []),
        ("Round 5: the best photographs (see below)", []),
    ],
)
def test_prose_outside_the_pattern(text: str, places: list[tuple[int, int]]) -> None:
    findings = Findings()
    check_prose(Source(text), ["Head", "Ear"], findings)
    assert [(f.rule, f.span.line, f.span.column) for f in findings.items] == [("outside-the-pattern", *at) for at in places]


# -- hostile text ------------------------------------------------------------------------------------------------------

HOSTILE = {
    "one long line": lambda n: "x" * (n * 10),
    "blanks": lambda n: " " * (n * 10),
    "backticks": lambda n: "` `` " * n + "<!--",
    "fences": lambda n: "```crochet\nx\n```\n" * n,
    "openings": lambda n: "```crochet\n" * n,
    "other openings": lambda n: "  ~~~a\n" * n + "~~~",
    "openings in a comment": lambda n: "<!--\n" + "  ```crochet\n" * n + "x\n```\n-->",
    "comments never closed": lambda n: "<!--\nx <!--\n\n" * n,
    "list marks": lambda n: "- " * n + "```crochet",
    "quotes": lambda n: "> " * n + "```crochet\n" + "> " * n + "x\n",
    "options": lambda n: "```crochet " + "a=\" b=' " * n,
    "fences left of their edge": lambda n: "   ```crochet\nx\n" * n + "\n```",
    "tags": lambda n: "<div>\n<script" * n,
    "rounds": lambda n: "rnd 5 of the " * n,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_text_takes_linear_work(name: str) -> None:
    """Ten times the text takes about ten times as many calls; something quadratic would take a hundred times."""

    def calls(size: int) -> int:
        source, number = Source(HOSTILE[name](size)), 0

        def count(*_: object) -> None:
            nonlocal number
            number += 1

        sys.setprofile(count)
        try:
            find_blocks(source, Findings())
            check_prose(source, ["Head"], Findings())
        finally:
            sys.setprofile(None)
        return number

    assert calls(1000) < 15 * calls(100)


@pytest.mark.parametrize("text", ["\x00" * 999, "```crochet\n\ud800\x00\n", bytes(range(256)).decode("latin-1") * 40])
def test_no_text_is_too_strange(text: str) -> None:
    findings = Findings()
    blocks = find_blocks(Source(text), findings)
    check_prose(Source(text), ["Head"], findings)
    assert len(blocks) == text.count("crochet") == len(findings.items)


def test_nothing_of_the_hosts_is_imported() -> None:
    code = "import sys, mkdocs_stitchcheck.fences; print([m for m in ('markdown', 'pymdownx', 'mkdocs') if m in sys.modules])"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip() == "[]"

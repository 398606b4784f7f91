"""Bad input of every sort ends in plain findings at places inside the text, quickly, and never in an exception."""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
from bombs import bombs
from everything import WAYS, checked
from hypothesis import given, settings
from hypothesis import strategies as st

from mkdocs_stitchcheck import check_text

PATTERN = """\
# A small seal

```crochet
Title: Small seal
Terms: US
Color A: slate
Hook: 2.5 mm

# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: 2 sc in each st around (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: *sc in next 2 sts, inc; rep from * around (24)
Rnds 5-7: sc around (24)
Stuff firmly.
Rnd 8: [(sc, dec) x 2, 2 sc] 3 times (18)
Fasten off.

# Tail (make 2)
Ch 9.
Row 1: sc in 2nd ch from hook and in each ch across (8)
Row 2: ch 1, turn, dec, sc to end (7)
```
"""


def wrapped(body: str) -> str:
    """A body in a pattern block."""
    return f"```crochet\n{body}\n```\n"


def rules(text: str, path: str = "page.md") -> set[str]:
    return {finding.rule for finding in checked(text, path).findings}


def errors(text: str) -> set[str]:
    return {finding.rule for finding in checked(text).findings if finding.severity == "error"}


def test_the_pattern_itself_is_right() -> None:
    assert errors(PATTERN) == set()


@pytest.mark.parametrize(
    "text", ["", "\n", "\ufeff", "---\n---\n", "```crochet\n```\n", "```crochet\n\n\n```", "```crochet", " \t\r\n\r"]
)
def test_nothing_at_all(text: str) -> None:
    checked(text)
    checked(text, "pattern.txt")


def test_a_fence_never_closed() -> None:
    assert "unclosed-block" in rules("text\n\n```crochet\nRnd 1: 6 sc in magic ring (6)\n")


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 2: (sc, inc x 3",
        "Rnd 2: [sc, inc) x 3 (9)",
        "Rnd 2: sc, inc) x 3 (9)",
        "Rnd 2: ((((",
        "Rnd 2: ****",
        "Rnd 2: ()",
        "Rnd 2: () x 6 (6)",
        "Rnd 2: [] around",
        "Rnd 2: x 6",
        "Rnd 2: (",
        "Rnd 2: )",
    ],
)
def test_marks_that_do_not_pair(line: str) -> None:
    assert errors(wrapped(f"Rnd 1: 6 sc in magic ring (6)\n{line}\nRnd 3: sc around")) != set()


@pytest.mark.parametrize("mark", ["()", "[]", "{}", "<>", "(]"])
@pytest.mark.parametrize("depth", [100, 10_000])
def test_brackets_nested_very_deep(mark: str, depth: int) -> None:
    line = f"Rnd 2: {mark[0] * depth}sc{mark[1] * depth} (6)"
    assert errors(wrapped(f"Rnd 1: 6 sc in magic ring (6)\n{line}"))


def test_a_star_never_closed_is_said_even_where_the_round_comes_out() -> None:
    assert "unbalanced-mark" in rules(
        wrapped("Rnd 1: 6 sc in magic ring (6)\nRnd 2: *sc, inc (9)\nRnd 3: sc around (9)")
    )


@pytest.mark.parametrize("depth", [100, 10_000])
def test_stars_without_end(depth: int) -> None:
    checked(wrapped(f"Rnd 1: 6 sc in magic ring (6)\nRnd 2: {'*' * depth}sc{'*' * depth} (6)\nRnd 3: {'*' * depth}"))


def test_brackets_opened_and_never_closed_ten_thousand_times() -> None:
    assert errors(wrapped("Rnd 1: 6 sc in magic ring (6)\nRnd 2: " + "(sc, [inc, " * 5_000))


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 2: (sc, inc) x 999999999999 (9)",
        "Rnd 2: inc x 999999999999",
        "Rnd 2: sc 99999999999999999999",
        "Rnd 2: (((inc x 999999) x 999999) x 999999)",
        "Rnd 2: [[[inc x 100000] x 100000] x 100000] x 100000 (6)",
        "Rnd 2: 999999999999 sc in next st",
        "Rnd 2: sc around (999999999999)",
        "Rnds 2-999999999999: sc around (6)",
        "Rnds 2-999999999: inc around (6)",
        "Rep Rnd 1 999999999999 times",
        "Rnd 2: sc around for 999999999999 rounds",
        "Rnd 99999999999999999999999: sc around (6)",
        "Ch 999999999999.",
        f"Rnd 2: sc {'9' * 6000} ({'9' * 6000})",
        "Rnd 2: ch 999999999999, sc 6 (6)",
        "Rnd 2: sk 999999999999",
        "Rnd 2: *sc; rep from * 999999999999 more times",
    ],
)
def test_numbers_beyond_all_measure(line: str) -> None:
    assert errors(wrapped(f"Rnd 1: 6 sc in magic ring (6)\n{line}\nRnd 3: sc around"))


def test_a_great_many_rounds_that_change() -> None:
    found = errors(wrapped("Rnd 1: 6 sc in magic ring (6)\nRnds 2-1000000: inc, sc to end"))
    assert found
    assert errors(wrapped("Rnd 1: 6 sc in magic ring (6)\nRnds 2-900000: inc, dec, sc to end (6)")) <= {
        "number-out-of-range"
    }


@pytest.mark.parametrize(
    "header",
    [
        "Sizes: " + ", ".join("S" * 1 for _ in range(2000)),
        "Gauge: x",
        "Gauge: 0 sc x 0 rnds = 0 cm",
        "Yarn: light (99), 0 g = 0 m",
        "Hook: -1 mm",
        "Hook: 1e999 mm",
        "Color A: #zzzzzz",
        "Color : x",
        "Color A:",
        ":",
        "::::",
        "Special stitch:",
        "Special stitch: = ; uses , makes",
        "Special stitch: a = a; uses 1, makes 1",
        "Abbreviations: a = b; b = a",
        "Abbreviations: sc = inc; inc = sc",
        "Turning chain:",
        "Reading:",
        "Reading: x",
        "Show: everything",
        "Swatch: 0 sc x 0 rows = 0 g",
        "Weighed: A",
        "Finished size: 0 cm",
        "Title: " + "x" * 100_000,
        "Draft: maybe",
        "Terms: Klingon",
    ],
)
def test_headers_that_make_no_sense(header: str) -> None:
    checked(wrapped(f"{header}\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)"))


@pytest.mark.parametrize(
    "body",
    [
        "# A\nRnd 1: as Rnd 1",
        "# \nRnd 1: 6 sc in MR (6)\nRnd 2: as for Body",
        "# A\nRnd 1: 6 sc in MR (6)\nRnd 2: as Rnd 3\nRnd 3: as Rnd 2",
        "# A\nRnds 1-4 of B\n# B\nRnds 1-4 of A",
        "# A\nRnd 1: as Rnd 1 of B\n# B\nRnd 1: as Rnd 1 of A",
        "# A\nRnd 1: Rnds 1-8 of A",
        "Rnd 5: rep Rnds 1-5 999 times",
        "Rnd 0: sc",
        "Rnd -1: sc",
        "Rnds 5-: sc",
        "Rnds -5: sc",
        "Rnds 7-5: sc around",
    ],
)
def test_references_in_circles_and_into_nowhere(body: str) -> None:
    assert errors(wrapped(body))


@pytest.mark.parametrize(
    "junk",
    [
        "\x00",
        "\ud800",
        "\x1b[31m",
        "\x7f",
        "\u202e",
        "\u200b",
        "\ufeff",
        "\U0001f9f6",
        "\u0301" * 500,
        "\x0b\x0c\x1c\x85\u2028",
    ],
)
def test_bytes_that_are_no_text(junk: str) -> None:
    for place in (
        "Rnd 2: inc {} x 6 (12)",
        "{}Rnd 2: inc x 6 (12)",
        "Rnd 2{}: inc x 6 (1{}2)",
        "# Body{}",
        "Title: {}",
        "{}",
    ):
        checked(wrapped(f"Rnd 1: 6 sc in magic ring (6)\n{place.replace('{}', junk)}\nRnd 3: sc around"))
    checked(junk + PATTERN)
    checked(PATTERN + junk, "pattern.txt")


def test_binary_as_text() -> None:
    noise = random.Random(5).randbytes(20_000)
    checked(noise.decode("latin-1"))
    checked(noise.decode("utf-8", "surrogateescape"), "pattern.txt")
    checked(wrapped(noise.decode("latin-1").replace("```", "")))


@pytest.mark.parametrize("kind", ["crochet", "plain"])
def test_every_beginning_of_a_pattern(kind: str) -> None:
    for end in range(len(PATTERN)):
        checked(PATTERN[:end], "page.md" if kind == "crochet" else "pattern.txt")


def test_every_character_left_out_or_typed_twice() -> None:
    for at in range(len(PATTERN)):
        checked(PATTERN[:at] + PATTERN[at + 1 :])
        checked(PATTERN[:at] + PATTERN[at] + PATTERN[at:])


TYPED = (
    "Rnd Rnds Row 1 2 3 12 x ( ) [ ] { } < > * , ; : . = - \u2013 sc inc dec hdc ch sk sl st sts in next each around "
    "across to last rep from times more magic ring turn join BLO change color A with as through both layers leave rem "
    "ch-2 sp of Body # > >> @ 12:30 \n \n"
)
WORDS = st.sampled_from(re.split(" ", TYPED))


@settings(max_examples=400, deadline=None)
@given(st.lists(WORDS, max_size=40))
def test_words_in_any_order(words: list[str]) -> None:
    checked(wrapped("Rnd 1: 6 sc in magic ring (6)\n" + " ".join(words)))


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    checked(text)
    checked(wrapped(text))
    checked(text, "pattern.txt")


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=80), st.sampled_from(PATTERN.split("\n")[3:-2]))
def test_any_text_in_the_place_of_a_line(text: str, line: str) -> None:
    checked(PATTERN.replace(line, text, 1) if line else PATTERN)


class TooMuch(BaseException):
    """Past every guard: more calls than any straight line allows."""


def calls(work: Callable[[], Any], limit: int = 100_000_000) -> int:
    """How many calls *work* makes, of built-in functions too: a measure that no other process disturbs."""
    number = 0

    def count(_frame: Any, event: str, _arg: Any) -> None:
        nonlocal number
        number += event in ("call", "c_call")
        if number > limit:
            raise TooMuch(limit)

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        work()
    finally:
        sys.setprofile(before)
    return number


GROWING: dict[str, Callable[[int], str]] = {
    "rounds": lambda n: wrapped(
        "Rnd 1: 6 sc in magic ring (6)\n" + "\n".join(f"Rnd {i}: sc around (6)" for i in range(2, n + 2))
    ),
    "wrong rounds": lambda n: wrapped(
        "Rnd 1: 6 sc in magic ring (6)\n" + "\n".join(f"Rnd {i}: (sc, inc) x 3 (7)" for i in range(2, n + 2))
    ),
    "pieces": lambda n: wrapped(
        "\n".join(f"# Part {chr(97 + i % 26)}{i}\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)" for i in range(n))
    ),
    "blocks": lambda n: "".join(
        wrapped(f"# Part {i}\nRnd 1: 6 sc in magic ring (6)") + "\nprose\n\n" for i in range(n)
    ),
    "steps in a round": lambda n: wrapped(f"Rnd 1: {n} sc in magic ring\nRnd 2: " + ", ".join(["sc"] * n) + f" ({n})"),
    "steps in a wrong round": lambda n: wrapped(
        f"Rnd 1: {n} sc in magic ring ({n})\nRnd 2: "
        + ", ".join(["sc", "sc 2"] * n)
        + f" ({n})\nRnd 3: sc around ({n})"
    ),
    "unknown words": lambda n: wrapped(
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: " + ", ".join(f"qx{chr(97 + i % 26)}" for i in range(n))
    ),
    "unreadable lines": lambda n: wrapped("\n".join(f"Rmd {i}: 6 sx in" for i in range(n))),
    "open brackets": lambda n: wrapped("Rnd 1: 6 sc in magic ring (6)\nRnd 2: " + "(sc, " * n),
    "stars": lambda n: wrapped("Rnd 1: 6 sc in magic ring (6)\nRnd 2: " + "*sc " * n),
    "headers": lambda n: wrapped("\n".join(f"Color C{i}: red" for i in range(n)) + "\nRnd 1: 6 sc in magic ring (6)"),
    "fences": lambda n: "```\n" * n,
    "quotes": lambda n: "> " * n + "```crochet\n" + "> " * n + "Rnd 1: 6 sc (6)\n",
    "prose": lambda n: "A line of prose about Rnd 3 of the body.\n" * n + PATTERN,
    "front matter": lambda n: "---\n" + "key: value\n" * n + "---\n" + PATTERN,
    "spaces": lambda n: wrapped("Rnd 1:" + " " * n + "6 sc in magic ring" + " " * n + "(6)"),
    "one long word": lambda n: wrapped("Rnd 1: " + "a" * n),
    "one long number": lambda n: wrapped("Rnd 1: sc " + "9" * n),
    "continued": lambda n: wrapped("Rnd 1: 6 sc in magic ring,\n" + "  sc,\n" * n),
    "references": lambda n: wrapped(
        "Rnd 1: 6 sc in magic ring (6)\nRnd 2: sc around (6)\n"
        + "\n".join(f"Rnd {i}: as Rnd {i - 1}" for i in range(3, n + 3))
    ),
}


@pytest.mark.parametrize("name", GROWING)
def test_twice_the_text_costs_about_twice_as_much(name: str) -> None:
    grow, n = GROWING[name], 150
    check_text(grow(20), "page.md")  # tables that are built once are built now
    small = calls(lambda: check_text(grow(n), "page.md"))
    limit = 3 * small + 5000
    large = calls(lambda: check_text(grow(2 * n), "page.md"), limit)
    assert large <= limit, (name, small, large)


@pytest.mark.parametrize(
    "unit",
    [
        "9",
        "a",
        " ",
        "sc, ",
        "sc in next 2 sts, inc; ",
        "(",
        "*sc ",
        "(18) ",
        "&times;",
    ],
)
def test_a_line_of_five_megabytes(unit: str) -> None:
    line = "Rnd 2: " + unit * (5_000_000 // len(unit))
    text = wrapped(f"Rnd 1: 6 sc in magic ring (6)\n{line}\nRnd 3: sc around (6)")
    assert calls(lambda: checked(text), limit=4_000_000) < 4_000_000
    assert errors(text)


@pytest.mark.parametrize("name", bombs())
def test_a_page_made_to_take_long_ends(name: str) -> None:
    """With a bound on the work for each character and line; ``python -m tests.bombs`` runs them in full length."""
    text = bombs(0.03)[name]
    limit = 3_000_000 + 400 * len(text) + 20_000 * text.count("\n")
    assert calls(lambda: checked(text), limit) < limit


@pytest.mark.parametrize("way", WAYS)
def test_every_command_and_renderer_ends_on_them(way: str) -> None:
    """Shorter ones still."""
    for name, text in bombs(0.01).items():
        limit = 12_000_000 + 3_000 * len(text) + 150_000 * text.count("\n")
        assert calls(partial(WAYS[way], text, "page.md"), limit) < limit, name

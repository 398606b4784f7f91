"""Old posts: rounds in prose and plain lists put into blocks, every word kept, and nothing else touched."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from case_files import all_cases

from mkdocs_stitchcheck.adopting import Adopted, adopt
from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.hosts.commandline import main

SITE = Path(__file__).parent.parent / "site_example" / "docs"

OLD = """---
title: Otter on the quay
---

I made this in 2014. You need 50 g of brown yarn, a 3 mm hook and patience.

**Head (brown)**

- Rnd 1: 6 sc in magic ring (6)
- Rnd 2: inc x 6 (12)
- **Rnd 3:** (sc, inc) x 6 (18)

![head](head.jpg)

Then it grows.

* Rnd 4: (2 sc, inc) x 6 (24)\x20\x20
* Rnds 5-8: sc around (24)
* Stuff firmly.

Body
Round 1: 6 sc in magic ring (6)
Round 2: inc x 6 (13)
It should look like a bowl.
Round 3: sc around (12)\\
Fasten off.

I love this part.

## Ears

1. 6 sc in magic ring (6)
2. sc around (6)

> R1: 4 sc in magic ring (4) R2: inc in each (8)

!!! note "Tail"

    Rnd 1: 6 sc in magic ring (6)
    Rnd 2: sc in each st (6)

As in Rnd 3 of the Head, keep it loose.
"""

NEW = """---
title: Otter on the quay
---

I made this in 2014. You need 50 g of brown yarn, a 3 mm hook and patience.

```crochet
Title: Otter on the quay

# Head (brown)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
```

![head](head.jpg)

Then it grows.

```crochet
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-8: sc around (24)
Stuff firmly.

# Body
Round 1: 6 sc in magic ring (6)
Round 2: inc x 6 (13)
> It should look like a bowl.
Round 3: sc around (12)
Fasten off.
```

I love this part.

## Ears

```crochet
Rnd 1: 6 sc in magic ring (6)
Rnd 2: sc around (6)
```

> ```crochet
> R1: 4 sc in magic ring (4)
> R2: inc in each (8)
> ```

!!! note "Tail"

    ```crochet
    Rnd 1: 6 sc in magic ring (6)
    Rnd 2: sc in each st (6)
    ```

As in Rnd 3 of the Head, keep it loose.
"""


def adopted(text: str) -> Adopted:
    return adopt(text, lambda written: check_text(written, "otter.md"))


def words(text: str) -> list[str]:
    return re.findall(r"\w+", text)


def test_an_old_post() -> None:
    found = adopted(OLD)
    assert found.text == NEW
    assert (found.blocks, found.rounds, found.errors) == (5, 13, 1)  # Round 2 of the Body says 13


def test_every_word_stays_and_adopting_again_changes_nothing() -> None:
    text = adopted(OLD).text
    assert adopted(text).text == text
    kept = iter(words(text))
    lost = [word for word in words(OLD) if not re.fullmatch(r"[12]", word) and word not in kept]
    assert lost == []


@pytest.mark.parametrize(
    "text",
    [
        "I worked Rnd 5 again, and it was the 5th of May.\n",
        "1. Buy yarn.\n2. Buy a hook of 3 mm.\n3. Sit down.\n",
        "```python\nRnd 1: 6 sc (6)\n```\n",
        "<!--\nRnd 1: 6 sc in magic ring (6)\n-->\n",
        "## Rnd 1: 6 sc in magic ring (6)\n",
        "Stuff firmly. Fasten off.\n",
        "| Rnd 1 | 6 sc in magic ring (6) |\n|---|---|\n",
    ],
)
def test_what_is_no_pattern_stays(text: str) -> None:
    assert adopted(text).text == text


@pytest.mark.parametrize("path", sorted(SITE.rglob("*.md")), ids=lambda path: path.stem)
def test_the_example_site_needs_nothing(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    found = adopted(text)
    assert found.text == text


def test_windows_line_ends_are_kept() -> None:
    text = "Rnd 1: 6 sc in magic ring (6)\r\nRnd 2: inc x 6 (12)\r\n"
    assert adopted(text).text == "```crochet\r\nRnd 1: 6 sc in magic ring (6)\r\nRnd 2: inc x 6 (12)\r\n```\r\n"


def test_what_was_outside_the_pattern_is_inside_afterwards() -> None:
    """All pages of the cases: no line that looked like a round is left in the prose."""
    for case in all_cases():
        if case.kind != "markdown":
            continue
        text = adopted(case.text).text
        left = [f for f in check_text(text, "page.md").findings if "looks like a round" in f.message]
        assert not left, (case.name, left)


def test_the_command_shows_a_diff_and_saves_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "otter.md"
    page.write_text(OLD, encoding="utf-8")
    assert main(["adopt", str(tmp_path)]) == 0
    shown = capsys.readouterr().out
    assert "+# Head (brown)" in shown and "-- Rnd 1: 6 sc in magic ring (6)" in shown
    assert "5 blocks with 13 lines of rounds; stitchcheck check then finds 1 error in it." in shown
    assert page.read_text(encoding="utf-8") == OLD
    assert main(["adopt", "--save", str(tmp_path)]) == 0
    assert page.read_text(encoding="utf-8") == NEW
    capsys.readouterr()
    assert main(["adopt", str(tmp_path)]) == 0
    assert capsys.readouterr().out == "No rounds stand outside pattern blocks.\n"

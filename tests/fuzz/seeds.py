"""What fuzzing begins with: the patterns of the cases, the forms, the pages of the example site, and their words."""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from ..forms.table import all_forms

HERE = Path(__file__).parent
_BLOCK = re.compile(r"^```(?:crochet|txt)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_WORD = re.compile(r"[A-Za-z][A-Za-z']{1,14}|\d+|[^\w\s]{1,2}")


MOST = {"everything": 60}  # texts to begin with; trying all of them first takes what time there is
_MOST = 500


def seeds(target: str, seed: int = 1) -> list[str]:
    """Texts in the shape that *target* takes, as many as are soon tried."""
    found = list(_all(target))
    return random.Random(seed).sample(found, min(len(found), MOST.get(target, _MOST)))


def _all(target: str) -> Iterator[str]:
    patterns = [text for path in sorted((HERE.parent / "cases").rglob("*.md")) for text in _BLOCK.findall(path.read_text(encoding="utf-8"))]
    pages = [path.read_text(encoding="utf-8") for path in sorted((HERE.parents[1] / "site_example" / "docs").rglob("*.md"))]
    if target in ("check", "fences", "everything"):
        yield from (f"# A page\n\n```crochet\n{text}```\n" for text in patterns)
        yield from (page for page in pages if len(page) < 8000)
    if target in ("check", "rounds", "tokens"):
        yield from ("\n".join([*form.lead, *form.lines]) + "\n" for form in all_forms())
        yield from patterns
    if target == "header":
        for text in patterns:
            lines = [line for line in text.splitlines() if re.match(r"[A-Z][A-Za-z ]{1,24}:", line)]
            if lines:
                yield "\n".join(lines[:3]) + "\n"


def words(most: int = 600) -> list[str]:
    """The words, numbers and signs that patterns are written with, the usual ones first."""
    found: Counter[str] = Counter()
    for text in _all("check"):
        found.update(_WORD.findall(text))
    return [word for word, _ in found.most_common(most)]

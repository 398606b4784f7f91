"""Reads the cases of ``tidy``: a pattern as typed and as it becomes; the format is described in ``tidy/README.md``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mkdocs_stitchcheck.settings import HouseStyle, read_settings

FOLDER = Path(__file__).parent / "tidy"
_CASE = re.compile(
    r"^## (?P<title>.+)\n(?P<prose>(?:(?!## |```).*\n)*)"
    r"```crochet\n(?P<before>(?:(?!```).*\n)*)```\n\n"
    r"```tidy(?P<style>.*)\n(?P<after>(?:(?!```).*\n)*)```\n"
    r"(?:\n```stays\n(?P<stays>(?:(?!```).*\n)*)```\n)?",
    re.MULTILINE,
)


@dataclass
class TidyCase:
    """One case: the pattern before and after, the settings' house style, and what is said of lines that stay."""

    name: str
    before: str
    after: str
    style: str
    stays: str

    @property
    def house(self) -> HouseStyle:
        parts = dict(part.split(": ") for part in self.style.strip().split(", ")) if self.style.strip() else {}
        return read_settings({"house_style": parts}, self.name).house_style


def read_cases() -> Iterator[TidyCase]:
    """Every case of every file; a heading that none could be read under is an error."""
    for file in sorted(FOLDER.glob("*.md")):
        if file.name == "README.md":
            continue
        text = file.read_text(encoding="utf-8")
        found = list(_CASE.finditer(text))
        assert len(found) == len(re.findall(r"^## ", text, re.MULTILINE)), f"{file.name}: a case can't be read"
        for match in found:
            name = f"{file.stem}: {match['title']}"
            yield TidyCase(name, match["before"], match["after"], match["style"], match["stays"] or "")


def rewrite(case: TidyCase, after: str, stays: str) -> None:
    """Write what the case comes to into its file."""
    stem, _, title = case.name.partition(": ")
    file = FOLDER / f"{stem}.md"
    text = file.read_text(encoding="utf-8")
    match = next(match for match in _CASE.finditer(text) if match["title"] == title)
    head = text[match.start() : match.start("after")]
    said = f"\n```stays\n{stays}```\n" if stays else ""
    file.write_text(text[: match.start()] + head + f"{after}```\n{said}" + text[match.end() :], encoding="utf-8")

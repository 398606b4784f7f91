"""The photographs of a page: where they stand in its Markdown, and their files."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from ..fences import prose_lines
from ..source import Source

_MARKDOWN = re.compile(r"!\[(?P<words>[^\]\n]{0,500})\]\(\s*<?(?P<address>[^)\s>]{1,1000})>?[^)\n]{0,300}\)")
_TAG = re.compile(r"<img\b[^>\n]{0,2000}>", re.IGNORECASE)
KINDS = (".jpg", ".jpeg", ".png", ".gif", ".webp", ".svg", ".tif", ".tiff")


@dataclass(frozen=True, slots=True)
class Found:
    """A photograph: its file, what it shows in words, and the file line of the page at which it stands."""

    path: Path
    words: str
    line: int


def photographs(text: str, find: Callable[[str], Path | None]) -> tuple[list[Found], list[str]]:
    """The photographs in the prose of the Markdown page *text*, each once; and the addresses of those not to be had.

    *find* gives the file of an address as it stands on the page, None where there is none.
    """
    found: list[Found] = []
    missing: list[str] = []
    for line in prose_lines(Source(text)):
        for words, address in _on_line(line.text):
            path = find(address)
            if path is None or path.suffix.lower() not in KINDS or not path.is_file():
                missing.append(address)
            elif all(path != one.path for one in found):
                found.append(Found(path, words, line.number))
    return found, missing


def _on_line(text: str) -> list[tuple[str, str]]:
    if "![" not in text and "<img" not in text.lower():
        return []
    places = [(match.start(), match["words"].strip(), match["address"]) for match in _MARKDOWN.finditer(text)]
    for match in _TAG.finditer(text):
        image = _Image()
        image.feed(match[0])
        places += [(match.start(), words, address) for words, address in image.found]
    return [(words, address) for _at, words, address in sorted(places)]


class _Image(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one tag."""
        given = {name: value or "" for name, value in attrs}
        if tag == "img" and given.get("src"):
            self.found.append((given.get("alt", "").strip(), given["src"]))


def beside(page: Path, root: Path) -> Callable[[str], Path | None]:
    """Finds addresses seen from the file *page*, only inside the folder *root*: a page leads nowhere else."""
    home = root.resolve()

    def find(address: str) -> Path | None:
        parts = urlsplit(address)
        if parts.scheme or parts.netloc or not parts.path:
            return None
        name = unquote(parts.path)
        if "\0" in name:
            return None
        path = (home / name.lstrip("/") if name.startswith("/") else page.parent / name).resolve()
        return path if path.is_relative_to(home) else None

    return find

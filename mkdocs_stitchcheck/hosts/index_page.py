"""The page that lists what can be made, and drawings that are files of their own: what a site writes for both."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import quote

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from ..render.addresses import Addresses, slug
from ..render.index import Entry, render_index, tags_of
from ..results import FileResult
from .guarding import Faults
from .pages import PageCheck
from .sheets import FROM_ROOT

TITLE = "What can I make?"
_FOLDER = "assets/drawings"


class IndexPage:
    """The list of the patterns of a build, on the page *path* of the docs; none where *path* is empty."""

    def __init__(self, path: str = "", pace: tuple[float, float] | float | None = None) -> None:
        self.path = path.strip().removeprefix("./")
        self._pace = pace
        self._page: Page | None = None
        self._found: dict[str, tuple[Page, PageCheck]] = {}

    def make(self, files: Files, config: MkDocsConfig) -> None:
        """Add the page to *files* where the writer has made none."""
        if self.path and files.get_file_from_path(self.path) is None:
            files.append(File.generated(config, self.path, content=f"# {TITLE}\n"))

    def come_by(self, page: Page) -> None:
        """A page has been read: it may be the one that the list is for."""
        if self.path and page.file.src_uri == self.path:
            self._page = page

    def add(self, page: Page, check: PageCheck) -> None:
        """A page has been read, with the patterns on it."""
        if self.path and check.result.patterns and page.file.inclusion is InclusionLevel.INCLUDED:
            self._found[page.file.src_uri] = (page, check)

    def fill(self, faults: Faults) -> None:
        """Put the list at the end of its page, once all pages are read."""
        if self._page is None:
            return
        entries: list[tuple[PageCheck, Entry]] = []
        for page, check in self._found.values():
            addresses = Addresses(check.result)
            way = get_relative_url(page.url, self._page.url)
            way += "/" if way.endswith(".") else ""
            for pattern in check.result.patterns:
                entries.append((check, Entry(pattern, f"{way}#{addresses.pattern(pattern.syntax)}", self._pace)))
        html = _listed(entries, faults) or "<p>There is nothing here yet.</p>"
        self._page.content = f"{self._page.content or ''}\n{html}\n"


def _listed(entries: list[tuple[PageCheck, Entry]], faults: Faults) -> str:
    """The list; where a fault of ours prevents it, without the patterns that do."""
    try:
        return render_index([entry for _check, entry in entries])
    except Exception:  # noqa: BLE001 - each is tried by itself, so that the one it fails at is named
        alone = [faults.guard("listed", check, one.pattern, lambda one=one: render_index([one]), None) for check, one in entries]  # type: ignore[misc]
        left = [entry for (_check, entry), html in zip(entries, alone, strict=True) if html is not None]
        return "" if len(left) == len(entries) else render_index(left)


def add_tags(page: Page, result: FileResult) -> None:
    """Give *page* the tags of the patterns on it, besides its own. Drafts give none."""
    given = page.meta.get("tags") or []
    own = [str(tag) for tag in given] if isinstance(given, list) else [str(given)]
    found = [tag for pattern in result.patterns if not pattern.draft for tag in tags_of(pattern)]
    if found:
        page.meta["tags"] = list(dict.fromkeys([*own, *found]))


class Drawings:
    """Drawings too large to stand in a page, as files beside the site's other assets."""

    def __init__(self) -> None:
        self._saved: dict[str, str] = {}

    def saver(self, file: Any) -> Callable[[str, str], str] | None:
        """What takes the drawings of the page of *file*, and gives their addresses; None where there is no site."""
        if file is None:
            return None

        def save(name: str, text: str) -> str:
            page = slug(os.path.splitext(file.src_uri)[0], "page")
            start = f"{_FOLDER}/{page}-{slug(name, 'drawing')}"
            uri, number = f"{start}.svg", 1
            while self._saved.get(uri, text) != text:
                number += 1
                uri = f"{start}-{number}.svg"
            self._saved[uri] = text
            return FROM_ROOT + quote(uri)

        return save

    def files(self, config: MkDocsConfig) -> Iterator[File]:
        """The files to write."""
        for uri, text in self._saved.items():
            yield File.generated(config, uri, content=text, inclusion=InclusionLevel.INCLUDED)

"""Printable sheets: their addresses beside their pages, and the files that a site writes for them."""

from __future__ import annotations

import hashlib
import posixpath
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from html.parser import HTMLParser
from typing import Any
from urllib.parse import quote, urljoin, urlsplit

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from ..render.addresses import own_names
from ..render.options import PageOptions, Picture
from ..render.printed import PLAIN, Printed
from ..render.sheet import render_sheet
from ..results import FileResult, PatternResult
from ..settings import Settings
from .beside_page import uri_beside, url_of
from .guarding import Faults
from .pages import PageCheck, log
from .retellings import Retellings

NORMAL, LARGE_PRINT = "sheet", "large-print"
FROM_ROOT = "stitchcheck-from-root/"  # stands for the way from a page up to the site's root


@dataclass(frozen=True, slots=True)
class _Sheeted:
    """A page whose patterns get sheets, with its first picture (address as seen from the page)."""

    page: Page
    check: PageCheck
    picture: Picture | None

    @property
    def result(self) -> FileResult:
        return self.check.result

    @property
    def text(self) -> str:
        return self.check.placed.text


def with_ways(html: str, file: Any) -> str:
    """*html* with the way from the page of *file* to each sheet and drawing. It is put in last, since a post's HTML is the same in
    every list that shows it but for this."""
    if file is None or FROM_ROOT not in html:
        return html
    way = "../" * file.url.removeprefix("./").count("/")
    return html.replace(f'href="{FROM_ROOT}', f'href="{way}').replace(f'src="{FROM_ROOT}', f'src="{way}')


class Sheets:
    """The sheets of a build on *paper* ("A4" or "Letter"); none at all where the site wants none."""

    def __init__(
        self, wanted: bool, paper: str = "A4", options: PageOptions | None = None, settings: Settings | None = None
    ) -> None:
        self._wanted = wanted
        self._retellings = Retellings(settings or Settings())
        self._paper = paper
        self._options = options or PageOptions()
        self._pages: dict[str, _Sheeted] = {}

    def page_options(
        self, file: Any, result: FileResult, pdfs: Callable[[PatternResult], Iterator[tuple[str, str]]] | None = None,
        text: str = "",
    ) -> PageOptions:
        """The options with the addresses of the sheets of the page of *file*, still without the way to them.

        *pdfs* gives (words, address from the root) of a pattern's PDFs. A draft has neither. *text* is what was checked.
        """
        if file is None:
            return self._options
        options = self._options
        if pdfs is not None:
            options = replace(options, pdf_addresses=lambda own: [(words, FROM_ROOT + quote(to)) for words, to in pdfs(own)])
        if not self._wanted:
            return options

        def address(kind: str) -> Callable[[PatternResult], str]:
            return lambda own: "" if own.draft else FROM_ROOT + quote(url_of(_uri(file, result, own, kind)))

        def other(own: PatternResult) -> str:
            if self._retellings.told(result, text, own) is None:
                return ""
            return FROM_ROOT + quote(url_of(_uri(file, result, own, self._other_kind(own))))

        return replace(
            options, sheet_address=address(NORMAL), large_print_address=address(LARGE_PRINT), other_sheet_address=other
        )

    def _other_kind(self, pattern: PatternResult) -> str:
        return f"{NORMAL}-{self._retellings.other_terms(pattern).lower()}"

    def add(self, page: Page, html: str, check: PageCheck) -> None:
        """A page has been read, and its patterns get sheets."""
        if check.result.patterns:
            self._pages[page.file.dest_uri] = _Sheeted(page, check, _first_picture(html))

    def files(self, config: MkDocsConfig, faults: Faults) -> Iterator[File]:
        """The sheets as files that the site writes beside its pages; those of testers too, which nothing leads to."""
        none: list[File] = []
        for sheeted in self._pages.values():
            for pattern in sheeted.result.patterns:
                made = partial(list[File], self._files(sheeted, pattern, config))
                yield from faults.guard("put on its sheet", sheeted.check, pattern, made, none)

    def _files(self, sheeted: _Sheeted, pattern: PatternResult, config: MkDocsConfig) -> Iterator[File]:
        """The sheets of one pattern."""
        test = test_number(sheeted.page.meta)
        if test:
            yield self._for_testers(sheeted, pattern, test, config)
        for kind in (NORMAL, LARGE_PRINT) if self._wanted and not pattern.draft else ():
            uri = _uri(sheeted.page.file, sheeted.result, pattern, kind)
            html = self._render(sheeted, sheeted.result, pattern, uri, large=kind == LARGE_PRINT)
            yield File.generated(config, uri, content=html, inclusion=InclusionLevel.INCLUDED)
        other = self._retellings.told(sheeted.result, sheeted.text, pattern) if self._wanted else None
        if other is not None:
            uri = _uri(sheeted.page.file, sheeted.result, pattern, self._other_kind(pattern))
            html = self._render(sheeted, *other, uri, large=False)
            yield File.generated(config, uri, content=html, inclusion=InclusionLevel.INCLUDED)

    def _for_testers(self, sheeted: _Sheeted, pattern: PatternResult, test: int, config: MkDocsConfig) -> File:
        """A sheet with room to write, at an address that nobody comes upon."""
        told = f"{config.site_url}\n{sheeted.page.file.src_uri}\n{pattern.title}\n{test}"
        kind = f"test-{test}-{hashlib.sha256(told.encode()).hexdigest()[:10]}"
        uri = _uri(sheeted.page.file, sheeted.result, pattern, kind)
        at = posixpath.join(config.site_url or "/", quote(url_of(uri)))
        log.info(f"Test {test} of {pattern.title or sheeted.result.path}, which nothing on the site leads to: {at}")
        html = self._render(sheeted, sheeted.result, pattern, uri, large=False, printed=Printed(test=test))
        return File.generated(config, uri, content=html, inclusion=InclusionLevel.INCLUDED)

    def _render(
        self, sheeted: _Sheeted, result: FileResult, pattern: PatternResult, uri: str, *, large: bool,
        printed: Printed = PLAIN,
    ) -> str:
        page, picture = sheeted.page, sheeted.picture
        if picture is not None and not urlsplit(picture.address).netloc:
            in_site = urljoin(f"/{page.url}", picture.address).lstrip("/")
            picture = replace(picture, address=get_relative_url(in_site, quote(url_of(uri))))
        return render_sheet(
            result, pattern, address=page.canonical_url or "", paper=self._paper, large=large,
            options=replace(self._options, picture=picture), printed=printed,
        )


def test_number(meta: Any) -> int:
    """The number of the test that a page's front matter asks for under ``test``; 0 where it asks for none."""
    given = meta.get("test")
    return given if isinstance(given, int) and not isinstance(given, bool) and 0 < given < 1000 else 0


def _uri(file: Any, result: FileResult, pattern: PatternResult, kind: str) -> str:
    """Where a sheet is written, beside its page; where a page has several patterns, the pattern's name is in it."""
    name = kind
    if len(result.patterns) > 1:
        at = next(i for i, own in enumerate(result.patterns) if own is pattern)
        name = f"{own_names([own.title for own in result.patterns])[at]}-{kind}"
    return uri_beside(file, name)


class _Pictures(HTMLParser):
    """Finds the first picture that is more than a sign in the text."""

    picture: Picture | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one opening tag."""
        found = {name: value or "" for name, value in attrs}
        if tag == "img" and self.picture is None and found.get("src") and "emoji" not in found.get("class", ""):
            self.picture = Picture(found["src"], found.get("alt", ""))


def _first_picture(html: str) -> Picture | None:
    if "<img" not in html:
        return None
    pictures = _Pictures()
    pictures.feed(html)
    return pictures.picture

"""An editor's letter beside each page with a pattern, while a site is served: for the writer, never in a built site."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from ..findings import Finding
from ..proofreading import letters
from ..render.html import el
from ..render.proofread import proofread_page
from .beside_page import uri_beside, url_of
from .guarding import Faults
from .pages import AFTER, PageCheck

NAME = "proofreading"


class Proofs:
    """The letters of a build; none where nobody serves it."""

    def __init__(self, wanted: bool) -> None:
        self._wanted = wanted
        self._pages: dict[str, tuple[Page, PageCheck]] = {}

    def with_link(self, html: str, page: Page, check: PageCheck) -> str:
        """*html* of a page, with the way to its letter where it gets one."""
        if not self._wanted or not check.result.patterns:
            return html
        self._pages[page.file.dest_uri] = page, check
        way = el("a", "what an editor would say of this page", href=get_relative_url(quote(url_of(uri_beside(page.file, NAME))), page.url))
        return f"{html}\n{el('div', el('p', 'For you alone, while you write: ', way), class_='stitchcheck')}"

    def files(self, config: MkDocsConfig, faults: Faults) -> Iterator[File]:
        """The letters as files that are served beside their pages."""
        for page, check in self._pages.values():
            uri = uri_beside(page.file, NAME)
            html = faults.guard("proofread", check, None, lambda page=page, check=check: _letter(page, check), "")  # type: ignore[misc]
            if html:
                yield File.generated(config, uri, content=html, inclusion=InclusionLevel.INCLUDED)


def _letter(page: Page, check: PageCheck) -> str:
    found = letters(check.result, lambda finding: _place(finding, check))
    return proofread_page(found, address=get_relative_url(page.url, quote(url_of(uri_beside(page.file, NAME)))))


def _place(finding: Finding, check: PageCheck) -> str:
    """The line in the writer's file, or, if the site made it, in the text after preprocessing."""
    located = check.locate(finding)
    line = f"line {located.finding.span.line}"
    return f"{line} {AFTER}" if located.path.endswith(AFTER) else line

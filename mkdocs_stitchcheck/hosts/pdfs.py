"""PDFs of a site's patterns: beside their pages for download, or in a folder of the shop that no part of the site knows."""

from __future__ import annotations

import posixpath
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.pages import Page

from ..printing import Edition, Order, PdfMissing, make_pdf, orders
from ..printing.make import weasyprint
from ..printing.names import Names
from ..printing.orders import can_be_told, named
from ..printing.photographs import Found, beside, photographs
from ..printing.record import NEW, SAME, TEXT, Record
from ..render.options import PageOptions
from ..results import PatternResult
from ..settings import Settings
from .pages import PageCheck, log

NO, DOWNLOAD, SHOP = "no", "download", "shop"
MODES = (NO, DOWNLOAD, SHOP)
_KEPT = ".cache/stitchcheck"  # beside the mkdocs.yml: PDFs for download are made only when something changed


@dataclass(frozen=True, slots=True)
class PdfChoices:
    """What a site wants: ``mode``, the ``editions``, the shop's ``folder``, ``photographs``, and ``limit`` in MB (0: none)."""

    mode: str = NO
    editions: tuple[Edition, ...] = (Edition(),)
    folder: str = "shop"
    photographs: bool = True
    limit: float = 0.0


@dataclass(slots=True)
class _Listed:
    page: Page
    check: PageCheck
    mode: str

    @property
    def folder(self) -> str:
        """The folder of the page, from the site's root."""
        return posixpath.dirname(self.page.file.dest_uri)

    @property
    def numbers(self) -> range:
        """The numbers of the page's patterns, from 0."""
        return range(len(self.check.result.patterns))

    def owner(self, index: int) -> str:
        """What stands for one of the page's patterns: the same in every build."""
        return f"{self.page.file.src_uri}#{index}"


@dataclass(slots=True)
class _Shelf:
    """The shop's folder: what was made there before, and for which patterns of those that there are (``owners``)."""

    record: Record
    owners: set[str]
    names: Names = field(default_factory=Names)

    def name(self, pattern: PatternResult, owner: str, edition: Edition) -> str:
        """The name of a PDF: one that stands there for another pattern stays as it is."""
        def name(nth: int) -> str:
            return named(pattern, edition, nth)[1]

        before = any(self.record.has_made(owner, name(nth)) for nth in range(1, len(self.record.made) + 1))
        if before:
            return self.names.of(owner, name, lambda one: self.record.has_made(owner, one))
        return self.names.of(owner, name, lambda one: self.record.free_for(owner, self.owners, one))


@dataclass(slots=True)
class Pdfs:
    """The PDFs of a build. Nothing is made while a site is being served: what was made before is shown then."""

    choices: PdfChoices = field(default_factory=PdfChoices)
    options: PageOptions = field(default_factory=PageOptions)
    settings: Settings = field(default_factory=Settings)
    serving: bool = False
    _pages: dict[str, _Listed] = field(default_factory=dict)
    _told: dict[tuple[str, str, int, Edition], bool] = field(default_factory=dict)
    _names: Names = field(default_factory=Names)

    def prepare(self, config: MkDocsConfig) -> None:
        """See that what is wanted can be had. Raises PluginError in plain words."""
        folder = self._shop(config)
        for name, place in (("docs_dir", config.docs_dir), ("site_dir", config.site_dir)):
            inside = Path(place).resolve()
            if folder.is_relative_to(inside) or inside.is_relative_to(folder):
                raise PluginError(
                    f"stitchcheck: pdf_folder is {self.choices.folder!r}, which is not apart from {name}: what is sold there "
                    "could be read by everybody. Choose a folder outside the site."
                )
        if self.choices.mode != NO and not self.serving:
            self._library()

    @staticmethod
    def _library() -> None:
        try:
            weasyprint()
        except PdfMissing as missing:
            raise PluginError(f"stitchcheck: {missing}") from None

    def _shop(self, config: MkDocsConfig) -> Path:
        return (_home(config) / self.choices.folder).resolve()

    # --- while pages are read

    def mode_of(self, meta: Any) -> str:
        """What a page's front matter asks for under ``pdf``, else what the site does."""
        return read_mode(meta.get("pdf", self.choices.mode)) or NO

    def ways(self, file: Any, check: PageCheck, pattern: PatternResult) -> Iterator[tuple[str, str]]:
        """(words, address from the site's root) of the PDFs that a page offers for download."""
        meta = getattr(getattr(file, "page", None), "meta", None) or {}
        if file is None or pattern.draft or self.mode_of(meta) != DOWNLOAD:
            return
        for edition in self.choices.editions:
            if self._can_be_told(check, pattern, edition):
                index = _index(check, pattern)
                yield f"PDF, {named(pattern, edition)[0].words}", self._address(file, pattern, index, edition)

    def _address(self, file: Any, pattern: PatternResult, index: int, edition: Edition) -> str:
        """Where a PDF for download stands, from the site's root."""
        folder = posixpath.dirname(file.dest_uri)
        return self._names.of(f"{file.dest_uri}#{index}", lambda nth: posixpath.join(folder, named(pattern, edition, nth)[1]))

    def _can_be_told(self, check: PageCheck, pattern: PatternResult, edition: Edition) -> bool:
        index = _index(check, pattern)
        key = (check.result.path, check.placed.text, index, edition)
        if key not in self._told:
            self._told[key] = not can_be_told(check.result, index, edition, check.placed.text, self.settings)
        return self._told[key]

    def add(self, page: Page, check: PageCheck) -> None:
        """A page has been read."""
        given = page.meta.get("pdf")
        if given is not None and read_mode(given) is None:
            log.warning(f"{check.result.path}: pdf is {given!r} in its front matter; it can be no, download or shop.")
        if check.result.patterns and self.mode_of(page.meta) != NO:
            self._pages[page.file.dest_uri] = _Listed(page, check, self.mode_of(page.meta))

    # --- after the site is written

    def make(self, config: MkDocsConfig) -> None:
        """Make what is new or has changed, and say what has. Raises PluginError where a PDF can't be made or written."""
        changed: list[str] = []
        waiting = 0
        shelf = _Shelf(Record.of(self._shop(config)), {own.owner(i) for own in self._pages.values() for i in own.numbers})
        for listed in self._pages.values():
            try:
                waiting += self._make_all(listed, shelf, changed, config)
            except PluginError:
                raise
            except Exception as error:  # noqa: BLE001 - the site is written; one plain sentence names the page
                log.debug("A fault in making PDFs", exc_info=error)
                raise PluginError(
                    f"stitchcheck: the PDFs of {listed.check.result.path} can't be made ({error!r:.200}). The site itself is whole."
                ) from None
        self._say(changed, waiting)

    def _make_all(self, listed: _Listed, shelf: _Shelf, changed: list[str], config: MkDocsConfig) -> int:
        """Make those of one page; add to *changed* what has another text now. How many are left for a build."""
        waiting = 0
        record = shelf.record if listed.mode == SHOP else Record.of(_home(config) / _KEPT / listed.folder)
        for index, order in self._orders(listed, shelf, config):
            state = record.state(order)
            if state == TEXT:
                changed.append(order.name)
            if state != SAME and self.serving:
                waiting += 1
            elif state != SAME:
                self._make(order, record, listed.owner(index))
            if listed.mode == DOWNLOAD and (record.folder / order.name).is_file():
                place = Path(config.site_dir, listed.folder, order.name)
                place.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(record.folder / order.name, place)
        return waiting

    def _orders(self, listed: _Listed, shelf: _Shelf, config: MkDocsConfig) -> Iterator[tuple[int, Order]]:
        check = listed.check
        found = self._photographs(listed, config)
        for index, pattern in enumerate(check.result.patterns):
            if pattern.draft:
                continue
            for order in orders(
                check.result, index, self.choices.editions, text=check.placed.text, settings=self.settings,
                address=listed.page.canonical_url or "", options=self.options, photographs=found,
            ):  # fmt: skip
                if order.problem:
                    log.warning(f"{check.result.path}: {order.problem}")
                elif listed.mode == SHOP:
                    yield index, replace(order, name=shelf.name(pattern, listed.owner(index), order.edition))
                else:
                    address = self._address(listed.page.file, pattern, index, order.edition)
                    yield index, replace(order, name=posixpath.basename(address))

    def _photographs(self, listed: _Listed, config: MkDocsConfig) -> list[Found]:
        source = listed.page.file.abs_src_path
        if source is None or not self.choices.photographs:
            return []
        found, missing = photographs(listed.check.placed.text, beside(Path(source), Path(config.docs_dir)))
        for address in missing:
            log.info(f"{listed.check.result.path}: the photograph {address} is not among the site's files; the PDF has none.")
        return found

    def _make(self, order: Order, record: Record, owner: str) -> None:
        if self.choices.mode == NO:  # a page's own wish; the site's was seen to at the start
            self._library()
        new = record.state(order) == NEW
        try:
            pdf, said = make_pdf(order, self.choices.limit)
            path = record.keep(order, pdf, owner)
        except OSError as error:
            raise PluginError(f"stitchcheck: {order.name} can't be written: {error.strerror or error}.") from None
        except Exception as error:  # noqa: BLE001 - whatever it is: the site is written, and it is said plainly
            log.debug("A fault in making a PDF", exc_info=error)
            raise PluginError(f"stitchcheck: {order.name} can't be made ({error!r:.200}). The site itself is whole.") from None
        log.info(f"{'New' if new else 'Made anew'}: {path}" + (f" ({said})" if said else ""))

    def _say(self, changed: list[str], waiting: int) -> None:
        if changed:
            names = "\n".join(f"  {name}" for name in changed)
            what = "to be made anew by a build" if self.serving else "now made anew"
            log.info(
                f"PDFs whose text changed since they were made, {what}:\n{names}\n"
                "  Where the old one is out already, give the pattern a new Version and say what changed "
                "(stitchcheck corrections)."
            )
        if waiting:
            log.info(f"{waiting} PDF{'' if waiting == 1 else 's'} not made while the site is served; mkdocs build makes them.")


def read_mode(given: object) -> str | None:
    """``no``, ``download`` or ``shop``; None for anything else. YAML reads a bare ``no`` as false."""
    if given is False or given is None:
        return NO
    mode = str(given).strip().lower()
    return mode if mode in MODES else None


def _index(check: PageCheck, pattern: PatternResult) -> int:
    return next(i for i, own in enumerate(check.result.patterns) if own is pattern)


def _home(config: MkDocsConfig) -> Path:
    return Path(config.config_file_path).resolve().parent if config.config_file_path else Path.cwd()


"""The MkDocs plugin ``stitchcheck``: every page's patterns are checked, and a slip fails the build before a page is written.

ProperDocs runs it too. The Markdown extension shows the blocks; the plugin brings it along, with the stylesheet and the
printable sheets. Findings are logged one by one and the build is stopped once, after all pages are read.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from itertools import chain
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from ..findings import Severity
from ..render.assets import script, stylesheet
from ..render.options import CautionWords, PageOptions
from ..settings import Settings
from .guarding import Faults
from .index_page import Drawings, IndexPage, add_tags
from .machine_data import machine_data
from .markdown_extension import StitchcheckExtension
from .pages import Collection, PageCheck, PlacedFinding, check_page, forget_shown, log, may_hold_pattern
from .pdfs import Pdfs
from .plugin_options import StitchcheckConfig
from .proofs import Proofs
from .sheets import Sheets, with_ways
from .telling import log_slips, log_sum
from .whereabouts import of_file

STYLESHEET = "assets/stitchcheck.css"
SCRIPT = "assets/stitchcheck.js"
_NAMES = ("stitchcheck", StitchcheckExtension.__module__, f"{StitchcheckExtension.__module__}:StitchcheckExtension")


class StitchcheckPlugin(BasePlugin[StitchcheckConfig]):  # type: ignore[no-untyped-call]
    """The plugin. One object lives through all builds of a ``serve``."""

    def __init__(self) -> None:
        self.settings = Settings()
        self.show_findings = False
        self._serving = False
        self._builds = 0
        self._forget()

    def _forget(self) -> None:
        forget_shown()
        self._collection = Collection()
        self._faults = Faults()
        self._data: dict[str, str] = {}
        self._converted: dict[str, tuple[list[PageCheck], list[PlacedFinding]]] = {}
        self._sheets = Sheets(False)
        self._index = IndexPage()
        self._drawings = Drawings()
        self._proofs = Proofs(False)
        self._pdfs = Pdfs()

    # --- before pages are read

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Note the command; having this event is what keeps the object alive between the builds of a serve."""
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig | None:
        """Begin anew, bring in the Markdown extension, stylesheet and script; other fences of the site stay as they are."""
        if not self.config.enabled:
            return None
        if self._builds == 0:
            self._forget()
        self._builds += 1  # i18n builds one language within the other: what was told once isn't told again
        self.settings = self.config.settings(config.docs_dir, config.strict)
        self.show_findings = self._serving
        options = PageOptions(caution=CautionWords(**self.config.caution), charts=self.config.charts)
        self._index = IndexPage(self.config.index)
        self._sheets = Sheets(self.config.sheet, self.config.paper, options, self.settings)
        self._proofs = Proofs(self._serving)
        self._pdfs = Pdfs(self.config.pdfs(), options, self.settings, self._serving)
        self._pdfs.prepare(config)
        self._add_extension(config)
        if STYLESHEET not in config.extra_css:
            config.extra_css.insert(0, STYLESHEET)  # first, so that the site's own styles win
        if SCRIPT not in config.extra_javascript:
            config.extra_javascript.append(SCRIPT)
        return config

    def _add_extension(self, config: MkDocsConfig) -> None:
        extensions: list[Any] = config.markdown_extensions  # mkdocs hands objects on to Markdown as it does names
        own = StitchcheckExtension(site=self)
        given = [at for at, name in enumerate(extensions) if name in _NAMES or isinstance(name, StitchcheckExtension)]
        for at in reversed(given[1:]):
            del extensions[at]
        if given:
            extensions[given[0]] = own
        else:
            extensions.append(own)
        if any(config.mdx_configs.get(name) for name in _NAMES):
            log.warning(
                "The options of the Markdown extension stitchcheck don't count beside the plugin: move them to the plugin."
            )

    @event_priority(-200)  # after i18n, which expects every file to lie on disk
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add stylesheet and script, unless the site has its own in their place, and the list of patterns."""
        if not self.config.enabled:
            return files
        for path, content in ((STYLESHEET, stylesheet), (SCRIPT, script)):
            if files.get_file_from_path(path) is None:
                files.append(File.generated(config, path, content=content()))
        self._index.make(files, config)
        return files

    # --- while pages are read

    @event_priority(100)  # before a tags plugin reads them
    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str | None:
        """Give a page the tags of its patterns, where the site asks for it."""
        if self.config.enabled and self.config.tags and may_hold_pattern(markdown):
            where = of_file(page.file)
            check = check_page(markdown, where.path, where.file_text, self.settings)
            self._faults.guard("given its tags", check, None, lambda: add_tags(page, check.result), None)
        return None

    def options_for(self, file: Any, check: PageCheck) -> PageOptions:
        """Choices for a page, as its conversion asks for them."""
        pdfs = partial(self._pdfs.ways, file, check)
        return replace(self._sheets.page_options(file, check.result, pdfs, check.placed.text), save_drawing=self._drawings.saver(file))

    def finished(self, html: str, file: Any) -> str:
        """A block's HTML with the ways to its sheets from where it is shown."""
        return with_ways(html, file)

    def converted(self, given: str, checks: list[PageCheck], found: list[PlacedFinding]) -> None:
        """Keep what a conversion came to, until it is known whether it was that of a page."""
        self._converted[given] = checks, found

    @event_priority(-100)
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Take in what was found on a page. Lists of posts are no pages of their own and never come here."""
        text = page.markdown or ""
        if not self.config.enabled:
            return html
        self._index.come_by(page)
        if not may_hold_pattern(text) and text not in self._converted:
            return html
        checks, besides = self._converted.pop(text, ([], []))
        if not checks:  # another plugin made the HTML by a way of its own
            where = of_file(page.file)
            checks = [check_page(text, where.path, where.file_text, self.settings)]
        for check in checks:
            self._collection.add(check)
        self._collection.add_found(besides)
        check, address = checks[0], page.canonical_url or ""
        self._sheets.add(page, html, check)
        self._index.add(page, check)
        self._pdfs.add(page, check)
        self._data[page.file.dest_uri] = self._faults.guard(
            "described to machines", check, None, lambda: machine_data(check.result, address), ""
        )
        return self._proofs.with_link(html, page, check)

    # --- after pages are read, before any is written

    @event_priority(100)
    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:
        """Log what was found; stop the build if any of it fails, unless the site is being served."""
        if not self.config.enabled:
            return env
        self._tell_and_stop(config)
        log_sum(self._collection, self.settings.strict)
        self._index.fill(self._faults)
        made = (self._sheets.files(config, self._faults), self._drawings.files(config), self._proofs.files(config, self._faults))
        pages = {file.dest_uri: file.src_uri for file in files.documentation_pages()}
        for file in chain(*made):
            if file.dest_uri in pages:
                log.warning(f"{pages[file.dest_uri]} stands where stitchcheck would put a file of its own, which is left out.")
            else:
                files.append(file)
        self._tell_and_stop(config)
        return env

    def _tell_and_stop(self, config: MkDocsConfig) -> None:
        """Log what was not told yet. Raises PluginError where anything fails, unless the site is being served."""
        self._collection.add_found(self._faults.found)
        log_slips(self._collection.untold(), quiet=self._serving and config.strict)  # mkdocs would hang every request for a warning
        failing = [found for found in self._collection.found if found.finding.fails(self.settings.strict)]
        if failing and not self._serving:
            log_sum(self._collection, self.settings.strict)
            raise PluginError(_stopped(failing))

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put what machines read into the page's head."""
        data = self._data.get(page.file.dest_uri, "") if self.config.enabled else ""
        return output.replace("</head>", f"{data}\n</head>", 1) if data else output

    # --- the end of a build

    @event_priority(-200)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """A build has ended well: the PDFs are made."""
        self._builds = max(self._builds - 1, 0)
        if self.config.enabled:
            self._pdfs.make(config)

    def on_build_error(self, *, error: Exception) -> None:
        """A build has ended badly, and every build around it does."""
        self._builds = 0


def _stopped(failing: list[PlacedFinding]) -> str:
    slips = {(found.path, found.finding.pattern, found.finding.group or found.key): found.finding for found in failing}
    errors = sum(finding.severity is Severity.ERROR for finding in slips.values())
    warnings = len(slips) - errors
    parts = [f"{n} {word}{'' if n == 1 else 's'}" for n, word in ((errors, "error"), (warnings, "warning")) if n]
    pages = len({found.path for found in failing})
    where = "1 page" if pages == 1 else f"{pages} pages"
    return f"stitchcheck: {' and '.join(parts)} on {where}, listed above. No page was written."

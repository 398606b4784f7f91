"""A page's way through a Markdown converter.

The whole page is read, not single fences: a pattern goes on from block to block. It is looked at as given, again when
snippets are put in, and the blocks are replaced just before any other extension reads fences, so that it makes no
difference which of those there are and in what order. A fence that only superfences find is taken in their formatter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Protocol
from weakref import WeakKeyDictionary

from markdown import Extension, Markdown
from markdown.postprocessors import Postprocessor
from markdown.preprocessors import Preprocessor

from ..render.options import PageOptions
from ..settings import Settings
from .pages import Collection, PageCheck, PlacedFinding, Spot, check_page, may_hold_pattern
from .showing import Showing
from .telling import log_slips
from .whereabouts import Whereabouts

if TYPE_CHECKING:
    from .markdown_extension import StitchcheckExtension

_AS_GIVEN = 33  # snippets are put in at 32
_WITH_SNIPPETS = 31.5  # critic marks are read at 31.1
_BEFORE_FENCES = 26  # white space is made even at 30, which would take our marks away; fences are read at 25
_AFTER_ALL = -10

_FENCE_AROUND = "~" * 30  # around a body by itself; no writer's fence is as long


class Site(Protocol):
    """What a conversion asks of the plugin."""

    settings: Settings
    show_findings: bool

    def options_for(self, file: Any, check: PageCheck) -> PageOptions:
        """Choices for showing the page of *file* (an mkdocs File)."""

    def finished(self, html: str, file: Any) -> str:
        """A block's *html* as it stands on the page of *file*, of which a list of posts has another address."""

    def converted(self, given: str, checks: list[PageCheck], found: list[PlacedFinding]) -> None:
        """The page with the Markdown *given* has been converted: what was checked for it, and found besides."""


# What the extension alone has logged, by the files object of an mkdocs build: a blog converts a post for every list.
_logged: WeakKeyDictionary[Any, Collection] = WeakKeyDictionary()


class Conversion(Extension):
    """What one converter knows of the page at hand. From page to page only what was logged is kept."""

    def __init__(self, md: Markdown, extension: StitchcheckExtension) -> None:
        super().__init__()
        self.md = md
        self.extension = extension
        self.site = extension.site
        self.settings = extension.own_settings if self.site is None else self.site.settings
        self._own_log = Collection()
        self._begin("")

    def register(self) -> None:
        """Take a place among the readers of the converter."""
        self.md.registerExtension(self)
        self.md.preprocessors.register(_Step(self.md, self._look_at_given), "stitchcheck_given", _AS_GIVEN)
        self.md.preprocessors.register(_Step(self.md, self._look_again), "stitchcheck_included", _WITH_SNIPPETS)
        self.md.preprocessors.register(_Step(self.md, self._replace), "stitchcheck", _BEFORE_FENCES)
        self.md.postprocessors.register(_End(self.md, self._end), "stitchcheck", _AFTER_ALL)

    def reset(self) -> None:
        """Forget what was logged: Python-Markdown calls it between documents of their own."""
        self._own_log = Collection()

    # --- the steps, in their order

    def _begin(self, given: str) -> None:
        self._given = given
        self._where = Whereabouts()
        self._checks: list[PageCheck] = []
        self._showing: Showing | None = None
        self._strays: list[tuple[str, PageCheck]] = []
        self._formatted: Counter[str] = Counter()

    def _look_at_given(self, lines: list[str]) -> list[str]:
        self._begin("\n".join(lines))
        self._join_superfences()
        return lines

    def _look_again(self, lines: list[str]) -> list[str]:
        text = "\n".join(lines)
        if may_hold_pattern(text):
            self._where = Whereabouts.of(self.md, str(self.extension.getConfig("path")))
            self._check(text)
        return lines

    def _check(self, text: str) -> Showing:
        check = check_page(text, self._where.path, self._where.file_text, self.settings)
        self._showing = Showing(check, self._where.file, self.site, self.settings.terms == "both")
        return self._showing

    def _replace(self, lines: list[str]) -> list[str]:
        text = "\n".join(lines)
        if self._showing is None or not may_hold_pattern(text):
            self._stop_at_slips()
            return lines
        spots = self._showing.pair(text)
        if spots is None:  # an extension between has changed a block: what is shown is what must be checked
            self._showing = self._check(text)
            spots = self._showing.pair(text) or []
        self._stop_at_slips()
        for spot in reversed(spots):
            lines[spot.start : spot.end] = self._stash(self._showing.show(spot.block), spot, lines)
        return lines + self._outside()

    def _end(self, html: str) -> str:
        # Some extensions run this for parts of a page, too (toc for each heading): the page itself comes last.
        if self._showing is None:
            return html
        checks = [self._showing.check, *(check for made, check in self._strays if made in html)]
        besides = self._showing.besides()
        if self.site is not None:
            self.site.converted(self._given, checks, besides)
            return html
        log = self._own_log
        if self._where.build is not None:
            log = _logged.setdefault(self._where.build, Collection())
        for check in checks:
            log.add(check)
        log.add_found(besides)
        untold = log.untold()
        if untold:
            log_slips(untold)
        return html

    # --- what the steps do

    def _stash(self, html: str, spot: Spot, lines: list[str]) -> list[str]:
        """The lines that stand for a block, in the same list, quote or tab and as a paragraph of their own."""
        before = lines[spot.start][: spot.column]
        blank = before[: before.rfind(">") + 1]
        above, below = lines[: spot.start][-1:], lines[spot.end : spot.end + 1]
        mark = [before + self.md.htmlStash.store(html)]
        return [*_parted(above, blank), *mark, *_parted(below, blank)]

    def _outside(self) -> list[str]:
        """Lines at the page's end for what was found outside every block, where findings are shown."""
        html = self._showing.outside() if self._showing is not None else ""
        return ["", self.md.htmlStash.store(html), "", ""] if html else []

    def _stop_at_slips(self) -> None:
        if self._showing is None or self.site is not None or self.extension.on_slip != "stop":
            return
        check = self._showing.check
        if check.result.fails(self.settings.strict):
            from .stopping import slip_of  # brings in mkdocs and superfences, which plain Python-Markdown goes without

            raise slip_of(check, self.settings.strict)

    # --- fences that only superfences find

    def _join_superfences(self) -> None:
        try:
            superfences = getattr(self.md.preprocessors["fenced_code_block"], "extension", None)
        except KeyError:
            return
        extend = getattr(superfences, "extend_super_fences", None)
        if superfences is None or extend is None or any(entry["name"] == "crochet" for entry in superfences.superfences):
            return
        try:
            extend("crochet", _format, _accept, None)
        except TypeError:  # before 12.1
            extend("crochet", _format, _accept)

    def format(self, body: str) -> str:
        """The HTML of a fence with *body*. Called also for text that never is on the page, so nothing is told here."""
        if self._showing is not None:
            index = self._showing.index_of(body, self._formatted[body])
            self._formatted[body] += 1
            if index is not None:
                return self._showing.show(index)
        text = f"{_FENCE_AROUND}crochet\n{body}\n{_FENCE_AROUND}\n"
        stray = check_page(text, self._where.path, self._where.file_text or "", self.settings)
        html = Showing(stray, self._where.file, self.site, self.settings.terms == "both").show(0)
        self._strays.append((html, stray))
        return html


def _parted(neighbor: list[str], blank: str) -> list[str]:
    """A blank line where the *neighbor* of a block is text of the same quote or list, else nothing."""
    text = neighbor[0] if neighbor else ""
    return [blank] if text.strip("> ") and (not blank or ">" in text) else []


def _format(src: str = "", language: str = "", md: Markdown | None = None, **_others: object) -> str:
    return _conversion_of(md).format(src)


def _accept(language: str, inputs: object, options: object, attrs: object, md: Markdown) -> bool:
    """Every option is accepted: superfences show the bare text of a fence with one that is not. A wrong one is found."""
    return True


def _conversion_of(md: Markdown | None) -> Conversion:
    for extension in md.registeredExtensions if md is not None else ():
        if isinstance(extension, Conversion):
            return extension
    raise LookupError("the converter has no stitchcheck")


class _Step(Preprocessor):
    """A step of a conversion as a preprocessor."""

    def __init__(self, md: Markdown, step: Callable[[list[str]], list[str]]) -> None:
        super().__init__(md)
        self.run = step  # type: ignore[method-assign, assignment]


class _End(Postprocessor):
    """The last step of a conversion."""

    def __init__(self, md: Markdown, step: Callable[[str], str]) -> None:
        super().__init__(md)
        self.run = step  # type: ignore[method-assign, assignment]

"""The options of the MkDocs plugin: a wrong one is an error, also an unknown one, which MkDocs only warns of."""

from __future__ import annotations

from mkdocs.config import config_options as c
from mkdocs.config.base import Config, ConfigErrors, ConfigWarnings, ValidationError

from ..printing import Edition, read_editions
from ..settings import SETTING_NAMES, SITE_KEYS, Settings, SettingsError, read_settings
from .pdfs import PdfChoices, read_mode

_WHERE = "plugin stitchcheck"
_CAUTIONS = ("materials", "step", "cords")


class StitchcheckConfig(Config):  # type: ignore[no-untyped-call]
    """The plugin's options: these, and the settings of :class:`~mkdocs_stitchcheck.settings.Settings`.

    ``enabled: false`` makes the plugin do nothing at all. ``sheet``: a printable sheet for every pattern, on ``paper``.
    ``charts``: where they are usual (``auto``), for every piece (``all``), or only where ``Show: chart`` asks (``none``).
    ``index``: the page of the docs, written by hand or not, that ends in the list of all patterns. ``tags``: pages get
    tags from their patterns, for a tags plugin.
    ``pdf``: ``no``, for ``download`` beside the pages, or for the ``shop`` in ``pdf_folder``, which is no part of the site.
    ``pdf_editions`` such as "US A4" and "UK large print"; ``pdf_photographs`` false leaves them out, ``pdf_limit`` is in MB.
    ``caution``: the owner's own words for the cautions, under ``materials``, ``step`` and ``cords``; none can be dropped.
    """

    enabled = c.Type(bool, default=True)
    sheet = c.Type(bool, default=True)
    paper = c.Choice(("A4", "Letter"), default="A4")
    caution = c.Type(dict, default={})
    charts = c.Choice(("auto", "all", "none"), default="auto")
    index = c.Type(str, default="")
    tags = c.Type(bool, default=False)
    pdf = c.Optional(c.Type(object))
    pdf_folder = c.Type(str, default="shop")
    pdf_editions = c.Type(list, default=[])
    pdf_photographs = c.Type(bool, default=True)
    pdf_limit = c.Type((int, float), default=0)
    # Read by read_settings, which says in plain words what is wrong and what is near.
    severities = c.Optional(c.Type(object))
    strict = c.Optional(c.Type(object))
    not_yet = c.Optional(c.Type(object))
    terms = c.Optional(c.Type(object))
    yarn_margin = c.Optional(c.Type(object))
    house_style = c.Optional(c.Type(object))

    def validate(self) -> tuple[ConfigErrors, ConfigWarnings]:
        """As MkDocs does it, but that an unknown option is an error."""
        failed, warnings = super().validate()
        warnings = [warning for warning in warnings if warning[0] not in self._unknown()]
        failed += [(key, ValidationError(problem)) for key, problem in self._problems()]
        return failed, warnings

    def _unknown(self) -> set[str]:
        return {str(key) for key in self} - set(SETTING_NAMES) - set(SITE_KEYS)

    def _problems(self) -> list[tuple[str, str]]:
        problems = []
        try:
            self.settings("", False)
        except SettingsError as error:
            problems += [("settings", problem) for problem in error.problems]
        for key, words in (self.caution if isinstance(self.caution, dict) else {}).items():
            if key not in _CAUTIONS:
                problems.append(("caution", f"there is no {key!r}; there is: {', '.join(_CAUTIONS)}."))
            elif not isinstance(words, str):
                problems.append(("caution", f"{key} is text, not {words!r}."))
        if read_mode(self.pdf) is None:
            problems.append(("pdf", f"it can be no, download or shop, not {self.pdf!r}."))
        if isinstance(self.pdf_limit, int | float) and self.pdf_limit < 0:
            problems.append(("pdf_limit", f"it is a number of megabytes, not {self.pdf_limit!r}."))
        try:
            read_editions(self.pdf_editions or ())
        except ValueError as error:
            problems.append(("pdf_editions", str(error)))
        return problems

    def pdfs(self) -> PdfChoices:
        """What is wanted of PDFs; without a list one edition, in the pattern's own terms."""
        editions = read_editions(self.pdf_editions, self.paper) or (Edition(paper=self.paper),)
        return PdfChoices(read_mode(self.pdf) or "no", editions, self.pdf_folder, self.pdf_photographs, float(self.pdf_limit))

    def settings(self, docs_dir: str, strict: bool) -> Settings:
        """The settings for the pages in *docs_dir*; *strict* where the site is built so. Raises SettingsError."""
        given = {key: value for key, value in self.items() if value is not None}
        settings = read_settings(given, _WHERE, docs_dir, SITE_KEYS)
        return settings.with_(strict=True) if strict else settings

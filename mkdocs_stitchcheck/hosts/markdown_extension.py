"""The Python-Markdown extension ``stitchcheck``: pattern blocks become tables, and what was found is told.

Alone it logs what it finds, each once, and shows it in the page; under the MkDocs plugin it hands it over.
How a page goes through a converter is in ``conversion.py``.
"""

from __future__ import annotations

import os
from typing import Any

from markdown import Extension, Markdown

from ..settings import SettingsError, near, read_settings
from .conversion import Conversion, Site

ON_SLIP = ("show", "stop")
_WHERE = "Markdown extension stitchcheck"


class StitchcheckExtension(Extension):
    """Shows pattern blocks as tables and checks the page that they stand on.

    Options: ``on_slip`` ("show": log it and show it at its round; "stop": raise
    :class:`~mkdocs_stitchcheck.hosts.stopping.PatternSlip` once for a page with something that fails), ``path`` (the
    page's path in messages, where the host doesn't tell it), and the settings of
    :class:`~mkdocs_stitchcheck.settings.Settings`. ``site`` is the plugin, where it runs under one.
    Raises :class:`~mkdocs_stitchcheck.settings.SettingsError` for an unknown option and for an unusable value.
    """

    def __init__(self, site: Site | None = None, **options: Any) -> None:
        self.config = {
            "on_slip": ["show", "What to do about a page where something fails: show or stop"],
            "path": ["", "The page's path in messages"],
        }
        super().__init__()
        self.site = site
        self.own_settings = read_settings(options, _WHERE, os.getcwd() if options.get("not_yet") else "", self.config)
        for name in set(options) & set(self.config):
            self.setConfig(name, options[name])
        if self.on_slip not in ON_SLIP:
            raise SettingsError([f"{_WHERE}: on_slip can't be {self.on_slip!r}{near(str(self.on_slip), ON_SLIP)}"])

    @property
    def on_slip(self) -> object:
        """"show" or "stop"."""
        return self.getConfig("on_slip")

    def extendMarkdown(self, md: Markdown) -> None:
        """Take part in the conversions of *md*; one extension may serve many converters."""
        Conversion(md, self).register()


def makeExtension(**options: Any) -> StitchcheckExtension:
    """The extension with *options*: Python-Markdown asks for it so where it is named by its module."""
    return StitchcheckExtension(**options)

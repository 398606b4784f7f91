"""Which page a Markdown converter is at: no host tells an extension, but each leaves a trace."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from typing import Any

from markdown import Markdown

UNKNOWN = "<text>"
_READERS = ("pelican", "nikola")  # while these convert a page, its path is in their variable source_path


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """A page's path as a writer would name it and its file's text, as far as known.

    ``file`` is the File of MkDocs, ``build`` an object that lives as long as one build of it.
    """

    path: str = UNKNOWN
    file_text: str | None = None
    file: Any = None
    build: Any = None

    @classmethod
    def of(cls, md: Markdown, path: str = "") -> Whereabouts:
        """Where *md* is: as MkDocs or Zensical tell it, else *path*, which somebody configured, else what reads the page."""
        for processor in md.treeprocessors:
            file = getattr(processor, "file", None)
            if file is not None and hasattr(file, "src_uri"):
                return of_file(file, getattr(processor, "files", None))
        for preprocessor in md.preprocessors:
            page_path = getattr(getattr(preprocessor, "page", None), "path", None)
            if isinstance(page_path, str):
                return _of_context(page_path, getattr(preprocessor, "config", None))
        path = path or _path_of_reader()
        return cls(shown_path(path), _read(path)) if path else cls()


def of_file(file: Any, build: Any = None) -> Whereabouts:
    """Where the File *file* of MkDocs is; a page that a plugin made has its address among the sources for a path."""
    path = shown_path(file.abs_src_path) if file.abs_src_path else file.src_uri
    try:
        text = file.content_string
    except (OSError, UnicodeDecodeError):
        text = None
    return Whereabouts(path, text, file, build)


def shown_path(path: str) -> str:
    """*path* as seen from where the build was started, if it lies below: what an editor or a CI page can open."""
    try:
        near = os.path.relpath(path)
    except ValueError:  # another drive on Windows
        return path
    return path if near.startswith("..") else near.replace(os.sep, "/")


def _of_context(path: str, config: object) -> Whereabouts:
    """Zensical: its rendering context holds the path below the folder of the pages."""
    docs = config.get("docs_dir") if isinstance(config, dict) else None
    for candidate in (os.path.join(docs, path) if isinstance(docs, str) else path, path):
        text = _read(candidate)
        if text is not None:
            return Whereabouts(shown_path(candidate), text)
    return Whereabouts(path)


def _path_of_reader() -> str:
    """The path of the page that Pelican or Nikola is reading just now; "" where it is neither."""
    frame = sys._getframe()
    while (caller := frame.f_back) is not None:
        frame = caller
        if str(frame.f_globals.get("__name__")).partition(".")[0] in _READERS:
            path = frame.f_locals.get("source_path")
            if isinstance(path, str):
                return path
    return ""


def _read(path: str) -> str | None:
    try:
        with open(path, encoding="utf-8-sig") as opened:
            return opened.read()
    except (OSError, ValueError):
        return None

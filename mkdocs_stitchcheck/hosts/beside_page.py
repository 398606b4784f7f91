"""Addresses beside a page: ``seal/sheet/`` below ``seal/``, or ``seal-sheet.html`` beside ``seal.html``."""

from __future__ import annotations

import posixpath
from typing import Any


def uri_beside(file: Any, name: str) -> str:
    """Where a file *name* of its own is written for the page of *file*: ``seal/sheet/index.html`` or ``seal-sheet.html``."""
    folder, page = posixpath.split(file.dest_uri)
    if page == "index.html" and file.use_directory_urls:
        return posixpath.join(folder, name, "index.html")
    return posixpath.join(folder, f"{posixpath.splitext(page)[0]}-{name}.html")


def url_of(uri: str) -> str:
    """How a file that is written at *uri* is linked to: an index by its folder."""
    folder, page = posixpath.split(uri)
    return f"{folder}/" if page == "index.html" else uri

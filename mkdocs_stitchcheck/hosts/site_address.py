"""Where a page of a MkDocs site is published, as far as its mkdocs.yml says it without being run."""

from __future__ import annotations

import os
import re
from pathlib import Path
from urllib.parse import quote

from ..files import MARKDOWN

_LINE = re.compile(r"^(site_url|docs_dir|use_directory_urls):[ \t]*+['\"]?([^'\"#\n]*+)['\"]?[ \t]*+(?:#.*)?$", re.MULTILINE)
_OWN_ADDRESSES = re.compile(r"^[ \t]*-[ \t]+(?:[\w-]+/)?blog\b", re.MULTILINE)  # it puts dates into its posts' addresses


def address_of(path: str) -> str:
    """The address of the page *path*; "" where no mkdocs.yml above it tells: no site_url, or a blog plugin's post."""
    page = Path(os.path.abspath(path))
    if page.suffix.lower() not in MARKDOWN:
        return ""
    for folder in page.parents:
        settings = folder / "mkdocs.yml"
        if settings.is_file():
            return _address(page, folder, settings)
    return ""


def _address(page: Path, folder: Path, settings: Path) -> str:
    try:
        text = settings.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError):
        return ""
    said = {name: value.rstrip() for name, value in _LINE.findall(text)}
    docs = folder / (said.get("docs_dir") or "docs")
    if not said.get("site_url", "").startswith(("http://", "https://")) or not page.is_relative_to(docs):
        return ""
    place = page.relative_to(docs).with_suffix("")
    if _OWN_ADDRESSES.search(text) and "posts" in place.parts:
        return ""
    home = said["site_url"].rstrip("/")
    name = "/".join(place.parts)
    if place.name.lower() in ("index", "readme"):
        name = "/".join(place.parts[:-1])
        return f"{home}/{quote(name)}/" if name else f"{home}/"
    return f"{home}/{quote(name)}" + (".html" if said.get("use_directory_urls", "").lower() == "false" else "/")

"""Whole sites built by MkDocs: with the plugin, and the same pages with something else in place of the patterns."""

from __future__ import annotations

import os
import re
import tempfile

from markdown import Markdown

from .corpus import CODE, blog_page
from .measuring import spent, table

_FENCE = re.compile(r"^```crochet\n(.*?)^```\n", re.MULTILINE | re.DOTALL)
_CONFIG = "site_name: Bench\ntheme: mkdocs\nuse_directory_urls: false\nnot_in_nav: '/posts/*'\n"
_HIGHLIGHT = "markdown_extensions:\n  - pymdownx.superfences\n  - pymdownx.highlight:\n      use_pygments: true\n"
SITES = {
    "fenced_code": "plugins: []\nmarkdown_extensions: [fenced_code]\n",
    "finished HTML": "plugins: []\nmarkdown_extensions: [fenced_code]\n",
    "Pygments": f"plugins: []\n{_HIGHLIGHT}",
    "stitchcheck, no charts, no sheets": "plugins:\n  - stitchcheck:\n      charts: none\n      sheet: false\n",
    "stitchcheck": "plugins: [stitchcheck]\n",
}


def _page(site: str, number: int) -> str:
    text = blog_page(number)
    if site == "fenced_code":
        return text.replace("```crochet", "```text")
    if site == "Pygments":
        return _FENCE.sub(lambda _match: f"```python\n{CODE}```\n", text)
    if site == "finished HTML":
        return _FENCE.sub(lambda match: f"\n{Markdown(extensions=['stitchcheck']).convert(match[0])}\n", text)
    return text


def sites(sizes: tuple[int, ...]) -> None:
    """Each kind of site in each size; costs over the site with plain fences, a page."""
    rows = []
    for pages in sizes:
        plain = 0.0
        for site, config in SITES.items():
            with tempfile.TemporaryDirectory() as folder:
                _write(folder, site, config, pages)
                seconds, most = spent("-m", "mkdocs", "build", "-q", cwd=folder, times=3 if pages < 1_000 else 1, fine=(0,))
            plain = plain or seconds  # the first of them
            rows.append((pages, site, seconds, seconds / plain, (seconds - plain) / pages * 1000, most))
    table(("pages", "site", "s", "to fenced_code", "ms more a page", "MB at most"), rows)


def _write(folder: str, site: str, config: str, pages: int) -> None:
    os.makedirs(os.path.join(folder, "docs", "posts"))
    with open(os.path.join(folder, "mkdocs.yml"), "w", encoding="utf-8") as file:
        file.write(_CONFIG + config)
    with open(os.path.join(folder, "docs", "index.md"), "w", encoding="utf-8") as file:
        file.write("# Bench\n")
    for number in range(pages):
        with open(os.path.join(folder, "docs", "posts", f"page{number}.md"), "w", encoding="utf-8") as file:
            file.write(_page(site, number))

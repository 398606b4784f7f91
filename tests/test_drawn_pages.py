"""Pages with charts and shapes, and the list of patterns, as readers meet them in Chromium: light, dark, narrow, wide."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from browser_tools import look, pdf_pages, print_pdf
from test_charts import BAND, GRANNY, TABS
from test_shapes import BALL, CLOTH, HEADER

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.render import PageOptions, render_block, render_sheet, stylesheet
from mkdocs_stitchcheck.render.index import Entry, render_index
from mkdocs_stitchcheck.source import Source

THEMES = {
    "light": ("", "background: #fff; color: #222"),
    "dark": ('data-bs-theme="dark"', "--bs-body-color: #dee2e6; --bs-body-bg: #212529; background: #212529; color: #dee2e6"),
}
PATTERNS = {
    "Square": f"Show: chart\n# Square\n{GRANNY}",
    "Strap": f"Show: chart, shape\n{HEADER}# Strap\n{TABS}",
    "Band": f"Show: chart, shape\n{BAND}",
    "Hare": f"Show: chart, shape\n{HEADER}{BALL}",
    "Cloth": f"Show: shape\n{HEADER}{CLOTH}",
}


def texts() -> list[str]:
    return [f"```crochet\nTitle: {title}\nTerms: US\n{body}\n```\n" for title, body in PATTERNS.items()]


def html_of(theme: str, *, index: bool = False) -> str:
    parts, entries = [], []
    for text in texts():
        file = check_text(text, "page.md")
        blocks = find_blocks(Source(text, "page.md"), Findings())
        parts += [render_block(file, block, options=PageOptions(heading_level=2)) for block in blocks]
        entries += [Entry(pattern, f"{pattern.title.lower()}/") for pattern in file.patterns]
    body = render_index(entries) if index else "\n".join(parts)
    attributes, colors = THEMES[theme]
    return (
        f'<!DOCTYPE html><html lang="en" {attributes}><head><meta charset="utf-8"><title>Drawings</title>'
        f'<meta name="viewport" content="width=device-width"><style>{stylesheet()}'
        f"html {{ {colors} }} body {{ margin: 0; padding: 12px; font: 16px sans-serif }} main {{ max-width: 54rem; margin: auto }}"
        f"</style></head><body {attributes}><main><h1>A page</h1>\n{body}\n</main></body></html>"
    )


def looked_at(folder: Path, pages: list[tuple[str, dict[str, Any]]]) -> list[dict[str, Any]]:
    wishes = []
    for number, (html, wish) in enumerate(pages):
        path = folder / f"page{number}.html"
        path.write_text(html, encoding="utf-8")
        wishes.append({"url": path.as_uri(), "axe": True, "within": "main", **wish})
    return look(wishes)


def test_no_violations_on_page_and_list_in_light_and_dark(tmp_path: Path) -> None:
    pages = [(html_of(theme, index=index), {"width": width}) for theme in THEMES for index in (False, True) for width in (320, 1280)]
    for answer, (_html, wish) in zip(looked_at(tmp_path, pages), pages, strict=True):
        assert answer["violations"] == []
        assert answer["scrollWidth"] <= wish["width"]
        assert answer["smallest"] >= 18
        assert answer["hostile"] == [] and answer["errors"] == []
        assert len(answer["ids"]) == len(set(answer["ids"]))


def test_strokes_follow_the_theme_and_the_mirror_is_seen(tmp_path: Path) -> None:
    ask = """(() => { document.querySelectorAll('details').forEach(d => d.open = true);
        const path = document.querySelector('.sc-chart svg[role=img] path');
        const use = document.querySelector('.sc-chart details use').getBoundingClientRect();
        return [getComputedStyle(path).stroke, use.width > 50 && use.height > 50] })()"""
    light, dark = looked_at(tmp_path, [(html_of(theme), {"width": 800, "ask": ask, "axe": False}) for theme in THEMES])
    assert light["answer"] != dark["answer"] and light["answer"][1] and dark["answer"][1]


def test_symbols_on_paper_are_at_least_four_millimetres(tmp_path: Path) -> None:
    file = check_text(texts()[0], "page.md")
    html = render_sheet(file, file.patterns[0], address="https://example.org/square/")
    text = "\n".join(pdf_pages(print_pdf(html, tmp_path, "chart")))
    assert "Chart" in text and "double crochet" in text and "2 · 24" in text
    ask = """(() => { const svg = document.querySelector('.sc-drawing svg');
        return svg.getBoundingClientRect().width / svg.viewBox.baseVal.width / 96 * 25.4 * 18 })()"""
    (answer,) = looked_at(tmp_path, [(html, {"width": 1000, "ask": ask, "axe": False})])
    assert answer["answer"] >= 4

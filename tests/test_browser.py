"""Page and sheet as readers meet them: in Chromium at three widths, light and dark, and on paper."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from browser_tools import look, pdf_pages, pdf_words, print_pdf
from handmade import result_of
from page_samples import BODY, HEAD, LONG, MOLE

from mkdocs_stitchcheck.findings import Finding, Severity
from mkdocs_stitchcheck.render import PageOptions, Picture, render_block, render_sheet, stylesheet
from mkdocs_stitchcheck.source import Span

WIDTHS = (320, 768, 1280)
# The variables by which the themes give their colours: Bootstrap's of the mkdocs theme, Material's (and Zensical's).
THEMES = {
    "plain": ("", "background: #fff"),
    "mkdocs dark": ('data-bs-theme="dark"', "--bs-body-color: #dee2e6; --bs-body-bg: #212529; background: #212529"),
    "material light": (
        "data-md-color-scheme='default'",
        "--md-typeset-color: rgb(0 0 0 / .87); --md-default-bg-color: #fff; background: #fff",
    ),
    "material slate": (
        "data-md-color-scheme='slate'",
        "--md-typeset-color: hsl(225 15% 90% / .82); --md-default-bg-color: hsl(225 15% 14%); background: hsl(225 15% 14%)",
    ),
}


def page_of(texts: tuple[str, ...], theme: str = "plain", findings: bool = False) -> str:
    """A whole page with the blocks of a pattern in it."""
    file, blocks = result_of(*texts)
    if findings:
        at = blocks[1].lines[3]
        span = Span(at.number, 8, at.number, 20)
        file.findings = [Finding("count-mismatch", Severity.ERROR, span, "Rnd 3 makes 18 stitches; you wrote 19.")]
    options = PageOptions(heading_level=2, sheet_address=lambda _: "sheet/")
    html = "\n".join(render_block(file, block, show_findings=findings, options=options) for block in blocks)
    attributes, colors = THEMES[theme]
    return (
        f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Orchard mole</title>'
        f'<meta name="viewport" content="width=device-width"><style>{stylesheet()}'
        f"body {{ {colors}; margin: 0; padding: 12px; font: 16px sans-serif; color: var(--md-typeset-color, var(--bs-body-color, #222)) }} main {{ max-width: 54rem; margin: auto }}"
        f"</style></head><body {attributes}><main><h1>A page</h1>\n{html}\n</main></body></html>"
    )


def open_pages(folder: Path, pages: list[tuple[str, dict[str, Any]]]) -> list[dict[str, Any]]:
    """Write the pages and let Chromium look at them."""
    wishes = []
    for number, (html, wish) in enumerate(pages):
        path = folder / f"page{number}.html"
        path.write_text(html, encoding="utf-8")
        wishes.append({"url": path.as_uri(), **wish})
    return look(wishes)


def test_page_at_every_width_in_light_and_dark(tmp_path: Path) -> None:
    pages = [
        (page_of(MOLE, theme, findings=True), {"width": width, "axe": True, "within": "main"})
        for theme in THEMES
        for width in WIDTHS
    ]
    for answer, (_html, wish) in zip(open_pages(tmp_path, pages), pages, strict=True):
        assert answer["violations"] == []  # axe-core, with contrast 7:1 and the size of targets
        assert answer["scrollWidth"] <= wish["width"]
        assert answer["smallest"] >= 18
        assert answer["errors"] == []
        assert len(answer["ids"]) == len(set(answer["ids"]))


def test_number_and_count_stand_on_the_first_line_of_a_phone(tmp_path: Path) -> None:
    ask = """(() => [...document.querySelectorAll('tr[id$=rnd-3], tr[id$=rnd-9]')].map(row => {
        const top = name => row.querySelector('.sc-' + name).getBoundingClientRect().top;
        return [top('rnd'), top('count'), top('words')] }))()"""
    (phone, wide) = open_pages(tmp_path, [(page_of(MOLE), {"width": w, "ask": ask}) for w in (320, 1280)])
    assert phone["answer"] and all(abs(r - c) < 4 and w > r + 15 for r, c, w in phone["answer"])
    assert wide["answer"] and all(abs(r - c) < 4 and abs(r - w) < 4 for r, c, w in wide["answer"])


def test_ticking_needs_no_script(tmp_path: Path) -> None:
    ask = """(() => { const box = document.querySelector('.sc-tick input'); const before = box.checked; box.click();
        return [before, box.checked, document.scripts.length] })()"""
    (answer,) = open_pages(tmp_path, [(page_of(MOLE), {"width": 768, "ask": ask})])
    assert answer["answer"] == [False, True, 0]


HOSTILE = (
    '<script>owned=1</script>"><img src=x onerror=owned=2>',
    "javascript:owned=3 ' onmouseover='owned=4' style='position:fixed",
    "<svg/onload=owned=5><style>*{display:none}</style></style></table></div></body>",
    "W" * 10_000,
    "\u202eמוקדם \u05d0\u05d1\u05d2 \u200f مرحبا",
    "\U0001f9f6\U0001f469\u200d\U0001f9af \x00\x02wzxhzdk:0\x03 &lt;b&gt;",
)


def hostile_text(text: str) -> tuple[str, ...]:
    """The sample with *text* in every field."""
    header = (
        f"Title: {text}\nTerms: {text}\nDesigner: {text}\nVersion: {text}\nVideo: {text}\nYarn: {text}\n"
        f"Color A: {text}, shown as {text}\nHook: {text}\nGauge: {text}\nNotions: {text}, beads\n"
        f"Finished size: {text}\nContact: {text}\nWhatever {'x' * 3000}: {text}"
    )
    rounds = (
        f"# {text.replace('(', '')} (make 2, {text})\nRnd 1: {text} (6)\nRnds 2-30: sc {text} (6 {text})\n"
        f"> {text}\n{text}\nInsert eyes {text}"
    )
    return header, rounds


@pytest.mark.parametrize("text", HOSTILE, ids=["script", "attribute", "svg", "long", "rtl", "emoji"])
def test_hostile_text_stays_text(tmp_path: Path, text: str) -> None:
    file, _ = result_of(*hostile_text(text))
    options = PageOptions(picture=Picture("javascript:owned=6", text))
    sheet = render_sheet(file, file.patterns[0], address=text, version=text, options=options)
    plain, _ = result_of(*hostile_text("plain"))
    calm = render_sheet(plain, plain.patterns[0], address="plain", version="plain")
    pages = [page_of(hostile_text(text)), sheet, page_of(hostile_text("plain")), calm]
    answers = open_pages(tmp_path, [(html, {"width": 320}) for html in pages])
    for bad, good in ((answers[0], answers[2]), (answers[1], answers[3])):
        assert set(bad["elements"]) <= set(good["elements"]) | {"h3", "table", "tbody", "tr", "td"}
        assert bad["owned"] is None and bad["errors"] == [] and bad["hostile"] == []
        assert bad["scrollWidth"] <= 320


def sheet_of(texts: tuple[str, ...], **more: Any) -> str:
    """The printable sheet of a sample."""
    file, _ = result_of(*texts)
    return render_sheet(file, file.patterns[0], address="https://example.org/orchard-mole/", **more)


def test_sheet_on_a_screen(tmp_path: Path) -> None:
    pages = [(sheet_of(MOLE, large=large), {"width": w, "axe": True}) for large in (False, True) for w in (320, 1280)]
    for answer, (_html, wish) in zip(open_pages(tmp_path, pages), pages, strict=True):
        assert answer["violations"] == []
        assert answer["scrollWidth"] <= wish["width"]
        assert answer["smallest"] >= 17.3  # 13 pt


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_sheet_on_paper(tmp_path: Path, paper: str, size: tuple[int, int]) -> None:
    pdf = print_pdf(sheet_of(LONG, paper=paper), tmp_path, paper)
    pages = pdf_pages(pdf)
    assert len(pages) > 4
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in page
        assert "Orchard mole, version 3" in page
        assert "https://example.org/orchard-mole/" in page
    # Page 1 holds what a maker needs before the first round.
    for words in ("Materials", "Gauge", "Finished size", "Small parts and cords", "Abbreviations, US terms"):
        assert words in pages[0]
    if "Rnd 1 " in pages[0]:
        assert pages[0].index("Abbreviations") < pages[0].index("Rnd 1 ")
    # "Body, continued" on every further page of the piece, and never on the page where it begins.
    for name, last in (("Body", 60), ("Tail", 40)):
        holding = [n for n, page in enumerate(pages) if _holds_rounds_of(page, pages, n, name)]
        starts = next(n for n in holding if re.search(rf"^ *{name}$", pages[n], re.MULTILINE))
        assert f"{name}, continued" not in pages[starts]
        assert all(f"{name}, continued" in pages[n] for n in holding if n > starts), (name, last, holding)
    assert _media_box(pdf) == size


def _holds_rounds_of(page: str, pages: list[str], n: int, name: str) -> bool:
    return bool(re.search(rf"^ *{name}(, continued)?$", page, re.MULTILINE))


def _media_box(pdf: Path) -> tuple[int, int]:
    found = re.search(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]", pdf.read_bytes())
    assert found
    return round(float(found[1])), round(float(found[2]))


def test_no_row_splits_and_no_heading_is_left_alone(tmp_path: Path) -> None:
    pages = pdf_pages(print_pdf(sheet_of(LONG), tmp_path, "rows"))
    seen = []
    for page in pages:
        lines = [line.strip() for line in page.split("\n") if line.strip()]
        for at, line in enumerate(lines):
            if found := re.match(r"Rnd (\d+) +\(sc in each of the next", line):
                seen.append(int(found[1]))
                row = " ".join(re.sub(r"\s+\d+$", "", part) for part in lines[at : at + 3])
                assert row.endswith("inc) x 6, then look at the work from the side"), row
            if line in ("Body", "Tail"):
                assert any(re.match(r"Rnd \d+ ", after) for after in lines[at + 1 : at + 5]), lines[at:]
            if line.endswith(", continued"):
                assert at == 0
    assert seen == list(range(1, 61))


def test_counts_on_paper_are_the_checked_ones(tmp_path: Path) -> None:
    text = "\n".join(pdf_pages(print_pdf(sheet_of(LONG), tmp_path, "counts")))
    body = text[text.index("Body\n") : text.index("Tail\n")]
    counts = re.findall(r"^ *Rnd (\d+) .*?\s(\d+)\s*$", body, re.MULTILINE)
    assert [(int(r), int(c)) for r, c in counts] == [(n, 6 * n) for n in range(1, 61)]


def test_margin_for_punching_and_boxes_of_five_millimetres(tmp_path: Path) -> None:
    html = sheet_of(MOLE)
    left = min(left for page in pdf_words(print_pdf(html, tmp_path, "margin")) for _word, left, *_rest in page)
    assert left >= 20 / 25.4 * 72 - 1  # 20 mm in points
    ask = """(() => { const box = document.querySelector('.sc-box').getBoundingClientRect();
        return [box.width, box.height].map(px => px / 96 * 25.4) })()"""
    (answer,) = open_pages(tmp_path, [(html, {"width": 1000, "ask": ask})])
    assert answer["answer"] == pytest.approx([5, 5], abs=0.1)


def test_a_picture_without_a_size_of_its_own_is_seen(tmp_path: Path) -> None:
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 18"><circle cx="15" cy="9" r="8"/></svg>'
    (tmp_path / "mole.svg").write_text(drawing, encoding="utf-8")
    options = PageOptions(picture=Picture("mole.svg", "A mole"))
    ask = "(() => { const b = document.querySelector('img').getBoundingClientRect(); return [b.width, b.height] })()"
    pages = [(sheet_of(MOLE, large=large, options=options), {"width": 1000, "ask": ask}) for large in (False, True)]
    for answer in open_pages(tmp_path, pages):
        assert min(answer["answer"]) > 100


def test_large_print_on_paper(tmp_path: Path) -> None:
    pages = pdf_pages(print_pdf(sheet_of((HEAD, BODY), large=True, paper="Letter"), tmp_path, "large"))
    text = "\n".join(pages)
    assert "Work “sc, inc” 6 times in all." in text
    assert "Rnd 3: 18 stitches" in text
    assert "Body, continued" in text
    ask = """(() => [...document.querySelectorAll('*')].filter(n => getComputedStyle(n).fontStyle !== 'normal').length)()"""
    (answer,) = open_pages(tmp_path, [(sheet_of(MOLE, large=True), {"width": 1000, "ask": ask})])
    assert answer["answer"] == 0
    assert answer["smallest"] >= 29.33  # 22 pt in pixels

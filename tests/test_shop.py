"""Sites with PDFs: for download beside the pages, or in the shop's folder, of which the site must know nothing."""

from __future__ import annotations

import gzip
import io
import re
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from site_kit import HEADER, RIGHT, WRONG, Built, Server, Site, fence, page

ADDRESS = "site_url: https://pockets.example/\n"
PAGE = page(fence(HEADER, "Version: 3\n", "Designer: Una Sedge\n\n", RIGHT)) + "\n![On the sill](sill.png)\n"


def picture() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (60, 40), (109, 122, 134)).save(out, "png")
    return out.getvalue()


def site(folder: Path, options: str = "", extra: str = "", **pages: str) -> Site:
    config = f"{ADDRESS}{extra}plugins:\n  - search\n  - stitchcheck:\n      enabled: true\n" + "".join(
        f"      {line}\n" for line in options.splitlines()
    )
    made = Site(folder, config).write(**{f"{name}.md": text for name, text in (pages or {"pebble": PAGE}).items()})
    made.put("sill.png", picture())
    return made


def assert_ok(built: Built) -> None:
    assert built.code == 0 and "Traceback" not in built.said, built.said


def everything(built: Built) -> dict[str, bytes]:
    """Every file of the site, compressed ones opened."""
    found = {}
    for path in built.site.rglob("*"):
        if path.is_file():
            data = path.read_bytes()
            found[str(path.relative_to(built.site))] = gzip.decompress(data) if path.suffix == ".gz" else data
    return found


def test_no_pdf_unless_it_is_asked_for(tmp_path: Path) -> None:
    built = site(tmp_path).build("--strict")
    assert_ok(built)
    assert not [name for name in everything(built) if name.endswith(".pdf")]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["docs", "mkdocs.yml", "site"]


@pytest.mark.parametrize("theme", ["", "theme: material\n"])
def test_what_is_sold_leaves_no_trace_on_the_site(tmp_path: Path, theme: str) -> None:
    options = "pdf: shop\npdf_folder: under-the-counter\npdf_editions: [US A4, UK Letter, US large print]"
    built = site(tmp_path, options, theme, pebble=PAGE, index="# Home\n\n[A stone](pebble.md)\n").build("--strict")
    assert_ok(built)
    names = sorted(path.name for path in (tmp_path / "under-the-counter").iterdir())
    assert names == ["made-from.json", "pebble-UK-Letter-v3.pdf", "pebble-US-A4-large-print-v3.pdf", "pebble-US-A4-v3.pdf"]
    for name, data in everything(built).items():
        assert not name.lower().endswith(".pdf") and "under-the-counter" not in name
        text = data.decode("utf-8", "replace")
        if name.startswith("assets/") and "stitchcheck" not in name:
            continue  # the theme's own scripts
        for trace in ("%PDF", ".pdf", "application/pdf", "pebble-US", "pebble-UK", "made-from", "under-the-counter"):
            assert trace not in text, (name, trace)
    said = " ".join(pypdf.PdfReader(tmp_path / "under-the-counter" / names[1]).pages[0].extract_text().split())
    assert "Pebble" in said and "Una Sedge" in said and "https://pockets.example/pebble/" in said


@pytest.mark.parametrize("folder", ["docs/till", "site/till", ".", "docs", "../{name}/site"])
def test_a_shop_within_the_site_is_refused(tmp_path: Path, folder: str) -> None:
    built = site(tmp_path, f"pdf: shop\npdf_folder: {folder.format(name=tmp_path.name)}").build()
    assert built.code == 1 and "could be read by everybody" in built.said and "Traceback" not in built.said


def test_downloads_stand_beside_their_page_and_are_linked(tmp_path: Path) -> None:
    options = "pdf: download\npdf_editions: [US A4, UK A4]"
    german = fence("Title: Ball\nTerms: de\n\n", "Rd 1: 6 fM in Fadenring (6)\n")
    draft = page(fence(HEADER.replace("Pebble", "Sketch"), "Draft: yes\n\n", RIGHT))
    built = site(tmp_path, options, pebble=PAGE, ball=german, sketch=draft).build()
    assert_ok(built)
    html = built.read("pebble/index.html")
    links = re.findall(r'<a href="([^"]+\.pdf)" type="application/pdf">([^<]+)</a>', html)
    assert [words for _, words in links] == ["PDF, US, A4", "PDF, UK, A4"]
    for href, _words in links:
        pdf = (built.site / "pebble" / href).resolve()
        assert pdf.is_relative_to(built.site.resolve())
        assert len(pypdf.PdfReader(pdf).pages) >= 3
    assert any(one.images for one in pypdf.PdfReader(built.site / "pebble" / "pebble-US-A4-v3.pdf").pages)
    assert not [name for name in everything(built) if name.endswith(".pdf") and "pebble" not in name]
    assert "Ball is not in US or UK terms" in built.said
    assert ".pdf" not in built.read("ball/index.html") and ".pdf" not in built.read("sketch/index.html")


def test_the_build_lists_what_changed_since_it_was_made(tmp_path: Path) -> None:
    made = site(tmp_path, "pdf: shop")
    assert "New: " in made.build().said
    pdf = tmp_path / "shop" / "pebble-US-A4-v3.pdf"
    before = pdf.read_bytes()
    again = made.build().said
    assert "New: " not in again and "changed since" not in again
    assert pdf.read_bytes() == before
    made.put("pebble.md", PAGE.replace("Rnd 3: sc around (12)", "Rnd 3: sc in each st around (12)"))
    told = made.build().said
    assert "PDFs whose text changed since they were made, now made anew:\n" in told and "  pebble-US-A4-v3.pdf" in told
    assert pdf.read_bytes() != before
    made.put("pebble.md", PAGE.replace("Version: 3", "Version: 4"))
    told = made.build().said
    assert "changed since" not in told and "pebble-US-A4-v4.pdf" in told


def test_a_page_may_choose_for_itself(tmp_path: Path) -> None:
    free, paid, neither = (f"---\npdf: {mode}\n---\n{PAGE.replace('Title: Pebble', f'Title: {mode} one')}"
                           for mode in ("download", "shop", "no"))  # fmt: skip
    built = site(tmp_path, "", free=free, paid=paid, neither=neither).build()
    assert_ok(built)
    assert [name for name in everything(built) if name.endswith(".pdf")] == ["free/download-one-US-A4-v3.pdf"]
    assert [path.name for path in (tmp_path / "shop").glob("*.pdf")] == ["shop-one-US-A4-v3.pdf"]
    assert ".pdf" not in built.read("paid/index.html")
    wrong = site(tmp_path, "", free=free.replace("pdf: download", "pdf: dowload")).build()
    assert "pdf is 'dowload' in its front matter; it can be no, download or shop." in wrong.said


@pytest.mark.parametrize(
    ("option", "said"),
    [("pdf: sell", "download or shop"), ("pdf_editions: [US A5]", "'A5'"), ("pdf_limit: -1", "megabytes")],
)
def test_a_wrong_choice_is_an_error(tmp_path: Path, option: str, said: str) -> None:
    built = site(tmp_path, option).build()
    assert built.code == 1 and said in built.said and "Traceback" not in built.said, built.said


def test_without_the_extra_the_build_says_how_to_get_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "hidden").mkdir()
    (tmp_path / "hidden" / "weasyprint.py").write_text("raise ImportError('hidden')\n", encoding="utf-8")
    monkeypatch.setenv("PYTHONPATH", f"{tmp_path / 'hidden'}:{Path(__file__).parents[1]}")
    built = site(tmp_path, "pdf: shop").build()
    assert built.code == 1 and "pip install 'mkdocs-stitchcheck[pdf]'" in built.said and "Traceback" not in built.said
    assert_ok(site(tmp_path, "pdf: no").build())


def test_a_page_with_a_slip_makes_no_pdf(tmp_path: Path) -> None:
    built = site(tmp_path, "pdf: shop", pebble=page(fence(HEADER, "\n", WRONG))).build()
    assert built.code == 1 and not (tmp_path / "shop").exists()


def test_a_draft_has_no_sheet_but_testers_get_theirs_unlisted(tmp_path: Path) -> None:
    draft = "---\ntest: 2\n---\n" + page(fence(HEADER, "Color A: grey, 5 g\nDraft: yes\n\n", RIGHT))
    built = site(tmp_path, "pdf: download", pebble=draft).build("--strict")
    assert_ok(built)
    [sheet] = [name for name in built.pages if "test-2-" in name]
    assert not [name for name in built.pages if name.endswith(("sheet/index.html", "large-print/index.html"))]
    assert f"https://pockets.example/{sheet.removesuffix('index.html')}" in built.said
    html = built.read(sheet)
    assert "noindex" in html and "Was anything in “" in html and "Grams of each colour" in html and "test 2" in html
    token = re.search(r"test-2-[0-9a-f]{10}", sheet)
    assert token is not None
    for name, data in everything(built).items():
        assert token[0].encode() not in data, name
    assert "Draft: counts may change." in built.read("pebble/index.html")


def test_nothing_is_made_while_the_site_is_served(tmp_path: Path) -> None:
    with Server(site(tmp_path, "pdf: shop", index=PAGE)) as server:
        assert server.wait_for("Pebble")
        assert "1 PDF not made while the site is served; mkdocs build makes them." in server.said
    assert not (tmp_path / "shop").exists()

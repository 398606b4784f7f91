"""Printed editions: names, the text in them, outline, tags, fonts, links, sizes; looked at by way of their text and marks."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pypdf
import pytest
from PIL import Image

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.printing import Edition, Order, make_pdf, orders, read_editions
from mkdocs_stitchcheck.printing import make as making
from mkdocs_stitchcheck.printing.photographs import beside, photographs
from mkdocs_stitchcheck.printing.record import LOOKS, NEW, SAME, TEXT, Record
from mkdocs_stitchcheck.render import render_block, render_sheet
from mkdocs_stitchcheck.render.options import PageOptions
from mkdocs_stitchcheck.settings import Settings
from mkdocs_stitchcheck.source import Source

SITE = Path(__file__).parent.parent / "site_example" / "docs"
ADDRESS = "https://saltgrass.example/patterns/pip/"

PAGE = """# Pip

![Pip on the sill](pip.png)

```crochet
Title: Pip the pup
Terms: US
Designer: Una Sedge
Version: 2
Corrected 2026-03-20: Rnd 3 makes 18.
Licence: for your own use; sell what you make, not the pattern
Video: https://films.example/pip
Yarn: light (3), 50 g = 125 m
Color A: slate, 10 g
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
Notions: 8 mm safety eyes (2)

# Body (color A)
Rnd 1: 6 sc in magic ring (6) @ 1:10
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
```

![The ring](ring.png)

```crochet
Rnds 4-6: sc around (18)
>> Photograph: not for readers
Rnd 7: (sc, sc2tog) x 6 (12)
Fasten off.

# Ear (make 2, color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: hdc in each st around (6)
Fasten off.
```
"""


def png(path: Path, width: int, height: int, noise: bool = False) -> None:
    """A picture: plain, or one that can hardly be made smaller."""
    if noise:
        Image.effect_noise((width, height), 90).convert("RGB").save(path.with_suffix(".jpg"), quality=95)
        path.with_suffix(".jpg").rename(path)
    else:
        Image.new("RGB", (width, height), (109, 122, 134)).save(path)


@pytest.fixture
def page(tmp_path: Path) -> Path:
    png(tmp_path / "pip.png", 600, 400)
    png(tmp_path / "ring.png", 300, 200)
    (tmp_path / "pip.md").write_text(PAGE, encoding="utf-8")
    return tmp_path / "pip.md"


def ordered(page: Path, *editions: Edition, text: str = "") -> list[Order]:
    text = text or page.read_text(encoding="utf-8")
    result = check_text(text, "pip.md")
    found, missing = photographs(text, beside(page, page.parent))
    assert missing == []
    return orders(result, 0, editions or (Edition(),), text=text, settings=Settings(), address=ADDRESS,
                  options=PageOptions(), photographs=found)  # fmt: skip


def read(order: Order) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(make_pdf(order)[0]))


def words(reader: pypdf.PdfReader) -> str:
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


# --- which editions, and their names ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("US A4", "pip-the-pup-US-A4-v2.pdf"),
        ("uk letter", "pip-the-pup-UK-Letter-v2.pdf"),
        ("UK large print", "pip-the-pup-UK-A4-large-print-v2.pdf"),
        ("large-print Letter US", "pip-the-pup-US-Letter-large-print-v2.pdf"),
        ("A4", "pip-the-pup-US-A4-v2.pdf"),
    ],
)
def test_an_edition_by_its_words_and_its_file(page: Path, words: str, name: str) -> None:
    [order] = ordered(page, *read_editions([words]))
    assert order.name == name


@pytest.mark.parametrize("wrong", ["US A5", "", "US UK", "large", 3, "German A4"])
def test_what_is_no_edition_is_said(wrong: object) -> None:
    with pytest.raises(ValueError, match="edition"):
        read_editions([wrong])
    with pytest.raises(ValueError, match="twice"):
        read_editions(["US A4", "A4 US"])


@pytest.mark.parametrize(
    ("version", "name"),
    [("2", "p-US-A4-v2.pdf"), ("version 2.1", "p-US-A4-v2.1.pdf"), ("v3", "p-US-A4-v3.pdf"), ("", "p-US-A4.pdf"),
     ("../../x", "p-US-A4-vx.pdf")],
)  # fmt: skip
def test_the_version_in_a_name(version: str, name: str) -> None:
    assert Edition("US").file_name("P", version) == name


# --- what is in them --------------------------------------------------------------------------------------------------

EDITIONS = [Edition(terms, paper, large) for terms in ("US", "UK") for paper in ("A4", "Letter") for large in (False, True)]


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.words)
def test_the_text_of_every_edition_is_that_of_the_checked_rounds(page: Path, edition: Edition) -> None:
    [order] = ordered(page, edition)
    reader = read(order)
    said = words(reader)
    rounds = check_text(PAGE, "pip.md").patterns[0].rounds
    sc, hdc = ("sc", "hdc") if edition.terms == "US" else ("dc", "htr")
    counts = [line.makes[0] for line in rounds if line.counts]
    if edition.large:
        assert [int(n) for n in re.findall(r"Rnds? [\d–]+: (\d+) stitches", said)] == counts
    else:
        rows = [row for one in reader.pages for row in one.extract_text().splitlines()]
        found = [re.fullmatch(r"Rnds? [\d–]+ .*?(\d+)(?:\s+1\s+2)?", row.strip()) for row in rows]
        assert [int(match[1]) for match in found if match] == counts
    assert f"({sc}, inc) x 6" in said and f"{hdc} in each st around" in said and f"({sc}, {sc}2tog) x 6" in said
    assert f"{edition.terms} terms" in said
    width, height = (round(float(side)) for side in reader.pages[0].mediabox[2:])
    # ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 in; in points of 1/72 in.
    assert (width, height) == ((595, 842) if edition.paper == "A4" else (612, 792))


def test_outline_tags_metadata_fonts_and_links(page: Path) -> None:
    reader = read(ordered(page)[0])
    root = reader.trailer["/Root"]
    titles = [entry.title for entry in _flat(reader.outline)]
    assert titles[0] == "Pip the pup"
    assert [title for title in titles if title in ("Body", "Ear")] == ["Body", "Ear"]
    assert reader.get_destination_page_number(next(e for e in _flat(reader.outline) if e.title == "Body")) >= 2
    # ISO 32000-1, 14.7 and 14.8: a tagged document says so and has a tree of its structure.
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"] == True
    kinds = _kinds(root["/StructTreeRoot"])
    assert {"/H1", "/H2", "/Table", "/TH", "/TD", "/Figure", "/Link", "/L"} <= kinds
    assert root["/Lang"] == "en"
    # ISO 14289-1 (PDF/UA-1), 7.1: the title is shown, and the metadata name the standard.
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] == True
    assert "pdfuaid" in root["/Metadata"].get_data().decode()
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Pip the pup", "Una Sedge")
    fonts = [font for one in reader.pages for font in one["/Resources"].get("/Font", {}).values()]
    descriptors = [f.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"] for f in fonts]
    assert descriptors and all("/FontFile2" in d or "/FontFile3" in d for d in descriptors)
    links = {note.get_object().get("/A", {}).get("/URI") for one in reader.pages for note in one.get("/Annots", [])}
    assert {ADDRESS, "https://films.example/pip", "https://films.example/pip#t=70"} <= links


def _flat(outline: list[object]) -> list[pypdf.generic.Destination]:
    return [one for entry in outline for one in (_flat(entry) if isinstance(entry, list) else [entry])]  # type: ignore[list-item]


def _kinds(node: pypdf.generic.DictionaryObject) -> set[str]:
    found, open_nodes = set(), [node]
    while open_nodes:
        one = open_nodes.pop().get_object()
        if isinstance(one, list):
            open_nodes += one
        elif isinstance(one, dict):
            found.add(one.get("/S"))
            if "/K" in one:
                open_nodes.append(one["/K"])
    return found


def test_cover_licence_designer_and_correction(page: Path) -> None:
    said = words(read(ordered(page)[0]))
    for words_on_it in (
        "Designed by Una Sedge", "Licence: for your own use; sell what you make, not the pattern",
        "Version 2, corrected 2026-03-20", "Corrected 2026-03-20: Rnd 3 makes 18.", "Small parts", ADDRESS,
        "After Rnd 3: The ring",
    ):  # fmt: skip
        assert words_on_it in said
    assert "not for readers" not in said


def test_version_and_correction_stand_on_page_and_sheet_too() -> None:
    result = check_text(PAGE, "pip.md")
    block = find_blocks(Source(PAGE), Findings())[0]
    shown = render_block(result, block)
    assert "<dt>Version</dt>" in shown and "<dt>Corrected 2026-03-20</dt>" in shown and "Rnd 3 makes 18." in shown
    sheet = render_sheet(result, result.patterns[0], address=ADDRESS)
    assert "Version 2, corrected 2026-03-20" in sheet and "<dt>Corrected 2026-03-20</dt>" in sheet


def test_photographs_in_print_resolution_below_a_limit(page: Path) -> None:
    png(page.parent / "pip.png", 3000, 2000, noise=True)
    [order] = ordered(page)
    whole, said = make_pdf(order)
    assert said == "" and _largest_image(whole) > 1000
    small, said = make_pdf(order, limit=0.4)
    assert len(small) <= 400_000 and ("dpi, to stay below 0.4 MB" in said or "without photographs" in said)
    bare, said = make_pdf(order, limit=0.03)
    assert "without photographs" in said and "Rnd 1" in words(pypdf.PdfReader(io.BytesIO(bare)))


def _largest_image(pdf: bytes) -> int:
    sizes = [image.image.width for one in pypdf.PdfReader(io.BytesIO(pdf)).pages for image in one.images if image.image]
    return max(sizes, default=0)


def test_a_picture_leads_nowhere_but_into_the_site(tmp_path: Path) -> None:
    site = tmp_path / "docs"
    (site / "posts").mkdir(parents=True)
    png(tmp_path / "secret.png", 10, 10)
    png(site / "a b.png", 10, 10)
    (site / "posts" / "list.html").write_text("<p>", encoding="utf-8")
    text = ("![one](../a%20b.png) ![two](../../secret.png) <img src='https://x.example/p.png'> ![](file:///etc/passwd)\n"
            "![three](list.html)\n\n```python\n![](../a%20b.png)\n```\n")  # fmt: skip
    found, missing = photographs(text, beside(site / "posts" / "pip.md", site))
    assert [(one.path.name, one.words, one.line) for one in found] == [("a b.png", "one", 1)]
    assert missing == ["../../secret.png", "https://x.example/p.png", "file:///etc/passwd", "list.html"]


def test_a_picture_may_name_nothing_to_be_fetched(page: Path) -> None:
    svg = '<svg xmlns="http://www.w3.org/2000/svg" width="90" height="90"><image href="file:///etc/hostname" width="9" height="9"/></svg>'
    (page.parent / "pip.svg").write_text(svg, encoding="utf-8")
    [order] = ordered(page, text=PAGE.replace("pip.png", "pip.svg"))
    assert "Rnd 1" in words(read(order))


def test_hostile_words_stay_words(page: Path) -> None:
    text = PAGE.replace("Una Sedge", "<img src=x> & \"co\"").replace("Pip the pup", "P <b>up</b> </style>")
    said = words(read(ordered(page, text=text)[0]))
    assert "P <b>up</b> </style>" in said and '<img src=x> & "co"' in said


def test_another_language_has_no_edition_in_us_terms(page: Path) -> None:
    text = "```crochet\nTitle: Ball\nTerms: de\nRd 1: 6 fM in Fadenring (6)\n```\n"
    own, us = ordered(page, Edition(), Edition("US"), text=text)
    assert own.name == "ball-de-A4.pdf" and own.html
    assert "not in US or UK terms" in us.problem


def test_a_tester_has_room_to_write_and_a_back_page(page: Path) -> None:
    [order] = ordered(page, Edition(test=2))
    assert order.name == "pip-the-pup-US-A4-v2-test-2.pdf"
    said = words(read(order))
    assert "Test 2" in said
    assert said.count("unclear or wrong? Which round?") == 2  # under each piece
    for asked in ("Yarn you used", "Hook you used", "Grams of each colour", "A slate g", "Finished size", "Hours it took",
                  "Rounds that were unclear", "Weighed (tester 2):"):  # fmt: skip
        assert asked in said


def test_what_testers_weigh_comes_back_into_the_pattern() -> None:
    text = PAGE.replace("Notions:", "Weighed (tester 2): A 4.2 g\nNotions:")
    header = check_text(text, "pip.md").patterns[0].syntax.header
    assert [(one.tester, one.grams) for one in header.weighings] == [("tester 2", (("A", 4.2),))]


# --- what was made, and what changed since ----------------------------------------------------------------------------


def test_the_record_tells_what_changed_since_a_pdf_was_made(page: Path, tmp_path: Path) -> None:
    folder = tmp_path / "shop"
    [order] = ordered(page)
    assert Record.of(folder).state(order) == NEW
    Record.of(folder).keep(order, b"%PDF")
    assert Record.of(folder).state(order) == SAME
    [reworded] = ordered(page, text=PAGE.replace("Rnds 4-6", "Rnds 4-5"))
    assert Record.of(folder).state(reworded) == TEXT
    png(page.parent / "ring.png", 310, 200)
    assert Record.of(folder).state(ordered(page)[0]) == LOOKS
    (folder / order.name).unlink()
    assert Record.of(folder).state(order) == NEW


# --- the command ------------------------------------------------------------------------------------------------------


def test_the_command(page: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    to = tmp_path / "out"
    assert main(["pdf", str(page), "--edition", "UK Letter", "--to", str(to)]) == 0
    assert [path.name for path in to.iterdir()] == ["pip-the-pup-UK-Letter-v2.pdf"]
    assert "pip-the-pup-UK-Letter-v2.pdf" in capsys.readouterr().out
    page.write_text(PAGE.replace("x 6 (12)", "x 6 (13)", 1), encoding="utf-8")
    assert main(["pdf", str(page), "--to", str(to)]) == 1
    assert "has errors" in capsys.readouterr().err
    page.write_text(PAGE.replace("Version: 2", "Draft: yes"), encoding="utf-8")
    assert main(["pdf", str(page), "--to", str(to)]) == 1
    assert "is a draft, so no PDF" in capsys.readouterr().err
    assert main(["pdf", str(page), "--to", str(to), "--test", "1"]) == 0
    assert (to / "pip-the-pup-US-A4-test-1.pdf").is_file()
    assert main(["pdf", str(page), "--edition", "US A5"]) == 2
    assert "'A5' in the edition 'US A5' is not known" in capsys.readouterr().err


def test_without_the_extra_it_says_how_to_get_it(page: Path, capsys: pytest.CaptureFixture[str],
                                                 monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "weasyprint", None)
    assert main(["pdf", str(page)]) == 2
    assert capsys.readouterr().err == "stitchcheck: PDFs need WeasyPrint: pip install 'mkdocs-stitchcheck[pdf]'\n"
    with pytest.raises(making.PdfMissing):
        make_pdf(ordered(page)[0])

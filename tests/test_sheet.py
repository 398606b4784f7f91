"""The printable sheet as a document; how it looks on paper is in test_browser.py."""

from __future__ import annotations

import re

import pytest
from handmade import result_of
from page_samples import MOLE

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.render import PageOptions, Picture, render_sheet
from mkdocs_stitchcheck.render.sheet import css_string
from mkdocs_stitchcheck.render.spoken import repeats_in_words


def sheet(*texts: str, **more: object) -> str:
    """The sheet of a pattern made by hand."""
    file, _ = result_of(*texts)
    more.setdefault("address", "https://example.org/orchard-mole/")
    return render_sheet(file, file.patterns[0], **more)  # type: ignore[arg-type]


def test_the_sheet_is_a_whole_document_without_script_or_site() -> None:
    html = sheet(*MOLE)
    assert html.startswith("<!DOCTYPE html>") and html.endswith("</html>\n")
    assert "<script" not in html and "<link" not in html and "id=" not in html


def test_what_the_front_page_holds_comes_before_the_rounds() -> None:
    html = sheet(*MOLE, options=PageOptions(picture=Picture("mole.svg", "A mole in a scarf")))
    front = html[: html.index("Rnd 1")]
    for words in ("mole.svg", "A mole in a scarf", "Finished size", "Gauge", "Abbreviations", "under 3", "Version 3"):
        assert words in front


def test_every_foot_names_title_version_and_address() -> None:
    rule = sheet(*MOLE, version="3.1")
    assert 'content: "Orchard mole\\2c  version 3\\2e 1"' in rule
    assert "example\\2e org" in rule and "counter(page)" in rule


@pytest.mark.parametrize(("paper", "size"), [("A4", "size: A4"), ("Letter", "size: letter"), ("letter", "size: letter")])
def test_papers(paper: str, size: str) -> None:
    assert size in sheet(*MOLE, paper=paper)


def test_another_paper_is_refused_in_plain_words() -> None:
    with pytest.raises(ValueError, match="A4 or Letter"):
        sheet(*MOLE, paper="B5; margin: 0")


def test_colours_are_a_letter_and_a_name_and_nothing_is_filled() -> None:
    html = sheet(*MOLE)
    assert "#4b4a52" not in html and "sc-swatch" not in html and not re.search(r'fill="(?!none|currentColor|var)', html)
    assert "Colour: <bdi>A soot, then B clay pink</bdi>." in html
    assert not re.search(r"background(?!: ?#fff)", html)


def test_private_notes_reach_no_sheet() -> None:
    assert "Photograph this one" not in sheet(*MOLE) and "Photograph this one" not in sheet(*MOLE, large=True)


def test_boxes_one_for_each_round_and_copy() -> None:
    html = sheet(*MOLE)
    row = re.search(r"Rnds 9–20.*?</tr>", html, re.DOTALL)
    assert row is not None and row[0].count('class="sc-box"') == 12
    paw = re.search(r"Rnds 3–6.*?</tr>", html, re.DOTALL)
    assert paw is not None and paw[0].count('class="sc-box"') == 8


def test_a_style_string_cannot_be_left() -> None:
    assert css_string('a"; } </style><script>') == '"a\\22 \\3b  \\7d  \\3c \\2f style\\3e \\3c script\\3e "'
    html = sheet(*MOLE, address='</style><script>x</script>"')
    assert "</style><script" not in html


def test_a_draft_says_so_on_every_page() -> None:
    html = sheet(MOLE[0] + "\nDraft: yes", *MOLE[1:])
    assert "Draft: counts may change." in html and "draft" in html[html.index("@bottom-left") :][:120]


def test_large_print_says_repeats_in_words() -> None:
    page = (
        "```crochet\nTitle: Words\nTerms: US\n# Ball\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
        "Rnd 3: (sc, inc) x 6 (18)\nRnd 4: *sc in next 2 sts, inc; rep from * around (24)\n"
        "Rnd 5: *sc 3, inc; rep from * 5 more times (30)\nRnd 6: (sc 4, inc) to last 5 sts, sc 4, inc (36)\n```\n"
    )
    file = check_text(page, "words.md")
    html = render_sheet(file, file.patterns[0], address="", large=True)
    for words in (
        "Work “sc, inc” 6 times in all.",
        "Work “sc in next 2 sts, inc” again and again to the end of the round.",
        "Work “sc 3, inc” 6 times in all.",
        "Work “sc 4, inc” again and again until 5 stitches are left.",
    ):
        assert words in html
    assert "in all" not in render_sheet(file, file.patterns[0], address="")


def test_an_undecided_star_repeat_is_left_to_the_writers_words() -> None:
    page = "```crochet\nTitle: Star\nTerms: US\n# S\nRnd 1: 12 sc in magic ring (12)\nRnd 2: *sc, inc; rep from * 5 times\n```\n"
    line = check_text(page, "star.md").patterns[0].syntax.pieces[0].lines[1]
    assert repeats_in_words(line, None) == ["Work “sc, inc”, then repeat it as written."]  # type: ignore[arg-type]
    assert repeats_in_words(line, True) == ["Work “sc, inc” 5 times in all."]  # type: ignore[arg-type]
    assert repeats_in_words(line, False) == ["Work “sc, inc” 6 times in all."]  # type: ignore[arg-type]

"""Blocks of a page as HTML: what readers see, where it stands, and what never becomes markup."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from handmade import result_of
from page_samples import BODY, HEAD, MOLE, PAWS

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Finding, Findings, Severity
from mkdocs_stitchcheck.language import vocabulary
from mkdocs_stitchcheck.language.quantities import Gauge, Length, PutUp
from mkdocs_stitchcheck.render import CautionWords, PageOptions, render_block, script, sheet_stylesheet, stylesheet
from mkdocs_stitchcheck.render.abbreviations import entries, meaning
from mkdocs_stitchcheck.render.addresses import Addresses, slug
from mkdocs_stitchcheck.render.colors import color_value
from mkdocs_stitchcheck.render.html import el, join, safe_address
from mkdocs_stitchcheck.render.measures import converted_gauge, converted_length, converted_put_up
from mkdocs_stitchcheck.render.totals import pattern_total, piece_line
from mkdocs_stitchcheck.results import Status
from mkdocs_stitchcheck.source import Source, Span


class Reader(HTMLParser):
    """Tags, ids and text of a piece of HTML; fails where a tag is not closed or closed twice."""

    VOID = frozenset({"input", "img", "br", "meta", "col"})

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.names: set[str] = set()
        self.open: list[str] = []
        self.text = ""
        self.feed(html)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.names.update(name for name, _value in attrs)
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def html_of(*texts: str, **more: object) -> list[str]:
    """The HTML of each block."""
    file, blocks = result_of(*texts)
    return [render_block(file, block, **more) for block in blocks]  # type: ignore[arg-type]


def text_of(html: str) -> str:
    """The text, white space made one."""
    return " ".join(Reader(html).text.split())


def checked(page: str, **more: object) -> list[str]:
    """The HTML of each block of a Markdown page that really was checked."""
    file = check_text(page, "docs/page.md")
    blocks = find_blocks(Source(page, "docs/page.md"), Findings())
    return [render_block(file, block, **more) for block in blocks]  # type: ignore[arg-type]


# --- where things stand --------------------------------------------------------------------------------------------


def test_each_block_holds_the_part_of_the_pattern_that_stands_in_it() -> None:
    head, body, body_2, rest = map(text_of, html_of(*MOLE))
    assert "Orchard mole" in head and "Materials" in head and "Rnd 1 " not in head
    assert "Rnds 5–7" in body and "Rnd 8" not in body
    assert "Rnd 8" in body_2 and "Rnd 4 " not in body_2 and "Paw" not in body_2
    assert re.search(r"Paw .* Scarf .* Making up .* Abbreviations", rest)


def test_a_piece_goes_on_in_the_next_block_and_repeats_no_id() -> None:
    blocks = html_of(*MOLE)
    assert "Body, continued" in text_of(blocks[2]) and "continued" not in text_of(blocks[1])
    ids = [name for block in blocks for name in Reader(block).ids]
    assert len(ids) == len(set(ids))
    assert "Body: 24 rounds" not in text_of(blocks[1]) and "Body: 24 rounds" in text_of(blocks[2])


def test_a_piece_cut_at_every_line_loses_nothing() -> None:
    whole = re.findall(r"Rnd?s? [\d–]+", text_of(html_of(HEAD, BODY)[1]))
    cut = " ".join(map(text_of, html_of(HEAD, *BODY.split("\n"))[1:]))
    assert re.findall(r"Rnd?s? [\d–]+", cut) == whole
    assert cut.count("The snout points up") == 1


def test_computed_tables_follow_the_last_block_or_stand_where_show_says() -> None:
    *_, last = html_of(*MOLE)
    assert "Pieces and stitches" in last and "Abbreviations" in last and "Materials" not in last
    head, _body, shown = html_of(HEAD, BODY, "Show: materials, abbreviations")
    assert "Materials" not in head and "Abbreviations" not in head
    assert text_of(shown).index("Materials") < text_of(shown).index("Abbreviations")


def test_two_patterns_on_one_page() -> None:
    fence = "```crochet\nTitle: {}\nTerms: US\n# Ball\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n"
    one, two = checked(fence.format("Ball one") + "\nText.\n\n" + fence.format("Ball two"))
    assert "Ball one" in text_of(one) and "Ball two" not in text_of(one)
    assert "ball-two-ball-rnd-2" in Reader(two).ids


def test_a_block_with_nothing_for_readers_is_empty() -> None:
    assert html_of(HEAD, BODY, ">> Photograph the other side.", PAWS)[2] == ""


def test_a_heading_just_said_is_not_said_again() -> None:
    page = (
        "# Acorn\n\n```crochet\nTitle: Acorn\nTerms: US\nHook: 3 mm\n```\n\n## Cup\n\n"
        "```crochet\n# Cup\nRnd 1: 6 sc in magic ring (6)\n```\n"
    )
    head, cup = checked(page)
    assert "sc-title" not in head
    assert "h3" not in Reader(cup).tags and "acorn-cup" in Reader(cup).ids


# --- rounds --------------------------------------------------------------------------------------------------------


def test_a_round_is_a_row_of_a_real_table() -> None:
    _, body, *_ = html_of(*MOLE)
    assert "<table role" in body  # no class on the table: the theme's own rules are meant for tables without
    assert body.count('scope="col"') == 4
    row = re.search(r'<tr role="row" data-times="6" id="orchard-mole-body-rnd-3">.*?</tr>', body, re.DOTALL)
    assert row is not None
    assert 'scope="row"' in row[0] and "(sc, inc) x 6" in row[0] and ">18</td>" in row[0]


def test_white_space_between_cells_keeps_words_apart_for_search() -> None:
    for block in html_of(*MOLE):
        assert not re.search(r"</t[dh]><t[dh]|</dt><dd|</tr><tr", block)


def test_a_range_has_a_box_and_an_address_for_each_round() -> None:
    _, body, *_ = html_of(*MOLE)
    row = re.search(r"<tr [^>]*body-rnd-5.*?</tr>", body, re.DOTALL)
    assert row is not None and row[0].count("<input") == 3
    assert Reader(row[0]).ids == [f"orchard-mole-body-rnd-{n}" for n in (5, 6, 7)]


def test_each_copy_has_its_own_boxes() -> None:
    *_, rest = html_of(*MOLE)
    row = re.search(r"<tr [^>]*paw-rnd-3.*?</tr>", rest, re.DOTALL)
    assert row is not None and row[0].count("<input") == 8
    assert 'aria-label="Rnd 4 done, copy 2"' in row[0]


def test_a_very_long_range_has_one_box() -> None:
    _, block = html_of(HEAD, "# Cord\nRnds 1-5000: sc around (6)")
    assert block.count('<input type="number"') == 1 and 'type="checkbox"' not in block


def test_a_computed_count_is_marked_and_explained() -> None:
    _, _, body, _ = html_of(*MOLE)
    assert re.search(r"sc-computed[^>]*>\[\d+\]<", body)
    assert "is not in the pattern as written" in body
    assert "square brackets" not in html_of(*MOLE)[1]


def test_counts_in_the_html_are_the_checked_ones() -> None:
    page = "```crochet\nTitle: Pea ball\nTerms: US\n# Ball\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6\nRnd 3: (sc, inc) x 6 (18)\n```\n"
    (block,) = checked(page)
    assert re.findall(r'align="right">(\[?\d+\]?)</td>', block)[:3] == ["6", "[12]", "18"]


def test_sizes_are_shown_as_lists() -> None:
    file, blocks = result_of("Title: Cuff\nTerms: US\n# Cuff\nRow 1: sc across (24)\nRow 2: ch 1, turn, sc across")
    first, second = file.patterns[0].rounds
    first.makes = second.makes = (24, 30, None)
    number = first.syntax.stated[0].number
    assert number is not None
    number.values = (24, 30, None)
    text = text_of(render_block(file, blocks[0]))
    assert "24 (30, –)" in text and "[24 (30, –)]" in text
    assert "2 rows, 48 (60, 0) stitches" in text


def test_private_notes_reach_no_page() -> None:
    for block in html_of(*MOLE):
        assert "Photograph this one" not in block


def test_steps_notes_and_foundations_stand_in_order() -> None:
    page = text_of(" ".join(html_of(*MOLE)))
    places = [page.index(words) for words in ("The snout points up", "Insert safety eyes", "Stuff firmly", "Ch 43.")]
    assert places == sorted(places)


def test_colors_have_a_swatch_and_their_name() -> None:
    head, _, body, _ = html_of(*MOLE)
    assert 'fill="#4b4a52"' in head and 'fill="olivedrab"' in head and "soot" in text_of(head)
    assert "B clay pink" in text_of(body)
    assert "style=" not in head  # a strict content security policy forbids styles in place


# CSS Color Module Level 4 (W3C): hexadecimal notation and named colours.
@pytest.mark.parametrize(
    ("shown", "value"),
    [
        ("#6d7a86", "#6d7a86"), ("#ABC", "#abc"), ("RebeccaPurple", "rebeccapurple"), ("#12345", None), ("", None),
        ("red;background:url(x)", None), ("url(javascript:x)", None), ("slate", None), ("var(--x)", None),
    ],
)  # fmt: skip
def test_only_true_colour_values_are_drawn(shown: str, value: str | None) -> None:
    assert color_value(shown) == value


# --- totals, abbreviations, measures -------------------------------------------------------------------------------


def test_totals_by_piece_and_pattern() -> None:
    file, _ = result_of(HEAD, "# Paw (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnds 2-4: sc around (6)", "# Tip\nRnd 1: 4 sc in magic ring (4)")
    (pattern,) = file.patterns
    # By hand: 6 + 3 x 6 = 24 a paw, two of them, and 4.
    assert piece_line(pattern.pieces[0]) == "4 rounds, 24 stitches; × 2 = 48 stitches."
    assert pattern_total(pattern).stitches == (52,) and pattern_total(pattern).rounds == 9


def test_totals_say_where_they_are_not_whole() -> None:
    page = "```crochet\nTitle: Scarf\nTerms: US\n# Scarf\nRow 1: 10 fsc (10)\nRow 2: ch 1, turn, work in pattern as established\n```\n"
    file = check_text(page, "p.md")
    assert "10" in piece_line(file.patterns[0].pieces[0])


def test_yarn_by_colour_and_piece_with_its_likely_error() -> None:
    *_, rest = html_of(*MOLE)
    text = text_of(rest).partition("Yarn needed")[2]
    # By hand: 102 sc and two pairs of tails in B. A stitch is 10 / 26 cm wide and takes 10.6 widths (worsted experiment
    # of the trade's guides): 102 x 10.6 x 0.3846 cm = 4.16 m; what the tails add is the estimate's own business.
    assert "A soot, 1 ball" in text and "B clay pink" in text and "Paw × 2" in text
    length = re.search(r"B clay pink\s*from the gauge, about 20 %\s*([\d.]+) m", text)
    assert length is not None and 4.2 < float(length[1]) < 6.5
    assert "20 % either way" in text and "with tails" in text


def test_yarn_without_gauge_says_what_is_needed_and_invents_nothing() -> None:
    (block,) = html_of("Title: Pea\nTerms: US\n# Pea\nRnd 1: 6 sc in magic ring (6)")
    text = text_of(block).partition("Yarn needed")[2]
    assert "An estimate needs: Gauge" in text and " m " not in text


def test_abbreviations_are_those_used_with_their_meaning() -> None:
    file, _ = result_of(*MOLE)
    found = dict(entries(file.patterns[0]))
    assert found["inc"] == "increase: 2 sc in one stitch"
    assert found["hdc"] == "half double crochet"
    assert found["st, sts"] == "stitch, stitches"
    assert "tr" not in found and "BLO" not in found


# US and UK names: Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (2018), term differences.
@pytest.mark.parametrize(
    ("key", "system", "words"),
    [
        ("sc", "US", "single crochet"), ("sc", "UK", "double crochet"), ("hdc", "UK", "half treble"),
        ("dc", "UK", "treble"), ("inc", "UK", "increase: 2 dc in one stitch"),
        ("dec", "UK", "decrease: 2 dc worked together"),
    ],
)  # fmt: skip
def test_meanings_are_in_the_terms_of_the_pattern(key: str, system: str, words: str) -> None:
    assert meaning(vocabulary.stitches()[key], system) == words


def test_abbreviations_of_a_uk_pattern_from_its_text() -> None:
    page = "```crochet\nTitle: Pip\nTerms: UK\n# Pip\nRnd 1: 6 dc in magic ring (6)\nRnd 2: (dc, htr in next st) x 3 (6)\n```\n"
    found = dict(entries(check_text(page, "p.md").patterns[0]))
    assert found["dc"] == "double crochet" and found["htr"] == "half treble" and "sc" not in found


def test_measures_beside_their_conversion() -> None:
    # Against pint: 9 cm = 3.543 in, 8 in = 20.32 cm, 50 g = 1.764 oz, 125 m = 136.70 yd.
    import pint

    units = pint.UnitRegistry()
    assert converted_length(Length(9, "cm")) == f"{units.Quantity(9, 'cm').to('inch').magnitude:.1f} in"
    assert converted_length(Length(8, "in", high=10)) == "20.3–25.4 cm"
    ounces, yards = units.Quantity(50, "g").to("oz").magnitude, units.Quantity(125, "m").to("yard").magnitude
    assert converted_put_up(PutUp(50, 125), "50 g = 125 m") == f"{ounces:.1f} oz = {yards:.0f} yd"
    assert converted_put_up(PutUp(100, 200), "3.5 oz = 219 yd") == "100 g = 200 m"
    assert converted_gauge(Gauge(26, 28), "26 sc x 28 rnds = 10 cm") == "4 in"


# --- cautions ------------------------------------------------------------------------------------------------------


def test_the_caution_stands_by_the_materials_and_at_the_step() -> None:
    head, body, body_2, rest = html_of(*MOLE)
    for words in ("under 3", "pets", "embroider", "pull hard", "scarves", "rules of their own place", "age label"):
        assert words in head
    assert body.count("sc-caution-step") == 0 and body_2.count("sc-caution-step") == 1
    assert "Cord or scarf" in rest


def test_the_owner_can_reword_the_caution_and_an_empty_wording_drops_nothing() -> None:
    own = PageOptions(caution=CautionWords(materials="Our own words.\nIn two parts.", step="Mind the eyes."))
    head, _, body, _ = html_of(*MOLE, options=own)
    assert "Our own words." in head and "under 3" not in head and "Mind the eyes." in body
    empty = PageOptions(caution=CautionWords(materials="  ", step=""))
    assert "under 3" in html_of(*MOLE, options=empty)[0]


def test_embroidered_eyes_and_a_shawl_need_no_caution() -> None:
    head = "Title: Shawl\nTerms: US\nNotions: yarn needle"
    blocks = html_of(head, "# Shawl\nRow 1: 3 sc (3)\nEmbroider the eyes.\nTie the ribbon.")
    assert not any("aution" in block for block in blocks)


# --- what is said of the check -------------------------------------------------------------------------------------


def test_readers_are_told_that_counts_were_checked_and_what_it_does_not_mean() -> None:
    head = html_of(*MOLE)[0]
    assert "Stitch counts checked" in head and "does not mean" in head and "of 16 checked" not in head
    assert "15 of 16 checked, 1 counted" in html_of(*MOLE, show_findings=True)[0]


@pytest.mark.parametrize("status", [Status.MISMATCH, Status.UNREAD, Status.ON_TRUST])
def test_readers_are_told_nothing_where_it_is_not_so(status: Status) -> None:
    file, blocks = result_of(*MOLE, status=status)
    assert "Stitch counts checked" not in render_block(file, blocks[0])


def test_a_draft_says_so_and_does_not_say_checked() -> None:
    head = html_of(HEAD + "\nDraft: yes", BODY)[0]
    assert "Draft: counts may change." in head and "Stitch counts checked" not in head


def test_findings_stand_at_their_round_for_the_writer_alone() -> None:
    file, blocks = result_of(*MOLE)
    at = blocks[1].lines[3].number
    said = "Rnd 3 makes 18 <b>stitches</b>; you wrote 19."
    file.findings = [
        Finding("count-mismatch", Severity.ERROR, Span(at, 8, at, 20), said, "Write (18).", group=1, follows=("Rnd 4.",)),
        Finding("stitches-left-over", Severity.ERROR, Span(at, 9, at, 20), "The same slip.", group=1),
        Finding("bad-quantity", Severity.ERROR, Span(blocks[0].lines[5].number, 1, 1, 1), "5 gg is no amount."),
        Finding("small-parts", Severity.CAUTION, Span(at, 1, at, 2), "Not for the writer's box."),
    ]
    assert not any("sc-finding" in render_block(file, block) for block in blocks)
    head, body, *_ = [render_block(file, block, show_findings=True) for block in blocks]
    assert "5 gg is no amount." in head
    text = text_of(body)
    assert text.index("Rnd 3 ") < text.index(said) < text.index("Rnd 4 *sc") and f"docs/page.md:{at}:8" in text
    assert "The same slip." not in text and "writer's box" not in text
    assert "b" not in Reader(body).tags


# --- addresses -----------------------------------------------------------------------------------------------------


def test_addresses_last_and_a_prefix_keeps_posts_apart() -> None:
    file, _ = result_of(*MOLE)
    piece = file.patterns[0].syntax.pieces[0]
    assert Addresses(file).round(piece.lines[0], 1) == "orchard-mole-body-rnd-1"
    assert Addresses(file, "2026/mole").piece(piece) == "2026-mole-orchard-mole-body"
    first = Reader(" ".join(html_of(*MOLE, prefix="a"))).ids
    second = Reader(" ".join(html_of(*MOLE, prefix="b"))).ids
    assert not set(first) & set(second)


def test_no_link_leads_to_a_generated_id() -> None:
    assert not any('href="#' in block for block in html_of(*MOLE))


def test_slugs() -> None:
    assert slug("Crème brûlée, no. 2", "x") == "creme-brulee-no-2"
    assert slug("!!!", "piece") == "piece" and len(slug("w" * 10_000, "x")) == 60
    assert slug("אבד", "x") == "אבד"


# --- nothing becomes markup ----------------------------------------------------------------------------------------


def test_elements_escape_by_construction() -> None:
    assert str(el("p", "<b> & \"'", title="\"'><")) == '<p title="&quot;&#x27;&gt;&lt;">&lt;b&gt; &amp; &quot;&#x27;</p>'
    assert str(join("a\x00\x02b\x03\ud800c")) == "abc"
    assert str(el("input", checked=True, disabled=False, id=None)) == "<input checked>"


@pytest.mark.parametrize(
    "address", ["javascript:alert(1)", " JaVaScRiPt:x", "data:text/html,x", "vbscript:x", "java\x01script:x", "\x00javascript:x"]
)
def test_only_plain_addresses_are_followed(address: str) -> None:
    assert safe_address(address) is None


def test_plain_addresses_pass() -> None:
    for address in ("https://example.org/a?b=c", "../sheet/", "mailto:a@example.org", "a/b:c/"):
        assert safe_address(address) in (address, None) and safe_address("../sheet/") == "../sheet/"


@pytest.mark.parametrize("text", ["<script>x</script>", '"><img src=x onerror=y>', "</table></div>", "&lt;b&gt;", "\x02stash:0\x03"])
def test_hostile_text_in_every_field_adds_no_element_and_no_attribute(text: str) -> None:
    def sample(words: str) -> list[str]:
        head = f"Title: {words}\nTerms: US\nDesigner: {words}\nYarn: {words}\nColor A: {words}, shown as {words}\nNotions: {words}"
        body = f"# {words} (color A)\nRnd 1: {words} sc (6)\nRnd 2: sc (6 {words})\n> {words}\nStuff {words}"
        return html_of(head, body, show_findings=True)

    for bad, good in zip(sample(text), sample("plain"), strict=True):
        assert set(Reader(bad).tags) <= set(Reader(good).tags) | {"h3"}
        assert Reader(bad).names <= Reader(good).names


def test_style_sheets_and_script_are_at_most_30_kb_together() -> None:
    delivered = [len(text.encode()) for text in (stylesheet(), script(), sheet_stylesheet())]
    assert min(delivered) > 3_000 and sum(delivered) <= 30 * 1024, delivered  # what pages load and sheets carry
    assert "prefers-color-scheme" not in stylesheet()  # it fights the themes' own switches


# --- both terms ----------------------------------------------------------------------------------------------------


def test_both_terms_stand_on_a_page_that_wants_them_without_a_script() -> None:
    """Names and equivalence: Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (2018)."""
    fence = (
        "```crochet\nTitle: Pip\nTerms: UK\n# Pip\nRnd 1: 6 dc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
        "> Miss the bus, not a htr.\nWork one round of htr on top (12)\n```\n"
    )
    (block,) = checked(fence, options=PageOptions(both_terms=True))
    text = text_of(block)
    assert "6 dc in magic ring US: 6 sc in magic ring" in text
    assert "US: Miss the bus, not a hdc." in text and text.count("inc x 6") <= 3
    assert "US: dc: double crochet" not in text and "US: sc: single crochet" in text
    assert "US: " not in text_of(checked(fence)[0])

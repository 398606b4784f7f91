"""The list of what can be made: by the weight of the yarn, to one scale, without drafts; and where the plugin puts it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from drawn_patterns import checked
from site_kit import Site, page

from mkdocs_stitchcheck.render.index import Entry, render_index, tags_of

BALL = """\
Yarn: light (3), 50 g = 125 m
Color A: oat, shown as #b99c76
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
# Ball (make 2, color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-5: sc around (12)
Rnd 6: dec x 6 (6)
Fasten off and close the hole."""


def text(title: str, body: str = BALL, **changes: str) -> str:
    for old, new in changes.items():
        body = body.replace(old.replace("_", " "), new)
    return f"Title: {title}\nTerms: US\n{body}"


def entry(title: str, **changes: str) -> Entry:
    return Entry(checked(text(title, **changes)), f"../{title.lower()}/#{title.lower()}")


def test_grouped_by_yarn_weight_in_the_order_of_the_standard() -> None:
    # Craft Yarn Council, Standards & Guidelines (2018): 1 Super Fine, 3 Light, 5 Bulky.
    html = render_index([entry("Stone", light="bulky", **{"(3)": "(5)"}), entry("Pea", light="super fine", **{"(3)": "(1)"}), entry("Nut")])
    assert re.findall(r"<h2>([^<]*)</h2>", html) == ["Super fine (1) yarn", "Light (3) yarn", "Bulky (5) yarn"]
    assert html.index("Pea") < html.index("Nut") < html.index("Stone")


def test_an_entry_says_what_it_takes() -> None:
    html = render_index([entry("Nut", Hook="Finished size: about 2 cm tall\nVersion: 3\nDate: 2024-05-01\nHook")])
    facts = dict(re.findall(r"<dt>([^<]*)</dt>\n<dd[^>]*>([^<]*)</dd>", html))
    assert facts["Size"] == "about 2 cm (0.8 in) tall" and facts["Hook"] == "2.5 mm" and facts["Pieces"] == "Ball × 2"
    assert facts["Version"] == "3, 2024-05-01" and "oat" in facts["Yarn"] and "minutes" in facts["Time"]
    assert 'href="../nut/#nut"' in html


def test_one_scale_for_all_and_a_rule() -> None:
    small, large = entry("Nut"), entry("Boulder", **{"26 sc x 28": "6 sc x 7"})
    html = render_index([small, large])
    widths = [float(w) for w in re.findall(r'width="(\d+)" height="\d+" role="img" aria-label="Shape', html)]
    assert widths[1] > 3 * widths[0] and 'aria-label="A rule of' in html


def test_drafts_are_hidden_and_what_is_not_cleared_holds_no_figures() -> None:
    draft = Entry(checked(text("Ghost", "Draft: yes\n" + BALL)), "g/")
    assert render_index([draft]) == ""
    html = render_index([draft, entry("Slip", **{"inc x 6 (12)": "inc x 6 (13)"})])
    assert "Ghost" not in html and "still to be gone through" in html and "Shape of" not in html and "<dt>Time" not in html


def test_tags() -> None:
    assert tags_of(checked(text("Nut"))) == ["Light (3) yarn", "Basic"]


@pytest.mark.parametrize("title", ['<script>x</script>"><img src=x onerror=y>', "javascript:alert(1)"])
def test_hostile_titles_and_addresses_stay_text(title: str) -> None:
    html = render_index([Entry(checked(text(title)), "javascript:alert(1)")])
    assert "<script" not in html and "<img" not in html and "javascript:alert(1)\"" not in html


def test_the_plugin_lists_all_patterns_at_the_end_of_the_page(tmp_path: Path) -> None:
    fence = "```crochet\n{}\n```\n"
    pages = {
        "toys/nut.md": page(fence.format(text("Nut")), title="A nut"),
        "ghost.md": page(fence.format(text("Ghost", "Draft: yes\n" + BALL)), title="Ghost"),
        "list.md": "# All of it\n\nTake your pick.\n",
        "index.md": "# Home\n",
    }
    built = Site(tmp_path, "plugins:\n  - search\n  - stitchcheck:\n      index: list.md\n", pages).write().build()
    assert built.code == 0, built.said
    html = built.read("list/index.html")
    assert html.index("Take your pick") < html.index("sc-index")
    assert 'href="../toys/nut/#nut"' in html and "Ghost" not in html.split("sc-index")[1].split("</main>")[0].split("<footer")[0]
    assert 'id="nut"' in built.read("toys/nut/index.html")
    assert "Take your pick" in (tmp_path / "site/search/search_index.json").read_text() and "Shape of" not in built.said


def test_the_plugin_makes_the_page_where_there_is_none(tmp_path: Path) -> None:
    pages = {"index.md": page(f"```crochet\n{text('Nut')}\n```\n")}
    site = Site(tmp_path, "plugins:\n  - stitchcheck:\n      index: make.md\n      tags: true\n", pages).write()
    built = site.build()
    assert built.code == 0, built.said
    html = built.read("make/index.html")
    assert "What can I make?" in html and 'href="../#nut"' in html


def test_a_drawing_too_large_for_a_page_is_a_file(tmp_path: Path) -> None:
    body = "Show: chart\n# Rug\nRnd 1: 12 dc in magic ring (12)\nRnd 2: 2 dc in each st around (24)\nRnd 3: (dc, dc inc) x 12 (36)\n"
    lines = [f"Rnd {n}: (dc, sc) x 18 (36)" if n % 2 else f"Rnd {n}: sc, (sc, dc) x 17, dc (36)" for n in range(4, 40)]
    pages = {"index.md": page(f"```crochet\nTitle: Rug\nTerms: US\n{body}" + "\n".join(lines) + "\n```\n")}
    built = Site(tmp_path, "plugins: [stitchcheck]\n", pages).write().build()
    assert built.code == 0, built.said
    html = built.read()
    (address,) = set(re.findall(r'src="(assets/drawings/[^"]*chart\.svg)"', html))
    svg = (tmp_path / "site" / address).read_text()
    assert svg.startswith("<svg xmlns=") and len(svg) > 30_000
    assert max(map(len, re.findall(r"<svg.*?</svg>", html, re.DOTALL))) <= 30_000

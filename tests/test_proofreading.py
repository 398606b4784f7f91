"""The editor's letter: its parts, what it says is right, and that nothing of a writer's becomes markup in it."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import markdown
import pytest
from golden_files import compare

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.proofreading import Letter, letters
from mkdocs_stitchcheck.proofreading.letter import topic_of
from mkdocs_stitchcheck.render.proofread import proofread_page
from mkdocs_stitchcheck.report.proofread import as_markdown, as_text
from mkdocs_stitchcheck.rules import DEFAULT_SEVERITIES
from mkdocs_stitchcheck.rules.points import TOPICS

PAGES = Path(__file__).parent / "points"
SLIPS = """\
# A page <script>alert(1)</script>

```crochet
Title: Seal *pup* <b>x</b>
Terms: US
Yarn: light (3), 50 g = 125 m
Color A: slate, 1 ball
Hook: 2.5 mm
Notions: safety eyes
# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (13)
Rnd 3: (sc, inc) x 6
Rnd 4: continue as established (24)
Rnd 5: (3 sc, inc) x 7 (30)
>> right as written: I like it <i>so</i>
Rnd 6: sc around (24)
Insert safety eyes between Rnds 40 and 41.
```
"""


def letter(text: str, path: str = "seal.md") -> Letter:
    return letters(check_text(text, path))[0]


def part(found: Letter, title: str) -> str:
    return "\n".join(entry.words for section in found.sections if section.title == title for entry in section.entries)


def test_every_rule_has_a_topic() -> None:
    assert {topic_of(rule) for rule in DEFAULT_SEVERITIES} <= set(TOPICS)


def test_the_parts_of_a_letter() -> None:
    found = letter(SLIPS)
    assert "not ready" in " ".join(found.opening) and "3 must be mended" in " ".join(found.opening)
    assert "12 stitches" in part(found, "Counts and arithmetic")
    assert "safety eyes" in part(found, "Materials")
    assert "Rnd 4" in part(found, "Taken on trust") and "I make it 18" in part(found, "Taken on trust")
    assert "I like it" in part(found, "Right as written, you say")
    assert "?" in part(found, "For your own eye")


def test_nothing_is_called_right_that_is_not() -> None:
    right = part(letter(SLIPS), "What is right")
    assert "enough" not in right and "Body:" not in right and "place" not in right
    assert "1 of 6 rounds work" in right


def test_what_is_right_has_its_numbers() -> None:
    """Rounds and stitches of the newt, by hand: 15 rounds, 24 stitches at the widest, 6 at the end."""
    right = part(letter((PAGES / "toy.md").read_text(encoding="utf-8"), "toy.md"), "What is right")
    assert "Body: 15 rounds, 24 stitches at its widest, 6 at its end" in right
    assert "Gills, made twice" in right and "Crest: 2 rows" in right
    assert "All 29 rounds, told in 22 lines, work" in right and "A (bark), B (rowan)" in right


@pytest.mark.parametrize("page", ["toy", "cardigan"])
def test_letters_in_text(page: str) -> None:
    text = (PAGES / f"{page}.md").read_text(encoding="utf-8")
    compare(f"proofread.{page}.txt", as_text(letters(check_text(text, f"{page}.md"))))


def test_letter_on_slips() -> None:
    found = letters(check_text(SLIPS, "seal.md"))
    compare("proofread.slips.txt", as_text(found))
    compare("proofread.slips.md", as_markdown(found))
    compare("proofread.slips.html", proofread_page(found, address="../"))


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)


def test_nothing_typed_becomes_markup() -> None:
    found = letters(check_text(SLIPS, "seal<u>.md"))
    for html in (proofread_page(found, address="javascript:alert(1)"), markdown.markdown(as_markdown(found))):
        tags = _Tags()
        tags.feed(html)
        assert not {"script", "b", "i", "u", "em"} & set(tags.tags)
        assert "javascript:" not in html


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "seal.md"
    page.write_text(SLIPS, encoding="utf-8")
    assert main(["proofread", str(page)]) == 1
    assert "WHAT I FOUND" in capsys.readouterr().out
    assert main(["proofread", str(page), "--format", "html", "--output", str(tmp_path / "letter.html")]) == 1
    assert (tmp_path / "letter.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert main(["proofread", str(PAGES / "toy.md"), "--format", "markdown"]) == 0
    assert capsys.readouterr().out.startswith("# Proofreading: Pond newt")
    assert main(["proofread", str(tmp_path / "none.md")]) == 2
    empty = tmp_path / "empty.md"
    empty.write_text("# Nothing here\n", encoding="utf-8")
    assert main(["proofread", str(empty)]) == 0
    assert "No crochet pattern" in capsys.readouterr().out


def _site(folder: Path, command: str) -> dict[str, str]:
    """The HTML files of a small site, as *command* ("build" or "serve") makes them."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    (folder / "docs").mkdir(exist_ok=True)
    (folder / "docs" / "newt.md").write_text((PAGES / "toy.md").read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "docs" / "index.md").write_text("# Home\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text("site_name: Pond\nplugins: [stitchcheck]\n", encoding="utf-8")
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / command))
    config.plugins.on_startup(command=command, dirty=False)
    build(config)
    return {path.relative_to(folder / command).as_posix(): path.read_text(encoding="utf-8")
            for path in (folder / command).rglob("*.html")}


def test_a_served_page_has_its_letter(tmp_path: Path) -> None:
    pages = _site(tmp_path, "serve")
    assert 'href="proofreading/"' in pages["newt/index.html"]
    assert "Proofreading: Pond newt" in pages["newt/proofreading/index.html"]
    assert 'href="../"' in pages["newt/proofreading/index.html"]
    assert "proofreading" not in pages["index.html"]


def test_a_built_site_has_none(tmp_path: Path) -> None:
    pages = _site(tmp_path, "build")
    assert "newt/index.html" in pages
    assert not [name for name, html in pages.items() if "proofreading" in name or "proofreading" in html.lower()]

"""What belongs under a film: materials, abbreviations, chapters, address; and the shots."""

from __future__ import annotations

from pathlib import Path

import pytest
from golden_files import compare

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.film import chapter_warnings, chapters, clock, shots
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.hosts.site_address import address_of
from mkdocs_stitchcheck.results import PatternResult

SITE = Path(__file__).parent.parent / "site_example"

HEAD = "```crochet\nTitle: Pip\nTerms: US\n\n"


def pattern(body: str) -> PatternResult:
    return check_text(f"{HEAD}{body}\n```\n", "pip.md").patterns[0]


def test_chapters_begin_at_the_start_and_name_piece_and_round() -> None:
    one = pattern("# Body (make 2) @ 0:30\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12) @ 12:30\n"
                  "Stuff firmly. @ 1:02:05")  # fmt: skip
    assert [(clock(c.start), c.name) for c in chapters(one)] == [
        ("0:00", "Pip"), ("0:30", "Body"), ("12:30", "Body, Rnd 2"), ("1:02:05", "Body, stuff firmly"),
    ]  # fmt: skip
    assert chapter_warnings(one) == []


def test_a_mark_at_the_start_needs_no_chapter_of_ours() -> None:
    assert [c.name for c in chapters(pattern("# Body @ 0:00\nRnd 1: 6 sc in magic ring (6) @ 1:00"))] == ["Body", "Body, Rnd 1"]


def test_no_marks_no_chapters() -> None:
    one = pattern("Rnd 1: 6 sc in magic ring (6)")
    assert chapters(one) == [] and chapter_warnings(one) == []


@pytest.mark.parametrize(
    ("times", "line", "words"),
    [
        (("2:00", "1:00", "3:00"), 7, "before Body, Rnd 1 at 2:00; the chapters are put in the order of the film"),
        (("1:00", "1:05", "3:00"), 6, "Body, Rnd 1 lasts 5 seconds; a chapter lasts at least 10"),
        (("1:00", "1:00", "3:00"), 7, "1:00 stands at Body, Rnd 2 and at Body, Rnd 1"),
        (("0:00", "0:30", ""), 6, "fewer than 3 chapters"),
    ],
)
def test_what_a_player_would_not_take_is_said_at_its_line(times: tuple[str, ...], line: int, words: str) -> None:
    marks = [f" @ {time}" if time else "" for time in times]
    one = pattern(f"# Body\nRnd 1: 6 sc in magic ring (6){marks[0]}\nRnd 2: inc x 6 (12){marks[1]}\nRnd 3: sc around (12){marks[2]}")
    said = chapter_warnings(one)
    assert [place for place, _ in said] == [line]
    assert words in said[0][1]
    starts = [chapter.start for chapter in chapters(one)]
    assert starts == sorted(starts) and starts[0] == 0


def test_shots_stand_by_piece_and_round() -> None:
    one = pattern("# Body\n>> Photograph: the yarn\nRnds 1-2: 6 sc in magic ring (6)\n>> photo: the ring\n>> not for you: a note\nRnd 3: inc x 6 (12)")
    assert [(s.piece, s.after, s.words) for s in shots(one)] == [("Body", "", "the yarn"), ("Body", "Rnds 1–2", "the ring")]


def test_the_text_under_the_film_of_the_example_site(capsys: pytest.CaptureFixture[str]) -> None:
    page = str(SITE / "docs" / "patterns" / "harbour-buoy.md")
    assert main(["film", page]) == 0
    shown = capsys.readouterr()
    assert shown.err == ""
    compare("film.txt", shown.out)
    assert main(["film", "--shots", page]) == 0
    shots_shown = capsys.readouterr().out
    assert "[ ] Float, after Rnd 5: two loops on the hook" in shots_shown
    assert ">>" not in shown.out and "Photograph" not in shown.out and "two loops" not in shown.out


@pytest.mark.parametrize(
    ("settings", "page", "address"),
    [
        ("site_url: https://saltgrass.example/", "docs/patterns/pip.md", "https://saltgrass.example/patterns/pip/"),
        ("site_url: 'https://saltgrass.example/blog'  # ours", "docs/index.md", "https://saltgrass.example/blog/"),
        ("site_url: https://saltgrass.example\nuse_directory_urls: false", "docs/pip.md", "https://saltgrass.example/pip.html"),
        ("site_url: https://saltgrass.example\ndocs_dir: text", "text/a b.md", "https://saltgrass.example/a%20b/"),
        ("site_url: https://saltgrass.example\nplugins:\n  - blog", "docs/blog/posts/pip.md", ""),
        ("site_name: None", "docs/pip.md", ""),
        ("site_url: https://saltgrass.example", "elsewhere/pip.md", ""),
        ("site_url: https://saltgrass.example", "docs/pip.txt", ""),
    ],
)
def test_the_address_of_a_post(tmp_path: Path, settings: str, page: str, address: str) -> None:
    (tmp_path / "mkdocs.yml").write_text(settings + "\n", encoding="utf-8")
    assert address_of(str(tmp_path / page)) == address

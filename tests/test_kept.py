"""What is kept of a page: the same text again, for a list of posts or the next build of a serve, is not checked again."""

from __future__ import annotations

import pytest
from markdown import Markdown

from mkdocs_stitchcheck.hosts import pages
from mkdocs_stitchcheck.settings import Settings

PAGE = "# A cap\n\n```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n"


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The texts that are really checked."""
    pages.forget_checks()
    found: list[str] = []
    check = pages.check_text

    def counted(text: str, *others: object) -> object:
        found.append(text)
        return check(text, *others)  # type: ignore[arg-type]

    monkeypatch.setattr(pages, "check_text", counted)
    return found


def test_a_page_that_is_shown_again(checked: list[str]) -> None:
    shown = [Markdown(extensions=["stitchcheck"]).convert(PAGE) for _ in range(3)]
    assert shown[0] == shown[1] == shown[2] and "12" in shown[0]
    assert len(checked) == 1
    Markdown(extensions=["stitchcheck"]).convert(PAGE.replace("(12)", "(13)"))
    assert len(checked) == 2


def test_the_next_build_makes_the_page_anew_and_checks_only_what_has_changed(checked: list[str]) -> None:
    check = pages.check_page(PAGE, "cap.md", PAGE, Settings())
    check.html[0] = "<p>of the build before</p>"
    pages.forget_shown()
    again = pages.check_page(PAGE, "cap.md", PAGE, Settings())
    assert again is check and not again.html and len(checked) == 1
    assert pages.check_page(PAGE, "cap.md", PAGE, Settings(strict=True)) is not check
    assert pages.check_page(PAGE, "other.md", PAGE, Settings()) is not check
    assert len(checked) == 3

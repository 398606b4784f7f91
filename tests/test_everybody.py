"""Reading in every way: by keys alone, on a tablet, in the dark, on paper, with the screen kept on, under a strict policy."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from browser_tools import look, pdf_pages
from following import HARE, HOST, POLICY, visit
from test_browser import THEMES, open_pages
from test_by_size import CAP
from test_charts import GRANNY, TABS
from test_following import ask, click, row, told

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.render import render_sheet
from mkdocs_stitchcheck.render.index import Entry, render_index

HEAD = "Title: Tern square\nTerms: US\nYarn: medium (4), 50 g = 85 m\nColor A: dusk, shown as #a8455f\nGauge: 14 dc x 8 rnds = 10 cm\n"
SQUARE = f"{HEAD}Show: materials, chart, shape, size, rounds, yarn, abbreviations\n# Square (color A)\n{GRANNY}\nFasten off.\n"
STRAP = f"{HEAD.replace('Tern square', 'Tern strap')}Show: chart, shape\n# Strap (color A)\n{TABS}\n"


def sheet(text: str, **more: Any) -> str:
    file = check_text(f"```crochet\n{text}```\n", "page.md")
    return render_sheet(file, file.patterns[0], address="https://example.org/tern/", **more)


# --- the screen stays on --------------------------------------------------------------------------------------------

# What stands in for the screen's lock: headless, there is no screen to be kept on.
LOCKS = """(() => { globalThis.locks = [];
    Object.defineProperty(navigator, 'wakeLock', { value: { request: async kind => {
        const lock = { kind, on: true, release: async () => { lock.on = false; } };
        globalThis.locks.push(lock);
        return lock; } } }); })()"""
KEEP = ".sc-tools [data-do=wake]"
HELD = "globalThis.locks.map(lock => [lock.kind, lock.on])"
PRESSED = f"document.querySelector('{KEEP}').ariaPressed"


def test_the_screen_is_kept_on_until_it_is_pressed_again_and_again_after_a_look_elsewhere() -> None:
    back = "document.dispatchEvent(new Event('visibilitychange'))"
    wish = visit(ask("!!navigator.wakeLock"), ask(LOCKS), ask(PRESSED), click(KEEP), ask(HELD), ask(PRESSED), ask(back), {"wait": 50},
                 ask(HELD), click(KEEP), ask("globalThis.locks.at(-1).on"), ask(PRESSED), ask(back), ask("globalThis.locks.length"))  # fmt: skip
    safe = HOST.replace("http:", "https:")  # browsers keep the screen on for safe pages alone
    wish |= {"url": wish["url"].replace(HOST, safe), "site": {url.replace(HOST, safe): what for url, what in wish["site"].items()}}
    (said,) = told(wish)
    first = ["screen", True]
    assert said == [True, None, "false", [first], "true", True, [first, first], False, "false", True, 2]


def test_where_the_screen_can_t_be_kept_on_nothing_says_so() -> None:
    (said,) = told(visit(ask("!!navigator.wakeLock"), ask(f"document.querySelectorAll('{KEEP}').length")))
    assert said == [False, 0]


# --- keys alone -----------------------------------------------------------------------------------------------------

WHERE = """(() => { const on = document.activeElement, box = on.getBoundingClientRect(), style = getComputedStyle(on);
    if (on === document.body) return null;
    return [on.ariaLabel || on.textContent.trim().slice(0, 40) || on.name || on.className || on.type,
            parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== 'none' && box.width > 0]; })()"""
REACHABLE = """[...document.querySelectorAll('a[href], button, summary, select, input:not([type=radio]), [tabindex="0"]')]
    .filter(one => one.checkVisibility({ visibilityProperty: true }) && (one.tagName === 'SUMMARY' || one.parentNode.closest('details:not([open])') === null)).length
    + new Set([...document.querySelectorAll('input[type=radio]')].map(one => one.name)).size"""


@pytest.mark.parametrize(("text", "most"), [(SQUARE, 60), (CAP, 90), (HARE, 90)], ids=["square", "sizes", "toy"])
def test_tab_reaches_all_that_can_be_pressed_and_shows_where_it_is(text: str, most: int) -> None:
    steps: list[dict[str, Any]] = [ask(REACHABLE)]
    for _ in range(most):
        steps += [{"key": "Tab"}, ask(WHERE)]
    (said,) = told(visit(*steps, patterns=(text,), width=1024))
    number, *where = said
    reached = where[: where.index(None)] if None in where else where
    assert len(reached) == number < most, (number, reached)
    assert [name for name, seen in reached if not seen] == []


def test_everything_is_done_by_keys() -> None:
    def to(what: str) -> dict[str, Any]:
        return ask(f"(() => {{ document.querySelector({what!r}).focus() }})()")

    said_of_yarn = "document.querySelectorAll('.sc-said li').length"
    (said,) = told(visit(
        to(".sc-checked summary"), {"key": "Enter"}, ask("document.querySelector('.sc-checked').open"),
        to("[data-pref=large]"), {"key": "Space"}, ask("document.querySelector('.stitchcheck').classList.contains('sc-large')"),
        to("[data-do=terms]"), {"key": "Enter"}, ask("document.querySelector('[data-do=terms]').textContent"),
        to(".sc-tick input"), {"key": "Space"}, {"key": "?"}, ask("document.querySelectorAll('.sc-say').length > 0"),
        to(".sc-chart details summary"), {"key": "Enter"}, ask("document.querySelector('.sc-chart details').open"),
        to(".sc-another input"), {"key": "Enter"}, ask(said_of_yarn),
        to(".sc-bar button:last-child"), {"key": "Enter"}, ask("document.querySelectorAll('.sc-tick input:checked').length"),
        patterns=(SQUARE,),
    ))  # fmt: skip
    assert [one for one in said if one is not None] == [True, True, "Show in US terms", True, True, 2, 2]


def test_a_size_is_chosen_by_the_arrows() -> None:
    shown = "[...document.querySelectorAll('td.sc-count')].filter(one => one.checkVisibility()).map(one => one.dataset.size)"
    (said,) = told(visit(
        ask("(() => { document.querySelector('.sc-choice input').focus() })()"), {"key": "ArrowRight"}, {"key": "ArrowRight"},
        ask(f"[...new Set({shown})]"), patterns=(CAP,),
    ))  # fmt: skip
    assert said[-1] == ["M"]


# --- widths, light and dark -----------------------------------------------------------------------------------------


def test_a_tablet_upright_and_across_in_every_theme() -> None:
    steps = [row("square-rnd-1"), {"axe": True}]
    wishes = [visit(*steps, theme=theme, width=width, patterns=(SQUARE, CAP)) for theme in THEMES for width in (768, 820, 1024)]
    for answer, wish in zip(look(wishes), wishes, strict=True):
        assert answer["told"] == [[]] and answer["errors"] == [] and answer["scrollWidth"] <= wish["width"]
        assert answer["smallest"] >= 18 and answer["hostile"] == []


@pytest.mark.parametrize("text", [SQUARE, CAP, HARE], ids=["square", "sizes", "toy"])
def test_the_sheet_in_light_and_dark_at_every_width(tmp_path: Path, text: str) -> None:
    pages = [
        (sheet(text, large=large), {"width": width, "scheme": scheme, "axe": True})
        for large in (False, True) for scheme in ("light", "dark") for width in (390, 820)
    ]
    for answer, (_html, wish) in zip(open_pages(tmp_path, pages), pages, strict=True):
        assert answer["violations"] == [] and answer["errors"] == [] and answer["scrollWidth"] <= wish["width"]


def test_the_sheet_s_chart_can_be_mirrored_and_then_only_that_is_printed(tmp_path: Path) -> None:
    seen = "[...document.querySelectorAll('.right svg, .left svg')].map(one => one.checkVisibility() && one.getBoundingClientRect().width > 50)"
    steps = [ask(seen), click("#for-left"), ask(seen), ask("document.querySelector('.left use').getBoundingClientRect().width > 50"),
             {"pdf": str(tmp_path / "left.pdf")}]  # fmt: skip
    (answer,) = open_pages(tmp_path, [(sheet(SQUARE), {"width": 1000, "steps": steps})])
    assert answer["told"] == [[True, False], [False, True], True] and answer["errors"] == []
    text = "\n".join(pdf_pages(tmp_path / "left.pdf"))
    assert "Mirrored, for left-handers" in text and text.count("2 · 24") == 1
    assert "as right-handers work" not in text


# --- on paper -------------------------------------------------------------------------------------------------------


def test_the_page_that_is_followed_prints_whole_and_without_what_is_pressed(tmp_path: Path) -> None:
    pdf = tmp_path / "followed.pdf"
    (answer,) = look([visit(row("body-rnd-1"), row("body-rnd-2"), {"pdf": str(pdf)}, width=1000)])
    assert answer["errors"] == []
    text = "\n".join(pdf_pages(pdf))
    for words in ("Rnd 1", "Rnd 12", "Rnds 4–10", "Cord", "Abbreviations, US terms", "Making up"):
        assert words in text
    for words in ("Large print", "Clear all ticks", "Tick it", "Ask about this round", "Work it out", "Show in UK terms", "one less"):
        assert words not in text, words


# --- a strict policy ------------------------------------------------------------------------------------------------


def test_charts_shapes_and_the_list_stand_under_a_strict_policy() -> None:
    """Content Security Policy (W3C), with nothing allowed but the site's own script, styles and images."""
    assert POLICY["Content-Security-Policy"].startswith("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'")
    result = [pattern for text in (SQUARE, STRAP) for pattern in check_text(f"```crochet\n{text}```\n", "page.md").patterns]
    index = render_index([Entry(pattern, "tern/") for pattern in result])
    wish = visit(row("square-rnd-1"), ask("document.querySelectorAll('svg path').length > 20"), patterns=(SQUARE, STRAP))
    page = wish["site"][HOST + "hare/"]
    wish["site"][HOST + "hare/"] = {**page, "body": page["body"].replace("</main>", f"{index}</main>")}
    (answer,) = look([wish])
    assert answer["errors"] == [] and answer["told"] == [True] and answer["hostile"] == []

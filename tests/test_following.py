"""Following a pattern on its page, in Chromium: ticks, terms, large print, a yarn of one's own; and without the script."""

from __future__ import annotations

import mimetypes
from pathlib import Path
from typing import Any

import pytest
from browser_tools import look
from following import HARE, HOST, site_of, visit
from site_kit import Site, fence, page
from test_browser import HOSTILE, THEMES, hostile_text

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.estimates.another_yarn import in_another_yarn
from mkdocs_stitchcheck.estimates.rounding import SMALL_GRAMS, written
from mkdocs_stitchcheck.estimates.words import measures
from mkdocs_stitchcheck.language.swapped_terms import swapped
from mkdocs_stitchcheck.render import script, stylesheet
from mkdocs_stitchcheck.results import PatternResult

ROW = "tbody tr[id$={}]"
TICKED = "[...document.querySelectorAll('.sc-tick input:checked')].map(box => box.ariaLabel)"
BAR = "document.querySelector('.sc-bar button')?.textContent ?? null"


def click(what: str, nth: int = 0) -> dict[str, Any]:
    return {"click": what, "nth": nth}


def row(end: str, cell: str = ".sc-count") -> dict[str, Any]:
    """A tap on a row, beside its box."""
    return click(f"{ROW.format(end)} {cell}")


def ask(expression: str) -> dict[str, Any]:
    return {"ask": expression}


def told(*wishes: dict[str, Any]) -> list[list[Any]]:
    """What the steps of each visit asked; no visit may end with an error on the console."""
    answers = look(list(wishes))
    for answer in answers:
        assert answer["errors"] == []
    return [answer["told"] for answer in answers]


# --- ticks ---------------------------------------------------------------------------------------------------------


def test_ticks_stay_and_a_second_tap_takes_one_back() -> None:
    (said,) = told(visit(
        ask(BAR), row("body-rnd-1"), row("body-rnd-2"), ask(TICKED), ask(BAR), {"reload": True}, ask(TICKED), ask(BAR),
        row("body-rnd-2"), ask(TICKED), {"reload": True}, ask(TICKED), ask("document.querySelector('.sc-next').id"),
    ))
    one, two = ["Rnd 1 done"], ["Rnd 1 done", "Rnd 2 done"]
    next_up = "Body, Rnd 3 of 12, next"
    assert said == [None, two, next_up, two, next_up, one, one, "bog-hare-body-rnd-2"]


def test_a_range_is_ticked_round_by_round_and_a_long_one_counted() -> None:
    (said,) = told(visit(
        *[row("body-rnd-4")] * 3, ask(TICKED), ask(BAR), *[row("cord-row-2")] * 2, ask(BAR),
        ask("document.querySelector('.sc-long input').value"), click(f"{ROW.format('cord-row-2')} .sc-tick button"),
        {"reload": True}, ask("document.querySelector('.sc-long input').value"), ask(BAR),
    ))
    assert said[:2] == [["Rnd 4 done", "Rnd 5 done", "Rnd 6 done"], "Body, Rnd 7 of 12, next"]
    assert said[2:] == ["Cord, Row 4 of 72, next", "2", "1", "Cord, Row 3 of 72, next"]


def test_each_copy_is_ticked_by_itself() -> None:
    (said,) = told(visit(
        row("ear-rnd-1"), ask(BAR), row("ear-rnd-2"), ask(BAR), click(".sc-bar button", 1), ask(BAR), ask(TICKED),
        click(".sc-bar button", 1), ask(BAR),
    ))
    assert said[0] == "Ear, copy 1 of 2, Rnd 2 of 2, next"
    assert said[1] == "Ear, copy 1 of 2, Fasten off, leaving a tail for sewing., next"
    assert said[2] == "Ear, copy 2 of 2, Rnd 1 of 2, next"
    assert said[3] == ["Rnd 1 done, copy 1", "Rnd 2 done, copy 1", "Step done, copy 1"]
    assert said[4] == "Ear, copy 2 of 2, Rnd 2 of 2, next"


def test_a_tap_on_the_last_row_of_a_copy_can_be_taken_back() -> None:
    last = click("[data-piece=Ear] tr.sc-step .sc-words")
    (said,) = told(visit(row("ear-rnd-1"), row("ear-rnd-2"), last, ask(f"{TICKED}.length"), last, ask(f"{TICKED}.length")))
    assert said == [3, 2]


def test_the_repeat_counter_counts_within_the_round() -> None:
    repeat = "document.querySelector('.sc-now button')?.textContent ?? null"
    (said,) = told(visit(
        row("body-rnd-1"), row("body-rnd-2"), ask(repeat), *[click(".sc-now button")] * 2, ask(repeat), {"reload": True},
        ask(repeat), row("body-rnd-3"), ask(repeat),
    ))
    assert said == ["Repeat 0 of 6", "Repeat 2 of 6", "Repeat 2 of 6", None]


def test_clearing_asks_first() -> None:
    clear = click(".sc-tools button", -1)
    (said,) = told(visit(
        row("body-rnd-1"), {"dialogs": "dismiss"}, clear, ask(f"{TICKED}.length"), {"dialogs": "accept"}, clear,
        ask(f"{TICKED}.length"), ask(BAR), {"reload": True}, ask(f"{TICKED}.length"),
    ))
    question = "Clear all ticks of this pattern?"
    assert said == [question, 1, question, 0, None, 0]


def test_a_corrected_round_is_told_until_it_was_seen() -> None:
    corrected = HARE.replace("Version: 2", "Version: 3").replace("dec x 6 (6)", "(dec) x 6 (6)")
    changed = "document.querySelector('.sc-changed')?.textContent ?? null"
    (said,) = told(visit(
        row("body-rnd-1"), {"site": site_of(corrected)}, {"reload": True}, ask(changed), ask(TICKED), click(".sc-changed button"),
        ask(changed), {"reload": True}, ask(changed),
    ))
    assert said[0] == "Body, Rnd 12 was corrected since you began (with version 2). Seen"
    assert said[1:] == [["Rnd 1 done"], None, None]


def test_a_round_corrected_before_anything_is_ticked_is_nobody_s_business() -> None:
    (said,) = told(visit({"site": site_of(HARE.replace("inc x 6", "(inc) x 6"))}, {"reload": True},
                         ask("document.querySelector('.sc-changed')")))
    assert said == [None]


def test_two_patterns_on_a_page_keep_their_own_ticks() -> None:
    other = HARE.replace("Bog hare", "Moor hare").replace("Rnd 3: (sc, inc) x 6 (18)", "Rnd 3: (sc, inc) around (18)")
    (said,) = told(visit(
        click("[id=moor-hare-body-rnd-1] .sc-count"), ask(f"{TICKED}.length"), ask(BAR), {"reload": True},
        ask("[...document.querySelectorAll('input:checked')].map(box => box.closest('tr').id)"),
        patterns=(HARE, other),
    ))
    assert said == [1, "Body, Rnd 2 of 12, next", ["moor-hare-body-rnd-1"]]


def test_finished_rounds_can_be_hidden_and_print_made_large() -> None:
    hide, large = ".sc-tools [data-pref=hide]", ".sc-tools [data-pref=large]"
    shown = "[...document.querySelectorAll('[data-piece=Body] tbody tr')].filter(r => r.offsetParent).length"
    font = "parseFloat(getComputedStyle(document.querySelector('tbody .sc-words')).fontSize)"
    pressed = f"document.querySelector('{hide}').ariaPressed"
    (said,) = told(visit(
        ask(shown), ask(font), row("body-rnd-1"), click(hide), ask(shown), click(large), {"reload": True}, ask(shown),
        ask(font), ask(pressed), click(hide), ask(shown),
    ))
    assert said[0] == said[6] == 8 and said[2] == said[3] == 7
    assert said[1] == 18 and said[4] >= 25 and said[5] == "true"


# --- words ---------------------------------------------------------------------------------------------------------


def test_an_abbreviation_is_explained_by_a_tap_and_by_a_key() -> None:
    said_of = "[...document.querySelectorAll('.sc-say')].map(one => one.textContent)"
    word = f"{ROW.format('body-rnd-3')} .sc-ab"
    (said,) = told(visit(
        click(word), ask(said_of), ask(f"{TICKED}.length"), click(word), ask(said_of),
        ask("document.querySelector('tr[id$=body-rnd-3] input').focus()"), {"key": "?"}, ask(said_of),
    ))
    assert said[0] == ["sc: single crochet"] and said[1] == 0 and said[2] == []
    assert said[4] == ["sc: single crochet", "inc: increase: 2 sc in one stitch"]


def test_the_terms_switch_swaps_only_the_words_that_differ_and_back() -> None:
    switch = ".sc-tools button:has-text('terms')"
    words = "[...document.querySelectorAll('tbody .sc-words, .sc-abbr, .sc-abbreviations p')].map(one => one.textContent)"
    (said,) = told(visit(
        ask(words), click(switch), ask(words), ask("document.querySelector('.sc-next .sc-words').innerText"),
        {"reload": True}, ask(words), click(switch), ask(words),
    ))
    us, uk, _, again, back = said
    assert uk == again and back == us
    assert any(text.startswith("(dc, inc) x 6") for text in uk) and "htr in each st around" in uk
    assert any("Abbreviations, UK terms" in text for text in uk) and any("double crochet" in text for text in uk)
    sentences = [(one, other) for one, other in zip(us, uk, strict=True) if "hdc" in one or "sc" in one]
    for one, other in sentences:
        if "Abbreviations" not in one:
            assert other.replace("UK", "US") == swapped(one, "US", "UK").replace("UK", "US")


def test_a_pattern_in_letters_has_no_switch() -> None:
    text = "Title: Bean\nTerms: letters\n# Bean\nR1: 6X (6)\nR2: 6V (12)\n"
    (said,) = told(visit(ask("document.querySelector('.sc-tools').textContent"), patterns=(text,)))
    assert "terms" not in said[0]


# --- a reader's own yarn -------------------------------------------------------------------------------------------

BALL = """\
Title: Dandelion clock
Terms: US
Yarn: light (3), 50 g = 125 m
Color A: chalk
Hook: 2.5 mm
Gauge: 26 sc x 26 rnds = 10 cm

# Ball (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnds 5-9: sc around (24)
Rnd 10: (2 sc, dec) x 6 (18)
Rnd 11: (sc, dec) x 6 (12)
Rnd 12: dec x 6 (6)
Fasten off and close the hole.
"""
SWATCHED = HARE.replace("Contact", "Swatch: 20 sc x 20 rows = 6 g\nWeighed: A 9 g, B 3 g\nContact")
ROWS = """\
Title: Gull scarf
Terms: UK
Yarn: aran (4)
Tension: 14 htr x 10 rows = 4 in

# Scarf
Row 1: 30 fdc (30)
Rows 2-60: ch 2, turn, htr across (30)
"""
YARNS = [
    ("50", "g", "125", "m", "26", "28", "10", "cm"),
    ("100", "g", "180", "m", "15", "16", "10", "cm"),
    ("3.5", "oz", "219", "yd", "18", "18", "4", "in"),
    ("25", "g", "210", "m", "34.5", "34.5", "10", "cm"),
    ("1000", "g", "60", "m", "3", "", "10", "cm"),
]


def library(result: PatternResult, entry: tuple[str, ...]) -> list[str]:
    """What the library says, in the words of the page."""
    grams, weight, metres, length, stitches, rows, over, unit = entry
    word = "htr" if result.syntax.system == "UK" else "sc"
    gauge = f"{stitches} {word}{f' x {rows} rows' if rows else ''} = {over} {unit}"
    found = in_another_yarn(result, f"{grams} {weight} = {metres} {length}", gauge)
    said = []
    for color in found.yarn.colors:
        text = f"{written(color.metres, color.error)} m ({written(color.yards, color.error)} yd)"
        assert color.grams is not None
        if color.grams < SMALL_GRAMS:
            text = f"small amount (about {text})"
        else:
            text += f", {written(color.grams, color.error)} g, {color.balls} ball{'' if color.balls == 1 else 's'}"
        said.append(f"{color.color} {color.name}".strip() + f": {text}" if color.color else f"Yarn: {text}")
    for size in found.sizes.pieces:
        copies = f" × {size.make}" if size.make > 1 else ""
        said.append(f"{size.piece}{copies}: {', '.join(measures(size, unit))}")
    return said


@pytest.mark.parametrize("text", [HARE, BALL, SWATCHED, ROWS], ids=["hare", "ball", "weighed", "rows"])
def test_another_yarn_on_the_page_says_what_the_library_says(text: str) -> None:
    """The same figures as ``estimates.another_yarn`` and ``stitchcheck yarn``, computed in the browser."""
    result = check_text(f"```crochet\n{text}```\n", "page.md").patterns[0]
    steps: list[dict[str, Any]] = []
    for grams, weight, metres, length, stitches, rows, over, unit in YARNS:
        fields = (grams, metres, stitches, rows, over)
        steps += [{"fill": [f".sc-another input >> nth={n}", value]} for n, value in enumerate(fields)]
        steps += [{"pick": [f".sc-another select >> nth={n}", u]} for n, u in enumerate((weight, length, unit))]
        steps += [click(".sc-another form > button"), ask("[...document.querySelectorAll('.sc-said li')].map(li => li.textContent)")]
    (said,) = told(visit(*steps, patterns=(text,)))
    for entry, shown in zip(YARNS, said, strict=True):
        assert shown == library(result, entry), entry


@pytest.mark.parametrize(("bad", "says"), [
    ("", "Length: nothing is there. Write a number above 0."), ("0", "Length: “0” can't be. Write a number above 0."),
    ("-3", "Length: “-3” can't be."), ("lots", "Length: “lots” can't be."), ("1e9", "Length: “1e9” can't be."),
    ("<img src=x onerror=owned=1>", "can't be."),
])  # fmt: skip
def test_another_yarn_says_plainly_what_is_missing(bad: str, says: str) -> None:
    form = ".sc-another form"
    (said,) = told(visit(
        {"fill": [f"{form} input >> nth=1", bad]}, click(f"{form} > button"), ask("document.querySelector('.sc-said').textContent"),
        ask("document.activeElement.getAttribute('aria-invalid')"), ask("globalThis.owned ?? null"),
        {"fill": [f"{form} input >> nth=1", "125,5"]}, click(f"{form} > button"), ask("document.querySelectorAll('.sc-said li').length"),
    ))
    assert says in said[0] and said[1:3] == ["true", None] and said[3] == 5


# --- everybody -----------------------------------------------------------------------------------------------------


def test_the_keyboard_alone_is_enough() -> None:
    """Tab to the first box, tick it, go on by the bar at the page's end."""
    focus = "document.querySelector('tr[id$=body-rnd-1] input').focus()"
    (said,) = told(visit(
        ask(focus), {"key": "Space"}, ask(TICKED), ask("document.activeElement.ariaLabel"), {"key": "Tab"},
        ask("document.activeElement.textContent"), {"key": "Tab"}, {"key": "Space"}, ask(BAR),
        ask("document.querySelector('.sc-bar button').focus()"), {"key": "Enter"}, ask("document.activeElement.ariaLabel"),
    ))
    assert [one for one in said if one is not None] == [
        ["Rnd 1 done"], "Rnd 1 done", "Ask about this round", "Body, Rnd 3 of 12, next", "Rnd 3 done",
    ]


def test_without_the_script_the_page_is_whole_and_shows_nothing_that_does_not_work() -> None:
    (answer,) = look([visit(script=False, axe=False)])
    assert answer["errors"] == [] and answer["scrollWidth"] <= 768
    assert "button" not in answer["elements"] and "form" not in answer["elements"]


@pytest.mark.parametrize("theme", THEMES)
def test_no_violations_while_following(theme: str) -> None:
    steps = [row("body-rnd-1"), row("body-rnd-2"), click(".sc-ab"), click(".sc-another form > button"), {"axe": True},
             click(".sc-tools [data-pref=large]"), {"axe": True}]  # fmt: skip
    wishes = [visit(*steps, theme=theme, width=width) for width in (320, 1280)]
    answers = look(wishes)
    for answer, wish in zip(answers, wishes, strict=True):
        assert answer["told"] == [[], []] and answer["errors"] == [] and answer["scrollWidth"] <= wish["width"]


def test_every_row_is_as_high_as_a_thumb() -> None:
    heights = "Math.min(...[...document.querySelectorAll('tbody tr:has(.sc-tick input)')].map(r => r.getBoundingClientRect().height))"
    for (height,) in told(*(visit(ask(heights), width=width) for width in (320, 768, 1280))):
        assert height >= 48


@pytest.mark.parametrize("text", HOSTILE, ids=["script", "attribute", "svg", "long", "rtl", "emoji"])
def test_hostile_words_stay_words_while_following(text: str) -> None:
    pattern = "\n".join(hostile_text(text)) + "\nRnd 31: (sc, inc) x 15 (45)\n"
    (answer,) = look([visit(
        click("tbody tr:has(.sc-tick input) .sc-words"), {"ask": "globalThis.owned ?? null"}, patterns=(pattern,), width=320,
    )])  # fmt: skip
    assert answer["told"] == [None] and answer["errors"] == [] and answer["hostile"] == [] and answer["scrollWidth"] <= 320


def test_a_page_put_in_place_of_another_is_followed_too() -> None:
    """What a theme with instant loading does: the content is taken out and another put in, and no page is loaded."""
    swap = """(async () => { const main = document.querySelector('main'); const html = main.innerHTML; main.innerHTML = '';
        history.pushState({}, '', '/hare/'); const fresh = document.createElement('main');
        fresh.innerHTML = new DOMParser().parseFromString(await (await fetch('/hare/')).text(), 'text/html').querySelector('main').innerHTML;
        main.replaceWith(fresh); await new Promise(done => setTimeout(done, 50)); })()"""
    site = site_of(HARE)
    site[HOST + "hare/"]["headers"] = {"Content-Security-Policy": "default-src 'self'"}
    wish = visit(row("body-rnd-1"), ask(swap), ask(TICKED), row("body-rnd-2"), ask(BAR), ask("document.querySelectorAll('.sc-tools').length"))
    wish["site"] = site
    (said,) = told(wish)
    assert said[1:] == [["Rnd 1 done"], "Body, Rnd 3 of 12, next", 1]


# --- sites -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("theme", ["mkdocs", "readthedocs", "material", "zensical"])
def test_following_on_a_real_site(theme: str, tmp_path: Path) -> None:
    """Built by the real program, in the theme's own page; Material with instant loading, from page to page and back."""
    two = "".join(f"- [{name}]({name}.md)\n" for name in ("hare", "other"))
    config = f"use_directory_urls: false\ntheme:\n  name: {'material' if theme == 'zensical' else theme}\n"
    if theme == "material":
        config += "  features: [navigation.instant]\nsite_url: http://stitch.test/\nplugins: [stitchcheck]\n"
    elif theme == "zensical":
        config += (
            "site_url: http://stitch.test/\nmarkdown_extensions: [stitchcheck]\n"
            "extra_css: [assets/stitchcheck.css]\nextra_javascript: [assets/stitchcheck.js]\n"
        )
    else:
        config += "  highlightjs: false\nplugins: [stitchcheck]\n"
    made = Site(tmp_path, config, {"index.md": f"# Home\n\n{two}", "hare.md": page(fence(HARE)), "other.md": "# Other\n\n[hare](hare.md)\n"})
    made.write()
    if theme == "zensical":
        made.put("assets/stitchcheck.css", stylesheet())
        made.put("assets/stitchcheck.js", script())
    built = made.build(tool="zensical" if theme == "zensical" else "mkdocs")
    assert built.code == 0, built.said
    served = {}
    for file in built.site.rglob("*"):
        kind = mimetypes.guess_type(file.name)[0] or "application/octet-stream"
        if file.is_file() and file.stat().st_size < 2_000_000 and not kind.startswith(("image", "font")):
            served[HOST + file.relative_to(built.site).as_posix()] = {"path": str(file), "contentType": kind}
    steps = [row("body-rnd-1"), row("body-rnd-2"), ask(BAR), {"axe": True}]
    if theme == "material":
        steps += [click("article a[href$='other.html'], .md-nav a[href$='other.html']"), {"wait": 700},
                  ask("document.querySelector('.sc-bar') && 'there'"), click("article a[href$='hare.html']"), {"wait": 700}]  # fmt: skip
    else:
        steps += [{"reload": True}]
    steps += [ask(TICKED), row("body-rnd-3"), ask(BAR)]
    (answer,) = look([{"url": HOST + "hare.html", "site": served, "width": 1280, "steps": steps, "within": ".stitchcheck[data-pattern]"}])
    said = [one for one in answer["told"] if one is not None]
    assert said == ["Body, Rnd 3 of 12, next", [], ["Rnd 1 done", "Rnd 2 done"], "Body, Rnd 4 of 12, next"]
    missing = ("404", "Failed to load", "preload", "backdrop")  # fonts and the like, which the network here does not answer for
    assert not [error for error in answer["errors"] if not any(word in error for word in missing)]

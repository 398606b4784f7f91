"""Every host that shows patterns, run for real on small sites: what is built, what is told, and what stops a build."""

from __future__ import annotations

import logging
import posixpath
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

import markdown
import pytest
from markdown.preprocessors import Preprocessor
from mkdocs.exceptions import PluginError
from pymdownx.superfences import SuperFencesException
from site_kit import HEADER, RIGHT, SLIP, WRONG, Built, Server, Site, fence, line_of, page

from mkdocs_stitchcheck.hosts import pages
from mkdocs_stitchcheck.settings import SettingsError

ALONE = "markdown_extensions: [stitchcheck]\n"
GOOD_PAGE = page(fence(HEADER, RIGHT))
BAD_PAGE = page(fence(HEADER, WRONG))


@pytest.fixture
def told(caplog: pytest.LogCaptureFixture) -> Iterator[pytest.LogCaptureFixture]:
    """What is logged, with nothing kept of earlier checks."""
    pages.forget_checks()
    caplog.set_level(logging.DEBUG, "mkdocs.plugins.stitchcheck")
    yield caplog


def failing(log: pytest.LogCaptureFixture) -> list[str]:
    return [record.getMessage() for record in log.records if record.levelno >= logging.WARNING]


def rounds_in(html: str) -> list[str]:
    """The numbers of the rounds that a page shows in tables, by their addresses."""
    return re.findall(r'<tr[^>]* id="[\w-]*-rnd-(\d+)"', html)


# --- the extension in plain Python-Markdown -----------------------------------------------------------------------

ORDERS = [
    ["stitchcheck"],
    ["fenced_code", "stitchcheck"],
    ["stitchcheck", "fenced_code"],
    ["pymdownx.superfences", "stitchcheck"],
    ["stitchcheck", "pymdownx.superfences"],
    ["extra", "stitchcheck"],
    ["stitchcheck", "extra"],
    ["extra", "pymdownx.superfences", "stitchcheck"],
    ["stitchcheck", "toc", "tables", "fenced_code", "pymdownx.superfences"],
    ["mkdocs_stitchcheck.hosts.markdown_extension"],
    ["mkdocs_stitchcheck.hosts.markdown_extension:StitchcheckExtension"],
]

NESTED = """\
# Pebble

```crochet
# Body
Rnd 1: 6 sc in magic ring (6)
```

1. Then

    ```crochet
    Rnd 2: inc x 6 (12)
    ```

2. Then

    ~~~~ crochet
    Rnd 3: sc around (12)
    ~~~~

> ```crochet
> Rnd 4: sc around (13)
> ```

An example:

````
```crochet
Rnd 99: sc around (1)
```
````

    ```crochet
    Rnd 98: sc around (1)
    ```
"""


@pytest.mark.parametrize("extensions", ORDERS, ids=" ".join)
def test_any_order_of_extensions(extensions: list[str], told: pytest.LogCaptureFixture) -> None:
    html = markdown.markdown(NESTED, extensions=extensions)
    assert rounds_in(html) == ["1", "2", "3", "4"]
    assert re.search(r"<li>(?:(?!</li>).)*<table", html, re.DOTALL)
    assert re.search(r"<blockquote>\s*<div(?:(?!</blockquote>).)*<table", html, re.DOTALL)
    # The example and the indented code stay what they are, and what they hold is not checked.
    assert "Rnd 99: sc around (1)" in html and "Rnd 98: sc around (1)" in html
    slips = [text for text in failing(told) if "[count-mismatch]" in text]
    assert [text.split(":")[:2] for text in slips] == [["<text>", str(line_of(NESTED, "(13)"))]], told.text
    assert "<p><div" not in html


@pytest.mark.parametrize("superfences", [[], ["pymdownx.superfences"], ["fenced_code"]], ids=str)
@pytest.mark.parametrize("header", ["crochet size=M", 'crochet size="M"', "crochet check", "{.crochet size=M}"])
def test_an_unknown_option_does_not_uncheck(
    superfences: list[str], header: str, told: pytest.LogCaptureFixture
) -> None:
    html = markdown.markdown(BAD_PAGE.replace("```crochet", f"```{header}"), extensions=[*superfences, "stitchcheck"])
    assert "<table" in html and "<code>" not in html.split("sc-place")[0]
    assert any("[unknown-option]" in text for text in failing(told))
    assert any("[count-mismatch]" in text for text in failing(told))


def test_a_slip_is_shown_at_its_round_and_logged_once(told: pytest.LogCaptureFixture) -> None:
    converter = markdown.Markdown(extensions=["stitchcheck"])
    first = converter.convert(BAD_PAGE)
    assert converter.convert(BAD_PAGE) == first  # no reset between: as blogs do
    assert "sc-error" in first
    assert len(failing(told)) == 1 and told.records[0].name == "mkdocs.plugins.stitchcheck"
    converter.reset().convert(BAD_PAGE)
    assert len(failing(told)) == 2


def test_the_same_text_is_checked_once(monkeypatch: pytest.MonkeyPatch) -> None:
    pages.forget_checks()
    calls = []
    check = pages.check_text
    monkeypatch.setattr(pages, "check_text", lambda *given: calls.append(given) or check(*given))
    for _ in range(3):
        markdown.markdown(GOOD_PAGE, extensions=["stitchcheck"])
    assert len(calls) == 1


def test_a_post_is_rendered_once_for_all_lists(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On its own page, and once more for all its lists, where ids have the page's name in front."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    from mkdocs_stitchcheck.hosts import showing

    monkeypatch.chdir(tmp_path)
    made = site(tmp_path, BLOG, index="# Home\n", blog__index="# Blog\n")
    made.put("blog/posts/one.md", post(fence(HEADER, RIGHT)))
    calls = []
    render = showing.render_block
    monkeypatch.setattr(showing, "render_block", lambda *a, **k: calls.append(k["prefix"]) or render(*a, **k))
    build(load_config(str(tmp_path / "mkdocs.yml")))
    assert len(calls) == 2 and calls[0] == "", calls


def test_a_page_without_fences_is_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pages, "check_text", lambda *given: pytest.fail("checked"))
    text = "# Title\n\nRnd 1: prose, `code` and\n\n    indented code\n"
    assert markdown.markdown(text, extensions=["stitchcheck"]) == markdown.markdown(text)


def test_other_fences_are_left_alone() -> None:
    text = '```python\nprint("Rnd 1: 6 sc (7)")\n```\n\n~~~ text\nabc\n~~~\n'
    for others in (["fenced_code"], ["pymdownx.superfences"]):
        assert markdown.markdown(text, extensions=[*others, "stitchcheck"]) == markdown.markdown(text, extensions=others)


def test_on_slip_stop_raises_once_with_every_place() -> None:
    text = page(fence(HEADER, WRONG), fence(WRONG.replace("# Body", "# Head")))
    for others in ([], ["pymdownx.superfences"]):
        with pytest.raises(SuperFencesException) as caught:
            markdown.markdown(
                text, extensions=[*others, "stitchcheck"],
                extension_configs={"stitchcheck": {"on_slip": "stop", "path": "docs/pebble.md"}},
            )
        assert isinstance(caught.value, PluginError)
        lines = [number for number, line in enumerate(text.split("\n"), 1) if "(7)" in line]
        assert re.findall(r"docs/pebble\.md:(\d+):\d+: error\[count-mismatch\]", str(caught.value)) == [
            str(line) for line in lines
        ]


def test_on_slip_stop_lets_a_right_page_through() -> None:
    html = markdown.markdown(GOOD_PAGE, extensions=["stitchcheck"], extension_configs={"stitchcheck": {"on_slip": "stop"}})
    assert "<table" in html and "sc-error" not in html


@pytest.mark.parametrize(
    ("option", "said"), [({"on_slp": "stop"}, "on_slip"), ({"on_slip": "halt"}, "halt"), ({"severities": {"x": "off"}}, "x")]
)
def test_a_wrong_option_of_the_extension_is_said(option: dict[str, object], said: str) -> None:
    with pytest.raises(SettingsError, match=said):
        markdown.markdown("x", extensions=["stitchcheck"], extension_configs={"stitchcheck": option})


def test_severities_of_the_extension(told: pytest.LogCaptureFixture) -> None:
    options = {"severities": {"count-mismatch": "off"}}
    markdown.markdown(BAD_PAGE, extensions=["stitchcheck"], extension_configs={"stitchcheck": options})
    assert not any("count-mismatch" in text for text in failing(told))


def test_tabs_kept_by_superfences(told: pytest.LogCaptureFixture) -> None:
    text = NESTED.replace("Rnd 2: inc", "Rnd 2:\tinc")
    options = {"pymdownx.superfences": {"preserve_tabs": True}}
    html = markdown.markdown(text, extensions=["pymdownx.superfences", "stitchcheck"], extension_configs=options)
    assert rounds_in(html) == ["1", "2", "3", "4"]
    assert not any("block-not-shown" in text and "doesn't show it" in text for text in failing(told))


class _Taker(Preprocessor):
    """Another extension, which takes the first pattern away before it is read."""

    def run(self, lines: list[str]) -> list[str]:
        start = lines.index("```crochet")
        return lines[:start] + lines[lines.index("```", start) + 1 :]


class _Changer(Preprocessor):
    """Another extension, which writes a count into a pattern."""

    def run(self, lines: list[str]) -> list[str]:
        return [line.replace("(12)", "(13)") for line in lines]


def test_a_block_that_another_extension_takes_is_told(told: pytest.LogCaptureFixture) -> None:
    converter = markdown.Markdown(extensions=["stitchcheck"])
    converter.preprocessors.register(_Taker(converter), "taker", 28)
    converter.convert(GOOD_PAGE)
    assert [text for text in failing(told) if "[block-not-shown]" in text and text.startswith("<text>:5:1:")]


def test_what_another_extension_makes_of_a_pattern_is_what_is_checked(told: pytest.LogCaptureFixture) -> None:
    converter = markdown.Markdown(extensions=["stitchcheck"])
    converter.preprocessors.register(_Changer(converter), "changer", 28)
    html = converter.convert(GOOD_PAGE)
    assert "sc-error" in html and any("[count-mismatch]" in text for text in failing(told))


def test_a_fence_that_only_superfences_find_is_checked_by_itself(told: pytest.LogCaptureFixture) -> None:
    # With a tab length of 2 an indentation of four is a list item within a list item, not code.
    text = "- One\n\n  - Two\n\n" + "".join(f"    {line}\n" for line in fence(WRONG).splitlines())
    html = markdown.markdown(text, extensions=["pymdownx.superfences", "stitchcheck"], tab_length=2)
    assert "<table" in html
    assert any("[count-mismatch]" in text for text in failing(told))


def test_a_fault_of_ours_is_one_error_at_its_block(
    told: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    from mkdocs_stitchcheck.hosts import showing

    render = showing.render_block

    def broken(file: object, block: object, **more: object) -> str:
        if block.opening.line == 5:  # type: ignore[attr-defined]
            raise ZeroDivisionError("a bug")
        return render(file, block, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(showing, "render_block", broken)
    text = page(fence(HEADER), fence(RIGHT))
    html = markdown.markdown(text, extensions=["pymdownx.superfences", "stitchcheck"])
    assert "fault of stitchcheck" in html and "<table" in html
    assert [text.split(": ")[:2] for text in failing(told)] == [["<text>:5:1", "error[checker-fault]"]]


# --- pages and their files ----------------------------------------------------------------------------------------

FRONTS = {
    "nothing": "",
    "blank lines": "\n\n\n",
    "front matter": "---\ntitle: Pebble\ntags: [a]\n---\n",
    "front matter and blanks": "---\ntitle: Pebble\n---\n\n\n\n",
    "old front matter": "title: Pebble\nauthor: Nobody\n\n",
    "a mark of the byte order": "\ufeff---\ntitle: Pebble\n---\n",
}


@pytest.mark.parametrize("front", FRONTS)
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["lf", "crlf"])
def test_lines_are_those_of_the_file(front: str, end: str) -> None:
    """mkdocs takes off front matter, and the blank lines after it, before anybody sees the page."""
    from mkdocs.utils import meta

    raw = FRONTS[front] + BAD_PAGE
    as_read = raw.removeprefix("\ufeff")  # mkdocs opens files as utf-8-sig, with universal newlines
    given = meta.get_data(as_read)[0].lstrip("\n")
    check = pages.check_page(given, "pebble.md", raw.replace("\n", end), pages.Settings())
    found = [one for one in check.findings() if one.finding.rule == "count-mismatch"]
    assert [(one.path, one.finding.span.line) for one in found] == [("pebble.md", line_of(as_read, "(7)"))]
    assert "(7)" in found[0].source.line(found[0].finding.span.line)


def test_a_changed_page_is_led_back_line_by_line() -> None:
    raw = "---\ntitle: x\n---\n" + page(fence(HEADER, RIGHT), fence("{{ body }}\n"), fence(WRONG.replace("Body", "Head")))
    given = page(fence(HEADER, RIGHT), fence(WRONG.replace("Body", "Tail")), fence(WRONG.replace("Body", "Head")))
    check = pages.check_page(given, "p.md", raw, pages.Settings())
    found = [(one.path, one.finding.span.line) for one in check.findings() if one.finding.rule == "count-mismatch"]
    made = line_of(given, "(7)")
    assert found == [(f"p.md {pages.AFTER}", made), ("p.md", line_of(raw, "(7)"))]


def test_huge_changed_pages_are_not_aligned_for_ever() -> None:
    given, raw = "a\nb\n" * 20_000, "b\na\nc\n" * 20_000
    assert set((pages.place(given, raw).lines or ())[:-1]) == {0}


# --- mkdocs and properdocs ----------------------------------------------------------------------------------------

TOOLS = ["mkdocs", "properdocs"]


def site(folder: Path, config: str = "plugins: [stitchcheck]\n", **docs: str | bytes) -> Site:
    made = Site(folder, config).write()
    for name, text in docs.items():
        made.put(name.replace("__", "/") + ".md", text)
    return made


def assert_ok(built: Built) -> None:
    assert built.code == 0, built.said
    assert not re.search(r"^(WARNING|ERROR)", built.said, re.MULTILINE), built.said
    assert "Traceback" not in built.said


def assert_stopped(built: Built) -> None:
    assert built.code == 1, built.said
    assert "Traceback" not in built.said, built.said
    assert built.pages == []


@pytest.mark.parametrize("tool", TOOLS)
def test_a_right_site_is_built(tool: str, tmp_path: Path) -> None:
    config = "plugins: [stitchcheck]\n" + ("theme: {name: material}\n" if tool == "properdocs" else "")
    built = site(tmp_path, config, index=GOOD_PAGE, plain="# Plain\n\n```python\nx = 1\n```\n").build("--strict", tool=tool)
    assert_ok(built)
    html = built.read()
    assert '<div class="stitchcheck ' in html and "<table" in html and "```" not in html
    assert 'href="assets/stitchcheck.css"' in html
    assert (built.site / "assets/stitchcheck.css").stat().st_size > 0
    assert 'src="assets/stitchcheck.js"' in html and (built.site / "assets/stitchcheck.js").stat().st_size > 0
    head, _, body = html.partition("</head>")
    assert '<script type="application/ld+json">{"@context":"https://schema.org","@type":"HowTo"' in head and "ld+json" not in body
    # What the plugin adds leaves other fences as they were without it.
    assert '<code class="language-python">x = 1' in built.read("plain/index.html")


@pytest.mark.parametrize("tool", TOOLS)
def test_a_slip_stops_the_build_after_all_pages_are_read(tool: str, tmp_path: Path) -> None:
    config = "plugins: [stitchcheck]\n" + ("theme: {name: material}\n" if tool == "properdocs" else "")
    front = "---\ntitle: Second\n---\n\n\n"
    made = site(tmp_path, config, index=BAD_PAGE, second=front + BAD_PAGE, third=GOOD_PAGE)
    built = made.build(tool=tool)
    assert_stopped(built)
    first, second = line_of(BAD_PAGE, "(7)"), line_of(front + BAD_PAGE, "(7)")
    assert sorted(built.places) == [f"docs/index.md:{first}", f"docs/second.md:{second}"]
    assert built.count(SLIP) == 2
    assert "2 errors on 2 pages, listed above. No page was written." in built.said
    assert "Rnd 1: 6 sc in magic ring (7)" in built.said, "the code frame"


def test_an_old_site_is_not_left_half_new(tmp_path: Path) -> None:
    made = site(tmp_path, index=GOOD_PAGE)
    assert_ok(made.build())
    made.put("index.md", BAD_PAGE)
    assert_stopped(made.build())


def test_a_warning_stops_only_a_strict_build(tmp_path: Path) -> None:
    near = GOOD_PAGE + "\n```crohet\nRnd 1: 6 sc in magic ring (6)\n```\n"
    made = site(tmp_path, index=near)
    built = made.build()
    assert built.code == 0 and built.count("warning[fence-not-read]") == 1 and "index.html" in built.pages
    assert_stopped(made.build("--strict"))
    strict = "plugins:\n  - stitchcheck: {strict: true}\n"
    assert_stopped(site(tmp_path, strict, index=near).build())


def test_severities_and_pages_not_yet_cleared(tmp_path: Path) -> None:
    config = "plugins:\n  - stitchcheck:\n      severities: {count-mismatch: advice}\n"
    built = site(tmp_path, config, index=BAD_PAGE).build("--strict")
    assert_ok(built)
    assert "advice[count-mismatch]" in built.said
    config = "plugins:\n  - stitchcheck:\n      not_yet: [old]\n"
    built = site(tmp_path, config, old__one=BAD_PAGE, index=GOOD_PAGE).build("--strict")
    assert_ok(built)
    assert built.count(SLIP) == 1 and "1 page not yet cleared" in built.said


def test_a_draft_never_fails(tmp_path: Path) -> None:
    built = site(tmp_path, index=page(fence(HEADER, "Draft: yes\n", WRONG))).build("--strict")
    assert_ok(built)
    assert built.count(SLIP) == 1 and "Draft" in built.read()


@pytest.mark.parametrize(
    ("option", "said"),
    [
        ("stict: true", "strict"),
        ("not_yett: []", "not_yet"),
        ("severities: {count-mismach: off}", "count-mismatch"),
        ("severities: {count-mismatch: loud}", "loud"),
        ("sheet: maybe", "sheet"),
        ("paper: A5", "paper"),
        ("caution: {steps: x}", "step"),
    ],
)
def test_a_wrong_option_is_an_error_with_a_way_out(option: str, said: str, tmp_path: Path) -> None:
    built = site(tmp_path, f"plugins:\n  - stitchcheck:\n      {option}\n", index=GOOD_PAGE).build()
    assert built.code == 1 and said in built.said and "Traceback" not in built.said, built.said


def test_enabled_false_does_nothing(tmp_path: Path) -> None:
    built = site(tmp_path, "plugins:\n  - stitchcheck: {enabled: !ENV [NO_SUCH, false]}\n", index=BAD_PAGE).build("--strict")
    assert_ok(built)
    assert '<code class="language-crochet">' in built.read() and "stitchcheck.css" not in built.read()


@pytest.mark.parametrize("extensions", ["[stitchcheck]", "[stitchcheck, pymdownx.superfences, stitchcheck]"])
def test_plugin_and_extension_together(extensions: str, tmp_path: Path) -> None:
    config = f"plugins: [stitchcheck]\nmarkdown_extensions: {extensions}\n"
    assert_ok(site(tmp_path, config, index=GOOD_PAGE).build("--strict"))
    built = site(tmp_path, config, index=BAD_PAGE).build()
    assert_stopped(built)
    assert built.count(SLIP) == 1


def test_options_of_the_extension_beside_the_plugin_are_said(tmp_path: Path) -> None:
    config = "plugins: [stitchcheck]\nmarkdown_extensions:\n  - stitchcheck: {on_slip: stop}\n"
    built = site(tmp_path, config, index=GOOD_PAGE).build()
    assert built.code == 0 and "move them to the plugin" in built.said


def test_the_extension_alone_in_mkdocs(tmp_path: Path) -> None:
    """It can't fail a build by itself but under --strict; what it finds is on the page."""
    front = "---\ntitle: x\n---\n"
    made = site(tmp_path, ALONE, index=front + BAD_PAGE)
    built = made.build()
    assert built.code == 0 and "sc-error" in built.read()
    assert built.places == [f"docs/index.md:{line_of(front + BAD_PAGE, '(7)')}"]
    strict = made.build("--strict")
    assert strict.code == 1 and "Aborted with 1" in strict.said
    config = "markdown_extensions:\n  - stitchcheck: {on_slip: stop}\n"
    stopped = site(tmp_path, config, index=front + BAD_PAGE).build()
    assert_stopped(stopped)
    assert stopped.count(SLIP) == 1


def test_a_bare_list_of_addresses(tmp_path: Path) -> None:
    built = site(tmp_path, "use_directory_urls: false\nplugins: [stitchcheck]\n", index=GOOD_PAGE, a__b=GOOD_PAGE).build()
    assert_ok(built)
    assert links_lead_somewhere(built, "a/b.html") == ["a/b-large-print.html", "a/b-sheet-uk.html", "a/b-sheet.html"]


def test_sheets_beside_their_pages(tmp_path: Path) -> None:
    two = page(fence(HEADER, RIGHT), fence(HEADER.replace("Pebble", "Pebble two"), RIGHT))
    picture = GOOD_PAGE.replace("A stone", "![A grey stone](pebble.jpg)\n\nA stone")
    config = "site_url: https://pockets.example/\nplugins: [stitchcheck]\n"
    made = site(tmp_path, config, index="# Home\n", pebble=picture, two=two)
    made.put("pebble.jpg", b"\xff\xd8")
    built = made.build("--strict")
    assert_ok(built)
    assert links_lead_somewhere(built, "pebble/index.html") == [
        "pebble/large-print/index.html", "pebble/sheet-uk/index.html", "pebble/sheet/index.html",
    ]  # fmt: skip
    assert len(links_lead_somewhere(built, "two/index.html")) == 6
    in_uk = built.read("pebble/sheet-uk/index.html")
    assert "6 dc in magic ring" in in_uk and "6 sc in magic ring" not in in_uk and "Abbreviations, UK terms" in in_uk
    sheet = built.read("pebble/sheet/index.html")
    assert 'src="../../pebble.jpg"' in sheet and "https://pockets.example/pebble/" in sheet and "md-header" not in sheet
    assert "size: A4" in sheet
    made.put("two stones/gr\u00fcn.md", GOOD_PAGE)
    assert len(links_lead_somewhere(made.build(), "two stones/gr\u00fcn/index.html")) == 3
    letter = "plugins:\n  - stitchcheck: {paper: Letter}\n"
    assert "size: letter" in site(tmp_path, letter, pebble=GOOD_PAGE).build().read("pebble/sheet/index.html")
    none = site(tmp_path, "plugins:\n  - stitchcheck: {sheet: no}\n").build()
    assert not [name for name in none.pages if "sheet" in name]
    assert links_lead_somewhere(none, "pebble/index.html") == []


def links_lead_somewhere(built: Built, at: str) -> list[str]:
    """The sheets that the page *at* links to, each of which must have been written."""
    found = []
    for href in re.findall(r'<a href="([^"#]*(?:sheet|large-print)[^"#]*)"', built.read(at)):
        target = posixpath.normpath(posixpath.join(posixpath.dirname(at), unquote(href)))
        target += "/index.html" if href.endswith("/") else ""
        assert target in built.pages, (href, built.pages)
        found.append(target)
    return sorted(found)


def test_a_sitewide_caution_in_own_words(tmp_path: Path) -> None:
    config = "plugins:\n  - stitchcheck:\n      caution: {materials: Keep away from magpies.}\n"
    eyes = page(fence(HEADER, "Notions: 6 mm safety eyes (2)\n", RIGHT))
    built = site(tmp_path, config, index=eyes).build()
    assert "Keep away from magpies." in built.read()
    built = site(tmp_path, "plugins:\n  - stitchcheck:\n      caution: {materials: ''}\n", index=eyes).build()
    assert "under 3" in built.read()


# --- other plugins and extensions ---------------------------------------------------------------------------------

BLOG = """\
theme: {name: material}
plugins:
  - blog: {archive_date_format: yyyy, pagination_per_page: 1}
  - stitchcheck
"""


def post(*blocks: str, day: int = 1, title: str = "Pebble", more: bool = True) -> str:
    cut = "\n<!-- more -->\n\nThe rest.\n" if more else ""
    return f"---\ndate: 2026-03-{day:02}\ncategories: [Stones, Toys]\ntitle: {title}\n---\n\n" + "\n".join(blocks) + cut


@pytest.mark.parametrize("plugins", ["before", "after"])
def test_blog_posts_are_told_once(plugins: str, tmp_path: Path) -> None:
    """The blog converts a post again for its index, archive, categories and their pages, with converters of its own."""
    config = BLOG if plugins == "before" else BLOG.replace("  - stitchcheck\n", "").replace(
        "plugins:\n", "plugins:\n  - stitchcheck\n"
    )
    warned = post(fence(HEADER, RIGHT), "```crohet\nRnd 1: 6 sc in magic ring (6)\n```\n", day=2)
    made = site(tmp_path, config, index="# Home\n", blog__index="# Blog\n", blog__posts__one=warned)
    made.put("blog/posts/two.md", post(fence(HEADER, RIGHT)))
    built = made.build()
    assert built.code == 0, built.said
    assert built.places == [f"docs/blog/posts/one.md:{line_of(warned, '```crohet')}"]
    views = [name for name in built.pages if re.match(r"blog/(index|page/|archive/|category/)", name)]
    assert len(views) >= 6
    shown = [view for view in views if '<div class="stitchcheck ' in built.read(view)]
    assert shown
    for view in shown:
        ids = re.findall(r' id="([^"]+)"', built.read(view))
        assert len(ids) == len(set(ids)), view
        links_lead_somewhere(built, view)
    wrong = post(fence(HEADER, WRONG), day=3, title="Third")
    made.put("blog/posts/three.md", wrong)
    built = made.build()
    assert_stopped(built)
    assert built.count(SLIP) == 1
    assert f"docs/blog/posts/three.md:{line_of(wrong, '(7)')}" in built.places


def test_blog_with_the_extension_alone_tells_once(tmp_path: Path) -> None:
    config = BLOG.replace("  - stitchcheck\n", "") + ALONE
    made = site(tmp_path, config, index="# Home\n", blog__index="# Blog\n", blog__posts__one=post(fence(HEADER, WRONG)))
    built = made.build()
    assert built.code == 0 and built.count(SLIP) == 1, built.said


def test_posts_on_one_page_have_ids_of_their_own(tmp_path: Path) -> None:
    config = BLOG.replace(", pagination_per_page: 1", "")
    made = site(tmp_path, config, index="# Home\n", blog__index="# Blog\n")
    made.put("blog/posts/one.md", post(fence(HEADER, RIGHT), title="One"))
    made.put("blog/posts/two.md", post(fence(HEADER, RIGHT), day=2, title="Two"))
    built = made.build()
    assert_ok(built)
    listed = built.read("blog/index.html")
    ids = [name for name in re.findall(r' id="([^"]+)"', listed) if "rnd" in name]
    assert len(ids) == len(set(ids)) == 8
    own = re.findall(r' id="([^"]+)"', built.read("blog/2026/03/02/two/index.html"))
    assert "pebble-body-rnd-3" in own
    links_lead_somewhere(built, "blog/index.html")


I18N = """\
plugins:
  - stitchcheck
  - i18n:
      docs_structure: suffix
      fallback_to_default: true
      languages:
        - {locale: en, default: true, name: English}
        - {locale: de, name: Deutsch}
        - {locale: fr, name: Fran\u00e7ais}
"""


def test_i18n_fallback_pages_are_told_once(tmp_path: Path) -> None:
    warned = GOOD_PAGE + "\n```crohet\nRnd 1: 6 sc in magic ring (6)\n```\n"
    made = site(tmp_path, I18N, index=warned)
    made.put("index.de.md", GOOD_PAGE)
    built = made.build()
    assert built.code == 0 and built.count("warning[fence-not-read]") == 1, built.said
    for name in ("index.html", "de/index.html", "fr/index.html"):
        assert "<table" in built.read(name)
        sheets = [f"{name.removesuffix('index.html')}{kind}/index.html" for kind in ("large-print", "sheet-uk", "sheet")]
        assert links_lead_somewhere(built, name) == sheets
    made.put("index.de.md", BAD_PAGE)
    built = made.build()
    assert built.code == 1 and built.count(SLIP) == 1
    assert built.places[-1] == f"docs/index.de.md:{line_of(BAD_PAGE, '(7)')}"


def test_macros(tmp_path: Path) -> None:
    """A line that stands in the file has its place; one that a macro made is said to be after preprocessing."""
    made_by_macro = '{% for n in [2] %}\nRnd {{ n }}: inc x 6 (13)\n{% endfor %}\nRnd 3: sc around (12)\n'
    raw = "---\ntitle: x\nhue: grey\n---\n" + page(
        fence(HEADER, RIGHT.replace("# Body", "# {{ hue }} body")), fence("# Head\nRnd 1: 6 sc in magic ring (7)\n", made_by_macro)
    )
    built = site(tmp_path, "plugins: [stitchcheck, macros]\n", index=raw).build()
    assert_stopped(built)
    assert f"docs/index.md:{line_of(raw, '(7)')}" in built.places
    assert [place for place in built.places if place.startswith("docs/index.md (after preprocessing):")]
    assert built.count("{{") == 0


def test_included_pages(tmp_path: Path) -> None:
    """A file put in before anybody sees the page: the page's own lines keep their places."""
    own = "---\ntitle: x\n---\n" + page(fence(HEADER, RIGHT)) + '\n{% include-markdown "../part.md" %}\n\n' + fence(
        "# Head\nRnd 1: 6 sc in magic ring (8)\nRnd 2: inc x 6 (12)\n"
    )
    (tmp_path / "part.md").write_text("Some words.\n\n" + fence(WRONG.replace("Body", "Tail")), encoding="utf-8")
    built = site(tmp_path, "plugins: [stitchcheck, include-markdown]\n", index=own).build()
    assert_stopped(built)
    assert built.count(SLIP) == 2
    assert [place for place in built.places if "after" not in place] == [f"docs/index.md:{line_of(own, '(8)')}"]
    assert built.count("docs/index.md (after preprocessing):") == 1


def test_macros_that_change_nothing_but_the_end(tmp_path: Path) -> None:
    raw = "---\ntitle: x\n---\n\n" + BAD_PAGE
    built = site(tmp_path, "plugins: [stitchcheck, macros]\n", index=raw).build()
    assert built.places == [f"docs/index.md:{line_of(raw, '(7)')}"]


@pytest.mark.parametrize("config", ["plugins: [stitchcheck]\nmarkdown_extensions: [pymdownx.snippets]\n"])
def test_snippets(config: str, tmp_path: Path) -> None:
    """Snippets are put in within Markdown: what the plugin was given is not what readers see."""
    (tmp_path / "body.txt").write_text("Rnd 2: inc x 6 (12)\nRnd 3: sc around (12)\n", encoding="utf-8")
    block = fence(HEADER, "# Body\nRnd 1: 6 sc in magic ring (6)\n", '--8<-- "body.txt"\n', "Rnd 4: dec x 6 (6)\n")
    made = site(tmp_path, config, index=page(block))
    built = made.build("--strict")
    assert_ok(built)
    assert "sc around" in built.read()
    (tmp_path / "body.txt").write_text("Rnd 2: inc x 6 (13)\nRnd 3: sc around (12)\n", encoding="utf-8")
    built = made.build()
    assert_stopped(built)
    assert built.count(SLIP) == 1 and built.places[0].startswith("docs/index.md (after preprocessing):")
    (tmp_path / "body.txt").write_text("Rnd 2: inc x 6 (12)\nRnd 3: sc around (12)\n", encoding="utf-8")
    wrong = page(block).replace("dec x 6 (6)", "dec x 6 (7)")
    made.put("index.md", wrong)
    assert made.build().places == [f"docs/index.md:{line_of(wrong, '(7)')}"]


# --- serve --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("tool", "options"), [("mkdocs", []), ("mkdocs", ["--strict"]), ("properdocs", [])])
def test_serve_survives_slips_and_recovers(tool: str, options: list[str], tmp_path: Path) -> None:
    config = "plugins: [stitchcheck]\n" + ("theme: {name: material}\n" if tool == "properdocs" else "")
    made = site(tmp_path, config, index=BAD_PAGE)
    with Server(made, tool, *options) as server:
        started = server.wait_for("you wrote 7")
        assert "sc-error" in started
        for wrong in ("8", "9"):
            made.put("index.md", BAD_PAGE.replace("(7)", f"({wrong})"))
            server.wait_for(f"you wrote {wrong}")
        made.put("index.md", GOOD_PAGE)
        assert "sc-error" not in server.wait_for("sc around", absent="sc-error")
        made.put("index.md", BAD_PAGE)
        server.wait_for("you wrote 7")
        assert server.alive
        # Each failing build has told its slip: nothing was taken for a double of an earlier build.
        assert server.said.count(SLIP) == 4, server.said


# --- Zensical -----------------------------------------------------------------------------------------------------


def test_zensical_runs_the_extension(tmp_path: Path) -> None:
    front = "---\ntitle: x\n---\n\n"
    made = site(tmp_path, ALONE, index=front + GOOD_PAGE, second=GOOD_PAGE)
    built = made.build("--clean", tool="zensical")
    assert built.code == 0, built.said
    assert "<table" in built.read() and "sc-error" not in built.read()
    made.put("index.md", front + BAD_PAGE)
    built = made.build("--clean", tool="zensical")
    assert built.code == 0 and "sc-error" in built.read()
    assert built.places == [f"docs/index.md:{line_of(front + BAD_PAGE, '(7)')}"]


def test_zensical_can_be_stopped(tmp_path: Path) -> None:
    made = site(tmp_path, "markdown_extensions:\n  - stitchcheck: {on_slip: stop}\n", index=GOOD_PAGE, second=BAD_PAGE)
    built = made.build("--clean", tool="zensical")
    assert built.code == 1
    assert re.search(rf"Python error: PatternSlip: .*\ndocs/second\.md:{line_of(BAD_PAGE, '(7)')}:\d+: error", built.said)


def test_zensical_does_not_run_the_plugin(tmp_path: Path) -> None:
    """Why the README names the command line as the gate there: the plugin is passed over without a word."""
    built = site(tmp_path, index=BAD_PAGE).build("--clean", "--strict", tool="zensical")
    assert built.code == 0 and SLIP not in built.said


# --- the example site ---------------------------------------------------------------------------------------------


def test_the_example_site_builds_without_a_word(tmp_path: Path) -> None:
    example = Path(__file__).parent.parent / "site_example"
    assert (example / "mkdocs.yml").is_file()
    built = Site(example).build("--strict", "--site-dir", str(tmp_path / "site"))
    built.site = tmp_path / "site"
    assert_ok(built)
    assert [name for name in built.pages if "sheet" in name]

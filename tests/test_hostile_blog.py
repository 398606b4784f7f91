"""A guest writer's text stays text, in everything that is made of it, and nothing that it says leads out of the site's folder."""

from __future__ import annotations

import json
import os
import re
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from everything import shown
from site_kit import Built, Site

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.hosts.machine_data import machine_data
from mkdocs_stitchcheck.printing import Edition
from mkdocs_stitchcheck.render.addresses import own_names
from mkdocs_stitchcheck.report import FORMATS, report

# In the manner of OWASP's cheat sheet on cross-site scripting (from memory), and of Jinja, Markdown and Liquid.
MARKUP = (
    "<script>owned=1</script>", '"><img src=x onerror=owned=2>', "' onmouseover='owned=3", "</style><style>*{display:none}</style>",
    "</title></head><body onload=owned=4>", "<svg><script href=data:,owned=5 />", "javascript:owned=6", "[x](javascript:owned=7)",
    "![x](file:///etc/passwd)", "data:text/html,<script>owned=8</script>", "<a href=vbscript:x>", "]]></failure><script>",
    "</script><script>owned=9</script>", "<!--", "-->", "<iframe src=//evil.example>", "url(javascript:owned=10)", "expression(owned=11)",
    "red;background:url(//evil.example/x)", "&#x3C;script&#x3E;", "\u2028</script>", "<math><mi xlink:href=javascript:x>",
)  # fmt: skip
TEMPLATE = ("{{ 7919*7907 }}", "{% include 'secret.md' %}", "{{ config }}", "--8<-- \"/etc/passwd\"", "{! secret.md !}", "{% raw %}", "$(id)", "`id`")
WAYS_OUT = (
    "../../../escaped", "/etc/escaped", "..\\..\\escaped", "C:\\escaped", "~/escaped", "%2e%2e%2fescaped", "..%00/escaped", "a/../../../escaped",
    "\u2025/\u2025/escaped", "\uff0e\uff0e\uff0fescaped", ".", "..", "con", "nul.txt", "x" * 300, "\u202egpj.exe", "index", "sheet",
)  # fmt: skip


def fields(text: str) -> str:
    """A right pattern with *text* in every field that takes words."""
    name = text.replace("(", "").replace(")", "").replace("#", "")
    return f"""# Page

```crochet
Title: {text}
Terms: US
Designer: {text}
Contact: {text}
Copyright: {text}
Licence: {text}
Version: {text}
Video: {text}
Level: {text}
Yarn: {text}
Color A: {text}, shown as {text}
Color B: cream, shown as #eeeeee
Hook: {text}
Gauge: 20 sc x 22 rnds = 10 cm
Notions: {text}, 8 mm safety eyes (2)
Stuffing: {text}
Finished size: {text}
Abbreviations: zz = {text}
Special stitch: knop = {text}; uses 1, makes 1
Notes: {text}
Show: chart, shape, size, yarn, rounds, abbreviations, materials

# {name} (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2 ({name}): inc x 6 (12)
> {text}
Rnd 3: sc 6, change to color B, sc 6 (12)
Rnd 4: sc around, {name} (12)
Sew it: {text}
>> Photograph: {text}
>> right as written: {text}
```
"""


class Elements(HTMLParser):
    """The elements, the names of attributes and what leads elsewhere."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.names: set[str] = set()
        self.leads: set[str] = set()
        self.styles: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.names.update(name for name, _ in attrs)
        self.leads.update(value or "" for name, value in attrs if name in ("href", "src", "action", "xlink:href", "data", "srcset"))
        self.styles += [value or "" for name, value in attrs if name in ("style", "fill", "stroke")]


CALM = Elements(shown(fields("calm")) + shown(fields("https://example.org/calm")))


@pytest.mark.parametrize("text", [*MARKUP, *TEMPLATE])
def test_pages_sheets_drawings_lists_and_letters_gain_no_element(text: str) -> None:
    found = Elements(shown(fields(text)))
    # A heading or table may come of words that say something to the checker; nothing that runs, loads or leads away may.
    assert found.tags <= CALM.tags | {"h3", "h4", "h5", "table", "thead", "tbody", "tr", "td", "th", "li", "ul", "ol", "p", "em", "strong"}
    assert found.names <= CALM.names, found.names - CALM.names
    for way in found.leads:
        assert not re.match(r"\s*(?:javascript|data|vbscript|file):", re.sub(r"[\x00-\x20]", "", way), re.IGNORECASE), way
        assert "evil.example" not in way
    assert not any("url(" in style or "expression" in style for style in found.styles)


@pytest.mark.parametrize("text", MARKUP)
def test_data_for_machines_is_whole(text: str) -> None:
    result = check_text(fields(text), "page.md")
    for script in re.findall(r"<script[^>]*>(.*?)</script>", machine_data(result), re.DOTALL):
        json.loads(script)
    assert machine_data(result).count("<script") == machine_data(result).count("</script>")
    found = {kind: report(kind, [result]) for kind in FORMATS}
    json.loads(found["sarif"])
    tree = ElementTree.fromstring(found["junit"])
    assert {one.tag for one in tree.iter()} <= {"testsuites", "testsuite", "testcase", "failure", "skipped", "system-out", "properties", "property"}
    for kind in ("text", "short", "github"):
        assert "\x1b" not in found[kind]
    # GitHub reads lines that begin with "::": https://docs.github.com/actions, workflow commands
    assert all(line.startswith(("::error ", "::warning ", "::notice ")) for line in found["github"].splitlines() if line.startswith("::"))


@pytest.mark.parametrize("text", [*WAYS_OUT, *MARKUP])
def test_names_of_files_are_plain_names(text: str) -> None:
    for name in (Edition("US").file_name(text, text), *own_names([text, text, f"{text} 2"])):
        assert re.fullmatch(r"[\w-][\w.-]*", name) and len(name.encode()) < 250, name


def test_titles_alike_get_names_of_their_own() -> None:
    names = own_names(["Seal", "seal", "Seal 2", "Seal", "x" * 80, "x" * 90])
    assert len(set(names)) == 6 and names[:2] == ["seal", "seal-2"]


def blog(folder: Path, texts: tuple[str, ...], options: str = "") -> Built:
    """A site in a folder of a folder, one page a text, with everything that it may write switched on."""
    root = folder / "home" / "blog"
    root.mkdir(parents=True)
    (root / "secret.md").write_text("the secret", encoding="utf-8")
    made = Site(root, f"site_name: {texts[0][:20]!r}\nsite_url: https://pockets.example/\nplugins:\n  - search\n  - stitchcheck:\n"
                "      enabled: true\n      charts: all\n      index: made.md\n      not_yet: [\"**\"]\n" + options)  # fmt: skip
    pages = {f"guest-{at}.md": fields(text) + "\n" + fields(text).partition("\n")[2] for at, text in enumerate(texts)}
    return made.write(**pages, **{"index.md": "# Home\n\n" + "\n".join(f"- [x]({name})" for name in pages)}).build()


def test_nothing_is_written_outside_the_site(tmp_path: Path) -> None:
    built = blog(tmp_path, WAYS_OUT)
    assert "Traceback" not in built.said
    written = {os.path.relpath(path, tmp_path) for path in tmp_path.rglob("*") if path.is_file()}
    assert all(path.startswith(os.path.join("home", "blog") + os.sep) for path in written), written
    outside = {path for path in written if not path.startswith((os.path.join("home", "blog", "site"), os.path.join("home", "blog", "docs")))}
    assert outside == {os.path.join("home", "blog", name) for name in ("mkdocs.yml", "secret.md")}, outside


def test_template_code_on_a_page_is_words_in_all_that_is_made(tmp_path: Path) -> None:
    built = blog(tmp_path, TEMPLATE)
    assert built.code == 0 or "stitchcheck" in built.said
    html = [path.read_text(encoding="utf-8") for path in built.site.rglob("*.html")]
    assert not any("the secret" in page or "root:x:" in page for page in html)
    assert any("{{ 7919*7907 }}" in page for page in html) and not any("62615533" in page for page in html)

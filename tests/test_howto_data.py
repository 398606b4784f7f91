"""What machines read, against https://schema.org/HowTo (properties and expected types, read from its page from memory)."""

from __future__ import annotations

import json
import re
from typing import Any

from page_samples import MOLE

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.estimates.effort import effort
from mkdocs_stitchcheck.hosts.machine_data import machine_data
from mkdocs_stitchcheck.render.howto_data import duration

PAGE = "\n\n".join(f"```crochet\n{part}\n```" for part in MOLE).replace("olivedrab", "#6b8e23")
# Type -> property -> the types that its values may have; str for text, a date or a duration.
SCHEMA: dict[str, dict[str, tuple[str, ...]]] = {
    "HowTo": {
        "name": ("str",), "supply": ("HowToSupply",), "tool": ("HowToTool",), "step": ("HowToSection", "HowToStep"),
        "totalTime": ("str",), "version": ("str",), "author": ("Person", "Organization"), "license": ("str",),
        "copyrightNotice": ("str",), "url": ("str",),
    },
    "HowToSection": {"name": ("str",), "itemListElement": ("HowToStep",)},
    "HowToStep": {"text": ("str",)}, "HowToSupply": {"name": ("str",)}, "HowToTool": {"name": ("str",)},
    "Person": {"name": ("str",)},
}  # fmt: skip
# ISO 8601-1:2019, 5.5.2: PnYnMnDTnHnMnS.
DURATION = re.compile(r"PT(?=\d)(?:\d+H)?(?:\d+M)?")


def data_of(page: str) -> list[dict[str, Any]]:
    """What a machine finds in a page."""
    html = machine_data(check_text(page, "docs/page.md"), "https://example.org/mole/")
    return [json.loads(text) for text in re.findall(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)]


def check(node: dict[str, Any]) -> None:
    for name, value in node.items():
        if name.startswith("@"):
            continue
        allowed = SCHEMA[node["@type"]][name]
        for one in value if isinstance(value, list) else [value]:
            assert (one["@type"] if isinstance(one, dict) else "str") in allowed, (node["@type"], name)
            if isinstance(one, dict):
                check(one)


def test_the_pattern_is_a_valid_howto() -> None:
    (found,) = data_of(PAGE)
    assert found["@context"] == "https://schema.org" and found["@type"] == "HowTo" and found["name"] == "Orchard mole"
    check(found)
    assert DURATION.fullmatch(found["totalTime"]) and found["url"] == "https://example.org/mole/"
    assert [section["name"] for section in found["step"]] == ["Body", "Paw (make 2)", "Scarf", "Making up"]
    steps = [step["text"] for section in found["step"] for step in section["itemListElement"]]
    assert "Rnd 3: (sc, inc) x 6 (18)" in steps and "Stuff firmly." in steps
    names = [supply["name"] for supply in found["supply"]]
    assert "8 mm safety eyes (2)" in names and any("soot" in name for name in names)
    assert [tool["name"] for tool in found["tool"]] == ["Crochet hook, 2.5 mm", "yarn needle", "stitch marker"]
    assert "Photograph" not in json.dumps(found)


def test_a_draft_and_a_pattern_with_an_error_are_not_told_on() -> None:
    assert data_of(PAGE.replace("Version: 3", "Version: 3\nDraft: yes")) == []
    assert data_of(PAGE.replace("(sc, inc) x 6 (18)", "(sc, inc) x 6 (19)")) == []


def test_hostile_words_end_nothing() -> None:
    words = "</script><script>owned=1</script><!-- &amp; \u2028"
    page = PAGE.replace("Orchard mole", words).replace("# Scarf", f"# {words}")
    html = machine_data(check_text(page, "docs/page.md"))
    assert html.count("<") == 2 * html.count('<script type="application/ld+json">') and "\u2028" not in html


def test_durations() -> None:
    assert [duration(m) for m in (0, 4, 61, 150, 600)] == ["PT5M", "PT5M", "PT1H", "PT2H30M", "PT10H"]
    time = effort(check_text(PAGE, "p.md").patterns[0])
    assert time is not None and data_of(PAGE)[0]["totalTime"] == duration(time.high)

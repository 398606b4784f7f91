"""Pages with the script for the tests of following a pattern: served as a site would, under a strict policy."""

from __future__ import annotations

from typing import Any

from test_browser import THEMES

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.render import PageOptions, render_block, script, stylesheet
from mkdocs_stitchcheck.source import Source

HOST = "http://stitch.test/"
POLICY = {"Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'"}

HARE = """\
Title: Bog hare
Terms: US
Version: 2
Yarn: light (3), 50 g = 125 m
Color A: peat, shown as #5b4a3f
Color B: cream
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
Contact: hare@example.org

# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-10: sc in each st around (18)
Stuff firmly.
Rnd 11: (sc, dec) x 6 (12)
Rnd 12: dec x 6 (6)
Fasten off, leaving a 20 cm tail, and close the hole.

# Ear (make 2, color B)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: hdc in each st around (6)
Fasten off, leaving a tail for sewing.

# Cord (color B)
Row 1: 3 fsc (3)
Rows 2-72: ch 1, turn, sc across (3)

# Making up
Sew the ears to the Body.
"""


def page_of(*patterns: str, theme: str = "plain", **options: Any) -> tuple[str, str]:
    """A page with these patterns, a block each, and the style of its theme."""
    text = "# A page\n\n" + "\n\nSome prose.\n\n".join(f"```crochet\n{pattern}```" for pattern in patterns) + "\n"
    file = check_text(text, "page.md")
    blocks = find_blocks(Source(text, "page.md"), Findings())
    html = "\n<p>Some prose.</p>\n".join(
        render_block(file, block, options=PageOptions(heading_level=2, **options)) for block in blocks
    )
    attributes, colors = THEMES[theme]
    whole = (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>A page</title>'
        '<meta name="viewport" content="width=device-width"><link rel="stylesheet" href="/stitchcheck.css">'
        f'<link rel="stylesheet" href="/theme.css"></head><body {attributes}><main><h1>A page</h1>\n{html}\n</main>'
        '<script src="/stitchcheck.js"></script></body></html>'
    )
    style = (
        f"body {{ {colors}; margin: 0; padding: 12px; font: 18px sans-serif; "
        "color: var(--md-typeset-color, var(--bs-body-color, #222)) } main { max-width: 54rem; margin: auto }"
    )
    return whole, style


def site_of(*patterns: str, path: str = "hare/", **more: Any) -> dict[str, dict[str, Any]]:
    """What the network answers for a page with these patterns."""
    html, style = page_of(*patterns, **more)
    return {
        HOST + path: {"body": html, "contentType": "text/html", "headers": POLICY},
        HOST + "stitchcheck.css": {"body": stylesheet(), "contentType": "text/css"},
        HOST + "stitchcheck.js": {"body": script(), "contentType": "text/javascript"},
        HOST + "theme.css": {"body": style, "contentType": "text/css"},
        HOST + "favicon.ico": {"status": 204},
    }


def visit(*steps: dict[str, Any], patterns: tuple[str, ...] = (HARE,), width: int = 768, **more: Any) -> dict[str, Any]:
    """A wish for the page with these patterns and what is done there."""
    theme = more.pop("theme", "plain")
    return {"url": HOST + "hare/", "site": site_of(*patterns, theme=theme), "width": width, "steps": list(steps),
            "within": "main", **more}

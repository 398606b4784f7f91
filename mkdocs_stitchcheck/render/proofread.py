"""An editor's letter as one whole HTML page for the writer: no picture, no script, nothing from elsewhere."""

from __future__ import annotations

from collections.abc import Sequence

from ..proofreading import Entry, Letter, Section
from .html import Html, el, lines, safe_address

_STYLE = """
:root { color-scheme: light dark; }
body { font: 1.05rem/1.55 sans-serif; max-width: 44rem; margin: 0 auto; padding: 1rem 1rem 4rem; }
h1 { line-height: 1.2; } h2 { margin-top: 2.2rem; border-bottom: 1px solid; } h3 { margin: 1.4rem 0 .3rem; }
li { margin: .5rem 0; overflow-wrap: anywhere; } code { font-size: .9em; opacity: .85; }
.path { overflow-wrap: anywhere; }
@media print { body { font-size: 11pt; max-width: none; } li { break-inside: avoid; } h2, h3 { break-after: avoid; } }
"""


def proofread_page(letters: Sequence[Letter], *, address: str = "") -> str:
    """The HTML document of *letters*; *address* leads back to the pattern's page. Every text is escaped."""
    title = f"Proofreading: {letters[0].title}" if letters else "Proofreading"
    back = safe_address(address)
    head = el(
        "head",
        lines(
            "", el("meta", charset="utf-8"), el("meta", name="viewport", content="width=device-width, initial-scale=1"),
            el("meta", name="robots", content="noindex"), el("title", title), Html(f"<style>{_STYLE}</style>"), "",
        ),
    )
    link = el("p", el("a", "Back to the pattern's page", href=back)) if back else None
    if not letters:
        body = [el("h1", title), el("p", "No crochet pattern found.")]
    else:
        body = [part for letter in letters for part in _letter(letter)]
    main = el("main", lines("", link, body, ""))
    return f"<!DOCTYPE html>\n{el('html', lines('', head, el('body', main), ''), lang='en')}\n"


def _letter(letter: Letter) -> list[Html]:
    parts = [
        el("h1", f"Proofreading: {letter.title}", dir="auto"),
        el("p", el("code", letter.path), class_="path"),
        el("p", " ".join(letter.opening)),
    ]
    for section in letter.sections:
        parts += _section(section)
    return parts


def _section(section: Section) -> list[Html]:
    parts = [el(f"h{section.level + 1}", section.title)]
    if section.told:
        parts.append(el("p", section.told))
    if section.entries:
        parts.append(el("ul", lines("", [_entry(entry) for entry in section.entries], "")))
    return parts


def _entry(entry: Entry) -> Html:
    head = ", ".join(part for part in (entry.place, entry.weight) if part)
    return el(
        "li",
        [el("strong", f"{head}:"), " "] if head else None,
        entry.words, f" {entry.mend}" if entry.mend else None,
        [" ", el("code", entry.rule)] if entry.rule else None,
        dir="auto",
    )

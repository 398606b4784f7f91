"""A way to ask the designer: a mail that says already which pattern and version it is about."""

from __future__ import annotations

import re
from urllib.parse import quote

from ..results import PatternResult
from .html import Html, el
from .words import clean

_ADDRESS = re.compile(r"(?<![\w.+-])[A-Za-z0-9][\w.+-]{0,63}@[A-Za-z0-9-]{1,63}(?:\.[A-Za-z0-9-]{1,63}){1,8}(?![\w@])", re.ASCII)
_LONGEST = 120


def ask(pattern: PatternResult) -> Html | None:
    """The link, where ``Contact:`` gives a mail address; the page's script adds piece and round to what it is about."""
    contact = pattern.syntax.header.first("contact")
    found = _ADDRESS.search(clean(contact.value)) if contact is not None else None
    if found is None:
        return None
    version = pattern.syntax.header.first("version")
    about = (pattern.title or "Pattern")[:_LONGEST] + (f", version {clean(version.value)[:_LONGEST]}" if version else "")
    href = f"mailto:{quote(found[0], safe='@+')}?subject={quote(about, safe='')}"
    return el("p", el("a", "Ask about this pattern", href=href), class_="sc-ask")

"""The cover of a printed edition: title, picture, designer, state, licence, the way to the page, and the contents."""

from __future__ import annotations

from collections.abc import Iterable

from ..language import syntax
from ..language.terms import TERMS_IN_WORDS
from ..results import PatternResult
from .context import Context
from .html import Html, el, join, lines, safe_address
from .materials import about
from .words import clean

ON_COVER = frozenset(("designer", "version", "date", "corrected", "licence", "copyright", "level", "finished size"))


def cover(pattern: PatternResult, ctx: Context, version: str, address: str, contents: Iterable[tuple[str, str]], test: int) -> Html:
    """The cover. *contents* are (id, name) of what the pages after it hold."""
    header = pattern.syntax.header
    terms = TERMS_IN_WORDS.get(header.terms or pattern.syntax.system, "")
    facts = [_said(header, "level"), terms, _said(header, "finished size")]
    designer = _said(header, "designer")
    parts = [
        el("p", el("strong", f"Test {test}"), " · not for sale, not to be passed on", class_="test") if test else None,
        el("p", el("strong", "Draft: counts may change."), class_="draft") if pattern.draft else None,
        el("h1", pattern.title or "Pattern", dir="auto"),
        el("p", "Designed by ", el("bdi", designer), class_="designer") if designer else None,
        el("p", join([[" · " if i else None, el("bdi", fact)] for i, fact in enumerate(filter(None, facts))]), class_="facts"),
        _picture(ctx),
        _contents(contents),
        el("div", lines("", *_state(header, version, address), ""), class_="state"),
    ]
    return el("section", lines("", parts, ""), class_="cover")


def _said(header: syntax.Header, key: str) -> str:
    line = header.first(key)
    return clean(line.value) if line is not None else ""


def _picture(ctx: Context) -> Html | None:
    picture = ctx.options.picture
    address = safe_address(picture.address) if picture else None
    if picture is None or address is None:
        return None
    return el("p", el("img", src=address, alt=picture.words or "The finished piece"), class_="portrait")


def _contents(contents: Iterable[tuple[str, str]]) -> Html:
    rows = [el("li", el("a", name, href=f"#{address}", dir="auto")) for address, name in contents]
    return el("nav", lines("", el("p", el("strong", "Contents"), class_="title"), el("ol", lines("", rows, "")), ""), class_="contents")


def _state(header: syntax.Header, version: str, address: str) -> list[Html | None]:
    """Version, licence and where the pattern lives."""
    href = safe_address(address)
    notes = [el("p", f"{clean(line.label)}: {clean(line.value)}", dir="auto") for line in header.lines if line.key == "corrected"]
    licence = _said(header, "licence")
    owner = _said(header, "copyright")
    return [
        el("p", version[:1].upper() + version[1:]) if version else None,
        *notes,
        el("p", el("strong", "Licence: "), el("bdi", licence), class_="licence") if licence else None,
        el("p", el("strong", "Copyright: "), el("bdi", owner), class_="licence") if owner else None,
        el("p", "The pattern's page, with corrections: ", el("a", el("bdi", address), href=href)) if href else None,
    ]


def besides_the_cover(pattern: PatternResult, ctx: Context) -> Html | None:
    """The particulars for which the cover has no place."""
    return about(pattern, ctx, ON_COVER)

"""The moment of the film at a heading, round or step: the time, and where the film has an address the way there."""

from __future__ import annotations

from ..results import PatternResult
from .context import Context
from .html import Html, el, safe_address
from .words import clean


def film_moment(moment: int | None, pattern: PatternResult, ctx: Context) -> Html | None:
    """"Film 12:30"; a link where the film has a web address (W3C Media Fragments, ``#t=seconds``). None without a mark."""
    if moment is None:
        return None
    hours, rest = divmod(moment, 3600)
    text = f"Film {hours}:{rest // 60:02d}:{rest % 60:02d}" if hours else f"Film {rest // 60}:{rest % 60:02d}"
    film = pattern.syntax.header.first("video")
    address = safe_address(clean(film.value)) if film else None
    if address and address.startswith(("http://", "https://")) and " " not in address and (ctx.links or not ctx.print):
        return el("a", text, href=f"{address.split('#')[0]}#t={moment}", class_="sc-moment", rel="noopener")
    return el("span", text, class_="sc-moment")

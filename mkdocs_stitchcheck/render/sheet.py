"""The printable sheet of a pattern: one whole document without the site's chrome, black on white, to be kept in a bag."""

from __future__ import annotations

from ..corrections.dates import corrected_on
from ..language import syntax
from ..results import FileResult, PatternResult
from .abbreviations import abbreviations
from .addresses import Addresses
from .assets import print_stylesheet, sheet_stylesheet
from .by_size import choice, size_rules
from .chart_part import chart_part
from .checked import counts_checked, statement
from .context import Context
from .cover import besides_the_cover, cover
from .effort_part import time_part
from .html import Html, el, join, lines, safe_address
from .materials import about, materials
from .options import PageOptions
from .printed import PLAIN, Photograph, Printed
from .shape_part import shape_part
from .sheet_tables import piece_table
from .size_part import size_part
from .tables import LEGEND, Entry, has_computed, piece_facts
from .testers import back_page, writing_lines
from .totals import piece_line, piece_said
from .words import clean, label_text
from .yarn_part import yarn_table

PAPERS = {"a4": "A4", "letter": "letter"}
_LONGEST_FOOT = 70


def _body(pattern: PatternResult, ctx: Context, version: str, address: str, printed: Printed) -> Html:
    """The body, in which a reader may choose the size that is printed."""
    several = len(pattern.syntax.header.sizes) > 1
    scope = "sc-p1" if several and not printed.cover else None
    front = _front(pattern, ctx, version, address)
    if printed.cover:
        front = lines(cover(pattern, ctx, version, address, _contents(pattern, ctx, printed), printed.test), _inside(pattern, ctx))
    back = back_page(pattern, printed.test) if printed.test else None
    return el("body", el("main", lines("", front, _pieces(pattern, ctx, printed), back, ""), class_=scope))


def _contents(pattern: PatternResult, ctx: Context, printed: Printed) -> list[tuple[str, str]]:
    """(id, name) of what the printed edition holds."""
    pieces = [(ctx.addresses.piece(piece), piece.name) for piece in pattern.syntax.pieces if piece.heading or piece.lines]
    back = [("for-the-designer", "For the designer")] if printed.test else []
    return [("before-you-begin", "Before you begin"), *pieces, *back]


def css_string(text: str) -> str:
    """*text* as a quoted string of a style sheet; everything but plain letters and digits is escaped by number."""
    kept = "".join(c if c.isascii() and (c.isalnum() or c == " ") else f"\\{ord(c):x} " for c in text if c.isprintable())
    return f'"{kept}"'


def _shortened(text: str) -> str:
    return text if len(text) <= _LONGEST_FOOT else text[: _LONGEST_FOOT - 1].rstrip() + "…"


def page_rule(title: str, version: str, address: str, paper: str, large: bool) -> str:
    """The page's size, margins and foot: title and version, address, page number of how many.

    Raises ValueError for a paper other than A4 and Letter.
    """
    size = PAPERS.get(paper.lower())
    if size is None:
        raise ValueError(f"paper is {paper!r}; it can be A4 or Letter")
    foot = f"{_shortened(title)}, {version}" if version else _shortened(title)
    font = f"font: {14 if large else 9}pt/1.25 sans-serif; color: #000; vertical-align: top; padding-top: 3mm;"
    return (
        f"@page {{ size: {size}; margin: 14mm 14mm {24 if large else 20}mm 20mm;\n"
        f"@bottom-left {{ content: {css_string(foot)} \"\\a \" {css_string(_shortened(address))}; "
        f"white-space: pre-line; text-align: left; width: 80%; {font} }}\n"
        f"@bottom-right {{ content: \"Page \" counter(page) \" of \" counter(pages); text-align: right; {font} }} }}\n"
    )


def render_sheet(
    file: FileResult, pattern: PatternResult, *, address: str, version: str | None = None, paper: str = "A4",
    large: bool = False, options: PageOptions | None = None, printed: Printed = PLAIN,
) -> str:
    """The whole HTML document of a pattern's sheet.

    *address* is where the pattern's page is published; it is printed on every page. *version* defaults to what the
    pattern's ``Version:`` or ``Date:`` says. *large* gives the large-print edition. Raises ValueError for another paper
    than A4 or Letter.
    """
    ctx = Context(file, options or PageOptions(), Addresses(file), print=True, large=large, links=printed.cover)
    title = pattern.title or "Pattern"
    shown_version = version_words(pattern, version)
    test = f"test {printed.test}" if printed.test else ""
    state = ", ".join(part for part in (shown_version, "draft" if pattern.draft else "", test) if part)
    rule = page_rule(title, state, address, paper, large)
    if printed.cover and large:
        rule = "@page { @top-left { font-size: 14pt } }\n" + rule
    rules = size_rules(1) if len(pattern.syntax.header.sizes) > 1 else ""
    head = el(
        "head",
        lines(
            "",
            el("meta", charset="utf-8"),
            el("meta", name="viewport", content="width=device-width, initial-scale=1"),
            el("meta", name="robots", content="noindex"),
            el("title", title if printed.cover else f"{title}: {'large-print' if large else 'printable'} sheet"),
            _metadata(pattern) if printed.cover else None,
            Html(f"<style>\n{sheet_stylesheet()}{print_stylesheet() if printed != PLAIN else ''}{rules}{rule}</style>"),
            "",
        ),
    )
    body = _body(pattern, ctx, shown_version, address, printed)
    kind = ("large" if large else "plain") + (" bound" if printed.cover else "")
    return f"<!DOCTYPE html>\n{el('html', lines('', head, body, ''), lang='en', class_=kind)}\n"


def _metadata(pattern: PatternResult) -> Html:
    """What a PDF says of itself."""
    header = pattern.syntax.header
    designer = header.first("designer")
    words = ["crochet", *(piece.name for piece in pattern.pieces)][:20]
    return lines(
        el("meta", name="author", content=clean(designer.value)) if designer is not None else None,
        el("meta", name="description", content=f"Crochet pattern: {pattern.title or 'Pattern'}"),
        el("meta", name="keywords", content=", ".join(words)),
    )


def version_words(pattern: PatternResult, version: str | None = None) -> str:
    """"version 2, corrected 14 March 2026"; the date where neither is given, "" where nothing is."""
    if version is not None:
        return f"version {version}" if version else ""
    header = pattern.syntax.header
    stated = header.first("version")
    corrected = corrected_on(header)
    words = [f"version {clean(stated.value)}"] if stated is not None else []
    words += [f"corrected {corrected}"] if corrected else []
    date = header.first("date")
    return ", ".join(words) or (clean(date.value) if date is not None else "")


def _front(pattern: PatternResult, ctx: Context, version: str, address: str) -> Html:
    """The first page: title, picture, materials with size and gauge, caution, abbreviations."""
    href = safe_address(address)
    parts = [
        el("p", el("a", "Back to the pattern's page", href=href), class_="screen") if href else None,
        el("p", el("strong", "Draft: counts may change."), class_="draft") if pattern.draft else None,
        _choice(pattern, ctx),
        el("h1", pattern.title or "Pattern", dir="auto"),
        el("p", _particulars(version, address), class_="address"),
        about(pattern, ctx),
        _picture(ctx),
        *_before_you_begin(pattern, ctx),
    ]
    return el("section", lines("", parts, ""), class_="front")


def _before_you_begin(pattern: PatternResult, ctx: Context) -> list[Html | None]:
    """Materials, caution, abbreviations, yarn, size and time."""
    checked = el("p", el("strong", "Stitch counts checked. "), statement()[1]) if counts_checked(pattern) else None
    return [
        materials(pattern, ctx),
        abbreviations(pattern, ctx),
        yarn_table(pattern, ctx),
        size_part(pattern, ctx),
        time_part(pattern, ctx),
        checked,
    ]


def _inside(pattern: PatternResult, ctx: Context) -> Html:
    """The pages behind the cover, before the first piece."""
    parts = [besides_the_cover(pattern, ctx), *_before_you_begin(pattern, ctx)]
    return el("section", lines("", parts, ""), class_="front", id="before-you-begin")


def _choice(pattern: PatternResult, ctx: Context) -> Html | None:
    """On the screen only: the size to print."""
    buttons = choice(pattern, ctx.addresses, "sc-p1")
    return el("div", buttons, class_="screen") if buttons else None


def _particulars(version: str, address: str) -> Html:
    shown = version[:1].upper() + version[1:]
    return join(shown, " · " if shown and address else None, el("bdi", address) if address else None)


def _picture(ctx: Context) -> Html | None:
    picture = ctx.options.picture
    address = safe_address(picture.address) if picture else None
    if picture is None or address is None:
        return None
    return el("p", el("img", src=address, alt=picture.words), class_="picture")


def _pieces(pattern: PatternResult, ctx: Context, printed: Printed) -> Html:
    parts: list[Html | None] = []
    rounds = [line for piece in pattern.syntax.pieces for line in piece.lines]
    for piece in pattern.syntax.pieces:
        parts.append(_piece(pattern, piece, ctx, printed))
    if has_computed(ctx, rounds):
        parts.append(el("p", LEGEND, class_="legend"))
    parts += [chart_part(pattern, ctx), shape_part(pattern, ctx)]
    return el("section", lines("", parts, ""), class_="pieces")


def _entries(pattern: PatternResult, piece: syntax.Piece) -> list[Entry]:
    """The piece's lines with the header lines that stand among them."""
    entries: list[Entry] = list(piece.lines)
    if piece.lines:
        first, last = piece.lines[0].line, piece.lines[-1].line
        entries += [line for line in pattern.syntax.header.lines if first < line.statement.line < last]
    return sorted(entries, key=lambda entry: entry.statement.line)


def _piece(pattern: PatternResult, piece: syntax.Piece, ctx: Context, printed: Printed) -> Html | None:
    table = piece_table(ctx, pattern, piece, _entries(pattern, piece))
    if table is None and piece.heading is None:
        return None
    result = ctx.piece(piece)
    total = piece_line(result) if result is not None else ""
    parts = [
        el("h2", piece.name, dir="auto"),
        piece_facts(piece, pattern, ctx),
        table,
        el("p", el("bdi", piece.name), ": ", piece_said(result, pattern), class_="total") if total and result else None,
        *[_photograph(one, piece) for one in photographs_of(pattern, piece, printed)],
        writing_lines(piece) if printed.test else None,
    ]
    return el("section", lines("", parts, ""), class_="piece", id=ctx.addresses.piece(piece) if printed.cover else None)


def photographs_of(pattern: PatternResult, piece: syntax.Piece, printed: Printed) -> list[Photograph]:
    """The photographs that stand on the page within a piece: behind its first line, before the next piece's."""
    starts = sorted(one.line for one in pattern.syntax.pieces)
    following = next((line for line in starts if line > piece.line), pattern.end_line + 1)
    return [one for one in printed.photographs if piece.line < one.line < following]


def _photograph(one: Photograph, piece: syntax.Piece) -> Html | None:
    """A photograph with its words, and the round after which it stands."""
    address = safe_address(one.address)
    before = [line for line in piece.lines if isinstance(line, syntax.RoundLine) and line.label and line.line < one.line]
    place = f"After {label_text(before[-1])}" if before else ""
    caption = ": ".join(part for part in (place, one.words) if part)
    if address is None:
        return None
    image = el("img", src=address, alt=one.words or f"{piece.name}, {place.lower() or 'a photograph'}")
    return el("figure", lines("", image, el("figcaption", caption) if caption else None, ""))

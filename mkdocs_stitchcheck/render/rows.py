"""The rows of a piece's table: a round with its boxes, number, words and count; a step; a note.

Each cell carries its role, since a narrow page lays the row out as a grid, which takes a table's meaning away from
some screen readers.
"""

from __future__ import annotations

from ..language import syntax
from ..results import PatternResult, RoundResult
from .addresses import rounds_of
from .boxes import boxes
from .by_size import by_gauge, classes_of, count_columns, is_until, pads, size_class, size_titles, sized
from .caution import step_caution, step_kind
from .colors import chips
from .context import Context
from .film_moment import film_moment
from .findings_box import findings_box
from .html import Child, Html, el, join, lines
from .materials import is_color, shown_elsewhere
from .repeats import repeats_of, star_in_all
from .spoken import repeats_in_words
from .switching import in_other_terms
from .words import clean, instruction, label_said, note, sizes, stated_in, stated_text, step_text


def column_titles(kinds: set[str]) -> list[tuple[str, str, int]]:
    """(title, kind, columns) of each title above lines with labels of these *kinds*; steps alone need but two.

    Where there is a column of counts for each size, their titles are the sizes' (see ``by_size``).
    """
    if not kinds:
        return [("What to do", "words", 3), ("Done", "tick", 1)]
    first = "Row" if kinds == {"row"} else "Rnd"
    return [(first, "rnd", 1), ("What to do", "words", 1), ("Stitches", "count", 1), ("Done", "tick", 1)]


def header_row(kinds: set[str], pattern: PatternResult) -> Html:
    """The head of the table."""
    cells: list[Html] = []
    counts = count_columns(pattern)
    for title, kind, columns in column_titles(kinds):
        if kind == "count" and counts > 1:
            cells += size_titles(pattern, role="columnheader")
            continue
        cells.append(el(
            "th", title, scope="col", role="columnheader", class_=f"sc-{kind}",
            colspan=columns if columns > 1 else None, align="right" if kind == "count" else None,
        ))  # fmt: skip
        cells += pads(pattern, "th") if kind == "words" and columns > 2 else []
    return el("tr", lines("", cells, ""), role="row")


def _cell(*children: object, kind: str, **more: str | int | None) -> Html:
    return el("td", *children, class_=f"sc-{kind}", role="cell", **more)  # type: ignore[arg-type]


def round_words(line: syntax.RoundLine) -> str:
    """What to do in a round, or that it is not written yet."""
    return "Not written yet." if line.not_written else instruction(line) or "Not written yet."


def round_said(line: syntax.RoundLine, pattern: PatternResult, result: RoundResult | None) -> Html | str:
    """What to do in a round, with its sizes told apart, and about how many rows a length is."""
    names = pattern.syntax.header.sizes
    if line.only is None and len(names) < 2 and not is_until(line):
        return round_words(line)
    only = None
    if line.only is not None:
        known = [names[place] for place in sorted(line.only) if place < len(names)]
        words = f"Size{'' if len(known) == 1 else 's'} {listed(known)} only: " if known else ""
        only = el("span", words, class_="sc-all") if words else None
    return join(only, sized(round_words(line), len(names)), by_gauge(line, result, len(names)))


def count_cell(line: syntax.RoundLine, result: RoundResult | None) -> tuple[str, bool]:
    """The count that readers see, and whether it was worked out here: then it stands in square brackets."""
    stated = stated_text(line, result)
    if stated or result is None or line.not_written:
        return stated, False
    made = sizes(result.makes)
    return (f"[{made}]", True) if made and result.status in ("counted", "checked") else ("", False)


def listed(names: list[str]) -> str:
    """"S", "S and M", "S, M and L"."""
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else "".join(names)


def count_cells(
    line: syntax.RoundLine, result: RoundResult | None, pattern: PatternResult
) -> list[tuple[str | Html, bool, str | None]]:
    """(count, whether it was worked out here, classes of its sizes) for each column of counts."""
    columns, names = count_columns(pattern), pattern.syntax.header.sizes
    if columns == 1:
        count, computed = count_cell(line, result)
        return [(sized(count, len(names)), computed, None)]
    return [(*_count_in(line, result, len(names), place), size_class((place,))) for place in range(columns)]


def _count_in(line: syntax.RoundLine, result: RoundResult | None, sizes: int, place: int) -> tuple[str, bool]:
    """The count in one size; a dash where it does not work the line."""
    if classes_of(result, line, sizes) is not None and not (result is None or result.works_in(place)):
        return "–", False
    if not line.stated:
        made = result.makes[place] if result is not None and place < len(result.makes) else None
        known = made is not None and result is not None and result.status in ("counted", "checked")
        return (f"[{made}]", True) if known and not line.not_written else ("", False)
    return stated_in(line, result, sizes, place), False


def _colors(line: syntax.RoundLine, result: RoundResult | None, color: str | None, pattern: PatternResult) -> Html | None:
    """The colours of a round, where it does not simply go on in the one before."""
    if result is None:
        return None
    used = result.colors or ((result.color,) if result.color else ())
    return chips(used, pattern.syntax.header.colors) if used and used != (color,) else None


def spoken_words(line: syntax.RoundLine, pattern: PatternResult, ctx: Context) -> Html | None:
    """The round's repeats in words, in large print."""
    if not ctx.large:
        return None
    sentences = repeats_in_words(line, star_in_all(pattern))
    said = sized(" ".join(sentences), len(pattern.syntax.header.sizes))
    return el("span", said, class_="sc-spoken") if sentences else None


def _do(words: Child) -> Html:
    """The words of a line alone, as the page's script finds them."""
    return el("span", words, class_="sc-do")


def round_row(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, line: syntax.RoundLine, color: str | None
) -> Html:
    """A round or row, with what is said at it."""
    result = ctx.result(line)
    ticks, many = boxes(ctx, piece, line)
    words = round_said(line, pattern, result)
    other = in_other_terms(round_words(line), pattern, ctx.options.both_terms)
    extras = [other, _colors(line, result, color, pattern), film_moment(line.moment, pattern, ctx), spoken_words(line, pattern, ctx)]
    caution = line_caution(ctx, pattern, line)
    first = next(rounds_of(line.label), None)
    cells: list[Child] = [
        el("th", label_said(line, pattern), scope="row", role="rowheader", class_="sc-rnd", dir="auto"),
        _cell(_do(words), [[" ", extra] for extra in (*extras, caution) if extra], kind="words", dir="auto"),
        count_tds(line, result, pattern),
        _cell(ticks, kind="tick"),
    ]
    only = classes_of(result, line, len(pattern.syntax.header.sizes))
    return el(
        "tr",
        lines("", cells, ""),
        role="row",
        class_=row_kinds(ctx, line, "sc-many" if many else None, only),
        data_times=repeats_of(line, result, pattern),
        id=None if first is None or ctx.print else ctx.addresses.round(line, first),
    )


def count_tds(line: syntax.RoundLine, result: RoundResult | None, pattern: PatternResult) -> list[Html]:
    """The cells of a line's counts, one a size; each bears its size's name for narrow pages, which have no columns."""
    names = pattern.syntax.header.sizes
    cells = []
    for place, (count, computed, belongs) in enumerate(count_cells(line, result, pattern)):
        kind = " ".join(part for part in ("count", "sc-computed" if computed else "", belongs) if part)
        cells.append(_cell(one_a_line(count), kind=kind, align="right", data_size=names[place] if belongs else None))
    return cells


def one_a_line(count: str | Html) -> str | Html:
    """"12 dc, 4 ch-2 sps" as a line for each kind; a bare number as it is."""
    if not isinstance(count, str) or ", " not in count:
        return count
    *kinds, last = count.split(", ")
    return join([el("span", f"{kind}, ", class_="sc-line") for kind in kinds], el("span", last, class_="sc-line"))


def line_caution(ctx: Context, pattern: PatternResult, line: syntax.Line) -> Html | None:
    """The caution at a step that attaches a small part or a cord."""
    kind = step_kind(line, pattern, ctx.toy(pattern))
    return step_caution(kind, ctx.options.caution) if kind else None


def step_row(ctx: Context, pattern: PatternResult, piece: syntax.Piece, line: syntax.Line) -> Html:
    """A foundation or working step; a counted one shows its count."""
    result = ctx.result(line)
    ticks, many = boxes(ctx, piece, line)
    words, names = step_text(line), pattern.syntax.header.sizes
    tail: list[Html] = []
    only = None
    if isinstance(line, syntax.RoundLine):
        only = classes_of(result, line, len(names))
        if stated_text(line, result):
            tail, words = count_tds(line, result, pattern), instruction(line)
    moment = film_moment(line.moment, pattern, ctx) if isinstance(line, syntax.RoundLine) else None
    other = in_other_terms(words, pattern, ctx.options.both_terms)
    more = [[" ", part] for part in (other, moment, line_caution(ctx, pattern, line)) if part]
    said = _cell(
        _do(sized(words, len(names))), more, kind="words", dir="auto", colspan=2 if tail else 3
    )  # fmt: skip
    kinds = row_kinds(ctx, line, "sc-step", "sc-many" if many else None, only)
    return el("tr", lines("", said, tail or pads(pattern), _cell(ticks, kind="tick"), ""), role="row", class_=kinds)


def row_kinds(ctx: Context, line: syntax.Line, *kinds: str | None) -> str | None:
    """The classes of a row; one on which a slip was found is marked, for the writer."""
    slip = "sc-slip" if ctx.found_on(line.line, line.statement.lines[-1].number) else None
    return " ".join(kind for kind in (*kinds, slip) if kind) or None


def note_row(words: str | Html, pattern: PatternResult, kind: str = "note") -> Html:
    """A note for readers, or whatever else goes over the whole width."""
    said = sized(words, len(pattern.syntax.header.sizes)) if isinstance(words, str) else words
    return el("tr", "\n", _cell(said, kind="words", colspan=4, dir="auto"), pads(pattern), "\n", role="row", class_=f"sc-{kind}")


def line_rows(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, line: syntax.Line, color: str | None
) -> list[Html]:
    """The rows of one line, with the findings that begin on it; nothing for a private note but its findings."""
    rows = []
    if line.kind == "round" and isinstance(line, syntax.RoundLine):
        rows.append(round_row(ctx, pattern, piece, line, color))
    elif line.kind in ("step", "foundation", "round"):
        rows.append(step_row(ctx, pattern, piece, line))
    elif line.kind == "note":
        rows.append(note_row(join(note(line), in_other_terms(note(line), pattern, ctx.options.both_terms)), pattern)
                    if ctx.options.both_terms else note_row(note(line), pattern))
    found = ctx.take_findings(line.line, line.statement.lines[-1].number)
    if found:
        rows.append(note_row(findings_box(found, ctx.file.path), pattern, "found"))
    return rows


def header_row_between(line: syntax.HeaderLine, ctx: Context, pattern: PatternResult) -> list[Html]:
    """A header line that stands between rounds and holds from there on."""
    rows = []
    if is_color(line) or not shown_elsewhere(line):
        rows.append(note_row(f"{clean(line.label)}: {clean(line.value)}", pattern))
    found = ctx.take_findings(line.statement.line, line.statement.lines[-1].number)
    if found:
        rows.append(note_row(findings_box(found, ctx.file.path), pattern, "found"))
    return rows

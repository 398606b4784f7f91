"""The rows of a piece's table: a round with its boxes, number, words and count; a step; a note.

Each cell carries its role, since a narrow page lays the row out as a grid, which takes a table's meaning away from
some screen readers.
"""

from __future__ import annotations

from ..language import syntax
from ..results import PatternResult, RoundResult
from .addresses import rounds_of
from .caution import step_caution, step_kind
from .colors import chips
from .context import Context
from .findings_box import findings_box
from .html import Html, el, join, lines, safe_address
from .materials import is_color, shown_elsewhere
from .spoken import repeats_in_words
from .words import clean, instruction, label_text, note, sizes, stated_text, step_text

_MOST_COPIES = 4  # beyond these a maker keeps count in another way
_GROUP = 5


def column_titles(kinds: set[str]) -> list[tuple[str, str, int]]:
    """(title, kind, columns) of each title above lines with labels of these *kinds*; steps alone need but two."""
    if not kinds:
        return [("What to do", "words", 3), ("Done", "tick", 1)]
    first = "Row" if kinds == {"row"} else "Rnd"
    return [(first, "rnd", 1), ("What to do", "words", 1), ("Stitches", "count", 1), ("Done", "tick", 1)]


def header_row(kinds: set[str]) -> Html:
    """The head of the table."""
    cells = [
        el(
            "th", title, scope="col", role="columnheader", class_=f"sc-{kind}",
            colspan=columns if columns > 1 else None, align="right" if kind == "count" else None,
        )
        for title, kind, columns in column_titles(kinds)
    ]
    return el("tr", lines("", cells, ""), role="row")


def _cell(*children: object, kind: str, **more: str | int | None) -> Html:
    return el("td", *children, class_=f"sc-{kind}", role="cell", **more)  # type: ignore[arg-type]


def _one_box(ctx: Context, name: str, address: str | None) -> Html:
    if ctx.print:
        return el("span", class_="sc-box")
    return el("input", type="checkbox", aria_label=name, id=address)


def _box_group(ctx: Context, line: syntax.Line, copy: int | None) -> list[Html]:
    """The boxes of a line for one copy of the piece, in groups of five."""
    label = line.label if isinstance(line, syntax.RoundLine) else None
    numbers = list(rounds_of(label))
    suffix = f", copy {copy}" if copy is not None else ""
    if not numbers or label is None:
        name = label_text(line) if isinstance(line, syntax.RoundLine) and label else "Step"
        return [_one_box(ctx, f"{name} done{suffix}", None)]
    word = "Row" if label.kind == "row" else "Rnd"
    boxes = []
    for place, n in enumerate(numbers):
        assert isinstance(line, syntax.RoundLine)
        # The row itself bears the first round's address; the first copy's boxes bear those of the others.
        address = ctx.addresses.round(line, n) if place and copy in (None, 1) else None
        boxes.append(_one_box(ctx, f"{word} {n} done{suffix}", address))
    if len(boxes) == 1:
        return boxes
    return [el("span", boxes[i : i + _GROUP], class_="sc-five") for i in range(0, len(boxes), _GROUP)]


def boxes(ctx: Context, piece: syntax.Piece, line: syntax.Line) -> tuple[Html, bool]:
    """The tick-off boxes of a line, one a round and copy; and whether they are many."""
    many = len(list(rounds_of(line.label))) > 1 if isinstance(line, syntax.RoundLine) else False
    if not 1 < piece.make <= _MOST_COPIES:
        return join(_box_group(ctx, line, None)), many
    copies = [
        el("span", el("small", copy), _box_group(ctx, line, copy), class_="sc-copy")
        for copy in range(1, piece.make + 1)
    ]
    return lines(*copies), True


def round_words(line: syntax.RoundLine) -> str:
    """What to do in a round, or that it is not written yet."""
    return "Not written yet." if line.not_written else instruction(line) or "Not written yet."


def count_cell(line: syntax.RoundLine, result: RoundResult | None) -> tuple[str, bool]:
    """The count that readers see, and whether it was worked out here: then it stands in square brackets."""
    stated = stated_text(line, result)
    if stated or result is None or line.not_written:
        return stated, False
    made = sizes(result.makes)
    return (f"[{made}]", True) if made and result.status in ("counted", "checked") else ("", False)


def _colors(line: syntax.RoundLine, result: RoundResult | None, color: str | None, pattern: PatternResult) -> Html | None:
    """The colours of a round, where it does not simply go on in the one before."""
    if result is None:
        return None
    used = result.colors or ((result.color,) if result.color else ())
    return chips(used, pattern.syntax.header.colors) if used and used != (color,) else None


def _moment(line: syntax.RoundLine, pattern: PatternResult, ctx: Context) -> Html | None:
    """The moment of the film; a link where the film has a web address (W3C Media Fragments, ``#t=seconds``)."""
    if line.moment is None:
        return None
    text = f"Film {line.moment // 60}:{line.moment % 60:02d}"
    film = pattern.syntax.header.first("video")
    address = safe_address(clean(film.value)) if film else None
    if address and address.startswith(("http://", "https://")) and " " not in address and not ctx.print:
        return el("a", text, href=f"{address.split('#')[0]}#t={line.moment}", class_="sc-moment", rel="noopener")
    return el("span", text, class_="sc-moment")


def spoken_words(line: syntax.RoundLine, pattern: PatternResult, ctx: Context) -> Html | None:
    """The round's repeats in words, in large print."""
    if not ctx.large:
        return None
    answer = next((r.answer for r in pattern.readings if r.question == "star-repeat"), "")
    in_all = True if "in all" in answer else False if "more" in answer else None
    sentences = repeats_in_words(line, in_all)
    return el("span", " ".join(sentences), class_="sc-spoken") if sentences else None


def round_row(
    ctx: Context, pattern: PatternResult, piece: syntax.Piece, line: syntax.RoundLine, color: str | None
) -> Html:
    """A round or row, with what is said at it."""
    result = ctx.result(line)
    ticks, many = boxes(ctx, piece, line)
    count, computed = count_cell(line, result)
    words = round_words(line)
    extras = [_colors(line, result, color, pattern), _moment(line, pattern, ctx), spoken_words(line, pattern, ctx)]
    caution = line_caution(ctx, pattern, line)
    first = next(rounds_of(line.label), None)
    cells = [
        el("th", label_text(line), scope="row", role="rowheader", class_="sc-rnd", dir="auto"),
        _cell(words, [[" ", extra] for extra in (*extras, caution) if extra], kind="words", dir="auto"),
        _cell(count, kind="count sc-computed" if computed else "count", align="right"),
        _cell(ticks, kind="tick"),
    ]
    return el(
        "tr",
        lines("", cells, ""),
        role="row",
        class_="sc-many" if many else None,
        id=None if first is None or ctx.print else ctx.addresses.round(line, first),
    )


def line_caution(ctx: Context, pattern: PatternResult, line: syntax.Line) -> Html | None:
    """The caution at a step that attaches a small part or a cord."""
    kind = step_kind(line, pattern, ctx.toy(pattern))
    return step_caution(kind, ctx.options.caution) if kind else None


def step_row(ctx: Context, pattern: PatternResult, piece: syntax.Piece, line: syntax.Line) -> Html:
    """A foundation or working step; a counted one shows its count."""
    result = ctx.result(line)
    ticks, many = boxes(ctx, piece, line)
    count, words = "", step_text(line)
    if isinstance(line, syntax.RoundLine) and line.stated:
        count, words = stated_text(line, result), instruction(line)
    caution = line_caution(ctx, pattern, line)
    said = _cell(
        words, [" ", caution] if caution else None, kind="words", dir="auto", colspan=2 if count else 3
    )
    tail = _cell(count, kind="count", align="right") if count else None
    kinds = "sc-step sc-many" if many else "sc-step"
    return el("tr", lines("", said, tail, _cell(ticks, kind="tick"), ""), role="row", class_=kinds)


def note_row(words: str | Html, kind: str = "note") -> Html:
    """A note for readers, or whatever else goes over the whole width."""
    return el("tr", "\n", _cell(words, kind="words", colspan=4, dir="auto"), "\n", role="row", class_=f"sc-{kind}")


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
        rows.append(note_row(note(line)))
    found = ctx.take_findings(line.line, line.statement.lines[-1].number)
    if found:
        rows.append(note_row(findings_box(found, ctx.file.path), "found"))
    return rows


def header_row_between(line: syntax.HeaderLine, ctx: Context) -> list[Html]:
    """A header line that stands between rounds and holds from there on."""
    rows = []
    if is_color(line) or not shown_elsewhere(line):
        rows.append(note_row(f"{clean(line.label)}: {clean(line.value)}"))
    found = ctx.take_findings(line.statement.line, line.statement.lines[-1].number)
    if found:
        rows.append(note_row(findings_box(found, ctx.file.path), "found"))
    return rows

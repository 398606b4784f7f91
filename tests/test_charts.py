"""Charts: every stitch has its symbol and sits on its parent, nothing overlaps, counts are the checked ones."""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from drawn_patterns import HERE, all_pieces, checked
from shapely.geometry import LineString, MultiLineString
from svgpathtools import Line, parse_path

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.counting.in_full import InFull, in_full
from mkdocs_stitchcheck.drawing.chart_pictures import PAPER, STROKES
from mkdocs_stitchcheck.drawing.charts import LEAST_MM, LEAST_ROOM_LEFT, Chart, chart_of
from mkdocs_stitchcheck.drawing.figures import Figure, Shape
from mkdocs_stitchcheck.drawing.folding import folded
from mkdocs_stitchcheck.drawing.grid import grid_of, luminance
from mkdocs_stitchcheck.drawing.layout import Layout
from mkdocs_stitchcheck.drawing.rounds import in_rounds
from mkdocs_stitchcheck.drawing.rows import in_rows
from mkdocs_stitchcheck.drawing.symbols import GAP, Symbol, drawn
from mkdocs_stitchcheck.render.addresses import Addresses
from mkdocs_stitchcheck.render.chart_part import chart_part
from mkdocs_stitchcheck.render.context import Context
from mkdocs_stitchcheck.render.options import PageOptions

BALL = "\n".join([
    "Rnd 1: 6 sc in magic ring (6)", "Rnd 2: inc x 6 (12)",
    *[f"Rnd {n}: ({n - 2} sc, inc) x 6 ({6 * n})" for n in range(3, 11)],
    "Rnds 11-20: sc around (60)",
    *[f"Rnd {30 - n}: ({n - 1} sc, dec) x 6 ({6 * n})" for n in range(9, 1, -1)],
    "Rnd 29: dec x 6 (6)",
])  # fmt: skip
GRANNY = (
    "Rnd 1: ch 4, sl st in first ch to form a ring, ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) x 3, "
    "join with sl st in top of ch-3 (12 dc, 4 ch-2 sps)\n"
    "Rnd 2: sl st in next 2 dc and in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, "
    "*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, join with sl st in top of ch-3 "
    "(24 dc, 4 ch-2 sps, 4 ch-1 sps)"
)
TABS = "Ch 9.\nRow 1: sc in 2nd ch from hook and in each ch across (8)\nRows 2-9: ch 1, turn, sc across (8)\nRow 10: ch 1, turn, dec, sc 6 (7)"
BAND = """\
Color A: red, shown as #b8322a
Color B: white, shown as #fff
# Band (color A)
Rnd 1: 12 sc in magic ring (12)
Rnd 2: (A) 3 sc, (B) 3 sc, (A) 3 sc, (B) 3 sc (12)
Rnd 3: (B) 3 sc, (A) 3 sc, (B) 3 sc, (A) 3 sc (12)"""


def one(text: str) -> InFull:
    (full,) = in_full(checked(text)).values()
    return full


def chart(text: str, **more: str | None) -> Chart:
    return chart_of("Body", one(text), more or {}, list(more))


@cache
def layouts() -> list[tuple[str, InFull, Layout]]:
    found, refused = [], []
    for _pattern, piece, full in all_pieces():
        if full.courses and sum(len(course.items) for course in full.courses) < 5_000:
            parts = folded(full.courses)
            laid = in_rows(parts) if parts[0].course.kind == "row" else in_rounds(parts)[0]
            if min((s.room for s in laid.symbols if s.item.kind == "stitch"), default=9.0) < LEAST_ROOM_LEFT:
                refused.append(piece.name)
                assert "lean too far" in chart_of(piece.name, full, {}).why_not
                continue
            found.append((piece.name, full, laid))
    assert len(refused) <= 4, refused
    return found


def by_course(layout: Layout) -> list[list[Symbol]]:
    last = max(symbol.course for symbol in layout.symbols)
    return [[s for s in layout.symbols if s.course == number] for number in range(last + 1)]


def shapes(figure: Figure) -> list[Shape]:
    def each(one_shape: Shape) -> list[Shape]:
        return [one_shape, *[inner for child in one_shape.children for inner in each(child)]]

    return [inner for top in figure.shapes for inner in each(top)]


# --- every stitch has its symbol and sits on its parent ---------------------------------------------------------------


def test_every_stitch_has_its_symbol_over_all_cases_and_pages() -> None:
    assert len(layouts()) > 400
    for name, full, layout in layouts():
        for number, (symbols, part) in enumerate(zip(by_course(layout), folded(full.courses), strict=True)):
            own = [s for s in symbols if s.item in part.course.items]
            assert len(own) == len(part.course.items), name
            assert sum(s.item.places for s in own) == part.course.count
            assert all(drawn(s).count("M") == 1 for s in symbols), (name, number)


def test_every_stitch_sits_on_its_parent() -> None:
    for name, full, layout in layouts():
        courses = by_course(layout)
        for number, (part, symbols) in enumerate(zip(folded(full.courses), courses, strict=True)):
            if not number:
                continue
            below = folded(full.courses)[number - 1]
            if below.course.kind == "row" and below.note:
                continue  # rows left out lie between
            heads = [s.head for s in courses[number - 1] for _ in range(s.item.places)]
            plain = {k for k, s in enumerate([s for s in courses[number - 1] for _ in range(s.item.places)]) if s.item.kind != "space"}
            heads = heads[::-1] if below.flipped else heads
            for symbol in symbols:
                for parent, foot in zip(symbol.item.parents, symbol.feet, strict=False):
                    at = len(heads) - 1 - parent if below.flipped else parent
                    closing = below.course.count > part.course.count and part.course.kind == "round"
                    if at in plain and not closing and symbol.item.kind == "stitch":
                        assert math.dist(foot, heads[parent]) < 2 * GAP, (name, part.label, symbol.item)


def test_increases_fan_out_and_decreases_close() -> None:
    courses = by_course(in_rounds(folded(one(BALL).courses))[0])
    two = [s for s in courses[1] if s.item.parents == (0,)]
    assert len(two) == 2 and two[0].feet == two[1].feet and math.dist(two[0].head, two[1].head) > 15
    decrease = next(s for s in courses[-1] if len(s.item.parents) == 2)
    assert len(decrease.feet) == 2 and math.dist(*decrease.feet) > 8


def lines_of(symbol: Symbol) -> MultiLineString:
    parts = []
    for piece in parse_path(drawn(symbol)):
        count = 1 if isinstance(piece, Line) else 8
        points = [piece.point(k / count) for k in range(count + 1)]
        if abs(points[0] - points[-1]) > 1e-6 or count > 1:
            parts.append(LineString([(p.real, p.imag) for p in points]))
    return MultiLineString(parts)


def together(one_symbol: Symbol, other: Symbol) -> bool:
    """Whether two stand on one foot by design."""
    a, b = one_symbol.item, other.item
    crossed = any(s.stitch is not None and s.stitch.kind == "group" for s in (a, b))
    return bool(set(a.parents) & set(b.parents)) or a.space is not None and a.space == b.space or crossed


def test_no_two_symbols_of_a_ring_overlap_up_to_sixty_stitches() -> None:
    looked = 0
    for name, full, layout in layouts():
        if full.courses[0].kind == "row" or any("x-st" == (i.stitch and i.stitch.key) for c in full.courses for i in c.items):
            continue
        for symbols in by_course(layout):
            stitches = [s for s in symbols if s.item.kind in ("stitch", "turning")]
            if not 2 < len(stitches) <= 60:
                continue
            drawings = [lines_of(s) for s in stitches]
            near = list(zip(range(len(stitches)), range(1, len(stitches)), strict=False)) + [(len(stitches) - 1, 0)]
            for a, b in near:
                if not together(stitches[a], stitches[b]) and stitches[a].item.parents and stitches[b].item.parents:
                    looked += 1
                    assert not drawings[a].intersects(drawings[b]), (name, symbols[0].course, a, b)
    assert looked > 5_000


def test_heads_of_sixty_stitches_keep_their_distance() -> None:
    for count in (6, 12, 30, 60):
        text = f"Rnd 1: {count} sc in magic ring ({count})\nRnd 2: sc around ({count})"
        for symbols in by_course(in_rounds(folded(one(text).courses))[0]):
            assert min(math.dist(a.head, b.head) for a, b in combinations(symbols, 2)) > 16


# --- what else is on it ------------------------------------------------------------------------------------------------


def test_start_arrow_counts_and_line_weight() -> None:
    found = chart(GRANNY)
    assert found.figure is not None and found.layout is not None
    assert len(found.layout.start) == 3
    assert [letters.text for letters in found.layout.letters] == ["1 · 12", "2 · 24"]
    weights = {value for s in shapes(found.figure) for name, value in s.attributes if name == "stroke-width"}
    assert {str(stroke) for stroke in STROKES} <= weights
    assert len(found.layout.joins) == 2


def test_corners_of_a_square_are_corners() -> None:
    for symbols in by_course(in_rounds(folded(one(GRANNY).courses))[0]):
        middles = [s.middle for s in symbols if s.item.kind == "space" and s.item.length == 2]
        reach = [max(abs(x), abs(y)) for x, y in middles]
        assert len(middles) == 4 and max(reach) - min(reach) < 0.5
        assert all(abs(abs(x) - abs(y)) < 0.5 for x, y in middles)


def test_rows_have_arrows_and_what_is_alike_is_said() -> None:
    layout = chart(TABS).layout
    assert layout is not None
    texts = [letters.text for letters in layout.letters]
    assert texts[:4] == ["1", "(8)", "2", "(8)"] and "Rows 4–9 as rows 2 and 3" in texts and texts[-2:] == ["10", "(7)"]
    starts = {letters.text: letters.x for letters in layout.letters}
    assert starts["1"] > starts["2"] and starts["10"] < 0  # row 1 begins at the right, even rows at the left


def test_plain_tubes_are_folded_and_six_parts_drawn_once() -> None:
    found = chart(BALL)
    assert any("11–20" in note for note in found.notes) and any("6 equal parts" in note for note in found.notes)
    assert found.layout is not None
    for symbols, part in zip(by_course(found.layout), found.drawn, strict=True):
        assert sum(s.item.places for s in symbols) * 6 == part.course.count
    assert found.figure is not None and found.figure.unit_mm * 18 >= LEAST_MM


def test_a_chart_too_small_on_paper_says_so() -> None:
    rounds = "\n".join(f"Rnd {n}: {n - 1} sc, inc, sc around ({n + 5})" for n in range(2, 40))
    found = chart(f"Rnd 1: 6 sc in magic ring (6)\n{rounds}")
    assert found.figure is not None and found.figure.unit_mm * 18 < LEAST_MM
    assert any("words serve better" in note for note in found.notes)


def test_every_chart_is_large_enough_on_paper_or_says_that_words_serve_better() -> None:
    """4 mm a symbol: the size of print that the issue of readers names."""
    small = 0
    for _pattern, piece, full in all_pieces():
        found = chart_of(piece.name, full, {})
        if found.figure is not None:
            said = any("words serve better" in note for note in found.notes)
            assert (found.figure.unit_mm * 18 >= LEAST_MM) is not said, piece.name
            assert found.figure.width * found.figure.unit_mm <= PAPER[0] + 0.5 and found.figure.height * found.figure.unit_mm <= PAPER[1] + 0.5
            small += said
        else:
            assert found.why_not, piece.name
    assert small


@pytest.mark.parametrize("path", sorted((HERE.parent / "site_example" / "docs").rglob("*.md")), ids=lambda path: path.stem)
def test_charts_of_the_site_stand_in_the_page_up_to_30_kb_and_larger_ones_in_files(path: Path) -> None:
    """With a chart of every piece, asked for or not."""
    files: dict[str, str] = {}

    def save(name: str, drawing: str) -> str:
        files[name] = drawing
        return f"{len(files)}.svg"

    result = check_text(path.read_text(encoding="utf-8"), "page.md")
    ctx = Context(result, PageOptions(charts="all", save_drawing=save), Addresses(result))
    pages = [str(chart_part(pattern, ctx) or "") for pattern in result.patterns]
    inline = [drawing for page in pages for drawing in re.findall(r"<svg.*?</svg>", page, re.DOTALL)]
    assert max(map(len, inline), default=0) <= 30_000
    assert all(len(drawing) > 25_000 for drawing in files.values())  # a file has a ground and a title besides
    assert sum(page.count("<img") for page in pages) == len(files)


@pytest.mark.parametrize("text", [BALL, GRANNY, TABS])
def test_mirrored_is_a_mirror(text: str) -> None:
    found = chart(text)
    assert found.figure is not None and found.mirrored is not None
    own, other = found.figure, found.mirrored
    assert other.left == pytest.approx(-(own.left + own.width)) and (other.top, other.width) == (own.top, own.width)
    strokes = [next(s for s in figure.shapes[0].children if s.tag == "g") for figure in (own, other)]
    assert dict(strokes[1].attributes)["transform"] == "scale(-1 1)" and strokes[1].children[0] == strokes[0]
    places = [[(dict(s.attributes)["x"], s.text) for s in shapes(figure) if s.tag == "text"] for figure in (own, other)]
    assert [(-float(x), text) for x, text in places[0]] == [(float(x), text) for x, text in places[1]]


def test_with_an_address_the_mirror_uses_the_same_strokes() -> None:
    found = chart_of("Body", one(GRANNY), {}, [], "square-body-chart")
    assert found.mirrored is not None
    (use,) = [s for s in shapes(found.mirrored) if s.tag == "use"]
    assert dict(use.attributes) == {"href": "#square-body-chart", "transform": "scale(-1 1)"}


def test_alternative_text_tells_what_it_is_and_every_count() -> None:
    words = (chart(BALL).figure or Figure(0, 0, 0, 0, (), "")).words
    assert words.startswith("Symbol chart of Body, 29 rounds, from a ring.")
    assert "round 2: 12" in words and "rounds 10 to 20: 60" in words and words.endswith("round 29: 6.")


def test_colours_are_told_by_marks_and_letters_not_by_colour_alone() -> None:
    found = chart(BAND, A="#b8322a", B="#fff")
    assert found.pads in ((("B", "circle"),), (("A", "circle"),)) and found.letters == ("A",)
    assert found.layout is not None and [l.text for l in found.layout.letters] == ["1 · 12 A", "2 · 12", "3 · 12"]
    grid = grid_of("Band", one(BAND), {"A": "#b8322a", "B": "#fff"}, ["A", "B"])
    assert grid is not None and grid.rows == (("A",) * 3 + ("B",) * 3, ("B",) * 3 + ("A",) * 3) and grid.repeat == 2
    letters = [s.text for s in shapes(grid.plain) if s.tag == "text" and s.text.isalpha()]
    assert letters == ["B"] * 6
    assert not any(s.tag == "rect" for s in shapes(grid.plain))
    assert "Rnd 2: 3 A, 3 B" in grid.figure.words


def test_luminance_is_that_of_the_standard() -> None:
    # WCAG 2.2, relative luminance: white 1, black 0; #777 on white has the published contrast 4.48.
    assert luminance("#fff") == pytest.approx(1) and luminance("#000000") == 0
    assert 1.05 / (luminance("#777") + 0.05) == pytest.approx(4.48, abs=0.01)


def test_what_keeps_a_chart_from_being_drawn_is_said() -> None:
    assert chart_of("Body", InFull([], "Rnd 9: taken on trust"), {}).why_not == "Rnd 9: taken on trust"

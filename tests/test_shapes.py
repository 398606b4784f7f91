"""Shapes: to scale, with their bands, a rule, and marks where the text places something."""

from __future__ import annotations

import math
import re

import pytest
from drawn_patterns import checked
from shapely.geometry import Polygon

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.drawing.figures import Figure, Shape
from mkdocs_stitchcheck.drawing.silhouettes import Mark, rule, scale_for, silhouette
from mkdocs_stitchcheck.estimates.contours import Contour, contours
from mkdocs_stitchcheck.render.addresses import Addresses
from mkdocs_stitchcheck.render.context import Context
from mkdocs_stitchcheck.render.options import PageOptions
from mkdocs_stitchcheck.render.shape_part import shape_part

# 20 sc and 20 rounds in 10 cm: a stitch is half a centimetre wide and high.
HEADER = "Gauge: 20 sc x 20 rnds = 10 cm\nColor A: oat, shown as #b99c76\nColor B: red, shown as #b03a3a\n"
TUBE = "# Tube (color A)\nCh 40, join to form a ring.\nRnds 1-10: sc around (40)\nRnds 11-20: with color B, sc around (40)"
CLOTH = "# Cloth (color A)\nCh 21.\nRow 1: sc in 2nd ch from hook and in each ch across (20)\nRows 2-30: ch 1, turn, sc across (20)"
BALL = (
    "# Head (color A)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
    "Rnd 4: (2 sc, inc) x 6 (24)\nRnds 5-8: sc around (24)\nInsert the eyes between Rnds 6 and 7, 6 sts apart.\n"
    "Rnd 9: (2 sc, dec) x 6 (18)\nRnd 10: (sc, dec) x 6 (12)\nStuff firmly.\nRnd 11: dec x 6 (6)\nFasten off and close the hole."
)


def one(text: str) -> Contour:
    (contour,) = contours(checked(HEADER + text))
    return contour


def shapes(figure: Figure) -> list[Shape]:
    def each(shape: Shape) -> list[Shape]:
        return [shape, *[inner for child in shape.children for inner in each(child)]]

    return [inner for top in figure.shapes for inner in each(top)]


def test_a_tube_is_as_wide_as_its_girth_over_pi_and_as_tall_as_its_rounds() -> None:
    tube = one(TUBE)
    assert tube.width == pytest.approx(20 / math.pi) and tube.height == pytest.approx(10, rel=0.05)
    assert [(band.color, round(band.low), round(band.high)) for band in tube.bands] == [("A", 0, 5), ("B", 5, 10)]


def test_a_cloth_is_a_rectangle_of_its_size_with_its_measure() -> None:
    cloth = one(CLOTH)
    assert cloth.flat and (cloth.width, cloth.height) == pytest.approx((10, 15))
    assert Polygon(cloth.points).area == pytest.approx(150)
    assert "10 cm" in [s.text for s in shapes(silhouette(cloth, 10, {}))]


def test_a_ball_is_symmetric_and_its_contour_is_sound() -> None:
    ball = one(BALL)
    polygon = Polygon(ball.points)
    assert polygon.is_valid and polygon.centroid.x == pytest.approx(0, abs=1e-9)
    assert ball.width == pytest.approx(12 / math.pi, rel=0.02)
    assert polygon.area > 0.7 * ball.width * ball.height


def test_every_round_has_its_place_in_order() -> None:
    ball = one(BALL)
    assert [number for number, *_rest in ball.rounds] == list(range(1, 12))
    edges = [(low, high) for _n, low, high, _count in ball.rounds]
    assert all(low <= high for low, high in edges) and edges == sorted(edges)
    assert edges[0][0] == 0 and edges[-1][1] == pytest.approx(ball.height)


def test_one_scale_and_a_rule_to_it() -> None:
    both = [one(TUBE), one(CLOTH)]
    scale = scale_for(both)
    widths = [silhouette(contour, scale, {}).width for contour in both]
    assert max(widths) < 300 and scale == pytest.approx(min(250 / 10, 300 / 15, 60))
    length = next(dict(s.attributes)["d"] for s in rule(scale).shapes if s.tag == "path")
    drawn, said = float(re.match(r"M0 0h([\d.]+)", length)[1]), int(re.search(r"\d+", rule(scale).words)[0])  # type: ignore[index]
    assert drawn == pytest.approx(said * scale, abs=0.1)


def test_eyes_stand_where_the_text_places_them() -> None:
    pattern = checked(HEADER + BALL)
    (ball,) = contours(pattern)
    low, high, count = ball.where(6, 7)  # type: ignore[misc]
    figure = silhouette(ball, 10, {}, [Mark(1, low, high, apart=360 * 6 / count)])
    eyes = next(dict(s.attributes)["d"] for s in shapes(figure) if dict(s.attributes).get("stroke-width") == "9")
    (x1, y1), (x2, y2) = re.findall(r"M(-?[\d.]+) (-?[\d.]+)h0", eyes)
    assert float(x1) == -float(x2) and y1 == y2
    # Six stitches of 24 are a quarter of the way around: each eye stands 45 degrees from the front.
    assert float(x2) == pytest.approx(10 * ball.half_at((low + high) / 2) * math.sin(math.pi / 4), abs=0.1)
    assert float(y2) == pytest.approx(-10 * (low + high) / 2, abs=0.1)


SQUARE = (
    "# Square (color A)\nRnd 1: ch 4, sl st in first ch to form a ring, ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) x 3, "
    "join with sl st in top of ch-3 (12 dc, 4 ch-2 sps)\nChange to color B.\n"
    "Rnd 2: sl st in next 2 dc and in next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, "
    "*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, join with sl st in top of ch-3 "
    "(24 dc, 4 ch-2 sps, 4 ch-1 sps)"
)


def with_corners(number: int) -> str:
    """The square's two rounds with another number of corners."""
    text = SQUARE.replace("2 dc in ring, ch 2, (3 dc in ring, ch 2) x 3", f"2 dc in ring, ch 2, (3 dc in ring, ch 2) x {number - 1}")
    text = text.replace("rep from * 2 more times", f"rep from * {number - 2} more times")
    counts = f"({3 * number} dc, {number} ch-2 sps)", f"({6 * number} dc, {number} ch-2 sps, {number} ch-1 sps)"
    return text.replace("(12 dc, 4 ch-2 sps)", counts[0]).replace("(24 dc, 4 ch-2 sps, 4 ch-1 sps)", counts[1])


@pytest.mark.parametrize("number", [3, 4, 5, 6, 8])
def test_a_motif_is_an_equal_sided_polygon_as_long_around_as_its_stitches_and_chains(number: int) -> None:
    """Area and perimeter against the regular polygon's of geometry: n s, and n s^2 / (4 tan(pi / n)); by shapely."""
    contour = one(with_corners(number))
    polygon = Polygon(contour.points)
    side = (6 + 2 + 1) / 2  # six dc, a ch-2 and a ch-1 space, each stitch and chain half a centimetre
    assert polygon.length == pytest.approx(number * side)
    assert polygon.area == pytest.approx(number * side**2 / (4 * math.tan(math.pi / number)))
    assert contour.size is not None and contour.size.width == pytest.approx(contour.width)
    assert contour.size.depth == pytest.approx(contour.height)
    assert contour.middle == pytest.approx(polygon.centroid.y)


def test_a_motif_s_colours_lie_one_within_the_other() -> None:
    contour = one(SQUARE)
    assert contour.rings == (("B", 1.0), ("A", (12 + 8) / (24 + 8 + 4)))
    drawn = [dict(s.attributes) for s in shapes(silhouette(contour, 10, {"A": "#b99c76", "B": "#b03a3a"})) if s.tag == "path"]
    assert [one["fill"] for one in drawn] == ["#b03a3a", "#b99c76", "none"]
    letters = [s.text for s in shapes(silhouette(contour, 40, {})) if s.tag == "text"]
    assert letters == ["B", "A"]
    assert "Seen from above, flat: Square." in page(HEADER + SQUARE) and "begins below" not in page(HEADER + SQUARE)


def test_an_open_round_without_corners_is_a_circle_with_its_chains() -> None:
    text = ("# Mat (color A)\nRnd 1: ch 3 (counts as dc), 11 dc in magic ring, join (12)\n"
            "Rnd 2: ch 4 (counts as dc and ch 1), (dc in next st, ch 1) x 11, join (12 dc, 12 ch-1 sps)")
    mat = one(text)
    assert mat.width == pytest.approx(24 / 2 / math.pi) and Polygon(mat.points).area == pytest.approx(math.pi * (mat.width / 2) ** 2, rel=0.01)


def test_lace_whose_way_around_goes_up_and_down_lies_flat_all_the_same_and_a_net_in_the_round_does_not() -> None:
    lace = ("# Doily (color A)\nRnd 1: ch 3 (counts as dc), 23 dc in magic ring, join (24)\n"
            "Rnd 2: ch 1, *sc in next st, ch 5, skip next st; rep from * around, join (12 sc, 12 ch-5 loops)\n"
            "Rnd 3: ch 1, *sc in next loop, ch 4; rep from * around, join (12 sc, 12 ch-4 loops)")
    doily = one(lace)
    assert doily.size is not None and doily.size.shape == "disc" and doily.width == pytest.approx((12 + 48) / 2 / math.pi)
    net = one("# Bag (color A)\nCh 40, join to form a ring.\n"
              "Rnds 1-12: ch 1, *sc in next st, ch 1, skip next st; rep from * around, join (20 sc, 20 ch-1 sps)")
    assert net.size is not None and net.size.shape == "round" and not net.rings


YOKE = "# Yoke (color A)\nCh 40, join to form a ring.\nRnds 1-4: sc around (40)\nRnd 5: (sc, inc) x 20 (60)\nRnds 6-9: sc around (60)"


@pytest.mark.parametrize(("said", "above"), [
    ("Notes: worked from the neck down", True), ("Notes: worked top-down in one piece", True), ("Notes: crown down", True),
    ("Notes: worked downwards", True), ("Notes: worked bottom up, not top down", False), ("Notes: put it down when you like", False),
    ("Notes: sit on top, downstairs", False),
])  # fmt: skip
def test_a_piece_worked_downwards_is_shown_as_it_is_worn(said: str, above: bool) -> None:
    contour = one(f"{said}\n{YOKE}")
    below, top = contour.half_at(0), contour.half_at(contour.height)
    assert contour.from_above is above and (below > top) is above
    number, low, high, _count = contour.rounds[0]
    assert number == 1 and (low > contour.height / 2) is above and low < high
    html = page(f"{HEADER}{said}\n{YOKE}")
    assert ("Worked downwards, from above: Yoke." in html) is above and ("each piece begins below" in html) is not above


def test_only_the_piece_whose_own_note_says_so_is_turned() -> None:
    down, up = contours(checked(HEADER + YOKE + "\n> Worked from the neck down.\n\n" + TUBE))
    assert down.from_above and not up.from_above


def page(text: str, paper: bool = False) -> str:
    file = check_text(f"```crochet\n{text}\n```\n", "page.md")
    ctx = Context(file, PageOptions(), Addresses(file), print=paper)
    return (shape_part(file.patterns[0], ctx) or "").__str__()


def test_on_the_page_with_words_and_on_paper_without_fills() -> None:
    html = page(HEADER + BALL)
    assert 'aria-label="Shape of Head: ' in html and 'aria-label="A rule of' in html
    assert "1: Insert the eyes between Rnds 6 and 7, 6 sts apart." in html
    assert 'fill="#b99c76"' in html and "#b99c76" not in page(HEADER + BALL, paper=True)


def test_without_a_gauge_there_is_no_shape() -> None:
    assert page(BALL) == ""


def test_hostile_names_and_colours_stay_text() -> None:
    text = 'Gauge: 20 sc x 20 rnds = 10 cm\nColor A: "><script>x</script>, shown as url(#x)\n# <img onerror=1> (color A)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)'
    html = page(text)
    assert "<script" not in html and "<img" not in html and "url(" not in html

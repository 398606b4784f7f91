"""Sizes, volumes and flatness against geometry, general-purpose libraries and published experiments."""

from __future__ import annotations

import math
from itertools import groupby, pairwise

import numpy as np
import pytest
import trimesh
from shapely.geometry import Polygon

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.estimates.fabric import flat_gain
from mkdocs_stitchcheck.estimates.gauging import NEEDS_ROWS, NEEDS_WIDTH
from mkdocs_stitchcheck.estimates.outline import Row, outline
from mkdocs_stitchcheck.estimates.profile import Profile, Stretch, is_ideal_ball, profile
from mkdocs_stitchcheck.estimates.size import PieceSize, size_table
from mkdocs_stitchcheck.estimates.stuffing import stuffing
from mkdocs_stitchcheck.findings import Finding
from mkdocs_stitchcheck.language.vocabulary import stitches

# *The Ideal Crochet Sphere* (2010), sampled at the middle of each round: s_k = round(2n sin((k - 1/2) pi / n)).
IDEAL = {
    8: (3, 9, 13, 16, 16, 13, 9, 3),
    10: (3, 9, 14, 18, 20, 20, 18, 14, 9, 3),
    12: (3, 9, 15, 19, 22, 24, 24, 22, 19, 15, 9, 3),
    16: (3, 9, 15, 20, 25, 28, 31, 32, 32, 31, 28, 25, 20, 15, 9, 3),
}


def stretches(counts: tuple[int, ...] | list[int], height: float, flat: float) -> list[Stretch]:
    return [Stretch(count, height, len(list(group)), flat) for count, group in groupby(counts)]


def classic(rounds: int) -> list[int]:
    """A classic ball: so many increase rounds, as many even ones, and down to six."""
    up = [6 * r for r in range(1, rounds + 1)]
    return up + [6 * rounds] * rounds + up[-2::-1]


def shaped(counts: list[int] | tuple[int, ...]) -> str:
    """The rounds that make these counts, from a ring to a hole drawn shut."""
    lines = [f"Rnd 1: {counts[0]} sc in magic ring ({counts[0]})"]
    for number, (before, after) in enumerate(pairwise(counts), 2):
        change = after - before
        if change > 0:
            words = f"inc x {change}, sc {before - change}" if before > change else f"inc x {change}"
            if change > before:  # a first round of 3 that becomes 9: three in each
                words = f"{after // before} sc in each st around"
        elif change < 0:
            words = f"dec x {-change}, sc {before + 2 * change}" if before + 2 * change > 0 else f"dec x {-change}"
            if before + 2 * change < 0:
                words = f"sc3tog x {after}"
        else:
            words = "sc around"
        lines.append(f"Rnd {number}: {words} ({after})")
    return "\n".join([*lines, "Stuff firmly.", "Fasten off and close the hole."])


def sizes(text: str) -> list[PieceSize]:
    return list(size_table(check_text(text, "p.txt").patterns[0]).pieces)


def one(text: str) -> PieceSize:
    (size,) = sizes(text)
    return size


# --- in the round -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("n", IDEAL)
def test_ideal_balls_are_spherical(n: int) -> None:
    """Square stitches: every point lies within 3 % of one radius, and it is as tall as wide within 3 %."""
    assert IDEAL[n] == tuple(round(2 * n * math.sin((k - 0.5) * math.pi / n)) for k in range(1, n + 1))
    found = profile(stretches(IDEAL[n], 1, 2 * math.pi), 1, closed=True, geometric=True)
    radii = [math.hypot(s.radius, s.z - found.length / 2) for s in found.stations]
    middle = (max(radii) + min(radii)) / 2
    assert max(abs(radius - middle) for radius in radii) < 0.03 * middle
    assert found.length == pytest.approx(2 * found.widest.radius, rel=0.03)
    assert found.volume == pytest.approx(4 / 3 * math.pi * (n / math.pi) ** 3, rel=0.04)


@pytest.mark.parametrize("n", IDEAL)
def test_an_ideal_ball_in_a_pattern(n: int) -> None:
    size = one(f"Gauge: 20 sc x 20 rnds = 10 cm\n# Ball\n{shaped(IDEAL[n])}")
    assert size.length is not None and size.width is not None
    assert size.length == pytest.approx(size.width, rel=0.03) and size.width == pytest.approx(max(IDEAL[n]) * 0.5 / math.pi)


@pytest.mark.parametrize(("rounds", "ratio"), [(4, 0.93), (6, 0.95), (8, 0.96)])
def test_classic_balls(rounds: int, ratio: float) -> None:
    """As tall as wide at 26 x 28 in 10 cm: derived from F = 7 of the shaping experiment."""
    size = one(f"Gauge: 26 sc x 28 rnds = 10 cm\n# Ball\n{shaped(classic(rounds))}")
    assert size.shape == "round" and size.length is not None and size.width is not None
    assert size.length / size.width == pytest.approx(ratio, abs=0.01)
    assert not is_ideal_ball(classic(rounds), 26 / 28)


@pytest.mark.parametrize(("k", "degrees"), [(1, 18), (2, 37), (3, 57), (4, 79), (5, 106), (6, 146)])
def test_cones(k: int, degrees: int) -> None:
    """Apex angle 2 asin(k / 2 pi) on square stitches: derived by geometry; whole degrees as tables print them."""
    found = profile([Stretch(k * r, 1, 1, 2 * math.pi) for r in range(1, 9)], 1)
    low, high = found.stations[2], found.stations[6]
    angle = math.degrees(2 * math.atan2(high.radius - low.radius, high.z - low.z))
    assert angle == pytest.approx(math.degrees(2 * math.asin(k / (2 * math.pi))))
    assert angle == pytest.approx(degrees, abs=1)


def test_a_cylinder_is_as_wide_as_its_stitches() -> None:
    """Diameter = stitches x width / pi; height = rounds x row height (geometry)."""
    text = "Gauge: 20 sc x 25 rnds = 10 cm\n# Tube\nCh 40, join with sl st to form a ring.\nRnd 1: sc in each ch around (40)\nRnds 2-25: sc around (40)"
    size = one(text)
    assert (size.width, size.length) == (pytest.approx(40 * 0.5 / math.pi), pytest.approx(10.0))
    assert size.volume == pytest.approx(math.pi * (40 * 0.5 / math.pi / 2) ** 2 * 10)


def mesh_volume(found: Profile) -> float:
    """The volume by trimesh, which sums signed tetrahedra of a turned mesh."""
    line = np.array([(s.radius, s.z) for s in found.stations])
    if line[-1][0] > 0:
        line = np.vstack([line, (0.0, line[-1][1])])
    if line[0][0] > 0:
        line = np.vstack([(0.0, line[0][1]), line])
    return float(abs(trimesh.creation.revolve(line, sections=720).volume))


@pytest.mark.parametrize("counts", [classic(6), list(IDEAL[12]), [6, 12, 18, 24, 24, 24, 18], [4, 6, 8, 10, 12, 14]])
def test_volumes_against_trimesh(counts: list[int]) -> None:
    for closed in (True, False):
        found = profile(stretches(counts, 0.357, 7), 0.385, closed=closed)
        assert found.volume == pytest.approx(mesh_volume(found), rel=0.002)


def test_the_cut_of_an_oval_against_shapely() -> None:
    """A straight line widened by a radius: area and girth of shapely's buffer."""
    found = profile([Stretch(32, 0.5), Stretch(38, 0.5), Stretch(44, 0.5)], 0.55, straight=14 * 0.55)
    for station in found.stations[1:]:
        ring = Polygon([(0, 0), (station.sides, 0), (station.sides, 1e-9), (0, 1e-9)]).buffer(station.radius, quad_segs=90)
        assert station.area == pytest.approx(ring.area, rel=1e-3) and station.girth == pytest.approx(ring.length, rel=1e-3)


def test_an_oval_and_a_circle_that_lie_flat() -> None:
    oval = "Ch 5.\nRnd 1: sc in 2nd ch from hook, sc 2, 3 sc in last ch; on other side of ch: sc 2, inc in last (10)\nRnd 2: inc, sc 2, inc x 3, sc 2, inc x 2 (16)"
    size = one(f"Gauge: 25 sc x 25 rnds = 10 cm\n# Patch\n{oval}")
    # 16 stitches of 4 mm around a line of 3 stitches: 2 x 12 mm and a circle of 40 mm, 12.7 mm across.
    assert (size.shape, size.width, size.depth) == ("flat oval", pytest.approx(2.473, abs=0.01), pytest.approx(1.273, abs=0.01))
    circle = one("Gauge: 20 sc x 20 rnds = 10 cm\n# Mat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)")
    assert circle.shape == "disc" and circle.length is None and circle.width == pytest.approx(18 * 0.5 / math.pi)


def test_flattened_work_is_half_as_wide_as_around() -> None:
    size = one("Gauge: 20 sc x 20 rnds = 10 cm\n# Ear\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnds 3-8: sc around (12)\n"
               "Do not stuff. Flatten and sc across through both layers (6)")
    assert (size.shape, size.width, size.volume) == ("pressed", pytest.approx(3.0), None)


# --- in rows ----------------------------------------------------------------------------------------------------------

ROWS = {
    "a triangle": ("Ch 2.\nRow 1: 3 sc in 2nd ch from hook (3)\n"
                   + "\n".join(f"Row {r}: ch 1, turn, inc, sc {2 * r - 3}, inc ({2 * r + 1})" for r in range(2, 7)), 13),
    "a leaning strip": (("Ch 9.\nRow 1: sc in 2nd ch from hook and in each ch across (8)\n"
                        "Row 2: ch 1, turn, dec, sc in next 5 sts, inc (8)\nRow 3: ch 1, turn, inc, sc in next 5 sts, dec (8)"), 10),
    "one slanted edge": (("Ch 9.\nRow 1: sc in 2nd ch from hook and in each ch across (8)\n"
                         "Row 2: ch 1, turn, dec, sc 6 (7)\nRow 3: ch 1, turn, sc 5, dec (6)"), 8),
}


@pytest.mark.parametrize("name", ROWS)
def test_shaping_at_both_edges(name: str) -> None:
    """The widest extent, counted by hand on squared paper: each stitch a square of 5 mm."""
    text, wide = ROWS[name]
    size = one(f"Gauge: 20 sc x 20 rows = 10 cm\n# Piece\n{text}")
    assert size.shape == "flat" and size.width == pytest.approx(wide * 0.5)
    assert size.length == pytest.approx(0.5 * text.count("Row "))


@pytest.mark.parametrize(
    "rows",
    [[Row(10, 1), Row(8, 1, 1, -1, -1), Row(6, 1, 1, -2, 0)], [Row(10, 0.5, 4), Row(10, 0.5, 3, 1, -1), Row(4, 2, 1, 0, -6)],
     [Row(1, 1), Row(3, 1), Row(7, 1, 2)]],
)
def test_areas_against_shapely(rows: list[Row]) -> None:
    found = outline(rows, 0.4)
    polygon = Polygon(found.corners)
    low_x, low_y, high_x, high_y = polygon.bounds
    assert found.area == pytest.approx(polygon.area)
    assert (found.width, found.height) == (pytest.approx(high_x - low_x), pytest.approx(high_y - low_y))


def test_hyperbolic_growth() -> None:
    """From 20 at 5/4: 20, 25, 31, 38, 47, 58, 72 (class notes on hyperbolic crochet, ratio 5/4); the rows add up."""
    counts = [20, 25, 31, 38, 47, 58, 72]
    lines = ["Ch 21.", "Row 1: sc in 2nd ch from hook and in each ch across (20)"]
    for number, (before, after) in enumerate(pairwise(counts), 2):
        gain = after - before
        assert after == before * 5 // 4
        lines.append(f"Row {number}: ch 1, turn, (sc 3, inc) x {gain}, sc in each st to end ({after})")
    result = check_text("Gauge: 20 sc x 20 rows = 10 cm\n# Plane\n" + "\n".join(lines), "p.txt")
    assert not result.fails()
    (size,) = size_table(result.patterns[0]).pieces
    steps = [(a + b) / 2 for a, b in zip([20, *counts], counts, strict=False)]
    assert size.area == pytest.approx(sum(steps) * 0.5 * 0.5) and size.width == pytest.approx(36.0)


def test_taller_rows_are_taller() -> None:
    cloth = "Gauge: 20 sc x 20 rows = 10 cm\n# Cloth\nCh 22.\nRow 1: dc in 4th ch from hook and in each ch across (20)\nRow 2: ch 3 (counts as dc), turn, dc in each st across (20)"
    assert one(cloth).length == pytest.approx(2 * 2 * 0.5)  # dc is about twice as high as sc: common practice, no source
    pebbles = "Gauge: 16 sts x 15 rows = 10 cm\n# Cloth\nCh 17.\nRow 1: sc in 2nd ch from hook and in each ch across (16)\nRow 2: ch 1, turn, (sc, dc) x 8 (16)"
    assert one(pebbles).length == pytest.approx(2 / 1.5, rel=0.01)  # counted in its own fabric: 15 rows are 10 cm


# --- what is missing ----------------------------------------------------------------------------------------------------

BALL = "# Ball\n" + shaped(classic(4))


def test_what_is_missing_is_said_and_holds_no_number() -> None:
    none = size_table(check_text(BALL, "p.txt").patterns[0])
    assert not none.pieces and none.missing == (NEEDS_WIDTH,)
    no_rows = size_table(check_text(f"Gauge: 20 sc = 10 cm\n{BALL}", "p.txt").patterns[0])
    assert no_rows.missing == (NEEDS_ROWS,)
    (size,) = no_rows.pieces
    assert size.length is None and size.volume is None and size.width == pytest.approx(24 * 0.5 / math.pi)
    trust = one("Gauge: 20 sc x 20 rnds = 10 cm\n# Ball\nRnd 1: 6 sc in magic ring (6)\nRnd 2: sc around until it measures 5 cm from underarm")
    assert not trust.known and "Rnd 2" in trust.missing[0]
    only_rows = check_text(f"Gauge: 28 rnds = 10 cm\n{BALL}", "p.txt").patterns[0]
    assert size_table(only_rows).missing == (NEEDS_WIDTH,)


# --- stuffing -----------------------------------------------------------------------------------------------------------


def test_stuffing_of_a_litre() -> None:
    """20, 35 and 50 g a litre: common practice, no source."""
    result = check_text(f"Gauge: 5 sc x 5 rnds = 10 cm\n{BALL.replace('# Ball', '# Ball (make 3)')}", "p.txt").patterns[0]
    (found,) = stuffing(result)
    (size,) = size_table(result).pieces
    assert size.volume is not None and found.litres == pytest.approx(3 * size.volume / 1000) and found.asked == "firm"
    assert found.grams["medium"] == pytest.approx(35 * found.litres) and found.grams["firm"] / found.grams["loose"] == pytest.approx(2.5)
    assert stuffing(check_text(f"Gauge: 5 sc x 5 rnds = 10 cm\n{BALL}".replace("Stuff firmly.", "Do not stuff."), "p.txt").patterns[0]) == ()


# --- flat rounds --------------------------------------------------------------------------------------------------------


def rounds_of(gain: int, number: int = 6) -> str:
    counts = [gain * r for r in range(1, number + 1)]
    lines = [f"Rnd 1: {gain} sc in magic ring ({gain})"]
    lines += [f"Rnd {r}: inc x {gain}, sc {gain * (r - 2)} ({count})" if r > 2 else f"Rnd {r}: inc x {gain} ({count})"
              for r, count in enumerate(counts, 1) if r > 1]
    return "\n".join(lines)


def infos(text: str) -> list[str]:
    return [one.rule for one in check_text(text, "p.txt").findings if one.rule in ("ruffles", "cups")]


@pytest.mark.parametrize(
    ("gain", "rules"),
    # *Single Crochet Shaping 1*: 1 to 4 give a cone, 5 cups, 6 cups slightly, 7 and 8 flat, 9 crowded, 10 ruffles.
    [(3, ["cups"]), (4, ["cups"]), (5, ["cups"]), (6, []), (7, []), (8, []), (9, ["ruffles"]), (10, ["ruffles"])],
)
def test_the_shaping_experiment(gain: int, rules: list[str]) -> None:
    assert infos(f"# Mat\n> It lies flat.\n{rounds_of(gain)}") == rules
    assert infos(f"# Mat\n{rounds_of(gain)}") == []  # nothing says flat


@pytest.mark.parametrize(("key", "low", "high"), [("sc", 6, 8), ("hdc", 7, 10), ("dc", 12, 12), ("tr", 15, 18)])
def test_the_gains_that_designers_use_lie_flat(key: str, low: int, high: int) -> None:
    """Increases a round in published flat circles: sc 6 to 8, hdc 7 to 10, dc 12, tr 15 to 18 (tr from memory)."""
    flat = flat_gain(stitches()[key])
    assert 0.8 * flat <= low <= high <= 1.25 * flat


@pytest.mark.parametrize("said", ["It does not lie flat.", "Sew it flat.", "Press flat."])
def test_other_words_with_flat(said: str) -> None:
    assert infos(f"# Mat\n> {said}\n{rounds_of(3)}") == []


# --- finished size ------------------------------------------------------------------------------------------------------

BODY = f"Gauge: 26 sc x 28 rnds = 10 cm\nFinished size: {{}}\n# Body\n{shaped([6, 12, 18, 24, 24, 24, 24, 24, 24, 24, 24, 24, 24, 18, 12, 6])}\n"
HEAD = f"# Head\n{shaped(classic(4))}\n# Ear (make 2)\nRnd 1: 5 sc in magic ring (5)\nRnds 2-4: sc around (5)\n"


def advice(text: str) -> list[Finding]:
    return [one for one in check_text(text, "p.txt").findings if one.rule == "finished-size"]


@pytest.mark.parametrize(
    ("said", "reported"),
    # 9 even rounds of 3.57 mm and 7 that change: 3.21 + 1.29 = 4.5 cm tall, 24 sts of 3.85 mm: 2.9 cm across.
    [("4.5 cm tall", False), ("5.5 cm tall", False), ("6 cm tall", True), ("3 cm tall", True), ("3 cm across", False), ("6 cm across", True),
     ("1.8 in tall", False), ("3 in tall", True), ("4-5 cm tall", False), ("about 9 cm around", False), ("20 cm around", True), ("tiny", False),
     ("not known yet", False)],
)
def test_finished_sizes(said: str, reported: bool) -> None:
    assert bool(advice(BODY.format(said))) is reported


def test_pieces_may_stand_on_each_other() -> None:
    assert not advice(BODY.format("7 cm tall") + HEAD)
    assert not advice(BODY.format("7 cm tall, without ears") + HEAD)
    (found,) = advice(BODY.format("20 cm tall") + HEAD)
    assert found.severity == "advice" and found.span.line == 2 and "3 to 7 cm" in found.message


def test_each_size_by_itself() -> None:
    text = ("Sizes: S (M)\nGauge: 20 sc x 20 rows = 10 cm\nFinished size: 10 ({}) cm wide\n# Scarf\nCh 21 (41).\n"
            "Row 1: sc in 2nd ch from hook and in each ch across (20, 40)\nRows 2-40: ch 1, turn, sc in each st across (20, 40)")
    result = check_text(text.format(20), "p.txt")
    widths = [size.width for size in size_table(result.patterns[0]).pieces]
    assert widths == [pytest.approx(10.0), pytest.approx(20.0)] and not advice(text.format(20))
    (found,) = advice(text.format(60))
    assert "size M, not 60 cm wide" in found.message


def test_inches_are_answered_in_inches() -> None:
    (found,) = advice(BODY.format("4 in tall"))
    assert "about 2 in" in found.message and "cm" not in found.message


def test_huge_numbers_are_quick_and_finite() -> None:
    text = ("Gauge: 20 sc x 20 rows = 10 cm\nFinished size: 8 cm wide\n# Strip\nCh 9.\nRow 1: sc in 2nd ch from hook and in each ch across (8)\n"
            "Rows 2-900000: ch 1, turn, dec, sc in next 5 sts, inc (8)\n")
    (size,) = sizes(text)
    assert size.length == pytest.approx(450_000) and size.width is not None and size.width < 10

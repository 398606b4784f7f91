"""What yarn estimates rest on: scales, swatches, gauge, category; time, level, another yarn, on the page and as a command."""

from __future__ import annotations

import random
import re
from pathlib import Path

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mkdocs_stitchcheck import check_text, estimate, in_another_yarn
from mkdocs_stitchcheck.estimates.basis import CATEGORY_ERROR, GAUGE_ERROR, HAND_ERROR, WEIGHED_ERROR
from mkdocs_stitchcheck.estimates.effort import Effort, effort, time_text
from mkdocs_stitchcheck.estimates.least_squares import solve
from mkdocs_stitchcheck.estimates.level import project_level
from mkdocs_stitchcheck.estimates.yarn import NEEDS_GAUGE, NEEDS_PUT_UP, yarn_table
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.hosts.commandline import main
from mkdocs_stitchcheck.language.quantities import PutUp
from mkdocs_stitchcheck.render.page import render_block
from mkdocs_stitchcheck.results import PatternResult
from mkdocs_stitchcheck.source import Source

UNITS = pint.UnitRegistry()
CLOTH = """# Cloth (color A)
Ch 61.
Row 1: sc in 2nd ch from hook and in each ch across (60)
Rows 2-60: ch 1, turn, sc in each st across (60)
Fasten off.
# Border (color B)
Ch 61.
Row 1: dc in 3rd ch from hook and in each ch across (59)
Rows 2-30: ch 2 (does not count as a st), turn, dc in each st across (59)
Fasten off.
"""
HEADER = "Terms: US\nYarn: light (3), 50 g = 125 m\nColor A: slate\nColor B: cream\nGauge: 25 sc x 28 rows = 10 cm\n"


def read(text: str) -> PatternResult:
    return check_text(text, "p.txt").patterns[0]


def rules(text: str) -> list[tuple[str, str]]:
    return [(one.rule, str(one.severity)) for one in check_text(text, "p.txt").findings]


# --- least squares ------------------------------------------------------------------------------------------------------


@given(st.integers(1, 4), st.integers(0, 12), st.integers(0, 10_000))
def test_least_squares_against_numpy(unknowns: int, more: int, seed: int) -> None:
    """numpy.linalg.lstsq on the rows times the root of their weights."""
    generator = np.random.default_rng(seed)
    rows = generator.uniform(0.5, 30, (unknowns + more, unknowns)) + 20 * np.eye(unknowns + more, unknowns)
    values, weights = generator.uniform(1, 60, unknowns + more), generator.uniform(0.1, 4, unknowns + more)
    found = solve(rows.tolist(), values.tolist(), weights.tolist())
    root = np.sqrt(weights)
    wanted = np.linalg.lstsq(rows * root[:, None], values * root, rcond=None)[0]
    if found is not None:
        assert found == pytest.approx(wanted.tolist(), rel=1e-5, abs=1e-6)
    else:
        assert np.linalg.cond(rows * root[:, None]) > 20


def test_rows_that_say_the_same_determine_nothing() -> None:
    assert solve([[1, 2], [2, 4], [3, 6]], [1, 2, 3]) is None and solve([[1, 2]], [1]) is None and solve([], []) is None
    with pytest.raises(ValueError, match="as many"):
        solve([[1]], [1, 2])


# --- weighed --------------------------------------------------------------------------------------------------------------


def planted(low: float, tall: float) -> tuple[float, float]:
    """Grams of cloth and border where low stitches take so much of the published length, and tall ones so much."""
    cloth, border = 0.004 * (3600 * 10.6 + 120 * 5), 0.004 * (1770 * 20.4)
    chains = 0.004 * (61 + 58) * 5
    return 0.4 * (low * cloth + 0.3), 0.4 * (tall * border + low * chains + 0.3)


@pytest.mark.parametrize("seed", range(6))
def test_planted_factors_are_found_again(seed: int) -> None:
    """Five makers with scales that are 2 % off: the factors come back within 4 %. Invented, to test the solver."""
    noise = random.Random(seed)
    cloth, border = planted(0.90, 1.15)
    weighed = "".join(f"Weighed (tester {n}): A {cloth * noise.gauss(1, 0.02):.1f} g, B {border * noise.gauss(1, 0.02):.1f} g\n" for n in range(5))
    table = yarn_table(read(HEADER + weighed + CLOTH))
    assert table.weighing is not None and table.weighing.makers == 5
    assert table.weighing.factors[(0, "low")] == pytest.approx(0.90, rel=0.04)
    assert table.weighing.factors[(0, "tall")] == pytest.approx(1.15, rel=0.04)
    assert table.weighing.spread < 0.05 and table.weighing.residual < 0.05
    assert [color.basis for color in table.colors] == ["weighed", "weighed"]
    assert table.colors[0].grams == pytest.approx(cloth, rel=0.03) and table.colors[0].weight_error == pytest.approx(WEIGHED_ERROR, abs=0.01)


def test_the_whole_and_pieces_may_be_weighed() -> None:
    cloth, border = planted(0.9, 0.9)
    whole = yarn_table(read(HEADER + f"Weighed: {cloth + border:.2f} g\n" + CLOTH))
    assert whole.grams == pytest.approx(cloth + border, rel=0.01) and "from weights" in whole.basis
    piece = yarn_table(read(HEADER + f"Weighed: Cloth {cloth:.2f} g\n" + CLOTH))
    assert piece.colors[0].grams == pytest.approx(cloth, rel=0.01)
    assert piece.colors[1].basis == "from weights of this yarn"


def test_a_colour_without_a_weight_falls_back_openly() -> None:
    """In a yarn of its own by the gauge; in the yarn that was weighed by that yarn."""
    apart = HEADER.replace("Color B", "Yarn: medium (4), 100 g = 180 m\nColor B")
    a, b = yarn_table(read(apart + "Weighed: A 60 g\n" + CLOTH)).colors
    assert (a.basis, a.weight_error) == ("weighed", WEIGHED_ERROR) and (b.basis, b.error) == ("from the gauge", GAUGE_ERROR)
    a, b = yarn_table(read(HEADER + "Weighed: A 60 g\n" + CLOTH)).colors
    assert a.basis == "weighed" and b.basis == "from weights of this yarn" and WEIGHED_ERROR < b.error < GAUGE_ERROR


def test_weights_without_a_put_up_and_a_put_up_without_a_gauge() -> None:
    grams = yarn_table(read(HEADER.replace("light (3), 50 g = 125 m", "any cotton") + "Weighed: A 60 g, B 70 g\n" + CLOTH))
    assert grams.colors[0].grams == pytest.approx(60) and grams.colors[0].balls is None and grams.colors[0].error == GAUGE_ERROR
    lengths = yarn_table(read(HEADER.replace("Gauge: 25 sc x 28 rows = 10 cm\n", "") + "Weighed: A 60 g, B 70 g\n" + CLOTH))
    assert lengths.colors[0].metres == pytest.approx(150) and not lengths.missing


def test_two_makers_who_differ_are_told() -> None:
    table = yarn_table(read(HEADER + "Weighed: A 50 g\nWeighed (tester 2): A 70 g\n" + CLOTH))
    assert table.weighing is not None and table.weighing.spread == pytest.approx(0.2357, abs=0.001)  # s / mean of 50 and 70
    assert table.colors[0].weight_error == pytest.approx(table.weighing.spread) and table.colors[0].grams == pytest.approx(60)


@pytest.mark.parametrize(
    ("weighed", "rule"), [("Weighed: Z 12 g", "unlisted-color"), ("Weighed: Clot 12 g", "unknown-piece"), ("Weighed: A -3 g", "bad-quantity"), ("Weighed: A 0 g", "bad-quantity"),
                          ("Weighed: A 12", "bad-quantity")]
)
def test_weights_of_nothing(weighed: str, rule: str) -> None:
    text = HEADER + weighed + "\n" + CLOTH
    assert rule in [name for name, _severity in rules(text)]
    assert yarn_table(read(text)).colors[0].basis == "from the gauge"


@pytest.mark.parametrize("weighed", ["A 0.001 g", "A 100000 g", "A 5 g, B 9000 g, Cloth 3 g"])
def test_weights_that_cannot_be_do_not_break_the_table(weighed: str) -> None:
    assert yarn_table(read(HEADER + f"Weighed: {weighed}\n" + CLOTH)).colors


# --- swatch, gauge, category ----------------------------------------------------------------------------------------------


def test_swatches_that_contradict_each_other() -> None:
    text = HEADER + "Swatch: 20 sc x 20 rows = 17 m\nSwatch: 20 sc x 20 rows = 27 m\n" + CLOTH
    assert ("put-up", "advice") in rules(text)
    table = yarn_table(read(text))
    assert table.error == pytest.approx(5 / 22) and table.colors[0].basis == "from the swatch"
    assert ("put-up", "advice") not in rules(text.replace("27 m", "18 m"))
    far = HEADER + "Swatch: 20 sc x 20 rows = 60 m\n" + CLOTH
    assert ("put-up", "advice") in rules(far)


def test_a_swatch_in_grams_without_a_put_up_weighs_the_rest() -> None:
    """Swatch mass by stitch, times the stitches: a published method."""
    text = HEADER.replace("light (3), 50 g = 125 m", "any cotton") + "Swatch: 20 sc x 20 rows = 6 g\n" + CLOTH
    (cloth, _border) = yarn_table(read(text)).colors
    assert cloth.grams is not None and cloth.grams == pytest.approx(3600 / 400 * 6, rel=0.03)
    assert cloth.weight_error < cloth.error == GAUGE_ERROR


def test_the_category_alone() -> None:
    """Light yarn: 12 to 17 sc in 10 cm, hook 4.5 to 5.5 mm (Craft Yarn Council 2018), so 14.5 with 5 mm."""
    text = "Terms: US\nYarn: light (3), 50 g = 125 m\nHook: {} mm\n" + CLOTH.replace(" (color A)", "").replace(" (color B)", "")
    by_gauge = yarn_table(read("Gauge: 14.5 sc = 10 cm\n" + text.format(5)))
    by_category = yarn_table(read(text.format(5)))
    assert by_category.metres == pytest.approx(by_gauge.metres) and by_category.error == CATEGORY_ERROR
    assert "category only" in by_category.basis and yarn_table(read(text.format(2.5))).metres < 0.6 * by_category.metres


@pytest.mark.parametrize("yarn", ["any cotton", "light (3), 50 g = 0 m", "light (3), 50 g = -5 m", "light (3), 50 = 125 m"])
def test_no_ball_no_weight_from_it(yarn: str) -> None:
    text = HEADER.replace("light (3), 50 g = 125 m", yarn) + CLOTH
    assert ("bad-quantity" in [name for name, _severity in rules(text)]) is (yarn != "any cotton")
    table = yarn_table(read(text))
    assert NEEDS_PUT_UP in table.missing and all(color.balls is None for color in table.colors)


@pytest.mark.parametrize("gauge", ["0 sc x 28 rows = 10 cm", "28 rows = 10 cm", "x 28 rows = 10 cm", "25 sc x 28 rows = 10"])
def test_no_stitches_no_estimate(gauge: str) -> None:
    text = HEADER.replace("light (3), ", "").replace("25 sc x 28 rows = 10 cm", gauge) + CLOTH
    table = yarn_table(read(text))
    assert table.missing == (NEEDS_GAUGE,) and not table.colors


@given(st.floats(1, 1000), st.floats(1, 3000))
def test_tex_against_pint(grams: float, metres: float) -> None:
    """ISO 1144:2016: tex is grams in 1,000 m; denier grams in 9,000 m; 496,055 / (yards to the pound)."""
    tex = PutUp(grams, metres).tex
    density = UNITS.Quantity(grams, "g") / UNITS.Quantity(metres, "m")
    assert tex == pytest.approx(density.to("tex").magnitude) and 9 * tex == pytest.approx(density.to("denier").magnitude)
    yards_to_the_pound = (1 / density).to("yard / pound").magnitude
    assert tex == pytest.approx(496_055 / yards_to_the_pound, rel=1e-5)


@pytest.mark.parametrize(
    ("grams", "metres", "tex"),
    # Put-ups as printed in manufacturers' pattern sheets.
    [(50, 152, 329), (50, 160, 312), (120, 232, 517), (100, 177, 565), (170, 288, 590), (453.6, 742, 611), (240, 369, 650), (227, 440, 516), (100, 142, 704),
     (140, 204, 686), (100, 109, 917), (300, 288, 1042), (240, 186, 1290), (100, 76, 1316), (300, 201, 1493)],
)
def test_put_ups(grams: float, metres: float, tex: float) -> None:
    assert PutUp(grams, metres).tex == pytest.approx(tex, abs=0.75)


def test_each_size_takes_its_own_yarn() -> None:
    """By hand: 40 rows of 20, 40 and 60 sc of 5 mm at 10.6 widths, 40 chains to turn, the chain, and tails."""
    text = ("Sizes: S (M, L)\nYarn: light (3), 50 g = 125 m\nColor A: red\nGauge: 20 sc x 20 rows = 10 cm\n# Scarf (color A)\nCh 21 (41, 61).\n"
            "Row 1: sc in 2nd ch from hook and in each ch across (20, 40, 60)\nRows 2-40: ch 1, turn, sc in each st across (20, 40, 60)")
    result = read(text)
    small, middle, large = (yarn_table(result, place=place).metres for place in range(3))
    assert small == pytest.approx(0.005 * (800 * 10.6 + (21 + 39) * 5) + 0.3)
    assert middle == pytest.approx(0.005 * (1600 * 10.6 + (41 + 39) * 5) + 0.3, rel=0.02)
    assert large == pytest.approx(0.005 * (2400 * 10.6 + (61 + 39) * 5) + 0.3, rel=0.03)  # turning chains are taken to grow too
    html = page_of(f"Title: Scarf\nTerms: US\n{text}\n")
    shown = re.findall(r'data-size="(\w)">(\d+) m<', html)
    assert shown == [("S", "44"), ("M", "87"), ("L", "130")]


# --- time and level -------------------------------------------------------------------------------------------------------


def test_a_manifold_takes_days() -> None:
    """25,511 stitches in about 85 hours: Osinga & Krauskopf, Crocheting the Lorenz Manifold (2004); 5.0 a minute."""
    mat = "Ch 201.\nRow 1: sc in 2nd ch from hook and in each ch across (200)\nRows 2-127: ch 1, turn, sc in each st across (200)\nRow 128: ch 1, turn, sc 111, leave rem sts unworked (111)"
    found = effort(read("# Manifold\n" + mat))
    assert found is not None and found.stitches - 201 - 127 == 25_511
    assert found.high / 60 == pytest.approx(85, rel=0.02) and not found.face and found.sewn == 0


def test_sewing_a_face_and_a_pace() -> None:
    toy = "Notions: 8 mm safety eyes (2)\n# Ball\nRnd 1: 6 sc in magic ring (6)\n# Ear (make 2)\nRnd 1: 5 sc in magic ring (5)\n# Making up\nSew the ears to the Ball."
    found = effort(read(toy), 8)
    assert found is not None and (found.sewn, found.face) == (2, True)
    assert (found.low, found.high) == (pytest.approx(2 + 20 + 15), pytest.approx(2 + 30 + 15))
    with pytest.raises(ValueError, match="pace"):
        effort(read(toy), 0)
    assert effort(read("# Ball\nSew it.")) is None


@pytest.mark.parametrize(
    ("low", "high", "said"), [(12, 48, "10 to 50 minutes"), (63, 252, "1 to 4 hours"), (95, 95, "about 95 minutes"), (130, 150, "2 to 2½ hours"), (300, 900, "5 to 15 hours"), (3000, 3000, "about 50 hours")]
)
def test_time_in_words(low: float, high: float, said: str) -> None:
    assert time_text(Effort(low, high, 1, 1, 0, False)) == said


@pytest.mark.parametrize(
    ("text", "level", "because"),
    # Project levels: Craft Yarn Council (2018); which technique asks for which is this project's reading.
    [("Ch 5.\nRow 1: sc in 2nd ch from hook and in each ch across (4)", "Basic", "Basic stitches only"),
     ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)", "Basic", "plain increases"),
     ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: BLO sc around (12)", "Easy", "one loop only"),
     ("Rnd 1: 12 dc in magic ring, join (12)\nRnd 2: ch 2 (does not count), (FPdc around next st, BPdc around next st) x 6, join (12)", "Intermediate", "around the post"),
     ("Rnd 1: 6 sc in magic ring (6)\nRnd 2: (A) inc x 3, (B) inc x 3 (12)", "Intermediate", "same round")],
)
def test_project_levels(text: str, level: str, because: str) -> None:
    found = project_level(read(f"Terms: US\nColor A: red\nColor B: blue\n# Piece (color A)\n{text}\n"))
    assert found is not None and (found.name, because in found.reason) == (level, True) and found.skills[0] == "basic stitches"


# --- another yarn -----------------------------------------------------------------------------------------------------------


def test_another_yarn_scales_size_and_amounts() -> None:
    """The same stitches half as wide again: lengths x 1.5, lengths of yarn x 1.5 (tails apart), volume x 3.375 (geometry)."""
    ball = "# Ball\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-6: sc around (18)\nStuff firmly.\nRnd 7: (sc, dec) x 6 (12)\nRnd 8: dec x 6 (6)\nFasten off and close the hole.\n"
    result = read("Yarn: light (3), 50 g = 125 m\nGauge: 24 sc x 27 rnds = 10 cm\n" + ball)
    own, other = estimate(result), in_another_yarn(result, "100 g = 150 m", "16 sc x 18 rnds = 10 cm")
    assert other.sizes.pieces[0].length == pytest.approx(1.5 * (own.sizes.pieces[0].length or 0))
    assert other.yarn.metres - 0.3 == pytest.approx(1.5 * (own.yarn.metres - 0.3)) and other.yarn.grams == pytest.approx(other.yarn.metres / 1.5)
    assert other.stuffing[0].litres == pytest.approx(3.375 * own.stuffing[0].litres)
    assert estimate(result).yarn.metres == own.yarn.metres  # the pattern itself is left alone
    assert in_another_yarn(result, gauge="24 sc x 27 rnds = 10 cm").yarn.grams == pytest.approx(own.yarn.grams)


def test_what_scales_said_of_the_hand_is_kept() -> None:
    cloth, border = planted(0.8, 0.8)
    result = read(HEADER + f"Weighed: A {cloth:.2f} g, B {border:.2f} g\n" + CLOTH)
    other = in_another_yarn(result, "100 g = 200 m", "20 sc x 22 rows = 10 cm").yarn
    assert other.colors[0].metres == pytest.approx(0.8 * 0.005 * (3600 * 10.6 + 120 * 5) + 0.3, rel=0.01)
    assert other.error == HAND_ERROR and "own yarn" in other.basis


@pytest.mark.parametrize(
    ("yarn", "gauge", "said"),
    [("50 g = 0 m", "", "cannot be"), ("50 = 125 m", "", "needs a unit"), ("cotton", "", "no weight and length"), ("50 g = -5 m", "", "below zero"), ("", "28 rnds = 10 cm", "no stitches"),
     ("", "tight", "no stitches"), ("", "22 sc x 24 rnds = 10", "needs a unit"), ("", "0 sc = 10 cm", "cannot be")],
)
def test_another_yarn_that_cannot_be(yarn: str, gauge: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(ValueError, match=said):
        in_another_yarn(read(HEADER + CLOTH), yarn, gauge)
    page = tmp_path / "p.txt"
    page.write_text(HEADER + CLOTH, encoding="utf-8")
    assert main(["yarn", str(page), "--yarn", yarn, "--gauge", gauge]) == 2
    assert said in capsys.readouterr().err


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "p.txt"
    page.write_text("Title: Cloth\n" + HEADER + CLOTH, encoding="utf-8")
    assert main(["yarn", str(page)]) == 0
    told = capsys.readouterr().out
    assert "Cloth" in told and "from the gauge, about 20 %" in told and "24 cm wide" in told and "brackets" not in told
    assert main(["yarn", str(page), "--gauge", "20 sc x 20 rows = 10 cm", "--made", "2", "--pace", "10"]) == 0
    told = capsys.readouterr().out
    assert "made 2 times" in told and "30 cm wide, 30 cm tall (24 cm wide, 21 cm tall)" in told
    assert main(["yarn", str(page), "--made", "0"]) == 2 and main(["yarn", str(tmp_path / "not.txt")]) == 2


def test_nothing_to_reckon_from_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / "p.txt"
    page.write_text("Title: Cloth\n" + CLOTH.replace(" (color A)", "").replace(" (color B)", ""), encoding="utf-8")
    assert main(["yarn", str(page)]) == 0
    told = capsys.readouterr().out
    assert "Gauge:" in told and "Yarn:" in told and " m," not in told


# --- on the page ------------------------------------------------------------------------------------------------------------


def page_of(text: str) -> str:
    page = f"```crochet\n{text}```\n"
    file = check_text(page, "p.md")
    return "".join(render_block(file, block) for block in find_blocks(Source(page, "p.md"), Findings()))


def test_tables_on_the_page() -> None:
    html = page_of("Title: Cloth\n" + HEADER + "Weighed: A 60 g\n" + CLOTH)
    for words in ("Sizes", "24 cm (9.4 in) wide", "Time and skills", "Project level", "computed: about 60 g", "weighed, about 5 %", "Weighed by one maker"):
        assert words in html, words


def test_a_page_without_gauge_invents_no_size() -> None:
    html = page_of("Title: Cloth\nTerms: US\n" + CLOTH.replace(" (color A)", "").replace(" (color B)", ""))
    assert "A size needs: Gauge" in html and " cm wide" not in html

"""The yarn table against published experiments, and its units against pint."""

from __future__ import annotations

from collections import Counter

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.checks.yarn_amount import check_yarn_amount
from mkdocs_stitchcheck.estimates.rounding import length_text, rounded, weight_text, written
from mkdocs_stitchcheck.estimates.stitch_yarn import stitch_metres, stitch_of
from mkdocs_stitchcheck.estimates.yarn import (
    GAUGE_ERROR,
    NEEDS_GAUGE,
    NEEDS_PUT_UP,
    NEEDS_STITCHES,
    YarnTable,
    yarn_table,
)
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.language.vocabulary import stitches
from mkdocs_stitchcheck.results import PatternResult

PINT = pint.UnitRegistry()
HEADER = "Terms: US\nYarn: light (3), 50 g = 125 m\nColor A: slate\nColor B: cream\nGauge: 25 sc x 28 rnds = 10 cm\n"
PIECES = """# Body (color A)
Rnd 1: 6 sc in magic ring (6)
Rnds 2-4: sc around (6)
# Ear (make 2, color B)
Rnd 1: 5 sc in magic ring (5)
Fasten off, leaving a tail for sewing.
# Making up
Sew the ears to the Body.
"""


def read(text: str) -> PatternResult:
    return check_text(text, "pattern.txt").patterns[0]


def table(text: str, made: int = 1) -> YarnTable:
    return yarn_table(read(text), made)


# --- published checks ------------------------------------------------------------------------------------------------------


def test_a_square_of_half_doubles() -> None:
    """34 x 34 in of hdc take 37,084 in: *Crochet Yarn Estimating*, worked example (32.08 in to the square inch).

    Its strips of one row take 15.7 in to the inch, so its rows are 15.7 / 32.08 in high.
    """
    stitches_to_the_inch = 3.5  # whatever it is, the width of the stitch falls out of the product
    rows = 34 * 32.08 / 15.7
    count = 34 * stitches_to_the_inch * rows
    metres = count * stitch_metres(stitches()["hdc"], 2.54 / stitches_to_the_inch)
    assert metres == pytest.approx(PINT.Quantity(37_084, "inch").to("m").magnitude, rel=0.001)
    assert round(metres) == 942


def test_a_row_of_taller_stitches_takes_more() -> None:
    """sc : hdc : dc per row = 1 : 1.48 : 1.92: *Crochet Yarn Estimating*, strips of one row."""
    sc, hdc, dc = (stitch_metres(stitches()[key], 0.4) for key in ("sc", "hdc", "dc"))
    assert hdc / sc == pytest.approx(1.48, abs=0.005) and dc / sc == pytest.approx(1.92, abs=0.005)


def test_a_swatch_scaled_by_its_stitches() -> None:
    """13 dc and 7.5 rows in 4 in; 50 x 60 in are 162 sts x 112 rows = 18,144 stitches: a published estimate, no source name."""
    result = read("Gauge: 13 dc x 7.5 rows = 4 in\n# Blanket\nCh 5.\n")
    gauge = result.syntax.header.gauge
    assert gauge is not None and gauge.stitch_cm is not None and gauge.row_cm is not None
    wide, high = int(50 * 2.54 / gauge.stitch_cm), int(60 * 2.54 / gauge.row_cm)
    assert (wide, high, wide * high) == (162, 112, 18_144)


# --- the table -------------------------------------------------------------------------------------------------------------


def test_by_piece_and_colour_with_tails_and_copies() -> None:
    found = table(HEADER + PIECES)
    a, b = found.colors
    sc = 10.6 * 0.4 / 100  # metres: 10.6 stitch widths of 4 mm
    assert a.metres == pytest.approx(24 * sc + 0.30) and a.tails == pytest.approx(0.30)
    assert b.metres == pytest.approx(2 * (5 * sc + 0.60)) and b.tails == pytest.approx(1.20)
    assert [(share.piece, share.make, share.color) for share in found.shares] == [("Body", 1, "A"), ("Ear", 2, "B")]
    assert sum(share.metres for share in found.shares) == pytest.approx(found.metres)
    assert not found.missing and found.error == GAUGE_ERROR and "gauge" in found.basis


def test_weight_and_balls_from_the_put_up() -> None:
    found = table(HEADER + PIECES)
    assert found.grams == pytest.approx(found.metres * 50 / 125)
    assert [color.balls for color in found.colors] == [1, 1]
    mat = "# Mat (color A)\nCh 101.\nRow 1: sc in 2nd ch from hook and in each ch across (100)\nRows 2-{rows}: ch 1, turn, sc in each st across (100)\n"
    (color,) = table(HEADER + mat.format(rows=28)).colors
    metres = (2800 * 10.6 + (101 + 27) * 5) * 0.4 / 100 + 0.30
    assert color.metres == pytest.approx(metres) and metres < 125 < metres * 1.2
    assert color.balls == 2  # the high end must be held


def test_made_several_times() -> None:
    once, thrice = table(HEADER + PIECES), table(HEADER + PIECES, 3)
    assert thrice.metres == pytest.approx(3 * once.metres) and thrice.made == 3
    with pytest.raises(ValueError, match="once"):
        table(HEADER + PIECES, 0)


@given(st.integers(1, 200), st.integers(1, 50))
def test_the_sums_hold_for_any_number_of_copies(make: int, made: int) -> None:
    result = read(HEADER + PIECES.replace("make 2", f"make {make}"))
    found = yarn_table(result, made)
    assert found.shares[1].metres == pytest.approx(make * made * found.shares[1].metres / found.shares[1].make / made)
    assert found.metres == pytest.approx(sum(color.metres for color in found.colors))
    assert all(color.low <= color.metres <= color.high and color.tails < color.metres for color in found.colors)


def test_units_agree_with_pint() -> None:
    (color, _) = table(HEADER + PIECES).colors
    assert color.yards == pytest.approx(PINT.Quantity(color.metres, "m").to("yard").magnitude)
    assert color.ounces == pytest.approx(PINT.Quantity(color.grams, "g").to("ounce").magnitude)


def test_a_piece_that_goes_on_starts_no_new_yarn() -> None:
    whole = table(HEADER + "# Body (color A)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: sc around (6)\nFasten off.")
    assert whole.colors[0].tails == pytest.approx(0.30)


def test_only_what_is_sewn_on_has_a_tail_for_it() -> None:
    found = table(HEADER + "# Body (color A)\nRnd 1: 6 sc in magic ring (6)\n# Ear (color A)\nRnd 1: 5 sc in magic ring (5)\n"
                  "# Making up\nSew the ear over Rnd 1 of the Body, between Rnds 1 and 1 of the Body.")
    assert [share.tails for share in found.shares] == [pytest.approx(0.30), pytest.approx(0.60)]


def test_a_swatch_is_a_better_basis() -> None:
    found = table(HEADER + "Swatch: 20 sc x 20 rows = 17 m\n" + PIECES.split("# Ear")[0])
    assert "swatch" in found.basis and found.error < GAUGE_ERROR
    assert found.metres == pytest.approx(24 * 17 / 400 + 0.30)
    weighed = table(HEADER + "Swatch: 20 sc x 20 rows = 6.8 g\n" + PIECES.split("# Ear")[0])
    assert weighed.metres == pytest.approx(found.metres)


def test_what_is_missing_is_named_and_nothing_is_invented() -> None:
    without_gauge = table("Yarn: any cotton, 50 g = 125 m\n" + PIECES)
    assert without_gauge.missing == (NEEDS_GAUGE,) and not without_gauge.colors and without_gauge.grams is None
    without_yarn = table("Gauge: 25 sc = 10 cm\n" + PIECES)
    assert without_yarn.missing == (NEEDS_PUT_UP,) and without_yarn.metres > 0 and without_yarn.grams is None
    assert all(color.balls is None for color in without_yarn.colors)
    nothing = table("Gauge: not critical\nYarn: any cotton\n# Body\nSew it up.")
    assert set(nothing.missing) == {NEEDS_GAUGE, NEEDS_PUT_UP, NEEDS_STITCHES}


def test_rounds_that_are_not_known_are_named() -> None:
    found = table(HEADER + "# Body (color A)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: sc blah around (6)\nRnd 3: sc around (6)")
    assert found.left_out == ("Body, Rnd 2",)


# --- stitches of every kind ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "yarn"),
    [("sc", 10.6), ("ch", 5.0), ("hdc inc", 31.4), ("sc3tog", 10.6 * 1.85), ("dc 5-in-1", 102.0), ("FPdc", 22.4), ("hdc dec", 21.2)],
)
def test_stitches_by_their_keys(key: str, yarn: float) -> None:
    stitch = stitch_of(key, syntax.Header())
    assert stitch is not None and stitch.yarn == pytest.approx(yarn, abs=0.1)


def test_a_stitch_without_a_length_is_named() -> None:
    result = read(HEADER + PIECES.split("# Ear")[0])
    result.pieces[0].rounds[0].stitches = Counter({("A", "nonesuch"): 6})
    assert yarn_table(result).guessed == ("nonesuch",)


def test_a_declared_stitch_takes_its_own_yarn() -> None:
    plain = HEADER + "# Body (color A)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: {st} around (6)\n"
    special = plain.replace("# Body", "Special stitch: knop = 4 dc closed together in one st; uses 1, makes 1, yarn 3 sc\n# Body")
    sc = 10.6 * 0.4 / 100
    assert table(special.format(st="knop in each st")).metres - table(plain.format(st="sc")).metres == pytest.approx(6 * 2 * sc)


# --- digits ----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "error", "text"),
    [(942.3, 0.2, "940"), (37.4, 0.2, "37"), (7.26, 0.2, "7.3"), (0.37, 0.2, "0.37"), (942.3, 0.5, "900"), (942.3, 0.01, "942"), (0, 0.2, "0"),
     (9.96, 0.2, "10"), (1e-9, 0.2, "0.000000001")],
)
def test_no_more_digits_than_deserved(value: float, error: float, text: str) -> None:
    assert written(value, error) == text


@given(st.floats(1e-6, 1e9), st.floats(0.001, 0.9))
def test_rounding_stays_within_the_error(value: float, error: float) -> None:
    assert abs(rounded(value, error) - value) <= max(error, 0.05) * value * 1.01
    assert "e" not in written(value, error)


def test_both_systems_and_small_amounts() -> None:
    assert length_text(37.4, 0.2) == "about 37 m (41 yd)"
    assert weight_text(15.2, 0.2) == "about 15 g (0.54 oz)" and weight_text(4.9, 0.2) == "small amount"


# --- yarn-short ------------------------------------------------------------------------------------------------------------

MAT = "# Mat (color A)\nCh 61.\nRow 1: sc in 2nd ch from hook and in each ch across (60)\nRows 2-60: ch 1, turn, sc in each st across (60)\n"


@pytest.mark.parametrize(
    ("amount", "short"), [("1 g", True), ("20 m", True), ("1 ball", True), ("50 g", True), ("2 balls", False), ("80 g", False), ("200 yd", False), ("small amount", False)]
)
def test_yarn_that_cannot_be_enough(amount: str, short: bool) -> None:
    """3,600 sc of 4 mm take 153 m: less than 122 m cannot be enough, 125 m may be."""
    result = read(HEADER.replace("slate", f"slate, {amount}").replace("125 m", "115 m") + MAT)
    findings = Findings()
    check_yarn_amount(result.syntax, result, findings)
    assert ([one.rule for one in findings.items] == ["yarn-short"]) == short

"""Quantities of a header: values against the unit registry pint and against the tables of the trade."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mkdocs_stitchcheck.language import hooks, near, units
from mkdocs_stitchcheck.language.gauges import read_gauge, read_hooks, read_swatch
from mkdocs_stitchcheck.language.measuring import (
    read_amount,
    read_category,
    read_lengths,
    read_put_up,
    read_weighing,
)
from mkdocs_stitchcheck.language.quantities import Amount, BadQuantity, Length, PutUp
from mkdocs_stitchcheck.language.scanning import find, number_of

PINT = pint.UnitRegistry()
PINT_NAMES = {"in": "inch", "ft": "foot", "yd": "yard", "oz": "ounce", "lb": "pound"}


# --- conversions, against pint (a general-purpose unit library) ------------------------------------------------------


@pytest.mark.parametrize("unit", sorted(unit for unit, kind in units.KIND.items() if kind in ("weight", "length")))
def test_unit_sizes_agree_with_pint(unit: str) -> None:
    quantity = PINT.Quantity(1, PINT_NAMES.get(unit, unit))
    assert units.SIZE[unit] == pytest.approx(quantity.to("g" if units.KIND[unit] == "weight" else "m").magnitude, rel=1e-12)


@given(st.floats(0.01, 10_000), st.sampled_from(["g", "kg", "oz", "lb"]))
def test_amount_grams_agree_with_pint(value: float, unit: str) -> None:
    assert Amount(value, unit).grams == pytest.approx(PINT.Quantity(value, PINT_NAMES.get(unit, unit)).to("g").magnitude)


@given(st.floats(0.01, 10_000), st.sampled_from(["mm", "cm", "in", "m", "yd", "ft"]))
def test_length_cm_agrees_with_pint(value: float, unit: str) -> None:
    assert Length(value, unit).cm == pytest.approx(PINT.Quantity(value, PINT_NAMES.get(unit, unit)).to("cm").magnitude)


def test_amounts_of_other_kinds_are_not_converted() -> None:
    assert Amount(1, "ball").grams is None and Amount(1, "ball").metres is None and Amount(2, "ball").balls == 2
    assert Amount(10, "yd").grams is None and Amount(10, "oz").metres is None


@pytest.mark.parametrize(
    ("grams", "metres", "per_100", "tex"),
    # Labels as printed in manufacturers' pattern sheets; the last two columns follow from ISO 1144:2016 (tex = g per km).
    [(50, 152, 304, 329), (120, 232, 193, 517), (100, 177, 177, 565), (100, 142, 142, 704), (300, 288, 96, 1042),
     (100, 76, 76, 1316)],
)
def test_put_up_fineness(grams: float, metres: float, per_100: float, tex: float) -> None:
    put_up = PutUp(grams, metres)
    assert round(put_up.metres_per_100g) == per_100
    assert round(put_up.tex) == pytest.approx(tex, abs=1)


# --- numbers ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "value"),
    [("3.5", 3.5), ("3,5", 3.5), ("1,000", 1000), ("0,125", 0.125), ("1,234,567", 1234567), ("1,250.5", 1250.5),
     ("10 1/2", 10.5), ("10\u00bd", 10.5), ("10-1/2", 10.5), ("\u00bd", 0.5), ("3/4", 0.75), ("2 3/8", 2.375), (".5", 0.5)],
)
def test_written_numbers(written: str, value: float) -> None:
    assert number_of(written) == pytest.approx(value)
    assert [one.value for one in find(f"about {written} cm")] == [pytest.approx(value)]


@pytest.mark.parametrize(
    ("text", "values", "unit"),
    [("30 (32, 34) in", (30, 32, 34), "in"), ("24(30-36-42) cm", (24, 30, 36, 42), "cm"), ("24 [30, 36] cm", (24, 30, 36), "cm"),
     ("24 (30, 36) [42, 48] cm", (24, 30, 36, 42, 48), "cm"), ("24/30/36 cm", (24, 30, 36), "cm"),
     ("24 (30:36) cm", (24, 30, 36), "cm"), ("8 mm (2)", (8,), "mm")],
)
def test_lists_of_sizes(text: str, values: tuple[float, ...], unit: str) -> None:
    first = find(text)[0]
    assert (first.values, first.unit) == (values, unit)


@given(st.text(st.sampled_from("0123456789.,/- ()[]xgmc\u00bd=#"), max_size=60))
def test_any_text_is_scanned_and_places_are_in_it(text: str) -> None:
    for one in find(text):
        assert 0 <= one.start < one.number_end <= one.end <= len(text)
        assert one.values


# --- yarn ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "grams", "metres"),
    [("light (3), 50 g = 125 m", 50, 125), ("50 g/125 m", 50, 125), ("1.75 oz (50 g) / 137 yd (125 m)", 50, 125),
     ("125 m per 50 g", 50, 125), ("3.5 oz = 220 yd", 99.223, 201.168), ("100g=177m", 100, 177),
     ("DK cotton, 50 grams, 125 metres", 50, 125), ("1,000 yd, 16 oz", 453.592, 914.4)],
)
def test_put_ups(text: str, grams: float, metres: float) -> None:
    put_up = read_put_up(text)
    assert put_up is not None
    assert (put_up.grams, put_up.metres) == (pytest.approx(grams, rel=1e-4), pytest.approx(metres, rel=1e-4))


@pytest.mark.parametrize("text", ["any light cotton", "4 ply", "light (3), 50 g balls", "two strands held together"])
def test_free_words_of_a_yarn_never_fail(text: str) -> None:
    assert read_put_up(text) is None


@pytest.mark.parametrize(
    ("text", "at"),
    [("50 g = 0 m", "0 m"), ("50 g = 125", "125"), ("50 = 125 m", "50"), ("50 gg = 125 m", "50 gg"), ("= 125 m", "="),
     ("50 g =", "="), ("-50 g = 125 m", "-50 g"), ("50 g = 50 g", "50 g = 50 g")],
)
def test_broken_put_ups(text: str, at: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_put_up(text)
    assert text[caught.value.start : caught.value.end] == at
    assert "50 g" in caught.value.suggestion


def test_numbers_past_counting() -> None:
    with pytest.raises(BadQuantity) as caught:
        read_put_up("50 g = " + "9" * 5000 + " m")
    assert caught.value.rule == "number-out-of-range" and len(str(caught.value)) < 100


@pytest.mark.parametrize(
    ("text", "category"),
    # Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (2018): yarn weight system, names and types.
    [("lace (0)", 0), ("fingering", 1), ("super fine", 1), ("sport", 2), ("fine", 2), ("DK", 3), ("light (3)", 3),
     ("light worsted", 3), ("worsted", 4), ("aran", 4), ("medium (4)", 4), ("chunky", 5), ("bulky", 5), ("super bulky", 6),
     ("roving", 6), ("jumbo", 7), ("category 3", 3), ("#4 medium", 4),
     ("4 ply", 1), ("8-ply", 3), ("10 ply", 4),  # plies: common practice, no source
     ("any light cotton", None), ("cotton", None), ("light blue, medium thick", None)],
)
def test_categories(text: str, category: int | None) -> None:
    assert read_category(text) == category


@pytest.mark.parametrize("text", ["light (9)", "category 8", "worsted (44)"])
def test_categories_that_do_not_exist(text: str) -> None:
    with pytest.raises(BadQuantity, match="0 \\(lace\\) to 7"):
        read_category(text)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [("10 g", 10, "g"), ("about 25 m", 25, "m"), ("2 balls", 2, "ball"), ("one ball", 1, "ball"), ("half a ball", 0.5, "ball"),
     ("\u00bd ball", 0.5, "ball"), ("small amount", 0, "small"), ("scraps", 0, "small"), ("0.4 oz", 0.4, "oz"),
     ("less than 1 skein", 1, "ball")],
)
def test_amounts(text: str, value: float, unit: str) -> None:
    amount = read_amount(text)
    assert amount is not None and (amount.value, amount.unit) == (value, unit)


def test_amounts_a_size() -> None:
    assert read_amount("8 (8, 9, 10) balls") == Amount(8, "ball", (8, 8, 9, 10))


@pytest.mark.parametrize(("text", "at"), [("5 gg", "5 gg"), ("-3 g", "-3 g"), ("336", "336"), ("0 g", "0 g"), ("5 cmm", "5 cmm")])
def test_broken_amounts(text: str, at: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_amount(text)
    assert text[caught.value.start : caught.value.end] == at


def test_weighings() -> None:
    assert read_weighing("A 31 g, B 4 g") == (("A", 31), ("B", 4))
    assert read_weighing("Body: 20 g; Color B = 4 g") == (("Body", 20), ("B", 4))
    assert read_weighing("1 oz") == (("", pytest.approx(PINT.Quantity(1, "ounce").to("g").magnitude)),)
    assert read_weighing("after blocking") == ()


# --- hooks, against the Craft Yarn Council's table (Standards & Guidelines for Crochet and Knitting, 2018) -------------


@pytest.mark.parametrize(
    ("name", "mm"),
    [("B-1", 2.25), ("C-2", 2.75), ("D-3", 3.25), ("E-4", 3.5), ("F-5", 3.75), ("G-6", 4.0), ("US 7", 4.5), ("H-8", 5.0),
     ("I-9", 5.5), ("J-10", 6.0), ("K-10\u00bd", 6.5), ("K-10 1/2", 6.5), ("L-11", 8.0), ("M/N-13", 9.0), ("N/P-15", 10.0),
     ("P-16", 11.5), ("P/Q-19", 15.0), ("Q", 16.0), ("S-35", 19.0), ("US G", 4.0), ("H/8", 5.0)],
)
def test_us_hooks(name: str, mm: float) -> None:
    assert [hook.mm for hook in read_hooks(name)] == [pytest.approx(mm)]


def test_steel_hooks_get_thinner_with_their_number() -> None:
    # 00 = 3.5 mm and 14 = 0.75 mm were seen in print; the others are from memory.
    sizes = list(hooks.STEEL.values())
    assert sizes == sorted(sizes, reverse=True) and (sizes[0], sizes[-1]) == (3.5, 0.75)
    assert [hook.mm for hook in read_hooks("steel 7")] == [1.65]


@pytest.mark.parametrize(
    ("text", "sizes"),
    [("2.5 mm (US C-2)", [2.5]), ("C/2.75 mm", [2.75]), ("E-4 (3.5 mm) and 4 mm", [3.5, 4.0]), ("2,5 mm", [2.5]),
     ("4 mm or size to obtain gauge", [4.0]), ("3.5mm, 4mm", [3.5, 4.0]), ("5/0", [3.0]), ("any small hook", []),
     ("what I like", [])],
)
def test_hooks(text: str, sizes: list[float]) -> None:
    assert [hook.mm for hook in read_hooks(text)] == sizes


def test_three_hooks_are_called_seven() -> None:
    assert [read_hooks(name)[0].mm for name in ("US 7", "steel 7", "7 mm")] == [4.5, 1.65, 7.0]
    with pytest.raises(BadQuantity, match="several hooks"):
        read_hooks("7")


@pytest.mark.parametrize(("text", "at"), [("-3 mm", "-3 mm"), ("0 mm", "0 mm"), ("250 mm", "250 mm"), ("2.5", "2.5"), ("2.5 mmm", "2.5 mmm")])
def test_broken_hooks(text: str, at: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_hooks(text)
    assert text[caught.value.start : caught.value.end] == at


# --- gauge and swatch --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "stitch_cm", "row_cm", "stitch"),
    [("26 sc x 28 rnds = 10 cm", 10 / 26, 10 / 28, "sc"), ("26 sc x 28 rnds = 10 x 10 cm", 10 / 26, 10 / 28, "sc"),
     ("13 sts and 14 rows = 4 in / 10 cm", 10.16 / 13, 10.16 / 14, "sc"), ("5 sts = 1 inch", 2.54 / 5, None, "sc"),
     ("5 dc = 1 in, 3 rows = 1 in", 2.54 / 5, 2.54 / 3, "dc"), ("10 cm = 26 sc x 28 rnds", 10 / 26, 10 / 28, "sc"),
     ("13 hdc and 9 rows in 4 in (10 cm), blocked", 10.16 / 13, 10.16 / 9, "hdc"), ("26 x 28 = 10 cm", 10 / 26, 10 / 28, "sc"),
     ('18 sts x 20 rows = 4"', 10.16 / 18, 10.16 / 20, "sc"),
     ("16 sts x 20 rows to 10cm in half double crochet with 5 mm hook", 10 / 16, 10 / 20, "hdc")],
)
def test_gauges(text: str, stitch_cm: float, row_cm: float | None, stitch: str) -> None:
    gauge = read_gauge(text)
    assert gauge is not None and gauge.stitch == stitch
    assert gauge.stitch_cm == pytest.approx(stitch_cm)
    assert gauge.row_cm == (None if row_cm is None else pytest.approx(row_cm))


def test_gauge_in_uk_terms() -> None:
    gauge = read_gauge("20 dc x 22 rows = 10 cm", system="UK")
    assert gauge is not None and gauge.stitch == "sc"


@pytest.mark.parametrize("text", ["not critical", "Rnds 1-6 = 5 cm", "7 shells = 10 cm", "tight, so that no filling shows"])
def test_free_words_of_a_gauge_never_fail(text: str) -> None:
    assert read_gauge(text) is None


@pytest.mark.parametrize(
    ("text", "at"),
    [("26 sc x = 10 cm", "x"), ("26 sc x 28 rnds = 10", "10"), ("26 sc x 28 rnds =", "="), ("26 sx x 28 rnds = 10 cm", "sx"),
     ("26 sc x 28 rnds = 10 cmm", "10 cmm"), ("0 sc x 28 rnds = 10 cm", "0"), ("= 10 cm", "=")],
)
def test_broken_gauges(text: str, at: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_gauge(text)
    assert text[caught.value.start : caught.value.end] == at


def test_swatches() -> None:
    swatch = read_swatch("20 hdc and 12 rows = 9.5 m")
    assert swatch is not None
    assert (swatch.stitches, swatch.rows, swatch.stitch, swatch.grams, swatch.metres) == (20, 12, "hdc", None, 9.5)
    assert read_swatch("worked loosely") is None
    with pytest.raises(BadQuantity):
        read_swatch("20 sc = 6 g")


# --- measures ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "measures"),
    [("8 cm long", [(8, "cm", "long")]), ("about 8 cm tall, without ears", [(8, "cm", "tall")]),
     ("5 in (13 cm) tall, 3 in wide", [(5, "in", "tall"), (3, "in", "wide")]), ("length: 8 cm", [(8, "cm", "long")]),
     ("30 x 40 cm", [(30, "cm", ""), (40, "cm", "")]), ("9-10 cm tall", [(9, "cm", "tall")]), ("one size fits all", [])],
)
def test_finished_sizes(text: str, measures: list[tuple[float, str, str]]) -> None:
    assert [(one.value, one.unit, one.of) for one in read_lengths(text)] == measures


def test_finished_size_a_size_with_its_conversion() -> None:
    (length,) = read_lengths("30 (32, 34) in (76 [81, 86] cm)")
    assert length.sizes == (30, 32, 34) and length.text.endswith("cm)")


@pytest.mark.parametrize(("text", "at"), [("8 long", "8 long"), ("-8 cm long", "-8 cm"), ("8 cmm long", "8 cmm"), ("0 cm", "0 cm")])
def test_broken_sizes(text: str, at: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_lengths(text)
    assert text[caught.value.start : caught.value.end] == at


# --- near words --------------------------------------------------------------------------------------------------------


@given(st.text("abc", max_size=8), st.text("abc", max_size=8))
def test_distance_is_symmetrical_and_zero_only_for_the_same(one: str, other: str) -> None:
    assert near.distance(one, other) == near.distance(other, one)
    assert (near.distance(one, other) == 0) == (one == other)
    assert abs(len(one) - len(other)) <= near.distance(one, other) <= max(len(one), len(other))


def test_swapped_letters_are_one_slip() -> None:
    assert near.distance("guage", "gauge") == 1

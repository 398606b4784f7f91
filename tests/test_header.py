"""Header lines: keys, what each puts into the syntax tree, and what is reported at which characters."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageColor

from mkdocs_stitchcheck.findings import Finding, Findings, Severity
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.language.color_names import HEX_OF_NAME
from mkdocs_stitchcheck.language.header import finish_header, known_key, near_key, read_header, split_key
from mkdocs_stitchcheck.source import BlockLine, Statement


def read(*lines: str) -> tuple[syntax.Header, list[Finding]]:
    header, findings = syntax.Header(), Findings()
    for number, line in enumerate(lines, 1):
        read_header(Statement([BlockLine(number, 1, line)]), header, findings)
    finish_header(header, findings)
    return header, findings.items


def marked(finding: Finding, *lines: str) -> str:
    """What a finding points at."""
    return lines[finding.span.line - 1][finding.span.column - 1 : finding.span.end_column - 1]


# Pillow's table of the named colours of CSS Color Module Level 3, which Level 4 keeps and adds rebeccapurple to (W3C).
def test_named_colours_are_those_of_css() -> None:
    values = {name: ImageColor.getrgb(name) for name in HEX_OF_NAME if name != "rebeccapurple"}
    assert {name: "#{:02x}{:02x}{:02x}".format(*value[:3]) for name, value in values.items()} == {
        name: value for name, value in HEX_OF_NAME.items() if name != "rebeccapurple"
    }
    assert len(HEX_OF_NAME) == 148 and HEX_OF_NAME["rebeccapurple"] == "#663399"


@pytest.mark.parametrize(
    ("written", "value"), [("olivedrab", "#6b8e23"), ("Olive Drab", "#6b8e23"), ("dark-green, 30 g", "#006400"), ("#F2E8D5", "#f2e8d5")]
)
def test_a_colour_may_be_shown_by_its_name(written: str, value: str) -> None:
    header, findings = read("Yarn: light (3), 50 g = 125 m", f"Color A: green, shown as {written}")
    assert header.colors["A"].shown == value and not findings


@pytest.mark.parametrize("written", ["olivedrap", "olive-ish", "#12345"])
def test_a_colour_that_cannot_be_shown_is_reported(written: str) -> None:
    _, findings = read("Yarn: light (3), 50 g = 125 m", f"Color A: green, shown as {written}")
    assert [finding.rule for finding in findings] == ["bad-quantity"]


# --- keys --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "key"),
    [("Color A: slate", "Color A"), ("Weighed (tester 2): A 31 g", "Weighed (tester 2)"), ("Hook\uff1a2.5 mm", "Hook"),
     ("  Gauge : 26 sc", "Gauge"), ("You also need: eyes", "You also need"), ("Color 1: red", "Color 1"), ("Notes:", "Notes")],
)
def test_lines_of_the_shape_of_a_header(line: str, key: str) -> None:
    split = split_key(line)
    assert split is not None and split[0] == key
    assert line[split[1] :] == line[split[1] :].strip()


@pytest.mark.parametrize("line", ["Rnd 1: 6 sc", "6 sc in magic ring (6)", "https://example.org", "sew the ears on", ": x",
                                  "one two three four five six: seven", ""])
def test_lines_of_another_shape(line: str) -> None:
    assert split_key(line) is None


@pytest.mark.parametrize(
    ("label", "key"),
    [("Title", "title"), ("Colour A", "color"), ("Color MC", "color"), ("MC", "color"), ("Main colour", "color"),
     ("Tension", "gauge"), ("You also need", "notions"), ("Weighed (tester 2)", "weighed"), ("Finished size", "finished size"),
     ("LICENSE", "licence"), ("Slip stitches", "slip stitches"), ("Mood", None), ("Hok", None)],
)
def test_known_keys(label: str, key: str | None) -> None:
    assert known_key(label) == key


@pytest.mark.parametrize(
    ("label", "key"),
    [("Hok", "hook"), ("Guage", "gauge"), ("Colur A", "color"), ("Finised size", "finished size"), ("Abreviations", "abbreviations"),
     ("Mood", None), ("Hook", None), ("Row", None), ("Ear", None)],
)
def test_near_keys(label: str, key: str | None) -> None:
    assert near_key(label) == key


def test_a_mistyped_key_is_an_error_with_the_edit_that_mends_it() -> None:
    lines = ("Hok: 2.5 mm", "Colur B: cream")
    _, findings = read(*lines)
    assert [(one.rule, one.severity, marked(one, *lines), one.edits[0].text) for one in findings] == [
        ("unknown-header", Severity.ERROR, "Hok", "Hook"), ("unknown-header", Severity.ERROR, "Colur", "Color"),
    ]
    assert "did you mean Hook?" in findings[0].message


def test_a_mistyped_unit_comes_with_the_edit_that_mends_it() -> None:
    _, findings = read("Color C: red, 5 gg")
    assert findings[0].edits[0].text == "5 g" and "did you mean g?" in findings[0].message


def test_another_key_is_shown_as_written() -> None:
    header, findings = read("Mood: calm")
    assert [(one.rule, one.severity) for one in findings] == [("unknown-header", Severity.INFO)]
    assert [(line.label, line.value, line.known) for line in header.lines] == [("Mood", "calm", False)]


def test_what_may_stand_once() -> None:
    lines = ("Gauge: 20 sc = 10 cm", "Color A: red", "Tension: 21 sc = 10 cm", "Color A: blue", "Color B: grey", "Yarn: x", "Yarn: y")
    header, findings = read(*lines)
    assert [(one.rule, one.span.line) for one in findings] == [("header-twice", 3), ("header-twice", 4)]
    assert header.gauge and header.gauge.stitches == 20 and header.colors["A"].name == "red" and len(header.yarns) == 2


def test_between_pieces_a_header_holds_from_there_on() -> None:
    header, findings = syntax.Header(), Findings()
    read_header(Statement([BlockLine(1, 1, "Gauge: 20 sc = 10 cm")]), header, findings)
    read_header(Statement([BlockLine(9, 1, "Gauge: 16 sc = 10 cm")]), header, findings, between_pieces=True)
    assert not findings.items and header.gauge and header.gauge.stitches == 16


# --- materials -----------------------------------------------------------------------------------------------------------


def test_a_color_with_all_its_parts() -> None:
    header, findings = read("Yarn: light (3), 50 g = 125 m", "Color B: cream, shade 336, shown as #F2E8D5, 10 g")
    color = header.colors["B"]
    assert not findings
    assert (color.name, color.shade, color.shown, color.yarn) == ("cream", "336", "#f2e8d5", 0)
    assert color.amount and color.amount.grams == 10
    assert header.yarns[0].category == 3


@pytest.mark.parametrize(
    ("value", "name", "amount"),
    [("slate (20 g)", "slate", (20, "g")), ("slate - 1 ball", "slate", (1, "ball")), ("slate 10 g", "slate", (10, "g")),
     ("signal red, small amount", "signal red", (0, "small")), ("10 g of cream", "cream", (10, "g")), ("cream", "cream", None)],
)
def test_color_amounts(value: str, name: str, amount: tuple[float, str] | None) -> None:
    color = read(f"Color A: {value}")[0].colors["A"]
    assert (color.name, color.amount and (color.amount.value, color.amount.unit)) == (name, amount)


def test_several_colors_in_one_line() -> None:
    header, findings = read("Colors: A slate, 20 g; B: cream, C - red")
    assert not findings
    assert {key: color.name for key, color in header.colors.items()} == {"A": "slate", "B": "cream", "C": "red"}


@pytest.mark.parametrize(
    ("line", "at"),
    [("Color C: signal red, shown as #c0392b, 5 gg", "5 gg"), ("Color C: red, shown as #c0392", "#c0392"),
     ("Color C: red, 10", "10"), ("Yarn: light (3), 50 g = 0 m", "0 m"), ("Hook: -3 mm", "-3 mm"), ("Hook: 2.5", "2.5"),
     ("Gauge: 26 sc x = 10 cm", "x"), ("Finished size: 8 long", "8 long"), ("Sizes: S (M, M)", "M"),
     ("Eyes: 8 mmm (2)", "8 mmm"), ("Notions: 8 mmm eyes, stuffing", "8 mmm"), ("Swatch: 20 sc = 6 g", "20 sc = 6 g"),
     ("Weighed: A 31, B 4 g", "31"), ("Special stitch: bobble = 5 dc in one st; uses 1.5", "uses 1.5")],
)
def test_broken_quantities_are_marked_at_their_characters(line: str, at: str) -> None:
    header, findings = read(line)
    (finding,) = findings
    assert (finding.rule, marked(finding, line)) == ("bad-quantity", at)
    assert finding.suggestion and header.lines[0].value


def test_hooks_of_several_lines_and_names() -> None:
    header, _ = read("Hook: 2.5 mm (US C-2)", "Hook: E-4 (3.5 mm) and 2.5 mm")
    assert [(hook.mm, hook.of) for hook in header.hooks] == [(2.5, "C-2"), (3.5, "E-4")]


def test_weighed_by_a_tester() -> None:
    header, _ = read("Weighed: A 31 g", "Weighed (tester 2): A 30 g, B 4 g")
    assert [(one.tester, one.grams) for one in header.weighings] == [("", (("A", 31),)), ("tester 2", (("A", 30), ("B", 4)))]


def test_notions_are_kept_as_written() -> None:
    header, findings = read("You also need: 8 mm safety eyes (2), polyester stuffing; yarn needle")
    assert header.notions == ["8 mm safety eyes (2)", "polyester stuffing", "yarn needle"] and not findings


@pytest.mark.parametrize(
    ("value", "sizes"),
    [("S (M, L)", "S M L"), ("S/M/L", "S M L"), ("S:M:L", "S M L"), ("S M L", "S M L"), ("S (M) [L] {XL}", "S M L XL"),
     ("XS (S, M) [L, XL]", "XS S M L XL"), ("small (medium, large)", "small medium large"), ("one size", "")],
)
def test_sizes(value: str, sizes: str) -> None:
    header, findings = read(f"Sizes: {value}")
    assert header.sizes == tuple(sizes.split()) and not findings


def test_ages_as_sizes_and_a_measure_under_size() -> None:
    assert read("Sizes: 6-12 months (1-2 years, 3-4 years)")[0].sizes == ("6-12 months", "1-2 years", "3-4 years")
    header, _ = read("Size: about 8 cm tall")
    assert not header.sizes and header.finished[0].cm == 8 and header.lines[0].key == "finished size"


# --- words ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "terms"),
    [("US", "US"), ("US terms", "US"), ("American", "US"), ("Canadian", "US"), ("UK", "UK"), ("British English", "UK"),
     ("letters", "letters"), ("de", "de"), ("German", "de"), ("u.s.", "US")],
)
def test_terms(value: str, terms: str) -> None:
    header, findings = read(f"Terms: {value}")
    assert header.terms == terms and not findings


@pytest.mark.parametrize("value", ["XX", "US/UK", "Germna", ""])
def test_terms_that_are_none(value: str) -> None:
    header, findings = read(f"Terms: {value}")
    assert header.terms == "" and [one.rule for one in findings] == ["unknown-option"]


def test_special_stitches_and_abbreviations() -> None:
    header, findings = read(
        "Special stitch: bobble = 5 dc closed together in one st; uses 1, makes 1, yarn 3 sc",
        "Abbreviations: bo = bobble; rsc = reverse sc; V = 2 sc in one st; MR = magic ring",
    )
    assert not findings
    stitch = {word: special.stitch for word, special in header.special.items()}
    assert stitch["bobble"] and (stitch["bobble"].uses, stitch["bobble"].makes, stitch["bobble"].base) == (1, 1, "dc")
    assert stitch["bobble"].yarn == pytest.approx(3 * 10.6)
    assert stitch["bo"] == stitch["bobble"] and stitch["rsc"] and stitch["rsc"].key == "rsc"
    assert stitch["v"] and (stitch["v"].uses, stitch["v"].makes) == (1, 2) and stitch["mr"] is None


def test_abbreviations_with_dashes_and_commas() -> None:
    header, findings = read("Abbreviations: sc - single crochet, inc - increase, sp (space)")
    assert not findings and set(header.special) == {"sc", "inc", "sp"}


def test_a_special_stitch_may_name_its_abbreviation() -> None:
    header, _ = read("Special stitch: Bobble (bo): yo, pull up a loop; uses 1, makes 1")
    assert set(header.special) == {"bobble", "bo"}


def test_a_special_stitch_without_numbers_says_what_is_taken() -> None:
    _, findings = read("Special stitch: fringe = a long loop left hanging")
    assert [(one.rule, one.severity) for one in findings] == [("style", Severity.INFO)]


def test_one_word_for_two_things() -> None:
    _, findings = read("Abbreviations: bo = bobble; bo = back loop only")
    assert [one.rule for one in findings] == ["two-meanings"]
    _, findings = read("Color A: red", "Abbreviations: A = sc2tog")
    assert [(one.rule, one.span.line) for one in findings] == [("two-meanings", 2)]


def test_uk_terms_hold_for_what_stands_before_them() -> None:
    header, _ = read("Gauge: 20 dc x 22 rows = 10 cm", "Terms: UK")
    assert header.gauge and header.gauge.stitch == "sc"


def test_answers() -> None:
    header, findings = read(
        "Turning chain: dc counts as a stitch, sc does not count",
        "Slip stitches: do not count",
        "Reading: rep from * 5 times is 5 in all; 2 sc is two stitches; chains count",
    )
    assert not findings
    assert header.readings == {
        "turning-chain dc": "counts", "turning-chain sc": "does not count", "slip-stitches": "do not count",
        "star-repeat": "all", "number-stitch": "separate", "chains-counted": "count",
    }
    assert header.declared_at["star-repeat"].line == 3


@pytest.mark.parametrize(
    ("line", "question", "answer"),
    [("Reading: rep from * 5 times is 6 in all", "star-repeat", "more"), ("Reading: rep from * 5 times means 5 more", "star-repeat", "more"),
     ("Reading: 2 sc is two in one stitch", "number-stitch", "in one"), ("Reading: chains do not count", "chains-counted", "do not count"),
     ("Reading: slip stitches count", "slip-stitches", "count"), ("Reading: lists without brackets are repeated", "implicit-repeat", "repeat"),
     ("Reading: a list without brackets is worked once", "implicit-repeat", "once"), ("Reading: spaces are taken in order", "space-reach", "in order"),
     ("Turning chain: ch 3 counts as a dc", "turning-chain dc", "counts"), ("Turning chain: ch 2 does not count", "turning-chain hdc", "does not count"),
     ("Turning chain: does not count", "turning-chain tr", "does not count"), ("Slip stitches: count", "slip-stitches", "count")],
)
def test_one_answer(line: str, question: str, answer: str) -> None:
    header, findings = read(line)
    assert header.readings[question] == answer and not findings


@pytest.mark.parametrize(
    ("line", "at"),
    [("Reading: as usual", "as usual"), ("Turning chain: dc is fine", "dc is fine"), ("Slip stitches: perhaps", "perhaps"),
     ("Draft: maybe", "maybe"), ("Show: materials, foo", "foo"), ("Show: chrt", "chrt")],
)
def test_what_decides_and_cannot_be_read_is_an_error(line: str, at: str) -> None:
    _, findings = read(line)
    assert [(one.rule, marked(one, line)) for one in findings] == [("unknown-option", at)]
    assert findings[0].severity is Severity.ERROR


def test_show_and_draft() -> None:
    header, _ = read("Show: materials, yarn", "Show: chart", "Draft: yes")
    assert header.show == ["materials", "yarn", "chart"] and header.draft
    assert not read("Draft: no")[0].draft


def test_show_names_the_nearest() -> None:
    _, findings = read("Show: chrt")
    assert findings[0].edits[0].text == "chart"


KEYS = ["Yarn", "Color A", "Colors", "Hook", "Gauge", "Swatch", "Weighed", "Notions", "Sizes", "Finished size", "Eyes",
        "Special stitch", "Abbreviations", "Turning chain", "Reading", "Terms", "Show", "Draft", "Slip stitches"]
BITS = st.sampled_from(["50 g", "=", "125 m", ",", ";", "(", ")", "[", "x", "sc", "10 cm", "-", "/", "9" * 400, "\u00bd", "#", "dc",
                        "uses", "makes", "rep from *", "counts", "S", "ch 3", " ", "''", "1,000", "3,5", "\u00e9", "26", "mm"])


@given(st.sampled_from(KEYS), st.lists(BITS, max_size=14))
def test_no_header_ever_raises_and_every_place_is_in_the_line(key: str, bits: list[str]) -> None:
    line = f"{key}: " + " ".join(bits)
    header, findings = read(line)
    assert len(header.lines) == 1
    for finding in findings:
        assert finding.span.line == 1 and 1 <= finding.span.column <= finding.span.end_column <= len(line) + 2


@pytest.mark.parametrize("key", KEYS)
def test_hostile_lines_end_quickly(key: str) -> None:
    for piece in ("(", "1 (", "1 / ", "a ", "9", "1,111", " ", "=", "sc 1 ", "1 mm, ", "in ", "2 x ", "A a, ", "*1 "):
        header, _ = read(f"{key}: " + piece * 2_000)
        assert len(header.lines) == 1

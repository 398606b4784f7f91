"""Rules on materials, units and terms, each on patterns that show it and on near ones that must stay quiet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mkdocs_stitchcheck.checks.materials import MATERIAL_CHECKS
from mkdocs_stitchcheck.checks.unit_pairs import METRES_PER_100G, agree, shown
from mkdocs_stitchcheck.counting import count_pattern
from mkdocs_stitchcheck.findings import Finding, Findings
from mkdocs_stitchcheck.language.patterns import read_patterns
from mkdocs_stitchcheck.language.scanning import find
from mkdocs_stitchcheck.source import BlockLine

BALL = """# Ball (color A)
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (sc, dec) x 6 (12)
Rnd 5: dec x 6 (6)
"""


def check(text: str, prose: str = "") -> list[Finding]:
    """The findings of this family in one pattern."""
    lines = [BlockLine(number, 1, line) for number, line in enumerate(text.strip("\n").split("\n"), 1)]
    (pattern,) = read_patterns([lines], [None], Findings())
    pattern.prose = prose
    findings = Findings()
    result = count_pattern(pattern, Findings())
    for one in MATERIAL_CHECKS:
        one(pattern, result, findings)
    return findings.items


def rules(text: str, prose: str = "") -> list[str]:
    return [finding.rule for finding in check(text, prose)]


# --- units ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "line",
    # Labels as printed in manufacturers' pattern sheets: every pair of yards and metres agrees to 0.8 m.
    [f"Yarn: cotton, {grams} g = {metres} m ({yards} yd)" for grams, metres, yards in (
        (50, 152, 166), (120, 232, 254), (100, 177, 194), (170, 288, 315), (453.6, 742, 812), (240, 369, 404), (227, 440, 481),
        (100, 142, 155), (140, 204, 223), (100, 109, 120), (300, 288, 315), (240, 186, 204), (100, 76, 83), (300, 201, 220))],
)
def test_labels_agree(line: str) -> None:
    assert "units-disagree" not in rules(line + "\n" + BALL)


@pytest.mark.parametrize(
    ("line", "says"),
    [("Yarn: cotton, 450 g = 755 m (780 yd)", "780 yd are 713 m, not 755"),  # a published table; no source name
     ("Finished size: 122 cm (42 in) around", "42 in are 106.7 cm, not 122"),  # a published sheet; no source name
     ("Finished size: 10 x 12 cm (4 x 6 in)", "6 in are 15.2 cm, not 12"), ("Yarn: cotton, 50 g (2.5 oz) = 125 m", "2.5 oz are 70.9 g"),
     ("Finished size: 30 (32, 34) in (76 [81, 96] cm)", "96 cm are 37.8 in, not 34"), ("Gauge: 20 sc = 10 cm (5 in)", "5 in are 12.7 cm"),
     ("Hook: 4 mm (US C-2)", "C-2 is a hook of 2.75 mm, not of 4"), ("Hook: 3.5 mm (E-4) and 6 mm (H-8)", "H-8 is a hook of 5 mm")],
)
def test_units_that_disagree(line: str, says: str) -> None:
    found = [one for one in check(line + "\n" + BALL) if one.rule == "units-disagree"]
    assert len(found) == 1 and says in found[0].message


@pytest.mark.parametrize(
    "line",
    ["Gauge: 13 sts and 14 rows = 4 in / 10 cm", "Gauge: 26 sc x 28 rnds = 10 x 10 cm (4 x 4 in)", "Finished size: 5 in (13 cm) tall",
     "Finished size: 3 in (8 cm) tall", "Finished size: 10 x 12 cm (4 x 5 in)", "Yarn: cotton, 1.75 oz (50 g) / 137 yd (125 m)",
     "Finished size: 30 (32, 34) in (76 [81, 86] cm)", "Finished size: 8 cm long, 5 in all", "Yarn: cotton, 5 g (0.2 oz)",
     # The Craft Yarn Council's editions and pages differ on these two, so both are let pass.
     "Hook: 2.5 mm (US C-2)", "Hook: 2.5 mm (B-1)", "Hook: 2 mm (B-1)", "Hook: 10 mm (N-13)", "Hook: 7 mm (K)",
     "Hook: 3.5 mm (US E-4)", "Hook: 4 mm (US G-6)", "Hook: E-4 (3.5 mm) and 4 mm", "Hook: steel 7 (1.65 mm)"],
)
def test_units_that_agree(line: str) -> None:
    assert "units-disagree" not in rules(line + "\n" + BALL)


def test_units_in_steps_and_notes() -> None:
    assert "units-disagree" in rules(BALL + "Fasten off, leaving a 30 cm (8 in) tail.")
    assert "units-disagree" in rules(BALL + "> The ball is about 5 cm (4 in) wide.")
    assert "units-disagree" not in rules(BALL + "Fasten off, leaving a 20 cm (8 in) tail.")


@given(st.floats(1, 500), st.sampled_from([("cm", "in", 2.54), ("m", "yd", 0.9144), ("g", "oz", 28.349523125)]))
def test_rounded_conversions_agree(value: float, units: tuple[str, str, float]) -> None:
    one, other, size = units
    for a, b in ((one, other), (other, one)):
        first = float(f"{value:.1f}")
        text = f"{first} {a} ({first / size if a == one else first * size:.1f} {b})"
        assert agree(text, *find(text))


@pytest.mark.parametrize(("value", "text"), [(713.2, "713"), (106.68, "106.7"), (3.5, "3.5"), (0.1764, "0.18"), (10.0, "10"), (200, "200")])
def test_numbers_are_shown_with_no_more_places_than_matter(value: float, text: str) -> None:
    assert shown(value) == text


# --- put-up --------------------------------------------------------------------------------------------------------------


def test_put_ups() -> None:
    assert "put-up" in rules("Yarn: light (3), 50 g = 1250 m\n" + BALL)
    assert "put-up" in rules("Yarn: cotton, 50 g = 3 m\n" + BALL)
    assert "put-up" not in rules("Yarn: light (3), 50 g = 125 m\n" + BALL)


@pytest.mark.parametrize(
    ("category", "grams", "metres"),
    # Labels as printed in manufacturers' pattern sheets, with the category printed beside them.
    [(1, 50, 152), (1, 50, 165), (3, 50, 160), (3, 120, 232), (4, 100, 177), (4, 170, 288), (4, 240, 369), (4, 227, 440), (5, 100, 142),
     (5, 140, 204), (5, 100, 109), (5, 300, 288), (6, 240, 186), (6, 100, 76), (6, 300, 201)],
)
def test_real_labels_are_no_put_up_slip(category: int, grams: float, metres: float) -> None:
    assert category in METRES_PER_100G
    assert "put-up" not in rules(f"Yarn: category {category}, {grams} g = {metres} m\n" + BALL)


def test_balls_that_do_not_hold_the_amount() -> None:
    yarn = "Yarn: light (3), 50 g = 125 m\n"
    assert "put-up" in rules(yarn + "Color A: slate, 2 balls (150 g)\n" + BALL)
    assert "put-up" not in rules(yarn + "Color A: slate, 2 balls (100 g)\n" + BALL)
    assert "put-up" not in rules(yarn + "Color A: slate, 1 ball (20 g)\n" + BALL)


# --- colours -------------------------------------------------------------------------------------------------------------


def test_a_colour_that_is_not_listed_is_reported_once_with_its_places() -> None:
    found = check("Color A: slate\n" + BALL.replace("inc x 6 (12)", "inc x 6, change to color D in last st (12)") + "> With color D.\n"
                  "# Hat (color D)\nRnd 1: 6 sc in magic ring (6)")
    (finding,) = [one for one in found if one.rule == "unlisted-color"]
    assert (finding.span.line, finding.also[0].span.line) == (4, 9)


@pytest.mark.parametrize(
    "more",
    ["", "> Embroider the smile with color B.", "> The smile is cream.", "Rnd 6: sc around with color B (6)", "# Hat (color B)\nCh 5.",
     "Change to B.", "> Use A and B as you like."],
)
def test_colours_that_are_used(more: str) -> None:
    header = "Color A: slate\n" + ("Color B: cream\n" if more else "")
    assert "unused-color" not in rules(header + BALL + more)


def test_a_colour_that_is_never_used() -> None:
    found = [one for one in check("Color A: slate\nColor B: cream\n" + BALL + "> A ball. B is the second letter.") if one.rule == "unused-color"]
    assert [one.span.line for one in found] == [2] and "cream" in found[0].message
    assert "unused-color" not in rules("Color A: slate\nColor B: cream\n" + BALL, prose="I sewed a cream bow on it.")


def test_the_first_colour_is_used_where_a_piece_names_none() -> None:
    assert "unused-color" not in rules("Color A: slate\n" + BALL.replace(" (color A)", ""))


def test_without_declared_colours_none_is_asked_for() -> None:
    assert "unlisted-color" not in rules(BALL.replace("inc x 6 (12)", "inc x 6, change to color D in last st (12)"))


# --- notions -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step", "material"),
    [("Insert 8 mm safety eyes between Rnds 1 and 2.", "eyes"), ("Stuff firmly.", "stuffing"), ("Sew on the button.", "buttons"),
     ("Push the wire into the arms.", "wire"), ("Embroider the nose with embroidery thread.", "embroidery thread"),
     ("Tie the ribbon round the neck.", "ribbon")],
)
def test_materials_that_are_not_listed(step: str, material: str) -> None:
    found = [one for one in check("Notions: yarn needle\n" + BALL + step) if one.rule == "unlisted-material"]
    assert len(found) == 1 and material in found[0].message and found[0].span.line == 8


@pytest.mark.parametrize(
    "step",
    ["Do not stuff.", "Embroider the eyes.", "Sew the buttonhole band.", "Sew the ball to the hat.", "Insert the needle and pull through.",
     "Sew on felt eyes without safety eyes."],
)
def test_steps_that_need_nothing(step: str) -> None:
    found = rules("Notions: yarn needle, felt\n" + BALL + step)
    assert "unlisted-material" not in found


def test_without_a_list_nothing_is_asked_for() -> None:
    assert "unlisted-material" not in rules(BALL + "Stuff firmly.")


def test_notions_that_are_never_used() -> None:
    found = [one for one in check("Notions: 12 mm button, yarn needle, stitch marker, scissors and pins; brass buckle\n" + BALL) if one.rule == "unused-material"]
    assert [one.message.split(":")[0] for one in found] == ["Button", "Buckle"]
    text = "Notions: 12 mm button\n" + BALL
    assert "unused-material" not in rules(text + "> A button makes the nose.")
    assert "unused-material" not in rules(text, prose="The button came from an old coat.")


# --- stuffing and eyes ---------------------------------------------------------------------------------------------------

STUFFED = "Notions: polyester stuffing\n" + BALL


def test_closed_before_stuffing() -> None:
    (finding,) = [one for one in check(STUFFED + "Fasten off and close the hole.") if one.rule == "closed-before-stuffing"]
    assert "Ball closes to 6" in finding.message and finding.piece == "Ball"


@pytest.mark.parametrize(
    "text",
    [STUFFED.replace("Rnd 5", "Stuff firmly.\nRnd 5"), STUFFED + "Stuff.\nFasten off and close the hole.", STUFFED + "Do not stuff.",
     "Notions: polyester stuffing\nNotes: stuff each piece as you go\n" + BALL, STUFFED + "> Stuff the ball as you go.",
     BALL + "Fasten off and close the hole.", STUFFED.replace("(sc, inc) x 6 (18)", "sc around (12)").replace("(sc, dec) x 6 (12)", "sc around (12)")],
)
def test_stuffed_in_time_or_not_at_all(text: str) -> None:
    assert "closed-before-stuffing" not in rules(text)


def test_stuffing_after_the_closing_is_too_late() -> None:
    assert "closed-before-stuffing" in rules(STUFFED + "Fasten off and close the hole.\nStuff firmly.")


EYED = "Notions: 8 mm safety eyes (2), polyester stuffing\n" + BALL.replace("Rnd 5", "Stuff.\nRnd 5")


def test_eyes_after_closing() -> None:
    found = [one for one in check(EYED + "Fasten off and close the hole.\nInsert the eyes between Rnds 1 and 2.") if one.rule == "eyes-after-closing"]
    assert [one.span.line for one in found] == [10]
    later = EYED + "Fasten off and close the hole.\n# Making up\nInsert the safety eyes between Rnds 2 and 3 of the Ball."
    assert "eyes-after-closing" in rules(later)


@pytest.mark.parametrize(
    "end",
    ["Insert the eyes between Rnds 1 and 2.\nFasten off and close the hole.", "Fasten off and close the hole.\nEmbroider the eyes.",
     "Fasten off and close the hole.\nSew on the eyes.", "Fasten off.\n# Making up\nInsert the safety eyes between Rnds 2 and 3 of the Ball."],
)
def test_eyes_in_time(end: str) -> None:
    assert "eyes-after-closing" not in rules(EYED + end)


# --- caution -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "line"),
    [("Notions: 8 mm safety eyes (2)\n" + BALL + "Insert the eyes.", 1), ("Eyes: 8 mm (2)\n" + BALL + "Insert the eyes.", 1),
     (BALL + "Sew a bell inside.\n> The bell rings.", 7), (BALL + "> Two beads make the eyes.", 7), ("Notions: magnet\n" + BALL, 1),
     (BALL + "Pull a cord through the top.", 7)],
)
def test_the_caution_stands_once_where_it_is_listed_or_first_mentioned(text: str, line: int) -> None:
    found = [one for one in check(text) if one.rule == "small-parts"]
    assert [(one.span.line, one.severity) for one in found] == [(line, "caution")]


@pytest.mark.parametrize(
    "text", [BALL, BALL + "Embroider the eyes.", "Eyes: embroidered\n" + BALL, "Notions: felt eyes\n" + BALL, BALL.replace("Ball", "Bell"),
             BALL + "Sew the buttonhole."]
)
def test_no_caution_where_there_is_no_small_part(text: str) -> None:
    assert "small-parts" not in rules(text)


# --- terms ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "unknown"),
    [("Rnd 1: 6 dc in magic ring (6)", True), ("Terms: US\nRnd 1: 6 dc in magic ring (6)", False), ("Rnd 1: 6 sc in magic ring (6)", False),
     ("Rnd 1: 6 htr in magic ring (6)", False), ("Rnd 1: MR, inc x 6", False), ("Ch 4.\nRnd 1: ch 3 (counts as dc), 11 dc in ring (12)", False),
     ("Ch 10.\nRow 1: dc in 4th ch from hook and in each ch across (8)", False)],
)
def test_terms(text: str, unknown: bool) -> None:
    assert ("terms-unknown" in rules("# Ball\n" + text)) == unknown

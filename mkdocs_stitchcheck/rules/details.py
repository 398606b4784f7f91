"""Rules on what the header says and leaves unsaid: materials in their details, sizes, the list of abbreviations."""

from __future__ import annotations

from . import describe

_WHOLE = """
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnds 4-9: sc in each st around (18)
"""

_TWO_ROUNDS = """
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
"""

RULES = (
    describe(
        "left-unsaid",
        what="""A whole pattern with materials leaves out what makers ask for: title, yarn, hook, gauge, size, amounts;
            of a corrected or licensed one its version. One line a pattern.""",
        why="Each of them is a question in your mail box, or a reader who goes elsewhere.",
        example="Title: Round pebble\nYarn: light (3), 50 g = 125 m\nHook: 2.5 mm\n" + _WHOLE,
        instead="""Title: Round pebble\nYarn: light (3), 50 g = 125 m\nHook: 2.5 mm\nGauge: 26 sc x 28 rnds = 10 cm
Finished size: about 2 cm across\n""" + _WHOLE,
    ),
    describe(
        "notion-without-size",
        what="Eyes, buttons, beads or bells are listed without their size, or without how many.",
        why="Eyes of 6 and of 12 mm make two different faces, and a shop sells them by the pair or by the hundred.",
        example="Title: Pebble\nNotions: safety eyes\n" + _TWO_ROUNDS + "Insert the eyes between Rnds 1 and 2.\n",
        instead="Title: Pebble\nNotions: 8 mm safety eyes (2)\n" + _TWO_ROUNDS + "Insert the eyes between Rnds 1 and 2.\n",
    ),
    describe(
        "unlisted-hook",
        what="A step takes a hook of a size that the materials don't list.",
        why="The maker doesn't have it at hand, and the number is often a slip.",
        example="Hook: 2.5 mm\n" + _TWO_ROUNDS + "Change to a 3.5 mm hook.\nRnd 3: sc in each st around (12)\n",
        instead="Hook: 2.5 mm, 3.5 mm\n" + _TWO_ROUNDS + "Change to a 3.5 mm hook.\nRnd 3: sc in each st around (12)\n",
    ),
    describe(
        "unused-hook",
        what="The materials list a second hook, and no line takes it up.",
        why="The maker buys it for nothing, or a line with the change was forgotten.",
        example="Hook: 2.5 mm, 3.5 mm\n" + _TWO_ROUNDS,
        instead="Hook: 2.5 mm, 3.5 mm\n" + _TWO_ROUNDS + "Change to a 3.5 mm hook.\nRnd 3: sc in each st around (12)\n",
    ),
    describe(
        "level-unknown",
        what="The level is none of the usual names: Basic, Easy, Intermediate, Complex (earlier Beginner, Experienced).",
        why="Readers compare levels from pattern to pattern; your own word can follow the usual one.",
        example="Level: relaxing\n" + _TWO_ROUNDS,
        instead="Level: Easy, relaxing\n" + _TWO_ROUNDS,
    ),
    describe(
        "gauge-unusual",
        what="""The gauge is far from what yarn of the category is usually worked at, and the hook doesn't explain it.
            For toys, which are worked tight, only where it is very far.""",
        why="Mostly the category is of another yarn, or stitches were counted over another width.",
        example="Yarn: bulky (5), 100 g = 110 m\nHook: 8 mm\nGauge: 24 sc x 26 rows = 10 cm\n" + _TWO_ROUNDS,
        instead="Yarn: bulky (5), 100 g = 110 m\nHook: 8 mm\nGauge: 10 sc x 11 rows = 10 cm\n" + _TWO_ROUNDS,
    ),
    describe(
        "sizes-out-of-order",
        what="A list of measures or foundation chains grows from the smallest size to the largest, and one entry falls back.",
        why="Two entries have changed places, or one has a digit too few; that size won't match its reader.",
        example="""
            Sizes: S (M, L)
            Finished size: 90 (110, 100) cm around
            Ch 24 (30, 36).
            """,
        instead="""
            Sizes: S (M, L)
            Finished size: 90 (100, 110) cm around
            Ch 24 (30, 36).
            """,
    ),
    describe(
        "multiple-mismatch",
        what="""A note states the multiple of the stitch pattern, and neither the chain nor the first row is such a
            multiple.""",
        why="A maker who changes the width by the multiple ends with half a repeat.",
        example="""
            # Cloth
            Ch 24.
            Row 1: sc in 2nd ch from hook and in each ch across (23)
            > Multiple of 6 + 2.
            """,
        instead="""
            # Cloth
            Ch 27.
            Row 1: sc in 2nd ch from hook and in each ch across (26)
            > Multiple of 6 + 2.
            """,
    ),
    describe(
        "length-disagrees",
        what="A line says what a piece in rows measures by now, and its rows and the gauge give another length.",
        why="The maker measures, finds another length, and adds or takes away rows.",
        example="""
            Gauge: 20 sc x 20 rows = 10 cm
            # Strap
            Ch 7.
            Row 1: sc in 2nd ch from hook and in each ch across (6)
            Rows 2-20: ch 1, turn, sc in each st across (6)
            > The strap measures 25 cm now.
            """,
        instead="""
            Gauge: 20 sc x 20 rows = 10 cm
            # Strap
            Ch 7.
            Row 1: sc in 2nd ch from hook and in each ch across (6)
            Rows 2-20: ch 1, turn, sc in each st across (6)
            > The strap measures 10 cm now.
            """,
    ),
    describe(
        "count-left-out",
        what="Most rounds that change the number of stitches state it, and a few don't. One line a pattern.",
        why="Counts are what makers ask for most; the one that is missing is the one where they are lost.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (2 sc, inc) x 6
            Rnd 5: (3 sc, inc) x 6 (30)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (2 sc, inc) x 6 (24)
            Rnd 5: (3 sc, inc) x 6 (30)
            """,
    ),
    describe(
        "unused-abbreviation",
        what="A word stands in your list of abbreviations, and no line uses it. One line a pattern.",
        why="A list that was copied from another pattern makes makers learn stitches that don't come.",
        example="Abbreviations: sc = single crochet; hdc = half double crochet\n" + _TWO_ROUNDS,
        instead="Abbreviations: sc = single crochet\n" + _TWO_ROUNDS,
    ),
    describe(
        "undefined-abbreviation",
        what="You list the usual abbreviations, and the rounds use one that is not among them. One line a pattern.",
        why="A list that explains sc and not inc looks complete to a beginner, and isn't.",
        example="Terms: US\nAbbreviations: sc = single crochet; ch = chain; sl st = slip stitch\n"
        + "Ch 4, sl st to form a ring.\nRnd 1: 6 sc in ring (6)\nRnd 2: inc x 6 (12)\n",
        instead="Terms: US\nAbbreviations: sc = single crochet; ch = chain; sl st = slip stitch; inc = increase\n"
        + "Ch 4, sl st to form a ring.\nRnd 1: 6 sc in ring (6)\nRnd 2: inc x 6 (12)\n",
    ),
    describe(
        "explained-after-use",
        what="A special stitch is worked before the line that explains it.",
        why="The maker stops at a word, and doesn't know that it is explained further down.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (bobble, sc) x 3 (6)
            Special stitch: bobble = 5 dc closed together in one st; uses 1, makes 1
            """,
        instead="""
            Special stitch: bobble = 5 dc closed together in one st; uses 1, makes 1
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (bobble, sc) x 3 (6)
            """,
    ),
)

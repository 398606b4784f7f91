"""Rules on materials, yarn and size: what is listed, what is used, and what the numbers come to."""

from __future__ import annotations

from . import describe

_BALL = """
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
"""

RULES = (
    describe(
        "unlisted-color",
        what="A colour is used in the rounds and is not in the materials.",
        why="The maker buys what the list says and sits there without that yarn.",
        example="""
            Color A: slate
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: sc around, change to color D in last st (6)
            """,
        instead="""
            Color A: slate
            Color D: cream
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: sc around, change to color D in last st (6)
            """,
    ),
    describe(
        "unlisted-material",
        what="A step needs something that is not in the list of materials.",
        why="The maker is stopped in the middle of the work.",
        example="""
            Notions: yarn needle
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2.
            """,
        instead="""
            Notions: yarn needle, 6 mm safety eyes (2)
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2.
            """,
    ),
    describe(
        "unused-color",
        what="A colour is in the materials, and no piece, round or note uses it.",
        why="The maker buys a ball for nothing, or you forgot a colour change.",
        example="""
            Color A: slate
            Color B: cream
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Color A: slate
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "unused-material",
        what="""Something is in the list of materials, and no step or note uses it. Needle, marker and scissors are
            never asked for.""",
        why="The maker buys it for nothing, or a step was forgotten.",
        example="""
            Notions: 6 mm safety eyes (2)
            # Body
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Notions: yarn needle
            # Body
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "units-disagree",
        what="The same measure stands in two units, and they aren't the same: 10 cm (5 in).",
        why="Half of your readers work from the other number.",
        example="Hook: 2.5 mm (US G-6)\n" + _BALL,
        instead="Hook: 2.5 mm (US C-2)\n" + _BALL,
    ),
    describe(
        "yarn-short",
        what="The yarn you list is less than the least that the rounds should need by the gauge.",
        why="Running out of a dye lot one ear before the end is the complaint that makers remember.",
        example="""
            Terms: US
            Yarn: light (3), 50 g = 125 m
            Color A: slate, 1 g
            Gauge: 26 sc x 28 rnds = 10 cm
            # Mat (color A)
            Ch 61.
            Row 1: sc in 2nd ch from hook and in each ch across (60)
            Rows 2-60: ch 1, turn, sc in each st across (60)
            """,
        instead="""
            Terms: US
            Yarn: light (3), 50 g = 125 m
            Color A: slate, 50 g
            Gauge: 26 sc x 28 rnds = 10 cm
            # Mat (color A)
            Ch 61.
            Row 1: sc in 2nd ch from hook and in each ch across (60)
            Rows 2-60: ch 1, turn, sc in each st across (60)
            """,
    ),
    describe(
        "put-up",
        what="Weight and length of a ball don't go together for a yarn of that thickness, or for its listed amounts.",
        why="Mostly yards were written as metres, or the ball was changed and its numbers were not.",
        example="Yarn: light (3), 50 g = 1250 m\n" + _BALL,
        instead="Yarn: light (3), 50 g = 125 m\n" + _BALL,
    ),
    describe(
        "finished-size",
        what="The finished size you state is more than a quarter off from what gauge and rounds come to.",
        why="Makers choose yarn, eyes and time by the size. A size to check is one you have measured.",
        example="""
            Terms: US
            Gauge: 20 sc x 20 rows = 10 cm
            Finished size: 40 cm wide
            # Mat
            Ch 41.
            Row 1: sc in 2nd ch from hook and in each ch across (40)
            Rows 2-40: ch 1, turn, sc in each st across (40)
            """,
        instead="""
            Terms: US
            Gauge: 20 sc x 20 rows = 10 cm
            Finished size: 20 cm wide
            # Mat
            Ch 41.
            Row 1: sc in 2nd ch from hook and in each ch across (40)
            Rows 2-40: ch 1, turn, sc in each st across (40)
            """,
    ),
)

"""Rules on pieces: how many, how far apart, whether they meet, and whether all of them are put on."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "too-far-apart",
        what="Two parts are placed with more stitches between them than half of the round has.",
        why="They would sit at the back of the head. Mostly the round changed its number and the distance did not.",
        example="""
            Notions: 6 mm safety eyes (2)
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2, 8 sts apart.
            """,
        instead="""
            Notions: 6 mm safety eyes (2)
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2, 2 sts apart.
            """,
    ),
    describe(
        "seam-mismatch",
        what="""Two pieces are sewn together stitch for stitch and end with other numbers of stitches; or a step names a
            number of stitches that the piece doesn't end with.""",
        why="One of the two puckers, or the maker stands before stitches that are left over.",
        example="""
            # Head
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Fasten off.
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Fasten off.
            # Making up
            Sew the Head to the Body, stitch for stitch.
            """,
        instead="""
            # Head
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Fasten off.
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Fasten off.
            # Making up
            Sew the Head to the Body, stitch for stitch.
            """,
    ),
    describe(
        "pieces-counted",
        what="A step sews on more copies of a piece than its heading says to make, or names another number of all; or the colours of the copies come to another number.",
        why="The maker is one ear short when everything else is done.",
        example="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Making up
            Sew both ears to the sides of the hat.
            """,
        instead="""
            # Ear (make 2)
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Making up
            Sew both ears to the sides of the hat.
            """,
    ),
    describe(
        "how-many",
        what="A piece is named in the plural, as Ears, and no line says how many are made.",
        why="A maker makes one, reads on, and finds out under Making up.",
        example="""
            Title: Pebble hare
            Hook: 2.5 mm
            # Ears
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
        instead="""
            Title: Pebble hare
            Hook: 2.5 mm
            # Ears (make 2)
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
    ),
    describe(
        "piece-not-attached",
        what="A tail is left for sewing a piece on, and no line under Making up names the piece.",
        why="The maker has a piece in hand and no place for it.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Crest
            Rnd 1: 6 sc in magic ring (6)
            Fasten off, leaving a tail for sewing.
            # Making up
            Embroider a mouth on the Body.
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Crest
            Rnd 1: 6 sc in magic ring (6)
            Fasten off, leaving a tail for sewing.
            # Making up
            Sew the crest to Rnd 1 of the Body.
            Embroider a mouth on the Body.
            """,
    ),
    describe(
        "pair-differs",
        what="A left and a right piece end with other numbers of stitches, or one has at least two rounds more.",
        why="Left and right are alike or each other's mirror; the two halves won't match.",
        example="""
            Title: Pebble hare
            Hook: 2.5 mm
            # Left ear
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (sc, inc) x 3 (9)
            Fasten off.
            # Right ear
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (2 sc, inc) x 2 (8)
            Fasten off.
            """,
        instead="""
            Title: Pebble hare
            Hook: 2.5 mm
            # Left ear
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (sc, inc) x 3 (9)
            Fasten off.
            # Right ear
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (inc, sc) x 3 (9)
            Fasten off.
            """,
    ),
)

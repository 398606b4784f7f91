"""Rules on the order of the work: ends, holes, markers, colours that were cut, sides of rows, joined rounds."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "fastened-off-twice",
        what="The yarn is fastened off a second time, and nothing was worked or sewn since the first.",
        why="The maker asks which of the two ends is meant, and whether something is missing in between.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            Fasten off and weave in the end.
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Fasten off and weave in the end.
            """,
    ),
    describe(
        "not-fastened-off",
        what="One piece has no end, where the other pieces of the pattern say to fasten off.",
        why="The maker doesn't know whether to cut the yarn, and how long a tail is needed.",
        example="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Nose
            Rnd 1: 5 sc in magic ring (5)
            # Tail
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
        instead="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Nose
            Rnd 1: 5 sc in magic ring (5)
            Fasten off.
            # Tail
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
    ),
    describe(
        "too-wide-to-close",
        what="A hole is to be closed by drawing it shut, and the last round still has more than 16 stitches.",
        why="So many stitches leave a hole or a pucker. Mostly the last decrease rounds were forgotten.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Fasten off and close the hole.
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: dec x 6 (6)
            Fasten off and close the hole.
            """,
    ),
    describe(
        "marker-not-placed",
        what="A line goes to a marker, or moves one, and no line places it.",
        why="The maker looks for a marker that nobody told them to put in.",
        example="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Sl st to the marker.
            """,
        instead="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Place a marker in the first st.
            Rnd 2: inc x 6 (12)
            Sl st to the marker.
            """,
    ),
    describe(
        "color-cut",
        what="A colour is worked with again in the same piece after it was cut, and no line joins it.",
        why="The maker has cut that yarn. Either it should hang on, or it has to be joined again.",
        example="""
            Color A: oat
            Color B: red
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (B) inc x 6 (12)
            Cut B.
            Rnd 3: (A) 6 sc, (B) 6 sc (12)
            """,
        instead="""
            Color A: oat
            Color B: red
            # Body (color A)
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (B) inc x 6 (12)
            Rnd 3: (A) 6 sc, (B) 6 sc (12)
            """,
    ),
    describe(
        "side-mismatch",
        what="A row is marked as right or wrong side, and counting the turns from another marked row gives the other side.",
        why="Colour changes, post stitches and buttonholes then come on the wrong side of the work.",
        example="""
            # Flap
            Ch 7.
            Row 1 (RS): sc in 2nd ch from hook and in each ch across (6)
            Row 2 (RS): ch 1, turn, sc in each st across (6)
            """,
        instead="""
            # Flap
            Ch 7.
            Row 1 (RS): sc in 2nd ch from hook and in each ch across (6)
            Row 2 (WS): ch 1, turn, sc in each st across (6)
            """,
    ),
    describe(
        "join-missing",
        what="All rounds of a piece but one or two are closed with a slip stitch, and these are not.",
        why="The maker can't tell whether to go on in a spiral; the seam jumps there.",
        example="""
            Rnd 1: ch 1, 6 sc in magic ring, join (6)
            Rnd 2: ch 1, inc x 6, join (12)
            Rnd 3: ch 1, sc in each st around, join (12)
            Rnd 4: ch 1, sc in each st around (12)
            Rnd 5: ch 1, sc in each st around, join (12)
            """,
        instead="""
            Rnd 1: ch 1, 6 sc in magic ring, join (6)
            Rnd 2: ch 1, inc x 6, join (12)
            Rnd 3: ch 1, sc in each st around, join (12)
            Rnd 4: ch 1, sc in each st around, join (12)
            Rnd 5: ch 1, sc in each st around, join (12)
            """,
    ),
)

"""Rules on the numbers of rounds: ranges, gaps and references to other rounds."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "range-length",
        what="""The number of rounds you wrote beside a range isn't the number of rounds from its first to its last, or
            the first number is greater than the last.""",
        why='"Rnds 5-7" are three rounds: 5, 6 and 7. One round more or less changes the shape.',
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnds 2-4 (4 rnds): sc in each st around (6)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnds 2-4 (3 rnds): sc in each st around (6)
            """,
    ),
    describe(
        "range-changes-count",
        what="""Several rounds are written in one line, and worked one after the other they don't come out: the first
            changes the count, and the next ones find another number of stitches than they need.""",
        why="An increase round that is copied into a range works for its first round only.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnds 2-3: inc x 6 (12)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc in each st around (12)
            """,
    ),
    describe(
        "round-missing",
        what="The numbers jump: a round between two others is not there. Reported where the next number stands.",
        why="The maker can't know whether a round was forgotten or only its number.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 3: inc x 6 (12)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "round-twice",
        what="The same number stands before two rounds of a piece.",
        why='"Place the eyes after Rnd 8" then means two places. Numbers may begin again after a side or a section.',
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 2: sc in each st around (12)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc in each st around (12)
            """,
    ),
    describe(
        "unknown-round",
        what="A line names a round that the piece doesn't have.",
        why="Rounds get other numbers while a pattern is written, and the places that name them are forgotten.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 7 and 8 of the Body.
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2 of the Body.
            """,
    ),
    describe(
        "unknown-piece",
        what="A line names a piece that the pattern doesn't have. The nearest name is given.",
        why="The maker looks for instructions that aren't there.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            # Making up
            Sew the eyes to Rnd 2 of the Bodice.
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            # Making up
            Sew the eyes to Rnd 2 of the Body.
            """,
    ),
    describe(
        "circular-reference",
        what="A round or piece is to be worked like another one that is itself to be worked like the first.",
        why="Following it leads round and round without ever saying what to work.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: as Rnd 2 (12)
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "piece-twice",
        what="Two pieces have the same name.",
        why='"Sew to the Ear" then means two things. Pieces that are alike are one piece: "# Ear (make 2)".',
        example="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
        instead="""
            # Ear (make 2)
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            """,
    ),
)

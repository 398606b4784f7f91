"""Rules on where stitches go, and on the order of the work."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "nothing-to-work-into",
        what="A round wants to be worked into stitches, and there are none yet.",
        why="The foundation is missing: a magic ring, a chain, or the words for where the yarn is joined.",
        example="""
            # Cuff
            Rnd 1: sc in each st around (24)
            """,
        instead="""
            # Cuff
            Ch 24, join to form a ring.
            Rnd 1: sc in each ch around (24)
            """,
    ),
    describe(
        "chain-not-there",
        what="A join or a last stitch names a chain by its length, and there is no chain of that length.",
        why="Mostly the number was left from another round: the maker looks for the top of a chain that isn't there.",
        example="""
            # Coaster
            Rnd 1: ch 3 (counts as dc), 11 dc in magic ring, join with sl st in top of ch-4 (12)
            """,
        instead="""
            # Coaster
            Rnd 1: ch 3 (counts as dc), 11 dc in magic ring, join with sl st in top of ch-3 (12)
            """,
    ),
    describe(
        "corner-differs",
        what="All corners of a round but one have a chain of the same length, between the same stitches.",
        why="The next round may well come out even, and the square is pulled out of shape. Where it is meant, excuse it.",
        example="""
            # Square
            Rnd 1: ch 3 (counts as dc), 2 dc in magic ring, ch 2, (3 dc in ring, ch 2) x 3, join with sl st in top of ch-3 (12 dc, 4 ch-2 sps)
            Rnd 2: sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 3, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, join with sl st in top of ch-3 (24 dc)
            """,
        instead="""
            # Square
            Rnd 1: ch 3 (counts as dc), 2 dc in magic ring, ch 2, (3 dc in ring, ch 2) x 3, join with sl st in top of ch-3 (12 dc, 4 ch-2 sps)
            Rnd 2: sl st in next 2 dc and in ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, join with sl st in top of ch-3 (24 dc)
            """,
    ),
    describe(
        "after-fasten-off",
        what="A round goes on after the yarn was fastened off, and nothing says where the yarn is joined again.",
        why='The maker has cut the yarn. Write "do not fasten off" above, or "join yarn in any st" here.',
        example="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            Rnd 2: inc x 6 (12)
            """,
        instead="""
            # Ear
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Fasten off.
            """,
    ),
    describe(
        "no-free-loops",
        what="""A round is to be worked into loops that were left free, and none were: the round above them was worked
            through both loops.""",
        why="The maker searches for loops that aren't there. Mostly the number of the round is meant to be another.",
        example="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc in each st around (12)
            Fasten off.
            # Brim
            Join yarn in free front loops of Rnd 1 of Body.
            Rnd 1: sc in free front loops of Rnd 1 of Body (6)
            """,
        instead="""
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: BLO inc x 6 (12)
            Rnd 3: sc in each st around (12)
            Fasten off.
            # Brim
            Join yarn in free front loops of Rnd 1 of Body.
            Rnd 1: sc in free front loops of Rnd 1 of Body (6)
            """,
    ),
    describe(
        "eyes-after-closing",
        what="Safety eyes or other parts with a backing come after the piece is closed.",
        why="The washer goes on from the inside; once the piece is closed no hand reaches it.",
        example="""
            Notions: 6 mm safety eyes (2), stuffing
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Stuff.
            Rnd 4: (sc, dec) x 6 (12)
            Rnd 5: dec x 6 (6)
            Fasten off and close the hole.
            Insert safety eyes between Rnds 2 and 3.
            """,
        instead="""
            Notions: 6 mm safety eyes (2), stuffing
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Insert safety eyes between Rnds 2 and 3.
            Stuff.
            Rnd 4: (sc, dec) x 6 (12)
            Rnd 5: dec x 6 (6)
            Fasten off and close the hole.
            """,
    ),
    describe(
        "closed-before-stuffing",
        what="A piece that was 18 stitches or more round closes to 8 or fewer, and nothing above says to stuff it.",
        why='The maker notices when only a pencil goes through. If the piece stays empty, say "do not stuff".',
        example="""
            Stuffing: polyester
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (sc, dec) x 6 (12)
            Rnd 5: dec x 6 (6)
            Fasten off and close the hole.
            """,
        instead="""
            Stuffing: polyester
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (sc, dec) x 6 (12)
            Stuff firmly.
            Rnd 5: dec x 6 (6)
            Fasten off and close the hole.
            """,
    ),
    describe(
        "ruffles",
        what="The text says that the piece lies flat, and it gains so many stitches a round that it will wave.",
        why="A flat circle of single crochet gains about six stitches a round, taller stitches more.",
        example="""
            # Coaster
            > It should lie flat.
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: inc x 12 (24)
            Rnd 4: inc x 24 (48)
            """,
        instead="""
            # Coaster
            > It should lie flat.
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (2 sc, inc) x 6 (24)
            """,
    ),
    describe(
        "cups",
        what="The text says that the piece lies flat, and it gains so few stitches a round that it will cup.",
        why="A flat circle of single crochet gains about six stitches a round, taller stitches more.",
        example="""
            # Coaster
            > It should lie flat.
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: (sc, inc) x 3 (9)
            Rnd 3: (2 sc, inc) x 3 (12)
            Rnd 4: (3 sc, inc) x 3 (15)
            """,
        instead="""
            # Coaster
            > It should lie flat.
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (2 sc, inc) x 6 (24)
            """,
    ),
)

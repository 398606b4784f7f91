"""Rules on the stitches of one round: what it is worked into, and how many it gives."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "count-mismatch",
        what="The stitches of the round, added up, give another number than the one you wrote at its end.",
        why="A maker who counts another number unpicks a round that was right, or goes on with one that was wrong.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (13)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "stitches-left-over",
        what="The round comes to its end before all stitches of the last round are worked into.",
        why="""The maker stands before stitches that the pattern says nothing about. Where stitches really stay, say so:
            "leave the last 2 sts".""",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 5 (10)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "stitches-run-out",
        what="The round asks for more stitches of the last round than there are.",
        why="The maker comes round to the start with part of the instruction still to be worked.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 7 (14)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "repeat-does-not-fit",
        what="""A repeat that goes on to the end ("around", "to last 2 sts", "ending with ...") doesn't come out: some
            stitches remain that are too few for one more repeat.""",
        why="The last repeat breaks off somewhere in the middle, and each maker will end it in another way.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: *sc in next 4 sts, inc; rep from * around (15)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: *sc in next 3 sts, inc; rep from * around (15)
            """,
    ),
    describe(
        "block-differs",
        what="""In a piece worked from corner to corner in blocks, one block has more or fewer stitches or chains than most
            of the others.""",
        why="The count only says how many blocks there are; a block of another size bends the cloth there.",
        example="""
            Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch, turn. (1 block)
            Row 2: Ch 6, dc in 4th ch from hook, dc in next 2 ch, sl st in ch-3 sp of block, ch 3, 4 dc in same sp, turn. (2 blocks)
            Row 3: Ch 6, dc in 4th ch from hook, dc in next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * across, turn. (3 blocks)
            """,
        instead="""
            Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch, turn. (1 block)
            Row 2: Ch 6, dc in 4th ch from hook, dc in next 2 ch, sl st in ch-3 sp of block, ch 3, 3 dc in same sp, turn. (2 blocks)
            Row 3: Ch 6, dc in 4th ch from hook, dc in next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * across, turn. (3 blocks)
            """,
    ),
    describe(
        "beginning-chain",
        what="""The chain at the start of a round is said to count as a stitch and a space, and has more or fewer chains than
            both need.""",
        why="The first space of the round would be of another size than the others.",
        example="""
            Ch 4, join with sl st in first ch to form a ring.
            Rnd 1: ch 6 (counts as dc, ch 2), (dc in ring, ch 2) x 7, join with sl st in first dc (8 dc, 8 ch-2 sps)
            """,
        instead="""
            Ch 4, join with sl st in first ch to form a ring.
            Rnd 1: ch 5 (counts as dc, ch 2), (dc in ring, ch 2) x 7, join with sl st in first dc (8 dc, 8 ch-2 sps)
            """,
    ),
    describe(
        "join-mismatch",
        what="Two pieces are worked together, and they don't have the same number of stitches where they meet.",
        why="One of them would be gathered or left open, and the round after it has another count.",
        example="""
            # Arm
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc 4, sc through Body and Arm 4, sc 4 (12)
            """,
        instead="""
            # Arm
            Rnd 1: 6 sc in magic ring (6)
            Fasten off.
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc 3, sc through Body and Arm 6, sc 3 (12)
            """,
    ),
    describe(
        "sizes-disagree",
        what="A list of numbers has not one number for each size.",
        why="From there on nobody can tell which number belongs to which size.",
        example="""
            Sizes: S (M, L)
            Ch 24 (30, 36, 42).
            """,
        instead="""
            Sizes: S (M, L)
            Ch 24 (30, 36).
            """,
    ),
    describe(
        "number-out-of-range",
        what="""A number is too great to be meant: above a million, a count above a thousand million, or more than
            10,000 rounds that change in one piece.""",
        why="It is a slip of the fingers, mostly a missing space or a digit typed twice.",
        example="Rnd 1: 6000000 sc in magic ring",
        instead="Rnd 1: 6 sc in magic ring",
    ),
    describe(
        "count-missing",
        what="No round of the pattern states how many stitches it has. Reported once.",
        why="The counts are how a maker finds a slip in the round where it was made. The page shows the computed ones.",
        example="""
            Rnd 1: 6 sc in magic ring
            Rnd 2: inc x 6
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            """,
    ),
)

"""Rules on words that can be read in more than one way, or not be counted at all."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "reading-guessed",
        what="""Something that can be read in two ways was read in the less usual one, because one single round comes
            out only so. The message names the header line that decides.""",
        why="One round is thin proof: it may as well be that round that is wrong.",
        example="""
            Terms: US
            Ch 12.
            Row 1: hdc in 3rd ch from hook and in each ch across (11)
            Fasten off.
            """,
        instead="""
            Terms: US
            Turning chain: hdc counts as a stitch
            Ch 12.
            Row 1: hdc in 3rd ch from hook and in each ch across (11)
            Fasten off.
            """,
    ),
    describe(
        "reading-undecided",
        what="""Something can be read in two ways and the rounds come out in both, so the usual one was taken. The
            message names the header line that decides.""",
        why="Makers ask. One line at the top answers all of them.",
        example="""
            Foundation row: fhdc 20 (20)
            Row 1: ch 2, turn, hdc in each st across (20)
            """,
        instead="""
            Turning chain: hdc does not count
            Foundation row: fhdc 20 (20)
            Row 1: ch 2, turn, hdc in each st across (20)
            """,
    ),
    describe(
        "on-trust",
        what="""The round holds words that can't be counted, such as "as established" or "evenly" without a number; its
            stated count was taken as right.""",
        why="A slip in such a round isn't found. Where you can, write what is worked.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: continue in pattern as established (18)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            """,
    ),
)

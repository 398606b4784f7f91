"""Rules on the page around the blocks."""

from __future__ import annotations

from . import describe, off_everywhere

RULES = (
    describe(
        "outside-the-pattern",
        what="""Prose outside the blocks looks like a round, or names a piece and a round of it. It isn't checked, and
            it will not be on the printed sheet.""",
        why="A maker who works from the sheet misses it. Put it into the block; as a note it begins with >.",
        example="""
            ```crochet
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            ```

            Rnd 3: sc in each st around (12)
            """,
        instead="""
            ```crochet
            # Body
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: sc in each st around (12)
            ```
            """,
    ),
    describe(
        "needs-site",
        what="A block holds text that only the site fills in, such as {{ a macro }} or a snippet of another file.",
        why="On its own the file can't be checked there; the site plugin checks it as it will be shown.",
        example="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            {{ rounds_of("sphere") }}
            ```
            """,
        instead="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            ```
            """,
    ),
    describe(
        "small-parts",
        what="""The pattern uses small or long parts: safety eyes, buttons, beads, wire, magnets, bells or cords. The
            page and the sheet carry the caution for readers.""",
        why="""They come off and are swallowed, and cords can strangle. Not for children under 3, people who put
            things in their mouths, or pets; embroider instead. Whoever gives or sells toys follows the rules of their
            place.""",
        example="""
            Notions: 6 mm safety eyes (2)
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Insert safety eyes between Rnds 1 and 2.
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Embroider eyes between Rnds 1 and 2.
            """,
        off=off_everywhere("small-parts") + " The caution on the page stays.",
    ),
)

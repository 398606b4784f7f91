"""Rules on the pattern block itself: how it is marked on the page, and what stands in its way."""

from __future__ import annotations

from . import describe, off_everywhere

RULES = (
    describe(
        "unclosed-block",
        what="A crochet block is opened and never closed; it was read to the end of the page.",
        why="The site shows the rest of the page as a pattern, or shows no pattern at all.",
        example="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
    ),
    describe(
        "unknown-option",
        what="The opening line of a crochet block holds a word that is no option of it.",
        why="The site might not take it for a pattern any more, and the page would show it unchecked.",
        example="""
            ```crochet fold=yes
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
        instead="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
    ),
    describe(
        "fence-not-read",
        what="The word after the three backticks is nearly crochet (one letter is off, or it has capitals), or another word for a pattern.",
        why="The site shows such a block as plain code, and nothing in it is checked.",
        example="""
            ```crochett
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
        instead="""
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
    ),
    describe(
        "block-not-shown",
        what="A crochet block stands where the site never shows it: inside a comment, or inside other markup.",
        why="You may believe that your readers see it. If it is a draft to keep, say Draft: yes instead.",
        example="""
            <!--
            ```crochet
            Rnd 1: 6 sc in magic ring (6)
            ```
            -->
            """,
        instead="""
            ```crochet
            Draft: yes
            Rnd 1: 6 sc in magic ring (6)
            ```
            """,
    ),
    describe(
        "checker-fault",
        what="A bug of this program, not of your pattern: this block could not be checked. All others still are.",
        why="Nothing may go unchecked in silence, not even by our own fault. Please report it with the block.",
        example="",
        instead="",
        off="It can't be switched off; where it has to wait, list the page under not_yet.",
    ),
    describe(
        "excuse-unused",
        what="""An excuse (">> right as written: ...") stands below a line where nothing was found, or a page is listed
            under not_yet though nothing on it fails any more.""",
        why="An excuse that is left behind hides the next slip in its line.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            >> right as written: the ring is loose here
            """,
        instead="Rnd 1: 6 sc in magic ring (6)",
        off=off_everywhere("excuse-unused"),
    ),
)

"""Rules on words and marks: stitches, terms, brackets, header lines and quantities."""

from __future__ import annotations

from . import describe

RULES = (
    describe(
        "unknown-stitch",
        what="""A word stands where a stitch is expected, and it is neither a standard stitch nor declared in the
            pattern. Near words are named; reported once a pattern, with the other places.""",
        why="A maker who doesn't know the word can't go on, and its stitches can't be counted.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: scc around (6)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: sc around (6)
            """,
    ),
    describe(
        "two-meanings",
        what="One mark stands for two things: a letter for a colour and a stitch, or an abbreviation given twice.",
        why="Nobody can tell which of the two is meant in a round.",
        example="""
            Abbreviations: bo = bobble; bo = back opening
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Abbreviations: bo = bobble
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "mixed-terms",
        what="""Stitch names of the US and of the UK stand in one pattern, or the names aren't those of its Terms line.
            The pattern is then read in the terms that its words show.""",
        why="The same word is another stitch in the other terms: dc in the US is tr in the UK.",
        example="""
            Terms: UK
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Terms: US
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "terms-unknown",
        what="The pattern doesn't say whether its terms are US or UK, and its stitches exist in both.",
        why="Readers of the other country work another stitch, and find out by the size.",
        example="""
            Rnd 1: 12 dc in magic ring (12)
            Rnd 2: 2 dc in each st around (24)
            """,
        instead="""
            Terms: US
            Rnd 1: 12 dc in magic ring (12)
            Rnd 2: 2 dc in each st around (24)
            """,
    ),
    describe(
        "unreadable-line",
        what="""A line is none of the things a pattern is made of. It is an error where it holds a number, a stitch or
            the beginning of a round, else a warning: it is then taken as a note.""",
        why="""Nothing in a pattern is left unchecked without a word. A note for readers begins with >, a note to
            yourself with >>.""",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rmd 2: sc around (6)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: sc around (6)
            > The cap should look like a thimble now.
            """,
    ),
    describe(
        "unbalanced-mark",
        what="A bracket or star was opened and not closed, closed and not opened, or closed with another kind.",
        why="What is repeated begins or ends somewhere else for each reader.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: [sc, inc) x 3 (9)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: [sc, inc] x 3 (9)
            """,
    ),
    describe(
        "unknown-header",
        what="A header line begins with a word that is nearly, but not quite, a known one.",
        why="Its value would be lost: a Hook line spelled Hok gives no hook on the page.",
        example="""
            Hok: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "header-twice",
        what="A header line that can stand once only stands twice before the first piece.",
        why="Only one of the two can hold, and readers see both.",
        example="""
            Gauge: 26 sc x 28 rnds = 10 cm
            Gauge: 20 sc x 22 rnds = 10 cm
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Gauge: 20 sc x 22 rnds = 10 cm
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "bad-quantity",
        what="A quantity can't be read: a unit that doesn't exist, a number of nothing, or a length that is zero.",
        why="Yarn, size and gauge are computed from these lines; a wrong one makes them wrong or leaves them out.",
        example="""
            Yarn: light (3), 50 gg = 125 m
            Rnd 1: 6 sc in magic ring (6)
            """,
        instead="""
            Yarn: light (3), 50 g = 125 m
            Rnd 1: 6 sc in magic ring (6)
            """,
    ),
    describe(
        "style",
        what="The same thing is written in two ways in one pattern. One line a pattern at most, in whole ones only.",
        why="Readers ask whether another way of writing means another way of working.",
        example="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) 6 times (18)
            Rnd 4: (2 sc, inc) * 6 (24)
            """,
        instead="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc x 6 (12)
            Rnd 3: (sc, inc) x 6 (18)
            Rnd 4: (2 sc, inc) x 6 (24)
            """,
    ),
)

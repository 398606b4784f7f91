"""Rules for readers who listen, who see no colours, or who print; and on what was left standing from writing."""

from __future__ import annotations

from . import describe

_BLOCK = """
```crochet
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
```
"""

RULES = (
    describe(
        "picture-without-words",
        what="A picture on the page has no alternative text, or only the name of its file.",
        why="Readers who can't see it hear nothing or a file name; when it doesn't load, nobody knows what it was.",
        example="![](ears.jpg)\n" + _BLOCK,
        instead="![The ears, pinned on before sewing](ears.jpg)\n" + _BLOCK,
    ),
    describe(
        "color-alone",
        what="Something is told only by the colour of the print, as sizes in red numbers.",
        why="One reader in twenty doesn't see the difference, most print in black, and a screen reader says no colours.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            > The red numbers are for the large size.
            Rnd 2: inc x 6 (12)
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            > The numbers in brackets are for the large size.
            Rnd 2: inc x 6 (12)
            """,
    ),
    describe(
        "long-run",
        what="A round has more than 14 numbers in a row. One line a pattern.",
        why="The eye loses its place, and on a telephone the line breaks in the middle.",
        example="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 64 sc in magic ring (64)
            Rnd 2: 2 sc, inc, 3 sc, inc, 4 sc, inc, 5 sc, inc, 6 sc, inc, 7 sc, inc, 2 sc, inc, 3 sc, inc, 4 sc, inc, 5 sc, inc, 2 sc, inc, 2 sc, inc, 2 sc, inc, 1 sc, inc, 2 sc
            """,
        instead="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 64 sc in magic ring (64)
            Rnd 2: (7 sc, inc) x 8 (72)
            """,
    ),
    describe(
        "unspoken-mark",
        what="A mark that screen readers pass over says what is repeated, and no word does. One line a pattern.",
        why="Who listens hears the stitches once and no repeat.",
        example="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc in each st around (12)
            Rnd 3: *sc, inc* (18)
            """,
        instead="""
            Title: Pebble
            Hook: 2.5 mm
            Rnd 1: 6 sc in magic ring (6)
            Rnd 2: inc in each st around (12)
            Rnd 3: *sc, inc; rep from * around (18)
            """,
    ),
    describe(
        "link-without-words",
        what="A link on the page says only here, this or link.",
        why="Who goes from link to link hears here, here, here.",
        example="The ring is shown [here](ring.md).\n" + _BLOCK,
        instead="See [how to make a magic ring](ring.md).\n" + _BLOCK,
    ),
    describe(
        "unknown-photo",
        what="The text speaks of a photo by its number, and the page has fewer pictures.",
        why="The reader looks for it. A picture was taken out, or the step is from another post.",
        example="![The ring with six stitches](ring.jpg)\n\nSee photo 3.\n" + _BLOCK,
        instead="![The ring with six stitches](ring.jpg)\n\nSee photo 1.\n" + _BLOCK,
    ),
    describe(
        "left-over-text",
        what="A word that holds a place, as TODO, TBD or [insert photo], or a link that leads nowhere was left standing.",
        why="It was meant for you, and readers see it.",
        example="Hook: 2.5 mm\nNotes: TODO say something on the yarn\nRnd 1: 6 sc in magic ring (6)\n",
        instead="Hook: 2.5 mm\n>> TODO say something on the yarn\nRnd 1: 6 sc in magic ring (6)\n",
    ),
    describe(
        "another-name",
        what="A line speaks of an animal that neither title nor page names, as the bear in a pattern of a hare.",
        why="Lines are copied from pattern to pattern, and one name stays behind.",
        example="""
            Title: Marsh hare
            Rnd 1: 6 sc in magic ring (6)
            Sew the bear's tail to the Body.
            """,
        instead="""
            Title: Marsh hare
            Rnd 1: 6 sc in magic ring (6)
            > Sew on the hare's tail when everything else is done.
            """,
    ),
    describe(
        "word-twice",
        what="A short word stands twice in a row.",
        why="It slips in when a sentence is changed; a spelling checker often lets it pass.",
        example="""
            Rnd 1: 6 sc in magic ring (6)
            > Pull the the ring tight.
            """,
        instead="""
            Rnd 1: 6 sc in magic ring (6)
            > Pull the ring tight.
            """,
    ),
)

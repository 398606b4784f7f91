"""The words that the search for patterns knows: the fence word, its options, header keys and round labels."""

from __future__ import annotations

from .. import late_re as re

FENCE_WORD = "crochet"

#: Words by which a writer may mean the same; a block of one is only taken for a pattern if rounds stand in it.
OTHER_PATTERN_WORDS = frozenset((
    "pattern", "patterns", "crochetpattern", "crochet-pattern", "crochet_pattern", "rounds", "rnds", "rows", "amigurumi", "stitches",
    "häkeln", "haekeln", "haken", "ganchillo", "uncinetto", "hekle", "virka", "hækle", "anleitung", "patron",
))  # fmt: skip

#: Options that a fence may carry (```` ```crochet key=value ````). There are none so far.
KNOWN_OPTIONS: frozenset[str] = frozenset()

#: Header keys that only a crochet pattern has: they make a text file in a folder a pattern. Keys that any file may have
#: (Date, Version, Notes, Contact, Licence ...) do not.
TELLING_KEYS = (
    "title",
    "terms",
    "yarn",
    "color",
    "colour",
    "hook",
    "gauge",
    "tension",
    "swatch",
    "weighed",
    "notions",
    "you also need",
    "stuffing",
    "eyes",
    "sizes",
    "finished size",
    "special stitch",
    "special stitches",
    "abbreviations",
    "turning chain",
    "slip stitches",
)

#: Header keys that somebody may try to write as an option on the fence.
HEADER_KEYS = (*TELLING_KEYS, "draft", "show", "reading", "level", "designer", "version", "date", "notes", "video")

_KEY = "|".join(key.replace(" ", r"[ \t]{1,3}") for key in sorted(TELLING_KEYS, key=len, reverse=True))

#: A header line of a pattern, at the start of a line.
HEADER_LINE = re.compile(
    rf"[ \t>*_•-]{{0,8}}(?:{_KEY})(?:[ \t]{{1,3}}\w{{1,20}})?[ \t]{{0,3}}\*{{0,2}}[:：]", re.IGNORECASE
)

#: A labelled round or row at the start of a line. A bare R needs a mark after its number.
ROUND_LINE = re.compile(
    r"[ \t>*_•-]{0,8}(?:"
    r"(?:rnds?|rounds?|rows?|rds?|rd|runden?|reihen?)\b\.?[ \t]{0,3}\d{1,4}(?!\d)"
    r"|r\.?[ \t]?\d{1,4}(?:[ \t]?[-–~][ \t]?r?\d{1,4})?[ \t]?\*{0,2}[:：)]"
    r")",
    re.IGNORECASE,
)

"""The keys of header lines as data: standard key, other words for it, and which may stand once."""

from __future__ import annotations

# Standard key: further words for it. Singular and plural are both listed where both are usual.
ALIASES: dict[str, tuple[str, ...]] = {
    "title": (),
    "terms": ("term", "terminology", "crochet terms", "stitch terms", "pattern terms"),
    "yarn": ("yarns", "yarn used", "wool", "thread"),
    "color": ("colour", "col", "colors", "colours"),
    "hook": ("hooks", "hook size", "crochet hook", "crochet hooks"),
    "gauge": ("tension", "stitch gauge"),
    "swatch": ("swatches", "test swatch"),
    "weighed": ("weight", "weighs"),
    "notions": ("notion", "you also need", "you will also need", "you'll also need", "also needed", "materials",
                "other materials", "supplies", "tools", "you will need", "you'll need", "you need", "what you need",
                "what you'll need", "what you will need", "materials needed", "materials used", "materials list", "supplies needed",
                "shopping list", "materials and tools", "materials & tools", "tools and materials", "other", "also", "extras"),
    "stuffing": ("filling", "fibrefill", "fiberfill", "fiberfil"),
    "eyes": ("eye", "safety eyes"),
    "sizes": ("size", "sizes given"),
    "finished size": ("finished sizes", "finished measurements", "finished dimensions", "measurements", "dimensions",
                      "final size", "size when finished"),
    "special stitch": ("special stitches", "special st", "special sts"),
    "abbreviations": ("abbreviation", "abbreviations used", "abbr", "abbrs", "abbrev", "abbrevs", "abbreviations used in this pattern",
                      "abbreviations and stitches", "stitch abbreviations", "stitches used", "stitches and abbreviations"),
    "turning chain": ("turning chains", "turning ch", "tch"),
    "slip stitches": ("slip stitch", "sl sts", "sl st"),
    "reading": ("readings", "how to read"),
    "level": ("skill level", "project level", "difficulty", "skill"),
    "designer": ("design", "designed by", "designers", "author", "pattern by"),
    "version": (),
    "date": ("dated", "published"),
    "corrected": ("corrections", "correction", "errata"),
    "licence": ("license",),
    "copyright": (),
    "contact": (),
    "care": ("washing", "care instructions"),
    "age": ("ages", "age group"),
    "video": ("videos", "film"),
    "notes": ("note", "pattern notes", "general notes", "important notes", "some notes", "a few notes", "good to know", "before you start",
              "before you begin", "things to know", "notes on the pattern", "notes before you start"),
    "draft": (),
    "show": (),
}

STANDARD: dict[str, str] = {key: key for key in ALIASES} | {
    other: key for key, others in ALIASES.items() for other in others
}

# Words that a list may follow without a colon, and words that nobody's slip is likely to mean.
LEADS = frozenset(
    word for word, key in STANDARD.items() if key in ("notions", "abbreviations", "notes") and word not in ("other", "also", "extras", "note", "notion", "you need")
)
NO_SLIP = frozenset(("col", "other", "also", "extras", "you need"))

# Keys that take something of their own: "Color A", "Main color"; the colour's key follows or is named here.
COLOR_WORDS = ("color", "colour", "col")
COLOR_KEYS: dict[str, str] = {
    "mc": "MC", "cc": "CC", "main color": "MC", "main colour": "MC", "contrasting color": "CC",
    "contrasting colour": "CC", "contrast color": "CC", "contrast colour": "CC",
}

# A second line with one of these says two things about one question. Between pieces a header may change.
ONCE = frozenset({
    "terms", "gauge", "sizes", "level", "designer", "version", "date", "licence", "copyright", "age", "draft",
    "slip stitches",
})

# What "Show:" places, and the answers of the keys that only decide something.
SHOWN = ("materials", "yarn", "size", "abbreviations", "chart", "shape", "rounds")

YES = frozenset({"yes", "y", "true", "on"})
NO = frozenset({"no", "n", "false", "off"})

# What "Terms:" may say, by the standard name. Languages by their code (ISO 639-1) and name.
TERMS: dict[str, tuple[str, ...]] = {
    "US": ("us", "usa", "u.s", "u.s.a", "american", "america", "canadian", "canada", "north american"),
    "UK": ("uk", "u.k", "gb", "british", "britain", "australian", "australia"),
    "letters": ("letters", "letter", "letter code", "letter codes", "letter-code"),
    "da": ("da", "danish", "dansk"),
    "de": ("de", "german", "deutsch"),
    "es": ("es", "spanish", "espa\u00f1ol", "espanol"),
    "fr": ("fr", "french", "fran\u00e7ais", "francais"),
    "ja": ("ja", "japanese"),
    "nl": ("nl", "dutch", "nederlands"),
    "pt": ("pt", "portuguese", "portugu\u00eas", "portugues"),
    "ru": ("ru", "russian"),
}
TERMS_OF_WORD: dict[str, str] = {word: terms for terms, words in TERMS.items() for word in words}

# The plain stitches that a turning chain may stand for, by the number of its chains: common practice, no source.
STITCH_OF_CHAINS: dict[int, str] = {1: "sc", 2: "hdc", 3: "dc", 4: "tr", 5: "dtr", 6: "trtr"}

# Sizes in their usual order, for "XS-XL".
SIZE_NAMES = ("XXS", "XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL", "6XL")

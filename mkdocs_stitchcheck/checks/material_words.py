"""Materials beside yarn as data: what is listed under which words, what shows that it is used, what is a small part.

Common practice, no source; small parts after 16 CFR 1501 and the cautions that designers usually print.
"""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re


@dataclass(frozen=True, slots=True)
class Material:
    """A material: ``name`` as a message says it, the words that list it, and those of a step that needs it.

    One of ``stems`` is in every mention; they are looked for first.
    ``used`` are words that show its use where they stand anywhere (notes and prose too). ``needs`` is "" where a step
    never proves that it must be listed.
    """

    name: str
    stems: tuple[str, ...]
    listed: re.Pattern[str]
    used: re.Pattern[str]
    needs: re.Pattern[str] | None = None
    for_embroidery: bool = False  # "embroider" does not excuse it


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)


def _same(name: str, stems: str, pattern: str, needed: bool = True, for_embroidery: bool = False) -> Material:
    """A material that one set of words lists, uses and needs."""
    words = _words(pattern)
    return Material(name, tuple(stems.split()), words, words, words if needed else None, for_embroidery)


_INSERT = r"(?:insert|attach|place|fit|add|put|fix|position|secure)(?:ing)?\s+(?:both\s+|the\s+|your\s+|two\s+|2\s+)*"

_FLOSS = r"embroidery (?:thread|floss|cotton|yarn)|stranded cotton"

MATERIALS: tuple[Material, ...] = (
    Material("eyes", ("eye",), _words(r"eyes?"), _words(r"eyes?"),
             _words(rf"(?:safety|plastic|glass|toy|button) eyes?|{_INSERT}(?:\d+ ?mm )?eyes?")),
    Material("stuffing", ("stuff", "fil", "wadding"),
             _words(r"stuffing|fib(?:re|er) ?fill?|fillings?|fill|wadding|toy fill|polyfill"),
             _words(r"stuff\w*|unstuffed|fill(?:ed|ing)?|wadding"),
             _words(r"stuff(?:ed|ing)?(?! (?:it |them |the \w+ )?(?:with|using) (?:\w+ ){0,2}(?:scraps?|left-?overs?|yarn|wool|ends|offcuts|fabric))")),
    _same("a nose", "nose", r"(?:safety|plastic) noses?"),
    _same("buttons", "button", r"buttons?(?![ -]?(?:holes?|band))"),
    _same("beads", "bead", r"beads?(?! st)"),
    _same("wire", "wire pipe chenille", r"wires?|pipe[ -]?cleaners?|chenille stems?"),
    _same("magnets", "magnet", r"magnets?"),
    _same("bells", "bell", r"bells?|jingle bells?"),
    _same("a rattle", "rattle", r"rattle inserts?|rattle box(?:es)?"),
    _same("cord", "cord drawstring", r"(?:leather |waxed |elastic )?cords?|drawstrings?", needed=False),
    _same("ribbon", "ribbon", r"ribbons?"),
    _same("felt", "felt", r"felt"),
    _same("elastic", "elastic", r"elastic(?! cord)", needed=False),
    _same("a zip", "zip", r"zips?|zippers?"),
    _same("sequins", "sequin", r"sequins?"),
    _same("snaps", "snap stud popper", r"snap fasteners?|press studs?|poppers"),
    Material("embroidery thread", ("embroidery", "cotton"), _words(_FLOSS), _words(rf"{_FLOSS}|embroider\w*"), _words(_FLOSS), True),
    _same("sewing thread", "thread", r"sewing thread|matching thread"),
    _same("glue", "glue", r"glue"),
    _same("cardboard", "cardboard canvas", r"cardboard|plastic canvas"),
    _same("pellets", "pellet", r"(?:plastic|weighting|poly) pellets"),
    _same("a key ring", "key", r"key ?rings?|key ?chains?"),
)

# Always needed, never asked for.
EXEMPT = _words(
    r"needles?|markers?|scissors|hooks?|yarns?|pins?|tape measure|measuring tape|ruler|row counter|counter|snips|"
    r"wool needle|thimble|iron|blocking \w+|optional\w*|none|nothing"
)

# What is worked with, where a list of materials names it too: the rounds use it.
YARN_LISTED = _words(r"yarns?(?! (?:needle|bowl|bag))|wool(?! needle)|(?<!embroidery )cotton(?! (?:bud|ball|thread))|acrylic|merino|alpaca|mohair|velvet|worsted|dk|aran|chunky|bulky|fingering|skeins?|balls? of|x?\d+ ?g ball|scraps? of|\d+ ?(?:g|grams?|oz) of")

# Words of a list that are no name of a thing.
UNNAMED = frozenset({
    "small", "large", "few", "some", "mm", "cm", "in", "g", "polyester", "black", "white", "piece", "pieces", "bit",
    "bits", "of", "for", "the", "a", "an", "pair", "pairs", "two", "one", "little", "your", "needed", "as", "if", "own",
    "choice",
})

# Small parts in the order in which they are named: what the caution says, and the words. 16 CFR 1501 covers parts that
# fit the test cylinder; fabric, yarn and string are not small parts there, but cords are a danger of their own.
SMALL_PARTS: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("Eyes", _words(rf"(?:safety|plastic|glass|button|toy|googly|doll) (?:eyes?|noses?)|{_INSERT}(?:\d+ ?mm )?eyes?")),
    ("Buttons", _words(r"buttons?(?![ -]?(?:holes?|band))")),
    ("Beads", _words(r"beads?(?! st)")),
    ("Wire", _words(r"wires?|pipe[ -]?cleaners?")),
    ("Magnets", _words(r"magnets?")),
    ("Bells", _words(r"bells?")),
    ("Cords", _words(r"cords?|drawstrings?")),
)
# One of them is in every mention; they are looked for first.
SMALL_PART_STEMS = ("eye", "nose", "button", "bead", "wire", "cleaner", "magnet", "bell", "cord", "drawstring")
# In a list of materials, eyes are small parts by their name alone.
LISTED_EYES = _words(r"eyes?")
# Words that take the danger out of a mention: "embroider the eyes", "felt eyes", "no buttons".
HARMLESS = _words(r"embroider\w*|felt eyes?|crochet(?:ed)? eyes?|sewn[- ]on eyes|no|without|instead of|rather than")

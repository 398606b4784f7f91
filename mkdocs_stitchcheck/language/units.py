"""Units as data: their words, what they measure, and their exact size.

Sizes are exact by definition: international yard and pound agreement of 1959 (yd = 0.9144 m, lb = 453.59237 g).
"""

from __future__ import annotations

# canonical unit: (kind, size in g or m, words).
_UNITS: dict[str, tuple[str, float, str]] = {
    "g": ("weight", 1.0, "g gr grs grm grms gm gms gram grams gramme grammes"),
    "kg": ("weight", 1000.0, "kg kgs kilo kilos kilogram kilograms"),
    "oz": ("weight", 453.59237 / 16, "oz ozs ounce ounces"),
    "lb": ("weight", 453.59237, "lb lbs pound pounds"),
    "mm": ("length", 0.001, "mm millimetre millimetres millimeter millimeters"),
    "cm": ("length", 0.01, "cm cms centimetre centimetres centimeter centimeters"),
    "in": ("length", 0.0254, "in ins inch inches \" ''"),
    "ft": ("length", 0.3048, "ft foot feet"),
    "yd": ("length", 0.9144, "yd yds yrd yrds yard yards"),
    "m": ("length", 1.0, "m mt mtr mtrs metre metres meter meters"),
    "ball": ("ball", 1.0, "ball balls skein skeins hank hanks cake cakes cone cones"),
}

UNIT_OF_WORD: dict[str, str] = {word: unit for unit, (_k, _s, words) in _UNITS.items() for word in words.split()}
KIND: dict[str, str] = {unit: kind for unit, (kind, _size, _words) in _UNITS.items()}
SIZE: dict[str, float] = {unit: size for unit, (_kind, size, _words) in _UNITS.items()}

WEIGHTS = frozenset(unit for unit, kind in KIND.items() if kind == "weight")
YARN_LENGTHS = frozenset({"m", "yd", "ft"})
MEASURES = frozenset(unit for unit, kind in KIND.items() if kind == "length")

# The words that a mistyped unit is compared with, those of two and three letters apart from longer ones.
SHORT_UNITS = ("mm", "cm", "yd", "yds", "oz", "kg", "lb", "lbs", "in", "ins", "mtr")
LONG_UNITS = ("gram", "grams", "ounce", "ounces", "metre", "metres", "meter", "meters", "inches", "centimetre",
              "centimetres", "centimeter", "centimeters", "millimetre", "millimetres", "millimeter", "millimeters")

# Words after a number that look like a mistyped unit and are not one.
_USUAL = (
    "a am an as at by cl dl do ea em for go he i im is it mg ml mm my no of on or pc pcs pm st sts to up us uk we x "
    "oval mini min fat feed fold balls tall mid hook rnd rnds row rows sc dc tr hdc end ends pin pins hanks"
)
_STITCHES = "htr htrs tr trs dtr dtrs qtr ttr"  # the UK's and taller stitches, which look like "mtr"
NOT_MISTYPED = frozenset(f"{_USUAL} {_STITCHES}".split())

FRACTIONS: dict[str, float] = {
    "\u00bd": 1 / 2, "\u00bc": 1 / 4, "\u00be": 3 / 4, "\u2153": 1 / 3, "\u2154": 2 / 3,
    "\u215b": 1 / 8, "\u215c": 3 / 8, "\u215d": 5 / 8, "\u215e": 7 / 8,
}

NUMBER_WORDS: dict[str, float] = {
    "half": 0.5, "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}

SMALL_AMOUNTS = ("small amount", "small quantity", "scrap", "oddment", "leftover", "left over", "a little",
                 "a few metre", "a few meter", "a few yard", "a bit", "small bit", "small piece", "short length")

# Standards & Guidelines for Crochet and Knitting (Craft Yarn Council, 2018), yarn weight system: names and types.
# The general names count only where nothing else can be meant ("light (3)", "light weight"), the types anywhere.
CATEGORY_NAMES: dict[str, int] = {
    "lace": 0, "super fine": 1, "superfine": 1, "fine": 2, "light": 3, "medium": 4, "bulky": 5, "super bulky": 6,
    "jumbo": 7,
}
CATEGORY_TYPES: dict[str, int] = {
    "fingering": 1, "sock yarn": 1, "sock wool": 1, "sport": 2, "dk": 3, "double knitting": 3, "light worsted": 3,
    "worsted": 4, "aran": 4, "afghan": 4, "bulky": 5, "chunky": 5, "super bulky": 6, "super chunky": 6, "roving": 6,
    "jumbo": 7, "super fine": 1, "superfine": 1,
}
# Plies as sold in Britain and Australia: common practice, no source.
CATEGORY_OF_PLY: dict[int, int] = {1: 0, 2: 0, 3: 1, 4: 1, 5: 2, 6: 2, 8: 3, 10: 4, 12: 5, 14: 6}

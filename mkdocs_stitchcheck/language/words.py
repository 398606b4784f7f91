"""The words of instructions that are not stitches, as data: numbers, nouns of places, doings, remarks."""

from __future__ import annotations

NUMBER_WORDS = {
    word: value
    for value, word in enumerate(
        ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"]
    )
} | {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "a": 1, "an": 1}


def value_of(word: str) -> int:
    """The number that *word* is, in digits or as one of ``NUMBER_WORDS``. Raises KeyError for any other word."""
    return int(word) if word.isdigit() else NUMBER_WORDS[word.lower()]


TIMES_WORDS = {"once": 1, "twice": 2, "thrice": 3}
ORDINAL_WORDS = {
    word: value
    for value, word in enumerate(
        ["zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"]
    )
}
ORDINAL_ENDINGS = ("st", "nd", "rd", "th")

# What a place is called -> the noun of the syntax tree. A stitch's own name ("next 2 sc") is looked up in the vocabulary.
NOUNS = {
    **dict.fromkeys(("st", "sts", "stitch", "stitches", "stich", "stiches", "s", "stitche"), "stitch"),
    **dict.fromkeys(("ch", "chs", "chain", "chains"), "chain"),
    **dict.fromkeys(("sp", "sps", "space", "spaces"), "space"),
    **dict.fromkeys(("loop", "loops", "lp", "lps", "arch", "arches"), "loop"),
    **dict.fromkeys(("group", "groups"), "group"),
    **dict.fromkeys(("inc", "incs", "increase", "increases", "dec", "decs", "decrease", "decreases"), "stitch"),
}
STITCH_NOUNS = ("st", "sts", "stitch", "stitches", "stich", "stiches", "total", "altogether")
ROUND_WORDS = ("rnd", "rnds", "round", "rounds", "rd", "rds", "row", "rows", "r", "rs")
UNIT_WORDS = ("cm", "mm", "m", "in", "inch", "inches", "g", "oz", "yd", "yds", "yards", "metres", "meters", "ft")

RING_NOUNS = ("ring", "circle", "loop")
RING_ADJECTIVES = ("magic", "adjustable", "amigurumi", "sliding", "double", "starting", "center", "centre", "the")
RING_CODES = ("mr", "mc", "ar", "dmr", "mcr", "mgr")

EACH = ("each", "every", "ea", "all")
NEXT = ("next", "nxt", "following", "foll")
SAME = ("same",)
FIRST = ("first", "1st")
LAST = ("last", "final")
REMAINING = ("rem", "remaining", "rest", "unworked", "leftover")
PREPOSITIONS = ("in", "into", "on", "onto", "over", "across", "through", "thru", "from", "of", "along", "around", "between")

# Words that say nothing for the count and may stand before or between steps.
FILLERS = (
    "work", "make", "crochet", "then", "now", "and", "the", "a", "an", "also", "with", "by", "again", "start", "starting",
    "begin", "beginning", "just", "continue", "continuing", "cont", "finally", "working", "do", "making", "simply", "&", "dial",
    "another", "plus", "to", "first", "next", "complete", "you", "will",
)  # fmt: skip

# Doings that neither use nor make stitches, by the words they begin with (the longest that fits is taken).
DOINGS: dict[str, str] = {
    # the end
    "fasten off": "fasten-off", "fo": "fasten-off", "f o": "fasten-off", "f/o": "fasten-off", "finish off": "fasten-off",
    "end off": "fasten-off", "tie off": "fasten-off", "cut yarn": "fasten-off", "cut the yarn": "fasten-off",
    "break yarn": "fasten-off", "break the yarn": "fasten-off", "break off": "fasten-off", "cut the thread": "fasten-off",
    "cut thread": "fasten-off", "cut off": "fasten-off", "fasten": "fasten-off", "bind off": "fasten-off",
    "do not fasten off": "continue", "don't fasten off": "continue", "do not cut": "continue", "don't cut": "continue",
    "do not break": "continue", "do not finish off": "continue", "do not fo": "continue", "don't fo": "continue",
    "do not f / o": "continue", "don't f / o": "continue", "do not f/o": "continue", "don't f/o": "continue",
    "do not cut yarn": "continue", "don't cut yarn": "continue",
    "close": "close", "sew shut": "close", "sew closed": "close", "draw shut": "close", "gather": "close",
    "pull tight": "remark", "pull closed": "close", "weave tail through": "close", "weave the tail through": "close",
    "thread the tail": "close", "thread tail": "close", "reverse magic ring": "close", "cinch": "close",
    # filling
    "stuff": "stuff", "start stuffing": "stuff", "begin stuffing": "stuff", "start to stuff": "stuff", "fill": "stuff",
    "continue stuffing": "stuff", "add stuffing": "stuff", "finish stuffing": "stuff", "lightly stuff": "stuff",
    "firmly stuff": "stuff", "keep stuffing": "stuff", "add more stuffing": "stuff", "top up": "stuff",
    "stuffing": "stuff", "begin to stuff": "stuff", "fill with": "stuff",
    "do not stuff": "do-not-stuff", "don't stuff": "do-not-stuff", "no stuffing": "do-not-stuff",
    "leave unstuffed": "do-not-stuff", "unstuffed": "do-not-stuff",
    # eyes and other parts
    "insert": "eyes", "attach safety eyes": "eyes", "attach the safety eyes": "eyes", "add safety eyes": "eyes",
    "add the safety eyes": "eyes", "place safety eyes": "eyes", "place the safety eyes": "eyes", "place eyes": "eyes",
    "place the eyes": "eyes", "attach eyes": "eyes", "attach the eyes": "eyes", "safety eyes": "eyes", "eyes": "eyes",
    "put safety eyes": "eyes", "put the eyes": "eyes", "put the safety eyes": "eyes", "add eyes": "eyes",
    "add the eyes": "eyes", "position eyes": "eyes", "position the eyes": "eyes", "fix the eyes": "eyes",
    "secure the eyes": "eyes", "pop the": "eyes",
    # shaping by hand and sewing
    "flatten": "flatten", "fold": "flatten", "press flat": "flatten", "pinch": "flatten", "hold": "remark",
    "sew": "sew", "stitch the": "sew", "attach": "sew", "position": "sew", "pin": "sew", "embroider": "sew",
    "whipstitch": "sew", "whip stitch": "sew", "seam": "sew", "tie": "sew", "glue": "sew", "knot": "sew",
    "secure": "sew", "fix": "sew", "assemble": "sew",
    # markers and yarn
    "place marker": "marker", "place a marker": "marker", "place stitch marker": "marker", "pm": "marker",
    "place a stitch marker": "marker", "place the marker": "marker", "move marker": "marker", "mark": "marker",
    "move the marker": "marker", "use a marker": "marker", "use a stitch marker": "marker", "put a marker": "marker",
    "place st marker": "marker", "remove marker": "marker", "remove the marker": "marker", "sm": "marker",
    "slip marker": "marker", "place markers": "marker", "mark the first": "marker", "marker": "marker",
    "carry": "yarn", "cut": "yarn", "drop": "yarn", "break": "yarn", "weave in": "yarn", "weave ends": "yarn",
    "leave a": "yarn", "leave long": "yarn", "leave tail": "yarn", "leave about": "yarn", "leaving a": "yarn",
    "leaving long": "yarn", "leaving tail": "yarn", "leaving about": "yarn", "leave enough": "yarn", "leave yarn": "yarn",
    "leaving enough": "yarn", "leaving the tail": "yarn", "leave the tail": "yarn", "hide": "yarn", "trim": "yarn",
    "weave": "yarn", "leave an": "yarn", "leaving an": "yarn", "snip": "yarn", "pick up": "yarn", "wrap": "yarn",
    # direction
    "do not join": "spiral", "don't join": "spiral", "without joining": "spiral", "work in a spiral": "spiral",
    "continuous rounds": "spiral", "in continuous rounds": "spiral", "work in continuous rounds": "spiral",
    "work in spiral": "spiral", "do not sl st": "spiral", "work in rounds": "spiral", "in a spiral": "spiral",
    "work in the round": "spiral", "in spiral": "spiral", "continue in rounds": "spiral", "do not slip stitch": "spiral",
    "do not turn": "no-turn", "don't turn": "no-turn", "without turning": "no-turn", "not turning": "no-turn",
    # doings of the hand that change nothing
    "pull": "remark", "tighten": "remark", "bring": "remark", "be careful": "remark", "being careful": "remark",
    "making sure": "remark", "make sure": "remark", "check": "remark", "note": "remark", "see": "remark",
    "push": "remark", "keep": "remark", "remember": "remark", "rotate": "remark", "turn inside out": "remark",
    "working behind": "remark", "working in front": "remark", "working in front of": "remark", "around the stem": "remark",
    "f / o": "fasten-off", "offset": "offset", "down one side": "remark", "up one side": "remark",
    "along one side": "remark", "down the other": "remark", "hold legs": "remark", "holding": "remark",
    "turn right side out": "remark", "turn the work 90": "remark", "rotate work": "remark", "steam": "remark",
    "block": "remark", "wash": "remark", "photograph": "remark", "shape": "remark", "repeat for": "remark",
    "set aside": "remark", "put aside": "remark", "set it aside": "remark", "let": "remark", "leave": "remark",
    "optional": "remark", "optionally": "remark", "add": "sew", "remove": "remark",
    "use": "remark", "cover": "sew", "place": "sew", "arrange": "sew", "thread": "yarn", "brush": "remark",
    "secure with": "remark", "wire": "sew", "roll": "remark", "finish": "remark", "adjust": "remark", "tug": "remark",
    "with right side": "remark", "with wrong side": "remark", "right side": "remark", "wrong side": "remark",
    "return to": "remark", "go back to": "remark", "divide for": "remark", "split for": "remark", "divide": "remark",
    "buttonhole": "remark", "button hole": "remark", "thumbhole": "remark", "thumb hole": "remark", "armhole": "remark",
    "opening": "remark", "for buttonhole": "remark", "for the buttonhole": "remark", "for the opening": "remark",
    "for thumb": "remark", "for the thumb": "remark", "for armhole": "remark", "for the armhole": "remark",
    "rs": "remark", "ws": "remark", "with rs": "remark", "with ws": "remark", "to close": "close", "tail": "yarn",
    "for sewing": "remark", "facing": "remark", "loosely": "remark", "tightly": "remark", "firmly": "remark",
    "do not count": "remark", "as before": "remark", "to form": "remark", "to close the": "close",
}  # fmt: skip

# A line that begins so is a working step even without a stitch in it (a subset of DOINGS would be too forgiving).
STEP_STARTS = frozenset(
    first
    for first in (key.split()[0] for key, kind in DOINGS.items() if kind != "remark")
    if first not in ("last", "each", "both", "in", "no", "the", "leave", "put", "to", "f", "tail", "marker", "finish")
) | frozenset(
    ["leave", "leaving", "holding", "return", "divide", "split", "put", "finish", "turn", "join", "change", "switch", "rotate", "pull", "bring", "make", "hold", "block", "steam", "wash", "brush", "cross", "repeat", "rejoin", "reattach", "begin", "start", "continue", "work", "using", "with", "both", "lay", "slide", "tighten", "push", "remove", "shape", "roll", "let", "set", "use", "add", "cut", "now", "f/o", "don't", "do"]
)

TURN_WORDS = ("turn", "turning")
OTHER_SIDE = (
    "on other side of ch", "on other side of chain", "on the other side of the chain", "on other side of the chain",
    "on the other side of the ch", "on the other side of ch", "on other side", "on the other side",
    "along the other side", "along other side", "on opposite side", "on the opposite side", "along opposite side",
    "along the opposite side", "in free loops of ch", "in the free loops of the ch", "in the free loops of the chain",
    "in free loops of the chain", "on the underside of the ch", "on the underside of the chain", "in unused loops of ch",
    "turn to other side", "turn to the other side", "rotate to work along opposite side", "to other side",
    "down the other side", "down other side", "on the underside", "along the underside", "other side", "back along the chain",
    "on opposite side of foundation ch", "on opposite side of foundation chain", "on the opposite side of foundation ch",
    "on the opposite side of the foundation ch", "on the opposite side of the foundation chain",
    "along opposite side of foundation ch", "along the opposite side of the foundation chain",
    "in opposite side of foundation ch", "in the opposite side of the foundation chain", "on opposite side of ch",
    "on the opposite side of the chain", "on opposite side of chain", "back along the other side",
    "in remaining loops of foundation chain", "in the remaining loops of the foundation chain",
    "rotate to other side", "rotate to the other side", "rotate to work on the other side",
)  # fmt: skip
TRUST = {
    "as established": "as established", "in pattern": "in pattern", "in patt": "in pattern", "in pat": "in pattern",
    "in est pattern": "in pattern", "in established pattern": "in pattern", "until it measures": "until it measures",
    **{f"until {thing} {verb}": "until it measures" for thing in (
        "piece", "the piece", "work", "the work", "hat", "the hat", "body", "the body", "sleeve", "the sleeve", "cuff",
        "the cuff", "mitten", "the mitten", "shawl", "the shawl", "scarf", "the scarf", "strip", "the strip", "band",
        "the band", "front", "back", "panel", "the panel", "yoke", "the yoke", "thumb", "the thumb", "blanket", "the blanket",
        "leg", "the leg", "foot", "the foot",
    ) for verb in ("measures", "is")},
    "until it is": "until it measures", "until measuring": "until it measures", "until you have": "until it measures",
    "for another": "for a length", "for a further": "for a length",
    "for desired length": "to the length wanted", "to desired length": "to the length wanted",
    "until desired length": "to the length wanted", "adjusting as needed": "adjusting as needed",
    "adjusting as necessary": "adjusting as needed", "adjust as needed": "adjusting as needed",
    "at the same time": "at the same time", "evenly around": "evenly, without a number",
    "evenly along": "evenly, without a number", "evenly across": "evenly, without a number",
    **dict.fromkeys((
        "along the side of", "along the side", "along the edge", "along the edges", "along the long", "along the short",
        "along row ends", "along the row ends", "into the end of each row", "in the end of each row", "into the ends of the rows",
        "in the ends of the rows", "along the ends", "the edge", "the edges", "the side of", "the sides of", "the row ends", "row ends",
        "the ends of the rows", "the end of each row", "each row", "every row", "the brim", "the neckline", "the outside of",
    ), "along an edge, whose stitches are not counted"),
    "evenly spaced": "evenly, without a number", "evenly": "evenly, without a number",
}  # fmt: skip
MEASURED = ("until it measures", "for a length")  # a measure follows: rows by the gauge
EVEN = ("work even", "work evenly", "unchanged", "no inc or dec", "no incs or decs", "even", "straight", "without increasing",
        "no increases", "no increase", "no changes")  # fmt: skip

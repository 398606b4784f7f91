"""Stitches and terms as data: one table for US and UK names, with what each stitch uses and makes.

Sources: names and US/UK equivalence, Craft Yarn Council, *Standards & Guidelines for Crochet and Knitting* (2018);
uses and makes, heights and turning chains: common practice, no source. Yarn factors, in multiples of the stitch width:
derived from a published five-inch swatch experiment in sc, hdc and dc (strip lengths 10.6, 15.7 and 20.4 in per inch of
width; a chain about 5); tr and taller, slip stitches and the special ones by extrapolation, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

from .. import late_re as re

SYSTEMS = ("US", "UK")


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch. ``key`` is its US abbreviation and its identity; ``base`` the plain stitch it is made of.

    ``uses`` places of the last round give ``makes`` stitches. ``height`` is in chains (idealised), ``yarn`` in stitch
    widths for the whole stitch. ``kind``: plain, increase, decrease, skip, slip, chain, post, group, foundation, picot.
    """

    key: str
    name: str
    uses: int = 1
    makes: int = 1
    height: float = 1.0
    yarn: float = 10.6
    kind: str = "plain"
    base: str = ""
    loop: str = ""
    parts: tuple[tuple[str, int], ...] = ()  # of a declared group: stitches and chains in one place

    @property
    def plain(self) -> bool:
        """Whether one stitch is worked into one."""
        return self.uses == 1 and self.makes == 1


# The plain stitches: US key, US name, UK key, UK name, height in chains, yarn factor, further US words, further UK words.
_PLAIN = (
    ("sc", "single crochet", "dc", "double crochet", 1.0, 10.6, ("s c",), ("d c",)),
    ("hdc", "half double crochet", "htr", "half treble", 2.0, 15.7,
     ("half double", "h d c"), ("half treble crochet", "half tr", "h tr")),
    ("dc", "double crochet", "tr", "treble", 3.0, 20.4, ("d c",), ("treble crochet", "t r")),
    ("tr", "treble crochet", "dtr", "double treble", 4.0, 25.0,
     ("trc", "tc", "tr c", "treble", "triple crochet"), ("double treble crochet", "d tr")),
    ("dtr", "double treble crochet", "trtr", "triple treble", 5.0, 30.0,
     ("double treble", "d tr"), ("ttr", "triple treble crochet")),
    ("trtr", "triple treble crochet", "qtr", "quadruple treble", 6.0, 35.0,
     ("triple treble", "ttr"), ("quad tr", "quadtr", "quadruple treble crochet")),
)


def plain_names() -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """The US and the UK names of each plain stitch: abbreviation, name in words, further spellings."""
    for key, name, uk, uk_name, _height, _yarn, more, uk_more in _PLAIN:
        yield (key, name, *more), (uk, uk_name, *uk_more)


# Words for other stitches: key, name, uses, makes, height, yarn factor, kind, further words, base (US key).
# They are the same in both systems, except for names built from plain stitches (see _compounds).
_OTHERS = (
    ("sl st", "slip stitch", 1, 1, 0.0, 5.5, "slip",
     ("slst", "ss", "slip st", "slip", "sls", "sl sts", "slip sts", "slips", "s s", "sl stitch", "sl"), ""),
    ("sk", "skip", 1, 0, 0.0, 0.0, "skip", ("skip", "miss", "skipping", "missing", "leave out", "skp"), ""),
    ("ch", "chain", 0, 1, 0.0, 5.0, "chain", ("chain", "chains", "chs", "chain st", "ch st"), ""),
    ("inc", "increase", 1, 2, 1.0, 21.2, "increase",
     ("increase", "increases", "incr", "incs", "inv inc", "invinc", "invisible inc", "invisible increase"), "sc"),
    ("dec", "decrease", 2, 1, 1.0, 14.0, "decrease",
     ("decrease", "decreases", "decs", "inv dec", "invdec", "invisible dec", "invisible decrease",
      "invisible sc dec", "invisible sc decrease"), "sc"),
    ("rsc", "reverse single crochet", 1, 1, 1.0, 12.0, "plain",
     ("reverse sc", "reverse single crochet", "rev sc", "crab st", "crab stitch", "crab", "rscs"), "sc"),
    ("esc", "extended single crochet", 1, 1, 1.5, 13.0, "plain", ("ext sc", "extended sc", "exsc"), "sc"),
    ("ehdc", "extended half double crochet", 1, 1, 2.5, 18.0, "plain", ("ext hdc", "extended hdc", "exhdc"), "hdc"),
    ("edc", "extended double crochet", 1, 1, 3.5, 23.0, "plain", ("ext dc", "extended dc", "exdc"), "dc"),
    ("etr", "extended treble crochet", 1, 1, 4.5, 27.0, "plain", ("ext tr", "extended tr"), "tr"),
    ("camel", "camel stitch", 1, 1, 2.0, 15.7, "plain", ("camel st", "camel sts", "camel stitches"), "hdc"),
    ("hhdc", "herringbone half double crochet", 1, 1, 2.0, 15.7, "plain", ("herringbone hdc",), "hdc"),
    ("bobble", "bobble", 1, 1, 3.0, 45.0, "group", ("bo", "bob", "bobbles", "bobble st", "bobble stitch"), "dc"),
    ("popcorn", "popcorn", 1, 1, 3.0, 60.0, "group", ("pc", "popcorns", "popcorn st", "pop"), "dc"),
    ("cluster", "cluster", 1, 1, 3.0, 40.0, "group", ("cl", "clusters", "cls"), "dc"),
    ("puff", "puff stitch", 1, 1, 2.0, 35.0, "group", ("ps", "puffs", "puff st", "puff stitch", "mini puff"), "hdc"),
    ("loop st", "loop stitch", 1, 1, 1.0, 22.0, "plain",
     ("loop stitch", "fur st", "fur stitch", "ls", "loop sts"), "sc"),
    ("spike st", "spike stitch", 1, 1, 1.0, 16.0, "plain", ("spike", "spike sc", "spike stitch", "spikes"), "sc"),
    ("picot", "picot", 0, 0, 0.0, 20.0, "picot", ("picots", "mini picot"), ""),
    ("x-st", "cross stitch", 2, 2, 3.0, 41.0, "group", ("cross st", "x st", "cross stitch", "cross sts"), "dc"),
    ("fsc", "foundation single crochet", 0, 1, 1.0, 16.0, "foundation", ("foundation sc",), "sc"),
    ("fhdc", "foundation half double crochet", 0, 1, 2.0, 17.2, "foundation", ("foundation hdc",), "hdc"),
    ("fdc", "foundation double crochet", 0, 1, 3.0, 15.5, "foundation", ("foundation dc",), "dc"),
)

# Only these names mean different things in the two systems, or exist in one alone: proof of the terms a pattern uses.
US_ONLY = ("sc", "hdc")
UK_ONLY = ("htr",)

INCREASE_WORDS = ("inc", "increase", "incr", "incs", "increases")
DECREASE_WORDS = ("dec", "decrease", "decs", "decreases")
INVISIBLE_WORDS = ("inv", "invisible")

LOOPS = {
    "back": ("blo", "bl", "back loop only", "back loops only", "back loop", "back loops", "tbl", "blp",
             "back half loop", "back wall", "through back loop", "back thread of loop", "back thread",
             "rear wall of the loop", "back wall of the loop", "rear wall", "back loop of loop", "through the back loop", "through back loops"),
    "front": ("flo", "fl", "front loop only", "front loops only", "front loop", "front loops", "flp",
              "front half loop", "through front loop", "through front loops"),
    "third": ("3lo", "3rd loop", "third loop", "horizontal bar"),
    "both": ("both loops", "through both loops"),
    "bump": ("back bump", "back bumps", "back ridge", "back ridges", "back bar", "back bars", "bump"),
}

# Common slips of fingers and autocorrect, tried before other near words.
SLIPS = {
    "dc": ("dec",), "dec": ("dc",), "so": ("sc",), "sx": ("sc",), "sv": ("sc",), "scc": ("sc",), "ssc": ("sc",),
    "cs": ("sc",), "inx": ("inc",), "ind": ("inc",), "ince": ("inc",), "nic": ("inc",), "deck": ("dec",),
    "dev": ("dec",), "desc": ("dec",), "edc": ("dec",), "hcd": ("hdc",), "hc": ("hdc",), "inch": ("inc",),
}

_KEY_OF_WORD = re.compile(r"[a-z]+|\d+|[^\W\d_]+")


def words_of(text: str) -> tuple[str, ...]:
    """The lower-case words and numbers of a name, as the tokenizer cuts them: "sc2tog" gives sc, 2, tog."""
    return tuple(_KEY_OF_WORD.findall(text.lower()))


def together(base: Stitch, number: int) -> Stitch:
    """*number* stitches of *base* worked together: uses *number*, makes 1."""
    return Stitch(
        f"{base.key}{number}tog", f"{number} {base.name} together", number, 1, base.height,
        round(base.yarn * (0.35 + 0.5 * number), 1), "decrease", base.key,
    )


def increase(base: Stitch, number: int = 2) -> Stitch:
    """*number* stitches of *base* in one place: uses 1, makes *number*."""
    key = f"{base.key} inc" if number == 2 else f"{base.key} {number}-in-1"
    name = f"{base.name} increase" if number == 2 else f"{number} {base.name} in one stitch"
    return Stitch(key, name, 1, number, base.height, base.yarn * number, "increase", base.key)


def decrease(base: Stitch) -> Stitch:
    """The plain decrease of *base*, two together."""
    return Stitch(
        f"{base.key} dec", f"{base.name} decrease", 2, 1, base.height, round(base.yarn * 1.35, 1), "decrease", base.key
    )


def post(base: Stitch, side: str) -> Stitch:
    """*base* around the post from the front or the back: FPdc, BPdc."""
    return Stitch(
        f"{side.upper()}{base.key}", f"{'front' if side == 'fp' else 'back'} post {base.name}",
        1, 1, base.height, base.yarn * 1.1, "post", base.key,
    )


@cache
def stitches() -> dict[str, Stitch]:
    """Every plain and special stitch of the table by its key."""
    table = {
        key: Stitch(key, name, height=height, yarn=yarn, base=key)
        for key, name, _uk, _ukname, height, yarn, _more, _ukmore in _PLAIN
    }
    for key, name, uses, makes, height, yarn, kind, _words, base in _OTHERS:
        table[key] = Stitch(key, name, uses, makes, height, yarn, kind, base)
    return table


SC_KEY = "sc"


Words = tuple[str, ...]


def _plain_words(system: str) -> Iterator[tuple[Words, Stitch]]:
    table = stitches()
    for key, name, uk, uk_name, _height, _yarn, more, uk_more in _PLAIN:
        for word in (key, name, *more) if system == "US" else (uk, uk_name, *uk_more):
            words = tuple(word.split())
            yield words, table[key]
            yield (*words[:-1], words[-1] + "s"), table[key]


def _compounds(words: Words, stitch: Stitch) -> Iterator[tuple[Words, Stitch]]:
    """Names built from a plain stitch's: hdc inc, dc2tog is read by number, FPdc, scblo, beginning with the word."""
    *head, last = words
    first, *rest = words
    wider, narrower = increase(stitch), decrease(stitch)
    for inc in INCREASE_WORDS:
        yield (*words, inc), wider
        yield (inc, *words), wider
        yield (*head, last + inc), wider
    for dec in DECREASE_WORDS:
        yield (*words, dec), narrower
        yield (dec, *words), narrower
        yield (*head, last + dec), narrower
        for inv in INVISIBLE_WORDS:
            yield (inv, *words, dec), narrower
    for side, long in (("fp", ("front", "post")), ("bp", ("back", "post"))):
        raised = post(stitch, side)
        for form in ((side + first, *rest), (side, *words), (*head, last + side), (*words, side), (*long, *words)):
            yield form, raised
    for loop, forms in (("back", ("blo", "bl", "tbl")), ("front", ("flo", "fl", "tfl"))):
        looped = replace(stitch, loop=loop)
        for name in forms:
            yield (*head, last + name), looped
            yield (name + first, *rest), looped
    if words == (SC_KEY,):
        yield ("bsc",), replace(stitch, loop="back")
    yield ("standing", *words), stitch
    yield ("chainless", *words), stitch


def _in_uk(word: str, base: str) -> str:
    """A name that is built on that of a plain stitch, as the UK has it: fsc is fdc, reverse sc is reverse dc."""
    for key, name, uk, uk_name, *_rest in _PLAIN:
        if key == base and name in word:
            return word.replace(name, uk_name)
        if key == base and word.endswith(key):
            return word.removesuffix(key) + uk
        if key == base and f" {key} " in word:
            return word.replace(f" {key} ", f" {uk} ")
    return word


RAISED = {"rtrf": ("fp", "dc"), "rtrb": ("bp", "dc"), "rdcf": ("fp", "sc"), "rdcb": ("bp", "sc")}


@cache
def words(system: str) -> dict[tuple[str, ...], Stitch]:
    """Every way to write a stitch in *system* ("US" or "UK"), as a tuple of lower-case words, with its stitch.

    Number families (sc2tog, inc3) are not listed: the parser builds them from :func:`together` and :func:`increase`.
    """
    table = stitches()
    found: dict[tuple[str, ...], Stitch] = {}
    sc = table[SC_KEY]
    for word, built in (("triple inc", increase(sc, 3)), ("double dec", together(sc, 3)), ("double inc", increase(sc, 3)),
                        ("m1", increase(sc))):  # fmt: skip
        found[words_of(word)] = built
    for key, long, *_numbers, more, base in _OTHERS if system == "UK" else ():
        for word in (key, long, *more):
            if _in_uk(word, base) != word:
                found.setdefault(words_of(_in_uk(word, base)), table[key])
    for key, long, *_numbers, more, _base in _OTHERS:
        for word in (key, long, *more):
            found.setdefault(words_of(word), table[key])
    for name, stitch in _plain_words(system):
        found[name] = stitch
        for compound, built in _compounds(name, stitch):
            found.setdefault(compound, built)
    if system == "UK":
        for word, (side, base) in RAISED.items():
            found[words_of(word)] = post(table[base], side)
    return found


def abbreviation(stitch: Stitch, system: str) -> str:
    """How *stitch* is abbreviated in *system*: the US key sc is dc in the UK, sc2tog is dc2tog."""
    if system == "US":
        return stitch.key
    base = stitch.base or stitch.key
    uk = next((uk for key, _n, uk, *_rest in _PLAIN if key == base), None)
    if uk is None or base == stitch.key:
        return uk or stitch.key
    if stitch.key in ("inc", "dec") or base not in stitch.key:
        return stitch.key
    return stitch.key.replace(base, uk, 1)


def full_name(stitch: Stitch, system: str) -> str:
    """The stitch's name in words in *system*."""
    if system == "US":
        return stitch.name
    for key, name, _uk, uk_name, *_rest in _PLAIN:
        if key == (stitch.base or stitch.key) and name in stitch.name:
            return stitch.name.replace(name, uk_name, 1)
    return stitch.name

"""Labels of header lines: which key is meant by "Colour A", "Tension", "Weighed (tester 2)" or "Hok"."""

from __future__ import annotations

from functools import lru_cache

from .. import late_re as re
from .keys import COLOR_KEYS, COLOR_WORDS, NO_SLIP, STANDARD
from .near import nearest

_TAIL = r"(?P<bracket> ?\([^()]{1,40}\))? ?[:\uff1a](?!//)\s*"
_SHAPE = re.compile(rf"\s*(?P<key>[^\W\d_](?:[^\W\d_]|[ '&./-]){{0,59}}?){_TAIL}")
_NUMBERED = re.compile(rf"\s*(?P<key>(?:colou?r|col|yarn|hook|cc|mc) ?\d{{1,3}}){_TAIL}", re.IGNORECASE)
# "Corrected 2026-03-20:", "Corrected on 14 March 2026:": the only label with its date in it.
_DATED = re.compile(
    rf"\s*(?P<key>correct(?:ed|ions?)(?: on)? (?=[^:\d]{{0,12}}\d)[\w ,./-]{{3,30}}?){_TAIL}", re.IGNORECASE
)


@lru_cache(maxsize=1024)
def split_key(text: str) -> tuple[str, int] | None:
    """The label and the offset of the value, if a line has the shape ``Key: value``; else None.

    A key has up to five words of letters, perhaps with a bracket behind ("Weighed (tester 2)"); "Color 1" has a number and
    "Corrected 14 March 2026" a date.
    """
    if ":" not in text and "\uff1a" not in text:
        return None
    match = _SHAPE.match(text) or _NUMBERED.match(text) or _DATED.match(text)
    if match is None or len(match["key"].split()) > 5:
        return None
    return (match["key"].strip() + (" " + match["bracket"].strip() if match["bracket"] else "")), match.end()


def bare_label(label: str) -> str:
    """The label in lower case without its bracket, single spaces."""
    return " ".join(label.split("(")[0].lower().split())


@lru_cache(maxsize=512)
def color_key(label: str) -> str | None:
    """Whose colour a label declares: "A" for "Color A", "MC" for "Main colour", "blue" for "Color blue"; else None."""
    bare = bare_label(label)
    if bare in COLOR_KEYS:
        return COLOR_KEYS[bare]
    if re.fullmatch(r"[mc]c ?\d{0,2}", bare):
        return bare.upper().replace(" ", "")
    head, _, tail = bare.partition(" ")
    if head in COLOR_WORDS and tail:
        written = " ".join(label.split("(")[0].split()).partition(" ")[2]
        return written.upper() if len(written) <= 2 or tail[:2] in ("mc", "cc") and len(written) <= 4 else written
    return None


@lru_cache(maxsize=512)
def known_key(label: str) -> str | None:
    """The standard key of a label in lower case: "color" for "Colour A", "gauge" for "Tension"; None if unknown."""
    return "color" if color_key(label) else _known(bare_label(label))


def _known(bare: str) -> str | None:
    """The standard key of a label without bracket; "Yarn 2" and "Hook A" are a yarn and a hook."""
    found = STANDARD.get(bare)
    if found is None and any(character.isdigit() for character in bare) and _DATED.match(f"{bare}:"):
        return "corrected"
    if found is None:
        head, _, tail = bare.rpartition(" ")
        if tail.isdigit() or len(tail) == 1:
            found = STANDARD.get(head) if STANDARD.get(head) in ("yarn", "hook", "weighed", "special stitch") else None
    return found


def near_key(label: str) -> str | None:
    """The known key that an unknown label is a slip of: two letters and a third of its length off at most."""
    word = near_word(label)
    return None if word is None else STANDARD[word]


@lru_cache(maxsize=512)
def near_word(label: str) -> str | None:
    """The known word for a key that a label, or its part before a colour's letter, is near."""
    if known_key(label):
        return None
    bare = bare_label(label)
    head, _, tail = bare.rpartition(" ")
    if head and (len(tail) <= 2 or tail.isdigit()) and (word := nearest(head, COLOR_WORDS)):
        return word
    return nearest(bare, [word for word in STANDARD if word not in NO_SLIP])

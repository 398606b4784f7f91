"""Cuts pattern blocks into statements: which lines belong together, and what each begins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from .. import late_re as re
from ..source import BlockLine, Reading, ReadStatement, Statement
from . import vocabulary
from .cells import table_row
from .labels import known_key, split_key
from .listed import Listed, find_lists, may_lead
from .normalise import normalise
from .readings import joined, placed_label
from .round_labels import FoundLabel, find_label, nearly_a_label
from .size_words import sizes_named
from .translation import Translator
from .translators import translators
from .words import NUMBER_WORDS, STEP_STARTS

_BULLET = re.compile(r"\s*(?:[-+•·◦▪‣●○–]\s+|\[[ xX]?\]\s+)+")
_STAR_BULLET = re.compile(r"\s*\*\s+(?=(?:r(?:oun)?n?d?s?|rows?)\.?\s*\d|\d+(?:st|nd|rd|th)?\s+r|\d+\s*[.:])", re.IGNORECASE)
_GOES_ON = re.compile(r"(?:[,;:]|(?:^|\s)(?:and|then|with|in|into|or|to|next|each|the|of|for|from|last|same|first|both|x|&|\+))\s*$", re.IGNORECASE)
_REP, _FROM = re.compile(r"\b(?:rep|repeat|rpt)\s*$", re.IGNORECASE), re.compile(r"\s*(?:from|between)\b", re.IGNORECASE)
_ONLY_COUNT = re.compile(
    r"[-=\s]{0,60}(?:total|st count|stitch count|count|you (?:should )?(?:now )?have|= ?)?\s{0,60}[:=]?\s{0,60}"
    r"(?:[(\[{<]\s{0,60}=?\s{0,60}[+-]?\d[^()\[\]{}]{0,60}[)\]}>]|(?:=\s{0,60}|total\s{0,60}:?\s{0,60}|have\s{1,60}|count\s{0,60}:?\s{0,60}|-{1,60}\s{1,60})\d{1,200}(?:\s{1,60}[a-z' -]{0,30})?"
    r"|\d{1,200}\s{1,60}(?:sts|stitches|st)(?:\s{1,60}(?:total|made|in all))?)\s*+\.?\s*+$",
    re.IGNORECASE,
)
_FOUNDATION = re.compile(
    r"\s*(?:(?:with|using|in)\s+[^,.:]{1,30}[,:]\s*)?(?:ch(?:ain)?(?:\b|(?=\d))|\d+\s*ch\b|make\s+(?:an?\s+)?\d*\s*(?:ch|magic|ring|slip\s*knot)|"
    r"(?:begin|start)\s+(?:with\s+)?(?:an?\s+)?(?:loop|magic|ring|ch|\d)|magic\s+(?:ring|circle|loop)|mr\b|mc\b|\d*\s*f(?:sc|hdc|dc)\b|dial\s+\d|into\s+(?:a\s+)?ring|slip\s*knot)",
    re.IGNORECASE,
)
# A line that was broken for a narrow page: a round without its count, and words that can't begin one.
_HAS_ENDED = re.compile(r"(?:[(\[{]\s*=?\s*\d[^()\[\],]{0,40}[)\]}]|=\s*\d+|[.!?])\s*$")
_WRAPPED = re.compile(
    r"\s*(?:x\s?\d|\d+\s?(?:times|x|sts?)\b|times\b|around\b|across\b|sts?\b|stitch(?:es)?\b|in\s+(?:the|each|next|same|both)\b|"
    r"each\b|next\b|last\b|more\b|to\s+(?:the\s+)?(?:end|last)\b|(?:rep|repeat)\s+from\b|from\s+\*|evenly\b|\d{1,4}\s*$)"
)
# "Sl st the short ends together": a seam, no round.
_SEWS = re.compile(
    r"\s*(?:sl(?:ip)?[ -]?st(?:itch)?|ss|sc|single crochet|dc|crochet)\s+(?:the|both|these|your)\s[^.;\d]{1,80}\b(?:together|closed|shut|in place)\b",
    re.IGNORECASE,
)
_BARE_LABEL = re.compile(r"^\s*\d{1,6}\s*\)")
_TIMES_STAR = re.compile(r"[)\]}]\s*\*\s*(?=\d)")
_IN_COLOR = re.compile(r"\s*in\s+(?!the\b|an?\b|this\b|that\b)[^.:;,\d]{1,25}[.,:]?\s*$", re.IGNORECASE)  # "In MC,"
_RULED = re.compile(r"\s*(?:[*=~.\u2022-]\s?){3,}$")  # "***", "---": a line drawn between two parts
_ASIDE = re.compile(r"\s*(?:n\.?b\.?[:\s]|p\.?s\.?:|(?:hot )?tips?:|hint:|(?:and )?(?:you're|you are|we're|all) (?:all )?done\b[^0-9]*$)", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"\s*\([^()\d]{8,200}\)\s*$")  # "(I lost count here the first time!)"
# The foot of a printed page in text that was copied from it.
_FOOT = re.compile(
    r"\s*(?:(?:\u00a9|\(c\)(?=[^\d]{0,60}(?:19|20)\d\d\b)|copyright\b(?!\s*:)|all rights reserved\b).{0,200}|-?\s*page\s+\d{1,4}(?:\s*(?:of|/)\s*\d{1,4})?\s*-?|"
    r"\d{1,4}\s*(?:/|of)\s*\d{1,4}|\d{1,4}|(?:https?://|www\.)\S{1,200})\s*$",
    re.IGNORECASE,
)
# "MR = magic ring", "inc = 2 sc in one st": a line of an abbreviations list; what is no mere count stands behind the sign.
_DEFINITION = re.compile(r"\s*[a-z][\w()/.-]{0,12}(?: [a-z0-9]{1,8}){0,2}\s+=\s+(?!\d+(?:\s+\w+)?\s*\.?\s*$)\w", re.IGNORECASE)
_WORDS = re.compile(r"[^\W\d_]+|\d+")
_EXCUSE = re.compile(r"\s*>>\s*right as written\b\s*:?\s*(.*)", re.IGNORECASE | re.DOTALL)


LONGEST = 10_000  # characters; nobody writes a round as long, and no reader could follow it
# A gap, a word or a number longer than anybody's: many expressions would look at every part of it.
_GAP = " " * 100
_RUN = re.compile(r"(?<!\s)\s{200,}+\S|(?<![A-Za-z])[A-Za-z]{200}|(?<!\d)\d{200}")


@dataclass(eq=False, slots=True)
class Cut:
    """A statement with what it is: blank lines are left out.

    ``kind``: header, heading, plain-heading, foot, round, count, foundation, step, note, private, excuse, near-label, other.
    ``block`` is the number of its block, ``label`` of a round.
    """

    kind: str
    statement: Statement
    block: int
    label: FoundLabel | None = None
    reason: str = ""
    near: str = ""
    sizes: str = ""  # the names in "Sizes M and L only:"


def stitch_words() -> frozenset[str]:
    """Every word that begins a stitch's name in either system, two letters or more."""
    return _STITCH_WORDS


_STITCH_WORDS = frozenset(
    key[0]
    for system in vocabulary.SYSTEMS
    for key in vocabulary.words(system)
    if len(key) == 1 and len(key[0]) > 1 and key[0] not in ("loop", "chain", "skip", "miss", "slip", "bo", "ps", "ls", "cl", "bob", "pop", "double", "treble")
) | frozenset(("crochet", "stitches", "sts", "stitch"))


def cut_blocks(blocks: Sequence[Sequence[BlockLine]], terms: str = "") -> list[Cut]:
    """The statements of all blocks, in order. A statement never reaches from one block into the next.

    *terms* is the site's default for patterns that declare none.
    """
    cuts: list[Cut] = []
    blocks = [[part for line in lines for part in _rounds_of(line)] for lines in blocks]
    readers = translators(blocks, terms)
    for number, lines in enumerate(blocks):
        cuts.extend(_cut(lines, number, readers))
    return cuts


# "... (18). Rnd 4: ...": a second round on the same line, behind a count or a full stop and with a colon of its own.
_SECOND_ROUND = re.compile(r"(?<=[.;)\]}])\s+(?=(?:rounds?|rnds?|rows?|rd|r)\.?\s*\d+(?:\s*(?:-|to)\s*\d+)?\s*(?:\([^()]{1,20}\)\s*)?:)", re.IGNORECASE)


def _is_too_long(text: str) -> bool:
    """Whether nobody can have typed this line, and no expression should have to look through it."""
    return len(text) > LONGEST or len(text) >= 200 and _RUN.search(text) is not None


def _rounds_of(line: BlockLine) -> list[BlockLine]:
    """The line, cut where a second round begins on it; a gap at its end that nobody typed is no part of it."""
    if line.text.endswith(_GAP):
        line = BlockLine(line.number, line.column, line.text.rstrip())
    if ":" not in line.text or line.text.lstrip()[:1] in (">", "#") or len(line.text) > LONGEST:
        return [line]
    starts = [0, *(match.end() for match in _SECOND_ROUND.finditer(line.text))]
    if len(starts) == 1:
        return [line]
    ends = [*starts[1:], len(line.text)]
    return [BlockLine(line.number, line.column + start, line.text[start:end]) for start, end in zip(starts, ends, strict=True)]


@dataclass(slots=True)
class _Growing:
    kind: str
    lines: list[BlockLine]
    texts: list[str]  # in English words, where the pattern declares other terms
    indent: int
    label: FoundLabel | None = None
    reason: str = ""
    near: str = ""
    depth: int = 0
    stars: int = 0
    starred: bool = False
    length: int = 0
    sizes: str = ""
    plain: list[str] = field(default_factory=list)  # as the writer has them
    readings: list[Reading | None] = field(default_factory=list)

    def full(self, text: str) -> bool:
        """Whether one more line would make the statement longer than anybody writes."""
        self.length += len(text)
        return self.length > LONGEST

    def add(self, line: BlockLine, plain: str, reading: Reading | None) -> None:
        text = plain if reading is None else reading.text
        self.lines.append(line)
        self.texts.append(text)
        self.plain.append(plain)
        self.readings.append(reading)
        count = text.count
        self.depth += count("(") + count("[") + count("{") - count(")") - count("]") - count("}")
        self.starred = self.starred or "*" in text
        self.stars = _open_stars(self.texts) if self.starred else 0

    def cut(self, block: int) -> Cut:
        """The finished statement; of a header line or heading only its English words are of use."""
        reading = joined(self.plain, self.readings)
        if reading is not None and self.label is not None:
            self.label = placed_label(self.label, reading)
        if reading is not None and self.kind in ("header", "heading"):
            return Cut(self.kind, ReadStatement(self.lines, reading), block)
        return Cut(self.kind, Statement(self.lines, self.plain, reading), block, self.label, self.reason, self.near, self.sizes)


def _cut(lines: Sequence[BlockLine], block: int, readers: Iterator[Translator | None]) -> list[Cut]:
    cuts: list[Cut] = []
    growing: _Growing | None = None

    def close() -> None:
        nonlocal growing
        if growing is not None:
            cuts.append(growing.cut(block))
        growing = None

    lists = _lists(lines)
    listed: frozenset[int] = frozenset()
    for index, line in enumerate(lines):
        reader = next(readers)
        if reader is None and index in lists:
            close()
            listed = lists[index].members
            cuts.append(Cut("header", lists[index].statement, block))
        if index in listed:
            continue
        if _is_too_long(line.text):
            close()
            cuts.append(Cut("too-long", Statement([line]), block))
            continue
        plain = normalise(line.text)
        if "|" in plain:
            plain = table_row(plain)
        if not plain.strip() or _RULED.match(plain):
            close()
            continue
        plain, cut = _unbulleted(plain)
        plain, named = sizes_named(plain) if plain.lstrip()[:1] not in (">", "#") else (plain, "")
        if named and not plain.strip():
            close()
            cuts.append(Cut("sizes", Statement([line]), block, sizes=named))
            continue
        reading = reader.line(plain) if reader is not None else None
        text = plain if reading is None else reading.text
        if _FOOT.match(text) and not (text.strip().isdigit() and growing is not None and _continues(growing, text, False, 0)):
            cuts.append(Cut("foot", Statement([line]), block))
            continue
        begins = _begins(text, line)
        if growing is not None and not named and not begins.kind and _continues(growing, text, cut, _indent(line.text)) and not growing.full(text):
            growing.add(line, plain, reading)
            continue
        close()
        begins = begins if begins.kind else _other(text)
        growing = _Growing(begins.kind, [], [], _indent(line.text), begins.label, begins.reason, begins.near, sizes=named)
        growing.add(line, plain, reading)
    close()
    return cuts


def _lists(lines: Sequence[BlockLine]) -> dict[int, Listed]:
    """Lists under "Materials:", "Abbreviations used" and the like, by the index of their first line."""
    if not any(may_lead(line.text) for line in lines):
        return {}
    plain = ["" if _is_too_long(line.text) else normalise(line.text) for line in lines]
    return find_lists(lines, plain, lambda text: bool(_FOUNDATION.match(text)) or _begins_work(text))


def _begins_work(text: str) -> bool:
    """Whether a line begins a heading, a note or a round, or asks to go on in what is worked."""
    return text.lstrip()[:1] in ("#", ">") or find_label(text) is not None and not re.match(r"\s*\d", text)


def _is_only_count(text: str) -> bool:
    return len(text) < 200 and _ONLY_COUNT.match(text.strip()) is not None


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip())


def _unbulleted(text: str) -> tuple[str, bool]:
    """The text with a bullet made blank, and whether there was one."""
    match = _STAR_BULLET.match(text) or (_BULLET.match(text) if text.lstrip()[:1] in "-+•·◦▪‣●○[" else None)
    if match is None or not text[match.end() :].strip():
        return text, False
    if text.lstrip()[:1] in "-+" and re.match(r"[-+\s]*\d+\s*(?:sts?|sc)?\s*$", text):
        return text, False
    return " " * match.end() + text[match.end() :], True


@dataclass(slots=True)
class _Begin:
    kind: str = ""
    label: FoundLabel | None = None
    reason: str = ""
    near: str = ""


def _begins(text: str, line: BlockLine) -> _Begin:
    """What a line begins whatever came before: a note, heading, round, header. "" where it may be a continuation."""
    bare = text.lstrip()
    if bare.startswith(">"):
        if bare.startswith(">>"):
            match = _EXCUSE.match(text)
            return _Begin("excuse", reason=match[1].strip()) if match else _Begin("private")
        return _Begin("note")
    if bare.startswith("#") and re.match(r"#{1,6}(?:\s|[^\W\d_])", bare):
        return _Begin("heading")
    label = find_label(text)
    if label is not None and not (label.bare and not _looks_worked(text[label.body :])) and not _refers(text, label):
        return _Begin("round", label)
    if _ASIDE.match(text) or _IN_BRACKETS.match(text) and not holds_pattern_words(text):
        return _Begin("note")
    if _DEFINITION.match(text):
        return _Begin("definition")
    if _is_only_count(text):
        return _Begin()
    split = split_key(text)
    if split is not None and known_key(split[0]) is not None:
        return _Begin("header")
    return _Begin()


def _refers(text: str, label: FoundLabel) -> bool:
    """"Rows 1-4 form the pattern": rounds are spoken about, not worked."""
    rest = text[label.body :].lstrip().lower()
    return rest.startswith(("form ", "are ", "should ", "of the ", "of ")) and ":" not in text[: label.body]


def _looks_worked(rest: str) -> bool:
    """Whether text behind a bare number reads like an instruction: a stitch word or a count stands in it."""
    words = _WORDS.findall(rest.lower())
    if rest.rstrip().endswith(",") and rest.strip(" ,"):
        return True
    rings = ("mr", "mc", "ar", "magic", "ring", "adjustable")
    return any(word in _STITCH_WORDS or word.rstrip("x") in _STITCH_WORDS or word in rings for word in words[:40]) or bool(
        re.match(r"\s*(?:[(\[]\d+[)\]]\s*)?(?:unchanged|work even|as |same |rep(?:eat)? )|\s*\d+\s*[(\[]?\d*[)\]]?\s*$", rest, re.IGNORECASE)
    )


def _continues(growing: _Growing, text: str, bulleted: bool, indent: int) -> bool:
    if growing.kind not in ("round", "step", "foundation", "header", "other"):
        return False
    if bulleted:
        return False
    deeper = indent > growing.indent
    if growing.kind == "header":
        return deeper
    if _is_only_count(text):
        return growing.kind != "other"
    if deeper and growing.kind != "other":
        return True
    if growing.kind == "other":
        return False
    if _REP.search(growing.texts[-1]) and _FROM.match(text):
        return True  # "*3 sc, inc; rep" | "from * around"
    if growing.kind == "round" and _WRAPPED.match(text) and not _HAS_ENDED.search(growing.texts[-1]):
        return True
    return growing.depth > 0 or growing.stars % 2 == 1 or bool(_GOES_ON.search(growing.texts[-1]))


def _open_stars(texts: list[str]) -> int:
    """How many single stars are still open: a multiplication star and a star with its "rep from *" are not."""
    text = _BARE_LABEL.sub("", " ".join(texts))
    # "(sc, inc) * 6" multiplies, but in "*sc, (2 sc in next st)* 6 times" the star closes the one before.
    text = _TIMES_STAR.sub(lambda match: match[0] if text.count("*", 0, match.start()) % 2 else ")", text)
    first = text.find("*")
    if first < 0 or re.search(r"\b(?:rep|repeat|rpt)\b", text, re.IGNORECASE):
        return 0
    stars = len(re.findall(r"\*+", text))
    return (stars - len(re.findall(r"\w\*(?=\d)", text)) if stars % 2 else stars) % 2


def _other(text: str) -> _Begin:
    """What a line is that begins nothing plain: near a label, a foundation, a step, an unknown header, or something else."""
    near = nearly_a_label(text)
    if near:
        return _Begin("near-label", near=near)
    split = split_key(text)
    if text.lstrip()[:2].lower() in ("in", "wi", "us") and _FOUNDATION.match(text):
        return _Begin("foundation")
    if split is not None and split[1] < len(text.rstrip()) and not _step_like(text) and not _looks_worked(text[split[1] :]):
        return _Begin("header")
    if _FOUNDATION.match(text):
        return _Begin("foundation")
    if _step_like(text):
        return _Begin("step")
    return _Begin("other")


def _step_like(text: str) -> bool:
    words = _WORDS.findall(text.lower()[:60])
    if not words:
        return False
    if words[0] == "in" and _IN_COLOR.match(text) or words[:2] == ["back", "to"] and len(words) < 5:  # "Back to walnut!"
        return True
    if _SEWS.match(text) or words[0] == "pop" and words[1:2] != ["the"] and words[1:2] != ["your"]:
        return bool(_SEWS.match(text))
    return words[0] in STEP_STARTS or (words[0] in ("don", "f") and len(words) > 1 and words[1] in ("t", "o"))


def holds_pattern_words(text: str) -> bool:
    """Whether an unreadable line holds a digit, a number word, a stitch word or a round label: then it may be work."""
    words = _WORDS.findall(text.lower())
    numbers = set(NUMBER_WORDS) - {"a", "an", "one"}  # "a quick one" is prose
    return any(
        word.isdigit() or word in numbers or word in _STITCH_WORDS or word in ("rnd", "rnds", "round", "rounds", "row", "rows")
        for word in words
    ) or any(char.isdigit() for char in text)

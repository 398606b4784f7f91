"""A statement with what it is, and how it grows line by line: whether a line goes on with the one before."""

from __future__ import annotations

from dataclasses import dataclass, field

from .. import late_re as re
from ..source import BlockLine, Reading, ReadStatement, Statement
from .line_beginnings import is_only_count
from .readings import joined, placed_label
from .round_labels import FoundLabel

_GOES_ON = re.compile(r"(?:[,;:]|(?:^|\s)(?:and|then|with|in|into|or|to|next|each|the|of|for|from|last|same|first|both|x|&|\+))\s*$", re.IGNORECASE)
_REP, _FROM = re.compile(r"\b(?:rep|repeat|rpt)\s*$", re.IGNORECASE), re.compile(r"\s*(?:from|between)\b", re.IGNORECASE)
# A line that was broken for a narrow page: a round without its count, and words that can't begin one.
_HAS_ENDED = re.compile(r"(?:[(\[{]\s*=?\s*\d[^()\[\],]{0,40}[)\]}]|=\s*\d+|[.!?])\s*$")
_WRAPPED = re.compile(
    r"\s*(?:x\s?\d|\d+\s?(?:times|x|sts?)\b|times\b|around\b|across\b|sts?\b|stitch(?:es)?\b|in\s+(?:the|each|next|same|both)\b|"
    r"each\b|next\b|last\b|more\b|to\s+(?:the\s+)?(?:end|last)\b|(?:rep|repeat)\s+from\b|from\s+\*|evenly\b|\d{1,4}\s*$)"
)
_BARE_LABEL = re.compile(r"^\s*\d{1,6}\s*\)")
_TIMES_STAR = re.compile(r"[)\]}]\s*\*\s*(?=\d)")
LONGEST = 10_000  # characters; nobody writes a round as long, and no reader could follow it


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


@dataclass(slots=True)
class Growing:
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


def continues(growing: Growing, text: str, bulleted: bool, indent: int) -> bool:
    if growing.kind not in ("round", "step", "foundation", "header", "other"):
        return False
    if bulleted:
        return False
    deeper = indent > growing.indent
    if growing.kind == "header":
        return deeper
    if is_only_count(text):
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

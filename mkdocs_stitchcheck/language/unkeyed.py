"""Header lines without a key: a title alone at the top, "Designed by ...", "This pattern is written in US terms."."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from .. import late_re as re
from ..findings import Findings
from .keys import TERMS_OF_WORD
from .line_beginnings import holds_pattern_words
from .plain_headings import header_key
from .said_of_rounds import chain_rule
from .statements import Cut
from .syntax import Header, HeaderLine

_TERMS = re.compile(
    r"(?<![\w])(?P<which>us|u\.s\.?|usa|uk|u\.k\.?|american|british)(?:\s+(?:english|standard|crochet|stitch))*\s+(?:terms?|terminology|abbreviations|stitch names)\b",
    re.IGNORECASE,
)
_SAYS_TERMS = re.compile(
    r"\W*(?:note\b:?\s*)?(?:(?:this|the|my)\s+pattern\s+(?:is\s+)?|pattern\s+(?:is\s+)?|it\s+is\s+|all\s+(?:stitches|terms|instructions)\s+(?:are\s+)?|i\s+)?"
    r"(?:(?:written|worked|given|described)\s+)?(?:uses?|using|in|with)?\s*(?:standard\s+)?$",
    re.IGNORECASE,
)
_DESIGNER = re.compile(r"\W*(?:(?:a\s+)?(?:pattern|design|crochet pattern)\s+by|designed\s+(?:and\s+written\s+)?by|written\s+by|by)\s+(?P<name>[^\W\d_][^\d:]{1,58}?)\s*[.!]?\s*$", re.IGNORECASE)
_TITLE_WORDS = 8
_SENTENCE = re.compile(r"[.!?;:,]|\b(?:is|are|was|have|has|you|your|i|i'm|we|it's|this|these)\b", re.IGNORECASE)


def mark_unkeyed(cuts: list[Cut]) -> None:
    """Sets the kind of header lines without a key to "unkeyed": before the first piece, and where no line with the key stands."""
    keyed = {header_key(cut) for cut in cuts if cut.kind == "header"}
    for index, cut in enumerate(cuts):
        if cut.kind in ("round", "foundation", "heading", "plain-heading"):
            return
        if cut.kind in ("other", "step") and len(cut.statement.lines) == 1:
            told = _told(cut, first=index == 0)
            if told is not None and (told[0] not in keyed or told[0] == "terms"):
                cut.kind = "unkeyed"
                keyed.add(told[0])


def read_unkeyed(cut: Cut, header: Header, findings: Findings) -> None:
    """Adds what a header line without a key says, after those with one; other terms than those declared are reported."""
    told = _told(cut, first=True)
    if told is None:
        return
    key, label, value, at = told
    before = header.first(key)
    if before is not None:
        if value != header.terms:
            findings.add("header-twice", cut.statement.span(), f"The terms stand in line {before.statement.line} already, and are others there.",
                         suggestion="Keep one of the two.")
        return
    header.lines.append(HeaderLine(key, label, value, cut.statement, at))
    if key == "terms":
        header.terms = value
    elif key == "title":
        header.title = value


def terms_in_notes(header: Header) -> None:
    """"Notes: ... Written in US terms ...": holds where no line says the terms."""
    for clause in _clauses(header):
        if not header.terms and (found := _terms(clause)) is not None:
            header.terms = found[0]


def chains_in_notes(header: Header) -> Iterator[tuple[int, bool]]:
    """"The ch 1 at the beginning of a row never counts as a stitch" among the notes: see :func:`chain_rule`."""
    for clause in _clauses(header):
        if (rule := chain_rule(clause)) is not None:
            yield rule


def _clauses(header: Header) -> Iterator[str]:
    for line in header.lines:
        if line.key == "notes":
            yield from re.split(r"(?<=[.!;])\s+", line.statement.text[line.value_start :])


def _told(cut: Cut, first: bool) -> tuple[str, str, str, int] | None:
    """The key, its label, the value and where that begins."""
    text = cut.statement.text
    readers: tuple[Callable[[str], tuple[str, int] | None], ...] = (_terms, _designer, _title)
    for reader, key in zip(readers, ("terms", "designer", "title"), strict=True):
        if (key != "title" or first) and (found := reader(text)) is not None:
            return key, key.capitalize(), *found
    return None


def _terms(text: str) -> tuple[str, int] | None:
    found = _TERMS.search(text)
    if found is None or len(text.split()) > 14 or not _SAYS_TERMS.match(text[: found.start()]):
        return None
    others = {TERMS_OF_WORD.get(word.strip(".").lower(), "") for word in re.findall(r"[\w.]+", text)} - {""}
    terms = TERMS_OF_WORD[found["which"].lower().rstrip(".")]
    return (terms, found.start("which")) if others <= {terms} else None


def _designer(text: str) -> tuple[str, int] | None:
    found = _DESIGNER.match(text)
    if found is None or len(found["name"].split()) > 6 or holds_pattern_words(found["name"]):
        return None
    return found["name"], found.start("name")


def _title(text: str) -> tuple[str, int] | None:
    words = text.split()
    if not 0 < len(words) <= _TITLE_WORDS or holds_pattern_words(text) or _SENTENCE.search(text.strip().rstrip("!.:")) or not text.strip()[:1].isalpha():
        return None
    if not (words[0][:1].isupper() or text.isupper()):
        return None
    return text.strip(), len(text) - len(text.lstrip())

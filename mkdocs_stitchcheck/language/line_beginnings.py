"""What a line begins: a header, heading, round, foundation, step or note; and whether it speaks of work at all."""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re
from ..source import BlockLine
from . import vocabulary
from .labels import known_key, split_key
from .round_labels import FoundLabel, find_label, nearly_a_label
from .words import NUMBER_WORDS, STEP_STARTS

ONLY_COUNT = re.compile(
    r"[-=\s]{0,60}(?:total|st count|stitch count|count|you (?:should )?(?:now )?have|= ?)?\s{0,60}[:=]?\s{0,60}"
    r"(?:[(\[{<]\s{0,60}=?\s{0,60}[+-]?\d[^()\[\]{}]{0,60}[)\]}>]|(?:=\s{0,60}|total\s{0,60}:?\s{0,60}|have\s{1,60}|count\s{0,60}:?\s{0,60}|-{1,60}\s{1,60})\d{1,200}(?:\s{1,60}[a-z' -]{0,30})?"
    r"|\d{1,200}\s{1,60}(?:sts|stitches|st)(?:\s{1,60}(?:total|made|in all))?)\s*+\.?\s*+$",
    re.IGNORECASE,
)
FOUNDATION = re.compile(
    r"\s*(?:(?:with|using|in)\s+[^,.:]{1,30}[,:]\s*)?(?:ch(?:ain)?(?:\b|(?=\d))|\d+\s*ch\b|make\s+(?:an?\s+)?\d*\s*(?:ch|magic|ring|slip\s*knot)|"
    r"(?:begin|start)\s+(?:with\s+)?(?:an?\s+)?(?:loop|magic|ring|ch|\d)|magic\s+(?:ring|circle|loop)|mr\b|mc\b|\d*\s*f(?:sc|hdc|dc)\b|dial\s+\d|into\s+(?:a\s+)?ring|slip\s*knot)",
    re.IGNORECASE,
)
# "Sl st the short ends together": a seam, no round.
_SEWS = re.compile(
    r"\s*(?:sl(?:ip)?[ -]?st(?:itch)?|ss|sc|single crochet|dc|crochet)\s+(?:the|both|these|your)\s[^.;\d]{1,80}\b(?:together|closed|shut|in place)\b",
    re.IGNORECASE,
)
_IN_COLOR = re.compile(r"\s*in\s+(?!the\b|an?\b|this\b|that\b)[^.:;,\d]{1,25}[.,:]?\s*$", re.IGNORECASE)  # "In MC,"
_ASIDE = re.compile(r"\s*(?:n\.?b\.?[:\s]|p\.?s\.?:|(?:hot )?tips?:|hint:|(?:and )?(?:you're|you are|we're|all) (?:all )?done\b[^0-9]*$)", re.IGNORECASE)
_IN_BRACKETS = re.compile(r"\s*\([^()\d]{8,200}\)\s*$")  # "(I lost count here the first time!)"
# "MR = magic ring", "inc = 2 sc in one st": a line of an abbreviations list; what is no mere count stands behind the sign.
_DEFINITION = re.compile(r"\s*[a-z][\w()/.-]{0,12}(?: [a-z0-9]{1,8}){0,2}\s+=\s+(?!\d+(?:\s+\w+)?\s*\.?\s*$)\w", re.IGNORECASE)
_WORDS = re.compile(r"[^\W\d_]+|\d+")
_EXCUSE = re.compile(r"\s*>>\s*right as written\b\s*:?\s*(.*)", re.IGNORECASE | re.DOTALL)


def stitch_words() -> frozenset[str]:
    """Every word that begins a stitch's name in either system, two letters or more."""
    return _STITCH_WORDS


_STITCH_WORDS = frozenset(
    key[0]
    for system in vocabulary.SYSTEMS
    for key in vocabulary.words(system)
    if len(key) == 1 and len(key[0]) > 1 and key[0] not in ("loop", "chain", "skip", "miss", "slip", "bo", "ps", "ls", "cl", "bob", "pop", "double", "treble")
) | frozenset(("crochet", "stitches", "sts", "stitch"))


def is_only_count(text: str) -> bool:
    return len(text) < 200 and ONLY_COUNT.match(text.strip()) is not None


@dataclass(slots=True)
class Begin:
    kind: str = ""
    label: FoundLabel | None = None
    reason: str = ""
    near: str = ""


def what_begins(text: str, line: BlockLine) -> Begin:
    """What a line begins whatever came before: a note, heading, round, header. "" where it may be a continuation."""
    bare = text.lstrip()
    if bare.startswith(">"):
        if bare.startswith(">>"):
            match = _EXCUSE.match(text)
            return Begin("excuse", reason=match[1].strip()) if match else Begin("private")
        return Begin("note")
    if bare.startswith("#") and re.match(r"#{1,6}(?:\s|[^\W\d_])", bare):
        return Begin("heading")
    label = find_label(text)
    if label is not None and not (label.bare and not _looks_worked(text[label.body :])) and not _refers(text, label):
        return Begin("round", label)
    if _ASIDE.match(text) or _IN_BRACKETS.match(text) and not holds_pattern_words(text):
        return Begin("note")
    if _DEFINITION.match(text):
        return Begin("definition")
    if is_only_count(text):
        return Begin()
    split = split_key(text)
    if split is not None and known_key(split[0]) is not None:
        return Begin("header")
    return Begin()


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


def what_else_begins(text: str) -> Begin:
    """What a line is that begins nothing plain: near a label, a foundation, a step, an unknown header, or something else."""
    near = nearly_a_label(text)
    if near:
        return Begin("near-label", near=near)
    split = split_key(text)
    if text.lstrip()[:2].lower() in ("in", "wi", "us") and FOUNDATION.match(text):
        return Begin("foundation")
    if split is not None and split[1] < len(text.rstrip()) and not _step_like(text) and not _looks_worked(text[split[1] :]):
        return Begin("header")
    if FOUNDATION.match(text):
        return Begin("foundation")
    if _step_like(text):
        return Begin("step")
    return Begin("other")


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

"""The caution about small parts and cords: once a pattern, where they are listed or else first mentioned.

The wording follows the cautions that designers usually print; the law differs by place (16 CFR 1501, EN 71-1), so it
defers to local rules and is no legal advice.
"""

from __future__ import annotations

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult
from ..source import Statement
from .material_words import HARMLESS, LISTED_EYES, SMALL_PART_STEMS, SMALL_PARTS
from .notions import listed_items
from .reading import WORKED, heard, piece_words

_CLAUSE = re.compile(r"[.;]")


def check_small_parts(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """small-parts: eyes, buttons, beads, wire, magnets, bells and cords."""
    found = _listed(pattern) or _mentioned(pattern)
    if found is None:
        return
    name, statement, start, end = found
    danger = "can strangle" if name == "Cords" else "can come off and choke"
    findings.add(
        "small-parts", statement.span(start, end),
        f"{name} {danger}: not for children under 3 or for pets. Whoever sells or gives away toys follows the rules "
        "of their own place.",
        suggestion="Fasten each part firmly and pull hard to test it, or embroider it instead."
        if name != "Cords" else "Sew cords down along their whole length, or leave them off for small children.",
    )


def _listed(pattern: syntax.Pattern) -> tuple[str, Statement, int, int] | None:
    for statement, start, end in listed_items(pattern.header):
        text = statement.text[start:end]
        if HARMLESS.search(text):
            continue
        if LISTED_EYES.search(text):
            return "Eyes", statement, start, end
        for name, words in SMALL_PARTS:
            if words.search(text):
                return name, statement, start, end
    return None


def _mentioned(pattern: syntax.Pattern) -> tuple[str, Statement, int, int] | None:
    """The first mention in a round, a step or a note; a piece's own name is none."""
    text = heard(pattern)
    if not any(stem in text for stem in SMALL_PART_STEMS):
        return None
    pieces = piece_words(pattern)
    parts = [(name, words) for name, words in SMALL_PARTS if not words.search(pieces)]
    for piece in pattern.pieces:
        for line in piece.lines:
            if line.kind not in (*WORKED, "note"):
                continue
            text = line.statement.words
            for name, words in parts:
                match = words.search(text)
                if match and not HARMLESS.search(_clause(text, match)):
                    return name, line.statement.as_read(), match.start(), match.end()
    return None


def _clause(text: str, match: re.Match[str]) -> str:
    left = max((mark.end() for mark in _CLAUSE.finditer(text, 0, match.start())), default=0)
    following = _CLAUSE.search(text, match.end())
    return text[left : following.start() if following else len(text)]

"""The caution about small parts and cords: beside the materials, and in one line at the step itself.

After the cautions that designers usually print (common practice, no source); the duty of those who sell or give toys
differs by place, so the text defers to local rules. Not legal advice.
"""

from __future__ import annotations

import re

from ..language import syntax
from ..results import PatternResult
from .html import Html, el, lines
from .options import CautionWords
from .words import clean

_SMALL = re.compile(
    r"\b(?:safety|plastic|glass|button|toy|doll)\W{1,3}(?:eyes?|noses?)\b|\b(?:insert|attach|place|fit)\W+(?:the\W+)?eyes?\b"
    r"|\b(?:buttons?|beads?|wires?|magnets?|bells?|sequins?|snaps?|googly)\b",
    re.IGNORECASE,
)
_CORD = re.compile(
    r"\b(?:cords?|drawstrings?|ribbons?|scar(?:f|ves)|necklaces?|leash(?:es)?|hanging loops?)\b", re.IGNORECASE
)
_STUFFED = re.compile(r"\bstuff(?:ing|ed)?\b|\bfibrefill\b|\bfiberfill\b", re.IGNORECASE)
_HARMLESS = re.compile(r"\b(?:embroider\w*|no eyes|without eyes)\b", re.IGNORECASE)

_MATERIALS = """\
Not for children under 3, for people who put things in their mouths, or for pets: small parts such as eyes, buttons, \
beads, bells, wire and magnets can come off and choke. For them embroider the features instead and leave out every hard \
or loose part.
Fasten each part before stuffing, pull hard on it to test it, and check it again from time to time. Sew cords and \
scarves down along their whole length, or leave them off for small children.
Whoever sells or gives away toys follows the rules of their own place. In some places a soft toy must be safe from \
birth, and an age label changes nothing."""
_STEP = "Small part: not for children under 3 or pets. Fasten it firmly and pull-test it, or embroider instead."
_CORDS = "Cord or scarf: sew it down along its whole length, or leave it off for small children."


def caution_lines() -> tuple[str, ...]:
    """The built-in caution in plain words, a paragraph a line."""
    return tuple(_MATERIALS.split("\n"))


def is_toy(pattern: PatternResult) -> bool:
    """Whether the pattern is stuffed or has eyes: only then is a scarf or a cord a matter of a child's safety."""
    header = pattern.syntax.header
    if any(line.key in ("eyes", "stuffing") or _STUFFED.search(line.value) for line in header.lines):
        return True
    steps = (line for piece in pattern.syntax.pieces for line in piece.lines if line.kind == "step")
    return any(_STUFFED.search(line.statement.words) for line in steps)


def needs_caution(pattern: PatternResult) -> bool:
    """Whether the pattern lists or attaches small parts, or is a toy with a cord.

    Looked up here besides the findings, so that a rule's severity in the configuration drops no caution.
    """
    if any(finding.rule == "small-parts" for finding in pattern.findings):
        return True
    for line in pattern.syntax.header.lines:
        part = line.key == "eyes" or (line.key == "notions" and _SMALL.search(line.value))
        if part and not _HARMLESS.search(line.value):
            return True
    toy = is_toy(pattern)
    return any(step_kind(line, pattern, toy) for piece in pattern.syntax.pieces for line in piece.lines)


def step_kind(line: syntax.Line, pattern: PatternResult, toy: bool) -> str:
    """"small" or "cord" where the caution belongs at this very step, else ""."""
    if line.kind not in ("step", "round", "foundation"):
        return ""
    if line.kind == "step":
        words = line.statement.words
        if _SMALL.search(words) and not _HARMLESS.search(words):
            return "small"
        if toy and _CORD.search(words):
            return "cord"
    found = any(f.rule == "small-parts" and f.span.line == line.line for f in pattern.findings)
    return "small" if found else ""


def materials_caution(words: CautionWords) -> Html:
    """The caution beside the materials, in the owner's words where given."""
    said = words.materials if words.materials.strip() else _MATERIALS
    paragraphs = [el("p", clean(part), dir="auto") for part in said.splitlines() if part.strip()]
    title = el("p", el("strong", "Small parts and cords"), class_="sc-caution-title")
    return el("div", lines("", title, paragraphs, ""), class_="sc-caution", role="note", aria_label="Caution")


def step_caution(kind: str, words: CautionWords) -> Html:
    """The caution at a step: one line."""
    text = clean(words.cords) or _CORDS if kind == "cord" else clean(words.step) or _STEP
    return el("span", el("strong", "Caution. "), text, class_="sc-caution-step", dir="auto")

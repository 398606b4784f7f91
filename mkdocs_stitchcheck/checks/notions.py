"""Materials beside yarn: what steps need and is not listed, and the other way round."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.measuring import parts, stripped
from ..results import PatternResult
from ..source import Statement
from .material_words import EXEMPT, HARMLESS, MATERIALS, UNNAMED, YARN_LISTED, Material
from .reading import all_words, heard, piece_words, worked_lines

LISTS = ("notions", "eyes", "stuffing")
_CLAUSE = re.compile(r"[.;]")
_AND = re.compile(r" and | & | / | \+ ")
_REFUSED = re.compile(r"\b(?:do not|don't|no|without|un)\W*(?:stuff\w*|fill\w*)", re.IGNORECASE)


def check_notions(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unlisted-material and unused-material, where the pattern has a list. Notes and prose count as use."""
    items = list(listed_items(pattern.header))
    if not items:
        return
    _unlisted(pattern, items, findings)
    _unused(pattern, items, findings)


def listed_items(header: syntax.Header) -> Iterator[tuple[Statement, int, int]]:
    """Each thing listed under notions, eyes and stuffing, as (statement, start, end) of its words."""
    for line in header.lines:
        if line.key not in LISTS:
            continue
        text = line.statement.text
        if line.key != "notions":
            if line.value:
                yield line.statement, 0, len(text.rstrip())
            continue
        for left, right in parts(text, line.value_start):
            at = left
            for mark in (*_AND.finditer(text, left, right), None):
                start, end = stripped(text, at, mark.start() if mark else right)
                if start < end:
                    yield line.statement, start, end
                at = mark.end() if mark else right


# --- needed, not listed -----------------------------------------------------------------------------------------


def _unlisted(pattern: syntax.Pattern, items: list[tuple[Statement, int, int]], findings: Findings) -> None:
    listed = "\n".join(statement.text[start:end] for statement, start, end in items)
    pieces = piece_words(pattern)
    text = heard(pattern)
    for material in MATERIALS:
        needs = material.needs
        if needs is None or not any(stem in text for stem in material.stems) or material.listed.search(listed) or needs.search(pieces):
            continue
        for _piece, line in worked_lines(pattern):
            found = _needed(material, needs, line.statement.words)
            if found is not None:
                findings.add(
                    "unlisted-material", line.statement.as_read().span(*found),
                    f"This step needs {material.name}, and the materials list none.",
                    suggestion=f"Add {material.name} to Notions.",
                )
                break


def _needed(material: Material, needs: re.Pattern[str], text: str) -> tuple[int, int] | None:
    """Where a text needs a material; not in "do not stuff" and "embroider the eyes"."""
    for match in needs.finditer(text):
        left = max((mark.end() for mark in _CLAUSE.finditer(text, 0, match.start())), default=0)
        right = next((mark.start() for mark in _CLAUSE.finditer(text, match.end())), len(text))
        clause = text[left:right]
        harmless = HARMLESS.search(clause) and not material.for_embroidery
        if not harmless and not _REFUSED.search(clause):
            return match.span()
    return None


# --- listed, not used -------------------------------------------------------------------------------------------


def _unused(pattern: syntax.Pattern, items: list[tuple[Statement, int, int]], findings: Findings) -> None:
    words = all_words(pattern)
    for statement, start, end in items:
        item = statement.text[start:end]
        if EXEMPT.search(item) or _used(item, words) or is_yarn(item, statement.text):
            continue
        noun = _noun(item)
        if noun:
            findings.add(
                "unused-material", statement.span(start, end),
                f"{_capital(noun)}: listed, but no step or note uses it.",
                suggestion="Leave it out, or say where it is used.",
            )


def is_yarn(item: str, text: str = "") -> bool:
    """"about 40 g of moss": what the rounds are worked with, or a part of its description between commas."""
    if any(material.listed.search(item) for material in MATERIALS):
        return False
    around = next((part for part in text.split(";") if item in part), item)
    return bool(YARN_LISTED.search(item)) or ";" in text and bool(YARN_LISTED.search(around))


def _used(item: str, words: str) -> bool:
    lowered = item.casefold()
    known: list[Material] = [
        material for material in MATERIALS if any(stem in lowered for stem in material.stems) and material.listed.search(item)
    ]
    if known:
        return any(material.used.search(words) for material in known)
    noun = _noun(item)
    stem = noun.removesuffix("s")
    return not stem or re.search(rf"(?<!\w){re.escape(stem)}", words, re.IGNORECASE) is not None


def _noun(item: str) -> str:
    """What is listed, in a word: "button" for "12 mm button (2)"; "" where no word is left."""
    head = item.split("(")[0].split(":")[-1].split(" for ")[0]
    words = [word for word in re.findall(r"[^\W\d_]+(?:-[^\W\d_]+)*", head) if word.lower() not in UNNAMED]
    return words[-1] if words else ""


def _capital(word: str) -> str:
    return word[:1].upper() + word[1:]

"""Readers of the header lines that declare stitches: "Special stitch: bobble = ...", "Abbreviations: bo = bobble"."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings, Severity
from ..source import ReadStatement
from . import syntax
from .composed import composed, parts_of
from .declared import declared_stitch, derived
from .measuring import parts
from .quantities import BadQuantity
from .vocabulary import Stitch, words, words_of

_RELATION = re.compile(r"=|:| - |\bmeans\b|\bis\b")
_ALSO = re.compile(r"\(([^()]{1,20})\)\s*$")
_BRACKETED = re.compile(r"[\w/-]{1,12}(?: [\w/-]{1,10}){0,2} \([^()]{1,60}\)")
_PROPERTY = re.compile(r"\s*(?:uses?|takes?|makes?|yarn|counts?)\b", re.IGNORECASE)


def read_special(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``bobble = 5 dc closed together in one st; uses 1, makes 1, yarn 3 sc``; several are parted by semicolons."""
    text, at = line.statement.text, line.value_start
    groups: list[list[int]] = []
    for left, right in parts(text, at, marks=";"):
        if _RELATION.search(text, left, right) and not _PROPERTY.match(text, left, right) or not groups:
            groups.append([left, right])
        else:
            groups[-1][1] = right
    for left, right in groups:
        _one_special(line, header, findings, left, right)


def _one_special(line: syntax.HeaderLine, header: syntax.Header, findings: Findings, left: int, right: int) -> None:
    text = line.statement.text
    relation = _RELATION.search(text, left, right)
    if relation is None:
        if text[left:right].strip(" .").lower() in ("none", "no"):
            return
        raise BadQuantity(left, right, f"Nothing says what {text[left:right][:40]} is.",
                          "Write it as in bobble = 5 dc closed together in one st; uses 1, makes 1.")
    stitch, settled = declared_stitch(text, (left, relation.start()), (relation.end(), right), header.terms)
    if parts := parts_of(text[relation.end() : right], header.terms):
        stitch, settled = composed(stitch, parts), True
    for start, end in _names(text, left, relation.start()):
        _declare(line, header, findings, start, end, _shown(line, relation.end(), right), stitch, True)
    if not settled:
        findings.add("style", line.statement.span(left, right),
                     f"Nothing says how many stitches {stitch.name} is worked into and how many it counts as; "
                     "one and one are taken.", suggestion="Add: uses 1, makes 1.")


def _names(text: str, left: int, right: int) -> Iterator[tuple[int, int]]:
    """The name and, in a bracket behind it, its abbreviation: "Bobble (bo)"."""
    also = _ALSO.search(text[left:right])
    if also:
        yield left, left + len(text[left : left + also.start()].rstrip())
        yield left + also.start(1), left + also.end(1)
    else:
        yield left, left + len(text[left:right].rstrip())


def read_abbreviations(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``bo = bobble; rsc = reverse sc`` or ``sc - single crochet, inc - increase``; a text may hold commas."""
    text, at = line.statement.text, line.value_start
    entries: list[list[int]] = []
    for left, right in parts(text, at, marks=";" if ";" in text[at:] else ",;"):
        if _RELATION.search(text, left, right) or _BRACKETED.fullmatch(text, left, right) or not entries:
            entries.append([left, right])
        else:
            entries[-1][1] = right
    for left, right in entries:
        relation = _RELATION.search(text, left, right)
        bracket = _ALSO.search(text[left:right])
        if relation:
            start, end = left, relation.start()
            meaning = text[relation.end() : right].strip(" .")
        elif bracket:  # "sc (single crochet)"
            start, end = left, left + len(text[left : left + bracket.start()].rstrip())
            meaning = bracket.group(1).strip()
        else:
            continue
        shown = _shown(line, relation.end(), right) if relation else meaning
        _declare(line, header, findings, start, end, shown.strip(" ."), derived(meaning, header.terms, header.special), False)


def _shown(line: syntax.HeaderLine, left: int, right: int) -> str:
    """What readers see of a meaning: the writer's own words, also where English ones were read for them."""
    statement = line.statement
    own = isinstance(statement, ReadStatement)
    return (statement.as_written(left, right) if own else statement.text[left:right]).strip()


def _declare(
    line: syntax.HeaderLine, header: syntax.Header, findings: Findings, start: int, end: int, meaning: str,
    stitch: Stitch | None, special: bool,
) -> None:
    word = line.statement.text[start:end].strip()
    if not word:
        raise BadQuantity(start, end + 1, "A word is missing before the sign.", "Write it as in bo = bobble.")
    before = header.special.get(word.lower())
    if before and before.text.lower() != meaning.lower() and before.stitch != stitch and before.special == special:
        findings.add("two-meanings", line.statement.span(start, end),
                     f"{word} stands for {before.text} in line {before.statement.line} and for {meaning} here.",
                     suggestion="Give one of the two another name.")
        return
    if not special and stitch is not None:
        _against_standard(line, header, findings, start, end, meaning, stitch)
    if before is None or special:
        header.special[word.lower()] = syntax.SpecialStitch(word, meaning, stitch, line.statement, special)


def _against_standard(
    line: syntax.HeaderLine, header: syntax.Header, findings: Findings, start: int, end: int, meaning: str, stitch: Stitch
) -> None:
    """A word of the trade declared as a stitch that is worked into or counts as another number."""
    word = line.statement.text[start:end].strip()
    table = words("UK" if header.terms == "UK" else "US")
    usual = table.get(words_of(word)) or (table.get((word.lower()[-3:],)) if word.lower().endswith(("inc", "dec")) else None)
    if usual is None or usual.kind not in ("plain", "increase", "decrease") or (usual.uses, usual.makes) == (stitch.uses, stitch.makes):
        return
    findings.add(
        "two-meanings", line.statement.span(start, end),
        f"{word} is usually {'an' if usual.name[0] in 'aeiou' else 'a'} {usual.name}, {usual.makes} from {usual.uses}; here it is {meaning[:60]}, {stitch.makes} from {stitch.uses}. "
        "It is read as declared.",
        severity=Severity.WARNING, suggestion="Write another abbreviation, or correct what it stands for.",
    )  # fmt: skip

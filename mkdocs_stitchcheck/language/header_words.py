"""Readers of the header lines that settle how words are read: terms, stitches, turning chains, readings, draft."""

from __future__ import annotations

from collections.abc import Callable

from .. import late_re as re
from ..findings import Edit, Findings
from . import syntax
from .composed import composed, parts_of
from .declared import derived
from .gauges import read_gauge
from .header_answers import read_readings, read_slip_stitches, read_turning_chain
from .header_stitches import read_abbreviations, read_special
from .keys import NO, SHOWN, TERMS, TERMS_OF_WORD, YES
from .measuring import parts
from .near import nearest
from .other_terms import OTHER_TERMS
from .quantities import BadQuantity
from .vocabulary import Stitch

Reader = Callable[[syntax.HeaderLine, syntax.Header, Findings], None]


def _terms(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    """``Terms: US``, "UK terms", "American", "letters", "de"."""
    text, at = line.statement.text, line.value_start
    written = re.sub(r"\b(?:crochet|terms?|terminology|english|abbreviations)\b", " ", text[at:].lower()).strip(" .")
    head = re.split(r"[(,;/]| and | with ", written)[0].strip(" .")
    end = at + len(text[at:].rstrip())
    if "/" in written and {TERMS_OF_WORD.get(word.strip()) for word in written.split("/")} >= {"US", "UK"}:
        raise BadQuantity(at, end, "A pattern is read in one system of terms; two are named here.",
                          "Write US or UK.", "unknown-option")
    terms = TERMS_OF_WORD.get(head)
    if terms is None:
        near = nearest(head, TERMS_OF_WORD)
        known = TERMS_OF_WORD[near] if near else None
        raise BadQuantity(at, end, f"{line.value or 'Nothing'} is no system of terms that I know"
                          + (f"; did you mean {known}?" if known else "."),
                          f"Write {known}." if known else "Write US, UK, letters or the code of a language, as de.",
                          "unknown-option", known)
    if terms not in ("US", "UK", *OTHER_TERMS):
        raise BadQuantity(at, end, f"Patterns in {TERMS[terms][1].capitalize()} can't be read yet; this one is read as US terms.",
                          f"Write the rounds in US or UK terms, or in one of {', '.join(OTHER_TERMS)}.", "unknown-option")
    header.terms = terms


def _draft(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text, at = line.statement.text, line.value_start
    word = text[at:].strip(" .").lower()
    if word not in YES | NO:
        raise BadQuantity(at, max(at + 1, len(text.rstrip())),
                          f"Draft is yes or no; {line.value or 'nothing'} is written.",
                          "Write Draft: yes or Draft: no.", "unknown-option")
    header.draft = word in YES


def _show(line: syntax.HeaderLine, header: syntax.Header, findings: Findings) -> None:
    text = line.statement.text
    for left, right in parts(text, line.value_start):
        name = text[left:right].strip(" .").lower()
        if name in SHOWN:
            header.show.append(name)
            continue
        near = nearest(name, SHOWN)
        span = line.statement.span(left, right)
        findings.add("unknown-option", span, f"{text[left:right]} is nothing that can be shown"
                     + (f"; did you mean {near}?" if near else "."),
                     suggestion=f"Write {near}." if near else f"Choose from {', '.join(SHOWN)}.",
                     edits=(Edit(span, near),) if near else ())


def settle(header: syntax.Header, findings: Findings) -> None:
    """Read once more in the declared terms what stood before them, and report a letter with two meanings."""
    gauge = header.first("gauge")
    if header.terms == "UK" and gauge and header.gauge:
        header.gauge = read_gauge(gauge.statement.text, gauge.value_start, system="UK") or header.gauge
    for word, special in header.special.items():
        if special.stitch is None:
            special.stitch = derived(special.text, header.terms, header.special)
            if special.stitch is None and (made_of := parts_of(special.text, header.terms)):
                special.stitch = composed(Stitch(word, special.word), made_of)
        color = next((key for key in header.colors if key.lower() == word), None)
        if color and special.stitch is not None:
            findings.add("two-meanings", special.statement.span(),
                         f"{special.word} is a colour in line {header.colors[color].statement.line} and a stitch here.",
                         suggestion="Give one of the two another letter.")


READERS: dict[str, Reader] = {
    "terms": _terms, "draft": _draft, "show": _show, "special stitch": read_special, "abbreviations": read_abbreviations,
    "turning chain": read_turning_chain, "slip stitches": read_slip_stitches, "reading": read_readings,
}

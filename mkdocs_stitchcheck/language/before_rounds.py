"""What is settled before the rounds of a pattern are read: its header, its terms, its colours and its pieces."""

from __future__ import annotations

from .. import late_re as re
from . import vocabulary
from .header import finish_header, read_header
from .headings import read_heading
from .line_signs import other_names
from .other_terms import OTHER_TERMS
from .reading import Reading
from .stitch_names import index_words
from .syntax import Header
from .unkeyed import chains_in_notes, read_unkeyed, terms_in_notes


def read_headers(reading: Reading) -> None:
    """Reads the header lines, also those whose key was left out; in the site's terms where the pattern declares none."""
    header = reading.pattern.header
    site = header.terms = reading.terms if reading.terms in ("US", "UK") else ""
    started = False
    for cut in reading.cuts:
        if cut.kind in ("round", "foundation", "heading", "plain-heading"):
            started = True
        if cut.kind == "header":
            read_header(cut.statement, reading.pattern.header, reading.findings, started)
    for cut in reading.cuts:
        if cut.kind == "unkeyed":
            read_unkeyed(cut, reading.pattern.header, reading.findings)
    if header.first("terms") is None:
        header.terms = ""
        terms_in_notes(header)
        header.terms = header.terms or site
    reading.chain_rules.update(chains_in_notes(reading.pattern.header))
    finish_header(reading.pattern.header, reading.findings)


def prepare(reading: Reading) -> None:
    """Settles the terms, and what colours, declared stitches and pieces are called."""
    from .terms import settle_terms

    header = reading.pattern.header
    kinds = ("round", "foundation", "step", "other", "near-label")
    spoken = [cut.statement for cut in reading.cuts if cut.kind in kinds]
    system, decided = settle_terms(header, spoken, reading.findings)
    reading.pattern.system, reading.pattern.terms_decided = system, decided
    reading.context.system = system
    reading.context.sizes = max(len(header.sizes), 1)
    reading.context.colors = _color_words(header)
    reading.context.special = header.special
    declared = {
        vocabulary.words_of(word): special.stitch for word, special in header.special.items() if special.stitch is not None
    }
    for word, special in header.special.items():
        if special.stitch is not None and special.special and word[-1:].isalpha() and not word.endswith("s"):
            declared.setdefault(vocabulary.words_of(f"{word}s"), special.stitch)  # "12 puffs"
    reading.context.special_words = index_words({key: stitch for key, stitch in declared.items() if key})
    for cut in reading.cuts:
        if cut.kind in ("heading", "plain-heading"):
            name = read_heading(cut.statement, reading.context.colors).name.lower()
            reading.context.pieces.add(name)
            reading.context.pieces.update(other_names(name))

    terms = OTHER_TERMS.get(header.terms)
    for key, color in header.colors.items():
        if terms is not None and key.isupper() and key.lower() in terms.index:
            reading.findings.add(
                "two-meanings", color.statement.span(),
                f"{key} is a colour here and a word of {terms.name}, which the pattern declares; it is read as that word.",
                suggestion="Give the colour another letter.",
            )  # fmt: skip


def _color_words(header: Header) -> dict[str, str]:
    """Every way to name a declared colour: its key, "mc", and its name."""
    words = {"mc": "MC", "cc": "CC"} if any(key in header.colors for key in ("MC", "CC")) else {}
    for key, color in header.colors.items():
        words[key.lower()] = key
        if color.name and len(color.name) > 1:
            words.setdefault(color.name.lower(), key)
            words.setdefault(" ".join(re.findall(r"[^\W\d_]+|\d+|[^\w\s]", color.name.lower())), key)
        if color.shade:
            words.setdefault(f"shade {color.shade.lower()}", key)
    return words

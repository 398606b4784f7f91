"""Checks on materials and terms, in the order in which they run; each says in its own module what, why and when."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult
from .colors import check_colors
from .notions import check_notions
from .reading import said
from .small_parts import check_small_parts
from .stuffing import check_eyes, check_stuffing
from .unit_pairs import check_put_up, check_units
from .weighed import check_swatches, check_weighed
from .yarn_amount import check_yarn_amount

__all__ = ["MATERIAL_CHECKS", "check_terms"]

# Names that are one stitch in US terms and another in UK terms (Craft Yarn Council, Standards & Guidelines 2018).
_EITHER = re.compile(
    r"(?<![\w-])(?:(?:fp|bp)?(?:dc|tr|dtr|trtr)(?:\d|s|inc|dec)?(?![a-z])|double crochet|(?:double |triple )?treble)",
    re.IGNORECASE,
)
# A chain of three that stands for a dc, or a dc in the fourth chain, is the US stitch: a UK dc is one chain high
# (heights and turning chains: common practice, no source).
_US_HEIGHT = re.compile(
    r"\bch[ -]?3 ?\(?(?:counts?|counted) as (?:a |1 |one |the |first )*dc\b"
    r"|\bdc in (?:the )?(?:3rd|4th|third|fourth) ch\b"
    r"|\bch[ -]?4 ?\(?(?:counts?|counted) as (?:a |1 |one |the |first )*tr\b|\btr in (?:the )?(?:5th|fifth) ch\b",
    re.IGNORECASE,
)


def check_terms(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """terms-unknown: no ``Terms``, no word that exists in one system alone, and a name that means two things."""
    if pattern.header.terms or pattern.terms_decided:
        return
    statements = [line.statement for line in pattern.header.lines if line.key not in ("title", "notes")]
    statements += said(pattern)
    if any(_US_HEIGHT.search(statement.text) for statement in statements):
        return
    for statement in statements:
        match = _EITHER.search(statement.text)
        if match:
            findings.add(
                "terms-unknown", statement.span(match.start(), match.end()),
                f"Nothing says whether the Terms are US or UK, and {match.group()} is another stitch in each; it is "
                f"read in {pattern.system} terms.", suggestion="Add Terms: US or Terms: UK at the top.",
            )
            return


# One fault of ours in one of them leaves the others standing: each is run by itself.
MATERIAL_CHECKS = (
    check_terms, check_units, check_put_up, check_swatches, check_weighed, check_yarn_amount, check_colors, check_notions,
    check_stuffing, check_eyes, check_small_parts,
)

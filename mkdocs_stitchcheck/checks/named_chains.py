"""Joins and last stitches that name a chain by its length, "join in top of beg ch-4": chain-not-there."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Edit, Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from .reading import steps

_NAMED = re.compile(
    r"\b(?:top|(?P<nth>\d{1,2})(?:st|nd|rd|th) (?:ch|st|chain)\.?) of (?:the )?"
    r"(?P<first>(?:beg|beginning|starting|start|initial)[. ]+)?(?:turning )?ch(?:ain)?\.?[ -]+(?P<length>\d{1,2})\b(?![ -]*(?:sp|loop|lp|arch))",
    re.IGNORECASE,
)
_CHAIN = re.compile(r"\bch(?:ain)?[ -]*(\d{1,2})\b|\b(\d{1,2})[ -]*ch\b", re.IGNORECASE)


def check_named_chains(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """chain-not-there: a chain is named by a length that none of the chains there has, or a chain beyond its end.

    A round looks at its own chains and those of the round before, a row at all chains of its piece so far: the turning chain
    may be some rows below. Chains that a note, a header line or a special stitch tells of may be meant everywhere.
    """
    told = {length for text in _told(pattern) for length in _lengths(text)}
    for piece in result.pieces:
        known: set[int] = set()
        for line in piece.rounds:
            own = _own(line)
            around = own | known | told
            match = next(_NAMED.finditer(line.syntax.statement.as_read().text), None) if line.syntax.steps else None
            if match is not None and not any(isinstance(step, syntax.Again) for step in steps(line.syntax)):
                _look(line, match, around, piece, findings)
            known = known | own if line.kind != "round" else own


def _told(pattern: syntax.Pattern) -> list[str]:
    texts = [line.value for line in pattern.header.lines]
    return texts + [line.statement.words for piece in pattern.pieces for line in piece.lines if line.kind == "note"]


def _lengths(text: str) -> set[int]:
    return {int(one or other) for one, other in _CHAIN.findall(text)}


def _own(line: RoundResult) -> set[int]:
    """The lengths of the chains that a line makes or skips, in all sizes."""
    found: set[int] = set()
    for step in steps(line.syntax):
        if isinstance(step, syntax.Work) and step.place is not None and step.place.kind == "chain" and step.place.number is not None:
            found.add(step.place.number.value - 1)  # "dc in 8th ch from hook": the 7 before it are "the beg ch-7"
        number = step.number if isinstance(step, syntax.Chain) else step.chains if isinstance(step, syntax.Ring) else None
        found.update(value for value in (number.values if number is not None else ()) if value)
    return found


def _begun(line: RoundResult) -> int | None:
    """The chain with which a line begins, before its first stitch."""
    for step in line.syntax.steps or ():
        if isinstance(step, syntax.Chain):
            return step.number.value if step.turning or step.counts_as is not None else None
        if isinstance(step, (syntax.Work, syntax.Group, syntax.Repeat)) and not _moves(step):
            return None
    return None


def _moves(step: syntax.Step) -> bool:
    return isinstance(step, syntax.Work) and step.stitch.kind == "slip"


def _look(line: RoundResult, match: re.Match[str], around: set[int], piece: PieceResult, findings: Findings) -> None:
    length, nth = int(match["length"]), int(match["nth"] or 0)
    begun = _begun(line)
    if nth > length:
        message = f"{line.label or 'This line'} names the {match['nth']}{_ending(nth)} chain of a chain of {length}."
    elif match["first"] and line.kind == "round" and begun is not None and begun != length:
        message = f"{line.label} begins with a chain of {begun}, and is joined in one of {length}."
    elif around and length not in around:
        begins = f" It begins with a chain of {begun}." if begun is not None else ""
        message = f"{line.label or 'This line'} works into a chain of {length}, and there is none.{begins}"
    else:
        return
    statement = line.syntax.statement.as_read()
    where = statement.span(*match.span("length"))
    edits = (Edit(where, str(begun)),) if begun is not None and line.kind == "round" and begun >= nth else ()
    findings.add(
        "chain-not-there", statement.span(*match.span()), message, edits=edits, piece=piece.name, round=line.first,
        suggestion=f"Write ch-{begun}, or mend the chain." if edits else "Name the chain by the length that it has.",
    )


def _ending(number: int) -> str:
    return {1: "st", 2: "nd", 3: "rd"}.get(number if number < 20 else number % 10, "th")

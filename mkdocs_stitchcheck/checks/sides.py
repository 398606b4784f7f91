"""Right and wrong sides of rows, and rounds that are joined in one line and not in the next."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from .reading import steps

_NOT_TURNED = re.compile(
    r"\b(?:do not|don't|without|not) turn|\bfasten off\b|\bcut\b|\b(?:re)?join\b|\breattach|\bas rows?\b|\brep", re.IGNORECASE
)
_SIDES = {"rs": "RS", "ws": "WS", "right side": "RS", "wrong side": "WS"}


def check_sides(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """side-mismatch: rows are turned one by one, and a row is marked with the side that the count of turns excludes."""
    for piece in result.pieces:
        if piece.flat:
            _rows(piece, findings)


def _rows(piece: PieceResult, findings: Findings) -> None:
    known: tuple[int, str, RoundResult] | None = None  # number, side, line
    next_number: int | None = None
    breaks = [line.line for line in piece.syntax.lines if line.kind == "step" and _NOT_TURNED.search(line.statement.words)]
    for line in piece.rounds:
        label = line.syntax.label
        if line.kind != "row" or label is None or line.first is None:
            continue
        if next_number is not None and line.first != next_number:
            known = None
        if known is not None and any(known[2].line < at < line.line for at in breaks):
            known = None
        next_number = (line.last or line.first) + 1
        side = _SIDES.get(label.side.lower())
        if side is not None and next_number == line.first + 1:
            if known is not None and (side == known[1]) != ((line.first - known[0]) % 2 == 0):
                _report(line, label, side, known, piece, findings)
                return
            known = line.first, side, line
        if _NOT_TURNED.search(line.syntax.statement.words):
            known = None


def _report(
    line: RoundResult, label: syntax.RoundLabel, side: str, known: tuple[int, str, RoundResult], piece: PieceResult,
    findings: Findings,
) -> None:
    right = "WS" if side == "RS" else "RS"
    findings.add(
        "side-mismatch", line.syntax.statement.span(label.start, label.end),
        f"{line.label} is marked {side}; {known[2].label} is marked {known[1]}, so this one is the {right} row.",
        suggestion=f"Write {right}, or say where the work is not turned.", piece=piece.name,
    )


# --- joins ----------------------------------------------------------------------------------------------------------

_SPIRAL = re.compile(r"\b(?:do not|don't|without|no) join|\bspiral|\bcontinuous|\bturn\b", re.IGNORECASE)


def check_joins(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """join-missing: four of five rounds are joined with a slip stitch, and one is not. Once a piece."""
    for piece in result.pieces:
        rounds = [line for line in piece.rounds if line.kind == "round" and line.syntax.steps]
        if len(rounds) < 4 or piece.flat:
            continue
        without = [line for line in rounds if not _joined(line)]
        if not without or len(without) > len(rounds) / 5 or without[0] is rounds[-1]:
            continue
        line = without[0]
        said = [one.statement.words for one in piece.syntax.lines if one.kind in ("round", "step", "note")]
        if any(_SPIRAL.search(text) for text in said) or any(isinstance(step, syntax.Again) for step in steps(line.syntax)):
            continue
        findings.add(
            "join-missing", line.syntax.statement.span(*line.syntax.body),
            f"{line.label} is not joined; the other rounds of {piece.name or 'the piece'} are closed with a slip stitch.",
            suggestion="Add join with sl st in first st, or say do not join.", piece=piece.name,
        )


def _joined(line: RoundResult) -> bool:
    """Whether a round is closed; "work even until ..." and "dec at each end of every 4th rnd" go on as before."""
    if any(isinstance(step, syntax.Until | syntax.Shaping) for step in line.syntax.steps or ()):
        return True
    return any(isinstance(step, syntax.Join) for step in steps(line.syntax)) or "join" in line.syntax.statement.words.lower()

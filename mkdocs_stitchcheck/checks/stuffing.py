"""The order of closing, stuffing and eyes: closed-before-stuffing and eyes-after-closing."""

from __future__ import annotations

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from ..source import Statement
from .material_words import HARMLESS, MATERIALS
from .reading import WORKED, heard, last_round, made

CLOSED_AT_MOST = 8  # stitches that are drawn shut
ROOM_FROM = 18  # a piece that was never this wide needs no filling

_STUFF = re.compile(r"\b(?:stuff(?:ed|ing)?|fill(?:ed|ing)?)\b", re.IGNORECASE)
_AS_YOU_GO = re.compile(
    r"\bstuff\w*\b[^.\n]{0,60}\bas you (?:go|work|crochet)\b|\bas you (?:go|work),? stuff", re.IGNORECASE
)
_CLOSE = re.compile(
    r"\b(?:close[sd]?|closing|sewn? (?:it )?(?:shut|closed|up)|drawn? (?:it )?(?:shut|closed|tight)|gather|cinch|"
    r"pull (?:it )?(?:tight|closed|shut))\b", re.IGNORECASE,
)
_EYES = re.compile(
    r"\b(?:(?:insert|attach|place|fit|add|put|fix|position|secure)(?:ing)?\b[^.;\n]{0,30}?\beyes?"
    r"|(?:safety|plastic) eyes?)\b",
    re.IGNORECASE,
)
_FROM_OUTSIDE = re.compile(r"\b(?:sewn?|sewing|glued?|button eyes?)\b", re.IGNORECASE)


def lists_stuffing(header: syntax.Header) -> bool:
    """Whether the materials hold stuffing."""
    stuffing = next(material for material in MATERIALS if material.name == "stuffing")
    return any(line.key == "stuffing" or line.key == "notions" and stuffing.listed.search(line.value)
               for line in header.lines)


# --- closed before it is stuffed ----------------------------------------------------------------------------------


def check_stuffing(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """closed-before-stuffing: a piece of 18 or more closes to 8 or fewer, not flattened, and nothing says to stuff it.

    Only where stuffing is listed. "Stuff as you go", anywhere, is enough; so is prose that names the piece.
    """
    if not lists_stuffing(pattern.header) or _AS_YOU_GO.search(pattern.prose) or _as_you_go(pattern):
        return
    for piece in result.pieces:
        last = last_round(piece)
        count = made(last) if last else None
        if last is None or count is None or not _needs_filling(piece, count) or _told(pattern, piece, last):
            continue
        span = last.syntax.statement.span(*_place(last))
        findings.add(
            "closed-before-stuffing", span,
            f"{piece.name} closes to {count} stitches, and nothing before says to stuff it.",
            suggestion="Add a line, as in Stuff firmly, before the hole is too small, or write Do not stuff.",
            piece=piece.name,
        )


def _as_you_go(pattern: syntax.Pattern) -> bool:
    texts = [line.value for line in pattern.header.lines]
    texts += [line.statement.words for piece in pattern.pieces for line in piece.lines if line.kind == "note"]
    return any(_AS_YOU_GO.search(text) for text in texts)


def _needs_filling(piece: PieceResult, count: int) -> bool:
    counts = (count for line in piece.rounds for count in (*line.makes, *line.stated))
    widest = max((count for count in counts if count is not None), default=0)
    return not piece.flat and not piece.flattened and count <= CLOSED_AT_MOST and widest >= ROOM_FROM


def _told(pattern: syntax.Pattern, piece: PieceResult, last: RoundResult) -> bool:
    """Whether a line of the piece before it is closed, or prose that names it, speaks of stuffing (or against it)."""
    if piece.syntax.heading is not None and _STUFF.search(piece.syntax.heading.text):
        return True
    if any(_STUFF.search(line) and piece.name.lower() in line.lower() for line in pattern.prose.splitlines()):
        return True
    at_end = False
    for line in piece.syntax.lines:
        if line.kind not in (*WORKED, "note"):
            continue
        if _STUFF.search(line.statement.words):
            return True
        if at_end and line.kind == "step" and _CLOSE.search(line.statement.words):
            return False
        at_end = at_end or line is last.syntax
    return False


def _place(line: RoundResult) -> tuple[int, int]:
    """The count of the round, or the whole line."""
    if line.syntax.stated:
        return line.syntax.stated[-1].start, line.syntax.stated[-1].end
    return 0, len(line.syntax.statement.text)


# --- eyes after the piece is closed -------------------------------------------------------------------------------


def check_eyes(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """eyes-after-closing: eyes that are fastened from inside stand after the line that closes their piece."""
    if "eye" not in heard(pattern):
        return
    closed: dict[str, int] = {}  # piece -> the line that closes it
    for piece in pattern.pieces:
        rounds = [line for line in piece.lines if line.kind == "round"]
        shut = None
        for line in piece.lines:
            if line.kind not in WORKED:
                continue
            eyes = _eyes(line.statement.words)
            if eyes is not None:
                at = shut if shut is not None and not _names_other(line, closed) else _closed_piece(line, closed)
                if at is not None:
                    _report_eyes(line.statement.as_read(), eyes, at, findings)
            if (not rounds or line is rounds[-1] or line.line > rounds[-1].line) and _CLOSE.search(line.statement.words):
                shut = shut if shut is not None else line.line if rounds else None
        if shut is not None:
            closed[piece.name.lower()] = shut


def _eyes(text: str) -> tuple[int, int] | None:
    """Where a step fastens eyes from inside; None for eyes that are embroidered, sewn or glued on."""
    match = _EYES.search(text) if "eye" in text.lower() else None
    if match is None or HARMLESS.search(text) or _FROM_OUTSIDE.search(text[: match.end()]):
        return None
    return match.span()


def _names_other(line: syntax.Line, closed: dict[str, int]) -> bool:
    return any(reference.piece for reference in getattr(line, "references", ()))


def _closed_piece(line: syntax.Line, closed: dict[str, int]) -> int | None:
    """The line that closed the piece which a step names."""
    text = line.statement.words.lower()
    names = [reference.piece.lower() for reference in getattr(line, "references", ()) if reference.piece]
    for name, at in closed.items():
        if name in names or re.search(rf"\b(?:of|on|in|to) (?:the )?{re.escape(name)}\b", text):
            return at
    return None


def _report_eyes(statement: Statement, place: tuple[int, int], closed: int, findings: Findings) -> None:
    findings.add(
        "eyes-after-closing", statement.span(*place),
        f"The eyes come after the piece is closed in line {closed}; their backs can no longer be put on from inside.",
        suggestion="Move this line to before the piece is stuffed and closed.",
    )

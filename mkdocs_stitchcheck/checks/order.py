"""The order of the work: yarn fastened off, holes closed, markers placed, colours cut."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings, Label
from ..language import syntax
from ..results import PatternResult, PieceResult
from .reading import WORKED, all_words, is_whole, last_round, made, steps, worked_lines

CLOSED_WITH_EASE = 16  # stitches that still draw shut without a hole: common practice, no source

_BETWEEN = frozenset({"fasten-off", "close", "yarn"})  # doings that may stand between two ends of one yarn


def check_fastened_off(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """fastened-off-twice: the yarn is fastened off again, and nothing was worked or sewn in between."""
    for piece in pattern.pieces:
        if piece.making_up:
            continue
        off: int | None = None
        for line in piece.lines:
            for step in getattr(line, "steps", None) or ():
                kind = step.kind if isinstance(step, syntax.Aside) else ""
                if kind == "fasten-off":
                    # "Cut yarn, F/O." says one thing in two ways
                    if off is not None and off != line.line and not _one_color(line, step):
                        findings.add(
                            "fastened-off-twice", line.statement.span(step.start, step.end),
                            f"The yarn was fastened off in line {off} already, and nothing is worked since.",
                            suggestion="Leave one of the two out.", piece=piece.name,
                        )
                    off = line.line
                elif kind not in _BETWEEN:
                    off = None


def _one_color(line: syntax.Line, step: syntax.Step) -> bool:
    """Whether only one of several yarns is fastened off: "Fasten off color B", "fasten off both"."""
    after = line.statement.words[step.start :][:60]
    return bool(re.search(r"\b(?:colou?r|both|all|MC|CC|[A-Z])\b(?!/)", after[len("fasten off") :])) or " yarn " in after


# --- pieces without an end ------------------------------------------------------------------------------------------

_END = re.compile(
    r"\b(?:fasten|finish|end|tie|cast|bind|break|cut)(?:ing|ed)? (?:it )?(?:off|yarn|the yarn|thread)|\bf\.? ?/?o\b|\bcut\b|"
    r"\b(?:do not|don't) (?:fasten|cut|break|finish)|\bset aside\b|\bhold\b|\bleave the loop\b|\bcontinue\b|\bjoin",
    re.IGNORECASE,
)


def check_ends(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """not-fastened-off: a piece has no end, where most pieces of the pattern say it. Once a pattern."""
    worked = [piece for piece in result.pieces if any(line.counts for line in piece.rounds)]
    open_ended = [piece for piece in worked if not _ends(piece.syntax)]
    if not open_ended or len(worked) < 3 or len(open_ended) > 1:
        return
    piece = open_ended[0]
    following = result.pieces[result.pieces.index(piece) + 1 :]
    last = last_round(piece)
    if last is None or (following and _goes_on(following[0].syntax)) or _as_another(piece):
        return
    findings.add(
        "not-fastened-off", last.syntax.statement.span(*last.syntax.body),
        f"Nothing says what happens to the yarn after {last.label} of {piece.name}; the other pieces end with a line.",
        suggestion="Add Fasten off, and how long a tail to leave.", piece=piece.name,
    )


def _as_another(piece: PieceResult) -> bool:
    """Whether a piece is told as another one, whose end is then its own: "As Left strap."."""
    return piece.syntax.same_as is not None or any(
        isinstance(step, syntax.Again) for line in piece.rounds for step in steps(line.syntax)
    )


def _ends(piece: syntax.Piece) -> bool:
    return any(line.kind in (*WORKED, "note") and _END.search(line.statement.words) for line in reversed(piece.lines))


def _goes_on(piece: syntax.Piece) -> bool:
    """Whether a piece is worked on from the one before: it begins neither with a ring nor with a chain."""
    first = next((line for line in piece.lines if line.kind in ("round", "foundation")), None)
    if first is None:
        return False
    if isinstance(first, syntax.RoundLine) and first.label is not None and (first.label.first or 1) > 1:
        return True  # the numbers run on: legs become a body
    return not any(
        isinstance(step, syntax.Ring | syntax.Chain) or getattr(getattr(step, "place", None), "kind", "") == "ring"
        for step in steps(first)
    )


# --- holes that are too wide ----------------------------------------------------------------------------------------

_DRAW = re.compile(
    r"\bclose (?:the |this |up the )?(?:hole|opening|gap|top|end|ring)\b|\b(?:draw|pull) (?:it |the hole |the opening )?(?:shut|closed)\b",
    re.IGNORECASE,
)
_OTHERWISE = re.compile(r"\b(?:sew|sewn|seam|whip|gather|cinch|running|flat|join|dec)\w*", re.IGNORECASE)


def check_closing(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """too-wide-to-close: the hole is drawn shut over more stitches than draw shut."""
    for piece in result.pieces:
        last = last_round(piece)
        count = made(last) if last else None
        if last is None or count is None or count <= CLOSED_WITH_EASE or piece.flat or piece.flattened:
            continue
        for line in piece.syntax.lines:
            statement = line.statement.as_read()
            match = _DRAW.search(statement.text) if line.kind in WORKED and line.line >= last.line else None
            if match and not _OTHERWISE.search(statement.text):
                findings.add(
                    "too-wide-to-close", statement.span(*match.span()),
                    f"{piece.name} still has {count} stitches here; a hole that wide does not draw shut.",
                    suggestion="Decrease to 6 to 12 stitches first, or say how it is gathered or sewn.",
                    piece=piece.name,
                )
                break


# --- markers --------------------------------------------------------------------------------------------------------

_TO_MARKER = re.compile(
    r"\b(?:to|until|before|at|in|into|from|past|reach|reaching|remove|removing|move|moving|slip) "
    r"(?:the |each |your |this )?(?:next |first |second |last )?(?:st(?:itch)? ?)?(?:markers?\b|marked st)",
    re.IGNORECASE,
)
_PLACED = re.compile(
    r"\b(?:place|put|add|attach|insert|use|using|clip|hang|set|tie|with)\b[^.;\n]{0,40}\b(?:markers?\b|thread\b)|\bpm\b|"
    r"\bmark(?:ing|ed)? (?!st|\d)|\bmarkers? (?:in|on|into|between|here)\b",
    re.IGNORECASE,
)


def check_markers(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """marker-not-placed: a round goes to a marker, or moves it, and nothing anywhere places one. In whole patterns only."""
    if not is_whole(pattern.header):
        return
    uses = [(line, match) for _piece, line in worked_lines(pattern)
            if "mark" in line.statement.words and (match := _TO_MARKER.search(line.statement.words))]
    if not uses:
        return
    bare = "\n".join(_TO_MARKER.sub(" ", text) for text in all_words(pattern).splitlines())
    if _PLACED.search(bare):
        return
    line, match = uses[0]
    findings.add(
        "marker-not-placed", line.statement.as_read().span(*match.span()),
        "This speaks of a marker, and no line before says where one is placed.",
        suggestion="Say where it goes, as in Place a marker in the first st.",
        also=tuple(Label(other.statement.as_read().span(*found.span())) for other, found in uses[1:]),
    )


# --- colours that were cut ------------------------------------------------------------------------------------------

_CUT = re.compile(r"\b(?i:fasten off|finish off|cut off|break off|cut|break|end) (?i:the )?(?i:yarn |colou?r )?([A-Z]|MC|CC)\b(?! and\b)")
_TAKEN_UP = re.compile(r"\b(?:join|attach|rejoin|reattach|new|change|switch|start|add|with a|tie)\w*\b", re.IGNORECASE)


def check_cut_colors(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """color-cut: a colour is worked with again in the same piece after it was cut, and nothing joins it."""
    if not pattern.header.colors:
        return
    for piece in pattern.pieces:
        cut: dict[str, int] = {}
        for line in piece.lines:
            if line.kind not in WORKED:
                continue
            text = line.statement.text
            if cut and not _TAKEN_UP.search(text):
                _worked_again(piece, line, cut, findings)
            elif cut:
                cut = {key: at for key, at in cut.items() if key not in dict(_colors(line))}
            for match in _CUT.finditer(text):
                if match[1] in pattern.header.colors:
                    cut[match[1]] = line.line


def _worked_again(piece: syntax.Piece, line: syntax.Line, cut: dict[str, int], findings: Findings) -> None:
    for key, step in _colors(line):
        if key in cut:
            findings.add(
                "color-cut", line.statement.span(step.start, step.end),
                f"Color {key} was cut in line {cut.pop(key)}, and nothing joins it again.",
                suggestion=f"Say Join color {key} here, or do not cut it above.", piece=piece.name,
            )


def _colors(line: syntax.Line) -> Iterator[tuple[str, syntax.Step]]:
    for step in steps(line):
        color = getattr(step, "color", None)
        if color is not None:
            yield color, step

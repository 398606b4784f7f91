"""Which piece an edging goes along, and what edges that piece has."""

from __future__ import annotations

from collections.abc import Sequence

from .. import late_re as re
from ..language import syntax
from ..results import Status
from .edge import Edge
from .edgings import Sides
from .lines import starts_anew
from .names import same_name
from .records import Worked

_EDGINGS = re.compile(r"\b(?:edging|border|brim|trim|ruffle|edge|frill|neckband|collar|cuff|hem|band|ribbing)s?\b", re.IGNORECASE)
_ONTO = re.compile(r"\b(?:join|attach|rejoin)\b[^.;:]*\b(?:in|to) (?:any|a|the first|first|the|last)\b|\balong the\b|\baround the\b|\bof (?:the )?last (?:rnd|round|row)\b|\bof (?:rnd|round|row) \d", re.IGNORECASE)
_RIGHT = (Status.CHECKED, Status.COUNTED)


def edged_piece(line: syntax.RoundLine, piece: syntax.Piece, pattern: syntax.Pattern) -> syntax.Piece | None:
    """The piece along whose edge a new piece begins: the one that the line names, else the one before it."""
    is_edging = any(isinstance(step, syntax.Edging) for step in line.steps or ())
    words = line.statement.words
    if not is_edging and (starts_anew(line) or not (_EDGINGS.search(piece.name) and _ONTO.search(words))):
        return None
    before = pattern.pieces[: next((at for at, other in enumerate(pattern.pieces) if other is piece), 0)]
    named = [other for other in before if other.name and re.search(rf"\b{re.escape(other.name)}\b", words, re.IGNORECASE)]
    return named[-1] if named else next((other for other in reversed(before) if not other.making_up and not same_name(other.name, piece.name)), None)


def sides_of(worked: Sequence[Worked], edge: Edge | None) -> Sides | None:
    """The edges of a piece as far as it is worked; None where one of its lines is not counted."""
    if edge is None or edge.kind != "stitches" or not edge.stitches:
        return None
    lines = [done for done in worked if done.kind in ("row", "round") and done.worked]
    if not lines or any(done.status not in _RIGHT for done in lines):
        return None
    rows = [done for done in lines if done.kind == "row"]
    if not rows:
        return Sides.of_rounds(edge)
    if len(rows) != len(lines):
        return None
    first = rows[0].outcome
    on_chain = first is not None and first.before is not None and first.before.kind == "chain"
    bottom = first.first.tally.made if on_chain and first is not None else None
    return Sides(sum(done.worked for done in rows), edge.stitches, bottom, 4)

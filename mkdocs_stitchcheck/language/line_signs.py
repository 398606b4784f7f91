"""What the steps of a line make it: a foundation, a start, a join of pieces, a round, or mere moves."""

from __future__ import annotations

from .. import late_re as re
from .syntax import Aside, Chain, ColorChange, Edging, Join, Loops, More, Ring, Step, Turn, Work


def other_names(name: str) -> set[str]:
    """A piece's name in the singular and plural: "ears" and "ear"."""
    if name.endswith("ies"):
        return {name[:-3] + "y"}
    if name.endswith("s"):
        return {name[:-1]}
    return {name + "s"}


def is_foundation(steps: tuple[Step, ...]) -> bool:
    """Chains or a ring, and nothing worked into them; a chain to another piece is none."""
    return any(isinstance(step, (Chain, Ring)) for step in steps) and all(
        isinstance(step, (Chain, Ring, Join, Aside, ColorChange, Turn)) and not (isinstance(step, (Join, Aside)) and step.reference)
        for step in steps
    )


def joins_pieces(steps: tuple[Step, ...]) -> bool:
    """"Ch 3 from the second leg and join to the first": nothing is begun, and the stitches come in the next round."""
    return any(isinstance(step, (Join, Aside)) and step.reference is not None for step in steps) and all(
        isinstance(step, (Chain, Join, Aside, ColorChange, Turn)) for step in steps
    )


def starts_piece(steps: tuple[Step, ...]) -> bool:
    """A ring, or stitches into one: something new begins."""
    return any(isinstance(step, Ring) for step in steps) or in_ring(steps)


def in_ring(steps: tuple[Step, ...]) -> bool:
    """Whether stitches go into a ring."""
    return any(getattr(getattr(step, "place", None), "kind", "") == "ring" for step in steps)


def is_habit(text: str) -> bool:
    """"Ch 1, turn each row.": said once for all rows."""
    return bool(re.search(r"\b(?:each|every) (?:row|round|rnd)\b", text, re.IGNORECASE)) and "turn" in text.lower()


def only_moves(steps: tuple[Step, ...]) -> bool:
    """"sc 3 more to reach the side", "sl st in next st, FO": no round of its own."""
    moves = [step for step in steps if not isinstance(step, Aside)]
    return bool(moves) and all(
        isinstance(step, (More, Join)) or isinstance(step, Work) and step.stitch.kind == "slip" for step in moves
    )


def works(steps: tuple[Step, ...]) -> bool:
    """Whether stitches are worked at all."""
    return any(not isinstance(step, (Aside, ColorChange, Turn, Join, Loops)) for step in steps)


def stretches(steps: tuple[Step, ...]) -> bool:
    """Whether stitches are worked as far as the round goes, or into a ring."""
    return any(
        isinstance(step, Edging) or getattr(getattr(step, "place", None), "kind", "") in ("rest", "ring", "to_last") or getattr(step, "extent", "") == "rest"
        for step in steps
    )

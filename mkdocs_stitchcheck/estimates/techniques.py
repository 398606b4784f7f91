"""The techniques that a pattern asks for, read from what its rounds are made of."""

from __future__ import annotations

from collections.abc import Iterator

from ..language import syntax
from ..results import PatternResult, PieceResult, RoundResult
from .size import chain_along
from .stitch_yarn import stitch_of
from .tails import sewn_on

# Technique -> what a maker must be able to do, in the order in which skills are listed.
SKILLS: dict[str, str] = {
    "basic": "basic stitches",
    "ring": "starting in a ring",
    "shaping": "increasing and decreasing",
    "spiral": "working in the round",
    "around-chain": "working along both sides of a chain",
    "loops": "working into one loop only",
    "stripes": "changing colour between rounds",
    "colorwork": "changing colour within a round",
    "spaces": "working into chain spaces",
    "openings": "openings of chains",
    "groups": "groups such as bobbles, popcorns and clusters",
    "post": "stitches around the post",
    "unusual": "less usual stitches",
    "shells": "several stitches in one place",
    "short": "short rows",
    "free-loops": "picking up loops of earlier rounds",
    "joined": "joining pieces as you work",
    "layers": "working through two layers",
    "sewing": "sewing pieces together",
    "color-and-shaping": "colour work and shaping in the same round",
}
_GROUPS = ("bobble", "popcorn", "cluster", "puff", "x-st")
_UNUSUAL = ("loop st", "spike st", "rsc", "picot", "esc", "ehdc", "edc", "etr", "hhdc")


def techniques(result: PatternResult) -> list[str]:
    """The techniques used, as keys of :data:`SKILLS` in its order."""
    found = {"basic"} if any(line.stitches for line in result.rounds) else set()
    for piece in result.pieces:
        found.update(_of_piece(piece, result.syntax.header))
    if sewn_on(result):
        found.add("sewing")
    return [key for key in SKILLS if key in found]


def _of_piece(piece: PieceResult, header: syntax.Header) -> Iterator[str]:
    if any(line.kind == "round" for line in piece.rounds):
        yield "spiral"
    if chain_along(piece) is not None:
        yield "around-chain"
    color = piece.syntax.color
    for line in piece.rounds:
        yield from _of_steps(line)
        yield from _of_stitches(line, header)
        used = list(dict.fromkeys(key for key, _stitch in line.stitches if key))
        if len(used) > 1:
            yield "colorwork"
            if _shapes(line):
                yield "color-and-shaping"
        elif used and color and used != [color]:
            yield "stripes"
        color = used[-1] if used else color


def _shapes(line: RoundResult) -> bool:
    return any(used is not None and made is not None and used and used != made
               for used, made in zip(line.uses, line.makes, strict=False))


def _of_stitches(line: RoundResult, header: syntax.Header) -> Iterator[str]:
    for _color, key in line.stitches:
        stitch = stitch_of(key, header)
        if stitch is None:
            continue
        if stitch.kind in ("increase", "decrease"):
            yield "shells" if stitch.makes > 3 else "shaping"
        elif stitch.kind == "post":
            yield "post"
        elif stitch.key in _GROUPS or stitch.kind == "group":
            yield "groups"
        elif stitch.key in _UNUSUAL or stitch.kind in ("foundation", "picot"):
            yield "unusual"


def _of_steps(line: RoundResult) -> Iterator[str]:
    waiting: list[syntax.Step] = list(line.syntax.steps or ())
    while waiting:
        step = waiting.pop()
        waiting.extend(getattr(step, "body", ()))
        waiting.extend(getattr(step, "ending", ()))
        if isinstance(step, syntax.Ring):
            yield "ring"
        elif isinstance(step, syntax.Loops) and step.loop in ("back", "front", "third"):
            yield "loops"
        elif isinstance(step, syntax.Turn) and line.kind == "round" and (line.syntax.steps or ())[-1:] != (step,):
            yield "short"
        elif isinstance(step, syntax.Group):
            yield "shells"
        elif isinstance(step, syntax.Chain) and not step.turning and line.kind != "foundation":
            yield "openings"
        elif isinstance(step, syntax.Join) and step.reference is not None and step.reference.piece:
            yield "joined"
        place = getattr(step, "place", None)
        if isinstance(step, syntax.Work) and (step.loop or step.stitch.loop) in ("back", "front", "third"):
            yield "loops"
        if isinstance(place, syntax.Place):
            yield from _of_place(place)


def _of_place(place: syntax.Place) -> Iterator[str]:
    by_kind = {"ring": "ring", "space": "spaces", "loops": "free-loops", "piece": "joined"}
    if place.kind in by_kind:
        yield by_kind[place.kind]
    if place.layers > 1:
        yield "layers"

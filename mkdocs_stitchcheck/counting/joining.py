"""Pieces worked together: legs and the bridge between them, an arm worked on through both edges."""

from __future__ import annotations

from collections.abc import Collection

from ..language import syntax
from ..language.vocabulary import stitches
from .edge import Edge
from .names import same_name
from .places import flat
from .working import Steps, Working


def open_joining(w: Working, steps: Steps, edge: Edge | None, own_piece: str) -> None:
    """Where *steps* work around other pieces, all their stitches are there to be used, besides the piece's own."""
    named: dict[str, Edge | None] = {}
    pairs: dict[str, Edge | None] = {}
    copies = 0
    for step in flat(steps):
        reference = _names(step)
        if reference is None or not reference.piece or reference.rounds:
            continue
        name = _plain(reference.piece)
        if _is_chain(name):
            continue
        own = bool(own_piece) and same_name(own_piece, reference.piece)
        if _is_pair(step):
            pairs[name] = _edge_of(w, reference, edge, own)
            copies += own
            continue
        name = w.pool = _copy_meant(name, named, w.pool)
        if name not in named:
            named[name] = _edge_of(w, reference, edge, own)
            copies += own
    for name, found in pairs.items():
        for copy in ("first", "second")[sum(same_name(known, name) for known in named) :]:
            named[f"{copy} {name}"] = found
    if not named:
        return
    w.joined, w.pool, w.pool_used = {name: found.stitches if found is not None else None for name, found in named.items()}, "", {}
    if any(found is None for found in named.values()):
        w.unknown = True
        return
    total = sum(found.stitches for found in named.values() if found is not None)
    w.bridge = max([w.trailing, *(found.trailing for found in named.values() if found is not None)])
    has_own = edge is not None and edge.kind == "stitches"
    own = copies > 1 or bool(pairs) or any(word in ("second", "2nd", "2", "other", "both") for name in named for word in name.split())
    w.left = total + (w.left if has_own and not (copies and own) else 0)
    if edge is not None and edge.joined:
        w.options = max(w.options, 2)
        if w.choice:  # the stitch of the join is one more than those the round names
            w.use(1)
            w.tally.stitch(w.wear(None), stitches()["sc"], 1, 1)
            w.joined_before = True


def _names(step: syntax.Step) -> syntax.Reference | None:
    """The piece that *step* names to be worked around, or joined."""
    if isinstance(step, syntax.Join):
        return step.reference
    place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
    if place is None or place.layers > 1 and not _is_pair(step):
        return None
    return place.reference if place.kind == "piece" or _is_pair(step) else None


def _is_pair(step: syntax.Step) -> bool:
    """Whether *step* goes through two copies of one piece."""
    place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
    return place is not None and place.layers > 1 and place.kind != "piece" and place.reference is not None


def _edge_of(w: Working, reference: syntax.Reference, edge: Edge | None, own: bool) -> Edge | None:
    """The stitches that a piece ended with; of the piece at hand those that it has now."""
    found = w.setting.pieces(reference)
    return edge if found is None and own and edge is not None and edge.kind == "stitches" else found


def _plain(name: str) -> str:
    words = name.lower().replace("the ", "").split()
    return " ".join(words)


def _copy_meant(name: str, named: Collection[str], last: str) -> str:
    """"around leg", after "join to first leg", is the first leg."""
    if name in named or not last or any(word.isdigit() or word in _ORDINALS for word in name.split()):
        return name
    return last if same_name(name, last) else name


_ORDINALS = ("first", "second", "third", "other", "1st", "2nd", "left", "right")


def join_to(w: Working, step: syntax.Join) -> None:
    """"Join to first leg with sc": that stitch is one of the leg's."""
    if step.reference is not None and w.joined:
        w.pool = _copy_meant(_plain(step.reference.piece), w.joined, w.pool)
        if step.stitch is not None:
            w.pool_used = {**w.pool_used, w.pool: w.pool_used.get(w.pool, 0) + 1}


def _is_chain(name: str) -> bool:
    return name.split()[-1:] in (["ch"], ["chain"], ["chains"], ["bridge"])


def place_of_piece(w: Working, place: syntax.Place) -> int:
    """Places of another piece, or of the bridge."""
    name = _plain(place.reference.piece) if place.reference is not None else ""
    if _is_chain(name) and not w.joined:
        return w.value(place.number) if place.number is not None else max(w.left, 0)
    if _is_chain(name):
        number = w.value(place.number) if place.number is not None else w.bridge
        return along_the_bridge(w, number)
    name = w.pool = _copy_meant(name, w.joined, w.pool)
    there = w.joined.get(name)
    if place.number is None:
        w.open_ended = True
        return max((there or 0) - w.pool_used.get(name, 0), 0)
    number = w.value(place.number)
    used = w.pool_used.get(name, 0) + number
    w.pool_used = {**w.pool_used, name: used}
    if there is not None and used > there:
        w.mismatch = (place, used, there)
    return number


def along_the_bridge(w: Working, number: int) -> int:
    """Takes *number* places of the bridge; they are no stitches of a piece."""
    w.bridge_used += number
    w.left += number  # the caller uses them; the pieces' stitches stay as they were
    return number


def through_both(w: Working, place: syntax.Place, kept: int) -> int:
    """"sc 3 through both legs": a stitch of each copy is used for every stitch made."""
    if place.number is not None:
        number = w.value(place.number)
    elif place.kind == "next":
        number = 1
    else:
        w.open_ended = True
        number = max(w.left // 2 - kept, 0)
    w.held += number
    w.use(number * place.layers)
    name = _plain(place.reference.piece) if place.reference is not None else ""
    w.seamed = {**w.seamed, name: w.seamed.get(name, 0) + number}
    return number


def close_joining(w: Working) -> None:
    """Sides of the bridge that were not worked are places of the next round, or are counted in this one."""
    for name, number in w.seamed.items():
        for copy, there in w.joined.items():
            if there is not None and same_name(copy, name) and w.pool_used.get(copy, 0) + number > there and not w.mismatch:
                w.mismatch = (syntax.Node(0, 0), w.pool_used.get(copy, 0) + number, there)
    if w.setting.partial and w.seamed and w.left > 0 and not w.pool_used:
        w.left = 0  # a seam: what is left of the pieces is worked later
    if w.joined_before and not w.left:
        short = [(there or 0) - w.pool_used.get(name, 0) for name, there in w.joined.items()]
        if short != [1] + [0] * (len(short) - 1):
            w.left = 1  # the stitch of the join stands in for one of its own leg only: the one the round begins on
    if not w.bridge:
        w.left -= w.bridge_used
        return
    sides, part = divmod(w.bridge_used, w.bridge)
    if sides + bool(part) > 2:
        over = w.bridge_used - 2 * w.bridge
        w.left = w.left - over or -over  # a stitch too many on the bridge makes up for none of a leg
        return
    if part:
        w.left = w.left + w.bridge - part or w.bridge - part
        return
    unworked = 2 - sides
    if not unworked:
        return
    counted = 0
    if w.options == 1:
        w.options = 3
        counted = (1, 0, unworked)[min(w.choice, 2)]
    w.tally.made += counted * w.bridge
    w.tally.openings += counted * w.bridge
    w.waits += (unworked - counted) * w.bridge


def attach(w: Working, place: syntax.Place) -> int:
    """"sc 4 through Body and arm": the arm's edge must be 4, or 8 where it was flattened."""
    number = w.times(place.number)
    found = w.setting.pieces(place.reference) if place.reference is not None else None
    if found is not None and number not in (found.stitches, (found.stitches + 1) // 2, found.stitches // 2):
        w.mismatch = w.mismatch or (place, number, found.stitches)
    w.use(number)
    return number

"""A chart in the round: every stitch stands on the one it is worked into, and the rounds lie around each other."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from ..counting.in_full import Course
from ..counting.replaying import Item
from ..language.heights import real_height
from ..language.vocabulary import stitches as plain_stitches
from .curves import Curve
from .figures import num, text_width
from .folding import Drawn
from .layout import Layout, Lettering, narrowed, triangle
from .symbols import GAP, ROW, WIDTH, Point, Symbol, bulge, height_key

LEAST_ROOM = 0.74  # of a stitch's width: closer, and symbols would touch
_RING = 8.0
_LEANING = 0.9  # stitches by which one may lean before the round is straightened
_KEPT = 0.78  # of its even share of the way around, that a stitch keeps where it moves towards its parent
_PARTS = (6, 8, 7, 5, 12, 10, 9, 4, 3)  # rounds that are alike in so many parts; six is the usual


@dataclass(slots=True)
class Ring:
    """A drawn round: ``out`` its distance, ``shares`` where each item's middle is, ``room`` a stitch's width in units.

    ``widths`` are the items' shares of the way around, ``place_shares`` and ``space_shares`` are those of its places and spaces, ``raised`` how far the spaces stand out;
    ``start`` is where its first item begins, ``end`` the seam, ``label`` the middle of its lettering, ``seam`` the
    share of the way around that this takes. ``way`` is 1 counterclockwise, -1 back.
    ``across`` is set for a round that closes a ball: how far its middle lies above. ``sides`` are, for an oval, the places
    straight above or below the chain: how far from its middle, and whether on the second side.
    """

    out: float
    shares: list[float]
    room: float
    place_shares: list[float] = field(default_factory=list)
    space_shares: list[float] = field(default_factory=list)
    space_lifts: list[float] = field(default_factory=list)
    start: float = 0.0
    end: float = 0.0
    label: float = 0.0
    way: int = 1
    widths: list[float] = field(default_factory=list)
    across: float = 0.0
    seam: float = 0.0
    sides: list[tuple[float, bool] | None] = field(default_factory=list)


def in_rounds(drawn: Sequence[Drawn], labels: bool = True, turn: float = 0.0) -> tuple[Layout, list[Ring], Curve]:
    """Places every item of the rounds *drawn*; with *labels* each round's number and count stand at its end.

    Rounds that close a ball go inward again, above those that open it. *turn* turns the whole, in degrees.
    """
    first = drawn[0].course
    curve = _curve([one.course for one in drawn], turn)
    layout = Layout()
    before = _base(first, curve, layout)
    rings: list[Ring] = []
    closing = closing_from(drawn)
    outs: list[float] = []
    for number, one in enumerate(drawn):
        label = _label(one) if labels else ""
        letters = _label_room(label, number, one.course, bool(curve.corners or curve.straight))
        if number == closing:
            outs = _closing_outs(drawn[number:], labels)
            before = replace(before, out=outs[0], across=before.out + outs[0] + (2 * ROW if labels else ROW))
        out = outs[number - closing + 1] if outs else None
        ring = _ring(one.course, before, curve, letters, out)
        _put(layout, number, one.course, before, ring, curve)
        if label:
            _letter(layout, curve, ring, label, number, one.course)
        if number == 0 and labels:
            layout.start = _triangle(curve, ring)
        rings.append(ring)
        before = _flipped(ring) if one.flipped else ring
    return layout, rings, curve


def closing_from(drawn: Sequence[Drawn]) -> int:
    """The first of the rounds that draw a ball shut; as many as there are rounds where none do."""
    counts = [one.course.count for one in drawn]
    number = len(drawn)
    if drawn[0].course.begins != "ring" or counts[-1] * 2 > max(counts) or number < 3:
        return number
    at = number - 1
    while at > 0 and counts[at] <= counts[at - 1]:
        at -= 1
    at += 1
    while at < number and counts[at] == counts[at - 1]:
        at += 1
    spaces = any(item.kind == "space" for one in drawn[at - 1 :] for item in one.course.items)
    return number if spaces or at >= number else at


def _closing_outs(closing: Sequence[Drawn], labels: bool) -> list[float]:
    """How far from its middle each closing round lies, that which it stands on first: reckoned from the hole outwards."""
    outs = [_RING]
    for number in range(len(closing) - 1, -1, -1):
        course = closing[number].course
        letters = _label_room(_label(closing[number]) if labels else "", 1, course)
        around = len(course.items) * WIDTH * LEAST_ROOM + letters
        outs[0] = max(outs[0], around / (2 * math.pi))
        outs.insert(0, outs[0] + course_height(course))
    return outs


def _label(one: Drawn) -> str:
    said = f"{one.label} · {one.course.count}" if one.label else str(one.course.count)
    return f"{said} {one.color}" if one.color else said


def _label_room(label: str, number: int, course: Course, straight: bool = False) -> float:
    """The room that a round's lettering takes, with the triangle at the first one's and the dot that closes a round."""
    if not label:
        return 0.0
    room = text_width(label) + 12 + 14 * course.joined
    return (room + 16) * (1.0 if straight else 1.5) if number == 0 else room  # the first lies so near the middle that its line is short


def _flipped(ring: Ring) -> Ring:
    return replace(ring, place_shares=ring.place_shares[::-1], space_shares=ring.space_shares[::-1],
                   space_lifts=ring.space_lifts[::-1], sides=ring.sides[::-1], way=-ring.way)


def spot(curve: Curve, ring: Ring, out: float, share: float) -> Point:
    """A place of a round; of a closing one on the other side of the rounds that open the ball."""
    x, y = curve.point(out, share)
    return (x, -ring.across - y) if ring.across else (x, y)


# --- the line and the beginning ------------------------------------------------------------------------------------


def _curve(courses: Sequence[Course], turn: float) -> Curve:
    first = courses[0]
    if first.begins == "chain":
        return Curve(straight=max(first.chains - first.skipped - 1, 1) * WIDTH, turn=0.0)
    numbers = {len(corners(course)) for course in courses}
    if len(numbers) == 1 and 3 <= (number := numbers.pop()) <= 8:
        return Curve(corners=number, turn=90.0 + 180.0 / number)
    return Curve(turn=90.0 + turn)


def corners(course: Course) -> list[int]:
    """The items that are corners: its longest spaces."""
    longest = max((item.length for item in course.items if item.kind == "space"), default=0)
    return [at for at, item in enumerate(course.items) if item.kind == "space" and item.length == longest]


def _base(first: Course, curve: Curve, layout: Layout) -> Ring:
    """What the first round stands on."""
    if first.begins == "chain":
        return _chain_base(first, curve, layout)
    if first.begins == "loop":
        number = first.chains
        out = max(number * WIDTH * 0.8 / (2 * math.pi), _RING)
        shares = [(k + 0.5) / number for k in range(number)]
        _chain_ring(layout, number, out)
        return Ring(out, shares, WIDTH, shares)
    if first.begins == "ring" and first.chains:
        out = max(first.chains * 10 / (2 * math.pi), _RING)
        _chain_ring(layout, first.chains, out)
        return Ring(out + 3, [], WIDTH)
    layout.lines.append(f"M{num(-_RING)} 0a{num(_RING)} {num(_RING)} 0 1 0 {num(2 * _RING)} 0a{num(_RING)} {num(_RING)} 0 1 0 {num(-2 * _RING)} 0")
    return Ring(_RING, [], WIDTH)


def _chain_ring(layout: Layout, number: int, out: float) -> None:
    """Chains closed to a ring."""
    half = math.pi * out / number * 0.9
    for k in range(min(number, 400)):
        angle = 2 * math.pi * (k + 0.5) / number
        degrees = math.degrees(angle) + 90
        cx, cy = out * math.cos(angle), out * math.sin(angle)
        x, y = cx - half * math.cos(math.radians(degrees)), cy - half * math.sin(math.radians(degrees))
        layout.lines.append(_oval_at(x, y, half, 3.2, degrees))


def _oval_at(x: float, y: float, rx: float, ry: float, degrees: float) -> str:
    turn = math.radians(degrees)
    dx, dy = 2 * rx * math.cos(turn), 2 * rx * math.sin(turn)
    flags = f"a{num(rx)} {num(ry)} {num(degrees)} 1 0 "
    return f"M{num(x)} {num(y)}{flags}{num(dx)} {num(dy)}{flags}{num(-dx)} {num(-dy)}"


def _chain_base(first: Course, curve: Curve, layout: Layout) -> Ring:
    """The chain of an oval, its first stitch at the right."""
    number = first.chains - first.skipped
    for k in range(number):
        x = curve.straight / 2 - k * WIDTH
        layout.lines.append(_oval_at(x - WIDTH * 0.42, 0, WIDTH * 0.42, 4.5, 0))
    half = curve.straight / 2
    sides = [(half - k * WIDTH, False) if 0 < k < number - 1 else None for k in range(number)]
    return Ring(6.0, [], WIDTH, [0.0] * number, sides=sides)


# --- one round -----------------------------------------------------------------------------------------------------


def weight(item: Item) -> float:
    """How much of the way around an item takes, in stitches."""
    if item.kind == "space":
        return item.places * 0.9 if item.places else max(0.75, 0.5 * item.length + 0.1)
    if item.kind == "height":
        return 0.6
    if item.kind in ("slip", "picot"):
        return 0.0
    return 1.0


def course_height(course: Course) -> float:
    """The height of a round, in units: that of its tallest stitches."""
    tallest = max((_height(item) for item in course.items), default=1.0)
    return max(tallest, 1.0) * ROW


def _height(item: Item) -> float:
    if item.kind == "turning":
        return (1.0, 1.0, 1.5, 2.0, 3.0, 4.0)[min(item.length, 5)]
    if item.kind != "stitch":
        return 0.0
    return real_height(plain_stitches()[height_key(item)]) + (0.15 if item.stitch and item.stitch.kind == "group" else 0)


def _ring(course: Course, before: Ring, curve: Curve, letters: float, out: float | None) -> Ring:
    weights = [weight(item) for item in course.items]
    total = sum(weights) + (0.5 if course.joined else 0.0)
    if out is not None:
        return _ring_at(out, course, before, curve, weights, letters)
    needed = curve.out_for(total * WIDTH * LEAST_ROOM + letters)
    out = max(before.out + course_height(course), needed)
    for _ in range(40):
        ring = _ring_at(out, course, before, curve, weights, letters)
        if ring.room >= WIDTH * LEAST_ROOM - 0.01:
            break
        out *= min(max((WIDTH * LEAST_ROOM / max(ring.room, 1.0)) ** 0.8, 1.02), 1.25)
    return ring


def _ring_at(
    out: float, course: Course, before: Ring, curve: Curve, weights: list[float], letters: float
) -> Ring:
    around = curve.length(out)
    way = -before.way if course.back else before.way
    sides = _sides(course, before) if curve.straight else []
    anchors = _anchors(course, curve, sides, out) if way == 1 else []
    seam = letters / around
    if anchors:
        seam = _seam(weights, anchors, seam)
    found = _along(weights, seam)
    seams = [seam / 2, 0.0]
    phase = 0.0
    if anchors:
        *moved, first, label = _to_anchors([*found, *seams], [(found[at], share) for at, share in anchors])
        if not sides or not _leans(moved, [_stand(item, before, course, curve) for item in course.items], 2.2 / sum(weights)):
            found, seams = moved, [first, label]
        else:
            anchors = []
    if not anchors:
        phase = _phase(course, before, curve, found, way, seam)
        if letters:  # rounds in equal parts stay even, so that one part is like the others
            stands = [
                None if (stand := _stand(item, before, course, curve)) is None
                else _with_seam(_seamless(way * (stand - phase), before.seam), seam)
                for item in course.items
            ]
            if _leans(found, stands, _LEANING / sum(weights)):
                found = _straightened(found, weights, seam, stands)
    least = _least_room(found, weights, around, letters)
    start, label = (phase + way * seam for seam in seams)
    shares = [phase + way * share for share in found]
    ring = Ring(out, shares, least, start=start, end=phase, label=label, way=way, across=before.across, seam=seam)
    ring.widths = _widths(found, weights)
    for at, (item, share, step) in enumerate(zip(course.items, shares, ring.widths, strict=True)):
        for k in range(item.places):
            ring.place_shares.append(share + way * step * ((k + 0.5) / item.places - 0.5))
            ring.sides.append(sides[at] if sides else None)
        if item.kind == "space":
            ring.space_shares.append(share)
            ring.space_lifts.append(bulge(item.length) if not item.places else 0.0)
    return ring


def _widths(found: list[float], weights: list[float]) -> list[float]:
    """The share of the way around that each item has, up to its neighbours."""
    halves: list[list[float]] = [[] for _ in found]
    for at, after in pairwise(k for k, one in enumerate(weights) if one):
        gap, both = found[after] - found[at], weights[at] + weights[after]
        halves[at].append(gap * weights[at] / both)
        halves[after].append(gap * weights[after] / both)
    return [2 * sum(half) / len(half) if half else 0.0 for half in halves]


def _along(weights: list[float], seam: float) -> list[float]:
    """The middle of each item, one after the other around, with *seam* left free where they begin and end."""
    room = (1 - seam) / sum(weights)
    found, at = [], seam / 2
    for one in weights:
        found.append(at + one * room / 2)
        at += one * room
    return found


def _leans(found: list[float], stands: list[float | None], most: float) -> bool:
    """Whether an item is further than *most* from where it stands."""
    return any(s is not None and abs(_turn(s - at)) > most for s, at in zip(stands, found, strict=True))


def _straightened(found: list[float], weights: list[float], seam: float, stands: list[float | None]) -> list[float]:
    """Moves items, evenly laid out in *found*, towards where they stand; each keeps most of its room.

    The nearest such places, in order: isotonic regression by pooling neighbours (Ayer et al. 1955).
    """
    room = (1 - seam) / sum(weights)
    low = [share - seam / 2 for share in found]
    pools: list[tuple[float, float, int]] = []  # (sum of wishes, weight, items)
    for (at, share), stand, one in zip(enumerate(found), stands, weights, strict=True):
        fellows = [k for k in (at - 2, at - 1, at, at + 1, at + 2) if 0 <= k < len(found) and stands[k] == stand]
        wish = share if stand is None else share + _turn(stand - share) + (at - sum(fellows) / len(fellows)) * room
        pools.append((wish - seam / 2 - low[at] * _KEPT, 1.0 if one and stand is not None else 0.3, 1))
        pools[-1] = (pools[-1][0] * pools[-1][1], pools[-1][1], 1)
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            last, before = pools.pop(), pools.pop()
            pools.append((last[0] + before[0], last[1] + before[1], last[2] + before[2]))
    most = (1 - seam) * (1 - _KEPT)
    slack = [min(max(wishes / weight_, 0.0), most) for wishes, weight_, number in pools for _ in range(number)]
    return [seam / 2 + place * _KEPT + by for place, by in zip(low, slack, strict=True)]


def _anchors(
    course: Course, curve: Curve, sides: list[tuple[float, bool] | None], out: float
) -> list[tuple[int, float]]:
    """Items whose place is given, (number, share): corners, and stitches straight beside an oval's chain."""
    if curve.corners:
        return [(at, k / curve.corners) for k, at in enumerate(corners(course))]
    return [(at, _beside(side, out, curve)) for at, side in enumerate(sides) if side is not None]


def _seam(weights: list[float], anchors: list[tuple[int, float]], wanted: float) -> float:
    """The share to leave free so that the seam is *wanted* wide once the anchors are in their places."""
    (first, first_share), (last, last_share) = anchors[0], anchors[-1]
    loose = sum(weights[:first]) + sum(weights[last + 1 :]) + (weights[first] + weights[last]) / 2
    room = first_share + 1 - last_share
    if wanted >= room * 0.9:
        return wanted
    units = loose * wanted / (room - wanted)
    return units / (sum(weights) + units)


def _least_room(found: list[float], weights: list[float], around: float, letters: float) -> float:
    """The width that a stitch has where it is narrowest."""
    standing = [(share, one) for share, one in zip(found, weights, strict=True) if one]
    gaps = [(b - a) * around / ((wa + wb) / 2) for (a, wa), (b, wb) in pairwise(standing)]
    (first, w_first), (last, w_last) = standing[0], standing[-1]
    gaps.append(((first + 1 - last) * around - letters * 0.98) / ((w_first + w_last) / 2))
    return min(gaps)


def _sides(course: Course, before: Ring) -> list[tuple[float, bool] | None]:
    """Of an oval's round, the stitches straight above or below the chain: the only ones on a stitch that is so."""
    children = Counter((item.parents, item.far) for item in course.items)
    found: list[tuple[float, bool] | None] = []
    for item in course.items:
        alone = item.kind == "stitch" and len(item.parents) == 1 and children[item.parents, item.far] == 1
        side = before.sides[item.parents[0]] if alone and before.sides else None
        found.append((side[0], item.far if course.begins == "chain" else side[1]) if side is not None else None)
    return found


def _beside(side: tuple[float, bool], out: float, curve: Curve) -> float:
    """The share of the way around an oval that lies straight above, or below, a place of its chain."""
    x, far = side
    quarter, half = math.pi * out / 2, curve.straight / 2
    along = 3 * quarter + curve.straight + (x + half) if far else quarter + (half - x)
    return along / curve.length(out)


def _to_anchors(shares: list[float], anchors: list[tuple[float, float]]) -> list[float]:
    """Moves the anchors (share, its new share), in order, to where they belong, what lies between them in proportion."""
    around = [(anchors[-1][0] - 1, anchors[-1][1] - 1), *anchors, (anchors[0][0] + 1, anchors[0][1] + 1)]
    found = []
    places = [place for place, _new in around]
    for share in shares:
        side = bisect_right(places, share) - 1
        side = min(max(side, 0), len(around) - 2)
        (low, new_low), (high, new_high) = around[side], around[side + 1]
        found.append(new_low + (share - low) / ((high - low) or 1.0) * (new_high - new_low))
    return found


def _phase(course: Course, before: Ring, curve: Curve, found: list[float], way: int, seam: float) -> float:
    """How far the round is turned so that its stitches stand above those they are worked into; 0 where that is near."""
    x = y = 0.0
    number = 0
    for item, share in zip(course.items, found, strict=True):
        if item.kind == "slip":
            continue
        stand = _stand(item, before, course, curve)
        if stand is None:
            continue
        there = before.end + before.way * _seamless(before.way * (stand - before.end), before.seam)
        angle = 2 * math.pi * (there - way * _seamless(share, seam))
        x, y, number = x + math.cos(angle), y + math.sin(angle), number + 1
    if not number:
        return before.end if before.place_shares else 0.0
    phase = math.atan2(y, x) / (2 * math.pi)
    near = 2.2 / max(len(before.place_shares), 8)
    return before.end if abs(_turn(phase - before.end)) < near else phase


def _seamless(share: float, seam: float) -> float:
    """A share of the way around as one of the stitches alone, without the seam where they begin and end."""
    return (share % 1.0 - seam / 2) / (1 - seam)


def _with_seam(share: float, seam: float) -> float:
    """The other way round."""
    return seam / 2 + share * (1 - seam)


def _turn(share: float) -> float:
    """*share* brought between -1/2 and 1/2."""
    return (share + 0.5) % 1.0 - 0.5


def _stand(item: Item, before: Ring, course: Course, curve: Curve) -> float | None:
    """The share at which an item stands, as the mean of its parents'; None for a ring."""
    if item.space is not None and item.space < len(before.space_shares):
        return before.space_shares[item.space]
    if not item.parents or not before.place_shares:
        return None
    if course.begins == "chain":
        length = curve.length(before.out)
        quarter = math.pi * before.out / 2
        along = item.parents[0] * WIDTH
        number = course.chains - course.skipped
        if item.parents[0] in (0, number - 1) and not item.far and item.parents[0]:
            return 0.5
        if item.parents[0] == 0:
            return 0.0
        return 1 - (quarter + along) / length if item.far else (quarter + along) / length
    first = before.place_shares[item.parents[0]]
    return first + sum(_turn(before.place_shares[p] - first) for p in item.parents) / len(item.parents)


# --- symbols -------------------------------------------------------------------------------------------------------


def _put(layout: Layout, number: int, course: Course, before: Ring, ring: Ring, curve: Curve) -> None:
    into: dict[int, list[int]] = {}
    for at, item in enumerate(course.items):
        if item.space is not None and item.kind != "slip":
            into.setdefault(item.space, []).append(at)
    around = curve.length(ring.out)
    symbols: list[Symbol] = []
    lift = -1 if ring.across else 1  # closing rounds grow inward
    for at, (item, share) in enumerate(zip(course.items, ring.shares, strict=True)):
        head = spot(curve, ring, ring.out - lift * GAP / 2, share)
        feet = _feet(item, at, into, course, before, curve, share)
        if item.kind == "space":
            half = (ring.widths[at] if item.places else ring.room * weight(item) / around) / 2 * 0.94
            ends = [spot(curve, ring, ring.out - lift * GAP, share + by * ring.way) for by in (half, -half)]
            feet, head = (ends[0],), ends[1]
            if ring.way == -1:
                feet, head = (head,), feet[0]
        elif item.kind == "picot":
            near = ring.shares[at - 1] if at else share
            feet, head = (spot(curve, ring, ring.out, near),), spot(curve, ring, ring.out + lift * 8, near)
        elif item.kind == "slip":
            head = feet[0]
        elif item.kind == "height":
            inner = before.out + lift * GAP / 2
            reach = min(item.length * 12.0, abs(ring.out - before.out) - GAP)
            feet, head = (spot(curve, ring, inner, share),), spot(curve, ring, inner + lift * reach, share)
        symbols.append(Symbol(number, item, feet, head, ring.room))
    layout.symbols += narrowed(symbols)
    layout.smallest = min(layout.smallest, ring.room)
    if course.joined:
        layout.joins.append(spot(curve, ring, ring.out - lift * GAP, ring.start - ring.way * 5 / around))


def _feet(
    item: Item, at: int, into: dict[int, list[int]], course: Course, before: Ring, curve: Curve, share: float
) -> tuple[Point, ...]:
    inner = before.out + (-GAP / 2 if before.across else GAP / 2)
    if item.space is not None and item.space < len(before.space_shares):
        fellows = into.get(item.space, [at])
        place = fellows.index(at) - (len(fellows) - 1) / 2 if at in fellows else 0.0
        spread = min(7.0, 22.0 / len(fellows)) * place / curve.length(before.out) * before.way
        lift = before.space_lifts[item.space] * 0.8
        return (spot(curve, before, inner + lift, before.space_shares[item.space] + spread),)
    if not item.parents or not before.place_shares:
        return (spot(curve, before, inner, share),)
    if course.begins == "chain":
        return (_on_chain(item, curve, course, share),)
    return tuple(spot(curve, before, inner, before.place_shares[parent]) for parent in item.parents)


def _on_chain(item: Item, curve: Curve, course: Course, share: float) -> Point:
    """Above or below a chain, or around its end."""
    number = course.chains - course.skipped
    x = curve.straight / 2 - item.parents[0] * WIDTH
    if item.parents[0] in (0, number - 1):
        hx, hy = curve.point(34.0, share)
        length = math.hypot(hx - x, hy) or 1.0
        return x + (hx - x) / length * 9, hy / length * 7
    return x, 7.0 if item.far else -7.0


def _letter(layout: Layout, curve: Curve, ring: Ring, label: str, number: int, course: Course) -> None:
    """The number and count of a round in the room at its end."""
    aside = 9 * (number == 0) - 7 * course.joined if not (number == 0 and course.joined) else 4
    share = ring.label - ring.way * aside / curve.length(ring.out) * (1 if aside != -7 else -1)
    x, y = spot(curve, ring, ring.out - (-1 if ring.across else 1) * ROW / 2, share)
    layout.letters.append(Lettering(x, y, label, upright=bool(curve.straight)))


def _triangle(curve: Curve, ring: Ring) -> tuple[Point, ...]:
    """The triangle before the first stitch, the way the work goes."""
    around = curve.length(ring.out)
    tip, tail = (curve.point(ring.out - ROW / 2, ring.start - ring.way * back / around) for back in (2.0, 14.0))
    return triangle(tip, tail)


# --- rounds in equal parts -----------------------------------------------------------------------------------------


def equal_parts(drawn: Sequence[Drawn]) -> int:
    """In how many equal parts every round falls; 0 where there is no such number."""
    if drawn[0].course.begins != "ring" or any(one.course.joined or one.course.back for one in drawn):
        return 0
    return next((parts for parts in _PARTS if all(_in_parts(one, drawn, at, parts) for at, one in enumerate(drawn))), 0)


def _in_parts(one: Drawn, drawn: Sequence[Drawn], at: int, parts: int) -> bool:
    items, total = one.course.items, len(one.course.items)
    below = drawn[at - 1].course.count if at else 0
    if total % parts or below % parts or any(item.kind != "stitch" for item in items):
        return False
    step, under = total // parts, below // parts
    for k, item in enumerate(items):
        other = items[(k + step) % total]
        if (item.kind, item.color, item.loop, item.length, height_key(item)) != (
            other.kind, other.color, other.loop, other.length, height_key(other)
        ):
            return False
        if below and tuple((parent + under) % below for parent in item.parents) != other.parents:
            return False
    return True

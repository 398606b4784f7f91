"""How long the work takes, as a range: stitches by kind, pieces sewn on, a face.

5 to 20 stitches of sc a minute by experience (the slow end agrees with Osinga & Krauskopf 2004, *Crocheting the Lorenz
Manifold*: 25,511 stitches in about 85 hours), 10 to 15 minutes for each piece sewn on, 15 for a face: common practice,
no source. Taller and thicker stitches take as long as their yarn to the power of 3/4: from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from .. import late_re as re
from ..language.vocabulary import Stitch, stitches
from ..results import PatternResult
from .stitch_yarn import stitch_of
from .tails import sewn_on

PACE = (5.0, 20.0)  # stitches of sc a minute
SEWING_MINUTES = (10.0, 15.0)
FACE_MINUTES = 15.0

_FACE = re.compile(r"\b(?:eyes?|face|nose|mouth|snout|whiskers|smile)\b", re.IGNORECASE)
_MADE = re.compile(r"\b(?:embroider|stitch|sew|insert|attach|draw|add|glue)\w*\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Effort:
    """The time of one making in minutes, ``low`` to ``high``.

    ``stitches`` are all that are worked, ``weight`` the same in stitches of sc; ``sewn`` the pieces sewn on, copies
    counted. ``left_out`` names the rounds whose stitches are not known.
    """

    low: float
    high: float
    stitches: int
    weight: float
    sewn: int
    face: bool
    left_out: tuple[str, ...] = ()


def effort(result: PatternResult, pace: tuple[float, float] | float = PACE, place: int = 0) -> Effort | None:
    """The time for a maker of this *pace*, in stitches of sc a minute (slow and quick, or one number).

    *place* is the number of the size, of a pattern that has several. None where no stitches are known. Raises ValueError for a pace that is not above 0.
    """
    slow, quick = sorted(pace) if isinstance(pace, tuple) else (pace, pace)
    if not 0 < slow <= quick < float("inf"):
        raise ValueError("a pace is a number of stitches a minute above 0")
    number, weight = 0, 0.0
    result = result.in_size(place)
    for piece in result.pieces:
        for (_color, key), count in piece.stitches.items():
            stitch = stitch_of(key, result.syntax.header)
            number += count * piece.make
            weight += count * piece.make * (stitch_time(stitch) if stitch is not None else 1.0)
    if not number:
        return None
    sewn_names = sewn_on(result)
    sewn = sum(piece.make for piece in result.pieces if piece.name.lower() in sewn_names)
    face = has_face(result)
    fixed = FACE_MINUTES if face else 0.0
    left_out = tuple(f"{piece.name}, {line.label}" for piece in result.pieces for line in piece.rounds
                     if line.counts and not line.stitches)
    return Effort(weight / quick + sewn * SEWING_MINUTES[0] + fixed, weight / slow + sewn * SEWING_MINUTES[1] + fixed,
                  number, weight, sewn, face, left_out)


def stitch_time(stitch: Stitch) -> float:
    """How long a stitch takes, in stitches of sc."""
    if stitch.kind == "increase":
        base = stitches().get(stitch.base)
        return stitch.makes * (stitch_time(base) if base is not None else 1.0)
    return float((stitch.yarn / stitches()["sc"].yarn) ** 0.75)


def has_face(result: PatternResult) -> bool:
    """Whether the pattern gives its piece a face: eyes among the materials, or a step that makes eyes, nose or mouth."""
    header = result.syntax.header
    if any(line.key == "eyes" for line in header.lines) or any(re.search(r"\beyes?\b", n, re.IGNORECASE) for n in header.notions):
        return True
    return any(_FACE.search(line.statement.words) and _MADE.search(line.statement.words)
               for piece in result.syntax.pieces for line in piece.lines if line.kind == "step")


def time_text(effort_of: Effort) -> str:
    """"4 to 10 hours", "30 to 90 minutes": rounded to what such a range deserves."""
    low, high = effort_of.low, effort_of.high
    if high < 120:
        return _between(max(5, 5 * round(low / 5)), max(5, 5 * round(high / 5)), "minutes")
    return _between(_hours(low), _hours(high), "hours")


def _between(low: float, high: float, unit: str) -> str:
    one, other = _number(low), _number(high)
    return f"about {one} {unit}" if one == other else f"{one} to {other} {unit}"


def _hours(minutes: float) -> float:
    hours = minutes / 60
    if hours < 3:
        return max(0.5, round(hours * 2) / 2)
    return float(round(hours)) if hours < 20 else float(5 * round(hours / 5))


def _number(value: float) -> str:
    whole, half = int(value), value % 1
    return f"{whole:,}" if not half else f"{whole}½" if whole else "½"

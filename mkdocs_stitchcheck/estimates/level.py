"""The project level that the techniques imply, with the reason and the list of skills.

Basic, Easy, Intermediate and Complex: Craft Yarn Council, project levels (2018). They describe the content and not the
maker. Which technique asks for which level is this project's own reading of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..results import PatternResult
from .techniques import SKILLS, techniques

LEVELS = ("Basic", "Easy", "Intermediate", "Complex")
_EASY = frozenset(
    ("loops", "stripes", "colorwork", "around-chain", "layers", "sewing", "openings", "unusual", "shells", "groups",
     "spaces")
)  # fmt: skip
_INTERMEDIATE = frozenset(("post", "short", "free-loops", "joined", "color-and-shaping"))
_PATTERNED = frozenset(("groups", "spaces", "shells", "post", "unusual", "colorwork"))  # stitch patterns and colour work
_INVOLVED = 3  # so many kinds of stitch pattern are involved ones
_COMPLEX = 3  # so many of the harder techniques, beside colour and shaping at the same time


@dataclass(frozen=True, slots=True)
class Level:
    """``name`` is the Craft Yarn Council's, ``reason`` a sentence, ``skills`` what a maker must be able to do."""

    name: str
    reason: str
    skills: tuple[str, ...]


def project_level(result: PatternResult) -> Level | None:
    """The level that a pattern's stitches imply; None where no stitches are known."""
    found = techniques(result)
    if not found:
        return None
    skills = tuple(SKILLS[key] for key in found)
    hard = [key for key in found if key in _INTERMEDIATE]
    easy = [key for key in found if key in _EASY]
    patterned = [key for key in found if key in _PATTERNED]
    if "color-and-shaping" in found and len(hard) >= _COMPLEX:
        return Level(LEVELS[3], f"It asks for {_listed(hard)}.", skills)
    if hard or len(patterned) >= _INVOLVED:
        return Level(LEVELS[2], f"It asks for {_listed(hard or patterned)}.", skills)
    if easy:
        return Level(LEVELS[1], f"It asks for {_listed(easy)}.", skills)
    shaped = "shaping" in found
    return Level(LEVELS[0], f"Basic stitches only{', with plain increases and decreases' if shaped else ''}.", skills)


def _listed(keys: list[str]) -> str:
    words = [SKILLS[key] for key in keys]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"

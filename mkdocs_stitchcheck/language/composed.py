"""Groups that a writer declares by what they are made of: "shell = (2 dc, ch 2, 2 dc) in one sp"."""

from __future__ import annotations

from dataclasses import replace

from .. import late_re as re
from .syntax import Chain, Group, Number, Place, Step, Work
from .vocabulary import Stitch, stitches, words, words_of

_COMPOSED = re.compile(
    r"\s*+(?:work\s++)?[(\[]?(?P<list>[^()\[\]=:;.]{2,120}?)[)\]]?,?\s*+(?:all\s++)?(?:in|into)\s++(?:the\s++|a\s++)?"
    r"(?:one|same|next|indicated|specified|each|any|1|given|st|sp|ch)\b[^()=;]*", re.IGNORECASE
)
_ITEM = re.compile(r"(?:(?P<number>\d{1,2})\s+)?(?P<name>[a-z][a-z ]*+)(?:[\s-]*+(?P<after>\d{1,2}))?", re.IGNORECASE)
_MOST = 20
_COUNTED = {2: "hdc", 3: "dc", 4: "tr", 5: "dtr"}  # what a chain at the start stands for: common practice, no source


def parts_of(text: str, system: str) -> tuple[tuple[str, int], ...]:
    """The stitches and chains that *text* puts into one place, in their order; () where it is no such list."""
    match = _COMPOSED.fullmatch(text.strip(" .;,"))
    if match is None:
        return ()
    table = words("UK" if system == "UK" else "US")
    parts: list[tuple[str, int]] = []
    for item in re.split(r",|\band\b", match["list"]):
        found = _ITEM.fullmatch(item.strip())
        stitch = table.get(words_of(found["name"])) if found is not None else None
        if found is None or stitch is None or stitch.kind not in ("plain", "chain", "group", "post"):
            return ()
        number = int(found["number"] or found["after"] or 1)
        if not 0 < number <= _MOST:
            return ()
        if stitch.kind == "chain" and not parts and number in _COUNTED:
            parts.append((_COUNTED[number], 1))
        else:
            parts.append((stitch.key, number))
    return tuple(parts) if len(parts) <= _MOST and sum(n for key, n in parts if key != "ch") > 1 and len(parts) > 1 else ()


def composed(stitch: Stitch, parts: tuple[tuple[str, int], ...]) -> Stitch:
    """*stitch*, made of *parts* in one place."""
    table = stitches()
    made = sum(number for key, number in parts if key != "ch")
    base = next(key for key, _number in parts if key != "ch")
    yarn = sum(table[key].yarn * number for key, number in parts)
    return replace(stitch, uses=1, makes=made, kind="group", base=base, height=table[base].height, yarn=round(yarn, 1), parts=parts)


def spelled_out(work: Work) -> Step:
    """A declared group as the stitches it is made of, in the place of *work*."""
    if not work.stitch.parts:
        return work
    table = stitches()
    here = work.start
    body: list[Step] = []
    for key, number in work.stitch.parts:
        written = Number(here, here, (number,))
        body.append(Chain(here, here, written) if key == "ch" else Work(here, here, table[key], written, number_first=True))
    place = work.place or Place(work.start, work.end, "next", work.count)
    times = work.times if work.place is None else work.count or work.times
    name = work.stitch.key.removeprefix("beg ").removeprefix("beginning ").removeprefix("first ")
    return Group(work.start, work.end, tuple(body), place, times, name=name)

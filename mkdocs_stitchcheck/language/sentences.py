"""Working steps as sentences, "Stuff firmly, then sl st it closed": doings, counted work, words without stitches."""

from __future__ import annotations

from .cursor import Cursor
from .doings import read_doing
from .settling import across_both
from .steps import SEPARATORS, Steps, is_doing, works
from .syntax import Aside, Place, Step, Work


def read_sentences(cursor: Cursor, reader: Steps) -> list[Step]:
    """Each clause is a doing, or counted work, or words without stitches; a clause with stitch work is read strictly."""
    steps: list[Step] = []
    while not cursor.done:
        if cursor.peek() in SEPARATORS or cursor.peek() in (")", "]", "}"):
            cursor.at += 1
            continue
        at = cursor.at
        cursor.accept("and", "then", "now", "&", "with")
        if seam := _seam(cursor, flat=any(isinstance(step, Aside) and step.kind == "flatten" for step in steps)):
            steps.append(seam)
            continue
        if works(cursor) and not is_doing(cursor):
            worked = reader.step(cursor, steps)
            _through_both(worked, steps)
            steps.extend(worked)
            continue
        cursor.at = at
        found = read_doing(cursor)
        if found is None and cursor.accept("and", "then", "&"):
            found = read_doing(cursor)
        if found is not None and cursor.at > at:
            steps.extend(found)
            continue
        cursor.at = at
        start = cursor.start
        cursor.at += 1
        while not cursor.done and not (cursor.peek() in (",", ";", ".") or cursor.peek() in ("and", "then", "&", "with") and _works_ahead(cursor)):
            cursor.at += 1
        steps.append(Aside(start, cursor.end, "remark"))
    return steps


def _seam(cursor: Cursor, flat: bool) -> Step | None:
    """"sl st the short ends together": stitches that sew, as many as it takes.

    With *flat* the opening was laid flat before: "sc the opening closed" then goes all the way across both layers.
    """
    matched = cursor.match_stitch()
    if matched is None or cursor.peek(matched[1]) not in ("the", "both", "these", "your"):
        return None
    stop = next((i for i in range(cursor.at, cursor.stop) if cursor.tokens[i].text in (".", ";", ",", ":", "-", "(", "[")), cursor.stop)
    words = [token for token in cursor.tokens[cursor.at : stop]]
    if any(token.kind == "number" for token in words) or not any(token.text in ("together", "closed", "shut", "place") for token in words):
        return None
    start, cursor.at = cursor.start, stop
    if flat and matched[0].plain and any(token.text in ("opening", "end", "top", "hole", "edge", "edges") for token in words):
        return Work(start, cursor.end, matched[0], None, Place(start, cursor.end, "rest", layers=2, noun="layers"))
    return Aside(start, cursor.end, "sew")


def _works_ahead(cursor: Cursor) -> bool:
    cursor.at += 1
    found = works(cursor)
    cursor.at -= 1
    return found


def _through_both(worked: list[Step], before: list[Step]) -> None:
    """"Fold opening, stitch together with 6 sc": after folding, a number of stitches goes through both layers.

    "Press flat and sc through both layers": without a number they go all the way across.
    """
    for step in worked:
        if isinstance(step, Work):
            across_both(step)
    if not any(isinstance(step, Aside) and step.kind == "flatten" for step in before):
        return
    for step in worked:
        if isinstance(step, Work) and step.place is None and step.count is not None and step.stitch.plain:
            step.place = Place(step.start, step.end, "next", step.count, layers=2, noun="layers")
            step.count = None

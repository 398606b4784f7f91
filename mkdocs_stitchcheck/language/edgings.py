"""Edgings: "1 sc in each st, 1 sc in each row end, 3 sc in each corner", "sc evenly down the side, working 1 sc in each row end".

They are told by what goes into a stitch, a row end, a corner; a writer may name the sides one after the other, or all at once.
Forms: common practice, no source.
"""

from __future__ import annotations

from .. import late_re as re
from .cursor import Cursor
from .syntax import Chain, ColorChange, Edging, EdgingPart, Join, Number, Step, Turn
from .vocabulary import Stitch, stitches
from .words import value_of

_ROW_END = r"(?:row[- ]?ends?|ends? of (?:each|every|the|all)? ?rows?|sides? of (?:each|every|the) rows?)"
_IS_EDGING = re.compile(
    rf"\b{_ROW_END}\b|\bevenly\b[^.]{{0,300}}\b(?:sides?|edges?|corners?|(?:whole|entire) piece)\b|\b(?:sides?|edges?)\b[^.]{{0,300}}\bevenly\b"
    r"|\b(?:around|edge)\s*[:,][^.]{0,300}\bin (?:each|every) (?:st|stitch|sts|sc|dc|hdc)\b[^.]{0,300}\bin (?:each|every) corner\b",
    re.IGNORECASE,
)
_LEAD = (
    r"(?:(?:then|and|with|while|work(?:ing|ed)?|plac(?:e|ing)|put(?:ting)?|mak(?:e|ing)|using|also|continue|start(?:ing)?|begin(?:ning)?"
    r"|(?:one|a|1) (?:round|rnd|row) of|along the (?:side|edge)|(?:all )?around|[*(\[])\s+|[*(\[])*"
)
_HOW_MANY = r"(?:(?P<number>\d{1,2}|one|two|three|four|five|a)\s*)?"
_WHERE = re.compile(
    rf"(?P<rows>(?:in|into|for|per|at|along|over|on)?\s*(?:the )?(?:side )?(?:each|every|all|the)? ?(?:of the )?{_ROW_END})"
    r"|(?P<every>(?:for|in|over|per|along|into) (?:every|each) (?P<of>\d|two|three|four) rows?\b(?: ends?)?)"
    r"|(?P<chain>(?:in|into) (?:each|every) (?:st |stitch )?(?:of |along |in )?(?:the )?(?:ch|chain|foundation ch|(?:foundation|starting|beg|bottom)(?: ch(?:ain)?| st)?)\b)"
    r"|(?P<stitches>(?:in|into) (?:each|every)(?: top| of the top)? (?:st|stitch|sts|stitches|sc|hdc|dc|tr)\b)"
    r"|(?P<corner>(?:in|into|at) (?:each|every|all|the|next|same|first|last|this|any|that|4|four)?\s*(?:of the )?(?:\d |four |three )?(?:corner|tip|point)s?\b(?: (?:sp|sps|space|st|stitch|ch-\d sp))?)",
    re.IGNORECASE,
)
_REST = re.compile(
    r"\s*(?:evenly|spaced|(?:all )?(?:a?round|across|along|down|up|over)|to|from|on|of|the|next|first|last|other|opposite|second|long|short|left|right|"
    r"sides?|edges?|bottom|top|back|front|neck|lower|upper|outside|button|piece|whole|entire|outer|outside|work|corners?|end|both|and|in|row|working|one|this|4|four|way)\b", re.IGNORECASE,
)  # fmt: skip
_NOTHING = re.compile(
    r"(?:(?:\w+ )?(?:edging|border|trim|brim|band|finishing)|rep(?:eat)? from \* (?:around|once more|once|to end|\d+ more times)|rotate(?: (?:the )?(?:work|piece))?(?: (?:\d+ (?:degrees|deg\.?)|clockwise))?|do not turn|"
    r"don't turn|without turning|fasten off|weave in (?:the )?ends?|do not fasten off|with (?:rs|ws|right side|wrong side) facing|(?:rs|ws) facing|"
    r"to (?:the )?(?:next )?corner|turn(?: (?:the )?(?:work|piece))? (?:\d+ degrees|sideways|to work (?:along|down) the side)|cut yarn)$", re.IGNORECASE,
)  # fmt: skip
_JOIN = re.compile(r"(?:re)?(?:join|attach)\b|sl st (?:to join|in(?:to)? (?:the )?(?:first|beg))|sl st$", re.IGNORECASE)
_COLOR = re.compile(r"\b(?i:join|with|using|attach)(?i:ing)? (?:(?i:color|colour|yarn) )?(?P<color>[A-Z]{1,2})\b")
_CHAIN_ONE = re.compile(r"ch ?-?1(?: \(does not count[^)]*\))?$", re.IGNORECASE)


def read_edging(cursor: Cursor) -> list[Step] | None:
    """edging = {join | "ch 1" | part} ; None, and nothing read, where it is no edging or a clause is none of these."""
    if cursor.done:
        return None
    start, stop = cursor.start, cursor.tokens[cursor.stop - 1].end
    text = cursor.statement.text
    if not _IS_EDGING.search(text, start, stop):
        return None
    edging = Edging(start, stop, stitches()["sc"])
    before: list[Step] = []
    after: list[Step] = []
    around = bool(re.search(r"\baround\b|\b(?:each|every|all) (?:of the )?(?:4 |four )?corner|\*|\bentire\b|\bwhole piece\b", text[start:stop], re.IGNORECASE))
    for first, last in _clauses(text, start, stop):
        step = _other(cursor, text, first, last)
        if step is not None:
            (after if edging.parts or edging.evenly else before).extend(step)
        elif not _part(cursor, edging, text, first, last):
            return None
    if not (edging.parts or edging.evenly):
        return None
    edging.around = around and not any(part.where == "chain" for part in edging.parts)
    cursor.at = cursor.stop
    return [*before, edging, *after]


def _clauses(text: str, start: int, stop: int) -> list[tuple[int, int]]:
    found, at = [], start
    for mark in re.finditer(r"(?<![,;:.])[,;:.]++(?=\s|$)|\s(?:and|with|then)\s(?=\s*(?:work|plac|\d|a |one|two|three|sc|dc|hdc|fasten|join|rep))", text[start:stop]):
        found.append((at, start + mark.start()))
        at = start + mark.end()
    found.append((at, stop))
    trimmed = [(first + len(text[first:last]) - len(text[first:last].lstrip(" *([")), first + len(text[first:last].rstrip(" *)].;,:"))) for first, last in found]
    return [(first, last) for first, last in trimmed if last > first]


def _other(cursor: Cursor, text: str, first: int, last: int) -> list[Step] | None:
    """A clause that is no part of the edging: a join, the turning chain, a turn; None where it is one."""
    clause = text[first:last].strip()
    if _CHAIN_ONE.match(clause):
        return [Chain(first, last, Number(first, last, (1,)), turning=True)]
    if _NOTHING.match(clause):
        return []
    if clause.lower() == "turn":
        return [Turn(first, last)]
    if _JOIN.match(clause) or clause.lower().startswith(("with ", "using ")) and _COLOR.match(clause):
        steps: list[Step] = [Join(first, last)]
        color = _COLOR.match(clause)
        if color is not None and color["color"] in cursor.context.colors:
            steps.insert(0, ColorChange(first, last, color["color"], color["color"]))
        return steps
    return None


def _part(cursor: Cursor, edging: Edging, text: str, first: int, last: int) -> bool:
    """ "1 sc in each row end", "3 sc in each corner", "sc evenly around"; False where it says something else."""
    lead = re.match(_LEAD + _HOW_MANY, text[first:last], re.IGNORECASE)
    assert lead is not None
    at = first + lead.end()
    inside = Cursor(cursor.statement, cursor.tokens, cursor.context, _token_at(cursor, at), cursor.stop)
    matched = inside.match_stitch() if not inside.done and inside.start == at else None
    stitch: Stitch | None = None
    if matched is not None and matched[0].plain:
        stitch = matched[0]
        at = cursor.tokens[inside.at + matched[1] - 1].end
        edging.stitch = stitch
    rest = text[at:last]
    said = rest.strip()
    evenly = re.match(r"\s*evenly\b", rest, re.IGNORECASE)
    where = _WHERE.match(rest[evenly.end() :].lstrip() if evenly else said)
    if where is None and evenly is not None or where is None and stitch is not None and re.match(r"(?:all )?(?:around|along|down|up|across)\b", said, re.IGNORECASE):
        edging.evenly = edging.evenly or evenly is not None
        return not _left(rest, cursor) and (lead["number"] is None or evenly is None)
    if where is None:
        return stitch is None and lead["number"] is None and bool(said) and not _left(rest, cursor)
    tail = (rest[evenly.end() :].lstrip() if evenly else said)[where.end() :]
    kind = next(name for name in ("rows", "every", "chain", "stitches", "corner") if where[name] is not None)
    if _left(tail, cursor) or stitch is None and lead["number"] is None and kind not in ("rows", "every"):
        return False
    number = None
    if lead["number"] is not None:
        number = Number(first + lead.start("number"), first + lead.end("number"), (value_of(lead["number"]),))
    elif stitch is not None and evenly is None:
        number = Number(first, first, (1,))
    per = value_of(where["of"]) if kind == "every" else 1
    edging.parts = (*edging.parts, EdgingPart(first, last, "rows" if kind == "every" else kind, number, per))
    return True


def _left(text: str, cursor: Cursor) -> str:
    """What is left of a clause without the words for its way and the names of pieces."""
    at, found = 0, None
    names = sorted(cursor.context.pieces, key=len, reverse=True)
    while (found := _REST.match(text, at) or next(filter(None, (re.compile(rf"\s*{re.escape(name)}\b", re.IGNORECASE).match(text, at) for name in names if name)), None)):
        at = found.end()
    return text[at:].strip(" .,;*()[]")


def _token_at(cursor: Cursor, place: int) -> int:
    return next((index for index in range(cursor.at, cursor.stop) if cursor.tokens[index].start >= place), cursor.stop)

"""Lists below their word: "Materials:", "What you'll need", "Abbreviations used", "Notes", then a line for each entry."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .. import late_re as re
from ..source import BlockLine, Statement
from .keys import LEADS, STANDARD
from .labels import known_key, split_key
from .round_labels import find_label

_BULLET = re.compile(r"\s*(?:[-+*•·◦▪‣●○✓–]|\[[ xX]?\])\s+(?=\S)")
_NUMBERED = re.compile(r"\s*\d{1,2}\s*[.)]\s+(?=[A-Z\"'])")
_LEAD = re.compile(r"(?P<before>[\s#*_]*)(?P<words>[^\W\d_][^\d:()]{2,45}?)(?P<after>[\s*_:.!-]*)$")
_ENTRY = re.compile(r"\s*[a-z][\w()/.*-]{0,14}(?: [a-z0-9]{1,10}){0,2}\s*(?:(?:=|:|\s-)\s*\S|\([^()\d]{2,50}\)\s*\.?$)", re.IGNORECASE)
_DECLARED = re.compile(r"\s*[a-z][\w'/-]*(?: [\w'/-]{1,14}){0,4}(?: \([\w '/-]{1,14}\))?\s*(?:=|:|\s-)\s*\S", re.IGNORECASE)
_COUNTED = re.compile(r"[(\[{]\s*=?\s*\d[^()\[\]{}]{0,40}[)\]}]\s*\.?\s*$")
_STITCH_FIRST = re.compile(r"\s*(?:\d{1,2}\s*[.)]\s*)?(?:ch|chain|sc|dc|hdc|htr|tr|inc|dec|sl|ss|mr|magic|make an? (?:magic|slip))\b", re.IGNORECASE)
_MOST = 60  # entries
_LISTED = ("notions", "abbreviations", "notes", "special stitch")
# Words that an abbreviations list explains, and that are keys of header lines elsewhere.
_EXPLAINED = ("slip stitches", "turning chain", "color", "reading")


class ListStatement(Statement):
    """A list with its word as one header line: what parts two entries in ``text`` stands on the line ends between them."""

    __slots__ = ()

    def as_written(self, start: int, end: int | None = None) -> str:
        """The writer's words, without the bullets in front of the entries."""
        return " ".join(re.sub(r"\s*;\s*", "; ", self.text[start:end]).split())


class Listed:
    """A list that was found: its standard key, its header line, and the indexes of its lines among the block's."""

    def __init__(self, key: str, statement: ListStatement, members: frozenset[int]) -> None:
        self.key, self.statement, self.members = key, statement, members


def may_lead(text: str) -> bool:
    """Whether a line may be the word above a list: a quick look."""
    return len(text) < 60 and " ".join(text.lower().strip(" #*_:.!-").split()) in _MAY_LEAD


_MAY_LEAD = LEADS | {word for word, key in STANDARD.items() if key in _LISTED}


def find_lists(lines: Sequence[BlockLine], plain: Sequence[str], begins: Callable[[str], bool]) -> dict[int, Listed]:
    """The lists of a block by the index of their first line.

    *plain* are the lines as normalised; *begins* tells whether a text begins a heading, a note or work of its own.
    """
    found: dict[int, Listed] = {}
    index = 0
    while index < len(lines):
        listed = _list_at(lines, plain, index, begins)
        if listed is not None:
            found[index] = listed
            index = max(listed.members)
        index += 1
    return found


def _list_at(lines: Sequence[BlockLine], plain: Sequence[str], index: int, begins: Callable[[str], bool]) -> Listed | None:
    lead = _LEAD.match(plain[index])
    words = " ".join(lead["words"].lower().split()) if lead is not None else ""
    if lead is None or words not in LEADS and not (":" in lead["after"] and STANDARD.get(words) in _LISTED):
        return None
    key = STANDARD[words]
    members = _members(plain, index, key, begins)
    if not members:
        return None
    end = len(lead["before"]) + len(lead["words"])
    head = " " * len(lead["before"]) + lead["words"]
    texts = [(head + ":").ljust(len(plain[index]))[: max(len(plain[index]), end)]]
    texts += [_unmarked(plain[member]) for member in members]
    statement = ListStatement([lines[index], *(lines[member] for member in members)], texts)
    statement.text = _parted(texts, colon=len(texts[0]) == end, mark=" " if key == "notes" else ";")
    return Listed(key, statement, frozenset((index, *members)))


def _parted(texts: list[str], *, colon: bool, mark: str) -> str:
    """The texts with a colon behind the list's word and a mark between entries, each where a line ended."""
    return texts[0] + (":" if colon else " ") + mark.join(texts[1:])


def _unmarked(text: str) -> str:
    """An entry with its bullet or number made blank."""
    match = _BULLET.match(text) or _NUMBERED.match(text)
    return text if match is None else " " * match.end() + text[match.end() :]


def _members(plain: Sequence[str], lead: int, key: str, begins: Callable[[str], bool]) -> list[int]:
    """The indexes of a list's entries: signed ones may stand apart from the word, others follow it line by line."""
    members: list[int] = []
    signed = False
    for index in range(lead + 1, min(len(plain), lead + 2 * _MOST)):
        text = plain[index]
        if not text.strip():
            if members and not signed:
                break
            continue
        marked = bool(_BULLET.match(text) or _NUMBERED.match(text))
        if not members:
            signed = marked
            if not marked and index > lead + 1 and not (key == "abbreviations" and _ENTRY.match(text) or key == "special stitch" and _DECLARED.match(text)):
                break
        apart = not plain[index - 1].strip() and bool(members)
        if marked != signed and (key != "abbreviations" or apart) or not _is_entry(text, key, begins):
            if signed and marked and _other_key(text, key):
                continue  # "- Hook: 2.5 mm" is a header line of its own
            break
        members.append(index)
    while members and not signed and key != "abbreviations" and _heads_a_piece(plain, members[-1]):
        members.pop()
    return members[:_MOST]


def _other_key(text: str, key: str) -> bool:
    split = split_key(_unmarked(text))
    known = known_key(split[0]) if split is not None else None
    return known is not None and not (key == "abbreviations" and known in _EXPLAINED)


def _is_entry(text: str, key: str, begins: Callable[[str], bool]) -> bool:
    """Whether a line can be an entry: no work, no heading or note, no other header line."""
    bare = _unmarked(text)
    if _other_key(text, key):
        return False
    if key == "special stitch":
        return bool(_DECLARED.match(bare)) and find_label(bare) is None
    if key == "abbreviations":
        return (bool(_ENTRY.match(bare)) or bool(_BULLET.match(text))) and find_label(bare) is None
    lead = _LEAD.match(text)
    if lead is not None and " ".join(lead["words"].lower().split()) in LEADS or _COUNTED.search(text) and key == "notes":
        return False
    if _STITCH_FIRST.match(text) or text.lstrip()[:1] in "#>":
        return False
    label = find_label(bare)
    if label is not None and not (label.bare and re.match(r"\s*\d+[.,]\d", bare)):
        return False
    return not begins(bare)


def _heads_a_piece(plain: Sequence[str], index: int) -> bool:
    """A short line before a round or a foundation is a piece's heading, not the last entry."""
    if len(plain[index].split()) > 6 or plain[index].rstrip().endswith("."):
        return False
    following = next((text for text in plain[index + 1 :] if text.strip()), "")
    return bool(following) and (find_label(following) is not None or bool(_STITCH_FIRST.match(following)))

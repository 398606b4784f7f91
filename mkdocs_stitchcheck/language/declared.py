"""Stitches that a writer declares: what "bobble = 5 dc closed together in one st; uses 1, makes 1, yarn 3 sc" is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Protocol

from .. import late_re as re
from .quantities import BadQuantity
from .scanning import LARGEST
from .units import NUMBER_WORDS
from .vocabulary import Stitch, increase, stitches, together, words, words_of

_PROPERTY = re.compile(
    r"\b(?P<key>uses|takes|makes|counts as|yarn)\b[ :=]*(?P<number>-?\d+(?:[.,]\d+)*|[a-z]+)?(?: (?P<word>[a-z ]+))?",
    re.IGNORECASE,
)
_IN_ONE = re.compile(r"\b(?:in|into) (?:the )?(?:one|same|next|1|a|each)\b", re.IGNORECASE)
_CLOSED = re.compile(r"\b(?:closed|together|tog|cluster|draw(?:n|ing)? through all|joined at the top)\b", re.IGNORECASE)
_TOGETHER = re.compile(
    r"(?P<name>[a-z ]+?) ?(?P<number>\d{1,2}) ?tog(?:ether)?"
    r"|(?P<number2>\d{1,2}) (?P<name2>[a-z ]+?) (?:worked )?tog(?:ether)?",
    re.IGNORECASE,
)
_SEVERAL = re.compile(
    r"(?P<number>\d{1,3}) ?(?P<name>[a-z]+(?: [a-z]+){0,3}?)(?= (?:in|into|closed|worked|all)\b)", re.IGNORECASE
)
_WAY_OUT = "Write it as in bobble = 5 dc closed together in one st; uses 1, makes 1, yarn 3 sc."
_CLOSED_SHARE = 0.45  # yarn of stitches closed together, of as many whole ones: from memory


class Declared(Protocol):
    """Anything with a stitch: what other declarations say."""

    stitch: Stitch | None


def _table(system: str) -> dict[tuple[str, ...], Stitch]:
    return words("UK" if system == "UK" else "US")


def derived(text: str, system: str, declared: Mapping[str, Declared]) -> Stitch | None:
    """The stitch that words stand for: "reverse sc", "2 sc in one st", "sc2tog", "bobble"; None where none."""
    bare = text.split("(")[0].strip(" .").lower()
    other = declared.get(bare)
    if other is not None and other.stitch is not None:
        return other.stitch
    table = _table(system)
    if stitch := table.get(words_of(bare)):
        return stitch
    if match := _TOGETHER.fullmatch(bare):
        base = table.get(words_of(match["name"] or match["name2"]))
        number = int(match["number"] or match["number2"])
        return together(base, number) if base and number > 1 else None
    if (match := _SEVERAL.match(bare)) and _IN_ONE.search(bare) and not _CLOSED.search(bare):
        base = table.get(words_of(match["name"]))
        return increase(base, int(match["number"])) if base and int(match["number"]) > 1 else None
    return None


def declared_stitch(
    text: str, name_place: tuple[int, int], meaning: tuple[int, int], system: str
) -> tuple[Stitch, bool]:
    """The stitch of a ``Special stitch:`` line, and whether its uses and makes are known, declared or from the words.

    *name_place* and *meaning* are the stretches of its name and of what it is. Raises BadQuantity where it is broken.
    """
    (start, name_end), (begin, end) = name_place, meaning
    name = text[start:name_end].split("(")[0].strip()
    properties = list(_PROPERTY.finditer(text, begin, end))
    body = text[begin : properties[0].start() if properties else end]
    stitch, settled = _from_words(name, body, system)
    said: dict[str, float] = {}
    for match in properties:
        key = {"takes": "uses", "counts as": "makes"}.get(match["key"].lower(), match["key"].lower())
        if key == "yarn":
            said[key] = _yarn(match, system)
        elif (number := _whole(match)) is not None:
            said[key] = number
    uses, makes = int(said.get("uses", stitch.uses)), int(said.get("makes", stitch.makes))
    kind = stitch.kind
    if said.keys() & {"uses", "makes"}:
        kind = _kind(uses, makes)
    stitch = replace(stitch, key=name.lower(), name=name.lower(), uses=uses, makes=makes, kind=kind,
                     yarn=round(said.get("yarn", stitch.yarn), 1))
    return stitch, settled or {"uses", "makes"} <= said.keys()


def _kind(uses: int, makes: int) -> str:
    if uses == makes == 0:
        return "picot"
    if makes > max(uses, 1):
        return "increase"
    return "decrease" if makes < uses else "group"


def _whole(match: re.Match[str]) -> int | None:
    """A number of stitches; None where the word after "makes" is no number ("makes a fringe")."""
    written = (match["number"] or "").rstrip(".,")
    if written.lower() in NUMBER_WORDS and written.lower() not in ("half", "a", "an"):
        return int(NUMBER_WORDS[written.lower()])
    if written and not written[-1].isdigit():
        return None
    if not written.isdigit():
        raise BadQuantity(match.start(), match.end("number") if match["number"] else match.end("key"),
                          f"After {match['key']} stands a whole number of stitches.", _WAY_OUT)
    if len(written) > 7 or int(written) > LARGEST:
        raise BadQuantity(match.start("number"), match.end("number"), "That is more than can be meant.", _WAY_OUT,
                          "number-out-of-range")
    return int(written)


def _yarn(match: re.Match[str], system: str) -> float:
    """The yarn of "yarn 3 sc" in stitch widths."""
    written = (match["number"] or "").rstrip(".,").replace(",", ".")
    named = words_of(match["word"] or "")
    stitch = next((_table(system)[named[:n]] for n in (4, 3, 2, 1) if named[:n] in _table(system)), None)
    try:
        number = float(written)
    except ValueError:
        number = 0
    if stitch is None or not 0 < number <= LARGEST:
        raise BadQuantity(match.start(), match.end(), "The yarn of a stitch is given in stitches of a plain kind.",
                          _WAY_OUT)
    return number * stitch.yarn


def _from_words(name: str, body: str, system: str) -> tuple[Stitch, bool]:
    """The stitch as its words describe it, and whether they settle what it is worked into and counts as."""
    table = _table(system)
    known = table.get(words_of(name))
    plain = derived(body, system, {})
    if plain is not None:
        return plain, True
    several = _SEVERAL.search(body)
    base = table.get(words_of(several["name"])) if several else None
    if several and base and _CLOSED.search(body):
        if known is not None and known.kind == "group":
            return replace(known, base=base.key), True
        share = int(several["number"]) * base.yarn * _CLOSED_SHARE
        return Stitch(name, name, 1, 1, base.height, share, "group", base.key), _IN_ONE.search(body) is not None
    if known is not None:
        return known, True
    found = next(_named(body, table), stitches()["sc"])
    return Stitch(name, name, 1, 1, found.height, found.yarn, "group", found.key), False


def _named(body: str, table: dict[tuple[str, ...], Stitch]) -> Iterator[Stitch]:
    written = words_of(body[:500])
    for place in range(len(written)):
        for length in (3, 2, 1):
            stitch = table.get(written[place : place + length])
            if stitch is not None and stitch.kind == "plain":
                yield stitch
                break

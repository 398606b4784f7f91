"""What is counted: "24 sts", "16 dc", "8 ch-2 sps", "4 shells", "6 sts dec", "18 rnds"."""

from __future__ import annotations

from .cursor import Cursor, Unreadable
from .near import all_nearest
from .syntax import Number
from .words import NUMBER_WORDS, ROUND_WORDS, UNIT_WORDS

STITCH_WORDS = ("st", "sts", "stitch", "stitches", "stich", "stiches", "s")
_AFTER = frozenset(
    ["made", "total", "all", "altogether", "remaining", "rem", "remain", "now", "left", "around", "each", "on", "every", "leg", "legs", "side", "sides", "of", "the", "marker", "per", "worked", "to", "work", "for", "both", "piece", "pieces", "arm", "arms", "ear", "ears", "and", "counting", "as", "ch", "tch", "counted", "st", "sts", "stitch", "stitches", "end", "at", "hook", "not", "including", "incl", "including", "join", "joined", "round", "rnd", "row", "body", "front", "back", "only", "this", "one"]
)
_EACH = ("each", "every", "per", "both")
_MORE = ("increased", "inc'd", "increase", "incs", "more", "inc", "added")
_FEWER = ("decreased", "dec'd", "decrease", "decs", "fewer", "less", "dec")
GROUP_KINDS = {
    **dict.fromkeys(("shell", "shells", "sh"), "shell"),
    **dict.fromkeys(("v-st", "v", "v-sts"), "v-st"),
    **dict.fromkeys(("fan", "fans"), "fan"),
    **dict.fromkeys(("group", "groups", "gr", "grs"), "group"),
    **dict.fromkeys(("block", "blocks"), "block"),
    **dict.fromkeys(("motif", "motifs"), "motif"),
    **dict.fromkeys(("corner", "corners"), "corner"),
    **dict.fromkeys(("petal", "petals"), "petal"),
    **dict.fromkeys(("strand", "strands", "curl", "curls", "tendril", "tendrils", "ray", "rays", "spike", "spikes"), "strand"),
    **dict.fromkeys(("picot", "picots"), "picot"),
    **dict.fromkeys(("point", "points"), "point"),
}


_LOOSE_GROUPS = ("group", "groups", "gr", "grs", "set", "sets", "bunch", "bunches", "block", "blocks", "fan", "fans", "petal", "petals")
_CLOSED_GROUPS = ("cluster", "clusters", "cl", "cls")  # of several dc in one place, where "of 3 dc" stands behind them


def sized_group(inside: Cursor) -> tuple[str, Number] | None:
    """group = ("groups" | "clusters" ...) "of" N stitch | N ["-"] stitch ["-"] "groups" ; its name, and how many stitches it has."""
    at = inside.at
    word = inside.peek()
    if inside.accept(*_LOOSE_GROUPS, *_CLOSED_GROUPS):
        if inside.accept("of", "with") and (number := inside.number()) is not None and (matched := inside.match_stitch()) is not None:
            inside.at += matched[1]
            inside.accept("each")
            return GROUP_KINDS.get(word, "group"), number
    elif (number := inside.number()) is not None:
        inside.accept("-")
        if (matched := inside.match_stitch()) is not None:
            inside.at += matched[1]
            inside.accept("-")
            word = inside.peek()
            if inside.accept(*_LOOSE_GROUPS):
                return GROUP_KINDS.get(word, "group"), number
    inside.at = at
    return None


def count_noun(inside: Cursor, flags: set[str]) -> tuple[str, int]:
    """noun = nothing | "sts" | stitch | space | group | "rnds" | unit, with words that change nothing behind it.

    Returns (kind, sign of a change); kind "no" where it makes the bracket something else than a count.
    """
    word = inside.peek()
    if word in UNIT_WORDS and word != "in" or (word == "in" and inside.at + 1 >= inside.stop) or word in ('"', "'", "%"):
        return "no", 0
    if word in ROUND_WORDS:
        inside.at += 1
        inside.phrase(("total", "in total", "in all"))
        return "rounds", 0
    kind = ""
    space = _space(inside)
    if space:
        kind = space
    elif word in STITCH_WORDS and not (word == "s" and inside.match_stitch()):
        inside.at += 1
        kind = "stitch"
    elif word in _MORE or word in _FEWER:
        matched = None if inside.peek(1) not in ("", ",", "and") or word not in ("inc", "dec") else True
        if matched is None or inside.at + 1 >= inside.stop or inside.peek(1) in (",",):
            inside.at += 1
            return "", 1 if word in _MORE else -1
    if not kind:
        kind = _stitch_noun(inside)
    sign = 0
    while not inside.done:
        word = inside.peek()
        if word in _MORE[:2] + ("more", "added"):
            sign = 1
        elif word in _FEWER[:2] + ("fewer", "less"):
            sign = -1
        elif word in ("inc", "dec") and kind == "stitch" and inside.peek(1) in ("", ",", "-", "."):
            sign = 1 if word == "inc" else -1
        elif word == "counting":
            inside.at = inside.stop - 1  # "25 hdc counting tch as 1 hdc"
        elif word in _EACH:
            flags.add("each")
        elif word == "and" and inside.is_number(1):
            break
        elif word == "in" and inside.peek(1) in ("all", "total"):
            inside.at += 1
        elif word not in _AFTER:
            break
        inside.at += 1
    return kind, sign


def _space(inside: Cursor) -> str:
    """space = "ch" ["-"] N ("sp" | "loop") | N "-" "ch" "sp" | ["ch"] "sps" """
    word = inside.peek()
    if word not in ("ch", "chain", "corner", "corners", "-") and not _is_space(word) and not (word.isdigit() and inside.peek(1) == "-"):
        return ""
    marks = [inside.peek(ahead) for ahead in range(5)]
    for length, test in (
        (4, marks[0].isdigit() and marks[1] == "-" and marks[2] in ("ch", "chain") and _is_space(marks[3])),  # "two 8-ch loops"
        (4, marks[0] in ("ch", "chain") and marks[1] == "-" and marks[2].isdigit() and _is_space(marks[3])),
        (3, marks[0] in ("ch", "chain") and marks[1].isdigit() and _is_space(marks[2])),
        (3, marks[0] in ("ch", "chain") and marks[1] == "-" and _is_space(marks[2])),
        (5, marks[0] == "corner" and marks[1] in ("ch", "chain") and marks[2] == "-" and marks[3].isdigit() and _is_space(marks[4])),
        (4, marks[0] == "corner" and marks[1] in ("ch", "chain") and marks[2].isdigit() and _is_space(marks[3])),
        (2, marks[0] in ("ch", "chain", "corner") and _is_space(marks[1])),
        (4, marks[0] == "-" and marks[1] == "ch" and _is_space(marks[2])),
        (1, _is_space(marks[0])),
    ):
        if test:
            inside.at += min(length, inside.stop - inside.at) if length != 4 or marks[0] != "-" else 3
            chains = next((mark for mark in marks[:length] if mark.isdigit()), "")
            if marks[0] == "corner":
                return "corner space"
            return f"space {chains}" if chains and len(chains) < 4 else "space"
    return ""


_SPACES = frozenset(("sp", "sps", "space", "spaces", "loop", "loops", "lp", "lps", "arch", "arches", "buttonhole", "buttonholes", "eyelet", "eyelets"))


def _is_space(word: str) -> bool:
    return word in _SPACES


def _stitch_noun(inside: Cursor) -> str:
    token = inside.token()
    if token is None or token.kind != "word":
        return ""
    if token.text in GROUP_KINDS and not inside.match_stitch():
        inside.at += 1
        if token.text == "v":
            inside.accept("-")
            inside.accept("st", "sts")
        return GROUP_KINDS[token.text]
    if token.text in ("half", "beg", "beginning", "large", "small", "single", "double") and inside.at + 1 < inside.stop and not inside.match_stitch():
        inside.at += 1  # "2 half shells", "1 beg shell"
        inner = _stitch_noun(inside)
        return f"{token.text} {inner}" if inner else ""
    if (granny := token.text) in ("granny", "dc", "3") and inside.peek(1) in GROUP_KINDS:
        inside.at += 1
        return _stitch_noun(inside) or granny
    matched = inside.match_stitch()
    if matched is not None:
        stitch, length = matched
        inside.at += length
        inside.accept("st", "sts")
        return "chain" if stitch.kind == "chain" else stitch.key
    if token.text in _AFTER or token.text in NUMBER_WORDS or token.text in _EACH:
        return ""
    if token.text in ("multiple", "see", "optional", "photo", "times", "time", "size", "sizes", "kg", "g"):
        return "no"
    near = all_nearest(token.text, [*inside.index, *inside.context.special_words])
    hint = f" Is it {near[0]}?" if near else ""
    raise Unreadable(
        "unknown-stitch", token.start, token.end,
        f"The count names {token.text}, which is neither a stitch nor a word for one.{hint}",
        f"Write {near[0]} instead." if near else "Write the count as a number, or declare the word under Abbreviations.",
        near[0] if near else "",
    )  # fmt: skip

"""The labels of rounds and rows: "Rnd 4:", "R5-R8:", "2nd row:", "Rounds 5, 7 and 9 (3 rnds)", "Next row (RS):"."""

from __future__ import annotations

from dataclasses import dataclass, field

from .. import late_re as re
from .near import distance
from .said_of_rounds import every_other
from .syntax import Number, RoundLabel
from .words import NUMBER_WORDS, ORDINAL_WORDS

_WORD = r"(?:rounds?|rounnds?|rnds?|rds?|rows?|rs?)"
_LONG_WORD = r"(?:rounds?|rnds?|rds?|rows?)"
_DASH = r"(?:-{1,3}|~|to|through|thru|until)"
_ORDINAL = r"(?:st|nd|rd|th)?"
_START = re.compile(
    rf"\s*(?P<word>{_WORD})\b\.?\s*#?\s*(?:no\.?\s*)?(?P<n>\d+){_ORDINAL}(?![\d])|\s*(?P<glued>r(?:nd|d|ow)?s?)\.?(?P<m>\d+)(?!\d)",
    re.IGNORECASE,
)
_FIRST_NUMBER = re.compile(r"\s*(?P<n>\d+)(?P<ord>st|nd|rd|th)?(?!\d)", re.IGNORECASE)
_NEXT = re.compile(
    rf"\s*(?:\.\s*|\)\s*(?=-\s*\d+\s*\)))?(?:(?P<dash>{_DASH})|(?P<list>,\s*and|,\s*&|,|and|&|\+))\s*(?:{_WORD}\.?\s*)?(?P<n>\d+){_ORDINAL}(?!\d)",
    re.IGNORECASE,
)
_WORD_AFTER = re.compile(rf"\s*\.?\s*(?P<word>{_LONG_WORD})\b\.?", re.IGNORECASE)
_INCLUSIVE = re.compile(r"\s*,?\s*(?:incl(?:usive|uded|uding)?|both included)\b\.?", re.IGNORECASE)
_LOST_DASH = re.compile(r"\s+(?P<n>\d+)\s*:")
_CLOSER = re.compile(r"\s*(?:[:;|>=.)]|-{1,2}(?=\s)|-\s*:)+")
_BRACKET = re.compile(r"\s*(?:\(([^()\[\]]{1,60})\)|\[([^()\[\]]{1,60})\]|/\s*(\d+\s*[a-z]+\.?)\s*/)", re.IGNORECASE)
_LENGTH = re.compile(rf"\s*(?:x\s*)?(?P<n>\d+|[a-z]+)\s*(?:{_WORD})\b\.?(?:\s*(?:in\s+)?total)?\s*$", re.IGNORECASE)
_SIDE = re.compile(r"\s*(rs|ws|right side|wrong side|left side|right-?hand side|left|right)\s*(?:facing)?\.?\s*$", re.IGNORECASE)
_LOOSE_SIDE = re.compile(r"\s*(?:[-,:]\s*)?(rs|ws|right side|wrong side)\s*(?::|\.|-)", re.IGNORECASE)
_ALONE = re.compile(r"\s*(?P<alone>foundation|set-?up|base)\s*(?=:)", re.IGNORECASE)
_NEXT_ROUNDS = re.compile(rf"\s*(?:next|following)\s+(?P<n>\d+|[a-z]+)(?P<list>\s*[(\[{{/][\d\s,:/;()\[\]{{}}–-]{{1,80}})?\s+(?P<word>{_LONG_WORD})\b\.?", re.IGNORECASE)
_NAMES = (
    "foundation|set-?up|setup|base|next|final|last|edging|joining|inc|increase|dec|decrease|eyelet|border|ribbing|"
    "starting|closing|shell|mesh|turning|bobble|plain|decreasing|increasing|short"
)
_KNOWN_NAME = re.compile(rf"\s*(?P<name>(?:{_NAMES})\s+(?P<word>{_LONG_WORD}))\b\.?(?!\s*(?:\d|of\b|should\b|is\b))", re.IGNORECASE)
_BARE_WORD = re.compile(rf"\s*(?P<word>{_LONG_WORD})\s*(?=:)", re.IGNORECASE)
_SECTION = re.compile(
    rf"\s*(?P<section>[a-z][a-z'-]*(?:\s+[a-z0-9]{{1,12}}){{0,2}}?)\s*[,\-:]?\s+(?=(?:{_LONG_WORD}\.?\s*|r)\d)", re.IGNORECASE
)
_NOT_SECTIONS = frozenset(
    ["repeat", "rep", "work", "as", "same", "in", "on", "after", "before", "until", "between", "from", "for", "of", "sew", "at", "insert", "place", "attach", "stuff", "like", "during", "since", "follow", "through", "join", "see", "over", "and", "or", "the", "to", "by", "with", "begin", "start", "then", "finish", "end", "continue", "fold", "count", "note", "do", "don't", "close", "fasten", "turn", "flatten", "pin", "tie", "weave", "cut", "change", "using", "make"]
)
_NEAR_LABEL = re.compile(r"\s*([a-z]{2,7})\.?\s*(\d+)\s*(?:-\s*\d+\s*)?[:.)]", re.IGNORECASE)
_NEAR_WORDS = ("rnd", "rnds", "round", "rounds", "row", "rows", "rd")
_BARE_CLOSER = re.compile(r"\s*(?:[.:)>|]|(?=[(\[]\d+ ?r))", re.IGNORECASE)
_AFTER_NUMBER = re.compile(
    r"\s*(?:[:.;)\]|(\[,&/~>=-]|(?:to|and|through|thru|rounds?|rnds?|rows?|rds?|incl\w*)\b|$)", re.IGNORECASE
)
_PLURAL_BEFORE = re.compile(r"(?:rounds|rnds|rds|rows|rs)\.?\s*\d+\s*$")
_WORD_INSIDE = re.compile(r"[a-z]{2,}\.?\s*\d+$|\br\d+$", re.IGNORECASE)
# "R10-13 15 sc" and "R10-13 sc around": what follows is whole without the second number.
_WORK_NEXT = re.compile(
    r"\s+(?:\d+\s*(?:sc|dc|hdc|tr|htr|sts?)\b|[(\[*]|(?:sc|dc|hdc|tr|htr)\s+(?:around|across|in|all|each|to|blo|flo)\b|work|as )", re.IGNORECASE
)
_SHADE = re.compile(r"\s*(?:col(?:ou?r)?|shade)\b\.?\s*(?:no\.?\s*)?#?\w{1,12}\s*", re.IGNORECASE)
LIMIT = 10**6
_MOMENT = re.compile(r"\s@\s*(?:(\d{1,2}):)?(\d{1,3}):(\d{2})\s*$")


@dataclass(slots=True)
class FoundLabel:
    """A label with where the instruction begins, brackets in it that belong to the instruction, and a count in it.

    ``bare`` is true for a mere number ("4."): a label if it goes on with the numbering.
    """

    label: RoundLabel
    body: int
    heads: list[tuple[int, int]] = field(default_factory=list)
    count: tuple[int, int] | None = None
    bare: bool = False
    every: str | None = None  # "Row 4 and all even rows": which others are meant


def find_label(text: str) -> FoundLabel | None:
    """The label at the start of a normalised line, or None.

    label = [section] word numbers | ordinal word | number closer | name word ;  then {bracket} [closer]
    """
    return _plain(text) or _worded(text, 0) or _number_first(text) or _named(text) or _sectioned(text)


# "Rnd 7: sc around", "R7: (sc, inc) x 6": nothing stands between number and colon, nor behind it what may be of the label:
# another sign, a side, or a bracket without a comma.
_PLAIN = re.compile(
    rf"\s*(?:(?P<word>{_WORD})\b\.?\s*|(?P<glued>r(?:nd|d|ow)?s?)\.?)(?P<n>\d{{1,8}}):(?=\s*(?:[^\s:;|>=.)(\[/rwRW-]|[(\[][^()\[\]]*,))",
    re.IGNORECASE,
)


def _plain(text: str) -> FoundLabel | None:
    """The label of most rounds, which has no more than word, number and colon; what :func:`_worded` gives for it."""
    match = _PLAIN.match(text)
    if match is None:
        return None
    word, (at, end) = match["word"] or match["glued"], match.span("n")
    number = Number(at, end, (int(match["n"]),))
    kind = "row" if word.lower().startswith("ro") and not word.lower().startswith("rou") else "round"
    numbers = ((number.value, number.value),)
    label = RoundLabel(text.index(word), end, kind, _text(kind, numbers, "", ""), numbers, written=(number,))
    return FoundLabel(label, match.end())


def _worded(text: str, at: int, section: str = "") -> FoundLabel | None:
    match = _START.match(text, at)
    if match is None:
        return None
    word = match["word"] or match["glued"]
    group = "n" if match["n"] else "m"
    first = Number(match.start(group), match.end(group), (_number(match[group]),))
    numbers, written, end, single = _numbers(text, first, match.end())
    if len(word) > 1 and word.lower().endswith("s") and single:
        lost = _LOST_DASH.match(text, end)
        if lost and _number(lost["n"]) > first.value:
            second = Number(lost.start("n"), lost.end("n"), (_number(lost["n"]),))
            numbers, written, end = ((first.value, second.value),), (first, second), lost.end("n")
    start = match.start() + len(match[0]) - len(match[0].lstrip())
    return _finish(text, start, end, word, numbers, written, section)


def _number(digits: str) -> int:
    return int(digits) if len(digits) < 9 else 10**9


def _numbers(
    text: str, first: Number, end: int
) -> tuple[tuple[tuple[int, int], ...], tuple[Number, ...], int, bool]:
    """numbers = n {(dash | "," | "and") n}: stretches of rounds, every written number, where they end."""
    stretches: list[tuple[int, int]] = [(first.value, first.value)]
    written = [first]
    while match := _NEXT.match(text, end):
        number = Number(match.start("n"), match.end("n"), (_number(match["n"]),))
        if not _really_goes_on(text, match, number, stretches):
            break
        written.append(number)
        if match["dash"]:
            stretches[-1] = (stretches[-1][0], number.value)
        else:
            stretches.append((number.value, number.value))
        end = match.end()
        inclusive = _INCLUSIVE.match(text, end)
        if inclusive:
            end = inclusive.end()
    return tuple(stretches), tuple(written), end, len(written) == 1


def _really_goes_on(text: str, match: re.Match[str], number: Number, stretches: list[tuple[int, int]]) -> bool:
    """"Rnds 4-6:" is a range, "Rnd 4 - 6 sc" is not: a stitch follows the number. Nor is "Rnd 2 - 2(sc, inc)"."""
    if match["dash"] and text[match.end() : match.end() + 1] in "([" and text[match.end() :] and number.value <= stretches[-1][1]:
        return False
    if _AFTER_NUMBER.match(text, match.end()):
        return True
    if not match["dash"] or number.value <= stretches[-1][1]:
        return False
    if _PLURAL_BEFORE.search(text[max(0, match.start() - 40) : match.start()].lower()) or _WORD_INSIDE.search(match[0]):
        return True
    tight = " " not in match[0]
    return tight and bool(_WORK_NEXT.match(text[match.end() : match.end() + 40]))


def _finish(
    text: str,
    start: int,
    end: int,
    word: str,
    numbers: tuple[tuple[int, int], ...],
    written: tuple[Number, ...],
    section: str = "",
    name: str = "",
) -> FoundLabel:
    kind = "row" if word.lower().startswith("ro") and not word.lower().startswith("rou") else "round"
    label = RoundLabel(
        start, end, kind, _text(kind, numbers, name, section), numbers, name=name, section=section, written=written
    )
    found = FoundLabel(label, end)
    inclusive = _INCLUSIVE.match(text, end)
    if inclusive:
        end = inclusive.end()
    if len(numbers) == 1 and (every := every_other(text, end)) is not None:
        end, found.every = every
        label.end = end
    closer = _CLOSER.match(text, end)
    side = _LOOSE_SIDE.match(text, end)
    if side:
        label.side = side[1].upper() if len(side[1]) == 2 else side[1].lower()
        found.body = side.end()
        return found
    at = end
    for _ in range(4):
        after = closer.end() if closer else at
        bracket = _BRACKET.match(text, after)
        if not bracket or not _take_bracket(text, bracket, found, bool(_CLOSER.match(text, bracket.end()))):
            break
        at = bracket.end()
        closer = _CLOSER.match(text, at)
    found.body = closer.end() if closer else at
    label.end = max(at, label.end)
    return found


def _take_bracket(text: str, bracket: re.Match[str], found: FoundLabel, closed: bool) -> bool:
    """Whether a bracket after the number belongs to the label: a side, a length, a count, a colour, a remark."""
    content = bracket[1] or bracket[2] or bracket[3] or ""
    label = found.label
    if match := _SIDE.match(content):
        label.side = match[1].upper() if len(match[1]) == 2 else match[1].lower()
        return True
    if match := _LENGTH.match(content):
        digits = match["n"].lower()
        value = _number(digits) if digits.isdigit() else NUMBER_WORDS.get(digits)
        if value is not None:
            at = bracket.start(bracket.lastindex or 1) + match.start("n")
            label.length = Number(at, at + len(digits), (value,), not digits.isdigit())
            return True
    if not closed:
        return False
    if re.fullmatch(r"\s*\d+\s*", content):
        found.count = bracket.span()
        return True
    if (re.search(r"\d|\*", content) or "," in content) and not _SHADE.fullmatch(content):
        return False
    found.heads.append((bracket.start(), bracket.end()))
    return True


def _text(kind: str, numbers: tuple[tuple[int, int], ...], name: str, section: str) -> str:
    head = f"{section}, " if section else ""
    if name and not numbers:
        return head + name[:1].upper() + name[1:]
    word = "Row" if kind == "row" else "Rnd"
    parts = [f"{a}-{b}" if b != a else f"{a}" for a, b in numbers]
    many = len(parts) > 1 or (numbers and numbers[0][0] != numbers[0][1])
    return f"{head}{word}{'s' if many else ''} {', '.join(parts)}"


def _number_first(text: str) -> FoundLabel | None:
    """"2nd rnd:", "3 row:", "2nd to 5th rows", and bare "1." "5-8:" """
    match = _FIRST_NUMBER.match(text)
    if match is None:
        return None
    first = Number(match.start("n"), match.end("n"), (_number(match["n"]),))
    numbers, written, end, _single = _numbers(text, first, match.end())
    word = _WORD_AFTER.match(text, end)
    if word:
        after = _INCLUSIVE.match(text, word.end())
        behind = after.end() if after else word.end()
        if match["ord"] or _CLOSER.match(text, behind) or _BRACKET.match(text, behind):
            return _finish(text, first.start, word.end(), word["word"], numbers, written)
    closer = _BARE_CLOSER.match(text, end)
    if closer is None or match["ord"] or text[closer.end() : closer.end() + 1].isdigit():
        return None
    found = _finish(text, first.start, end, "", numbers, written)
    found.bare = True
    return found


def _named(text: str) -> FoundLabel | None:
    """"Next rnd:", "Foundation row:", "Next 4 rnds:", "Dec row (WS):" """
    if match := _NEXT_ROUNDS.match(text):
        digits = match["n"].lower()
        value = _number(digits) if digits.isdigit() else NUMBER_WORDS.get(digits)
        if value:
            found = _finish(text, _lead(text), match.end(), match["word"], (), (), name=match[0].strip())
            found.label.length = Number(match.start("n"), match.end("list" if match["list"] else "n"), (value,), not digits.isdigit())
            return found
    if match := _KNOWN_NAME.match(text):
        return _finish(text, _lead(text), match.end(), match["word"], (), (), name=match["name"].strip())
    if match := _ALONE.match(text):
        return _finish(text, _lead(text), match.end(), "row", (), (), name=match["alone"].strip())
    if match := _BARE_WORD.match(text):
        return _finish(text, _lead(text), match.end(), match["word"], (), (), name=match["word"].strip())
    return None


def _lead(text: str) -> int:
    return len(text) - len(text.lstrip())


def _sectioned(text: str) -> FoundLabel | None:
    """"Leg 2, rnd 1:", "Heel row 1:": a section before the label, closed by a colon."""
    match = _SECTION.match(text)
    if match is None or match["section"].split()[0].lower() in _NOT_SECTIONS:
        return None
    found = _worded(text, match.end(), section=match["section"].strip())
    if found is None:
        return None
    if ":" not in text[found.label.end : found.body] and text[found.body - 1 : found.body] not in (":", "-"):
        return None
    found.label.start = _lead(text)
    return found


def nearly_a_label(text: str) -> str | None:
    """The word that was probably meant where a line begins nearly like a round ("Rmd 20:"), else None."""
    match = _NEAR_LABEL.match(text)
    if match is None:
        return None
    word = match[1].lower()
    if word in _NEAR_WORDS:
        return None
    best = min(_NEAR_WORDS, key=lambda known: distance(word, known))
    allowed = 1 if len(word) < 4 else 2
    return best.capitalize() if distance(word, best) <= allowed else None


def ordinal(token: str, following: str) -> int | None:
    """The value of "2nd" cut as "2" and "nd", or of "second"; None for anything else."""
    if token.isdigit() and following in ("st", "nd", "rd", "th"):
        return _number(token)
    return ORDINAL_WORDS.get(token)


def find_moment(text: str) -> tuple[int, int] | None:
    """The film mark at the end of a line: (where it begins, seconds), or None."""
    if "@" not in text:
        return None
    match = _MOMENT.search(text)
    if match is None:
        return None
    hours, minutes, seconds = (int(part) if part else 0 for part in match.groups())
    return match.start(), hours * 3600 + minutes * 60 + seconds

"""Lines that speak of rounds instead of working one: chains that count, marks across rows, pieces worked as another."""

from __future__ import annotations

from dataclasses import dataclass, field

from .. import late_re as re
from .near import nearest
from .syntax import Again, Chain, Number, Reference, RoundLine, Step
from .words import value_of

_CHAIN_RULE = re.compile(
    r"\s*(?:note\s*:\s*)?(?:the\s+|all\s+|your\s+)?(?:(?:beginning|starting|turning|beg|first)\s+)?ch(?:ain)?s?\s*-?\s*(?P<n>\d{1,2}|one|two|three|four)?"
    r"(?:\s+(?:at|in)\s+(?:the\s+)?(?:start|beginning|beg)\s+of\s+(?:a|an|the|each|every|all)?\s*(?:joined\s+)?(?:rounds?|rnds?|rows?)|\s+here)?"
    r"\s+(?P<not>(?:does|do|will|is|are)\s*(?:not|n't)\s+count(?:ed)?|never\s+counts?|won't\s+count|doesn't\s+count|don't\s+count|(?P<does>counts?|is\s+counted|are\s+counted))"
    r"(?:\s+as)?(?:\s+(?:a|an|one|1|the\s+first|first))?(?:\s+(?:st|sts|stitch|stitches|sc|hdc|dc|tr|htr))?(?:\s+throughout|\s+in\s+this\s+pattern)?\s*\.?\s*",
    re.IGNORECASE,
)
_MARK_LINE = re.compile(r"\s*(?:\*{2,3}|\u2020|#{2})\s*")
_MARK_BEHIND = re.compile(r"\s\*\*\s*$")
_AS_FOR = re.compile(
    r"\s*(?:(?:rep(?:eat)?|work)\s+)?(?P<from>from\s+\*\*\s+to\s+\*\*,?\s*)?(?:(?:work|made?|make)\s+)?(?:(?:the\s+)?same\s+)?(?:as|like)\s+(?:for\s+|on\s+)?(?:the\s+)?"
    r"(?P<name>[^\W\d_][\w' -]{0,30}?)(?P<to>\s*,?\s+(?:up\s+)?(?:to|until|as far as)\s+\*\*)?\s*\.?\s*",
    re.IGNORECASE,
)
_AS_FAR_AS = re.compile(
    r"\s*(?:work|make|follow)\s+(?:the\s+)?(?P<name>[^\W\d_][\w' -]{0,30}?)(?P<to>\s*,?\s+(?:up\s+)?(?:to|until|as far as)\s+\*\*)\s*\.?\s*", re.IGNORECASE
)
_EVERY = re.compile(
    r"\s*,?\s*(?:and|&|,)\s*(?:all|every)\s+(?:other\s+)?(?P<which>even|odd|alternate|ws|rs|wrong[ -]side|right[ -]side|following alternate)?[ -]?(?:numbered\s+)?(?:rounds?|rnds?|rows?|rds?)"
    r"(?:\s+(?:after|following|from here(?: on)?))?\s*(?=[:.(-])",
    re.IGNORECASE,
)


def chain_rule(text: str) -> tuple[int, bool] | None:
    """"Ch 2 at the start of a round does not count as a stitch.": how many chains (0: any), and whether they count."""
    match = _CHAIN_RULE.fullmatch(text)
    if match is None:
        return None
    return value_of(match["n"] or "0"), match["does"] is not None


def declare_chains(steps: tuple[Step, ...], rules: dict[int, bool]) -> None:
    """What a sentence said of chains at the start holds for those that say nothing themselves."""
    for step in steps:
        if isinstance(step, Chain) and step.turning and step.counts_as is None:
            counts = rules.get(step.number.value, rules.get(0))
            if counts is not None:
                step.counts_as = (("stitch", 1),) if counts else ()


@dataclass(slots=True)
class Marks:
    """Where ** stands in the pieces: behind which round, in order; and the last round of each piece, by its name."""

    behind: dict[str, list[int]] = field(default_factory=dict)
    last: dict[str, int] = field(default_factory=dict)

    def note(self, piece: str, number: int) -> None:
        """A mark stands behind round *number* of *piece*."""
        self.behind.setdefault(piece.lower(), []).append(number)

    def copied(self, text: str) -> Again | None:
        """"Work as for Back to **", "Rep from ** to ** as for Front", "Same as Back.": the rounds meant; None if none are."""
        match = _AS_FOR.fullmatch(text) or _AS_FAR_AS.fullmatch(text)
        if match is None:
            return None
        name = self._piece(match["name"].strip())
        if not name:
            return None
        marks = self.behind.get(name, [])
        if match.groupdict().get("from"):
            rounds = (marks[0] + 1, marks[1]) if len(marks) > 1 else None
        elif match["to"]:
            rounds = (1, marks[-1]) if marks else None
        else:
            rounds = (1, self.last[name])
        if rounds is None or rounds[0] > rounds[1]:
            return None
        lead = len(text) - len(text.lstrip())
        reference = Reference(match.start("name"), match.end("name"), (rounds,), match["name"].strip())
        return Again(lead, len(text.rstrip()), reference)

    def _piece(self, name: str) -> str:
        low = name.lower()
        if low in self.last:
            return low
        near = nearest(low, [known for known in self.last if abs(len(known) - len(low)) <= 1]) if len(low) > 3 else None
        return near or ""


def is_mark(text: str) -> bool:
    """A line that holds only a mark: "**"."""
    return _MARK_LINE.fullmatch(text) is not None


def mark_behind(text: str, start: int) -> int | None:
    """Where a mark behind a row begins ("... (15) **"), None where there is none or it belongs to a repeat."""
    match = _MARK_BEHIND.search(text) if "**" in text else None
    if match is None or match.start() <= start or text.count("**", start) % 2 == 0:
        return None
    return match.start()


def every_other(text: str, at: int) -> tuple[int, str] | None:
    """" and all even rows" behind a label's number: where it ends, and which rows it names."""
    match = _EVERY.match(text, at)
    return (match.end(), (match["which"] or "").lower()) if match is not None else None


@dataclass(slots=True)
class Between:
    """A row that is said once for every other row: it fills the numbers that are not written."""

    line: RoundLine
    number: int

    def fills(self, missing: int) -> bool:
        """Whether row *missing* is one of those meant."""
        return missing > self.number and (missing - self.number) % 2 == 0


def numbers_upto(label_at: int, first: int, last: int) -> tuple[Number, ...]:
    """The numbers of a row that also covers the unwritten one before it."""
    return (Number(label_at, label_at, (first,)), Number(label_at, label_at, (last,)))

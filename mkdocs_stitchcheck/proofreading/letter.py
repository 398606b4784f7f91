"""An editor's letter about each pattern of a file, as data: text, Markdown and HTML are made from it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from ..findings import Finding, Severity
from ..results import FileResult, PatternResult, Status
from ..rules.points import TOPICS, YOURS, points
from .right import found_right

WEIGHT = (Severity.ERROR, Severity.WARNING, Severity.CAUTION, Severity.ADVICE, Severity.INFO)
_HEADS = {
    Severity.ERROR: "must be mended", Severity.WARNING: "should be mended", Severity.ADVICE: "worth a look",
    Severity.INFO: "good to know", Severity.CAUTION: "a caution for readers",
}

# Rules that stand in no row of the hundred points, or in several, by topic.
_OTHER_TOPICS = {
    "style": "D", "left-unsaid": "C", "reading-guessed": "D", "reading-undecided": "D",
    "range-changes-count": "A", "number-out-of-range": "A", "no-free-loops": "A", "ruffles": "B", "cups": "B",
    "nothing-to-work-into": "E", "unclosed-block": "H", "fence-not-read": "H", "block-not-shown": "H",
    "outside-the-pattern": "H", "needs-site": "H", "checker-fault": "H", "excuse-unused": "H",
}
_SCHEMATIC = 33  # the point that only garments are asked
_LINES = {  # header line -> what a reader misses without it
    "designer": "who designed it", "version": "the version", "date": "the date", "licence": "what may be done with it",
    "contact": "where to ask", "care": "how to wash it", "level": "the level",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One sentence of a section: where it stands ("line 31"), how it weighs, what mends it, the rule's name."""

    words: str
    place: str = ""
    weight: str = ""
    mend: str = ""
    rule: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with its entries; ``level`` is 1 for a part of the letter and 2 for a topic within it."""

    title: str
    entries: tuple[Entry, ...] = ()
    level: int = 1
    told: str = ""  # the sentence below the heading


@dataclass(frozen=True, slots=True)
class Letter:
    """The letter about one pattern."""

    title: str
    path: str
    opening: tuple[str, ...]
    sections: tuple[Section, ...]


Where = Callable[[Finding], str]


def line_of(finding: Finding) -> str:
    """The place of a finding in the file that was checked."""
    return f"line {finding.span.line}"


def letters(file: FileResult, where: Where = line_of) -> list[Letter]:
    """A letter for each pattern of *file*; what stands outside of all patterns is in the first. [] without a pattern."""
    owned = {id(finding) for pattern in file.patterns for finding in pattern.findings}
    loose = [finding for finding in file.findings if id(finding) not in owned]
    found = []
    for number, pattern in enumerate(file.patterns):
        findings = sorted([*pattern.findings, *(loose if number == 0 else ())], key=lambda finding: finding.span)
        found.append(_letter(file, pattern, findings, where))
    return found


def _letter(file: FileResult, pattern: PatternResult, findings: list[Finding], where: Where) -> Letter:
    open_ones = [finding for finding in findings if finding.excused is None and finding.rule != "on-trust"]
    sections = [
        *_by_topic(open_ones, where),
        Section("What is right", tuple(Entry(words) for words in found_right(pattern, open_ones))),
        Section("Taken on trust", tuple(_trusted(pattern)), told="" if any(True for _ in _trusted(pattern)) else "Nothing."),
        Section("Right as written, you say", tuple(
            Entry(f"{finding.message} Your reason: {finding.excused}.", where(finding), rule=finding.rule)
            for finding in findings if finding.excused is not None
        )),
        *_yours(pattern),
    ]  # fmt: skip
    shown = tuple(section for section in sections if section.entries or section.told)
    return Letter(pattern.title or "The pattern", file.path, tuple(_opening(pattern, open_ones)), shown)


# --- the parts ------------------------------------------------------------------------------------------------------


def _opening(pattern: PatternResult, findings: list[Finding]) -> Iterator[str]:
    lines = [line for line in pattern.rounds if line.counts]
    rounds = sum(line.worked for line in lines)
    pieces = sum(any(line.counts for line in piece.rounds) for piece in pattern.pieces)
    yield f"I worked {_number(rounds, 'round')} in {_number(pieces, 'piece')}, stitch by stitch."
    slips = _slips(findings)
    counted = [(sum(group[0].severity is weight for group in slips), words) for weight, words in _HEADS.items()]
    told = [f"{number} {_is(words, number)}" for number, words in counted if number]
    if any(group[0].severity is Severity.ERROR for group in slips):
        yield f"It is not ready to be published. Of what I found, {', '.join(told)}."
    elif told:
        yield f"No number is wrong. Of what I found, {', '.join(told)}."
    else:
        yield "I found nothing to mend."
    if pattern.draft:
        yield "It is a draft, so nothing in it holds up your site."


def _is(words: str, number: int) -> str:
    """"1 is worth a look", "2 must be mended", "2 are cautions for readers"."""
    if words.startswith(("must", "should")):
        return words
    if number == 1:
        return f"is {words}"
    return "are cautions for readers" if words.startswith("a caution") else f"are {words}"


def _slips(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Findings of one slip together, the weightiest first."""
    groups: dict[object, list[Finding]] = {}
    for number, finding in enumerate(findings):
        groups.setdefault(("alone", number) if finding.group is None else finding.group, []).append(finding)
    return [sorted(group, key=lambda finding: WEIGHT.index(finding.severity)) for group in groups.values()]


def topic_of(rule: str) -> str:
    """The letter of the topic that a rule belongs to."""
    return _OTHER_TOPICS.get(rule) or next((point.topic for point in points() if rule in point.rules), "D")


def _by_topic(findings: list[Finding], where: Where) -> Iterator[Section]:
    slips = _slips(findings)
    if not slips:
        return
    yield Section("What I found", told="By topic. Each ends with its name: stitchcheck explain tells you more of it.")
    for topic, title in TOPICS.items():
        own = [group for group in slips if topic_of(group[0].rule) == topic]
        if own:
            ordered = sorted(own, key=lambda group: (WEIGHT.index(group[0].severity), group[0].span))
            yield Section(title, tuple(_entry(group, where) for group in ordered), 2)


def _entry(group: list[Finding], where: Where) -> Entry:
    head = group[0]
    words = " ".join(dict.fromkeys(finding.message for finding in group))
    mend = " ".join(dict.fromkeys(finding.suggestion for finding in group if finding.suggestion))
    follows = list(dict.fromkeys(line for finding in group for line in finding.follows))
    if follows:
        words += f" What only follows from it: {' '.join(follows)}"
    rules = ", ".join(dict.fromkeys(finding.rule for finding in group))
    return Entry(words, where(head), _HEADS.get(head.severity, ""), mend, rules)


def _trusted(pattern: PatternResult) -> Iterator[Entry]:
    for piece in pattern.pieces:
        for line in piece.rounds:
            place = f"line {line.line}"
            name = f"{piece.name}, {line.label or 'a step'}" if piece.name else line.label or "A step"
            if line.status is Status.ON_TRUST:
                yield Entry(f"{name}: {line.trust or 'its words can not be counted'}; I took its count as you wrote it.", place)
            elif line.status is Status.UNREAD and line.counts:
                yield Entry(f"{name}: I could not read it, and went on from the count you wrote.", place)
            elif line.status is Status.COUNTED and line.counts and line.makes and line.makes[0] is not None:
                yield Entry(f"{name}: you state no count; I make it {line.makes[0]}.", place)


def _yours(pattern: PatternResult) -> Iterator[Section]:
    header = pattern.syntax.header
    absent = [words for key, words in _LINES.items() if header.first(key) is None]
    entries = [Entry(point.says) for point in points()
               if point.kind == YOURS and (point.number != _SCHEMATIC or header.sizes)]
    if absent:
        entries.insert(0, Entry(f"The header doesn't say {_or(absent)}. Is that as you want it?"))
    yield Section("For your own eye", tuple(entries), told="These no program can judge.")


def _or(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _number(number: int, noun: str) -> str:
    return f"{number:,} {noun}{'' if number == 1 else 's'}"

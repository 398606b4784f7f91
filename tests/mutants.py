"""Numbers changed by one in right patterns: which are noticed, and for which the edit named puts them right again.

``python -m tests.mutants PATH...`` (files or folders; ``--survivors`` lists what went unnoticed). The scanner here is a
simple one of its own: it shares nothing with the checker's reading. It leaves alone what is not a count: labels and
references to rounds, positions ("2nd ch"), measures, film moments, and the height of a turning chain.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

COUNTING_RULES = frozenset((
    "count-mismatch", "stitches-left-over", "stitches-run-out", "repeat-does-not-fit", "range-length",
    "range-changes-count", "round-missing", "round-twice", "join-mismatch", "no-free-loops", "nothing-to-work-into",
    "after-fasten-off", "unknown-round", "number-out-of-range", "unknown-stitch",
))  # fmt: skip

# Warnings that compare what no count can tell: a block, a corner, a chain with its like in the same pattern.
COMPARING_RULES = frozenset(("block-differs", "corner-differs", "beginning-chain", "multiple-mismatch", "chain-not-there"))

WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBER = r"\d+(?:st|nd|rd|th)?"
_NAME = r"(?:rnds?|rounds?|rows?|rds?|r)\.?"
_STITCH = r"(?:sc|hdc|dc|htr|tr|inc|dec|x|st)\b"
_LABEL = re.compile(
    rf"""[\s>*_-]*(?:
        {_NAME}\s*\d+\s*(?:(?:-|–|~|to|and|&|through|,)\s*(?:{_NAME}\s*)?\d+\s*(?![\s\d]*{_STITCH}))*(?:\([^)]*\)\s*|[\[{{][\d\s,]*[\]}}]\s*)*(?:inclusive)?\s*[*]*\s*[:.)–-]*
      | {_NUMBER}\s*(?:(?:-|–|to|and|&)\s*{_NUMBER}\s*)?{_NAME}\s*(?:\([^)]*\)\s*)?(?:inclusive)?\s*[:.)]
      | \d+\s*[.)]?\s*(?:(?:-|–|~)\s*\d+\s*)?(?:\([^)]*\)\s*)?[:.)](?!\d)
      | (?:next|foundation|set-up|inc|dec|joining|edging|last|final)\s+(?:\d+\s+)?{_NAME}\s*(?:\([^)]*\)\s*)?:
    )[*]*""",
    re.IGNORECASE | re.VERBOSE,
)
_RANGE = re.compile(r"\d+\s*(?:-|–|~|to|and|&|through)\s*(?:[a-z.]+\s*)?\d+", re.IGNORECASE)
_FOUNDATION = re.compile(r"\s*(?:[Ww]ith color \w+, )?(?:(?:[Cc]h(?:ain)?|[Mm]ake|[Ff]sc)\s+\d+|\d+\s+ch)\b")
_COUNTED_STEP = re.compile(r"\b(?:flatten|fold)\b|\bboth layers\b", re.IGNORECASE)
_ASIDE = re.compile(  # numbers that count nothing
    rf"""(?:\b{_NAME}\s*\d+(?:\s*(?:-|–|to|and|&)\s*\d+)*)          # as Rnd 5
      | \b(?:leg|arm|color|colour)\s*\d+
      | \d+(?:st|nd|rd|th)\b                                      # 2nd ch
      | \d+(?:[.,]\d+)?(?:\s*[(\[{{][\d\s,./:-]*[)\]}}])*\s*(?:cm|mm|m|g|oz|yd|in|inch|inches|")(?![a-z])
      | @\s*\d+:\d+(?::\d+)?
      | \bch-?\s*\d+(?=\s*(?:\((?:count|does|not)|,?\s*(?:&|and)?\s*turn|\.\s*turn))   # the height of a turning chain
      | (?<=turn[,.]\s)ch\s*\d+ | (?<=turn\s)ch\s*\d+
      | ^\s*(?:with\scolou?r\s\w+,\s)?ch(?:ain)?\s*\d+(?=\s*(?:,|\([^)]*\),)) | (?<=ring,\s)ch\s*\d+(?=,)
      | ^\s*(?:\(\w+\):\s*)?(?:with\s(?:colou?r\s)?\w+,\s)?1\s?ch(?=,)      # the same with the number first: 1ch, dc around
      | ^\s*ch\s*1(?=\.\s*\S)                                     # Ch 1. at the start of a joined round
      | \b(?:top|ch)\sof\s(?:beg\s)?ch[-\s]\d+                          # the name of the chain that is joined to
      | \bbetween\s(?:next\s)?2\sgroups\b                          # one gap, whatever stands on both sides
      | ^\s*sl\sst\sto\s(?:next\s)?ch-\d+(?=\ssp\b)               # where a round begins: the name of the space
      | \bmulti\w*\sof\s\d+(?:\s*\+\s*\d+)? | \bcounts?\sas\s[^,;]*?\d+ | \(\d+\sskipped[^)]*\) | \(=\s*\d+(?:st\s)?[^)\d]+\)
    """,
    re.IGNORECASE | re.VERBOSE,
)
_HEIGHT_MOVED = re.compile(r"^\s*sl st\b[^(*]*?,\s*(ch\s*\d+)(?=,\s*\()", re.IGNORECASE)  # slip stitches to a space, then the height
_TIMES_WORD = re.compile(rf"\b({'|'.join(WORDS[1:])})(?=(?: more)? times)", re.IGNORECASE)
_COUNT = re.compile(  # at the end: (24), [24 sts], = 24, - 24 sc, . 24 sts, You now have 24 sts
    r"""(?:\.\s*(?:you\s+now\s+have|total:|st\s+count:) | [(\[{<|/*=] | \s[-–—]+ | \.\s)
        \s*[(*=]*\s*[+]?\d[^()\[\]{}<>]*[)\]}>|/*]*\s*(?:sts?|sc|made|total|each)?\s*[.]?
        \s*(?:[x×]\s*\d+\s*\w+)?\s*(?:@\s*[\d:]+)?\s*$""",
    re.IGNORECASE | re.VERBOSE,
)
_LEAD = re.compile(r"\s*(?:(?:ch\s*\d+|turn)(?:\s*\([^)]*\))?(?:\s*[,.&]\s*|\s+))+", re.IGNORECASE)
_TAIL = re.compile(
    r"[,;.]\s*(?:(?:join|sl st|ss|slst|fo|turn)\b.*|(?:change|switch) to [^,;]*|fasten off.*|ch \d+, turn.*)$",
    re.IGNORECASE,
)
_ONE_REPEAT = re.compile(
    r"""(?:\d+\s*x?\s*)?[(\[{<*†][^()\[\]{}<>]*?(?:[)\]}>*]|;|,)?[\s,.]*
        (?:x|×|\*|rep\w*|around|to\ end|to\ eor|across|until|times|from|more|a\ total\ of|from\ \*\ to\ \*|[*†]|\d+x?
          |\w+\ times|end\ of\ rnd|\s|,)*
        (?:\(\d+X\))?""",
    re.IGNORECASE | re.VERBOSE,
)
_FENCE = re.compile(r"(?P<prefix>[\s>]*)(?P<fence>`{3,}|~{3,})\s*(?P<word>\S*)")


@dataclass(frozen=True)
class Target:
    """A number that counts: its place in the text, the number, the line and its kind."""

    start: int
    end: int
    written: str
    line: int
    kind: str
    in_count: bool

    def becomes(self, step: int) -> str | None:
        """The number one more or one less, written the same way; None below zero."""
        if self.written.isdigit():
            value = int(self.written) + step
            return str(value) if value >= 0 else None
        index = WORDS.index(self.written.lower()) + step
        return WORDS[index] if 0 < index < len(WORDS) else None


@dataclass
class Mutant:
    """A page with one number changed, and what the checker made of it."""

    path: str
    target: Target
    became: str
    clean_line: str
    line: str
    found: bool = False
    undone: bool = False
    rules: tuple[str, ...] = ()
    offered: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """How a test lists it."""
        return f"{self.path}:{self.target.line}: {self.clean_line.strip()} -> {self.line.strip()}"


def _count(body: str) -> re.Match[str] | None:
    """The stated count at the end of a line: the shortest that there is."""
    for at in range(len(body) - 1, -1, -1):
        if body[at] in "([{<|/*=.-–— " and (match := _COUNT.match(body, at)):
            return match
    return None


def kind_of(label: str, body: str) -> str:
    """The kind of round, for the table."""
    if re.search(r"\b(?:other|opposite|underside|free loops of ch)\b", body, re.IGNORECASE):
        return "oval"
    if re.search(r"\bsps?\b", body):
        return "spaces"
    if re.search(r"\d ?[(\[{](?:\d+|–|-) ?[,:/-] ?[\d–-]|\d/\d", body):
        return "sizes"
    if _RANGE.search(label):
        return "range"
    if re.search(r"\brow", label, re.IGNORECASE):
        return "row"
    if re.search(r"\b(?:magic|mr|in ring|into ring|adjustable|ring)\b", body, re.IGNORECASE):
        return "ring"
    count = _count(body)
    instruction = _LEAD.sub("", body[: count.start()] if count else body, count=1)
    instruction = _TAIL.sub("", re.sub(r"(?:\s*(?:=|--?|–|—|\s\*|\*\*|\())+$", "", instruction.rstrip())).strip(" .,;")
    instruction = re.sub(r"\(\w+, \w+(?:, \w+)?\) in (?:next|each) st", "inc", instruction)
    if re.match(r"[(\[{*][^)\]}*]*[(\[{].*[x×\d]", instruction):
        return "nested"
    if re.search(r"[(\[{<*†]", instruction):
        whole = _ONE_REPEAT.fullmatch(instruction)
        return "regular" if whole else "staggered"
    if re.search(r"\b(?:around|each|every|across|all|even|to end)\b", instruction, re.IGNORECASE):
        return "plain"
    return "list" if "," in instruction else "plain"


def _pattern_lines(text: str, path: str) -> Iterator[tuple[int, str]]:
    """The lines of the pattern blocks, with their numbers; a quote's marks are blanked, so that places stay."""
    if path.endswith(".txt"):
        yield from enumerate(text.split("\n"), 1)
        return
    closing, quoted, ours = "", 0, False
    for number, line in enumerate(text.split("\n"), 1):
        fence = _FENCE.match(line)
        if fence and not closing:
            closing, quoted = fence["fence"], fence["prefix"].count(">")
            ours = fence["word"].strip("{}.") == "crochet"
        elif fence and fence["fence"].startswith(closing) and not fence["word"]:
            closing, ours = "", False
        elif ours:
            yield number, line.replace(">", " ", quoted)


def _statements(text: str, path: str) -> Iterator[tuple[int, str]]:
    """Pattern lines with the lines, indented deeper, in which they go on; notes and headings left out."""
    held: tuple[int, str] | None = None
    for number, line in _pattern_lines(text, path):
        deeper = re.match(r"\s{3,}\S", line) and not _LABEL.match(line, len(line) - len(line.lstrip()))
        if (
            held
            and deeper
            and held[1].rstrip().endswith((",", ";", ":"))
            and number == held[0] + held[1].count("\n") + 1
        ):
            held = (held[0], f"{held[1]}\n{line}")
            continue
        if held:
            yield held
        held = None if re.match(r"\s*(?:>|#)", line) else (number, line)
    if held:
        yield held


def targets(text: str, path: str = "page.md") -> list[Target]:
    """Every number that counts something, in the order of the text."""
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)
    found: list[Target] = []
    for number, line in _statements(text, path):
        lead = len(line) - len(line.lstrip())
        label = _LABEL.match(line, lead)
        if label:
            body_at, kind = label.end(), kind_of(label[0], line[label.end() :])
        elif _FOUNDATION.match(line):
            body_at, kind = lead, "foundation"
        elif _COUNTED_STEP.search(line):
            body_at, kind = lead, "step"
        else:
            continue
        body = line[body_at:]
        count = _count(body)
        if not count and kind != "foundation":
            continue  # states no count
        asides = [match.span() for match in _ASIDE.finditer(body)]
        asides += [match.span(1) for match in _HEIGHT_MOVED.finditer(body)]
        for match in [*re.finditer(r"\d+", body), *_TIMES_WORD.finditer(body)]:
            if any(start <= match.start() < end for start, end in asides):
                continue
            at = starts[number - 1] + body_at
            in_count = count is not None and match.start() >= count.start()
            row = number + line.count("\n", 0, body_at + match.start())
            found.append(Target(at + match.start(), at + match.end(), match[0], row, kind, in_count))
    return found


def _apply(text: str, edits: Iterable[Any]) -> str:
    """The text with edits (replace the text at a span) applied, last place first."""
    lines = text.split("\n")
    for edit in sorted(edits, key=lambda edit: (edit.span.line, edit.span.column), reverse=True):
        span = edit.span
        first, last = lines[span.line - 1], lines[span.end_line - 1]
        whole = first[: span.column - 1] + edit.text + last[span.end_column - 1 :]
        lines[span.line - 1 : span.end_line] = whole.split("\n")
    return "\n".join(lines)


def mutants(text: str, path: str, check: Callable[[str, str], Any]) -> Iterator[Mutant]:
    """Every mutant of a right page, judged."""
    lines = text.split("\n")
    for target in targets(text, path):
        for step in (1, -1):
            became = target.becomes(step)
            if became is None:
                continue
            changed = text[: target.start] + became + text[target.end :]
            mutant = Mutant(path, target, became, lines[target.line - 1], changed.split("\n")[target.line - 1])
            _judge(mutant, text, changed, check(changed, path))
            yield mutant


def _judge(mutant: Mutant, text: str, changed: str, result: Any) -> None:
    new = [f for f in result.findings if str(f.severity) == "error" and f.rule in COUNTING_RULES or f.rule in COMPARING_RULES]
    mutant.found = bool(new)
    mutant.rules = tuple(sorted({f.rule for f in new}))
    offers = [edits for f in new for edits in (f.edits, *f.alternatives) if edits]
    mended = [_apply(changed, edits) for edits in offers]
    mutant.offered = tuple(one.split("\n")[mutant.target.line - 1] for one in mended)
    mutant.undone = text in mended


@dataclass
class Table:
    """Shares by kind of round: mutants made, found, and of those found the ones whose undoing edit is named."""

    made: Counter[str] = field(default_factory=Counter)
    found: Counter[str] = field(default_factory=Counter)
    undone: Counter[str] = field(default_factory=Counter)
    survivors: list[Mutant] = field(default_factory=list)
    not_undone: list[Mutant] = field(default_factory=list)
    wrong_pages: list[str] = field(default_factory=list)  # they have errors as they stand, and give no mutants

    def add(self, mutant: Mutant) -> None:
        """Count one mutant in."""
        kind = mutant.target.kind
        self.made[kind] += 1
        if not mutant.found:
            self.survivors.append(mutant)
            return
        self.found[kind] += 1
        self.undone[kind] += mutant.undone
        if not mutant.undone:
            self.not_undone.append(mutant)

    def share_found(self) -> float:
        """The share found, over all kinds."""
        return sum(self.found.values()) / max(1, sum(self.made.values()))

    def share_undone(self, kind: str) -> float:
        """Of those found in rounds of *kind*, the share whose undoing edit is named."""
        return self.undone[kind] / max(1, self.found[kind])

    def __str__(self) -> str:
        rows = [f"{'kind':12}{'mutants':>9}{'found':>9}{'undone':>9}"]
        for kind in [*sorted(self.made), "all"]:
            made = self.made[kind] if kind != "all" else sum(self.made.values())
            found = self.found[kind] if kind != "all" else sum(self.found.values())
            undone = self.undone[kind] if kind != "all" else sum(self.undone.values())
            rows.append(f"{kind:12}{made:9}{found / max(1, made):9.1%}{undone / max(1, found):9.1%}")
        return "\n".join(rows)


def table_of(pages: Iterable[tuple[str, str]], check: Callable[[str, str], Any]) -> Table:
    """The table for pages given as (path, text)."""
    table = Table()
    for path, text in pages:
        if any(str(f.severity) == "error" for f in check(text, path).findings):
            table.wrong_pages.append(path)
            continue
        for mutant in mutants(text, path, check):
            table.add(mutant)
    return table


def pages_at(paths: Iterable[Path]) -> Iterator[tuple[str, str]]:
    """The pages and plain patterns at *paths*, folders searched through."""
    for path in paths:
        for file in sorted(path.rglob("*")) if path.is_dir() else [path]:
            if file.suffix in (".md", ".txt"):
                yield str(file), file.read_text(encoding="utf-8")


def main() -> int:
    """Print the table."""
    from mkdocs_stitchcheck import check_text

    options = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    options.add_argument("paths", nargs="+", type=Path)
    options.add_argument("--survivors", action="store_true", help="list what went unnoticed")
    options.add_argument(
        "--not-undone", action="store_true", help="list what was found and not undone by an edit named"
    )
    chosen = options.parse_args()
    table = table_of(pages_at(chosen.paths), check_text)
    print(table)
    for path in table.wrong_pages:
        print(f"{path} has errors as it stands: no mutants")
    for mutant in table.survivors if chosen.survivors else ():
        print(f"unnoticed ({mutant.target.kind}) {mutant.name}")
    for mutant in table.not_undone if chosen.not_undone else ():
        print(
            f"not undone ({mutant.target.kind}) {mutant.name}\n    {', '.join(mutant.rules)}; offered {mutant.offered}"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""The report for reading: each slip with its place, its line with marks, what is wrong and what mends it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from ..findings import Severity
from ..results import FileResult, PatternResult, summary
from ..source import Source
from . import Options
from .display import Paint, one_line
from .frames import frame
from .groups import Group, grouped


def report(files: Sequence[FileResult], options: Options) -> str:
    """All findings in code frames, then totals by piece if asked for, excuses, what waits, and a line that sums up."""
    paint = Paint(options.color)
    lines: list[str] = []
    repeated = _said_once(files)
    for file in files:
        lines.extend(_file(file, options, paint, repeated))
    if options.totals:
        lines.extend(_totals(files))
    if not options.quiet:
        lines.extend(_excused(files))
        lines.extend(waiting(files))
        lines.append(summed_up(files, options.strict, paint))
    return "".join(f"{line}\n" for line in lines)


_ONCE = "small-parts"  # on each page the readers are cautioned; the writer reads it once a run


def _said_once(files: Sequence[FileResult]) -> list[tuple[str, int]]:
    """Every place of the caution that stands on many pages, in order."""
    return [(file.path, one.span.line) for file in files for one in file.findings if one.rule == _ONCE and one.excused is None]


def _file(file: FileResult, options: Options, paint: Paint, repeated: list[tuple[str, int]]) -> Iterator[str]:
    source = Source(file.text, file.path)
    for group in grouped(file.findings):
        if options.quiet and not group.fails(options.strict):
            continue
        once = group.rules == _ONCE and len(repeated) > 1 and not group.fails(options.strict)
        if once and repeated[0] != (file.path, group.head.span.line):
            continue
        yield from _slip(group, source, options, paint)
        if once:
            yield _others(repeated)
        yield ""


def _others(repeated: list[tuple[str, int]]) -> str:
    """Where else the same caution stands."""
    others = repeated[1:]
    shown = ", ".join(f"{one_line(path)}:{line}" for path, line in others[:5])
    more = f" and {len(others) - 5:,} more" if len(others) > 5 else ""
    return f"  The same goes for {_number(len(others), 'more pattern')}: {shown}{more}."


def slip_text(group: Group, source: Source, options: Options) -> str:
    """One slip as it stands in the report, without a line end: for hosts that print slip by slip."""
    return "\n".join(_slip(group, source, options, Paint(options.color)))


def _slip(group: Group, source: Source, options: Options, paint: Paint) -> Iterator[str]:
    head, severity = group.head, str(group.head.severity)
    place = f"{one_line(source.path)}:{head.span.line}:{head.span.column}:"
    yield f"{paint('bold', place)} {paint(severity, f'{severity}[{group.rules}]')}: {one_line(group.message)}"
    if source.text:
        yield from frame(source, group.marks, options.width, paint, severity)
    for suggestion in group.suggestions:
        yield f"  {one_line(suggestion)}"
    if group.follows:
        yield "  What only follows from it:"
        for line in group.follows:
            yield f"    {one_line(line)}"


# --- what stands below the findings -------------------------------------------------------------------------------


def _excused(files: Sequence[FileResult]) -> Iterator[str]:
    excused = [(file, finding) for file in files for finding in file.findings if finding.excused is not None]
    if excused:
        yield f"Right as written, say the writers ({_number(len(excused), 'place')}):"
        for file, finding in excused:
            yield f"  {one_line(file.path)}:{finding.span.line}: {finding.rule}: {one_line(finding.excused or '')}"


def waiting(files: Sequence[FileResult]) -> Iterator[str]:
    """Lines on what doesn't fail yet: drafts, and pages not yet cleared."""
    for file in files:
        waiting = sum(finding.waits == "draft" and finding.severity is Severity.ERROR for finding in file.findings)
        for pattern in file.drafts:
            name = one_line(pattern.title or "the pattern")
            yield f"{one_line(file.path)}:{pattern.line}: {name} is a draft: nothing in it fails."
        if waiting:
            yield f"  {_number(waiting, 'error')} to mend before it is published."
    pages = [file for file in files if file.not_yet]
    if pages:
        errors = sum(f.severity is Severity.ERROR and f.waits == "not-yet" for file in pages for f in file.findings)
        cleared = f"{_number(len(pages), 'page')} not yet cleared"
        yield f"{cleared}: {_number(errors, 'error')} shown that {_do(errors)} fail." if errors else f"{cleared}."


def _do(number: int) -> str:
    return "doesn't" if number == 1 else "don't"


def _number(number: int, noun: str) -> str:
    return f"{number:,} {noun}{'' if number == 1 or noun == 'advice' else 's'}"


def summed_up(files: Sequence[FileResult], strict: bool, paint: Paint) -> str:
    """One line: patterns, rounds by what is known of them, findings by weight."""
    patterns = sum(len(file.patterns) for file in files)
    counted = summary(list(files))
    found = [
        _number(counted[key], noun)
        for key, noun in (
            ("errors", "error"),
            ("warnings", "warning"),
            ("cautions", "caution"),
            ("advice", "advice"),
            ("infos", "info"),
        )
        if counted[key]
    ]
    if not patterns and not found:
        return "No crochet pattern found."
    kinds = (
        ("checked", "checked"),
        ("counted", "counted"),
        ("on_trust", "on trust"),
        ("mismatch", "wrong"),
        ("unread", "not read"),
    )
    rounds = ", ".join(f"{counted[key]:,} {word}" for key, word in kinds if counted[key])
    waiting = sum(
        bool(finding.waits) and finding.severity is Severity.ERROR for file in files for finding in file.findings
    )
    if waiting:
        found[0] += f" ({waiting:,} {_do(waiting)} fail)"
    line = f"{_number(patterns, 'pattern')}, {_number(counted['rounds'], 'round')}{': ' + rounds if rounds else ''}."
    fails = any(file.fails(strict) for file in files)
    return f"{line} {paint('error' if fails else 'good', ', '.join(found) or 'Nothing to mend')}."


# --- totals by piece ----------------------------------------------------------------------------------------------


def _totals(files: Sequence[FileResult]) -> Iterator[str]:
    for file in files:
        for pattern in file.patterns:
            yield from _pattern_totals(file, pattern)
            yield ""


def _pattern_totals(file: FileResult, pattern: PatternResult) -> Iterator[str]:
    yield f"{one_line(pattern.title or 'Pattern')} ({one_line(file.path)}:{pattern.line})"
    rows = []
    everything: Counter[tuple[str, str]] = Counter()
    for piece in pattern.pieces:
        stitches = piece.stitches
        worked = sum(line.worked for line in piece.rounds if line.counts)
        everything.update({key: number * piece.make for key, number in stitches.items()})
        if piece.rounds:
            name = one_line(piece.name or "Piece") + (f" (make {piece.make})" if piece.make > 1 else "")
            rows.append((name, f"{worked:,}", f"{sum(stitches.values()):,}"))
    unsure = any(line.status in ("on-trust", "unread", "mismatch") for line in pattern.rounds)
    rows.append(("In all, every copy", "", f"{sum(everything.values()):,}"))
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    for name, number, total in rows:
        noun = "" if not number else " round " if number == "1" else " rounds"
        rounds = f"{number:>{widths[1]}}{noun}".ljust(widths[1] + 7)
        yield f"  {name:<{widths[0]}}  {rounds}  {total:>{widths[2]}} stitches"
    if unsure:
        yield "  Rounds that are wrong, not read or on trust make these numbers unsure."

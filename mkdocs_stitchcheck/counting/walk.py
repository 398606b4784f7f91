"""Counts a whole pattern: every piece, every size, one reading; gives results and reports slips."""

from __future__ import annotations

from collections import Counter

from ..findings import Findings
from ..language import syntax
from ..results import PatternResult, PieceResult, Reading, RoundResult, SizeWork, Status
from . import messages, readings
from .edge import NOTHING
from .judge import Start
from .named import check_names
from .numbering import check_numbers
from .piece import PieceWalk
from .program import MOST_ROUNDS, Programs
from .questions import Answers, words
from .records import Pass, Worked
from .report import Reporter
from .size_findings import merged
from .size_numbering import check_numbers_of_size
from .telling import check_counts_stated, report_readings, tell_followers

_WORST = (Status.MISMATCH, Status.UNREAD, Status.ON_TRUST, Status.COUNTED, Status.CHECKED)


def count_pattern(pattern: syntax.Pattern, findings: Findings) -> PatternResult:
    """Counts *pattern* and adds what is wrong to *findings*.

    Gives one :class:`~mkdocs_stitchcheck.results.RoundResult` a written line of rounds, rows, foundations and counted
    steps. A slip of the writer's never raises.
    """
    programs = Programs(pattern)
    base = readings.declared(pattern.header)
    reporter = Reporter(findings, pattern.title)
    before = len(findings.items)
    choice, walks = _read_and_walk(pattern, programs, base, reporter)
    result = PatternResult(pattern.title, pattern.line, pattern, draft=pattern.draft)
    for index, piece in enumerate(pattern.pieces):
        result.pieces.append(_piece_result(piece, [walk[index] for walk in walks]))
    last = 0
    for piece, walk in zip(pattern.pieces, walks[0], strict=True):
        check_numbers(piece, _continued(piece, walks[0], last), programs, reporter)
        last = max(programs.rounds[id(piece)].last, 0)
        tell_followers(walk, reporter)
    check_names(pattern, programs, reporter)
    check_counts_stated(pattern, result, reporter)
    if choice is not None:
        report_readings(pattern, choice, result, reporter)
    else:
        result.readings = [Reading(q, words(q, a), "declared") for q, a in base.given.items()]
        asked = sorted(walks[0][0].shared.asked) if walks[0] else ()
        result.readings += [Reading(q, words(q, base.get(q)), "usual, and every round adds up") for q in asked]
    result.findings = findings.items[before:]
    return result


# --- readings and sizes ------------------------------------------------------------------------------------------


def _read_and_walk(
    pattern: syntax.Pattern, programs: Programs, base: Answers, reporter: Reporter
) -> tuple[readings.Choice | None, list[list[PieceWalk]]]:
    """Walks once under the usual readings; again where the rounds together say otherwise."""
    findings = reporter.findings
    sizes = max(len(pattern.header.sizes), 1)
    kept, findings.items = findings.items, []
    try:
        shared, walk = _walk(pattern, programs, base, reporter, 0)
        choice = None
        open_ = not shared.all_pass or shared.asked[readings.HDC] or shared.words
        if open_ and (shared.asked or any(word.throughout for word in shared.words)):
            choice = readings.choose(base, shared.speakers, shared.words, shared.asked)
        answers = choice.answers if choice is not None else base
        told = choice.told if choice is not None else {}
        if choice is not None and (told or any(answers.get(q) != base.get(q) for q in answers.given)):
            findings.items = []
            shared, walk = _walk(pattern, programs, answers, reporter, 0, told)
        walks, found = [walk], [findings.items]
        for size in range(1, sizes):
            findings.items = []
            walks.append(_walk(pattern, programs, answers, reporter, size, told)[1])
            for piece in pattern.pieces:
                check_numbers_of_size(piece, size, programs, reporter)
            found.append(findings.items)
    finally:
        findings.items = kept
    findings.items.extend(found[0] if sizes == 1 else merged(found, pattern.header.sizes, walks))
    return choice, walks


def _walk(
    pattern: syntax.Pattern, programs: Programs, answers: Answers, reporter: Reporter, size: int,
    told: dict[str, str] | None = None,
) -> tuple[Pass, list[PieceWalk]]:  # fmt: skip
    shared = Pass(pattern, programs, answers, reporter, size, told=told or {})
    walks: list[PieceWalk] = []
    for piece in pattern.pieces:
        start = Start(NOTHING, piece.color or "", None, MOST_ROUNDS)
        if walks and (piece.continued or _last_before(piece, walks[-1], programs)):
            last = walks[-1].state
            start = Start(last.edge, piece.color or last.color, last.pending, MOST_ROUNDS)
        walk = PieceWalk(shared, piece, start)
        walk.edge_of = walks[-1].piece.name if walks and start.edge is not NOTHING else piece.name
        walk.run()
        if piece.same_as is not None and not walk.worked:
            shared.ends[id(piece)] = shared.edge_of(piece.same_as)
        walks.append(walk)
    return shared, walks


def walk_pieces(
    pattern: syntax.Pattern, programs: Programs, answers: Answers, reporter: Reporter
) -> list[PieceWalk]:
    """Every piece of *pattern*, walked once in its first size under *answers*."""
    return _walk(pattern, programs, answers, reporter, 0)[1]


def _last_before(piece: syntax.Piece, before: PieceWalk, programs: Programs) -> int:
    """The round of the piece *before* after which this one goes on, 0 where it does not: the numbers must run on, those
    of rounds without a number counted or not, and the yarn not have been fastened off."""
    rounds, other = programs.rounds[id(piece)], programs.rounds[id(before.piece)]
    if not rounds.stretches or not other.last or before.fastened or piece.making_up:
        return 0
    unnumbered = 0
    for line in piece.lines:
        label = line.label if isinstance(line, syntax.RoundLine) else None
        if label is not None and label.first is None:
            unnumbered += label.length.value if label.length is not None else 1  # "Next rnd:"
        elif label is not None:
            return next((last for last in (other.last, other.highest) if label.first == last + unnumbered + 1), 0)
    return 0


def _continued(piece: syntax.Piece, walks: list[PieceWalk], last: int) -> int:
    """The last round of the piece that *piece* continues, or 0."""
    index = next(i for i, walk in enumerate(walks) if walk.piece is piece)
    if not index:
        return 0
    runs_on = _last_before(piece, walks[index - 1], walks[index].shared.programs)
    return runs_on or (last if piece.continued else 0)


# --- results -----------------------------------------------------------------------------------------------------


def _piece_result(piece: syntax.Piece, walks: list[PieceWalk]) -> PieceResult:
    result = PieceResult(piece.name, piece.make, piece.line, piece)
    for entries in zip(*(walk.worked for walk in walks), strict=True):
        result.rounds.append(_round_result(entries))
    asides = walks[0].asides
    kinds = Counter(line.kind for line in result.rounds if line.counts)
    in_ring = any(_is_ring(line.syntax) for line in result.rounds[:2])
    result.flat = kinds["row"] > kinds["round"] and not in_ring
    result.flattened = "flatten" in asides
    counts = [line.makes[0] or 0 for line in result.rounds if line.counts]
    drawn_in = bool(counts) and counts[-1] <= 8 and max(counts) >= 18
    result.closed = "close" in asides or (drawn_in and not result.flat and not result.flattened)
    return result


def _is_ring(line: syntax.RoundLine) -> bool:
    for step in line.steps or ():
        place = step.place if isinstance(step, (syntax.Work, syntax.Group)) else None
        if isinstance(step, syntax.Ring) or place is not None and place.kind == "ring":
            return True
    return False


def _round_result(entries: tuple[Worked, ...]) -> RoundResult:
    first = next((entry for entry in entries if entry.worked), entries[0])
    line = first.line
    label = line.label
    outcome = first.outcome
    result = RoundResult(messages.name_of(line) if label is not None else "", first.kind, line.line, line)
    if label is not None:
        result.first, result.last = label.first, label.last
        if result.first is not None and result.last is not None and first.worked > 1 and result.first == result.last:
            result.last = result.first + first.worked - 1
    result.worked = first.worked
    result.uses = (first.uses,)
    result.makes = (first.makes,)
    result.stated = (first.stated,)
    result.status, result.trust = first.status, first.trust
    if len(entries) > 1:
        _add_sizes(result, entries)
    if outcome is not None and outcome.each:
        result.each = tuple(outcome.each)
    result.color, result.colors, result.turned = first.color, first.colors, first.turned
    result.stitches.update(first.material)
    return result


def _size_work(entry: Worked) -> SizeWork:
    each = tuple(entry.outcome.each) if entry.outcome is not None and entry.worked else ()
    return SizeWork(entry.worked, each, Counter(entry.material) if entry.worked else Counter())


def _add_sizes(result: RoundResult, entries: tuple[Worked, ...]) -> None:
    result.uses = tuple(entry.uses for entry in entries)
    result.makes = tuple(entry.makes for entry in entries)
    result.stated = tuple(entry.stated for entry in entries)
    there = [entry for entry in entries if entry.worked] or list(entries)
    result.status = min((entry.status for entry in there), key=_WORST.index)
    result.sizes = tuple(_size_work(entry) for entry in entries)
    result.trust = next((entry.trust for entry in entries if entry.trust), "")

"""Round numbers of a piece: gaps, numbers used twice, ranges that run backwards or have another length than stated."""

from __future__ import annotations

from bisect import bisect_right, insort

from .. import late_re as re
from ..findings import Edit
from ..language import syntax
from . import messages
from .numbered import covered
from .program import Programs
from .report import Reporter, label_span
from .working import LARGEST_NUMBER

_REJOIN = re.compile(
    r"\b(?:re-?join|attach|fasten(?:ing)? on|return(?:ing)? to|other side|second side|left\b|right\b|standing\b"
    r"|join(?:ing)? (?:in )?(?:the |new |your )*(?:yarn|thread|wool|colou?r)\b)",
    re.IGNORECASE,
)
# At the start "join" takes up the yarn ("Join with sl st in any st"); at the end it only closes the round.
_TAKES_UP = re.compile(r"\s*(?:re-?)?(?:join|attach)", re.IGNORECASE)
_JOINS_FIRST = re.compile(r"[\s:,.]*(?:with [^,]{1,20}, ?)?join", re.IGNORECASE)


def rejoins(line: syntax.RoundLine) -> bool:
    """Whether the words of *line* take up yarn or a side anew, so that numbers may return."""
    if line.label is not None and (line.label.side or line.label.section):
        return True
    if any(isinstance(step, syntax.Aside) and step.reference is not None for step in line.steps or ()):
        return True  # pieces held together
    words = line.statement.words
    if any(isinstance(step, syntax.ColorChange) and _TAKES_UP.match(words, step.start) for step in line.steps or ()):
        return True  # "join blue"
    return bool(_REJOIN.search(words) or _JOINS_FIRST.match(words, line.body[0] if line.label is not None else 0))


def check_numbers(piece: syntax.Piece, before: int, programs: Programs, reporter: Reporter) -> None:
    """Judges the numbers of a whole *piece*. *before* is the last number of the piece that this one continues, or 0."""
    rounds = programs.rounds[id(piece)]
    last = before
    seen: list[tuple[int, int, syntax.RoundLine]] = []  # in order, none overlapping
    slack = 0
    anew = False
    for line in piece.lines:
        if not isinstance(line, syntax.RoundLine):
            continue
        label = line.label
        if label is None or not label.numbers:
            worked = _unnumbered(line, piece, programs)
            if label is None and (line.kind == "foundation" or _counted(line)) and not seen:
                slack = max(slack, worked)
            elif worked:
                slack += worked
            anew = anew or (label is None and rejoins(line))
            continue
        _check_range(line, label, piece, reporter)
        side = rejoins(line) if label.side or label.section else False
        for first, end in label.numbers:
            low, high = min(first, end), max(first, end)
            if any(isinstance(step, syntax.Until) for step in line.steps or ()):
                slack = LARGEST_NUMBER  # as many rows as it takes: the numbers behind it are the writer's
            elif len(label.numbers) == 1 and low == high:
                high = low + max(covered(line), programs.of(line, piece).rounds if line.steps else 1) - 1
            if not seen and low == last + 1 and slack < LARGEST_NUMBER:
                slack = 0  # what stood before Rnd 1 has no number
            twin = _overlapping(seen, low, high) if low <= last else None
            if twin is not None and _other_sizes(line, twin[2]):
                continue
            if twin is not None:
                anew = anew or side or rejoins(line)
                if not (anew or _sided(twin[2])):
                    _twice(line, piece, max(low, twin[0]), twin[2], reporter, _first_size(line, programs))
            elif low > last + 1 + slack:
                missing = [n for n in _first_few(last + 1, low - 1) if not rounds.find(n)]
                if missing:
                    _missing(line, piece, missing[0], low - 1, reporter, _first_size(line, programs))
            if low > last + 1:
                slack = max(0, slack - (low - last - 1))
            if twin is None:
                insort(seen, (low, high, line), key=_first_number)
            last = max(last, high)


def _first_number(stretch: tuple[int, int, syntax.RoundLine]) -> int:
    return stretch[0]


def _overlapping(
    seen: list[tuple[int, int, syntax.RoundLine]], low: int, high: int
) -> tuple[int, int, syntax.RoundLine] | None:
    """The stretch of numbers already used that *low* to *high* touches."""
    at = bisect_right(seen, high, key=_first_number) - 1
    return seen[at] if at >= 0 and seen[at][1] >= low else None


def _other_sizes(line: syntax.RoundLine, other: syntax.RoundLine) -> bool:
    """Whether the two are for different sizes: "Size S only: Rnd 2", "Size M only: Rnd 2"."""
    return line.only is not None and other.only is not None and not line.only & other.only


def _sided(line: syntax.RoundLine) -> bool:
    return line.label is not None and bool(line.label.side or line.label.section)


def _counted(line: syntax.RoundLine) -> bool:
    return any(isinstance(s, (syntax.Work, syntax.Group, syntax.Repeat, syntax.Ring, syntax.Again)) for s in line.steps or ())


def _unnumbered(line: syntax.RoundLine, piece: syntax.Piece, programs: Programs) -> int:
    """How many rounds a line without a number works: "Next rnd", "Rep rows 2-5 twice"."""
    if line.steps is None:
        return 1 if line.label is not None else 0
    if any(isinstance(step, syntax.Until) for step in line.steps):
        return LARGEST_NUMBER
    if line.label is not None or any(isinstance(s, syntax.Again) for s in line.steps):
        return programs.of(line, piece).rounds
    return 1 if line.kind == "foundation" and _counted(line) else 0


def _first_few(first: int, last: int) -> range:
    return range(first, min(last, first + 50) + 1)


def _first_size(line: syntax.RoundLine, programs: Programs) -> str:
    """"Size S: ", where the label gives a number for each size; the others are ``size_numbering``'s."""
    label, sizes = line.label, programs.pattern.header.sizes
    return f"Size {sizes[0]}: " if sizes and label is not None and any(len(n.values) > 1 for n in label.written) else ""


def _missing(
    line: syntax.RoundLine, piece: syntax.Piece, first: int, last: int, reporter: Reporter, size: str = ""
) -> None:
    assert line.label is not None
    word = "Row" if line.label.kind == "row" else "Round"
    if first == last:
        message = f"{word} {first} is missing: {messages.name_of(line)} {messages.verb(line, 'comes', 'come')} next in {piece.name}."
    else:
        message = f"{word}s {first} to {last} are missing: {messages.name_of(line)} {messages.verb(line, 'comes', 'come')} next in {piece.name}."
    reporter.add("round-missing", label_span(line), size + message, piece, line)


def _twice(
    line: syntax.RoundLine, piece: syntax.Piece, number: int, twin: syntax.RoundLine, reporter: Reporter, size: str
) -> None:
    assert line.label is not None
    word = "Row" if line.label.kind == "row" else "Round"
    message = f"{word} {number} stands twice in {piece.name}: it was already written on line {twin.line}."
    reporter.add("round-twice", label_span(line), size + message, piece, line)


def _check_range(line: syntax.RoundLine, label: syntax.RoundLabel, piece: syntax.Piece, reporter: Reporter) -> None:
    for first, last in label.numbers:
        if first > last:
            edits = _swapped(line, label)
            reporter.add(
                "range-length", label_span(line), f"{messages.name_of(line)}: the first number is greater than the last.",
                piece, line, edits=edits, suggestion=f"Write {last}-{first}." if edits else "",
            )  # fmt: skip
            return
    if label.length is None:
        return
    count = sum(last - first + 1 for first, last in label.numbers)
    stated = label.length.value
    if count > 1 and stated != count:
        span = line.statement.span(label.length.start, label.length.end)
        name = f"{label.first} to {label.last}" if len(label.numbers) == 1 else messages.name_of(line)
        reporter.add(
            "range-length", span,
            f"{name} are {count} {messages.round_noun(line, count)}; you wrote {stated}.",
            piece, line, suggestion=f"Write {count}, or correct the numbers of the range.", edits=(Edit(span, str(count)),),
        )  # fmt: skip


def _swapped(line: syntax.RoundLine, label: syntax.RoundLabel) -> tuple[Edit, ...]:
    if len(label.written) != 2:
        return ()
    first, last = label.written
    text = line.statement.text
    return (
        Edit(line.statement.span(first.start, first.end), text[last.start : last.end]),
        Edit(line.statement.span(last.start, last.end), text[first.start : first.end]),
    )

"""Walks one piece, line by line, in one size: edges handed on, slips reported once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from ..language import syntax
from ..results import Status
from . import messages
from .blame import Neighbours, find
from .edge import NOTHING, Edge
from .judge import Outcome, Start, judge
from .loops import Base, base_of_loops
from .numbered import covered
from .numbering import rejoins
from .places import consumes, first_place
from .program import Program, Programs
from .questions import Answers
from .readings import Speaker, Words
from .repairs import Case
from .report import Reporter, body_span, label_span, stated_span
from .tally import Material
from .working import LARGEST_NUMBER, Setting, Steps

Accepts = Callable[[int], bool | None]


@dataclass(slots=True)
class Worked:
    """What is known of one written line in one size."""

    line: syntax.RoundLine
    before: Start
    after: Start
    kind: str
    status: Status = Status.UNREAD
    outcome: Outcome | None = None
    trust: str = ""
    stated: int | None = None
    worked: int = 1
    uses: int | None = None
    makes: int | None = None
    color: str | None = None
    colors: tuple[str, ...] = ()
    turned: bool = False
    material: Material = field(default_factory=dict)
    loops: frozenset[str] = frozenset()


@dataclass(slots=True)
class Pass:
    """What a walk through the whole pattern in one size shares: answers, programs, what pieces ended with."""

    pattern: syntax.Pattern
    programs: Programs
    answers: Answers
    reporter: Reporter
    size: int = 0
    ends: dict[int, Edge | None] = field(default_factory=dict)
    lines: dict[int, Worked] = field(default_factory=dict)
    speakers: list[Speaker] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    asked: Counter[str] = field(default_factory=Counter)
    all_pass: bool = True
    told: dict[str, str] = field(default_factory=dict)  # question -> the round whose own words decide it

    def edge_of(self, reference: syntax.Reference) -> Edge | None:
        """The edge that a named piece ended with; None where it is not known."""
        piece = self.programs.find(reference.piece) if reference.piece else None
        return self.ends.get(id(piece)) if piece is not None else None


class PieceWalk:
    """One piece in one size."""

    def __init__(self, shared: Pass, piece: syntax.Piece, start: Start) -> None:
        self.shared = shared
        self.piece = piece
        self.state = start
        self.edge_of = piece.name  # the piece whose stitches are worked into first: another where this one continues it
        self.worked: list[Worked] = []
        self.lines = [line for line in piece.lines if isinstance(line, syntax.RoundLine)]
        self.fastened = False
        self.cause: syntax.RoundLine | None = None
        self.following: dict[int, list[str]] = {}
        self.asides: set[str] = set()
        self.settings = {
            in_rounds: Setting(shared.answers, shared.size, in_rounds, pieces=shared.edge_of) for in_rounds in (True, False)
        }

    # --- lines -----------------------------------------------------------------------------------------------------

    def run(self) -> None:
        """Walks all lines."""
        for index, line in enumerate(self.lines):
            if line.steps is None or line.not_written:
                self._unread(line)
            elif self._is_counted(line):
                self._counted(line, index)
            else:
                self._uncounted(line)
        self.shared.ends[id(self.piece)] = self.state.edge

    @staticmethod
    def _is_counted(line: syntax.RoundLine) -> bool:
        if line.kind in ("round", "foundation"):
            return True
        return any(consumes(step) and not isinstance(step, syntax.Trust) for step in line.steps or ())

    def _uncounted(self, line: syntax.RoundLine) -> None:
        """A step without stitches: stuffing, fastening off, another colour."""
        for step in line.steps or ():
            if isinstance(step, syntax.Aside):
                self.asides.add(step.kind)
                if step.kind == "fasten-off":
                    self.fastened = True
            elif isinstance(step, syntax.ColorChange):
                self.state = replace(self.state, color=step.color or step.name)
            elif isinstance(step, syntax.Chain):
                self.state = replace(self.state, pending=step)
            elif isinstance(step, syntax.Join):
                self.fastened = False
        if self.fastened and rejoins(line) and not any(
            isinstance(step, syntax.Aside) and step.kind == "fasten-off" for step in line.steps or ()
        ):
            self.fastened = False

    def _unread(self, line: syntax.RoundLine) -> None:
        """A line that could not be read: its stated count is taken, else the edge is unknown."""
        stated = _stated_total(line, self.shared.size)
        before = self.state
        edge = Edge(stated) if stated is not None else None
        after = Start(edge, before.color, None, before.budget)
        done = Worked(line, before, after, _kind(line), Status.UNREAD, stated=stated, makes=stated)
        done.worked = covered(line, self.shared.size)
        if edge is None:
            self.cause = line
        self._note(done)

    def _note(self, done: Worked) -> None:
        self.worked.append(done)
        self.shared.lines[id(done.line)] = done
        self.state = done.after

    # --- rounds ----------------------------------------------------------------------------------------------------

    def _counted(self, line: syntax.RoundLine, index: int) -> None:
        program = self.shared.programs.of(line, self.piece, self.shared.size)
        start = self._start(line)
        done = Worked(line, start, start, _kind(line), worked=program.rounds)
        if _not_in_this_size(line, self.shared.size):
            done.status, done.worked = Status.COUNTED, 0
            self._note(done)
            return
        if program.trouble:
            self._troubled(done, program)
            return
        if program.rounds > LARGEST_NUMBER or _highest(line) > LARGEST_NUMBER:
            self._too_many_rounds(done)
            return
        self._check_length(line, program)
        if _only_makes_chains(line):
            self._foundation(done)
            return
        setting = self._setting_of(line)
        outcome = judge(program, start, setting, line.stated, self.edge_of)
        done.outcome = outcome
        self._describe(done, outcome)
        if outcome.too_many or outcome.first.too_big is not None:
            self._out_of_range(done, outcome)
        elif self._nothing_there(done, start, outcome):
            pass
        elif outcome.first.trust or outcome.last.trust:
            self._on_trust(done, outcome.first.trust or outcome.last.trust, True)
        elif start.edge is None and not outcome.first.in_ring:
            self._after_unknown(done, outcome, index)
        elif outcome.right:
            done.status = Status.CHECKED if _states(line) else Status.COUNTED
            done.after = outcome.end
        else:
            self._wrong(done, index, outcome, setting, program)
        self._ask(done, program, setting)
        self._note(done)

    def _start(self, line: syntax.RoundLine) -> Start:
        """Where the line begins: the last edge, the loops or the foundation it names, and the colour at its head."""
        start = self.state
        place = first_place(line.steps or ())
        if place is None or place.kind != "loops":
            place = _joined_loops(line) or place
        if place is not None and place.kind == "loops":
            base = base_of_loops(place, line, self.piece, self.shared.programs, self.shared.lines)
            self._report_loops(base, place, line)
            start = replace(start, edge=base.edge, pending=None)
            self.fastened = False
        elif self.fastened and any(consumes(step) for step in line.steps or ()):
            if not (rejoins(line) or _starts_anew(line)):
                self.shared.reporter.add(
                    "after-fasten-off", label_span(line),
                    f"{messages.name_of(line)} works on after {self.piece.name} was fastened off.", self.piece, line,
                    suggestion="Say that the yarn is joined again, or move the fastening off to the end.",
                )  # fmt: skip
            self.fastened = False
        if line.kind == "foundation" and _starts_anew(line):
            start = replace(start, edge=NOTHING, pending=None)
        return start

    def _report_loops(self, base: Base, place: syntax.Place, line: syntax.RoundLine) -> None:
        if base.rule:
            node = place.reference or place
            span = line.statement.span(node.start, node.end)
            self.shared.reporter.add(base.rule, span, base.message, self.piece, line)

    def _setting_of(self, line: syntax.RoundLine) -> Setting:
        shared = self.settings[line.label is None or line.label.kind == "round"]
        if not any(type(step) is syntax.Again for step in line.steps or ()):
            return shared
        piece, programs, size = self.piece, self.shared.programs, self.shared.size

        def resolve(again: syntax.Again) -> Steps | None:
            return programs.single(again, line, piece, size)

        return replace(shared, resolve=resolve)

    def _describe(self, done: Worked, outcome: Outcome) -> None:
        first, last = outcome.first, outcome.last
        unknown = first.unknown and first.open_ended
        done.uses = None if unknown else first.tally.used or first.tally.used_spaces
        done.makes = None if last.unknown and last.open_ended else outcome.makes
        done.stated = outcome.verdict.total if _states(done.line) else None
        done.color = done.before.color or None
        done.colors = tuple(first.colors) if first is last else tuple(dict.fromkeys((*first.colors, *last.colors)))
        done.turned = first.turned
        done.material = outcome.material
        if first.loops or last.loops:
            done.loops = frozenset(first.loops | last.loops)
        if first.asides or last.asides:
            self.asides |= first.asides | last.asides
            self.fastened = self.fastened or "fasten-off" in first.asides or "fasten-off" in last.asides
        if last.layered:
            self.asides.add("flatten")
        if not outcome.fits and first is last and outcome.rounds > 1:
            once = done.material
            done.material = {key: count * outcome.rounds for key, count in once.items()}

    def _foundation(self, done: Worked) -> None:
        """Chains, or a ring, to begin with."""
        steps = done.line.steps or ()
        color = done.before.color
        number = 0
        kind = "chain"
        for step in steps:
            if isinstance(step, syntax.Chain):
                number += self._value(step.number)
            elif isinstance(step, syntax.Ring):
                kind = "ring"
                number = self._value(step.chains) if step.chains is not None else number
            elif isinstance(step, syntax.Join) or isinstance(step, syntax.Work) and step.stitch.kind == "slip":
                kind = "stitches" if kind == "chain" else kind
            elif isinstance(step, syntax.ColorChange):
                color = step.color or step.name
        done.before = replace(done.before, color=color)
        done.color = color or None
        done.colors = (color,) if color else ()
        done.after = Start(Edge(number, kind=kind), color, None, done.before.budget)
        done.uses, done.makes = 0, number
        done.material = {(color, "ch"): number} if number else {}
        done.status = Status.COUNTED
        stated = _stated_total(done.line, self.shared.size)
        if stated is not None:
            done.stated = stated
            done.status = Status.CHECKED
            if stated != number and kind != "ring":
                done.status = Status.MISMATCH
                self.shared.reporter.add(
                    "count-mismatch", stated_span(done.line),
                    f"{messages.name_of(done.line)} makes {messages.stitches(number, 'chain')}; you wrote {stated}.",
                    self.piece, done.line,
                )  # fmt: skip
        self._note(done)

    def _value(self, number: syntax.Number) -> int:
        values = number.values
        return min(values[self.shared.size if self.shared.size < len(values) else 0] or 0, 10**6)

    # --- what cannot be counted --------------------------------------------------------------------------------------

    def _troubled(self, done: Worked, program: Program) -> None:
        """A reference that leads nowhere, or in a circle."""
        line = done.line
        node = program.place or syntax.Node(*line.body)
        inside = node.end <= len(line.statement.text) and node.end > node.start
        span = line.statement.span(node.start, node.end) if inside else body_span(line)
        name = messages.name_of(line)
        if program.trouble == "unread":
            self._on_trust(done, f"it repeats round {program.message}, which could not be read", False)
            self._note(done)
            return
        rule, message, suggestion = self._trouble(program, name)
        self.shared.reporter.add(rule, span, message, self.piece, line, suggestion=suggestion)
        stated = _stated_total(line, self.shared.size)
        done.status, done.stated, done.makes = Status.MISMATCH, stated, stated
        done.worked = covered(line, self.shared.size)
        done.after = Start(Edge(stated) if stated is not None else None, done.before.color, None, done.before.budget)
        if stated is None:
            self.cause = line
        self._note(done)

    def _trouble(self, program: Program, name: str) -> tuple[str, str, str]:
        from .named import near_piece, rounds_there

        node = program.place
        target = self.piece
        if isinstance(node, syntax.Reference):
            target = self.shared.programs.piece_of(node, self.piece) or self.piece
        if program.trouble == "unknown-piece":
            near = near_piece(self.shared.pattern, program.message)
            return program.trouble, f"{name} refers to {program.message}, but there is no such piece.", near
        if program.trouble == "unknown-round":
            there = rounds_there(self.shared.programs, target)
            return program.trouble, f"{name} refers to round {program.message}, but {there}.", ""
        if program.trouble == "circular-reference":
            return program.trouble, f"{name} and round {program.message} refer to each other, so neither says what to do.", ""
        return program.trouble, f"{name} repeats more rounds than can be meant.", ""

    def _out_of_range(self, done: Worked, outcome: Outcome) -> None:
        line = done.line
        number = outcome.first.too_big
        span = line.statement.span(number.start, number.end) if number is not None else body_span(line)
        if number is not None and not number.value:
            message = f"{messages.name_of(line)} holds a 0, so that nothing is worked there."
        elif number is not None:
            message = f"{messages.name_of(line)} holds a number above a million, which cannot be meant."
        elif outcome.makes > 10**9:
            message = f"{messages.name_of(line)} makes more than a thousand million stitches."
        else:
            message = f"{messages.name_of(line)} goes on for more rounds than can be counted."
        if not _reported(self.shared.reporter, "number-out-of-range", line):
            self.shared.reporter.add("number-out-of-range", span, message, self.piece, line)
        done.status = Status.MISMATCH
        done.material = {}
        stated = _stated_total(line, self.shared.size)
        done.makes = stated
        done.after = Start(Edge(stated) if stated is not None else None, done.before.color)
        if stated is None:
            self.cause = line

    def _too_many_rounds(self, done: Worked) -> None:
        line = done.line
        if not _reported(self.shared.reporter, "number-out-of-range", line):
            self.shared.reporter.add(
                "number-out-of-range", label_span(line), f"{messages.name_of(line)}: nobody works a million rounds.",
                self.piece, line, suggestion="Correct the numbers of the rounds.",
            )  # fmt: skip
        stated = _stated_total(line, self.shared.size)
        done.status, done.stated, done.makes, done.worked = Status.MISMATCH, stated, stated, 1
        edge = Edge(stated) if stated is not None else None
        done.after = Start(edge, done.before.color, None, done.before.budget)
        if edge is None:
            self.cause = line
        self._note(done)

    def _nothing_there(self, done: Worked, start: Start, outcome: Outcome) -> bool:
        edge, w = start.edge, outcome.first
        if edge is None or edge.stitches or edge.kind == "ring" or edge.space_count() or w.joined or w.in_ring:
            return False
        if w.chain or not (w.tally.used or w.open_ended or w.tally.used_spaces):
            return False
        if w.trust or edge.kind == "nothing" and w.tally.used and not w.left:
            return False
        line = done.line
        self.shared.reporter.add(
            "nothing-to-work-into", body_span(line), f"{messages.name_of(line)} has nothing to work into.", self.piece, line,
            suggestion="Begin with a magic ring, a chain or a round.",
        )  # fmt: skip
        total = done.stated if done.stated is not None else outcome.makes or None
        done.status = Status.MISMATCH
        done.makes = total
        done.after = replace(outcome.end, edge=Edge(total) if total is not None else None)
        return True

    def _on_trust(self, done: Worked, reason: str, report: bool) -> None:
        line = done.line
        stated = done.stated if done.stated is not None else _stated_total(line, self.shared.size)
        done.status, done.trust, done.stated = Status.ON_TRUST, reason, stated
        done.makes = stated
        color = done.outcome.end.color if done.outcome is not None else done.before.color
        done.after = Start(Edge(stated) if stated is not None else None, color, None, done.before.budget)
        if stated is None:
            self.cause = self.cause or line
        if report:
            name = messages.name_of(line)
            self.shared.reporter.add("on-trust", body_span(line), f"{name} is taken on trust: {reason}.", self.piece, line)

    def _after_unknown(self, done: Worked, outcome: Outcome, index: int) -> None:
        """What stands before is not known: only a count that the steps make by themselves can be held against."""
        line = done.line
        cause = messages.name_of(self.cause) if self.cause is not None else "the round before"
        done.status, done.trust = Status.ON_TRUST, f"{cause} could not be counted"
        if self.cause is not None:
            self.following.setdefault(id(self.cause), []).append(messages.name_of(line))
        if outcome.verdict.right or outcome.last.open_ended:
            total = done.stated if done.stated is not None and outcome.last.open_ended else done.makes
            done.makes = total if total is not None else done.stated
            edge = outcome.end.edge if outcome.end.edge is not None else Edge(done.stated) if done.stated is not None else None
            done.after = replace(outcome.end, edge=edge)
        else:
            done.status = Status.MISMATCH
            accepts = self._accepts(line, index, outcome)
            blame = find(outcome, None, Neighbours(accepts, "", self._name_after(index)))
            self.shared.reporter.wrong(line, self.piece, outcome, blame)
            done.after = self._after(outcome, accepts)
        if done.after.edge is not None:
            self.cause = None

    def _check_length(self, line: syntax.RoundLine, program: Program) -> None:
        """"Rows 8-21: rep rows 4-7 three times" must be as many rounds as its numbers say."""
        label = line.label
        if label is None or not label.numbers or any(first > last for first, last in label.numbers):
            return
        count = covered(line, self.shared.size)
        if program.rounds != count and count > 1:
            noun = messages.round_noun(line, 2)
            self.shared.reporter.add(
                "range-length", label_span(line),
                f"{messages.name_of(line)} are {count} {noun}, but what is repeated comes to {program.rounds}.",
                self.piece, line,
            )  # fmt: skip

    # --- slips -------------------------------------------------------------------------------------------------------

    def _wrong(self, done: Worked, index: int, outcome: Outcome, setting: Setting, program: Program) -> None:
        line, start = done.line, done.before
        done.status = Status.MISMATCH
        accepts = self._accepts(line, index, outcome)
        if self._range_changes(done, outcome, program):
            self.shared.reporter.add("range-changes-count", label_span(line), messages.range_changes(line, outcome), self.piece, line)
            done.after = self._after(outcome, accepts, third=start.edge)
            return
        own = len(program.blocks) == 1 and len(program.blocks[0].segments) == 1 and (
            program.blocks[0].segments[0].steps is line.steps
        )
        case = None
        if own and start.edge is not None:
            case = Case(
                line, line.steps or (), program.rounds, start, setting, line.stated,
                self._accepted(line, outcome, accepts), self.edge_of,
            )  # fmt: skip
        blame = find(outcome, case, Neighbours(accepts, self._name_before(), self._name_after(index)))
        self.shared.reporter.wrong(line, self.piece, outcome, blame, self._told(outcome))
        done.after = self._after(outcome, accepts)

    def _told(self, outcome: Outcome) -> str:
        """Why the chains do not count (or do), where another row's own words say so and the count is one off."""
        if outcome.verdict.total is None or abs(outcome.makes - outcome.verdict.total) != 1:
            return ""
        for question in sorted(outcome.last.asked):
            if question in self.shared.told:
                chains = "skipped chains" if outcome.before is not None and outcome.before.kind == "chain" else "turning chain"
                counts = self.shared.answers.get(question)
                verb = ("count" if counts else "do not count") if chains.endswith("s") else "counts" if counts else "does not count"
                return f"The {chains} {verb}, as {self.shared.told[question]} says."
        return ""

    @staticmethod
    def _range_changes(done: Worked, outcome: Outcome, program: Program) -> bool:
        if outcome.rounds < 2 or len(done.line.stated) > 1:
            return False
        if outcome.stuck is not None:
            return outcome.stuck > 0 and outcome.first.tally.made != (
                done.before.edge.stitches if done.before.edge is not None else None
            )
        changes = bool(outcome.each)
        return changes and outcome.verdict.total == outcome.first.tally.made and not outcome.verdict.right

    def _accepted(self, line: syntax.RoundLine, outcome: Outcome, accepts: Accepts) -> Callable[[Outcome], bool]:
        if _states(line):
            return lambda other: True

        def next_takes_it(other: Outcome) -> bool:
            takes = accepts(other.makes)
            return bool(takes) and accepts(other.makes + 1) is False

        return next_takes_it

    def _after(self, outcome: Outcome, accepts: Accepts, third: Edge | None = None) -> Start:
        """What the next line works on: what the steps make, or the stated count, whichever it accepts."""
        made, stated = outcome.makes, outcome.verdict.total
        end = outcome.end
        if third is not None:
            made = outcome.first.tally.made
            for candidate in (outcome.makes if outcome.fits else made, stated, third.stitches):
                if candidate is not None and accepts(candidate):
                    return replace(end, edge=Edge(candidate))
            return replace(end, edge=Edge(stated if stated is not None else made))
        if stated is None or stated == made:
            return end if outcome.fits or stated is None or end.edge is None else replace(end, edge=replace(end.edge, waiting=0))
        takes_made, takes_stated = accepts(made), accepts(stated)
        if takes_made and not takes_stated:
            return end
        edge = end.edge or Edge()
        return replace(end, edge=replace(edge, stitches=stated, kind="stitches", waiting=0))

    def _accepts(self, line: syntax.RoundLine, index: int, outcome: Outcome) -> Accepts:
        """Whether the next round, worked on n stitches, fits and makes its own count; None where it says nothing."""
        following = self._next(index)
        known: dict[int, bool | None] = {}
        if following is None:
            return lambda n: None
        program = self.shared.programs.of(following, self.piece, self.shared.size)
        setting = replace(self._setting_of(following), asking=False)
        end = outcome.end

        def accepts(n: int) -> bool | None:
            if n not in known:
                edge = end.edge
                spaces = edge.spaces if edge is not None and n == outcome.makes else ()
                start = Start(Edge(n, spaces), end.color, end.pending, end.budget)
                result = judge(program, start, setting, following.stated, self.edge_of)
                known[n] = None if result.first.trust else result.right
            return known[n]

        return accepts

    def _next(self, index: int) -> syntax.RoundLine | None:
        """The next line that works on what this one leaves."""
        for line in self.lines[index + 1 :]:
            if line.steps is None or line.not_written:
                return None
            if not self._is_counted(line):
                continue
            place = first_place(line.steps)
            if _joined_loops(line) is not None:
                return None
            if _only_makes_chains(line) or _starts_anew(line) or place is not None and place.kind == "loops":
                return None
            if self.shared.programs.of(line, self.piece, self.shared.size).trouble:
                return None
            return line
        return None

    def _name_before(self) -> str:
        for done in reversed(self.worked):
            if done.status is Status.CHECKED or done.kind == "foundation":
                return messages.name_of(done.line) if done.line.label is not None else "the chain"
            return ""
        return ""

    def _name_after(self, index: int) -> str:
        following = self._next(index)
        return messages.name_of(following) if following is not None else ""

    # --- open questions ----------------------------------------------------------------------------------------------

    def _ask(self, done: Worked, program: Program, setting: Setting) -> None:
        """Notes which questions the line puts, and what it answers in its own words."""
        outcome = done.outcome
        if outcome is None:
            return
        shared = self.shared
        if outcome.first.own:
            name = messages.name_of(done.line)
            shared.words.extend(Words(question, answer, name, through) for question, answer, through in outcome.first.own)
        asked = outcome.first.asked
        if not asked:
            return
        shared.asked.update(asked)
        if not outcome.right:
            shared.all_pass = False
        if not _states(done.line) or done.before.edge is None or done.trust:
            return
        previous = self.worked[-1] if self.worked else None

        def passes(answers: dict[str, bool]) -> bool:
            start = _spoken_start(done, previous)
            given = replace(setting, answers=Answers(answers), asking=False)
            return judge(program, start, given, done.line.stated, self.edge_of).right

        shared.speakers.append(Speaker(done.line, tuple(sorted(asked)), passes))


def _spoken_start(done: Worked, previous: Worked | None) -> Start:
    """A round speaks on the stated count of the round before."""
    edge = done.before.edge
    if edge is None or edge.kind != "stitches" or previous is None or previous.stated is None:
        return done.before
    if previous.after.edge != edge:
        return done.before
    return replace(done.before, edge=replace(edge, stitches=previous.stated))


def _kind(line: syntax.RoundLine) -> str:
    if line.label is not None:
        return line.label.kind
    return line.kind if line.kind in ("foundation", "step") else "round"


def _states(line: syntax.RoundLine) -> bool:
    stated = line.stated
    return bool(stated) and (stated[0].form != "unknown" or len(stated) > 1)


def _highest(line: syntax.RoundLine) -> int:
    label = line.label
    return max((max(stretch) for stretch in label.numbers), default=0) if label is not None else 0


def _stated_total(line: syntax.RoundLine, size: int) -> int | None:
    """The stated count of stitches as written, without looking at the instruction."""
    if not line.stated:
        return None
    stated = line.stated[-1]
    numbers = [stated.number] if stated.number is not None else []
    if not numbers and stated.form in ("kinds", "sum"):
        numbers = [part.number for part in stated.parts if not (part.kind in ("chain", "group") or part.kind.startswith("space"))]
    if not numbers or stated.form in ("about", "unknown", "change"):
        return None
    total = 0
    for number in numbers:
        value = number.values[size if size < len(number.values) else 0]
        if value is None:
            return None
        total += value
    return total


def _not_in_this_size(line: syntax.RoundLine, size: int) -> bool:
    """A dash for the count: the round is not worked in this size."""
    return any(
        stated.number is not None and len(stated.number.values) > size and stated.number.values[size] is None
        for stated in line.stated
    )


def _only_makes_chains(line: syntax.RoundLine) -> bool:
    """Chains or a ring, and nothing worked into them."""
    steps = line.steps or ()
    if not any(type(step) in (syntax.Chain, syntax.Ring) for step in steps):
        return False
    return not any(
        consumes(step) and not (isinstance(step, syntax.Work) and step.stitch.kind == "slip") for step in steps
    ) and (line.kind == "foundation" or any(isinstance(step, syntax.Ring) for step in steps) or line.label is not None)


def _starts_anew(line: syntax.RoundLine) -> bool:
    """A line with a ring, a chain or foundation stitches of its own."""
    for step in line.steps or ():
        if isinstance(step, syntax.Ring):
            return True
        if isinstance(step, syntax.Work):
            place = step.place
            return step.stitch.kind == "foundation" or place is not None and place.kind in ("ring", "piece")
        if isinstance(step, syntax.Chain) and line.kind == "foundation":
            return True
        if isinstance(step, (syntax.Group, syntax.Repeat)):
            return False
    return False


def _joined_loops(line: syntax.RoundLine) -> syntax.Place | None:
    """"Join yarn in the free front loops of Rnd 2": the stitches that follow go into those loops."""
    for step in line.steps or ():
        if type(step) is syntax.Work:
            return None
        if isinstance(step, syntax.Join) and step.reference is not None and step.reference.rounds:
            words = line.statement.text[step.start : step.end].lower()
            if "loop" not in words and "flo" not in words and "blo" not in words:
                return None
            reference = step.reference
            if not reference.side:
                reference.side = "front" if "front" in words else "back" if "back" in words else ""
            return syntax.Place(step.start, step.end, "loops", reference=reference)
        if consumes(step):
            return None
    return None


def _reported(reporter: Reporter, rule: str, line: syntax.RoundLine) -> bool:
    lines = {block.number for block in line.statement.lines}
    return any(item.rule == rule and item.span.line in lines for item in reporter.findings.items)

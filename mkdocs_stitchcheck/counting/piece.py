"""Walks one piece, line by line, in one size: edges handed on, slips reported once."""

from __future__ import annotations

from dataclasses import replace

from ..language import syntax
from ..results import Status
from . import messages
from .asking import ask
from .corners import report_odd_corner
from .doubt import after_unknown, nothing_there, on_trust, out_of_range, too_many_rounds, troubled
from .edge import NOTHING, Edge
from .edged import edged_piece, sides_of
from .edgings import OPEN_CORNERS, Sides
from .either import second_reading
from .facing import way_between
from .foundation import foundation
from .judge import Outcome, Start, judge
from .lines import (
    bridges,
    highest_number,
    is_counted,
    joined_loops,
    kind_of,
    not_in_this_size,
    only_makes_chains,
    starts_anew,
    stated_total,
    states_count,
)
from .loops import Base, base_of_loops
from .loose import needs_places
from .numbered import covered
from .numbering import rejoins
from .opening_edge import OPENING_WORDS, opening_edge
from .places import consumes, first_place
from .program import Program
from .records import Pass, Worked
from .report import label_span
from .slips import wrong
from .working import LARGEST_NUMBER, Setting, Steps


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
        self.loops: syntax.Place | None = None  # free loops in which the yarn was joined for the next round
        self.loops_line: syntax.RoundLine | None = None
        self.cause: syntax.RoundLine | None = None
        self.following: dict[int, list[str]] = {}
        self.asides: set[str] = set()
        self.edged: syntax.Piece | None = None  # the piece along whose edges this one begins
        self.settings = {
            in_rounds: Setting(shared.answers, shared.size, in_rounds, pieces=shared.edge_of, sides=self._sides) for in_rounds in (True, False)
        }

    # --- lines -----------------------------------------------------------------------------------------------------

    def run(self) -> None:
        """Walks all lines."""
        for index, line in enumerate(self.lines):
            if line.only is not None and self.shared.size not in line.only:
                self._passed_over(line)
            elif line.steps is None or line.not_written:
                self._unread(line)
            elif is_counted(line):
                self._counted(line, index)
            else:
                self._uncounted(line)
        self.shared.ends[id(self.piece)] = self.state.edge
        self.shared.sides[id(self.piece)] = self._own_sides()

    def _own_sides(self) -> Sides | None:
        return sides_of(self.worked, self.state.edge)

    def _sides(self) -> Sides | None:
        """The edges that an edging goes along: of this piece so far, else of the one it was begun on."""
        return self._own_sides() if any(done.worked and done.makes for done in self.worked) else self.shared.sides.get(id(self.edged))

    def _passed_over(self, line: syntax.RoundLine) -> None:
        """A line for other sizes."""
        if line.steps is None or line.not_written or is_counted(line):
            self.note(Worked(line, self.state, self.state, kind_of(line), Status.COUNTED, worked=0))

    def _uncounted(self, line: syntax.RoundLine) -> None:
        """A step without stitches: stuffing, fastening off, another colour, a chain to the other leg."""
        for step in line.steps or ():
            if isinstance(step, syntax.Aside):
                self.asides.add(step.kind)
                if step.kind == "fasten-off":
                    self.fastened = True
            elif isinstance(step, syntax.ColorChange):
                self.state = replace(self.state, color=step.color or step.name)
            elif isinstance(step, syntax.Chain) and not bridges(line):
                self.state = replace(self.state, pending=step)
            elif isinstance(step, syntax.Leave) and step.only is not None:
                self._divide(step.only)
            elif isinstance(step, syntax.Join):
                self.fastened = False
                self.loops = joined_loops(line)
                self.loops_line = line
        if bridges(line) and self.state.edge is not None:
            chains = sum(min(step.number.value, LARGEST_NUMBER) for step in line.steps or () if isinstance(step, syntax.Chain))
            stitched = any(isinstance(step, syntax.Join) and step.stitch is not None for step in line.steps or ())
            self.state = replace(self.state, edge=replace(self.state.edge, trailing=chains, joined=int(stitched)))
        if self.fastened and rejoins(line) and not any(
            isinstance(step, syntax.Aside) and step.kind == "fasten-off" for step in line.steps or ()
        ):
            self.fastened = False

    def _divide(self, only: syntax.Number) -> None:
        """"Divide for armholes: work on these 20 sts only": the others wait."""
        edge = self.state.edge
        values = only.values
        number = values[self.shared.size if self.shared.size < len(values) else 0] or 0
        if edge is not None and edge.kind == "stitches" and 0 < number < edge.stitches:
            others = edge.stitches - number
            self.state = replace(self.state, edge=replace(edge, stitches=number, waiting=edge.waiting + others, marks=()))

    def _unread(self, line: syntax.RoundLine) -> None:
        """A line that could not be read: its stated count is taken, else the edge is unknown."""
        stated = stated_total(line, self.shared.size)
        before = self.state
        edge = Edge(stated, loose=True) if stated is not None else None
        after = Start(edge, before.color, None, before.budget)
        done = Worked(line, before, after, kind_of(line), Status.UNREAD, stated=stated, makes=stated)
        done.worked = covered(line, self.shared.size)
        if edge is None:
            self.cause = line
        self.note(done)

    def note(self, done: Worked) -> None:
        self.worked.append(done)
        self.shared.lines[id(done.line)] = done
        self.state = done.after

    # --- rounds ----------------------------------------------------------------------------------------------------

    def _counted(self, line: syntax.RoundLine, index: int) -> None:
        program = self.shared.programs.of(line, self.piece, self.shared.size)
        start = self._start(line)
        done = Worked(line, start, start, kind_of(line), worked=program.rounds)
        if not_in_this_size(line, self.shared.size):
            done.status, done.worked = Status.COUNTED, 0
            self.note(done)
            return
        if program.trouble:
            troubled(self, done, program)
            return
        if program.rounds > LARGEST_NUMBER or highest_number(line) > LARGEST_NUMBER:
            too_many_rounds(self, done)
            return
        if program.refers:
            self._check_length(line, program)
        if 1 != len(line.stated) != program.rounds > 1 and line.stated:
            self._check_counts(line, program)
        if only_makes_chains(line):
            foundation(self, done)
            return
        setting = self.setting_of(line) if program.refers else self.settings[line.label is None or line.label.kind == "round"]
        if line.kind == "step" and not self.piece.making_up:
            setting = replace(setting, partial=True)
        outcome = judge(program, start, setting, line.stated, self.edge_of)
        if line.otherwise is not None and not outcome.right:
            other = second_reading(self.shared.programs, line, self.piece, start, setting, self.edge_of)
            program, outcome = other or (program, outcome)
        done.outcome = outcome
        self._describe(done, outcome)
        if outcome.too_many or outcome.first.too_big is not None:
            out_of_range(self, done, outcome)
        elif nothing_there(self, done, start, outcome):
            pass
        elif outcome.first.trust or outcome.last.trust:
            on_trust(self, done, outcome.first.trust or outcome.last.trust, True)
        elif start.edge is None and not outcome.first.in_ring:
            after_unknown(self, done, outcome, index)
        elif outcome.right and outcome.last.told and outcome.last.options > 1 and not line.stated:
            on_trust(self, done, OPEN_CORNERS, True)
        elif outcome.right:
            done.status = Status.CHECKED if states_count(line) else Status.COUNTED
            report_odd_corner(outcome.last, line, self.piece, messages.name_of(line), self.shared.reporter)
            done.after = outcome.end
            if outcome.first.seamed and setting.partial:
                done.after = start
                self.shared.sew(outcome.first.seamed)
        else:
            wrong(self, done, index, outcome, setting, program)
        ask(self, done, program, setting)
        self.note(done)

    def _start(self, line: syntax.RoundLine) -> Start:
        """Where the line begins: the last edge, the loops or the foundation it names, and the colour at its head."""
        start = self.state
        place = first_place(line.steps or ())
        if place is None or place.kind != "loops":
            place = joined_loops(line) or place
        said = line
        if self.loops is not None and (place is None or place.kind != "loops") and not starts_anew(line):
            place, said = self.loops, self.loops_line or line
        self.loops = None
        if start.edge is not None and (start.edge.marks or start.edge.clumps):
            way = way_between(self.worked[-1].line if self.worked else None, line, self.fastened)
            start = start if way is None else replace(start, edge=replace(start.edge, way=way))
        if place is not None and place.kind == "loops":
            base = base_of_loops(place, line, self.piece, self.shared.programs, self.shared.lines)
            self._report_loops(base, place, said)
            start = replace(start, edge=base.edge, pending=None)
            self.fastened = False
        elif self.fastened and any(consumes(step) for step in line.steps or ()):
            if not (rejoins(line) or starts_anew(line)):
                self.shared.reporter.add(
                    "after-fasten-off", label_span(line),
                    f"{messages.name_of(line)} works on after {self.piece.name} was fastened off.", self.piece, line,
                    suggestion="Say that the yarn is joined again, or move the fastening off to the end.",
                )  # fmt: skip
            self.fastened = False
        if start.edge is not None and start.edge.kind == "nothing":
            start = self._copied_start(line, start)
        if start.edge is not None and start.edge.loose and needs_places(line.steps or ()):
            self.cause = self.cause or (self.worked[-1].line if self.worked else None)
            start = replace(start, edge=None)
        if line.kind == "foundation" and starts_anew(line):
            start = replace(start, edge=NOTHING, pending=None)
        if start.edge == NOTHING and (edged := edged_piece(line, self.piece, self.shared.pattern)) is not None:
            self.edged = edged
            start = replace(start, edge=self.shared.ends.get(id(edged)), pending=None)
        if start.edge == NOTHING and OPENING_WORDS.search(line.statement.words):
            opening = opening_edge(line, self.shared.pattern, self.shared.size, self.shared.openings)
            start = replace(start, edge=opening or start.edge)
        return start

    def _copied_start(self, line: syntax.RoundLine, start: Start) -> Start:
        """"Work as for Back to **": it begins with the chain or ring with which the other piece began."""
        again = next(iter(line.steps or ()), None)
        if not isinstance(again, syntax.Again) or not again.reference.piece or not again.reference.rounds:
            return start
        target = self.shared.programs.piece_of(again.reference, self.piece)
        found = self.shared.programs.rounds[id(target)].find(again.reference.rounds[0][0]) if target is not None else None
        first = self.shared.lines.get(id(found[0])) if found is not None and found[1] == 0 else None
        return replace(start, edge=first.before.edge, pending=first.before.pending) if first is not None else start

    def _report_loops(self, base: Base, place: syntax.Place, line: syntax.RoundLine) -> None:
        if base.rule:
            node = place.reference or place
            span = line.statement.span(node.start, node.end)
            self.shared.reporter.add(base.rule, span, base.message, self.piece, line)

    def setting_of(self, line: syntax.RoundLine) -> Setting:
        shared = self.settings[line.label is None or line.label.kind == "round"]
        if syntax.Again not in map(type, line.steps or ()):
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
        done.stated = outcome.verdict.total if states_count(done.line) else None
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

    def _check_counts(self, line: syntax.RoundLine, program: Program) -> None:
        """Several counts behind a range are one for each round."""
        first, last = line.stated[0], line.stated[-1]
        noun = messages.round_noun(line, 2)
        self.shared.reporter.add(
            "range-length", line.statement.span(first.start, last.end),
            f"{messages.name_of(line)} are {program.rounds} {noun}, but {len(line.stated)} counts are written.",
            self.piece, line, suggestion="Write one count for each, or the last one only.",
        )  # fmt: skip

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

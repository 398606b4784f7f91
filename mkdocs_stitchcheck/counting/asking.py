"""Open questions that a round puts, and what it answers in its own words."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from . import messages
from .judge import Start, judge
from .lines import states_count
from .program import Program
from .questions import Answers
from .readings import Speaker, Words
from .records import Worked
from .working import Setting

if TYPE_CHECKING:
    from .piece import PieceWalk


def ask(walk: PieceWalk, done: Worked, program: Program, setting: Setting) -> None:
    """Notes which questions the line puts, and what it answers in its own words."""
    outcome = done.outcome
    if outcome is None:
        return
    shared = walk.shared
    if outcome.first.own:
        name = messages.name_of(done.line)
        shared.words.extend(Words(question, answer, name, through) for question, answer, through in outcome.first.own)
    asked = outcome.first.asked
    if not asked:
        return
    shared.asked.update(asked)
    if not outcome.right:
        shared.all_pass = False
    if not states_count(done.line) or done.before.edge is None or done.trust:
        return
    previous = walk.worked[-1] if walk.worked else None

    def passes(answers: dict[str, bool]) -> bool:
        start = _spoken_start(done, previous)
        given = replace(setting, answers=Answers(answers), asking=False)
        return judge(program, start, given, done.line.stated, walk.edge_of).right

    shared.speakers.append(Speaker(done.line, tuple(sorted(asked)), passes))


def _spoken_start(done: Worked, previous: Worked | None) -> Start:
    """A round speaks on the stated count of the round before."""
    edge = done.before.edge
    if edge is None or edge.kind != "stitches" or previous is None or previous.stated is None:
        return done.before
    if previous.after.edge != edge:
        return done.before
    return replace(done.before, edge=replace(edge, stitches=previous.stated))

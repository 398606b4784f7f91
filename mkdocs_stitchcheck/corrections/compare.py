"""What two states of a pattern make otherwise: rounds, counts, steps, pieces, yarn, sizes. Mere words are only counted."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from typing import TypeVar

from ..results import FileResult, PatternResult, PieceResult
from .header import header_changes
from .lines import Round, Step, rounds_of, steps_of

_T = TypeVar("_T")
_MOST_ALIGNED = 3_000  # lines of a piece beyond which they are compared number by number


@dataclass(frozen=True, slots=True)
class Change:
    """One change of the making. ``kind``:

    ``round`` worked otherwise, ``count`` another stated count, ``new`` and ``gone`` rounds, steps or pieces, ``step``,
    ``numbers`` the same rounds under other numbers, ``make`` how many of a piece, ``header`` yarn, hook, sizes and the
    like, ``unsure`` written otherwise with the same counts, where the order of stitches can't be told from the words.
    ``label`` is the round's or header's; ``before`` and ``after`` are the writer's words or numbers.
    """

    kind: str
    piece: str = ""
    label: str = ""
    before: str = ""
    after: str = ""


@dataclass(slots=True)
class Compared:
    """Two states of one pattern. ``words`` counts lines that only say the same in other words.

    ``other_terms`` where the two are in different terms or languages. None stands for a pattern that is not there.
    """

    old: PatternResult | None
    new: PatternResult | None
    changes: list[Change] = field(default_factory=list)
    words: int = 0
    other_terms: bool = False

    @property
    def same_making(self) -> bool:
        """Whether the two make the same thing."""
        return not self.changes and self.old is not None and self.new is not None


def compare(old: FileResult, new: FileResult) -> list[Compared]:
    """The patterns of two states of a file, by title, else by order."""
    found = []
    for before, after in _pairs(old.patterns, new.patterns, [p.title for p in old.patterns], [p.title for p in new.patterns]):
        compared = Compared(before, after)
        if before is not None and after is not None:
            _compare(before, after, compared)
        found.append(compared)
    return found


def _compare(old: PatternResult, new: PatternResult, into: Compared) -> None:
    terms = [pattern.syntax.header.terms or pattern.syntax.system for pattern in (old, new)]
    into.other_terms = terms[0] != terms[1]
    for label, before, after, matters in header_changes(old.syntax.header, new.syntax.header, into.other_terms):
        if matters:
            into.changes.append(Change("header", "", label, before, after))
        else:
            into.words += 1
    names = [[piece.name for piece in pattern.pieces] for pattern in (old, new)]
    for was, now in _pairs(old.pieces, new.pieces, *names):
        if was is None or now is None:
            piece = was or now
            assert piece is not None
            into.changes.append(Change("gone" if now is None else "new", piece.name))
        else:
            _compare_pieces(was, now, into)


def _pairs(
    old: Sequence[_T], new: Sequence[_T], old_names: Sequence[str], new_names: Sequence[str]
) -> Iterator[tuple[_T | None, _T | None]]:
    """What belongs together: by name, the rest by order where as many are left; else alone."""
    at = {name.casefold(): index for index, name in reversed(list(enumerate(new_names)))}
    partner = {}
    for index, name in enumerate(old_names):
        found = at.pop(name.casefold(), None)
        if found is not None:
            partner[index] = found
    rest_old = [index for index in range(len(old)) if index not in partner]
    rest_new = [index for index in range(len(new)) if index not in partner.values()]
    if len(rest_old) == len(rest_new):
        partner |= dict(zip(rest_old, rest_new, strict=True))
    for index, one in enumerate(old):
        yield one, new[partner[index]] if index in partner else None
    yield from ((None, new[index]) for index in rest_new if index not in partner.values())


def _compare_pieces(old: PieceResult, new: PieceResult, into: Compared) -> None:
    name = new.name
    if old.make != new.make:
        into.changes.append(Change("make", name, "", str(old.make), str(new.make)))
    if (old.syntax.color or "") != (new.syntax.color or ""):
        into.changes.append(Change("header", name, "Colour", old.syntax.color or "none", new.syntax.color or "none"))
    if old.name.casefold() != name.casefold():
        into.words += 1
    _compare_rounds(rounds_of(old), rounds_of(new), name, into)
    _compare_steps(steps_of(old, into.other_terms), steps_of(new, into.other_terms), name, into)


def _aligned(old: Sequence[Hashable], new: Sequence[Hashable]) -> Sequence[tuple[str, int, int, int, int]]:
    if len(old) == len(new) or max(len(old), len(new)) > _MOST_ALIGNED:
        least = min(len(old), len(new))
        parts = [("replace", i, i + 1, i, i + 1) for i in range(least)]
        return parts + [("replace", least, len(old), least, len(new))]
    return list(SequenceMatcher(None, old, new, False).get_opcodes())


def _compare_rounds(old: list[Round], new: list[Round], piece: str, into: Compared) -> None:
    told: set[tuple[int, int]] = set()
    moved: list[tuple[Round, Round]] = []
    for _kind, first, last, new_first, new_last in _aligned([one.making for one in old], [one.making for one in new]):
        both = min(last - first, new_last - new_first)
        for was, now in zip(old[first : first + both], new[new_first : new_first + both], strict=True):
            pair = was.line.line, now.line.line
            if was.number != now.number:
                moved.append((was, now))
            if pair in told:
                continue
            change = _changed_round(was, now, piece, into)
            if change is not None:
                told.add(pair)
                into.changes.append(change)
        into.changes += _alone("gone", old[first + both : last], piece)
        into.changes += _alone("new", new[new_first + both : new_last], piece)
    if moved:
        before, after = _stretch([was for was, _ in moved]), _stretch([now for _, now in moved])
        into.changes.append(Change("numbers", piece, "", before, after))
    into.words += _other_words(old, new) if not moved and len(old) == len(new) else 0


def _other_words(old: list[Round], new: list[Round]) -> int:
    """How many written lines make the same and are written otherwise."""
    lines = {
        now.line.line for was, now in zip(old, new, strict=True)
        if was.making == now.making and was.stated in (now.stated, None) and was.text != now.text
    }  # fmt: skip
    return len(lines)


def _changed_round(was: Round, now: Round, piece: str, into: Compared) -> Change | None:
    if was.making != now.making:
        return Change("round", piece, now.label, was.words, now.words)
    if was.stated is not None and now.stated is not None and was.stated != now.stated:
        return Change("count", piece, now.label, was.count, now.count)
    if not was.sure and not into.other_terms and was.tree != now.tree:
        return Change("unsure", piece, now.label, was.words, now.words)
    return None


def _alone(kind: str, rounds: list[Round], piece: str) -> Iterator[Change]:
    lines: set[int] = set()
    for one in rounds:
        if one.line.line not in lines:
            lines.add(one.line.line)
            here = [other for other in rounds if other.line is one.line]
            label = _stretch(here) if one.number is not None else ""
            yield Change(kind, piece, label, one.words if kind == "gone" else "", one.words if kind == "new" else "")


def _stretch(rounds: list[Round]) -> str:
    """"Rnd 9", "Rnds 9-12"."""
    numbers = [one.number for one in rounds if one.number is not None]
    if not numbers:
        return ""
    word = "Row" if rounds[0].line.kind == "row" else "Rnd"
    low, high = min(numbers), max(numbers)
    return f"{word} {low}" if low == high else f"{word}s {low}-{high}"


def _compare_steps(old: list[Step], new: list[Step], piece: str, into: Compared) -> None:
    matcher = SequenceMatcher(None, [step.making for step in old][:_MOST_ALIGNED], [step.making for step in new][:_MOST_ALIGNED], False)
    for kind, first, last, new_first, new_last in matcher.get_opcodes():
        pairs = list(zip(old[first:last], new[new_first:new_last], strict=False))
        if kind == "equal":
            into.words += sum(was.text != now.text for was, now in pairs)
            continue
        into.changes += [Change("step", piece, "", was.text, now.text) for was, now in pairs]
        into.changes += [Change("gone", piece, "", before=step.text) for step in old[first + len(pairs) : last]]
        into.changes += [Change("new", piece, "", after=step.text) for step in new[new_first + len(pairs) : new_last]]

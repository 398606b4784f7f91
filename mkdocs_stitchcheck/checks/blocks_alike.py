"""Blocks of a piece worked from corner to corner that are not all alike: block-differs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..findings import Findings
from ..language import syntax
from ..language.in_blocks import is_slip, stretches, works_in_blocks
from ..results import PatternResult
from ..source import Statement

_LEAST = 3  # blocks with which one is compared


@dataclass(frozen=True, slots=True)
class _Block:
    """A block as written: its stitches, and its chains where it stands beside others (None at the start of a row)."""

    statement: Statement
    place: tuple[int, int]
    stitches: int
    chains: int | None


def check_blocks(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """block-differs: a block has more or fewer stitches, or chains, than most blocks of its piece."""
    for piece in pattern.pieces:
        if not works_in_blocks(piece):
            continue
        blocks = list(_blocks(piece))
        for noun, sizes in (("stitches", [b.stitches for b in blocks]), ("chains", [b.chains for b in blocks])):
            known = Counter(size for size in sizes if size is not None)
            if sum(known.values()) < _LEAST:
                continue
            usual, number = known.most_common(1)[0]
            if number <= sum(known.values()) / 2:
                continue
            for block, size in zip(blocks, sizes, strict=True):
                if size is not None and size != usual:
                    findings.add(
                        "block-differs", block.statement.span(*block.place),
                        f"This block has {size} {noun if size != 1 else noun.removesuffix('es').removesuffix('s')}; most blocks of {piece.name} have {usual}.",
                        suggestion="Make all blocks alike, or say in a note why this one differs.", piece=piece.name,
                    )  # fmt: skip


def _blocks(piece: syntax.Piece) -> Iterator[_Block]:
    for line in piece.lines:
        if isinstance(line, syntax.RoundLine):
            for steps in stretches(line.steps or ()):
                yield from _in_stretch(line.statement, steps)


def _in_stretch(statement: Statement, steps: Sequence[syntax.Step]) -> Iterator[_Block]:
    for index, step in enumerate(steps):
        if isinstance(step, syntax.Work) and step.place is not None and step.place.kind == "chain" and step.place.within:
            along = [step]
            for later in steps[index + 1 :]:
                if not isinstance(later, syntax.Work) or later.place is None or later.place.noun != "chain":
                    break
                along.append(later)
            yield _Block(statement, (step.start, along[-1].end), sum(map(_number, along)), None)
        before = steps[index - 1] if index else None
        in_place = isinstance(step, (syntax.Work, syntax.Group)) and (step.place is None or step.place.kind == "same")
        if in_place and isinstance(before, syntax.Chain) and index > 1 and is_slip(steps[index - 2]):
            made = sum(_number(s) for s in (step.body if isinstance(step, syntax.Group) else (step,)) if isinstance(s, syntax.Work))
            yield _Block(statement, (before.start, step.end), made, before.number.value)


def _number(work: syntax.Work) -> int:
    count = work.count.value if work.count is not None else 1
    places = work.place.number if work.place is not None and work.place.kind == "next" else None
    return count * (places.value if places is not None else 1) * work.stitch.makes

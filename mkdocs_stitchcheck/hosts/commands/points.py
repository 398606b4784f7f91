"""``stitchcheck points``: the technical editor's hundred points, and what becomes of each."""

from __future__ import annotations

import argparse
import sys
import textwrap
from collections import Counter
from collections.abc import Iterator

from ...rules.points import CHECKED, HELPED, TOPICS, YOURS, Point, points

_WIDTH = 88


def command(arguments: argparse.Namespace) -> int:
    """Print the table, or the points of one kind."""
    shown = [point for point in points() if arguments.kind in (None, point.kind)]
    lines = list(_markdown(shown) if arguments.markdown else _text(shown))
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    return 0


def _text(shown: list[Point]) -> Iterator[str]:
    for topic, title in TOPICS.items():
        own = [point for point in shown if point.topic == topic]
        if own:
            yield title
        for point in own:
            head = f"  {point.number:>3}  {point.kind:<8} "
            yield from textwrap.wrap(_said(point), _WIDTH, initial_indent=head, subsequent_indent=" " * len(head),
                                     break_on_hyphens=False)
    yield ""
    yield summed_up()


def _markdown(shown: list[Point]) -> Iterator[str]:
    yield "| | point | | rules |"
    yield "|---:|---|---|---|"
    for point in shown:
        yield f"| {point.number} | {point.says} | {point.kind} | {' '.join(f'`{rule}`' for rule in point.rules)} |"


def _said(point: Point) -> str:
    return f"{point.says} [{', '.join(point.rules)}]" if point.rules else point.says


def summed_up() -> str:
    """How many points are checked, helped and left to the writer."""
    kinds = Counter(point.kind for point in points())
    return f"{kinds[CHECKED]} are checked, {kinds[HELPED]} helped with, {kinds[YOURS]} are yours."

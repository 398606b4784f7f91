"""``stitchcheck corrections``: what changed in the making between two states of a pattern, as a paragraph for the post."""

from __future__ import annotations

import argparse
import sys

from ...checker import check_written
from ...corrections import compare, paragraph
from ...report.display import one_line, visible
from ...results import FileResult, Status
from ..checking import Configuration
from ..revisions import read_state


def command(arguments: argparse.Namespace) -> int:
    """Print the paragraph; 2 where a state can't be read, else 0."""
    configuration = Configuration(arguments.config_file)
    states: list[FileResult] = []
    for name in (arguments.old, arguments.new):
        try:
            path, written = read_state(name)
        except OSError as error:
            print(f"stitchcheck: {one_line(name)} can't be read: {error.strerror or error}.", file=sys.stderr)
            return 2
        states.append(check_written(written, path, configuration.of(path)))
    compared = compare(*states)
    if not compared:
        print("No pattern there.")
    for index, one in enumerate(compared):
        pattern = one.new or one.old
        assert pattern is not None
        if len(compared) > 1:
            print(("\n" if index else "") + one_line(pattern.title or "Pattern") + "\n")
        print(visible(paragraph(one)))
    for name, state in zip((arguments.old, arguments.new), states, strict=True):
        _say_doubtful(name, state)
    return 0


def _say_doubtful(name: str, state: FileResult) -> None:
    """Where rounds are wrong or not read, what is said of them is less sure."""
    bad = [
        line for pattern in state.patterns for line in pattern.rounds
        if line.status in (Status.UNREAD, Status.MISMATCH)
    ]  # fmt: skip
    if bad:
        what = "1 line is wrong or could not be read" if len(bad) == 1 else f"{len(bad)} lines are wrong or could not be read"
        print(f"stitchcheck: in {one_line(name)} {what}; `stitchcheck check` says why.", file=sys.stderr)

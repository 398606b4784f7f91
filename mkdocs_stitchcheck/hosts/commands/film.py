"""``stitchcheck film``: what belongs under the film of a pattern, and the shots that are noted in it."""

from __future__ import annotations

import argparse
import sys

from ...film import chapter_warnings, shots, under_the_film
from ...report.display import one_line, visible
from ...results import FileResult, PatternResult
from ..checking import run, say_unreadable
from ..site_address import address_of


def command(arguments: argparse.Namespace) -> int:
    """Print the text or the shots; 2 where a file can't be read, else 0."""
    outcome = run(arguments.paths, config_file=arguments.config_file, quietly=True)
    patterns = [(result, pattern) for result in outcome.results for pattern in result.patterns]
    for index, (result, pattern) in enumerate(patterns):
        if index:
            print()
        if arguments.shots:
            _show_shots(result, pattern, len(patterns) > 1)
        else:
            _show_text(result, pattern, arguments.address)
    if not patterns and not outcome.unreadable:
        print("No pattern there.")
    say_unreadable(outcome.unreadable)
    return outcome.exit_code if outcome.unreadable else 0


def _show_text(result: FileResult, pattern: PatternResult, address: str) -> None:
    address = address or address_of(result.path)
    print("\n".join(visible(line) for line in under_the_film(pattern, address).split("\n")))
    path = one_line(result.path)
    if not address:
        print(f"stitchcheck: {path}: where the post is published is not known; say it with --address.", file=sys.stderr)
    if pattern.draft:
        print(f"stitchcheck: {path}: this pattern is a draft; its counts may change.", file=sys.stderr)
    if result.fails():
        print(f"stitchcheck: {path}: something in it is wrong; `stitchcheck check` says what.", file=sys.stderr)
    for line, sentence in chapter_warnings(pattern):
        print(f"stitchcheck: {path}:{line}: {visible(sentence)}", file=sys.stderr)


def _show_shots(result: FileResult, pattern: PatternResult, several: bool) -> None:
    found = shots(pattern)
    if several:
        print(one_line(pattern.title or result.path))
    for shot in found:
        where = f"{shot.piece}, after {shot.after}" if shot.after else shot.piece
        print(visible(f"[ ] {where}: {shot.words}"))
    if not found:
        print("No photograph is noted; write `>> Photograph: what it shows` below a round.")

"""``stitchcheck check``: read pages and patterns, and say what is wrong."""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass

from ...files import write_whole
from ...report import FORMATS, Options, report
from ...report.display import wants_color
from ..checking import ROUNDS, STDIN, SUMS, Run, run, say_unreadable


@dataclass(frozen=True, slots=True)
class Output:
    """A report to make: its format, and the file it goes to ("" for standard output)."""

    kind: str
    file: str = ""


def outputs(formats: list[str], output: str | None) -> list[Output]:
    """The reports that were asked for; raises ValueError with a plain sentence for a request that can't be met."""
    asked = []
    for entry in formats or ["text"]:
        kind, _, file = entry.partition("=")
        if kind not in FORMATS:
            from ...settings import near

            raise ValueError(f"There is no format {kind!r}{near(kind, FORMATS)}")
        asked.append(Output(kind, file))
    if output is not None:
        unplaced = [entry for entry in asked if not entry.file]
        if len(unplaced) != 1:
            raise ValueError("--output takes one report; give the others a file of their own: --format sarif=FILE.")
        asked = [entry if entry.file else Output(entry.kind, output) for entry in asked]
    files = [entry.file for entry in asked]
    twice = next((file for file in files if files.count(file) > 1), None)
    if twice is not None:
        raise ValueError(f"Two reports can't both go to {twice or 'the screen'}; give one a file: --format sarif=FILE.")
    return asked


def command(arguments: argparse.Namespace) -> int:
    """Check, report, and give the exit code."""
    try:
        asked = outputs(arguments.format, arguments.output)
        if arguments.watch and STDIN in arguments.paths:
            raise ValueError("--watch needs files: what comes in by the pipe can't change.")
        if arguments.jobs < 0:
            raise ValueError("--jobs takes 1 or more, or 0 for one a core.")
    except ValueError as error:
        print(f"stitchcheck: {error}", file=sys.stderr)
        return 2
    if arguments.watch:
        from ..watching import watch

        return watch(arguments.paths, lambda: _once(arguments, asked))
    return _once(arguments, asked)


def _once(arguments: argparse.Namespace, asked: list[Output]) -> int:
    outcome = run(
        arguments.paths,
        strict=arguments.strict,
        config_file=arguments.config_file,
        stdin_name=arguments.stdin_name,
        quietly=arguments.quiet,
        jobs=arguments.jobs,
        keep=ROUNDS if arguments.totals or any(entry.kind == "json" for entry in asked) else SUMS,
    )
    unwritten = [entry for entry in asked if not _write(entry, outcome, arguments)]
    say_unreadable(outcome.unreadable)
    return 2 if unwritten else outcome.exit_code


def _room() -> int:
    import shutil

    return max(40, shutil.get_terminal_size((110, 24)).columns - 10)


def _write(entry: Output, outcome: Run, arguments: argparse.Namespace) -> bool:
    on_screen = not entry.file
    options = Options(
        strict=outcome.strict,
        quiet=arguments.quiet,
        totals=arguments.totals,
        color=wants_color(sys.stdout, arguments.color) if on_screen else arguments.color == "always",
        width=_room() if on_screen and sys.stdout.isatty() else 100,
    )
    text = report(entry.kind, outcome.results, options)
    if on_screen:
        sys.stdout.write(text)
        sys.stdout.flush()
        return True
    try:
        write_whole(entry.file, text.encode("utf-8", "backslashreplace"))
    except OSError as error:
        print(f"stitchcheck: {entry.file} can't be written: {error.strerror or error}.", file=sys.stderr)
        return False
    return True

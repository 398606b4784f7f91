"""``stitchcheck proofread``: the report that an editor would send, by topic."""

from __future__ import annotations

import argparse
import sys

from ...files import write_whole
from ...proofreading import letters
from ...report.proofread import as_markdown, as_text
from ..checking import run, say_unreadable


def command(arguments: argparse.Namespace) -> int:
    """Write the letters; the exit code is that of a check."""
    outcome = run(arguments.paths, config_file=arguments.config_file)
    found = [letter for result in outcome.results for letter in letters(result)]
    if arguments.format == "html":
        from ...render.proofread import proofread_page

        text = proofread_page(found)
    elif not found and outcome.results:
        text = "No crochet pattern found.\n"
    else:
        text = as_markdown(found) if arguments.format == "markdown" else as_text(found)
    written = _write(text, arguments.output)
    say_unreadable(outcome.unreadable)
    return outcome.exit_code if written else 2


def _write(text: str, file_name: str | None) -> bool:
    if file_name is None:
        sys.stdout.write(text)
        return True
    try:
        write_whole(file_name, text.encode("utf-8", "backslashreplace"))
    except OSError as error:
        print(f"stitchcheck: {file_name} can't be written: {error.strerror or error}.", file=sys.stderr)
        return False
    return True

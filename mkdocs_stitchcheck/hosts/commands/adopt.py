"""``stitchcheck adopt``: old posts with their rounds in pattern blocks, as a diff, and into the files if asked."""

from __future__ import annotations

import argparse
import sys

from ...adopting import adopt
from ...checker import check_written
from ...files import PLAIN, Written
from ...report.display import Paint, one_line, wants_color
from ...results import FileResult
from ..checking import Configuration, say_unreadable
from ..saving import each_file, save, show

_AFTERWARDS = "in blocks"


def command(arguments: argparse.Namespace) -> int:
    """Show or save the pages; 2 where a file could not be read or written, else 0."""
    paint = Paint(wants_color(sys.stdout, arguments.color))
    configuration = Configuration(arguments.config_file)
    pages = 0

    def work(path: str, written: Written) -> None:
        nonlocal pages
        pages += not path.lower().endswith(PLAIN) and _one(path, written, configuration, arguments.save, paint)

    failures = each_file(arguments.paths, work)
    if not pages and not failures:
        print("No rounds stand outside pattern blocks.")
    say_unreadable(failures)
    return 2 if failures else 0


def _one(path: str, written: Written, configuration: Configuration, saving: bool, paint: Paint) -> bool:
    def check(text: str) -> FileResult:
        return check_written(Written(text), path, configuration.of(path))

    adopted = adopt(written.text, check)
    if not adopted.blocks:
        return False
    if saving:
        save(path, written, adopted.text, _AFTERWARDS, paint)
    else:
        show(path, written.text, adopted.text, "--save writes this", _AFTERWARDS, paint)
    blocks = f"{adopted.blocks} block{'' if adopted.blocks == 1 else 's'}"
    lines = f"{adopted.rounds} line{'' if adopted.rounds == 1 else 's'} of rounds"
    found = f"{adopted.errors} error{'' if adopted.errors == 1 else 's'}" if adopted.errors else "nothing wrong"
    print(f"{one_line(path)}: {blocks} with {lines}; stitchcheck check then finds {found} in it.")
    return True

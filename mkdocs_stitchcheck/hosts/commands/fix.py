"""``stitchcheck fix``: the suggested edits as a diff, and into the files if asked."""

from __future__ import annotations

import argparse
import sys

from ...checker import check_written
from ...files import Written
from ...mending import Mended, mend
from ...report.display import Paint, wants_color
from ...results import FileResult
from ...settings import Settings
from ..checking import Configuration, say_unreadable
from ..saving import each_file, save, show

_AFTERWARDS = "mended"


def command(arguments: argparse.Namespace) -> int:
    """Show or save the edits; 2 where a file could not be read or written, else 0."""
    paint = Paint(wants_color(sys.stdout, arguments.color))
    configuration = Configuration(arguments.config_file)
    changed = 0

    def work(path: str, written: Written) -> None:
        nonlocal changed
        changed += _one(path, written, configuration.of(path), arguments, paint)

    failures = each_file(arguments.paths, work)
    if not changed and not failures:
        print("Nothing to change.")
    say_unreadable(failures)
    return 2 if failures else 0


def _one(path: str, written: Written, settings: Settings, arguments: argparse.Namespace, paint: Paint) -> bool:
    def check(text: str) -> FileResult:
        return check_written(Written(text), path, settings)

    sure = mend(written.text, check)
    if arguments.save:
        chosen = mend(sure.text, check, True) if arguments.even_unsure else sure
        return save(path, written, chosen.text, _AFTERWARDS, paint)
    _show(path, written.text, sure, "sure: --save writes this", paint)
    likely = mend(sure.text, check, True)
    _show(path, sure.text, likely, "likely, for you to judge: --save --even-unsure writes this too", paint)
    return bool(sure.repairs or likely.repairs)


def _show(path: str, before: str, mended: Mended, what: str, paint: Paint) -> None:
    if mended.repairs:
        show(path, before, mended.text, what, _AFTERWARDS, paint)
        print()

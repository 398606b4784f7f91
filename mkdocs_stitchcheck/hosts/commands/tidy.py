"""``stitchcheck tidy``: the rounds of patterns in one house style as a diff, and into the files if asked."""

from __future__ import annotations

import argparse
import sys

from ...checker import check_written
from ...files import Written
from ...report.display import Paint, one_line, wants_color
from ...results import FileResult
from ...settings import Settings
from ...tidying import Tidied, tidy
from ..checking import Configuration, say_unreadable
from ..saving import each_file, save, show

_AFTERWARDS = "tidy"
_MANY = 12  # line numbers named in one sentence


def command(arguments: argparse.Namespace) -> int:
    """Show or save the rewriting; 2 where a file could not be read or written, else 0."""
    paint = Paint(wants_color(sys.stdout, arguments.color))
    configuration = Configuration(arguments.config_file)
    changed = 0

    def work(path: str, written: Written) -> None:
        nonlocal changed
        changed += _one(path, written, configuration.of(path), arguments.save, paint)

    failures = each_file(arguments.paths, work)
    if not changed and not failures:
        print("Nothing to change.")
    say_unreadable(failures)
    return 2 if failures else 0


def _one(path: str, written: Written, settings: Settings, saving: bool, paint: Paint) -> bool:
    def check(text: str) -> FileResult:
        return check_written(Written(text), path, settings)

    tidied = tidy(written.text, check, settings.house_style)
    if saving:
        save(path, written, tidied.text, _AFTERWARDS, paint)
    elif tidied.changed:
        show(path, written.text, tidied.text, "--save writes this", _AFTERWARDS, paint)
    said = said_of_the_rest(tidied)
    for sentence in said:
        print(f"{one_line(path)}: {sentence}")
    return bool(tidied.changed or said)


def said_of_the_rest(tidied: Tidied) -> list[str]:
    """What was left as it is, in plain sentences."""
    said = []
    if tidied.left:
        it = "it" if len(tidied.left) == 1 else "they"
        said.append(f"{_named(tidied.left)} as written: in the house style {it} would be read in another way.")
    if tidied.unread:
        it = "it" if len(tidied.unread) == 1 else "them"
        said.append(f"{_named(tidied.unread)} as written: I can't read all of {it}. stitchcheck check says why.")
    if tidied.other_terms:
        said.append(f"{_named(tidied.other_terms)} as written: only rounds in US or UK terms are rewritten.")
    return said


def _named(lines: tuple[int, ...]) -> str:
    """"Line 7 stays", "Lines 7, 9 and 12 stay"."""
    if len(lines) == 1:
        return f"Line {lines[0]} stays"
    if len(lines) > _MANY:
        return f"Lines {', '.join(map(str, lines[:_MANY]))} and {len(lines) - _MANY} more stay"
    return f"Lines {', '.join(map(str, lines[:-1]))} and {lines[-1]} stay"

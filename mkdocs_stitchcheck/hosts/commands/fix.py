"""``stitchcheck fix``: the suggested edits as a diff, and into the files if asked."""

from __future__ import annotations

import argparse
import contextlib
import os
import sys
import tempfile
from collections.abc import Iterator
from difflib import unified_diff

from ...checker import check_written
from ...files import PLAIN, Written, looks_like_pattern, pages, read_file
from ...mending import Mended, mend
from ...report.display import Paint, one_line, visible, wants_color
from ...results import FileResult
from ...settings import Settings
from ..checking import STDIN, Configuration, say_unreadable


def command(arguments: argparse.Namespace) -> int:
    """Show or save the edits; 2 where a file could not be read or written, else 0."""
    paint = Paint(wants_color(sys.stdout, arguments.color))
    configuration = Configuration(arguments.config_file)
    failures: list[str] = []
    changed = 0
    for page in pages(arguments.paths):
        try:
            if page.path == STDIN:
                raise OSError("give the name of a file")
            written = read_file(page.path)
            if written.damage is not None:
                raise OSError("it is not UTF-8 text")
            plain = page.path.lower().endswith(PLAIN)
            if not page.named and plain and not looks_like_pattern(written.text):
                continue
            changed += _one(page.path, written, configuration.of(page.path), arguments, paint)
        except OSError as error:
            failures.append(f"{page.path} was left as it is: {error.strerror or error}.")
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
        return _save(path, written, chosen.text, paint)
    _show(path, written.text, sure, "sure: --save writes this", paint)
    likely = mend(sure.text, check, True)
    _show(path, sure.text, likely, "likely, for you to judge: --save --even-unsure writes this too", paint)
    return bool(sure.repairs or likely.repairs)


def _show(path: str, before: str, mended: Mended, what: str, paint: Paint) -> None:
    if mended.repairs:
        print(paint("bold", f"{one_line(path)} ({what})"))
        for line in _diff(path, before, mended.text, paint):
            print(line)
        print()


def _save(path: str, written: Written, text: str, paint: Paint) -> bool:
    if text == written.text:
        return False
    replace_file(path, written.to_bytes(written.text), written.to_bytes(text))
    print(paint("bold", f"{one_line(path)} (saved)"))
    for line in _diff(path, written.text, text, paint):
        print(line)
    return True


def _diff(path: str, before: str, after: str, paint: Paint) -> Iterator[str]:
    colors = {"+": "added", "-": "removed", "@": "dim"}
    name = one_line(path.replace("\\", "/"))
    for line in unified_diff(_lines(before), _lines(after), name, name, "as it is", "mended", n=2, lineterm=""):
        yield paint(colors.get(line[:1], ""), visible(line)) if line[:1] in colors else visible(line)


def _lines(text: str) -> list[str]:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")


def replace_file(path: str, before: bytes, after: bytes) -> None:
    """Put *after* in the place of *before* in the file *path*, whole or not at all; raises OSError.

    A file that somebody changed meanwhile is left alone. A link stays a link, and the rights of the file are kept.
    """
    real = os.path.realpath(path)
    with open(real, "rb") as file:
        if file.read() != before:
            raise OSError("it changed while it was checked")
    handle, temporary = tempfile.mkstemp(dir=os.path.dirname(real), prefix=".stitchcheck-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(after)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, os.stat(real).st_mode & 0o7777)
        os.replace(temporary, real)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise

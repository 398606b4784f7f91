"""Files that a command rewrites: which they are, what would change, and the new bytes in place of the old."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from difflib import unified_diff

from ..files import PLAIN, Written, looks_like_pattern, pages, read_file, write_whole
from ..report.display import Paint, one_line, visible
from .checking import STDIN
from .unsaid import CannotTell


def each_file(paths: Iterable[str], work: Callable[[str, Written], None]) -> list[str]:
    """Do *work* on every file with a pattern that *paths* lead to; a sentence for each that was left as it is."""
    failures: list[str] = []
    for page in pages(paths):
        try:
            if page.path == STDIN:
                raise OSError("give the name of a file")
            written = read_file(page.path)
            if written.damage is not None:
                raise OSError("it is not UTF-8 text")
            plain = page.path.lower().endswith(PLAIN)
            if page.named or not plain or looks_like_pattern(written.text):
                work(page.path, written)
        except OSError as error:
            failures.append(f"{page.path} was left as it is: {error.strerror or error}.")
    return failures


def show(path: str, before: str, after: str, what: str, afterwards: str, paint: Paint) -> None:
    """Print the difference between two texts of the file *path*; *what* says what becomes of it. Raises CannotTell."""
    try:
        print(paint("bold", f"{one_line(path)} ({what})"))
        for line in _diff(path, before, after, afterwards, paint):
            print(line)
    except OSError as error:
        raise CannotTell(error) from error


def save(path: str, written: Written, text: str, afterwards: str, paint: Paint) -> bool:
    """Put *text* into the file that was read as *written*, and show the difference; False where there is none."""
    if text == written.text:
        return False
    replace_file(path, written.to_bytes(written.text), written.to_bytes(text))
    show(path, written.text, text, "saved", afterwards, paint)
    return True


def _diff(path: str, before: str, after: str, afterwards: str, paint: Paint) -> Iterator[str]:
    colors = {"+": "added", "-": "removed", "@": "dim"}
    name = one_line(path.replace("\\", "/"))
    for line in unified_diff(_lines(before), _lines(after), name, name, "as it is", afterwards, n=2, lineterm=""):
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
    write_whole(real, after)

"""Files as they lie on disk: which of them hold patterns, their bytes as text, and new bytes written whole or not at all."""

from __future__ import annotations

import codecs
import contextlib
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from . import late_re as re
from .findings import Finding
from .rules import default_severity
from .source import Source, Span

MARKDOWN = (".md", ".markdown")
PLAIN = (".txt",)

# No page that a person writes is as long; a film or a disk image named by accident is.
LARGEST = 64 * 1024 * 1024

_SKIPPED_FOLDERS = ("node_modules", "__pycache__", "__macosx")
# A folder that a site generator or Python made says so by one of these.
_MADE_BY_TOOLS = ("sitemap.xml", "sitemap.xml.gz", "pyvenv.cfg")

_LABELLED_ROUND = re.compile(
    r"^[^\w\n]{0,8}(?:rnds?|rounds?|rows?|rd|r)\.?[ \t]{0,4}#?\d{1,6}\b", re.IGNORECASE | re.MULTILINE
)
# The known headers that only a pattern has: letters and licences have a Date: and Notes: too.
_HEADER = re.compile(
    r"^[^\w\n]{0,8}(?:title|terms|yarn|colou?r \w{1,20}|hook|gauge|tension|swatch|weighed|notions|you also need|stuffing"
    r"|eyes|sizes|finished size|special stitch|abbreviations|turning chain|slip stitches)[ \t]{0,4}:",
    re.IGNORECASE | re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Written:
    """A file's text. ``encoding`` and ``mark`` (the byte-order mark) make the same bytes of it again.

    ``damage`` is the finding where some bytes are no text: each stretch of them stands in ``text`` as one U+FFFD.
    """

    text: str
    encoding: str = "utf-8"
    mark: bytes = b""
    damage: Finding | None = None

    def to_bytes(self, text: str) -> bytes:
        """*text* as this file writes it."""
        return self.mark + text.encode(self.encoding)


def read_file(path: str) -> Written:
    """The text of the file *path*; raises OSError where it can't be read, and for one of more than 64 MB."""
    with open(path, "rb") as file:
        data = file.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise OSError(f"it is larger than {LARGEST // 1024**2} MB, which no page with a pattern is")
    return decode(data)


def write_whole(path: str | os.PathLike[str], data: bytes) -> None:
    """Put *data* into the file *path*, whole or not at all, whatever ends the program meanwhile. Raises OSError.

    What is there already keeps its rights, a link stays a link, and what is no file, a pipe say, is written to as it is.
    """
    if os.path.exists(path) and not os.path.isfile(path):
        with open(path, "wb") as there:
            there.write(data)
        return
    real = os.path.realpath(path)
    temporary = os.path.join(os.path.dirname(real), f".stitchcheck-{os.getpid()}-{os.urandom(4).hex()}")
    try:
        with open(temporary, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if os.path.exists(real):
            os.chmod(temporary, os.stat(real).st_mode & 0o7777)
        os.replace(temporary, real)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise


def decode(data: bytes) -> Written:
    """*data* as text: UTF-8, or UTF-16 where a byte-order mark says so. Damaged text is read as far as it goes."""
    for mark, encoding in (
        (codecs.BOM_UTF8, "utf-8"),
        (codecs.BOM_UTF16_LE, "utf-16-le"),
        (codecs.BOM_UTF16_BE, "utf-16-be"),
    ):
        if data.startswith(mark):
            break
    else:
        mark, encoding = b"", "utf-8"
    data = data[len(mark) :]
    try:
        return Written(data.decode(encoding), encoding, mark)
    except UnicodeDecodeError as error:
        return Written(data.decode(encoding, "replace"), encoding, mark, _damage(data, encoding, error))


def _damage(data: bytes, encoding: str, error: UnicodeDecodeError) -> Finding:
    before = Source(data[: error.start].decode(encoding)).lines
    line, column = len(before), len(before[-1]) + 1
    byte = data[error.start]
    return Finding(
        "unreadable-line",
        default_severity("unreadable-line"),
        Span(line, column, line, column + 1),
        f"This file is not UTF-8 text: here stands the byte {byte:#04x}, which is no letter.",
        "Open the file in your editor, save it again as UTF-8, and look whether this place reads right.",
        label="no letter",
    )


def looks_like_pattern(text: str) -> bool:
    """Whether a plain text is a pattern: it has a known header or a labelled round."""
    return _LABELLED_ROUND.search(text) is not None or _HEADER.search(text) is not None


def pages_in(folder: str) -> Iterator[str]:
    """The Markdown and text files in *folder* and below, in order; hidden folders and those made by tools left out."""
    for place, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not _skipped(place, name))
        for name in sorted(names):
            if name.lower().endswith(MARKDOWN + PLAIN) and not name.startswith("."):
                yield os.path.normpath(os.path.join(place, name))


def _skipped(place: str, name: str) -> bool:
    if name.startswith(".") or name.lower() in _SKIPPED_FOLDERS:
        return True
    return any(os.path.exists(os.path.join(place, name, sign)) for sign in _MADE_BY_TOOLS)


@dataclass(frozen=True, slots=True)
class Page:
    """A file to check; ``named`` where the user gave it by name, so that it is read whatever it looks like."""

    path: str
    named: bool


def pages(paths: Iterable[str]) -> Iterator[Page]:
    """Every file that *paths* lead to, once, in order. A path that isn't there is given as it is."""
    seen: set[str] = set()
    for path in paths:
        found = (
            [Page(path, True)]
            if path == "-" or not os.path.isdir(path)
            else (Page(inner, False) for inner in pages_in(path))
        )
        for page in found:
            real = os.path.realpath(page.path)
            if real not in seen:
                seen.add(real)
                yield page

"""Text as a terminal shows it: how wide it is, what must not reach it, and colours."""

from __future__ import annotations

import os
import unicodedata
from typing import ClassVar, TextIO

from .. import late_re as re

TAB = "    "

# What would move the cursor, turn the reading direction or can't be encoded is shown as a sign instead.
_UNSAFE = re.compile(
    "[\x00-\x08\x0a-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufff9-\ufffb\ud800-\udfff]"
)


def visible(text: str) -> str:
    """*text* with every tab as four spaces, and a sign for everything else that a terminal would act upon."""
    return _UNSAFE.sub(_sign, text).replace("\t", TAB) if not text.isprintable() else text


def one_line(text: str) -> str:
    """*text* on one line, safe for a terminal or a log."""
    return visible(" ".join(text.split()))


def _sign(match: re.Match[str]) -> str:
    code = ord(match[0])
    return chr(0x2400 + code) if code < 0x20 else "\ufffd"


def width(character: str) -> int:
    """The columns that one character takes: two for wide East Asian ones and emoji, none for combining marks."""
    if character == "\t":
        return len(TAB)
    if character.isascii():
        return 1
    if unicodedata.category(character) in ("Mn", "Me", "Cf") and not _UNSAFE.match(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


class Paint:
    """Colours by name, or none at all."""

    _CODES: ClassVar = {
        "error": "1;31",
        "warning": "1;33",
        "advice": "1;36",
        "info": "1;34",
        "caution": "1;35",
        "dim": "2",
        "bold": "1",
        "good": "32",
        "added": "32",
        "removed": "31",
    }

    def __init__(self, on: bool) -> None:
        self.on = on

    def __call__(self, name: str, text: str) -> str:
        return f"\x1b[{self._CODES[name]}m{text}\x1b[0m" if self.on and text else text


def wants_color(stream: TextIO, when: str = "auto") -> bool:
    """Whether *stream* gets colours: on a terminal, unless ``NO_COLOR`` is set; *when* is auto, always or never."""
    if when != "auto":
        return when == "always"
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"

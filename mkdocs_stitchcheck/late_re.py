"""The module ``re``, whose expressions are compiled when they are first used.

A run over one page needs a third of the package's three hundred, and compiling one takes as long as checking a round.
Used as ``from .. import late_re as re``.
"""

from __future__ import annotations

import re
from re import (
    ASCII,
    DOTALL,
    IGNORECASE,
    MULTILINE,
    Match,
    Pattern,
    escape,
    findall,
    finditer,
    fullmatch,
    match,
    search,
    split,
    sub,
)
from typing import Any, cast

__all__ = [
    "ASCII", "DOTALL", "IGNORECASE", "MULTILINE", "Match", "Pattern", "compile", "escape", "findall", "finditer", "fullmatch",
    "match", "search", "split", "sub",
]  # fmt: skip


class Later:
    """Stands for the expression until one of its methods is asked for, and then has that expression's own."""

    __slots__ = ("_flags", "_source", "findall", "finditer", "fullmatch", "match", "search", "split", "sub")

    def __init__(self, source: str, flags: int) -> None:
        self._source, self._flags = source, flags

    def __getattr__(self, name: str) -> Any:
        made = re.compile(self._source, self._flags)
        for method in self.__slots__[2:]:
            setattr(self, method, getattr(made, method))
        return getattr(made, name)


def compile(source: str, flags: int = 0) -> Pattern[str]:
    """The expression *source*. What is wrong with it is raised when it is first used."""
    return cast("Pattern[str]", Later(source, flags))

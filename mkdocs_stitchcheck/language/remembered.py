"""Instructions that were read before: a pattern, and the patterns of a site, say the same words many times over."""

from __future__ import annotations

from threading import Lock
from typing import Generic, TypeVar

from .. import late_re as re
from ..source import Statement
from .cursor import Context, Said

_R = TypeVar("_R")
_WORD = re.compile(r"\d+|[^\W\d_]+")
_LIMIT = 4096  # a few megabytes at most; what was kept first goes first
_LONGEST = 500


def said(statement: Statement, context: Context, start: int, stop: int, step: bool) -> Said | None:
    """All that a reading hangs on; None where it isn't worth keeping.

    That is the text from *start* on (a reader may look beyond *stop*, never before *start*) and what is known of the
    pattern. The names that a pattern declares are no part of it: see :class:`Memory`.
    """
    if statement.reading is not None or len(statement.text) > _LONGEST:
        return None
    return statement.text[start:], stop - start, step, context.system, context.sizes, context.ring_seen


class Memory(Generic[_R]):
    """Readings by what was said: shared between patterns, save where a word is part of a name that a pattern declares."""

    def __init__(self) -> None:
        self._shared: dict[Said, tuple[frozenset[str], _R]] = {}
        self._keeping = Lock()  # a web server converts in several threads

    def recall(self, what: Said, context: Context) -> _R | None:
        """What *what* was read as before, None where it was not."""
        found = self._shared.get(what)
        if found is not None and found[0].isdisjoint(_names(context)):
            return found[1]
        return context.kept.get(what)

    def forget(self) -> None:
        """Drop what is shared between patterns."""
        with self._keeping:
            self._shared.clear()

    def keep(self, what: Said, context: Context, reading: _R) -> None:
        """Keeps *reading*, which nobody may change from here on."""
        words = _words(what[0])
        if not words.isdisjoint(_names(context)):
            context.kept[what] = reading
            return
        with self._keeping:
            if len(self._shared) >= _LIMIT:
                del self._shared[next(iter(self._shared))]
            self._shared[what] = words, reading


def _words(text: str) -> frozenset[str]:
    lower = text.lower()
    words = _WORD.findall(lower)
    return frozenset(words + _WORD.findall(lower.replace("'", "")) if "'" in lower else words)


def _names(context: Context) -> frozenset[str]:
    """Every word of the names of a pattern's colours, pieces and own stitches."""
    if context.names is None:
        names = [*context.colors, *context.pieces, *context.special]
        names += [word for keys in context.special_words.values() for key, _stitch in keys for word in key]
        context.names = _words(" ".join(names))
    return context.names

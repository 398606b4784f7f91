"""The patterns of a page in the other terms, for sheets: told once, however often a page is shown."""

from __future__ import annotations

from ..checker import check_text
from ..render.switching import OTHER, switched_words
from ..results import FileResult, PatternResult
from ..retold import Retold, retold
from ..settings import Settings


class Retellings:
    """What was told again in a build, under its *settings*."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings
        self._told: dict[tuple[int, str], tuple[FileResult, Retold]] = {}

    def other_terms(self, pattern: PatternResult) -> str:
        """"UK" or "US", the terms in which a pattern can be told besides its own; "" where no word of it would differ."""
        return OTHER[pattern.syntax.system] if switched_words(pattern) else ""

    def told(self, result: FileResult, text: str, pattern: PatternResult) -> tuple[FileResult, PatternResult] | None:
        """A pattern of a page with the checked *text* in the other terms; None where a line of it can't be told so."""
        terms = self.other_terms(pattern)
        if not terms or pattern.draft:
            return None
        at = next(i for i, own in enumerate(result.patterns) if own is pattern)
        other = self._retold(result, text, terms)
        if len(other.result.patterns) <= at or any(pattern.line <= line <= pattern.end_line for line in other.left):
            return None
        return other.result, other.result.patterns[at]

    def _retold(self, result: FileResult, text: str, terms: str) -> Retold:
        key = (id(result), terms)
        if key not in self._told:  # the result is kept with it, so that its id stays its own
            self._told[key] = result, retold(result, text, terms, self._check(result.path))
        return self._told[key][1]

    def _check(self, path: str) -> _Check:
        return _Check(path, self._settings)


class _Check:
    """Checks a text of the page *path* whose patterns may leave their terms unsaid."""

    def __init__(self, path: str, settings: Settings) -> None:
        self._path, self._settings = path, settings

    def __call__(self, text: str, terms: str) -> FileResult:
        return check_text(text, self._path, self._settings.with_(terms=terms))

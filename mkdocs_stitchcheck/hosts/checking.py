"""A run of the checker over paths, as every command of the command line does it."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Self

from ..configuration import find_configuration, forget_configurations, read_configuration
from ..files import PLAIN, Page, decode, looks_like_pattern, pages, read_file
from ..results import FileResult
from ..settings import Settings

STDIN = "-"
ALL, ROUNDS, SUMS = "all", "rounds", "sums"  # what is kept of a result


@dataclass(slots=True)
class Run:
    """What a run gave: results in the order of paths, and a sentence for each path that could not be read."""

    results: list[FileResult] = field(default_factory=list)
    unreadable: list[str] = field(default_factory=list)
    fails: bool = False
    strict: bool = False

    @property
    def exit_code(self) -> int:
        """2 where a path could not be read, else 1 where something fails, else 0."""
        return 2 if self.unreadable else int(self.fails)


class Configuration:
    """The settings for each path: those of the file that was named, else of the nearest project.

    Files that were read before are read again: a run sees what stands in them now.
    Raises :class:`~mkdocs_stitchcheck.settings.SettingsError`, for a named file at once.
    """

    def __init__(self, config_file: str | None, strict: bool = False) -> None:
        forget_configurations()
        self._strict = strict
        self._named = self._as_asked(read_configuration(config_file)) if config_file is not None else None
        self._of_folder: dict[str, Settings] = {}

    def of(self, path: str) -> Settings:
        """The settings for the file *path*."""
        if self._named is not None:
            return self._named
        folder = os.path.dirname(path)
        if folder not in self._of_folder:
            self._of_folder[folder] = self._as_asked(find_configuration(folder or "."))
        return self._of_folder[folder]

    def _as_asked(self, settings: Settings) -> Settings:
        return settings.with_(strict=True) if self._strict else settings


def run(
    paths: Sequence[str],
    *,
    strict: bool = False,
    config_file: str | None = None,
    stdin_name: str = "",
    quietly: bool = False,
    jobs: int = 1,
    keep: str = ALL,
) -> Run:
    """Check every file that *paths* lead to. Raises :class:`~mkdocs_stitchcheck.settings.SettingsError`.

    By *jobs* processes at once (0: one a core). Of each result is kept what *keep* says: ``ALL``, ``ROUNDS`` without syntax,
    or only ``SUMS``, so that a run over many files takes no more room than the largest and what was found.
    """
    outcome = Run(strict=strict)
    configuration = Configuration(config_file, strict)
    tasks = ((page, configuration.of(page.path), stdin_name, keep) for page in pages(paths))
    with Progress(quietly) as progress:
        for (page, settings, *_others), result in _all(tasks, jobs):
            progress.on(page.path)
            if isinstance(result, str):
                outcome.unreadable.append(result)
            elif result is not None:
                outcome.results.append(result)
                outcome.strict = outcome.strict or settings.strict
                outcome.fails = outcome.fails or result.fails(settings.strict)
    return outcome


_Task = tuple[Page, Settings, str, str]


def _all(tasks: Iterable[_Task], jobs: int) -> Iterator[tuple[_Task, FileResult | str | None]]:
    """Each task with its result, or the sentence for a file that can't be read."""
    if jobs == 1:
        yield from ((task, _result(task)) for task in tasks)
        return
    from .side_by_side import EndedFromOutside, side_by_side

    waiting = list(tasks)
    piped = {index: _result(task) for index, task in enumerate(waiting) if task[0].path == STDIN}  # only here is the pipe
    others = [task for index, task in enumerate(waiting) if index not in piped]
    found = side_by_side(_result, others, jobs)
    for index, task in enumerate(waiting):
        if index in piped:
            yield task, piped[index]
            continue
        try:
            yield task, next(found)
        except EndedFromOutside as error:
            print(f"stitchcheck: {error}; what is left is checked in one.", file=sys.stderr)
            found = (_result(task) for task in others[others.index(task) :])
            yield task, next(found)


def _result(task: _Task) -> FileResult | str | None:
    page, settings, stdin_name, keep = task
    try:
        result = _check(page, settings, stdin_name)
        return result if result is None or keep == ALL else result.lightened(keep == ROUNDS)
    except OSError as error:
        return f"{page.path} can't be read: {error.strerror or error}."


def _check(page: Page, settings: Settings, stdin_name: str) -> FileResult | None:
    """The result for *page*; None where it came from a folder and holds nothing to report."""
    path = (stdin_name or "<stdin>") if page.path == STDIN else page.path
    written = decode(sys.stdin.buffer.read()) if page.path == STDIN else read_file(page.path)
    plain = path.lower().endswith(PLAIN)
    if plain and not page.named and not looks_like_pattern(written.text):
        return None
    from ..checker import check_written

    result = check_written(written, path, settings)
    return result if page.named or result.patterns or result.findings else None


class Progress:
    """Says on standard error how far a long run is, on a terminal only and never in a log."""

    _AFTER = 1.0  # seconds of patience
    _EVERY = 0.1

    def __init__(self, quietly: bool) -> None:
        self._on = not quietly and sys.stderr.isatty() and not os.environ.get("CI")
        self._next = time.monotonic() + self._AFTER
        self._number = 0
        self._shown = False

    def __enter__(self) -> Self:
        return self

    def on(self, path: str) -> None:
        """The run is at *path* now."""
        self._number += 1
        now = time.monotonic()
        if self._on and now >= self._next:
            self._next, self._shown = now + self._EVERY, True
            sys.stderr.write(f"\r\x1b[K{self._number:,} files ... {os.path.basename(path)[:40]}")
            sys.stderr.flush()

    def __exit__(self, *_error: object) -> None:
        if self._shown:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()


def say_unreadable(sentences: Iterable[str]) -> None:
    """Say on standard error which paths could not be read."""
    for sentence in sentences:
        print(f"stitchcheck: {sentence}", file=sys.stderr)

"""Running again whenever a file changes. It looks at the times of files: that works everywhere and needs no library."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Sequence

from ..files import pages

_EVERY = 0.4  # seconds

_State = dict[str, tuple[int, int]]


def watch(paths: Sequence[str], once: Callable[[], int]) -> int:
    """Call *once* now and after every change of the files that *paths* lead to, until Ctrl-C; its last exit code."""
    code = 0
    try:
        while True:
            before = _state(paths)
            code = once()
            print("Watching for changes; Ctrl-C ends.", file=sys.stderr, flush=True)
            while _state(paths) == before:
                time.sleep(_EVERY)
            if sys.stdout.isatty():
                sys.stdout.write("\x1b[2J\x1b[H")
    except KeyboardInterrupt:
        return code


def _state(paths: Sequence[str]) -> _State:
    state: _State = {}
    for page in pages(paths):
        try:
            found = os.stat(page.path)
        except OSError:
            continue
        state[page.path] = (found.st_mtime_ns, found.st_size)
    return state

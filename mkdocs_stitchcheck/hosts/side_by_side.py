"""Pages checked in several processes at once: the same results in the same order."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

_T = TypeVar("_T")
_R = TypeVar("_R")
_AT_ONCE = 8  # pages handed over together


class EndedFromOutside(RuntimeError):
    """One of the processes was ended by something else than its work."""


def side_by_side(work: Callable[[_T], _R], tasks: Iterable[_T], jobs: int) -> Iterator[_R]:
    """What *work*, a function of a module, gives for each of *tasks*, in order, by *jobs* processes; 0: one a core.

    Raises :class:`EndedFromOutside` where a process was; what *work* raises comes through.
    """
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    waiting = list(tasks)
    jobs = min(jobs or os.cpu_count() or 1, -(-len(waiting) // _AT_ONCE)) or 1
    with ProcessPoolExecutor(jobs) as processes:
        try:
            yield from processes.map(work, waiting, chunksize=_AT_ONCE)
        except BrokenProcessPool:
            raise EndedFromOutside("A process that checked pages was ended from outside") from None
        finally:
            processes.shutdown(cancel_futures=True)

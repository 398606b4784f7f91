"""Pages checked in several processes at once: the same results in the same order."""

from __future__ import annotations

import io
import os
import pickle
from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeVar

from ..language.syntax import Line, Pattern, Piece
from ..late_dataclasses import dataclass

_T = TypeVar("_T")
_AT_ONCE = 8  # pages handed over together


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Stands for a pattern as it was read, which no report needs and which would take longer to send than to check."""

    what: str


class _Lean(pickle.Pickler):
    def reducer_override(self, of: Any) -> Any:
        if isinstance(of, Pattern | Piece | Line):
            return LeftOut, (type(of).__name__,)
        return NotImplemented


def side_by_side(work: Callable[[_T], Any], tasks: Iterable[_T], jobs: int) -> Iterator[Any]:
    """What *work* gives for each of *tasks*, in order, by *jobs* processes; for 0 as many as there are cores.

    *work* is a function of a module. What it gives comes without the syntax of patterns (:class:`LeftOut`). Raises
    :class:`RuntimeError` where a process was ended from outside.
    """
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    waiting = list(tasks)
    groups = [(work, waiting[at : at + _AT_ONCE]) for at in range(0, len(waiting), _AT_ONCE)]
    jobs = min(jobs or os.cpu_count() or 1, len(groups)) or 1
    with ProcessPoolExecutor(jobs) as processes:
        try:
            for packed in processes.map(_several, groups):
                yield from pickle.loads(packed)  # of our own process
        except BrokenProcessPool:
            raise RuntimeError("A process that checked pages was ended from outside") from None
        finally:
            processes.shutdown(cancel_futures=True)


def _several(group: tuple[Callable[[_T], Any], list[_T]]) -> bytes:
    work, tasks = group
    packed = io.BytesIO()
    _Lean(packed, pickle.HIGHEST_PROTOCOL).dump([work(task) for task in tasks])
    return packed.getvalue()

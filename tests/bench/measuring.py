"""Processor time, and only that: a machine has other work. Medians; every figure is a ratio to one taken in the same run."""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Sequence

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


def cost(work: Callable[[], object], times: int) -> float:
    """The median of processor seconds that *work* takes."""
    spent = []
    for _ in range(times):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return statistics.median(spent)


def command(*arguments: str, times: int = 7, cwd: str | None = None) -> float:
    """The median of processor seconds of a whole command of Python and its children."""
    return statistics.median(_spent(arguments, cwd) for _ in range(times))


def _spent(arguments: Sequence[str], cwd: str | None) -> float:
    start = resource.getrusage(resource.RUSAGE_CHILDREN)
    ended = subprocess.run([sys.executable, *arguments], check=False, capture_output=True, cwd=cwd, env=_environment())
    end = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert ended.returncode in (0, 1), ended.stderr.decode()[-2000:]
    return end.ru_utime + end.ru_stime - start.ru_utime - start.ru_stime


def peak(*arguments: str, cwd: str | None = None) -> float:
    """The most memory, in MB, that a command of Python takes."""
    told = "import resource, sys, subprocess; subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL); "
    told += "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    ended = subprocess.run(
        [sys.executable, "-c", told, sys.executable, *arguments], check=True, capture_output=True, cwd=cwd, env=_environment()
    )
    return int(ended.stdout) / 1024


def _environment() -> dict[str, str]:
    """The package of this folder, compiled once as where it is installed."""
    there = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**there, "PYTHONPATH": ROOT, "NO_MKDOCS_2_WARNING": "1"}


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """A table as DEVELOPERS.md has it."""
    print(f"\n| {' | '.join(head)} |\n|{'---|' * len(head)}")
    for row in rows:
        shown = (f"{one:.3g}" if isinstance(one, float) and one < 100 else f"{one:,.0f}" if isinstance(one, (int, float)) else str(one) for one in row)
        print(f"| {' | '.join(shown)} |")

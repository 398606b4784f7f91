"""Processor time, and only that: a machine has other work. Medians; every figure is a ratio to one taken in the same run."""

from __future__ import annotations

import gc
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Sequence

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


def cost(work: Callable[[], object], times: int) -> float:
    """The median of processor seconds that *work* takes, the litter of what came before swept up."""
    spent = []
    for _ in range(times):
        gc.collect()
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return statistics.median(spent)


def command(*arguments: str, times: int = 7, cwd: str | None = None) -> float:
    """The median of processor seconds of a whole command of Python and its children."""
    return spent(*arguments, times=times, cwd=cwd)[0]


def spent(*arguments: str, times: int = 7, cwd: str | None = None, fine: tuple[int, ...] = (0, 1)) -> tuple[float, float]:
    """The same, and the most memory in MB that it took in any run; it must end with one of the codes *fine*."""
    runs = [_run(arguments, cwd, fine) for _ in range(times)]
    return statistics.median(seconds for seconds, _memory in runs), max(memory for _seconds, memory in runs)


# A small process in between: what a process has taken before it became another program counts as that program's.
_APART = """
import resource, subprocess, sys
with subprocess.Popen(sys.argv[2:], stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as process:
    said = process.stdout.read()
used = resource.getrusage(resource.RUSAGE_CHILDREN)
assert str(process.returncode) in sys.argv[1], said.decode()[-2000:]
print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
"""


def _run(arguments: Sequence[str], cwd: str | None, fine: tuple[int, ...]) -> tuple[float, float]:
    ended = subprocess.run(
        [sys.executable, "-c", _APART, str(fine), sys.executable, *arguments], check=False, capture_output=True, cwd=cwd, env=_environment()
    )
    assert not ended.returncode, ended.stderr.decode()
    seconds, memory = map(float, ended.stdout.split())
    return seconds, memory


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

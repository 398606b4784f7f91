"""``python -m tests.bench``: what a round costs in patterns of 10 to 10,000 rounds, what sizes cost, and a file against bare Python.

``python -m tests.bench editor``: what an editor waits for its answers while a pattern is typed (extra ``editor``).
"""

from __future__ import annotations

import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable

from mkdocs_stitchcheck import check_text

from .corpus import pattern, sized

LENGTHS = (10, 40, 100, 1_000, 10_000)


def cost(work: Callable[[], object], times: int) -> float:
    """The median of processor seconds that *work* takes."""
    spent = []
    for _ in range(times):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return statistics.median(spent)


def command(*arguments: str) -> float:
    """The median seconds of processor time of a whole command."""
    spent = []
    for _ in range(7):
        start = os.times()
        subprocess.run([sys.executable, *arguments], check=False, capture_output=True)
        end = os.times()
        spent.append(end.children_user + end.children_system - start.children_user - start.children_system)
    return statistics.median(spent)


def growth() -> None:
    """Rounds: the cost of each as a ratio to that in a pattern of 100."""
    check_text(pattern(40), "bench.md")  # what is made once is made
    found = {}
    for number in LENGTHS:
        text = pattern(number)
        result = check_text(text, "bench.md")
        assert not result.findings, result.findings[0]
        found[number] = cost(lambda text=text: check_text(text, "bench.md"), 3 if number > 1_000 else 9) / number  # type: ignore[misc]
    print("rounds   ms a round   ratio to 100 rounds")
    for number, seconds in found.items():
        print(f"{number:6}   {seconds * 1000:10.3f}   {seconds / found[100]:6.2f}")


def in_sizes() -> None:
    """200 rows in several sizes, as ratios to the same in one."""
    found = {}
    for number in (1, 2, 5, 9):
        text = sized(200, number)
        result = check_text(text, "bench.md")
        assert all(str(line.status) == "checked" for line in result.patterns[0].rounds if line.counts)
        found[number] = cost(lambda text=text: check_text(text, "bench.md"), 9)  # type: ignore[misc]
    print("sizes    ms for 200 rows   ratio to one size")
    for number, seconds in found.items():
        print(f"{number:5}    {seconds * 1000:15.1f}   {seconds / found[1]:6.2f}")


def start() -> None:
    """The command line on one page, as a ratio to bare Python."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "page.md")
        with open(path, "w", encoding="utf-8") as page:
            page.write(pattern(40))
        bare = command("-c", "pass")
        checked = command("-m", "mkdocs_stitchcheck", "check", path)
        version = command("-m", "mkdocs_stitchcheck", "--version")
    print(f"bare Python 1.0, --version {version / bare:.1f}, check of a page of 40 rounds {checked / bare:.1f}")


if __name__ == "__main__":
    print(f"{platform.machine()}, {os.cpu_count()} cores, CPython {platform.python_version()}")
    if "editor" in sys.argv[1:]:
        from .editor import main

        main()
    else:
        growth()
        in_sizes()
        start()

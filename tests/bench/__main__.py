"""``python -m tests.bench``: what patterns, commands and sites cost, as ratios taken in one run.

``python -m tests.bench patterns`` (or ``commands``, ``sites``) for a part of it; ``--large`` with sites of 10,000 pages;
``python -m tests.bench editor``: what an editor waits for its answers while a pattern is typed (extra ``editor``).
"""

from __future__ import annotations

import argparse
import os
import platform

from . import commands, patterns, sites


def main() -> None:
    """Measure what was asked for, and print it as tables."""
    options = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    options.add_argument("parts", nargs="*", default=["patterns", "commands", "sites"], metavar="PART")
    options.add_argument("--large", action="store_true", help="also 10,000 pages")
    chosen = options.parse_args()
    print(f"{_machine()}, {os.cpu_count()} cores, CPython {platform.python_version()}")
    if "patterns" in chosen.parts:
        patterns.by_rounds()
        patterns.by_sizes()
        patterns.by_findings()
        patterns.a_page()
    if "commands" in chosen.parts:
        commands.start()
        commands.runs((10, 100, 1_000, 10_000) if chosen.large else (10, 100, 1_000))
        commands.jobs(1_000)
    if "sites" in chosen.parts:
        sites.sites((10, 100, 1_000) if not chosen.large else (10, 100, 1_000, 10_000))
    if "editor" in chosen.parts:
        from .editor import main as editor

        editor()


def _machine() -> str:
    try:
        with open("/proc/cpuinfo", encoding="utf-8") as told:
            return next(line.partition(":")[2].strip() for line in told if line.startswith("model name"))
    except (OSError, StopIteration):
        return platform.processor() or platform.machine()


if __name__ == "__main__":
    main()

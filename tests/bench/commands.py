"""What ``stitchcheck check`` costs: its start, a thousand files, two processes, memory."""

from __future__ import annotations

import os
import resource
import statistics
import tempfile
import time

from mkdocs_stitchcheck.hosts.checking import SUMS, run
from mkdocs_stitchcheck.report import Options, report

from .corpus import blog_page
from .measuring import command, spent, table


def start() -> None:
    """The command line on one page, as a ratio to bare Python."""
    with tempfile.TemporaryDirectory() as folder:
        write_pages(folder, 1)
        path = os.path.join(folder, "page0.md")
        command("-m", "mkdocs_stitchcheck", "check", path, times=1)  # compiled once
        rows = [
            ("bare Python", command("-c", "pass", times=15)),
            ("stitchcheck --version", command("-m", "mkdocs_stitchcheck", "--version", times=15)),
            ("import of the checker", command("-c", "import mkdocs_stitchcheck.checker", times=15)),
            ("stitchcheck check, a page of 40 rounds", command("-m", "mkdocs_stitchcheck", "check", path, times=15)),
        ]
    table(("start", "ms", "to bare Python"), [(name, s * 1000, s / rows[0][1]) for name, s in rows])


def write_pages(folder: str, pages: int, slips: bool = False) -> None:
    """So many pages of a blog in *folder*; with *slips* a wrong count on each."""
    for number in range(pages):
        text = blog_page(number)
        with open(os.path.join(folder, f"page{number}.md"), "w", encoding="utf-8") as page:
            page.write(text.replace("inc x 6 (12)", "inc x 6 (13)", 1) if slips else text)


def runs(sizes: tuple[int, ...]) -> None:
    """Folders of pages: time and memory, and two processes against one."""
    rows = []
    for pages in sizes:
        with tempfile.TemporaryDirectory() as folder:
            write_pages(folder, pages)
            one, most = spent("-m", "mkdocs_stitchcheck", "check", folder, times=3 if pages < 5_000 else 1)
            _seconds, whole = spent("-m", "mkdocs_stitchcheck", "check", folder, "--format", "json", times=1)
        with tempfile.TemporaryDirectory() as folder:
            write_pages(folder, pages, slips=True)
            wrong = command("-m", "mkdocs_stitchcheck", "check", folder, "--quiet", times=3 if pages < 5_000 else 1)
        rows.append((pages, one, one / pages * 1000, wrong / pages * 1000, most, whole))
    table(("pages", "s", "ms a page", "ms a page, each wrong", "MB at most", "MB, as JSON"), rows)


def jobs(pages: int) -> None:
    """Two processes: what the busiest of the three does is how long it takes where there are two free cores."""
    with tempfile.TemporaryDirectory() as folder:
        write_pages(folder, pages)
        run([folder], quietly=True, keep=SUMS)
        alone, parent, children = [], [], []
        for _ in range(3):
            start = time.process_time()
            said = report("text", run([folder], quietly=True, keep=SUMS).results, Options())
            alone.append(time.process_time() - start)
            start, before = time.process_time(), resource.getrusage(resource.RUSAGE_CHILDREN)
            assert report("text", run([folder], quietly=True, keep=SUMS, jobs=2).results, Options()) == said
            parent.append(time.process_time() - start)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            children.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    one, first, others = map(statistics.median, (alone, parent, children))
    rows = [
        ("one process", one, 1.0),
        ("--jobs 2: each of the two", others / 2, others / 2 / one),
        ("--jobs 2: what hands out and reports", first, first / one),
    ]
    table((f"{pages:,} pages", "s", "to one process"), rows)

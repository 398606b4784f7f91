"""What a pattern costs: by its rounds, by its sizes, by what is found in it, by where it stands in a run."""

from __future__ import annotations

import gc

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.hosts.pages import forget_checks
from mkdocs_stitchcheck.language import instructions

from .corpus import CODE, blog_page, pattern, sized
from .measuring import cost, table

LENGTHS = (10, 40, 100, 1_000, 10_000)
FINDINGS = (0, 10, 100, 1_000)


def by_rounds() -> None:
    """Rounds: the cost of each as a ratio to that in a pattern of 100; and without Python's collector of litter, which
    goes over all that lives again and again, and so takes more the more there is."""
    check_text(pattern(40), "bench.md")  # what is made once is made
    found = {}
    for number in LENGTHS:
        text = pattern(number)
        assert not check_text(text, "bench.md").fails()
        times = 3 if number > 1_000 else 9
        usual = cost(lambda text=text: check_text(text, "bench.md"), times) / number  # type: ignore[misc]
        gc.disable()
        found[number] = usual, cost(lambda text=text: check_text(text, "bench.md"), times) / number  # type: ignore[misc]
        gc.enable()
    head = ("rounds", "ms a round", "to that of 100", "without the collector", "to that of 100")
    hundred, bare = found[100]
    table(head, [(n, s * 1000, s / hundred, b * 1000, b / bare) for n, (s, b) in found.items()])


def by_sizes() -> None:
    """200 rows in several sizes, as ratios to the same in one."""
    found = {}
    for number in (1, 2, 5, 9):
        text = sized(200, number)
        assert all(line.status == "checked" for line in check_text(text, "bench.md").patterns[0].rounds if line.counts)
        found[number] = cost(lambda text=text: check_text(text, "bench.md"), 9)  # type: ignore[misc]
    table(("sizes", "ms for 200 rows", "to one size"), [(n, s * 1000, s / found[1]) for n, s in found.items()])


def by_findings() -> None:
    """A pattern of 1,000 rounds with so many wrong counts."""
    lines = pattern(1_000).split("\n")
    counted = [at for at, line in enumerate(lines) if line.endswith(("(9)", "(12)"))]
    found = {}
    for number in FINDINGS:
        text = "\n".join(_slipped(line) if at in counted[: number * 2 : 2] else line for at, line in enumerate(lines))
        there = sum(finding.fails() for finding in check_text(text, "bench.md").findings)
        found[there] = cost(lambda text=text: check_text(text, "bench.md"), 3)  # type: ignore[misc]
    none = found[0]
    table(
        ("findings that fail", "ms for 1,000 rounds", "to none", "ms more a finding"),
        [(n, s * 1000, s / none, (s - none) / n * 1000 if n else 0) for n, s in found.items()],
    )


def _slipped(line: str) -> str:
    return line.replace("(9)", "(10)").replace("(12)", "(13)")


def a_page() -> None:
    """A page of 40 rounds, checked and shown, against Pygments over a block of forty lines."""
    from markdown import Markdown
    from pygments import highlight
    from pygments.formatters import HtmlFormatter
    from pygments.lexers import PythonLexer

    pages = [blog_page(number) for number in range(40)]

    def each(work: object) -> float:
        return cost(lambda: [work(page) for page in pages], 7) / len(pages)  # type: ignore[operator]

    def anew(page: str) -> None:
        instructions._MEMORY.forget()
        check_text(page, "bench.md")

    def shown(page: str) -> str:
        forget_checks()
        return Markdown(extensions=["stitchcheck", "fenced_code"]).convert(page)

    def again(page: str) -> str:
        return Markdown(extensions=["stitchcheck", "fenced_code"]).convert(page)

    def plain(page: str) -> str:
        return Markdown(extensions=["fenced_code"]).convert(page)

    code = each(lambda _page: highlight(CODE, PythonLexer(), HtmlFormatter()))
    rows = [
        ("Pygments over 40 lines of Python", code),
        ("check, nothing read before", each(anew)),
        ("check, rounds of the site read before", each(lambda page: check_text(page, "bench.md"))),
        ("Markdown, fenced_code alone", each(plain)),
        ("Markdown, checked and shown with charts", each(shown)),
    ]
    for page in pages:
        again(page)
    rows.append(("Markdown, the same page once more", each(again)))
    table(("a page of 40 rounds", "ms", "to Pygments"), [(name, s * 1000, s / code) for name, s in rows])

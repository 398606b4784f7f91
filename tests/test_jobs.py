"""``stitchcheck check --jobs``: several processes say what one says."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest

from mkdocs_stitchcheck.hosts import side_by_side
from mkdocs_stitchcheck.hosts.checking import ROUNDS, SUMS, run
from mkdocs_stitchcheck.report import FORMATS
from mkdocs_stitchcheck.results import summary

PATTERN = "Title: Acorn {0}\nTerms: US\n# Cap\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 ({0})\nRnd 3: scc around\n"


@pytest.fixture
def blog(tmp_path: Path) -> Path:
    """Twenty pages, most of them wrong, one of them no text, and a path that leads nowhere."""
    for number in range(1, 21):
        (tmp_path / f"page{number:02}.md").write_text(f"# A page\n\n```crochet\n{PATTERN.format(number)}```\n")
    (tmp_path / "bytes.md").write_bytes(b"```crochet\nRnd 1: 6 sc in ring \xff (6)\n```\n")
    return tmp_path


def said(blog: Path, *arguments: str) -> tuple[int, str, str]:
    ended = subprocess.run(
        [sys.executable, "-m", "mkdocs_stitchcheck", "check", *arguments], cwd=blog, check=False, capture_output=True,
        text=True, input="```crochet\nRnd 1: 6 sc in magic ring (7)\n```\n", timeout=120, env={**os.environ, "COLUMNS": "100"},
    )  # fmt: skip
    assert "Traceback" not in ended.stderr
    return ended.returncode, ended.stdout, ended.stderr


def test_every_report_is_the_same(blog: Path) -> None:
    asked = [argument for kind in FORMATS if kind != "text" for argument in ("--format", f"{kind}=one.{kind}")]
    one = said(blog, ".", "nowhere.md", "-", "--totals", "--format", "text", *asked)
    two = said(blog, ".", "nowhere.md", "-", "--totals", "--jobs", "2", "--format", "text", *[a.replace("=one", "=two") for a in asked])
    assert one == two
    assert one[0] == 2 and "count-mismatch" in one[1] and "nowhere.md" in one[2]
    for kind in FORMATS:
        if kind != "text":
            assert (blog / f"one.{kind}").read_bytes() == (blog / f"two.{kind}").read_bytes(), kind


def test_one_a_core_and_no_pages_at_all(blog: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert said(blog, "empty", "--jobs", "0") == said(blog, "empty")
    assert said(blog, "page03.md", "--jobs", "0") == said(blog, "page03.md")
    code, _out, err = said(blog, ".", "--jobs", "-1")
    assert code == 2 and "--jobs" in err


@pytest.mark.parametrize("jobs", [1, 2])
def test_of_many_results_only_is_kept_what_is_reported(blog: Path, jobs: int) -> None:
    whole = run([str(blog)], quietly=True)
    for keep in (ROUNDS, SUMS):
        light = run([str(blog)], quietly=True, jobs=jobs, keep=keep)
        assert summary(light.results) == summary(whole.results)
        assert [result.findings for result in light.results] == [result.findings for result in whole.results]
        patterns = [pattern for result in light.results for pattern in result.patterns]
        assert len(patterns) == 21 and all(pattern.syntax is None for pattern in patterns)
        assert sum(len(pattern.rounds) for pattern in patterns) == (61 if keep == ROUNDS else 0)


def test_a_process_that_is_ended_from_outside(blog: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing stays unchecked: the rest is done in one."""

    def broken(work: Any, tasks: Iterable[Any], jobs: int) -> Iterator[Any]:
        yield work(next(iter(tasks)))
        raise side_by_side.EndedFromOutside("A process that checked pages was ended from outside")

    whole = run([str(blog)], quietly=True)
    monkeypatch.setattr(side_by_side, "side_by_side", broken)
    again = run([str(blog)], quietly=True, jobs=2)
    assert [result.findings for result in again.results] == [result.findings for result in whole.results]
    assert "is checked in one" in capsys.readouterr().err


def _die(_task: int) -> int:
    os._exit(3)


def test_such_an_end_is_noticed() -> None:
    with pytest.raises(RuntimeError, match="ended from outside"):
        list(side_by_side.side_by_side(_die, range(3), 2))


def _too_deep(_task: int) -> int:
    raise RecursionError("a bug of ours")


def test_a_bug_is_no_such_end() -> None:
    with pytest.raises(RecursionError, match="a bug of ours"):
        list(side_by_side.side_by_side(_too_deep, range(3), 2))

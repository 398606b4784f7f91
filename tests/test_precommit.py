"""The hooks for pre-commit, tried with the real pre-commit on a repository made here."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parent.parent
PAGE = """\
# Cap

```crochet
Title: Cap
Terms: US
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: sc around (12)
```
"""
HOOKS = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))


def git(folder: Path, *arguments: str) -> str:
    who = ("-c", "user.name=Tester", "-c", "user.email=tester@example.invalid", "-c", "init.defaultBranch=main")
    return subprocess.run(
        ["git", *who, *arguments], cwd=folder, check=True, capture_output=True, text=True
    ).stdout.strip()


@pytest.fixture(scope="module")
def hooks(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The project as a repository that others name in their configuration, and its revision."""
    folder = tmp_path_factory.mktemp("project")
    for name in (".pre-commit-hooks.yaml", "pyproject.toml", "README.md", ".license"):
        shutil.copy(ROOT / name, folder / name)
    shutil.copytree(
        ROOT / "mkdocs_stitchcheck", folder / "mkdocs_stitchcheck", ignore=shutil.ignore_patterns("__pycache__")
    )
    git(folder, "init", "-q")
    git(folder, "add", "-A")
    git(folder, "commit", "-qm", "As it is")
    return folder, git(folder, "rev-parse", "HEAD")


def test_the_hooks_are_the_commands() -> None:
    assert {hook["id"]: hook["entry"] for hook in HOOKS} == {
        "stitchcheck": "stitchcheck check",
        "stitchcheck-fix": "stitchcheck fix --save",
        "tidy": "stitchcheck tidy --save",
    }
    assert all(hook["language"] == "python" and hook["types"] == ["markdown"] for hook in HOOKS)


def test_a_commit_with_a_slip_is_stopped(hooks: tuple[Path, str], tmp_path: Path) -> None:
    """A right page passes; a slip fails with its place; the page that is no Markdown is not looked at."""
    project, revision = hooks
    blog = tmp_path / "blog"
    blog.mkdir()
    git(blog, "init", "-q")
    configuration = {
        "repos": [{"repo": str(project), "rev": revision, "hooks": [{"id": hook["id"]} for hook in reversed(HOOKS)]}]
    }
    (blog / ".pre-commit-config.yaml").write_text(yaml.safe_dump(configuration), encoding="utf-8")
    (blog / "cap.md").write_text(PAGE, encoding="utf-8")
    (blog / "notes.txt").write_text("Rnd 1: 5 sc in magic ring (6)\n", encoding="utf-8")
    git(blog, "add", "-A")
    environment = {**os.environ, "PRE_COMMIT_HOME": str(tmp_path / "cache"), "PRE_COMMIT_COLOR": "never", "PIP_NO_COMPILE": "1"}

    def pre_commit(*hook: str) -> tuple[int, str]:
        ended = subprocess.run(
            [sys.executable, "-m", "pre_commit", "run", *hook, "--all-files"],
            cwd=blog, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False,
        )  # fmt: skip
        return ended.returncode, ended.stdout

    code, told = pre_commit()
    assert (code, told.count("Passed")) == (0, len(HOOKS)), told
    (blog / "cap.md").write_text(PAGE.replace("inc x 6 (12)", "inc x 6 (13)"), encoding="utf-8")
    git(blog, "add", "-A")
    code, told = pre_commit("stitchcheck")
    assert code == 1, told
    assert "cap.md:7:" in told and "error[count-mismatch]" in told
    code, told = pre_commit("stitchcheck-fix")
    assert code == 1, told
    assert "files were modified by this hook" in told
    assert (blog / "cap.md").read_text(encoding="utf-8") == PAGE
    (blog / "cap.md").write_text(PAGE.replace("inc x 6", "inc x6"), encoding="utf-8")
    git(blog, "add", "-A")
    code, told = pre_commit("tidy")
    assert code == 1, told
    assert (blog / "cap.md").read_text(encoding="utf-8") == PAGE
    assert pre_commit()[0] == 0

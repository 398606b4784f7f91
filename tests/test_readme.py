"""What the README shows is true: its commands run, its patterns are right, its files for CI are what they should be."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from mkdocs_stitchcheck.checker import check_text
from mkdocs_stitchcheck.hosts.commandline import main

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^(`{3,})(\w+)\n(.*?)^\1$", re.DOTALL | re.MULTILINE)


def blocks(word: str) -> list[str]:
    """The bodies of the README's blocks with *word*."""
    return [match[3] for match in BLOCK.finditer(README) if match[2] == word]


def workflow(beginning: str) -> str:
    return next(block for block in blocks("yaml") if block.startswith(beginning))


@pytest.fixture
def blog(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the README's own pattern as the page that its commands name."""
    monkeypatch.chdir(tmp_path)
    for name in ("docs/pebble.md", "page.md"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(blocks("markdown")[0], encoding="utf-8")
    (tmp_path / "pattern.txt").write_text(blocks("markdown")[0].replace("```crochet\n", "").replace("```\n", ""))
    return tmp_path


def commands(text: str) -> list[list[str]]:
    """Every ``stitchcheck`` command in *text*, as words."""
    found = re.findall(r"^\s*(?:- run: |- )?stitchcheck (.*?)(?:\s{2,}#.*)?$", text, re.MULTILINE)
    return [shlex.split(line) for line in found]


def test_the_pattern_is_right() -> None:
    result = check_text(blocks("markdown")[0], "page.md")
    assert not result.fails(strict=True)
    assert all(line.status == "checked" for pattern in result.patterns for line in pattern.rounds if line.counts)


def test_the_message_at_the_top_is_what_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first lines of the README, as the command line prints them."""
    shown = re.search(r"^    docs/blog.*?\n\n", README, re.DOTALL | re.MULTILINE)
    assert shown is not None
    lines = [line.removeprefix("    ") for line in shown[0].rstrip().splitlines()]
    page = ["```crochet", "Terms: US", *[""] * 22, "# Nose", "Rnd 1: 6 sc in magic ring (6)", "Rnd 2: inc x 6 (12)"]
    page += [
        "Rnd 3: (sc, inc) x 6 (18)",
        "Rnds 4-6: sc around (18)",
        "",
        "Rnd 7: (dec, sc) x 6 (13)",
        "Rnd 8: dec x 6 (6)",
    ]
    file = tmp_path / "docs/blog/posts/seal-pup.md"
    file.parent.mkdir(parents=True)
    file.write_text("\n".join([*page, "```", ""]), encoding="utf-8")
    told = subprocess.run(
        [sys.executable, "-m", "mkdocs_stitchcheck", "check", "docs/blog/posts/seal-pup.md", "--quiet"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.stdout.rstrip().splitlines() == lines


def test_its_commands_run(blog: Path) -> None:
    shown = commands(README)
    assert {words[0] for words in shown} >= {"check", "fix", "explain", "stitches"}
    for words in shown:
        assert main(words) == 0, words


@pytest.mark.parametrize(
    ("beginning", "schema"),
    [("# .github/workflows", "vendor.github-workflows"), ("# .gitlab-ci.yml", "vendor.gitlab-ci")],
)
def test_its_files_for_ci(blog: Path, beginning: str, schema: str) -> None:
    """Right by the published schema of each (as check-jsonschema ships it), and their commands run."""
    text = workflow(beginning)
    (blog / "ci.yml").write_text(text, encoding="utf-8")
    subprocess.run([sys.executable, "-m", "check_jsonschema", "--builtin-schema", schema, "ci.yml"], check=True)
    assert commands(text)
    for words in commands(text):
        assert main(words) == 0


def test_all_its_yaml_can_be_read() -> None:
    class Loader(yaml.SafeLoader):
        pass

    Loader.add_multi_constructor("", lambda loader, suffix, node: None)
    for block in blocks("yaml"):
        assert yaml.load(block, Loader)


def test_its_python_runs(blog: Path) -> None:
    """What belongs into a file of another host is run by ``test_other_hosts.py`` in its place."""
    elsewhere = ("MARKDOWN", "def clean_body")
    own = [block for block in blocks("python") if not block.startswith(elsewhere)]
    assert own
    for block in own:
        ended = subprocess.run(
            [sys.executable, "-W", "error::SyntaxWarning", "-c", block], capture_output=True, check=False
        )
        assert ended.returncode == 0, ended.stderr.decode()

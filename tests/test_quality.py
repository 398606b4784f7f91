"""The package by the tools that read it: types, style, and the names that are promised."""

from __future__ import annotations

import importlib
import subprocess
import sys
from pathlib import Path

import mkdocs_stitchcheck

ROOT = Path(__file__).parent.parent


def run(*command: str) -> None:
    ended = subprocess.run([sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ended.returncode == 0, ended.stdout + ended.stderr


def test_types() -> None:
    run("mypy", "--strict", "mkdocs_stitchcheck")


def test_style() -> None:
    run("ruff", "check", "mkdocs_stitchcheck", "tests")


def test_public_names_are_there() -> None:
    """Every name that is promised comes from its module, and is documented."""
    for name in mkdocs_stitchcheck.__all__:
        assert getattr(mkdocs_stitchcheck, name).__doc__
    assert Path(mkdocs_stitchcheck.__file__).with_name("py.typed").exists()


def test_every_module_says_what_it_is_for() -> None:
    package = Path(mkdocs_stitchcheck.__file__).parent
    for file in package.rglob("*.py"):
        text = file.read_text(encoding="utf-8")
        assert not text.strip() or text.startswith('"""'), file
    assert importlib.import_module("mkdocs_stitchcheck.hosts.commandline").main.__doc__

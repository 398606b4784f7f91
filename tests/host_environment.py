"""An environment of its own for hosts that want other versions than the tests' own: the extra ``test-hosts``.

It is made once and kept in pytest's cache until ``pyproject.toml`` asks for something else.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import tomllib
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
EXTRA = "test-hosts"


@dataclass(frozen=True)
class Ended:
    """How a program ended."""

    code: int
    said: str


@dataclass(frozen=True)
class Environment:
    """The folder of programs of a virtual environment."""

    programs: Path

    def run(self, program: str, *arguments: object, cwd: Path) -> Ended:
        """Run a program of the environment in the folder *cwd*, as a writer has it in a wide terminal."""
        kept = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "COVERAGE"))}
        done = subprocess.run(
            [self.programs / program, *map(str, arguments)], cwd=cwd, timeout=120, check=False, text=True, encoding="utf-8",
            env={**kept, "COLUMNS": "250", "NO_COLOR": "1", "PYTHONUTF8": "1", "PYTHONDONTWRITEBYTECODE": "1", "LC_ALL": "C.UTF-8"},
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip
        return Ended(done.returncode, done.stdout)


def make_environment(request: pytest.FixtureRequest, factory: pytest.TempPathFactory) -> Environment:
    """The environment, made anew where the kept one is not for what the project declares now."""
    cache = request.config.cache
    folder = (cache.mkdir("hosts") if cache is not None else factory.mktemp("hosts")) / "env"
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [sys.version, str(ROOT), project["dependencies"], project["optional-dependencies"][EXTRA], project["entry-points"]]
    mark, made_for = folder / "made-for", hashlib.sha256(repr(wanted).encode()).hexdigest()
    programs = folder / ("Scripts" if os.name == "nt" else "bin")
    if not mark.is_file() or mark.read_text(encoding="utf-8") != made_for:
        shutil.rmtree(folder, ignore_errors=True)
        subprocess.run([sys.executable, "-m", "venv", folder], check=True)
        install = [programs / "python", "-m", "pip", "install", "-q", "--disable-pip-version-check", "-e", f"{ROOT}[{EXTRA}]"]
        done = subprocess.run(install, check=False, capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr
        mark.write_text(made_for, encoding="utf-8")
    return Environment(programs)

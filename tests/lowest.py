"""``python -m tests.lowest``: a good part of the tests with the lowest version of each dependency that is allowed.

It makes an environment of its own from what ``pyproject.toml`` declares; a few minutes, so not part of every run of the
tests. Words after it go to pytest, in place of the usual choice of tests.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
EXTRAS = ("pdf", "editor")
BESIDES = ("pytest", "hypothesis", "pypdf", "pillow", "pint")
TESTS = (
    "layers", "cases", "fences", "render", "sheet", "index", "settings", "hosts", "editor", "printing", "shop",
)  # fmt: skip
# What needs hosts, themes or tools that this environment leaves out.
WITHOUT = "not serve and not zensical and not properdocs and not material and not blog and not post and not i18n and not macros \
and not include and not example_site"


def lowest(wanted: str) -> str:
    """"Markdown>=3.7" as "Markdown==3.7.0": the lowest version that *wanted* allows."""
    found = re.match(r"([\w.-]+)>=(\d[\w.]*)", wanted)
    if found is None:
        raise ValueError(f"{wanted!r} has no lower bound")
    name, version = found.groups()
    return f"{name}=={version}" + (".0" if version.count(".") == 0 else "")


def main(tests: list[str]) -> int:
    """Make the environment and run the tests in it; pytest's exit code."""
    bounds = [*PROJECT["dependencies"], *(one for extra in EXTRAS for one in PROJECT["optional-dependencies"][extra])]
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "venv", folder], check=True)
        python = Path(folder, "Scripts" if os.name == "nt" else "bin", "python")
        pins = [lowest(one) for one in bounds]
        print("with", *pins, flush=True)
        install = [python, "-m", "pip", "install", "-q", "--disable-pip-version-check", "-e", f"{ROOT}[{','.join(EXTRAS)}]"]
        subprocess.run([*install, *pins, *BESIDES], check=True)
        chosen = tests or [*(f"tests/test_{name}.py" for name in TESTS), "-k", WITHOUT]
        around = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
        return subprocess.run([python, "-m", "pytest", "-p", "no:cacheprovider", *chosen], cwd=ROOT, env=around, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

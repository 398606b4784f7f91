"""The project as its users get it: built, installed into clean environments, and run there."""

from __future__ import annotations

import email
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest

import mkdocs_stitchcheck

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
PAGE = (
    "# Acorn cap\n\n```crochet\nTitle: Acorn cap\nTerms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n```\n"
)
SLIP = PAGE.replace("(12)", "(13)")


def run(*command: object, cwd: Path | None = None, code: int = 0) -> str:
    environment = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "COVERAGE"))}
    ended = subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        env={**environment, "NO_MKDOCS_2_WARNING": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1", "PIP_NO_COMPILE": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    assert ended.returncode == code, ended.stdout
    return ended.stdout


def pythons() -> list[str]:
    """The oldest and the newest Python at hand that the project supports, as commands that run."""
    kept_by_pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    found = []
    for minor in range(11, 20):
        name = f"python3.{minor}"
        for command in (shutil.which(name), *sorted(kept_by_pyenv.glob(f"3.{minor}.*/bin/{name}"))):
            if command and _can_make_environments(command):
                found.append(str(command))
                break
    found = found or [sys.executable]
    return [found[0], found[-1]]


def _can_make_environments(command: str | Path) -> bool:
    return subprocess.run([command, "-c", "import venv, ensurepip"], capture_output=True, check=False).returncode == 0


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with wheel and sdist, built from a copy of what is tracked."""
    folder = tmp_path_factory.mktemp("built")
    copy = folder / "project"
    copy.mkdir()
    for name in (
        "mkdocs_stitchcheck",
        "tests",
        "site_example",
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        ".license",
    ):
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__", "site", ".*"))
        elif source.exists():
            shutil.copy(source, copy / name)
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", folder, copy)
    return folder


def environment(python: str, folder: Path, *wanted: object) -> Path:
    """A clean environment of *python* with *wanted* in it; its folder of programs."""
    run(python, "-m", "venv", folder)
    programs = folder / ("Scripts" if os.name == "nt" else "bin")
    run(programs / "python", "-m", "pip", "install", "-q", *wanted)
    return programs


def test_what_is_in_wheel_and_sdist(built: Path) -> None:
    [wheel] = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as files:
        names = files.namelist()
        metadata = email.message_from_bytes(files.read(next(name for name in names if name.endswith("METADATA"))))
    tops = {name.split("/")[0] for name in names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"mkdocs_stitchcheck"}
    assert "mkdocs_stitchcheck/py.typed" in names
    ours = {path.relative_to(ROOT).as_posix() for path in (ROOT / "mkdocs_stitchcheck").rglob("*") if path.is_file()}
    assert {name for name in ours if "__pycache__" not in name and "/." not in name} <= set(names)
    assert metadata["Version"] == mkdocs_stitchcheck.__version__
    assert metadata["License-Expression"] == "MIT"
    [sdist] = built.glob("*.tar.gz")
    with tarfile.open(sdist) as files_of:
        inner = {name.partition("/")[2] for name in files_of.getnames()}
    assert {"pyproject.toml", "README.md", ".license", "tests/test_packaging.py"} <= inner


def test_classifiers_name_what_is_supported() -> None:
    named = {int(minor) for entry in PROJECT["classifiers"] for minor in re.findall(r"Python :: 3\.(\d+)$", entry)}
    assert min(named) == int(PROJECT["requires-python"].removeprefix(">=3."))
    assert PROJECT["dynamic"] == ["version"]


def use(programs: Path, folder: Path) -> None:
    """Run the command line and the site plugin on a right page and on one with a slip."""
    site = folder / "blog"
    (site / "docs").mkdir(parents=True)
    page = site / "docs/index.md"
    page.write_text(PAGE, encoding="utf-8")
    (site / "mkdocs.yml").write_text("site_name: Wool\nplugins: [stitchcheck]\n", encoding="utf-8")
    version = run(programs / "stitchcheck", "--version")
    assert version == f"stitchcheck {mkdocs_stitchcheck.__version__}\n"
    assert "Nothing to mend" in run(programs / "stitchcheck", "check", "docs", cwd=site)
    run(programs / "mkdocs", "build", "-q", "-d", "out", cwd=site)
    assert (site / "out/index.html").exists()
    shutil.rmtree(site / "out")
    page.write_text(SLIP, encoding="utf-8")
    assert "error[count-mismatch]" in run(programs / "python", "-m", "mkdocs_stitchcheck", "check", cwd=site, code=1)
    assert "count-mismatch" in run(programs / "mkdocs", "build", "-d", "out", cwd=site, code=1)
    assert not (site / "out/index.html").exists()
    code = "import markdown; print(markdown.markdown(open('docs/index.md').read(), extensions=['stitchcheck'])[:4])"
    run(programs / "python", "-c", code, cwd=site)


def test_oldest_python_and_oldest_dependencies(built: Path, tmp_path: Path) -> None:
    """The wheel with the lowest version of each dependency that is allowed."""
    [wheel] = built.glob("*.whl")
    lowest = [re.sub(r">=([\d.]+).*", r"==\1", wanted) for wanted in PROJECT["dependencies"]]
    lowest = [entry if entry.count(".") > 0 else f"{entry}.0" for entry in lowest]
    programs = environment(pythons()[0], tmp_path / "env", wheel, *lowest)
    use(programs, tmp_path)


def test_newest_python_and_newest_dependencies(built: Path, tmp_path: Path) -> None:
    """The sdist, as pip finds it best."""
    [sdist] = built.glob("*.tar.gz")
    programs = environment(pythons()[-1], tmp_path / "env", sdist)
    use(programs, tmp_path)

"""A stage imports only the stages above it, and the command line none of the hosts' libraries."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "mkdocs_stitchcheck"

# In the order in which a pattern passes them; what stands in one row may lean on each other.
STAGES = (
    ("late_re",),
    ("source", "findings", "rules"),
    ("results",),
    ("settings", "files", "configuration"),
    ("fences",),
    ("language",),
    ("counting",),
    ("estimates",),
    ("checks",),
    ("drawing",),
    ("triage", "whereabouts"),
    ("checker",),
    ("mending", "tidying", "retold", "corrections", "adopting", "proofreading"),
    ("report",),
    ("render",),
    ("film", "printing", "editor"),
    ("hosts", "__main__"),
)
LEVEL = {name: level for level, names in enumerate(STAGES) for name in names}


def imports(path: Path) -> set[str]:
    """The stages that a module imports when it runs; what only the type checker reads does not count."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            node.body = []
    parts = path.relative_to(PACKAGE).parts
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            if node.level:
                base = ["mkdocs_stitchcheck", *parts[:-1]][: len(parts) - node.level + 1]
                names = [".".join([*base, node.module])] if node.module else [".".join([*base, a.name]) for a in node.names]
            else:
                names = [node.module or ""]
            found |= {name.split(".")[1] for name in names if name.startswith("mkdocs_stitchcheck.")}
        elif isinstance(node, ast.Import):
            found |= {a.name.split(".")[1] for a in node.names if a.name.startswith("mkdocs_stitchcheck.")}
    return found


def stage_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


MODULES = [path for path in sorted(PACKAGE.rglob("*.py")) if path != PACKAGE / "__init__.py"]


@pytest.mark.parametrize("path", MODULES, ids=[str(path.relative_to(PACKAGE)) for path in MODULES])
def test_a_stage_imports_only_stages_above_it(path: Path) -> None:
    own = stage_of(path)
    assert own in LEVEL, f"{own} has no place in the order of stages"
    below = {name for name in imports(path) if LEVEL.get(name, -1) > LEVEL[own]}
    assert not below, f"{path.name} leans on {', '.join(sorted(below))}, which come after {own}"


def test_the_order_names_only_what_is_there() -> None:
    there = {stage_of(path) for path in MODULES}
    assert set(LEVEL) - there <= {"tidying"}


def test_the_command_line_imports_no_host_library() -> None:
    script = (
        "import sys\n"
        "from mkdocs_stitchcheck.hosts.commandline import main\n"
        "code = main(['check', '-', '--quiet'])\n"
        "heavy = [n for n in ('markdown', 'mkdocs', 'pymdownx', 'yaml', 'click', 'jinja2') if n in sys.modules]\n"
        "assert not heavy, heavy\n"
        "sys.exit(code)\n"
    )
    page = b"```crochet\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (13)\n```\n"
    ended = subprocess.run([sys.executable, "-c", script], input=page, capture_output=True, check=False)
    assert ended.returncode == 1, ended.stderr.decode()

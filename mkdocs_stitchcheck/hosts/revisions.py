"""A file as it lies on disk or as Git keeps it: ``docs/seal.md``, ``v1.2:docs/seal.md``."""

from __future__ import annotations

import os
import re
import subprocess

from ..files import LARGEST, Written, decode, read_file

_REVISION = re.compile(r"(?P<revision>[^\s:-][^\s:]*):(?P<path>[^:]+)")
_PATIENCE = 60  # seconds that Git may take


def read_state(name: str) -> tuple[str, Written]:
    """The path and text that *name* stands for; a file of that name goes before a revision. Raises OSError."""
    found = _REVISION.fullmatch(name)
    if os.path.exists(name) or found is None or len(found["revision"]) == 1 and "\\" in name:
        return name, read_file(name)
    return found["path"], decode(_from_git(found["revision"], found["path"]))


def _from_git(revision: str, path: str) -> bytes:
    """The file *path* in *revision*, seen from the repository's top or from the folder one is in."""
    problem = ""
    for place in (path, f"./{path}"):
        try:
            shown = subprocess.run(
                ["git", "show", "--end-of-options", f"{revision}:{place}"],
                capture_output=True, check=False, timeout=_PATIENCE, stdin=subprocess.DEVNULL,
            )  # fmt: skip
        except FileNotFoundError:
            raise OSError("Git is not installed, and there is no such file") from None
        except subprocess.TimeoutExpired:
            raise OSError(f"Git did not answer in {_PATIENCE} seconds") from None
        if shown.returncode == 0 and len(shown.stdout) <= LARGEST:
            return shown.stdout
        problem = problem or shown.stderr.decode("utf-8", "replace").strip().partition("\n")[0]
    raise OSError(f"there is no such file, and Git says: {problem.removeprefix('fatal: ') or 'it is too large'}")

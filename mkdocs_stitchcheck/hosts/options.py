"""The commands and options of the command line as data: help, completion and parser are made from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..report import FORMATS

Option = tuple[tuple[str, ...], dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Command:
    """A command: its line in the list, what its own help says first and last, and its options."""

    help: str
    options: tuple[Option, ...]
    about: str = ""
    more: str = ""


_CONFIG_FILE: Option = (
    ("--config-file",),
    {
        "metavar": "FILE",
        "help": "read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml",
    },
)
_COLOR: Option = (
    ("--color",),
    {
        "choices": ("auto", "always", "never"),
        "default": "auto",
        "help": "colours (auto: on a terminal; NO_COLOR is heeded)",
    },
)

_FORMAT_LIST = "\n".join(f"  {name:<7} {about}" for name, about in FORMATS.items())

COMMANDS: dict[str, Command] = {
    "check": Command(
        "check pages and patterns",
        (
            (
                ("paths",),
                {
                    "metavar": "PATH",
                    "nargs": "*",
                    "default": ["."],
                    "help": "Markdown pages, .txt patterns, folders, or - for the pipe (nothing: the folder you are in)",
                },
            ),
            (("--strict",), {"action": "store_true", "help": "warnings fail too"}),
            (("--quiet",), {"action": "store_true", "help": "show only what fails"}),
            (("--totals",), {"action": "store_true", "help": "also show rounds and stitches by piece"}),
            (
                ("--format",),
                {
                    "metavar": "FORMAT[=FILE]",
                    "action": "append",
                    "default": [],
                    "help": "how to report, see below; several times for several reports",
                },
            ),
            (("--output",), {"metavar": "FILE", "help": "write the report to a file"}),
            (("--watch",), {"action": "store_true", "help": "check again whenever a file changes, until Ctrl-C"}),
            _COLOR,
            _CONFIG_FILE,
            (("--stdin-name",), {"metavar": "PATH", "default": "", "help": "the name for what comes in by a pipe"}),
        ),
        about="Works every round of every pattern and says where a number is wrong.",
        more=f"formats:\n{_FORMAT_LIST}",
    ),
}

"""The command line ``stitchcheck``. It imports neither Markdown nor MkDocs, and reads a command's module when asked."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any, TextIO

from .. import __version__
from ..settings import SettingsError, near
from .options import COMMANDS, Command
from .unsaid import CannotTell, ended_by


class _Parser(argparse.ArgumentParser):
    """An option that isn't there ends with code 2 and a plain sentence."""

    def error(self, message: str) -> Any:
        hint = f"`{self.prog} --help` shows what there is."
        self.exit(2, f"stitchcheck: {message[:1].upper()}{message[1:].rstrip('.')}.\n{hint}\n")


def parser(only: str = "") -> argparse.ArgumentParser:
    """The parser with all commands, or with *only* the one that is asked for, which takes a tenth of the time."""
    main = _Parser(
        prog="stitchcheck",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=_ABOUT,
        epilog=_MORE,
    )
    main.add_argument("--version", action="version", version=f"stitchcheck {__version__}")
    commands = main.add_subparsers(
        title="commands", dest="command", metavar="COMMAND", required=True, parser_class=_Parser
    )
    for name in (only,) if only in COMMANDS else COMMANDS:
        _add(commands, name, COMMANDS[name])
    return main


_ABOUT = """\
Reads crochet patterns as you type them on your blog, works every round stitch by stitch,
and says where a number is wrong."""

_MORE = """\
Begin with:
  stitchcheck check docs            all pages in the folder docs
  stitchcheck check cap.txt         one pattern in a plain text file
  stitchcheck explain               what it looks for

It ends with 0 where nothing is wrong, 1 where something is, 2 where a file can't be read."""


def _add(commands: Any, name: str, command: Command) -> None:
    one = commands.add_parser(
        name,
        help=command.help,
        description=command.about or command.help,
        epilog=command.more or None,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    given = one.add_argument_group("what it works on")
    for names, settings in command.options:
        (one if names[0].startswith("-") else given).add_argument(*names, **settings)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line with *arguments* (those of the process by default) and give the exit code."""
    threshold = gc.get_threshold()
    gc.set_threshold(100_000, 20, 20)  # what a run makes, it mostly keeps: looking for litter took a fifth of its time
    try:
        return _main(arguments)
    finally:
        gc.set_threshold(*threshold)


def _main(arguments: Sequence[str] | None) -> int:
    for stream in (sys.stdout, sys.stderr):
        _never_fails(stream)
    try:
        arguments = list(sys.argv[1:] if arguments is None else arguments)
        if arguments and not arguments[0].startswith("-") and arguments[0] not in COMMANDS:
            print(f"stitchcheck: There is no command {arguments[0]!r}{near(arguments[0], COMMANDS)}", file=sys.stderr)
            return 2
        chosen = parser(arguments[0] if arguments else "").parse_args(arguments)
        module = import_module(f".commands.{chosen.command}", __package__)
        code: int = module.command(chosen)
        sys.stdout.flush()
        return code
    except SystemExit as ended:  # --help, --version, a wrong option
        return ended.code if isinstance(ended.code, int) else 2
    except SettingsError as error:
        for problem in error.problems:
            print(f"stitchcheck: {problem}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        return 130
    except CannotTell as unsaid:
        return ended_by(unsaid.reason)
    except OSError as error:  # what is read and written by name is seen to where that is done
        return ended_by(error)


def _never_fails(stream: TextIO) -> None:
    """A letter that the terminal can't show is written as its number."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="backslashreplace")

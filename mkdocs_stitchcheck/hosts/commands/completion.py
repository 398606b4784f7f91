"""``stitchcheck completion``: a script that lets a shell complete commands, options and rule names."""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Iterator

from ...report import FORMATS
from ...rules import DEFAULT_SEVERITIES
from ..options import COMMANDS, Command, Option


def command(arguments: argparse.Namespace) -> int:
    """Print the script for the shell."""
    print({"bash": bash, "zsh": zsh, "fish": fish}[arguments.shell](), end="")
    return 0


def _flags(command: Command) -> list[Option]:
    return [option for option in command.options if option[0][0].startswith("-")]


def _choices(name: str, settings: dict[str, object]) -> list[str]:
    """What may follow the option or place *name*; empty where it is a file or free words."""
    if name == "--format":
        return list(FORMATS)
    if name == "rule":
        return list(DEFAULT_SEVERITIES)
    choices = settings.get("choices")
    return [str(choice) for choice in choices] if isinstance(choices, tuple | list) else []


def _place(command: Command) -> list[str] | None:
    """The words that may stand as the command's argument; None where it takes files."""
    for (name, *_), settings in command.options:
        if not name.startswith("-"):
            return None if name == "paths" else _choices(name, settings)
    return []


def _takes_value(settings: dict[str, object]) -> bool:
    return settings.get("action") not in ("store_true",)


def bash() -> str:
    """For bash: ``eval "$(stitchcheck completion bash)"``."""
    after, words, files = [], [], []
    for name, one in COMMANDS.items():
        flags = [option[0][0] for option in _flags(one)]
        words.append(f"        {name}) words={shlex.quote(' '.join([*flags, '--help', *(_place(one) or [])]))} ;;")
        files.extend([name] if _place(one) is None else [])
        after += [(flag, _choices(flag, settings)) for (flag, *_), settings in _flags(one) if _takes_value(settings)]
    values = "\n".join(
        f"        {flag}) value=yes words={shlex.quote(' '.join(choices))}; "
        + ("" if choices else 'COMPREPLY=($(compgen -f -- "$cur")); return; ')
        + ";;"
        for flag, choices in dict(after).items()
    )
    return f"""\
_stitchcheck() {{
    local cur prev words= value=
    cur=${{COMP_WORDS[COMP_CWORD]}} prev=${{COMP_WORDS[COMP_CWORD-1]}}
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        COMPREPLY=($(compgen -W {shlex.quote(" ".join([*COMMANDS, "--help", "--version"]))} -- "$cur")); return
    fi
    case $prev in
{values}
    esac
    [ -n "$words" ] || case ${{COMP_WORDS[1]}} in
{chr(10).join(words)}
    esac
    COMPREPLY=($(compgen -W "$words" -- "$cur"))
    [ -z "$value" ] || return
    case " {" ".join(files)} " in
        *" ${{COMP_WORDS[1]}} "*) case $cur in -*) ;; *) COMPREPLY+=($(compgen -f -- "$cur")) ;; esac ;;
    esac
}}
complete -o filenames -F _stitchcheck stitchcheck
"""


def zsh() -> str:
    """For zsh: ``eval "$(stitchcheck completion zsh)"`` after ``compinit``."""
    listed = "\n".join(f"        {shlex.quote(f'{name}:{one.help}')}" for name, one in COMMANDS.items())
    cases = "\n".join(f"        {name}) {_zsh_case(one)} ;;" for name, one in COMMANDS.items())
    return f"""\
#compdef stitchcheck
_stitchcheck() {{
    local -a commands=(
{listed}
    )
    if (( CURRENT == 2 )); then
        _describe command commands
        return
    fi
    local chosen=$words[2]
    shift words
    (( CURRENT-- ))
    case $chosen in
{cases}
    esac
}}
compdef _stitchcheck stitchcheck
"""


def _zsh_case(one: Command) -> str:
    arguments = list(_zsh_arguments(one))
    return f"_arguments {' '.join(arguments)}" if arguments else "_message word"


def _zsh_arguments(one: Command) -> Iterator[str]:
    for (flag, *_), settings in _flags(one):
        told = str(settings.get("help", "")).replace("[", "(").replace("]", ")").replace(":", " -")
        value = ""
        if _takes_value(settings):
            choices = _choices(flag, settings)
            value = f":value:({' '.join(choices)})" if choices else ":file:_files"
        many = "*" if settings.get("action") == "append" else ""
        yield shlex.quote(f"{many}{flag}[{told}]{value}")
    place = _place(one)
    if place is None:
        yield shlex.quote("*:file:_files")
    elif place:
        yield shlex.quote(f"1:word:({' '.join(place)})")


def fish() -> str:
    """For fish: ``stitchcheck completion fish | source``."""
    lines = ["complete -c stitchcheck -n __fish_use_subcommand -f"]
    for name, one in COMMANDS.items():
        only = f"complete -c stitchcheck -n '__fish_seen_subcommand_from {name}'"
        lines.append(f"complete -c stitchcheck -n __fish_use_subcommand -a {name} -d {shlex.quote(one.help)}")
        for (flag, *_), settings in _flags(one):
            choices = _choices(flag, settings)
            value = f" -x -a {shlex.quote(' '.join(choices))}" if choices else " -r" if _takes_value(settings) else ""
            lines.append(f"{only} -l {flag.removeprefix('--')}{value} -d {shlex.quote(str(settings.get('help', '')))}")
        place = _place(one)
        if place is not None:
            lines.append(f"{only} -f" + (f" -a {shlex.quote(' '.join(place))}" if place else ""))
    return "\n".join(lines) + "\n"

"""Style sheets and script as a site delivers them: without comments and needless white space."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

from .by_size import size_rules


def _read(name: str) -> str:
    return files(__package__).joinpath(name).read_text(encoding="utf-8")


# The libraries for this take the space before ":is(" away in nested rules, and with it the meaning.
_STRING_OR_SPACE = re.compile(r"(\"[^\"\n]*\")|\s*([{};>]|!important)\s*|([,:])\s+|\s+")


def _packed(css: str) -> str:
    """*css* without comments, a rule after the other."""
    css = re.sub(r"/\*.*?\*/", "", css, flags=re.DOTALL)
    css = _STRING_OR_SPACE.sub(lambda found: found[1] or found[2] or found[3] or " ", css)
    return css.replace(";}", "}").strip() + "\n"


@cache
def stylesheet() -> str:
    """The style sheet of the page."""
    return _packed(_read("stitchcheck.css") + size_rules())


@cache
def sheet_stylesheet() -> str:
    """The style sheet of the printable sheet, which each sheet carries within itself."""
    return _packed(_read("sheet.css"))


@cache
def print_stylesheet() -> str:
    """What a printed edition needs besides the sheet's rules."""
    return _read("printed.css")


@cache
def script() -> str:
    """The script of the page: what needs one to follow a pattern on it."""
    from rjsmin import jsmin

    return str(jsmin(_read("stitchcheck.js"))).replace(";}", "}") + "\n"  # no string of it holds these two

"""``stitchcheck editor``: the language server, on standard input and output."""

from __future__ import annotations

import argparse
import sys

_MISSING = """\
stitchcheck: The editor needs pygls, which is not installed.
Install it with:  pip install 'mkdocs-stitchcheck[editor]'"""


def command(arguments: argparse.Namespace) -> int:
    """Serve until the editor ends it; 2 where the extra's library is missing."""
    try:
        from ..language_server import make_server
    except ImportError as missing:
        if (missing.name or "").split(".")[0] not in ("pygls", "lsprotocol", "cattrs", "attrs"):
            raise
        print(_MISSING, file=sys.stderr)
        return 2
    if sys.stdin.isatty():
        print("stitchcheck: Your editor starts this itself and talks to it; the README shows how. Ctrl-C ends it.", file=sys.stderr)
    make_server(arguments.config_file).start_io()
    return 0

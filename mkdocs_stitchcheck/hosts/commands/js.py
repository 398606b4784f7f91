"""``stitchcheck js``: the script, for sites that the plugin can't give it to."""

from __future__ import annotations

import argparse
import sys

from ...render.assets import script


def command(_arguments: argparse.Namespace) -> int:
    """Print the script of pages."""
    sys.stdout.write(script())
    return 0

"""``stitchcheck css``: the stylesheet, for sites that the plugin can't give it to."""

from __future__ import annotations

import argparse
import sys

from ...render.assets import stylesheet


def command(_arguments: argparse.Namespace) -> int:
    """Print the stylesheet of pages and sheets."""
    sys.stdout.write(stylesheet())
    return 0

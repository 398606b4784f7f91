"""Golden files: what an output must look like, to the last sign.

``STITCHCHECK_REWRITE=1`` writes them anew; read the difference before you commit it.
"""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent / "golden"
REWRITE = os.environ.get("STITCHCHECK_REWRITE") == "1"


def compare(name: str, text: str) -> None:
    """Fail unless *text* is what the golden file *name* holds."""
    file = FOLDER / name
    if REWRITE:
        FOLDER.mkdir(exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="")
    with open(file, encoding="utf-8", newline="") as golden:
        assert text == golden.read()

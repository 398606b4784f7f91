"""``python -m tests.oracle --rounds 10000 --seed 1``: a long comparison; each disagreement with its small page."""

from __future__ import annotations

import argparse
import sys
from collections import Counter

from mkdocs_stitchcheck.checker import check_text

from .compare import compare, suspects
from .lace import generate_lace
from .page import generate
from .sizes import generate_sized


def main() -> int:
    """Compare and print. Returns 1 where the checker and the hands differ."""
    options = argparse.ArgumentParser(prog="python -m tests.oracle", description=__doc__)
    options.add_argument("--rounds", type=int, default=10000, help="written lines to compare")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--size", type=int, default=9, help="about how many lines a piece has")
    options.add_argument("--show", type=int, default=10, help="disagreements printed with their page")
    options.add_argument("--brief", action="store_true", help="one line a disagreement, no pages")
    options.add_argument("--sizes", action="store_true", help="pages in several sizes only")
    options.add_argument("--lace", action="store_true", help="lace only: spaces, groups, corners, mesh, edgings, multiples")
    chosen = options.parse_args()
    make = generate_sized if chosen.sizes else generate_lace if chosen.lace else generate
    tally = compare(chosen.rounds, chosen.seed, lambda text: check_text(text, "oracle.md"), chosen.size, make)
    for one in tally.wrong if chosen.brief else tally.wrong[: chosen.show]:
        print(one if chosen.brief else f"{one}\n{'-' * 60}\n{one.text}{'=' * 60}")
    print(f"{tally.lines} lines on {tally.pages} pages, {len(tally.forms)} forms; {len(tally.wrong)} pages disagree")
    for of, number in Counter(one.of or "(other)" for one in tally.wrong).most_common():
        print(f"  {number:5} {of}")
    for name, bad, met in suspects(tally)[:40]:
        print(f"  {bad:5} of {met:5} lines with  {name}")
    return 1 if tally.wrong else 0


if __name__ == "__main__":
    sys.exit(main())

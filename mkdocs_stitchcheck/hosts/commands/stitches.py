"""``stitchcheck stitches``: the stitches that are known, in US and UK terms."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable

from ...language.meanings import meaning
from ...language.vocabulary import SLIPS, SYSTEMS, Stitch, abbreviation, full_name, stitches, words
from ...settings import near

_SEE_TABLE = "`stitchcheck stitches` shows the table."
_BEGINNINGS = ("standing", "chainless")  # a stitch that begins a round without a chain is written with any of them


def command(arguments: argparse.Namespace) -> int:
    """Show the table, or what is known of one word; 2 for a word that isn't known."""
    if not arguments.word:
        print(_table(stitches().values()))
        print(
            "\nAlso read: increases and decreases of each (hdc inc, dc2tog, tr3tog), stitches around the post from\n"
            "the front and the back (FPdc, BPdc), and whatever a pattern declares under Special stitch."
        )
        return 0
    word = " ".join(arguments.word)
    meanings = {system: found for system in SYSTEMS if (found := meaning(word, system)) is not None}
    if meanings:
        print("\n".join(_told(word, system, stitch) for system, stitch in meanings.items()))
        return 0
    named = [stitch for stitch in stitches().values() if _named(stitch, word.lower())]
    if named:
        print(_table(named))
        return 0
    said = f"; did you mean {SLIPS[word][0]}?" if word in SLIPS else near(word, _short(), _SEE_TABLE)
    print(f"stitchcheck: {word!r} is no stitch that is known{said}", file=sys.stderr)
    return 2


def _short() -> list[str]:
    """Abbreviations and names of the stitches in the table, in both terms."""
    pairs = [(stitch, system) for stitch in stitches().values() for system in SYSTEMS]
    return list(dict.fromkeys(word(*pair) for pair in pairs for word in (abbreviation, full_name)))


def _named(stitch: Stitch, word: str) -> bool:
    return any(word in full_name(stitch, system).lower() for system in SYSTEMS)


def _told(word: str, system: str, stitch: Stitch) -> str:
    other = "UK" if system == "US" else "US"
    same = abbreviation(stitch, other)
    elsewhere = f"; {other}: {same}" if same != abbreviation(stitch, system) else ""
    ways = sorted(
        {" ".join(entry) for entry, found in words(system).items() if found == stitch and entry[0] not in _BEGINNINGS},
        key=lambda way: (len(way), way),
    )
    lines = [
        f"{word} in {system} terms: {full_name(stitch, system)}{elsewhere}",
        f"  {_takes(stitch)}",
    ]
    if ways:
        lines.append(f"  also written: {', '.join(ways[:12])}")
    return "\n".join(lines)


def _takes(stitch: Stitch) -> str:
    into = {0: "is worked into no stitch", 1: "is worked into 1 stitch"}.get(
        stitch.uses, f"is worked into {stitch.uses} stitches"
    )
    return f"{into} and gives {stitch.makes or 'none'}"


def _table(found: Iterable[Stitch]) -> str:
    rows = [("US", "UK", "in US words", "in UK words", "into", "gives")]
    rows += [
        (
            abbreviation(stitch, "US"),
            abbreviation(stitch, "UK"),
            full_name(stitch, "US"),
            full_name(stitch, "UK"),
            str(stitch.uses),
            str(stitch.makes),
        )
        for stitch in found
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(6)]
    return "\n".join(
        "  ".join(cell.ljust(room) for cell, room in zip(row, widths, strict=True)).rstrip() for row in rows
    )

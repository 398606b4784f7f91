"""``stitchcheck yarn``: yarn, size, stuffing and time of patterns, as written and in another yarn."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator

from ...estimates.another_yarn import Estimates, estimate, in_another_yarn
from ...estimates.effort import effort, time_text
from ...estimates.rounding import SMALL_GRAMS, written
from ...estimates.size import PieceSize
from ...estimates.words import measures, stuffing_words
from ...estimates.yarn import ColorYarn, yarn_table
from ...report.display import one_line
from ...results import PatternResult
from ..checking import run, say_unreadable


def command(arguments: argparse.Namespace) -> int:
    """Print the estimates; 2 for a yarn, gauge or number that can't be, or a file that can't be read."""
    try:
        _check_numbers(arguments)
        outcome = run(arguments.paths, config_file=arguments.config_file, quietly=True)
        patterns = [pattern for result in outcome.results for pattern in result.patterns]
        texts = ["\n".join(told(pattern, arguments)) for pattern in patterns]
    except ValueError as error:
        print(f"stitchcheck: {error}", file=sys.stderr)
        return 2
    if texts:
        print("\n\n".join(texts))
    elif not outcome.unreadable:
        print("No pattern there.")
    say_unreadable(outcome.unreadable)
    return 2 if outcome.unreadable else 0


def _check_numbers(arguments: argparse.Namespace) -> None:
    if not 1 <= arguments.made <= 1_000_000:
        raise ValueError("--made is a number from 1 to 1,000,000.")
    if arguments.pace is not None and not 0 < arguments.pace < 1000:
        raise ValueError("--pace is a number of stitches a minute above 0, and below 1,000.")


def told(pattern: PatternResult, arguments: argparse.Namespace) -> Iterator[str]:
    """The lines for one pattern. Raises ValueError for a yarn or gauge that can't be read."""
    own = estimate(pattern, arguments.made)
    other = bool(arguments.yarn or arguments.gauge)
    found = in_another_yarn(pattern, arguments.yarn, arguments.gauge, arguments.made) if other else own
    yield one_line(pattern.title or "Pattern") + (f", made {arguments.made:,} times" if arguments.made > 1 else "")
    if other:
        yield f"  in {_named(arguments, found)}; in brackets as written, {_own_gauge(own)}"
    was = {color.color: color for color in own.yarn.colors} if other else {}
    names = pattern.syntax.header.sizes
    yield from _section("Yarn" + (f" for size {one_line(names[0])}" if names else ""), _yarn_rows(found, was))
    for place, name in enumerate(names[1:], 1) if not other else ():
        table = yarn_table(pattern, arguments.made, place=place)
        rows = [(_color_name(color), amount(color)) for color in table.colors]
        yield from _section(f"Yarn for size {one_line(name)}", rows)
    before = {(size.piece, size.size): size for size in own.sizes.pieces} if other else {}
    yield from _section("Size of one", _size_rows(found, before))
    yield from _section("Stuffing", _stuffing_rows(found, own if other else None, arguments.made))
    yield from _section("Time of one", _times(pattern, arguments.pace))


def _times(pattern: PatternResult, pace: float | None) -> list[tuple[str, str]]:
    """The time of each size."""
    found = []
    for place, name in enumerate(pattern.syntax.header.sizes or ("",)):
        time = effort(pattern, pace, place) if pace is not None else effort(pattern, place=place)
        if time is not None:
            found.append((one_line(name), time_text(time)))
    return found


def _named(arguments: argparse.Namespace, found: Estimates) -> str:
    """"50 g = 125 m at 22 sc x 24 rnds = 10 cm"."""
    gauge = found.gauge.text if found.gauge is not None else ""
    yarn = arguments.yarn or "the pattern's yarn"
    return one_line(f"{yarn} at {gauge}" if gauge else yarn)


def _own_gauge(own: Estimates) -> str:
    return one_line(f"at {own.gauge.text}") if own.gauge is not None else "without a gauge"


def _section(title: str, rows: Iterable[tuple[str, str]]) -> Iterator[str]:
    rows = list(rows)
    if not rows:
        return
    yield f"  {title}"
    room = min(24, max(len(name) for name, _words in rows))
    for name, words in rows:
        yield f"    {name.ljust(room)}  {words}" if room else f"    {words}"


# --- yarn -------------------------------------------------------------------------------------------------------------


def _yarn_rows(found: Estimates, was: dict[str, ColorYarn]) -> Iterator[tuple[str, str]]:
    table = found.yarn
    for color in table.colors:
        before = f" ({_bare(amount(was[color.color]))})" if color.color in was else ""
        error = max(color.error, color.weight_error) if color.grams is not None else color.error
        yield _color_name(color), f"{amount(color)}{before}; {color.basis}, about {error * 100:.0f} %"
    if table.missing:
        yield ("needed", "; ".join(table.missing))
    if table.left_out:
        yield ("not in it", one_line("; ".join(table.left_out)))


def _color_name(color: ColorYarn) -> str:
    return one_line(f"{color.color} {color.name}".strip() or "Yarn")


def amount(color: ColorYarn) -> str:
    """"34 m, 14 g, 1 ball", "small amount (about 3 m)"."""
    length = f"{written(color.metres, color.error)} m"
    if color.grams is None:
        return length
    if color.grams < SMALL_GRAMS:
        return f"small amount (about {length})"
    balls = f", {color.balls:,} ball{'' if color.balls == 1 else 's'}" if color.balls else ""
    return f"{length}, {written(color.grams, color.weight_error)} g{balls}"


def _bare(words: str) -> str:
    """Words that stand in brackets themselves: "small amount, about 3 m"."""
    return words.replace(" (", ", ").replace(")", "")


# --- size, stuffing ---------------------------------------------------------------------------------------------------


def _size_rows(found: Estimates, before: dict[tuple[str, str], PieceSize]) -> Iterator[tuple[str, str]]:
    for size in found.sizes.pieces:
        old = before.get((size.piece, size.size))
        words = ", ".join(measures(size)) or f"not known: it needs {'; '.join(size.missing)}"
        was = f" ({', '.join(measures(old))})" if old is not None and measures(old) else ""
        name = size.piece + (f", {size.size}" if size.size else "") + (f" × {size.make}" if size.make > 1 else "")
        yield one_line(name), words + was
    if found.sizes.missing:
        yield ("needed", "; ".join(found.sizes.missing))


def _stuffing_rows(found: Estimates, own: Estimates | None, made: int) -> Iterator[tuple[str, str]]:
    for index, one in enumerate(found.stuffing):
        words = stuffing_words(one, made)
        if not words:
            continue
        old = own.stuffing[index] if own is not None and index < len(own.stuffing) else None
        was = f" ({stuffing_words(old, made)})" if old is not None and stuffing_words(old, made) else ""
        yield one_line(one.size), f"{words}{was}"

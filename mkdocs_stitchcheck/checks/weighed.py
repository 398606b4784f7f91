"""What was weighed and swatched: names that are no colour or piece, and swatches that contradict each other."""

from __future__ import annotations

from math import fsum

from .. import late_re as re
from ..estimates.basis import put_up_of, swatch_width, swatches_of
from ..estimates.weighing import observations
from ..findings import Findings
from ..language import syntax
from ..language.near import nearest
from ..language.quantities import Swatch
from ..results import PatternResult

CONTRADICT = 1.3  # two swatches of one stitch differ by hands, not by so much: from memory
OFF_GAUGE = 2.0  # a swatch whose yarn is so far from what its gauge takes holds a slip: from memory


def check_weighed(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unlisted-color and unknown-piece for a name under Weighed that the pattern does not have."""
    if not pattern.header.weighings:
        return
    _found, unknown = observations(result)
    colors = {name: "color" for color in pattern.header.colors.values() for name in (color.key, color.name) if name}
    pieces = [piece.name for piece in result.pieces]
    for name in dict.fromkeys(unknown):
        for line in pattern.header.lines:
            match = re.search(rf"(?<!\w){re.escape(name)}(?!\w)", line.statement.text) if line.key == "weighed" else None
            if match is None:
                continue
            near = nearest(name.lower(), [known.lower() for known in (*colors, *pieces)])
            is_color = re.fullmatch(r"[A-Z]|[MC]C\d?", name, re.IGNORECASE) is not None
            findings.add(
                "unlisted-color" if is_color else "unknown-piece", line.statement.span(*match.span()),
                f"{name} was weighed, and the pattern has no {'colour' if is_color else 'colour or piece'} of that name; "
                "the weight is left out.",
                suggestion=f"Did you mean {near}?" if near else "Write a colour's letter or a piece's name, as in A 31 g.",
            )
            break


def check_swatches(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """put-up: two swatches of one stitch that take far more or less than each other, or one far from its own gauge."""
    header = pattern.header
    for yarn in range(max(1, len(header.yarns))):
        put_up = put_up_of(header, yarn)
        density = put_up.grams / put_up.metres if put_up is not None else None
        found = [(swatch, width) for swatch in swatches_of(header, yarn)
                 if (width := swatch_width(swatch, header, density)) is not None]
        _contradictions(header, found, findings)
        gauge = header.gauge.stitch_cm if header.gauge is not None else None
        for swatch, width in found:
            if gauge is not None and len(found) == 1 and not 1 / OFF_GAUGE <= width / gauge <= OFF_GAUGE:
                more = "more" if width > gauge else "less"
                _report(header, swatch, f"This swatch takes {_times(width / gauge)} {more} yarn than its gauge does.",
                        findings)


def _contradictions(header: syntax.Header, found: list[tuple[Swatch, float]], findings: Findings) -> None:
    for swatch, width in found[1:]:
        others = [other for one, other in found if one is not swatch and one.stitch == swatch.stitch]
        mean = fsum(others) / max(len(others), 1)
        if others and not 1 / CONTRADICT <= width / mean <= CONTRADICT:
            more = "more" if width > mean else "less"
            _report(header, swatch, f"This swatch takes {_times(width / mean)} {more} yarn a stitch than the "
                    "other one; the estimate takes the mean of both.", findings)
            return


def _times(ratio: float) -> str:
    ratio = ratio if ratio > 1 else 1 / ratio
    return f"{ratio:.1f} times".replace(".0 ", " ") if ratio < 10 else f"{ratio:.0f} times"


def _report(header: syntax.Header, swatch: Swatch, message: str, findings: Findings) -> None:
    line = next((one for one in header.lines if one.key == "swatch" and one.value.strip() == swatch.text), None)
    if line is not None:
        text = line.statement.text
        findings.add("put-up", line.statement.span(line.value_start, len(text.rstrip())), message,
                     suggestion="Compare its stitches, its rows and its weight with what you wrote down.")

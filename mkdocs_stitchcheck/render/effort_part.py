"""What the work asks for: time as a range, the project level with its reason, the skills."""

from __future__ import annotations

from ..estimates.effort import PACE, Effort, effort, time_text
from ..estimates.level import Level, project_level
from ..results import PatternResult
from .by_size import each_size
from .context import Context
from .html import Html, el, lines
from .materials import part_title


def effort_part(pattern: PatternResult, ctx: Context) -> Html | None:
    """Time, level and skills as a list; None where no stitches are known."""
    pace = ctx.options.pace or PACE
    time, level = effort(pattern, pace), project_level(pattern)
    if time is None or level is None:
        return None
    slow, quick = sorted(pace) if isinstance(pace, tuple) else (pace, pace)
    said: Html | str = _time(time, slow, quick)
    if len(pattern.syntax.header.sizes) > 1:
        said = each_size(pattern, lambda place: _time_in(pattern, pace, slow, quick, place))
    rows = [_row("Time", said), *_level_rows(level)]
    title = part_title("Time and skills", ctx)
    return el("div", lines("", title, el("dl", lines("", rows, ""), class_="sc-list"), ""), class_="sc-part sc-effort")


def time_part(pattern: PatternResult, ctx: Context) -> Html | None:
    """The time alone, for the sheet; None where no stitches are known."""
    pace = ctx.options.pace or PACE
    slow, quick = sorted(pace) if isinstance(pace, tuple) else (pace, pace)
    if effort(pattern, pace) is None:
        return None
    if len(pattern.syntax.header.sizes) > 1:
        said: Html | str = each_size(pattern, lambda place: _time_in(pattern, pace, slow, quick, place))
    else:
        said = _time_in(pattern, pace, slow, quick, 0)
    return el("div", lines("", part_title("Time", ctx), el("p", said), ""), class_="sc-part sc-time")


def _time_in(
    pattern: PatternResult, pace: tuple[float, float] | float, slow: float, quick: float, place: int
) -> str:
    """The time in the size with number *place*."""
    time = effort(pattern, pace, place)
    return _time(time, slow, quick) if time is not None else "no stitches are known."


def _row(label: str, words: Html | str) -> Html:
    return el("div", el("dt", label), "\n", el("dd", words))


def _time(time: Effort, slow: float, quick: float) -> str:
    pace = f"{slow:g} to {quick:g}" if slow != quick else f"{slow:g}"
    said = f"{time_text(time)}: {time.stitches:,} stitches at {pace} a minute"
    if time.sewn:
        said += f", {time.sewn} piece{'' if time.sewn == 1 else 's'} to sew on"
    if time.face:
        said += ", a face"
    if time.left_out:
        said += f". Not in it: {'; '.join(time.left_out)}"
    return f"{said}."


def _level_rows(level: Level) -> list[Html]:
    return [_row("Project level", f"{level.name}, by its stitches. {level.reason}"),
            _row("Skills", f"{', '.join(level.skills)}.")]

"""What a maker asks for and a header leaves unsaid; hooks, notions, the level and the gauge in their details."""

from __future__ import annotations

from collections.abc import Iterator

from .. import late_re as re
from ..findings import Findings
from ..language import syntax
from ..language.quantities import Length
from ..results import PatternResult
from ..source import Span, Statement
from .notions import is_yarn, listed_items
from .reading import all_words, is_whole, worked_lines
from .stuffing import lists_stuffing

WHOLE_FROM = 8  # rounds: what has fewer is an example or a part of a pattern

_BODY = re.compile(r"\b(?:bust|chest|hips?|head circumference)\b", re.IGNORECASE)
_HOOK_LISTED = re.compile(r"\bhooks?\b", re.IGNORECASE)
_EASE = re.compile(r"\bease\b|\bto fit\b|\bfits\b", re.IGNORECASE)


def check_details(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """left-unsaid: what a whole pattern with materials doesn't say. Once a pattern; not in drafts."""
    missing = unsaid(pattern, result)
    if missing:
        at = pattern.header.lines[0].statement
        findings.add(
            "left-unsaid", at.span(), f"The pattern doesn't say {_or(missing)}.",
            suggestion="Makers ask for it before they begin; one header line answers them all.",
        )


def unsaid(pattern: syntax.Pattern, result: PatternResult) -> list[str]:
    """What a whole pattern leaves unsaid, as ends of a sentence; [] for a part of a pattern and for a draft."""
    rounds = sum(line.worked for line in result.rounds if line.counts)
    if pattern.draft or rounds < WHOLE_FROM or not is_whole(pattern.header):
        return []
    return list(_missing(pattern))


def _missing(pattern: syntax.Pattern) -> Iterator[str]:
    header = pattern.header
    if not header.title:
        yield "its title"
    listed = [statement.text[start:end] for statement, start, end in listed_items(header)]
    if not header.yarns and not any(is_yarn(item) for item in listed):
        yield "which yarn it takes"
    elif header.yarns and all(yarn.put_up is None and yarn.category is None for yarn in header.yarns) and not header.gauge:
        yield "how thick the yarn is"
    if header.colors and not any(color.amount for color in header.colors.values()):
        yield "how much of each colour it takes"
    if header.first("hook") is None and not any(_HOOK_LISTED.search(item) for item in listed):
        yield "which hook"
    if header.first("gauge") is None:
        yield "the gauge"
    elif header.gauge is not None and header.gauge.stitches and not header.gauge.rows:
        yield "how many rows the gauge has"
    if header.first("finished size") is None and not header.sizes:
        yield "how large it gets"
    if header.sizes and _BODY.search(_sizes_said(header)) and not _EASE.search(f"{_sizes_said(header)}\n{all_words(pattern)}"):
        yield "whether the measures are to fit or finished, and how much ease there is"
    published = any(header.first(key) for key in ("corrected", "copyright", "licence"))
    if published and not header.first("version") and not header.first("date"):
        yield "its version or date"


def _sizes_said(header: syntax.Header) -> str:
    return "\n".join(line.value for line in header.lines if line.key in ("sizes", "finished size", "notes"))


def _or(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


# --- notions --------------------------------------------------------------------------------------------------------

_SIZED = re.compile(r"\b(?:safety eyes?|eyes|safety noses?|buttons?|beads?|bells?|magnets?)\b", re.IGNORECASE)
_MEASURE = re.compile(r"\d ?(?:mm|cm|in|inch)|\d ?\"|\d/0|\b(?:tiny|small|large|any)\b", re.IGNORECASE)
_QUANTITY = re.compile(r"\(\d+\)|\b(?:pairs?|two|three|four|one|a|an|some|several|few|optional)\b|\b\d+ ?x\b|\bx ?\d|^\W*\d+ (?!mm|cm|in)|[:,] ?\d+\b(?! ?(?:mm|cm))", re.IGNORECASE)


def check_notion_sizes(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """notion-without-size: eyes, buttons and the like are listed without their size, or without how many. In whole patterns only."""
    if not is_whole(pattern.header):
        return
    for statement, start, end in listed_items(pattern.header):
        item = statement.text[start:end]
        match = _SIZED.search(item)
        if match is None or re.search(r"embroider|felt|thread|\bfor\b", item, re.IGNORECASE):
            continue
        lacks = [word for word, known in (("what size", _MEASURE.search(item)), ("how many", _QUANTITY.search(item))) if not known]
        if lacks:
            findings.add(
                "notion-without-size", statement.span(start, end),
                f"The list doesn't say {' and '.join(lacks)} the {match[0].lower()} are."
                if "what size" in lacks and len(lacks) == 1 else f"The list doesn't say {' and '.join(lacks)} {match[0].lower()}.",
                suggestion="Write it as in 8 mm safety eyes (2).",
            )


# --- hooks ----------------------------------------------------------------------------------------------------------

_HOOK_OF = re.compile(
    r"\b(\d{1,2}(?:[.,]\d{1,2})?) ?mm (?:crochet )?hook|\bhook (?:of |size )?(\d{1,2}(?:[.,]\d{1,2})?) ?mm|"
    r"\b(?:change|switch|go|move) (?:up |down |back )?to (?:a |the )?(\d{1,2}(?:[.,]\d{1,2})?) ?mm",
    re.IGNORECASE,
)
_ANOTHER = re.compile(r"\b(?:larger|smaller|bigger|thinner|thicker|finer|other|second) (?:crochet )?hook", re.IGNORECASE)


def check_hooks(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """unlisted-hook and unused-hook: the hooks of the materials against those of the steps."""
    hooks = pattern.header.hooks
    if not hooks:
        return
    listed = {round(hook.value, 2) for hook in hooks}
    named: set[float] = set()
    for _piece, line in worked_lines(pattern):
        if "mm" not in line.statement.words.lower():
            continue
        statement = line.statement.as_read()
        for match in _HOOK_OF.finditer(statement.text):
            size = float(next(group for group in match.groups() if group).replace(",", "."))
            named.add(size)
            if size not in listed and not any(hook.high and hook.value <= size <= hook.high for hook in hooks):
                listed.add(size)
                findings.add(
                    "unlisted-hook", statement.span(*match.span()),
                    f"A hook of {size:g} mm is needed here, and the materials don't list it.",
                    suggestion="Add it to Hook, or write the one you used.",
                )
    _unused_hook(pattern, hooks, named, findings)


def _unused_hook(pattern: syntax.Pattern, hooks: list[Length], named: set[float], findings: Findings) -> None:
    line = pattern.header.first("hook")
    if len(hooks) < 2 or line is None or re.search(r"\b(?:or|for|to|and up)\b|-", line.value, re.IGNORECASE):
        return
    words = "\n".join([all_words(pattern), *(other.value for other in pattern.header.lines if other.key != "hook")])
    if _ANOTHER.search(words):
        return
    idle = [hook for hook in hooks[1:] if hook.value not in named and not re.search(rf"\b{hook.value:g} ?mm", words)]
    if idle:
        text = idle[0].text
        at = max(line.statement.text.find(text), 0)
        findings.add(
            "unused-hook", line.statement.span(at, at + len(text)),
            f"{idle[0].value:g} mm: a hook in the materials that no line takes up.",
            suggestion="Say where it is used, or leave it out.",
        )


# --- level, gauge ---------------------------------------------------------------------------------------------------

# Project levels, current and until 2017: Craft Yarn Council, Standards & Guidelines (2015, 2018).
LEVELS = frozenset({"basic", "easy", "intermediate", "complex", "beginner", "experienced"})


def check_level(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """level-unknown: a level that is none of the Craft Yarn Council's names."""
    line = pattern.header.first("level")
    if line is None or not line.value or set(re.findall(r"[a-z]+", line.value.lower())) & LEVELS:
        return
    findings.add(
        "level-unknown", line.statement.span(line.value_start),
        f"{line.value[:60]} is no level that readers can compare; the usual ones are Basic, Easy, Intermediate and Complex.",
        suggestion="Write one of the four; your own words may follow it.",
    )


# sc in 10 cm and hook in mm by yarn category: Craft Yarn Council, Standards & Guidelines (2018); 0 is counted in dc there.
_USUAL_STITCHES = {1: (21, 32), 2: (16, 20), 3: (12, 17), 4: (11, 14), 5: (8, 11), 6: (6, 9), 7: (1, 6)}
_USUAL_HOOK = {1: (2.25, 3.5), 2: (3.5, 4.5), 3: (4.5, 5.5), 4: (5.5, 6.5), 5: (6.5, 9.0), 6: (9.0, 16.0), 7: (15.0, 60.0)}
_SLACK, _SOFT = 1.3, 2.5


def check_gauge(pattern: syntax.Pattern, result: PatternResult, findings: Findings) -> None:
    """gauge-unusual: the gauge is far from the yarn's category, and the hook does not explain it. Toys are worked tight."""
    gauge = pattern.header.gauge
    categories = {yarn.category for yarn in pattern.header.yarns if yarn.category in _USUAL_STITCHES}
    line = pattern.header.first("gauge")
    if not pattern.header.hooks:
        return
    if gauge is None or gauge.stitch_cm is None or gauge.stitch != "sc" or len(categories) != 1 or line is None:
        return
    category = categories.pop() or 0
    low, high = _USUAL_STITCHES[category]
    count = 10 / gauge.stitch_cm
    toy = lists_stuffing(pattern.header) or any("eye" in notion.lower() for notion in pattern.header.notions)
    thin, thick = _USUAL_HOOK[category]
    hook = pattern.header.hooks[0].value
    tight = count > high * (_SOFT if toy else _SLACK) and (hook >= thin or count > high * _SOFT)
    loose = count < low / _SLACK and (hook <= thick or count < low / _SOFT)
    if not tight and not loose:
        return
    findings.add(
        "gauge-unusual", _value_span(line.statement, line.value_start),
        f"Yarn of category {category} is usually worked at {low} to {high} sc in 10 cm; here it is {count:.0f}.",
        suggestion="Compare the category and the gauge; if you mean it, say so in a note.",
    )


def _value_span(statement: Statement, start: int) -> Span:
    return statement.span(start, len(statement.text.rstrip()))

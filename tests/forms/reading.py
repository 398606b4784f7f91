"""What the checker makes of a form, and how that differs from what the table says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.results import FileResult, RoundResult, Status

from .table import Form

STATUSES = tuple(status.value for status in Status)
GOOD = (Status.CHECKED, Status.COUNTED)
QUIET = (Severity.INFO, Severity.CAUTION, Severity.ADVICE)
ANYTHING = "-"
BESIDE = ("count-missing",)  # a form alone often states no count


@dataclass(frozen=True)
class Outcome:
    """A form and what is wrong with its reading; nothing, if it is read as the table says."""

    form: Form
    wrong: tuple[str, ...]

    @property
    def read(self) -> bool:
        return not self.wrong


def outcome(form: Form) -> Outcome:
    """Check the form after its start and compare."""
    text = "\n".join([*form.lead, *form.lines]) + "\n"
    return Outcome(form, tuple(differences(form, check_text(text, "form.txt"))))


def differences(form: Form, result: FileResult) -> Iterator[str]:
    """What differs from the table, in words."""
    at = len(form.lead)
    rounds = [one for pattern in result.patterns for one in pattern.rounds]
    lead = [one for one in rounds if one.line <= at]
    written = _written(form, [one for one in rounds if one.line > at])
    for one in lead:
        if one.status not in (*GOOD, Status.ON_TRUST):
            yield f"before: {one.label or one.line} is {one.status}"
    yield from _numbers(form, written)
    yield from _statuses(form, written)
    yield from _findings(form, result)
    for wanted in form.expect:
        if wanted.startswith("make "):
            made = [piece.make for pattern in result.patterns for piece in pattern.pieces]
            if not made or str(made[-1]) != wanted.removeprefix("make "):
                yield f"{wanted}: came {made}"
        elif wanted.startswith("piece "):
            names = [piece.name for pattern in result.patterns for piece in pattern.pieces]
            if wanted.removeprefix("piece ") not in names:
                yield f"{wanted}: came {names}"


def _written(form: Form, lines: list[RoundResult]) -> list[RoundResult]:
    """The lines that the table speaks of: with the foundations where it has as many entries."""
    asked = max(len(form.uses), len(form.makes), len(form.covers))
    worked = [one for one in lines if one.counts or one.kind == "step"]
    only = [one for one in worked if one.counts]
    if asked > 1:
        return next((some for some in (worked, only) if len(some) == asked), lines)
    return worked or lines


def _numbers(form: Form, written: list[RoundResult]) -> Iterator[str]:
    for what, wanted in (("uses", form.uses), ("makes", form.makes), ("covers", form.covers)):
        if not wanted:
            continue
        came = [_told(one, what) for one in written]
        if wanted[0].endswith(" long"):
            came = [f"{one.worked} long" for one in written]
        if len(wanted) == 1 and what != "covers":
            came = came[-1:]
        pairs = list(zip(wanted, came, strict=False))
        if len(wanted) != len(came) or any(w not in (ANYTHING, c) for w, c in pairs):
            yield f"{what} {'/'.join(wanted)}: came {'/'.join(came) or 'nothing'}"


def _told(one: RoundResult, what: str) -> str:
    if what == "covers":
        if one.first is None or one.last is None:
            return f"{one.worked} long"
        if one.worked != one.last - one.first + 1:  # type: ignore[operator]
            return f"{one.first}-{one.last}, {one.worked} long"
        return f"{one.first}-{one.last}"
    return ",".join(str(number) for number in getattr(one, what))


def _statuses(form: Form, written: list[RoundResult]) -> Iterator[str]:
    wanted = [status for status in form.expect if status in STATUSES]
    refused = any(_finding_of(text) for text in form.expect)
    for one in written:
        if wanted and one.status.value not in wanted:
            yield f"{one.label or one.kind} is {one.status}, not {' or '.join(wanted)}"
        elif not wanted and not refused and one.status not in GOOD:
            yield f"{one.label or one.kind} is {one.status}"
    if not written and (wanted or form.uses or form.makes):
        yield "no round or row"


def _finding_of(text: str) -> tuple[str, str] | None:
    """The rule and word of "unknown-stitch: blorp"; None for what is no finding."""
    if text in STATUSES or text.startswith(("make ", "piece ")):
        return None
    rule, _, word = text.partition(":")
    return rule.strip(), word.strip()


def _findings(form: Form, result: FileResult) -> Iterator[str]:
    """What is asked and does not come, and every error or warning that is not asked for."""
    left = list(result.findings)
    for wanted in filter(None, map(_finding_of, form.expect)):
        rule, word = wanted
        found = [one for one in left if rule in (one.rule, "*") and _names(word, one)]
        if not found:
            yield f"no {rule} that names {word!r}" if word else f"no {rule}"
        left = [one for one in left if one not in found]
    for one in left:
        if one.severity not in QUIET and one.rule not in BESIDE:
            yield f"{one.rule}: {one.message}"


def _names(word: str, finding: object) -> bool:
    told = " ".join(
        (getattr(finding, "message", ""), getattr(finding, "label", ""), getattr(finding, "suggestion", ""))
    )
    return word.lower() in told.lower()

"""What can be done about a finding: its mending edits, an excuse, and all sure edits at once."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol import types

from ..findings import Edit, Finding, Severity
from ..mending import mend
from ..source import Span
from .page import Page
from .problems import problem

_EXCUSE = ">> right as written: "
_EXCUSED = (Severity.ERROR, Severity.WARNING, Severity.ADVICE)


def fixes(page: Page, first: int, last: int) -> list[types.CodeAction]:
    """The edits for findings that touch lines *first* to *last* (from 1), the likeliest first."""
    found: list[types.CodeAction] = []
    for finding in page.result.findings:
        if finding.excused is None and finding.span.line <= last and finding.span.end_line >= first:
            found += _mendings(page, finding)
            found += _excuse(page, finding)
    return found


def all_sure(page: Page) -> types.CodeAction | None:
    """All edits that both neighbours speak for, in one; None where there is none."""
    mended = mend(page.text, page.check)
    if mended.text == page.text:
        return None
    return types.CodeAction(
        "Mend every sure slip of this page",
        kind=types.CodeActionKind.SourceFixAll,
        edit=page.workspace_edit([page.whole(mended.text)]),
    )


def _mendings(page: Page, finding: Finding) -> Iterator[types.CodeAction]:
    choices = finding.alternatives or ((finding.edits,) if finding.edits else ())
    for edits in choices:
        yield types.CodeAction(
            _title(page, edits),
            kind=types.CodeActionKind.QuickFix,
            diagnostics=[problem(page, finding)],
            is_preferred=finding.sure and len(choices) == 1,
            edit=page.workspace_edit([page.text_edit(edit) for edit in edits]),
        )


def _title(page: Page, edits: tuple[Edit, ...]) -> str:
    """"Write (24) instead of (25)"."""
    first = edits[0]
    old = page.words(first.span)
    more = f" and {len(edits) - 1} more" if len(edits) > 1 else ""
    if not old:
        return f"Add {first.text.strip()}{more}"
    if not first.text.strip():
        return f"Take out {old}{more}"
    return f"Write {first.text.strip()} instead of {old}{more}"


def _excuse(page: Page, finding: Finding) -> Iterator[types.CodeAction]:
    """A private line below that says the place is right as written; the writer adds the reason."""
    block = page.block_at(finding.span.line)
    if finding.severity not in _EXCUSED or block is None:
        return
    line = page.round_at(finding.span.line)
    number = line.syntax.statement.lines[-1].number if line is not None else finding.span.line
    text = page.source.line(number)
    indent = next((own.column - 1 for own in block.lines if own.number == number), 0)
    end = Span(number, len(text) + 1, number, len(text) + 1)
    yield types.CodeAction(
        "It is right as written: say why",
        kind=types.CodeActionKind.QuickFix,
        diagnostics=[problem(page, finding)],
        edit=page.workspace_edit([page.text_edit(Edit(end, "\n" + text[:indent] + _EXCUSE))]),
    )

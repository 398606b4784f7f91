"""Everything that is made of a text, one function each, and what holds for it whatever the text is."""

from __future__ import annotations

import json
from collections.abc import Callable
from xml.etree import ElementTree

from mkdocs_stitchcheck import check_text
from mkdocs_stitchcheck.adopting import adopt
from mkdocs_stitchcheck.corrections import compare, paragraph
from mkdocs_stitchcheck.estimates.another_yarn import estimate
from mkdocs_stitchcheck.fences import find_blocks
from mkdocs_stitchcheck.film import chapter_warnings, shots, under_the_film
from mkdocs_stitchcheck.findings import Findings
from mkdocs_stitchcheck.hosts.machine_data import machine_data
from mkdocs_stitchcheck.mending import mend
from mkdocs_stitchcheck.proofreading import letters
from mkdocs_stitchcheck.render import PageOptions, render_block, render_sheet
from mkdocs_stitchcheck.render.index import Entry, render_index
from mkdocs_stitchcheck.render.proofread import proofread_page
from mkdocs_stitchcheck.report import FORMATS, report
from mkdocs_stitchcheck.report.proofread import as_markdown, as_text
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.retold import can_be_retold, retold
from mkdocs_stitchcheck.settings import HouseStyle, Settings
from mkdocs_stitchcheck.source import Source
from mkdocs_stitchcheck.tidying import tidy

PAGE = "page.md"


def held(result: FileResult, text: str, path: str = PAGE) -> FileResult:
    """*result*, after seeing to what holds for any input at all: no fault of ours, every place inside the text."""
    source = Source(text, path)
    for finding in result.findings:
        assert finding.rule != "checker-fault", finding.message
        assert finding.message.strip()
        edits = [*finding.edits, *(edit for edits in finding.alternatives for edit in edits)]
        for span in [finding.span, *(edit.span for edit in edits), *(label.span for label in finding.also)]:
            assert 1 <= span.line <= span.end_line <= len(source.lines), (finding.rule, span)
            assert 1 <= span.column <= len(source.line(span.line)) + 1, (finding.rule, span)
            assert 1 <= span.end_column <= len(source.line(span.end_line)) + 1, (finding.rule, span)
            assert (span.line, span.column) <= (span.end_line, span.end_column), (finding.rule, span)
    for pattern in result.patterns:
        for line in pattern.rounds:
            assert 1 <= line.line <= len(source.lines)
    return result


def checked(text: str, path: str = PAGE) -> FileResult:
    """What the check says of *text*, held."""
    return held(check_text(text, path), text, path)


def mended(text: str, path: str = PAGE) -> None:
    """The likely edits, too, and that there is nothing left to mend after them."""
    once = mend(text, lambda new: checked(new, path), True)
    again = mend(once.text, lambda new: checked(new, path), True)
    assert again.text == once.text or len(once.repairs) > 4, "mending goes on"


def tidied(text: str, path: str = PAGE) -> None:
    """Tidying once is enough."""
    once = tidy(text, lambda new: checked(new, path), HouseStyle())
    again = tidy(once.text, lambda new: checked(new, path), HouseStyle())
    assert again.text == once.text, "tidying again changes it"


def adopted(text: str, path: str = PAGE) -> None:
    """Adopting once is enough."""
    once = adopt(text, lambda new: checked(new, path))
    again = adopt(once.text, lambda new: checked(new, path))
    assert again.text == once.text, "adopting again changes it"


def told_again(text: str, path: str = PAGE) -> None:
    """In the other terms."""
    result = checked(text, path)

    def check(new: str, terms: str) -> FileResult:
        return held(check_text(new, path, Settings().with_(terms=terms)), new, path)

    for terms in ("US", "UK"):
        if any(can_be_retold(pattern) for pattern in result.patterns):
            told = retold(result, text, terms, check)
            held(told.result, told.text, path)


def shown(text: str, path: str = PAGE) -> str:
    """Every block with all it may have on a page, the sheet, the list of patterns, and what machines read."""
    result = checked(text, path)
    drawings: list[str] = []

    def save(name: str, drawing: str) -> str:
        drawings.append(drawing)
        return "drawing.svg"

    options = PageOptions(charts="all", save_drawing=save, both_terms=True)
    parts: list[str] = []
    for block in find_blocks(Source(text, path), Findings()):
        parts += [render_block(result, block, show_findings=finding, options=options) for finding in (False, True)]
    for pattern in result.patterns:
        parts += [render_sheet(result, pattern, address="https://example.org/", large=large) for large in (False, True)]
    parts.append(render_index([Entry(pattern, f"#{number}") for number, pattern in enumerate(result.patterns)]))
    parts.append(machine_data(result))
    parts.append(proofread_page(letters(result)))
    for drawing in drawings:
        ElementTree.fromstring(drawing)
    return "\n".join(parts + drawings)


def reported(text: str, path: str = PAGE) -> None:
    """Every report; those for machines are well-formed."""
    result = checked(text, path)
    found = {kind: report(kind, [result]) for kind in FORMATS}
    json.loads(found["json"])
    json.loads(found["sarif"])
    ElementTree.fromstring(found["junit"].encode("utf-8", "replace"))
    as_text(letters(result))
    as_markdown(letters(result))


def besides(text: str, path: str = PAGE) -> None:
    """The film, what changed since a state with a line less, the estimates."""
    result = checked(text, path)
    for pattern in result.patterns:
        under_the_film(pattern, "https://example.org/")
        chapter_warnings(pattern)
        shots(pattern)
        estimate(pattern)
    lines = text.split("\n")
    less = "\n".join(lines[: len(lines) // 2] + lines[len(lines) // 2 + 1 :])
    for one in compare(checked(less, path), result):
        paragraph(one)


WAYS: dict[str, Callable[[str, str], object]] = {
    "check": checked,
    "fix": mended,
    "tidy": tidied,
    "adopt": adopted,
    "in the other terms": told_again,
    "page, sheet, drawings": shown,
    "reports": reported,
    "film, corrections, yarn": besides,
}

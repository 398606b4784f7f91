"""JUnit XML: a suite for each file and a case for each pattern, those that pass too: "214 patterns, 1 failed"."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence

from .. import late_re as re
from ..findings import Finding
from ..results import FileResult, PatternResult
from ..source import Source
from ..triage import pattern_of
from . import Options
from .display import one_line
from .groups import Group, grouped
from .text import slip_text

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def report(files: Sequence[FileResult], options: Options) -> str:
    """The document as text."""
    top = ET.Element("testsuites", name="stitchcheck")
    for file in files:
        top.append(_suite(file, options))
    _add_up(top, list(top))
    ET.indent(top)
    return "<?xml version='1.0' encoding='utf-8'?>\n" + ET.tostring(top, encoding="unicode") + "\n"


def _suite(file: FileResult, options: Options) -> ET.Element:
    suite = ET.Element("testsuite", name=_clean(file.path))
    owned: dict[int, list[Finding]] = {}
    for finding in file.findings:
        owner = pattern_of(finding, file.patterns)
        owned.setdefault(id(owner) if owner is not None else 0, []).append(finding)
    for pattern in file.patterns:
        suite.append(_case(file, pattern.title or "Pattern", pattern, owned.get(id(pattern), []), options))
    if 0 in owned:
        suite.append(_case(file, "The page around the patterns", None, owned[0], options))
    cases = list(suite)
    suite.set("tests", str(len(cases)))
    suite.set("failures", str(sum(case.find("failure") is not None for case in cases)))
    suite.set("errors", "0")
    suite.set("skipped", str(sum(case.find("skipped") is not None for case in cases)))
    return suite


def _case(
    file: FileResult, name: str, pattern: PatternResult | None, findings: list[Finding], options: Options
) -> ET.Element:
    line = pattern.line if pattern is not None else 1
    case = ET.Element(
        "testcase", name=_clean(name), classname=_clean(file.path), file=_clean(file.path), line=str(line)
    )
    source = Source(file.text, file.path)
    failing: list[Group] = []
    others: list[Group] = []
    for slip in grouped(findings):
        (failing if slip.fails(options.strict) else others).append(slip)
    if failing:
        _told(case, "failure", failing, source)
    elif any(finding.waits for finding in findings):
        why = "a draft" if pattern is not None and pattern.draft else "not yet cleared"
        ET.SubElement(case, "skipped", message=f"This is {why}: what is wrong doesn't fail.")
    if others:
        said = ET.SubElement(case, "system-out")
        said.text = _clean("\n\n".join(slip_text(slip, source, Options()) for slip in others))
    return case


def _told(case: ET.Element, kind: str, slips: list[Group], source: Source) -> None:
    """One element for all *slips*: readers of this format show only the first of several."""
    first = one_line(slips[0].message)
    message = first if len(slips) == 1 else f"{first} And {len(slips) - 1} more."
    rules = ", ".join(dict.fromkeys(finding.rule for slip in slips for finding in slip.findings))
    element = ET.SubElement(case, kind, message=_clean(message), type=rules)
    element.text = _clean("\n\n".join(slip_text(slip, source, Options()) for slip in slips))


def _add_up(top: ET.Element, suites: Sequence[ET.Element]) -> None:
    for key in ("tests", "failures", "errors", "skipped"):
        top.set(key, str(sum(int(suite.get(key, "0")) for suite in suites)))


def _clean(text: str) -> str:
    return _NOT_XML.sub("\ufffd", text)

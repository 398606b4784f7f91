"""SARIF 2.1.0 (OASIS), for code scanning: results with places, fixes, fingerprints and what is excused."""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Iterable, Sequence
from hashlib import sha256
from typing import Any
from urllib.parse import quote

from .. import __version__
from ..findings import Edit, Finding, Severity
from ..results import FileResult
from ..rules import Rule, catalogue
from ..source import Source, Span
from . import Options
from .display import visible

SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"


def report(files: Sequence[FileResult], options: Options) -> str:
    """The log as text; ASCII, so that damaged letters can't damage it."""
    return json.dumps(document(files), indent=2) + "\n"


def document(files: Sequence[FileResult]) -> dict[str, Any]:
    """The log as plain data."""
    used = sorted({finding.rule for file in files for finding in file.findings})
    index = {name: number for number, name in enumerate(used)}
    run = {
        "tool": {
            "driver": {
                "name": "stitchcheck",
                "version": __version__,
                "semanticVersion": __version__,
                "rules": [_rule(catalogue()[name]) for name in used],
            }
        },
        "columnKind": "unicodeCodePoints",
        "results": [result for file in files for result in _results(file, index)],
    }
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(rule: Rule) -> dict[str, Any]:
    told = f"{rule.what}\n\n{rule.why}"
    shown = f"{told}\n\nFor example:\n\n{rule.example}\n\nWrite instead:\n\n{rule.instead}\n\n{rule.off}"
    return {
        "id": rule.name,
        "shortDescription": {"text": rule.what},
        "fullDescription": {"text": told},
        "help": {"text": shown if rule.example else told},
        "defaultConfiguration": {"level": _level(rule.severity)},
    }


def _level(severity: Severity) -> str:
    return {Severity.ERROR: "error", Severity.WARNING: "warning"}.get(severity, "note")


def _results(file: FileResult, index: dict[str, int]) -> Iterable[dict[str, Any]]:
    source = Source(file.text, file.path)
    seen: Counter[str] = Counter()
    for finding in file.findings:
        mark = _fingerprint(finding, source)
        seen[mark] += 1
        yield _result(finding, file, index[finding.rule], f"{mark}:{seen[mark]}")


def _result(finding: Finding, file: FileResult, rule_index: int, fingerprint: str) -> dict[str, Any]:
    told = " ".join(text for text in (finding.message, finding.suggestion, *finding.follows) if text)
    entry: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": rule_index,
        "level": _level(finding.severity),
        "message": {"text": visible(told)},
        "locations": [_location(file, finding.span)],
        "partialFingerprints": {"primaryLocationLineHash": fingerprint},
    }
    if finding.also:
        entry["relatedLocations"] = [
            {
                "id": number,
                **_location(file, also.span),
                **({"message": {"text": visible(also.text)}} if also.text else {}),
            }
            for number, also in enumerate(finding.also)
        ]
    repairs = finding.alternatives or ((finding.edits,) if finding.edits else ())
    if repairs:
        entry["fixes"] = [_fix(file, edits, visible(finding.suggestion or finding.message)) for edits in repairs]
    suppression = _suppression(finding)
    if suppression:
        entry["suppressions"] = [suppression]
    return entry


def _suppression(finding: Finding) -> dict[str, str] | None:
    if finding.excused is not None:
        return {"kind": "inSource", "justification": visible(finding.excused)}
    if finding.waits == "draft":
        return {"kind": "inSource", "justification": "The pattern is a draft."}
    if finding.waits:
        return {"kind": "external", "justification": "The page is listed as not yet cleared."}
    return None


def _location(file: FileResult, span: Span) -> dict[str, Any]:
    return {"physicalLocation": {"artifactLocation": _artifact(file.path), "region": _region(span)}}


def _artifact(path: str) -> dict[str, str]:
    path = path.encode("utf-8", "replace").decode()
    if os.path.isabs(path):
        return {"uri": "file://" + quote(path.replace("\\", "/"))}
    return {"uri": quote(path.replace("\\", "/"))}


def _region(span: Span) -> dict[str, int]:
    return {
        "startLine": span.line,
        "startColumn": span.column,
        "endLine": span.end_line,
        "endColumn": span.end_column,
    }


def _fix(file: FileResult, edits: tuple[Edit, ...], told: str) -> dict[str, Any]:
    replacements = [{"deletedRegion": _region(edit.span), "insertedContent": {"text": edit.text}} for edit in edits]
    return {
        "description": {"text": told},
        "artifactChanges": [{"artifactLocation": _artifact(file.path), "replacements": replacements}],
    }


def _fingerprint(finding: Finding, source: Source) -> str:
    """The same for the same slip when lines are put in above it: made of the rule, its place in words, and its line."""
    words = (finding.rule, finding.pattern or "", finding.piece or "", source.line(finding.span.line).strip())
    return sha256("\0".join(words).encode("utf-8", "replace")).hexdigest()[:16]

"""Everything as one JSON document, for other programs. Keys may be added; those that are there keep their meaning."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from ..findings import Edit, Finding
from ..results import FileResult, PatternResult, PieceResult, RoundResult, summary
from ..source import Span
from . import Options

VERSION = 1


def report(files: Sequence[FileResult], options: Options) -> str:
    """The document as text, with a line end."""
    written = json.dumps(document(files, options.strict), ensure_ascii=False, indent=2)
    try:
        written.encode()
    except UnicodeEncodeError:  # half a character, as in a damaged file
        written = json.dumps(document(files, options.strict), indent=2)
    return written + "\n"


def document(files: Sequence[FileResult], strict: bool = False) -> dict[str, Any]:
    """The document as plain data."""
    return {"version": VERSION, "files": [_file(file, strict) for file in files], "summary": summary(list(files))}


def _file(file: FileResult, strict: bool) -> dict[str, Any]:
    return {
        "path": file.path,
        "not_yet": file.not_yet,
        "patterns": [_pattern(pattern) for pattern in file.patterns],
        "problems": [_problem(finding, strict) for finding in file.findings if finding.excused is None],
        "excused": [
            {**_problem(finding, strict), "reason": finding.excused}
            for finding in file.findings
            if finding.excused is not None
        ],
    }


def _pattern(pattern: PatternResult) -> dict[str, Any]:
    return {
        "title": pattern.title,
        "line": pattern.line,
        "draft": pattern.draft,
        "readings": [
            {"question": reading.question, "answer": reading.answer, "why": reading.why} for reading in pattern.readings
        ],
        "pieces": [_piece(piece) for piece in pattern.pieces],
    }


def _piece(piece: PieceResult) -> dict[str, Any]:
    return {
        "name": piece.name,
        "make": piece.make,
        "line": piece.line,
        "rounds": [_round(line) for line in piece.rounds],
    }


def _round(line: RoundResult) -> dict[str, Any]:
    entry: dict[str, Any] = {
        "label": line.label,
        "kind": line.kind,
        "first": line.first,
        "last": line.last,
        "worked": line.worked,
        "line": line.line,
        "uses": _by_size(line.uses),
        "makes": _by_size(line.makes),
        "stated": _by_size(line.stated),
        "status": str(line.status),
    }
    if line.each:
        entry["each"] = [{"uses": uses, "makes": makes} for uses, makes in line.each]
    if line.trust:
        entry["trust"] = line.trust
    return entry


def _by_size(numbers: tuple[int | None, ...]) -> int | None | list[int | None]:
    return numbers[0] if len(numbers) == 1 else list(numbers) or None


def _problem(finding: Finding, strict: bool) -> dict[str, Any]:
    entry: dict[str, Any] = {
        "rule": finding.rule,
        "severity": str(finding.severity),
        **_place(finding.span),
        "message": finding.message,
        "suggestion": finding.suggestion or None,
        "group": finding.group,
        "pattern": finding.pattern,
        "piece": finding.piece,
        "round": finding.round,
        "edits": [_edit(edit) for edit in finding.edits],
        "alternatives": [[_edit(edit) for edit in edits] for edits in finding.alternatives],
        "sure": finding.sure,
        "fails": finding.fails(strict),
    }
    if finding.label:
        entry["label"] = finding.label
    if finding.also:
        entry["also"] = [{**_place(also.span), "label": also.text} for also in finding.also]
    if finding.follows:
        entry["follows"] = list(finding.follows)
    if finding.waits:
        entry["waits"] = finding.waits
    return entry


def _edit(edit: Edit) -> dict[str, Any]:
    return {**_place(edit.span), "text": edit.text}


def _place(span: Span) -> dict[str, int]:
    return {"line": span.line, "column": span.column, "end_line": span.end_line, "end_column": span.end_column}

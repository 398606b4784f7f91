"""Results made by hand for the tests of the page: a plain reader of plain lines, no parser and no checker.

It knows only what these tests write: ``Key: value``, ``# Piece (make 2, color A)``, ``Rnd 1: words (6)``, notes and
steps. Counts are taken as stated, so a test says itself what the checker is supposed to have found.
"""

from __future__ import annotations

import re
from collections import Counter

from mkdocs_stitchcheck.fences import Block
from mkdocs_stitchcheck.language import syntax, vocabulary
from mkdocs_stitchcheck.language.quantities import Gauge, Length, PutUp
from mkdocs_stitchcheck.results import FileResult, PatternResult, PieceResult, RoundResult, Status
from mkdocs_stitchcheck.source import BlockLine, Span, Statement

_ROUND = re.compile(r"(?P<label>(?:Rnds?|Rows?) (?P<first>\d+)(?:-(?P<last>\d+))?): (?P<body>.*?)(?: \((?P<count>[^()]*\d[^()]*)\))?$")
_HEADING = re.compile(r"# (?P<name>[^(]*[^( ]) *(?:\((?P<inside>.*)\))?$")
_HEADER = re.compile(r"(?P<label>[A-Z][\w ]*): (?P<value>.*)$")
_COLOR = re.compile(r"Colou?r (?P<key>\w+)$")
_TIMES = re.compile(r"\((?P<body>[^()]*)\) x (?P<times>\d+)")


def blocks_of(*texts: str, gap: int = 5, start: int = 8) -> list[Block]:
    """Pattern blocks under one another, with *gap* lines of prose between them."""
    blocks, number = [], start
    for text in texts:
        lines = tuple(BlockLine(number + i, 1, line) for i, line in enumerate(text.split("\n")))
        blocks.append(Block(lines, Span(number - 1, 1, number - 1, 11), end_line=number + len(lines)))
        number += len(lines) + gap
    return blocks


def result_of(*texts: str, status: Status = Status.CHECKED) -> tuple[FileResult, list[Block]]:
    """A file with one pattern, cut into blocks as given."""
    blocks = blocks_of(*texts)
    pattern = syntax.Pattern(syntax.Header(), line=blocks[0].lines[0].number)
    result = PatternResult("", pattern.line, pattern)
    for block in blocks:
        for line in block.lines:
            _read(line, pattern, result, status)
    result.title = pattern.title = pattern.header.title
    result.draft = pattern.draft = pattern.header.draft
    return FileResult("docs/page.md", [result]), blocks


def _read(line: BlockLine, pattern: syntax.Pattern, result: PatternResult, status: Status) -> None:
    text, said = line.text, Statement([line])
    if not text.strip():
        return
    if found := _ROUND.match(text):
        _round(found, said, pattern, result, status)
    elif found := _HEADING.match(text):
        _heading(found, said, pattern, result)
    elif text.startswith(">>"):
        pattern.pieces[-1].lines.append(syntax.Line("private", said))
    elif text.startswith(">"):
        pattern.pieces[-1].lines.append(syntax.Line("note", said))
    elif found := _HEADER.match(text):
        _header(found, said, pattern.header)
    else:
        kind = "foundation" if text.startswith("Ch ") else "step"
        step = syntax.RoundLine(kind, said, None, (), body=(0, len(text)))
        pattern.pieces[-1].lines.append(step)


def _heading(found: re.Match[str], said: Statement, pattern: syntax.Pattern, result: PatternResult) -> None:
    inside = found["inside"] or ""
    make = re.search(r"make (\d+)", inside)
    color = re.search(r"color (\w+)", inside)
    piece = syntax.Piece(
        found["name"], said, int(make[1]) if make else 1, color[1] if color else None, line=said.line
    )
    pattern.pieces.append(piece)
    result.pieces.append(PieceResult(piece.name, piece.make, piece.line, piece))


def _header(found: re.Match[str], said: Statement, header: syntax.Header) -> None:
    label, value = found["label"], found["value"]
    color = _COLOR.match(label)
    key = "color" if color else label.lower()
    header.lines.append(syntax.HeaderLine(key, label, value, said, found.start("value")))
    if color:
        name, _, rest = value.partition(",")
        shown = re.search(r"shown as ([^,]*)", rest)
        yarn = len(header.yarns) - 1 if header.yarns else None
        header.colors[color["key"]] = syntax.Color(color["key"], name, said, shown[1] if shown else None, yarn=yarn)
    elif key == "title":
        header.title = value
    elif key == "terms":
        header.terms = value
    elif key == "draft":
        header.draft = value == "yes"
    elif key == "yarn":
        put_up = re.search(r"(\d+) g = (\d+) m", value)
        found_up = PutUp(float(put_up[1]), float(put_up[2])) if put_up else None
        header.yarns.append(syntax.Yarn(value, said, put_up=found_up))
    elif key == "gauge" and (gauge := re.search(r"(\d+) sc x (\d+) rnds = (\d+) cm", value)):
        header.gauge = Gauge(float(gauge[1]), float(gauge[2]), float(gauge[3]), float(gauge[3]))
    elif key == "finished size" and (size := re.search(r"(\d+) (cm|in)", value)):
        header.finished.append(Length(float(size[1]), size[2], text=size[0]))


def _steps(said: Statement, start: int, end: int, number: dict[str, int]) -> tuple[syntax.Step, ...]:
    """The plain stitches named between two places, and repeats in round brackets."""
    steps: list[syntax.Step] = []
    words = vocabulary.words("US")
    for found in re.finditer(r"\b(sc|inc|dec|hdc|dc|ch|sl st)\b", said.text[start:end]):
        stitch = words[vocabulary.words_of(found[1])]
        steps.append(syntax.Work(start + found.start(), start + found.end(), stitch))
    for found in _TIMES.finditer(said.text, start, end):
        left, right = found.span("body")
        body = syntax.Work(left, right, vocabulary.stitches()["sc"])
        times = syntax.Number(*found.span("times"), (int(found["times"]),))
        steps.append(syntax.Repeat(found.start(), found.end(), (body,), times))
    return tuple(steps)


def _round(
    found: re.Match[str], said: Statement, pattern: syntax.Pattern, result: PatternResult, status: Status
) -> None:
    first, last = int(found["first"]), int(found["last"] or found["first"])
    kind = "row" if found["label"].startswith("Row") else "round"
    label = syntax.RoundLabel(0, len(found["label"]), kind, found["label"], ((first, last),))
    stated: tuple[syntax.Stated, ...] = ()
    count = None
    if found["count"]:
        start, end = found.start("count") - 1, found.end("count") + 1
        if found["count"].isdigit():
            count = int(found["count"])
            number = syntax.Number(start + 1, end - 1, (count,))
            stated = (syntax.Stated(start, end, "total", number),)
        else:
            stated = (syntax.Stated(start, end, "kinds"),)
    line = syntax.RoundLine(
        "round", said, label, _steps(said, *found.span("body"), {}), stated, body=found.span("body"),
        not_written=found["body"] == "?",
    )
    pattern.pieces[-1].lines.append(line)
    worked = last - first + 1
    before = [r.makes[0] for r in result.pieces[-1].rounds]
    made = count if count is not None else (before[-1] if before else None)
    colors = tuple(re.findall(r"\bcolor (\w)\b", found["body"]))
    start_color = pattern.pieces[-1].color
    result.pieces[-1].rounds.append(
        RoundResult(
            found["label"], kind, said.line, line, first, last, worked, makes=(made,), stated=(count,),
            status=Status.COUNTED if count is None and status is Status.CHECKED else status,
            color=start_color, colors=((start_color, *colors) if start_color else colors),
            stitches=Counter({(start_color or "", "sc"): (made or 0) * worked}),
        )
    )

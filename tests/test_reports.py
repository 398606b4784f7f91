"""Every output over the same findings: compared with golden files, and read by what reads such files."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path

import jsonschema
import junitparser
import pytest
from golden_files import compare
from hypothesis import given
from hypothesis import strategies as st
from report_samples import all_samples, at, awkward, vole, waiting

from mkdocs_stitchcheck import __version__, check_text
from mkdocs_stitchcheck.findings import Finding, Severity
from mkdocs_stitchcheck.report import FORMATS, Options, report
from mkdocs_stitchcheck.report.display import Paint, wants_color, width
from mkdocs_stitchcheck.report.frames import Mark, frame
from mkdocs_stitchcheck.results import FileResult
from mkdocs_stitchcheck.source import Source, Span

SUFFIX = {"json": "json", "sarif": "sarif", "junit": "xml"}
SCHEMA = Path(__file__).parent / "schemas" / "sarif-2.1.0.json"


@pytest.fixture(autouse=True)
def outside_of_ci(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("GITHUB_WORKSPACE", raising=False)


@pytest.mark.parametrize("kind", FORMATS)
def test_golden(kind: str) -> None:
    text = report(kind, all_samples()).replace(f'"{__version__}"', '"VERSION"')
    compare(f"report.{kind}.{SUFFIX.get(kind, 'txt')}", text)


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("text-totals", Options(totals=True)),
        ("text-quiet", Options(quiet=True)),
        ("text-strict", Options(strict=True)),
        ("text-color", Options(color=True)),
    ],
)
def test_golden_text(name: str, options: Options) -> None:
    compare(f"report.{name}.txt", report("text", all_samples(), options))


def test_golden_awkward_places() -> None:
    compare("report.text-awkward.txt", report("text", [awkward()], Options(width=72)))


def test_nothing_found() -> None:
    assert report("text", [FileResult("notes.md")]) == "No crochet pattern found.\n"
    assert report("short", []) == ""


def _with_eyes(path: str) -> FileResult:
    page = "```crochet\nTitle: Bud\nTerms: US\nNotions: 8 mm safety eyes (2)\n# Bud\nRnd 1: 6 sc in magic ring (6)\nInsert the eyes.\n```\n"
    return check_text(page, path)


def test_the_caution_is_said_once_a_run() -> None:
    files = [_with_eyes(f"{name}.md") for name in "abcdefgh"]
    told = report("text", files)
    assert told.count("caution[small-parts]") == 1 and told.startswith("a.md:4:")
    assert "The same goes for 7 more patterns: b.md:4, c.md:4, d.md:4, e.md:4, f.md:4 and 2 more." in told
    assert "8 cautions" in told
    assert report("json", files).count('"small-parts"') == 8  # each page carries it


def test_the_caution_of_one_page_and_one_that_fails_stand_alone() -> None:
    assert "The same goes" not in report("text", [_with_eyes("a.md"), check_text("# Wool\n", "b.md")])
    failing = [replace_severity(file) for file in (_with_eyes("a.md"), _with_eyes("b.md"))]
    assert report("text", failing).count("error[small-parts]") == 2


def replace_severity(file: FileResult) -> FileResult:
    """The file with its cautions set to fail, as a site can set them."""
    return replace(file, findings=tuple(replace(one, severity=Severity.ERROR) if one.rule == "small-parts" else one for one in file.findings))


# --- frames -------------------------------------------------------------------------------------------------------

LINE = st.text(st.sampled_from("ab(12)\t \u7de8\u0301\u00e9\U0001f9f6\x1b\u202e"), max_size=60)


GUTTER = len("      1 | ")


@given(LINE, st.integers(1, 61), st.integers(1, 20))
def test_carets_stand_under_what_is_marked(line: str, column: int, length: int) -> None:
    """As far to the right as what stands before takes columns, and as many as the marked signs take."""
    column = min(column, len(line) + 1)
    end = min(column + length, len(line) + 1)
    _shown, carets = frame(Source(line), [Mark(Span(1, column, 1, end))], 300, Paint(False), "error")
    assert carets.index("^") == GUTTER + sum(map(width, line[: column - 1]))
    assert carets.count("^") == max(1, sum(map(width, line[column - 1 : end - 1])))


@given(st.integers(1, 400), st.integers(40, 60), st.integers(0, 3))
def test_long_lines_are_cut_around_the_mark(column: int, room: int, wide: int) -> None:
    line = "".join(chr(0x7DE8 + number) if number % 4 < wide else chr(0x61 + number % 26) for number in range(400))
    shown, carets = frame(Source(line), [Mark(Span(1, column, 1, column + 1))], room, Paint(False), "error")
    assert _sign_at(shown, carets.index("^")) == line[column - 1]
    assert sum(map(width, shown)) <= GUTTER + room + 6


def _sign_at(text: str, column: int) -> str:
    """The sign that begins at *column*."""
    taken = 0
    for sign in text:
        if taken == column:
            return sign
        taken += width(sign)
    return ""


def test_a_line_of_megabytes_is_cut_at_once() -> None:
    line = "sc, " * 1_500_000 + "dcc"
    result = FileResult(
        "long.md", [], [Finding("unknown-stitch", Severity.ERROR, at(1, len(line) - 2, len(line) + 1), "?")], line
    )
    told = report("text", [result])
    assert "dcc\n" in told
    assert len(told) < 500


@pytest.mark.parametrize("kind", FORMATS)
def test_what_a_terminal_acts_upon_never_reaches_it(kind: str) -> None:
    told = report(kind, [awkward()])
    assert not set("\x1b\u202e\r") & set(told) or kind == "json"
    if kind == "json":  # json.dumps writes them as \\u001b
        assert "\x1b" not in told


def test_colors(monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal:
        def isatty(self) -> bool:
            return True

    terminal = Terminal()
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert wants_color(terminal)  # type: ignore[arg-type]
    monkeypatch.setenv("NO_COLOR", "1")
    assert not wants_color(terminal)  # type: ignore[arg-type]
    assert wants_color(terminal, "always")  # type: ignore[arg-type]
    with open(os.devnull) as nowhere:
        assert not wants_color(nowhere)


# --- formats that others read -------------------------------------------------------------------------------------


def test_json_is_the_contract() -> None:
    """The keys that the contract names, in the places where it names them."""
    document = json.loads(report("json", all_samples()))
    assert document["version"] == 1
    assert set(document["summary"]) == {
        "rounds",
        "checked",
        "counted",
        "on_trust",
        "mismatch",
        "unread",
        "errors",
        "warnings",
        "advice",
        "infos",
        "cautions",
    }
    parts = ("checked", "counted", "on_trust", "mismatch", "unread")
    assert sum(document["summary"][part] for part in parts) == document["summary"]["rounds"]
    [pattern] = document["files"][0]["patterns"]
    assert {"title", "line", "readings", "pieces"} <= set(pattern)
    assert {"name", "make", "line", "rounds"} <= set(pattern["pieces"][0])
    keys = {"label", "kind", "first", "last", "worked", "line", "uses", "makes", "stated", "status"}
    assert all(keys <= set(line) for line in pattern["pieces"][0]["rounds"])
    problem = document["files"][0]["problems"][2]
    assert {
        "rule",
        "severity",
        "line",
        "column",
        "end_line",
        "end_column",
        "message",
        "suggestion",
        "group",
        "pattern",
        "piece",
        "round",
        "edits",
    } <= set(problem)
    assert problem["edits"] == [{"line": 12, "column": 23, "end_line": 12, "end_column": 25, "text": "12"}]
    sized = document["files"][1]["patterns"][0]["pieces"][0]["rounds"][0]
    assert (sized["uses"], sized["makes"], sized["stated"]) == ([0, 0], [6, 8], [None, None])


def test_json_with_half_a_letter() -> None:
    document = report("json", [FileResult("a\udcff.md")])
    document.encode()
    assert json.loads(document)["files"][0]["path"] == "a\udcff.md"


def test_sarif_is_right_by_its_schema() -> None:
    log = json.loads(report("sarif", [*all_samples(), awkward()]))
    jsonschema.Draft4Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(log)
    [run] = log["runs"]
    assert run["columnKind"] == "unicodeCodePoints"
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
    marks = [
        (result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], *result["partialFingerprints"].values())
        for result in run["results"]
    ]
    assert len(set(marks)) == len(marks)


def test_sarif_fingerprints_stay_when_lines_are_put_in_above() -> None:
    def marks(file: FileResult) -> list[str]:
        results = json.loads(report("sarif", [file]))["runs"][0]["results"]
        return [result["partialFingerprints"]["primaryLocationLineHash"] for result in results]

    moved = vole()
    moved.text = "a line\n\n" + moved.text
    moved.findings = [
        finding.with_(
            span=Span(finding.span.line + 2, finding.span.column, finding.span.end_line + 2, finding.span.end_column)
        )
        for finding in moved.findings
    ]
    assert marks(moved) == marks(vole())


def test_sarif_says_what_is_excused_or_waits() -> None:
    results = json.loads(report("sarif", [vole(), *waiting()]))["runs"][0]["results"]
    kinds = {result["ruleId"]: result["suppressions"][0]["kind"] for result in results if "suppressions" in result}
    assert kinds == {"closed-before-stuffing": "inSource", "count-mismatch": "inSource", "unknown-stitch": "external"}


def test_junit_is_read_by_a_library(tmp_path: Path) -> None:
    file = tmp_path / "report.xml"
    file.write_text(report("junit", [*all_samples(), awkward()]), encoding="utf-8")
    read = junitparser.JUnitXml.fromfile(str(file))
    cases = [(suite.name, case.name, bool(case.result)) for suite in read for case in suite]
    assert ("docs/moss-vole.md", "Moss vole", True) in cases
    assert ("hearth-cap.txt", "Hearth cap", False) in cases
    read.update_statistics()
    assert (read.tests, read.failures, read.skipped) == (6, 3, 2)


def many(severity: Severity, number: int) -> FileResult:
    return FileResult(
        "many.md",
        [],
        [Finding("count-mismatch", severity, at(line, 1, 2), f"{severity} {line}") for line in range(1, number + 1)],
    )


def test_github_shows_errors_first_and_says_how_many_more() -> None:
    lines = report("github", [many(Severity.WARNING, 12), many(Severity.ERROR, 25)]).splitlines()
    commands = [line.split(" ")[0] for line in lines if line.startswith("::")]
    assert commands == ["::error"] * 10 + ["::warning"] * 10
    assert len(lines) == 20 + 15 + 2 + 1
    assert lines[-1] == "GitHub shows 10 of a kind; 15 errors, 2 warnings more stand in the lines above."


def test_github_escapes_what_would_end_a_command() -> None:
    finding = Finding("count-mismatch", Severity.ERROR, Span(1, 3, 2, 4), "100 % of it:\nno, \u2028none::error::x")
    told = report("github", [FileResult("a,b:c.md", [], [finding])])
    assert told.count("\n") == 1
    assert "file=a%2Cb%3Ac.md,line=1,endLine=2::100 %25 of it: no," in told  # no columns over several lines


def test_github_paths_are_seen_from_the_repository(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GITHUB_WORKSPACE", "/home/runner/blog")
    told = report("github", [FileResult("/home/runner/blog/docs/a.md", [], many(Severity.ERROR, 1).findings)])
    assert "file=docs/a.md," in told

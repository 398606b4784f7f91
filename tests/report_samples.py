"""Results built by hand, over which every output is compared with its golden file. Designs and names are invented."""

from __future__ import annotations

from collections import Counter
from typing import Any, cast

from mkdocs_stitchcheck.findings import Edit, Finding, Label, Severity
from mkdocs_stitchcheck.language import syntax
from mkdocs_stitchcheck.results import FileResult, PatternResult, PieceResult, Reading, RoundResult, Status
from mkdocs_stitchcheck.source import Span

_NO_SYNTAX = cast(Any, None)


def at(line: int, column: int, end: int, end_line: int = 0) -> Span:
    """A place on one line, or up to *end_line*."""
    return Span(line, column, end_line or line, end)


def worked(label: str, line: int, uses: int | None, makes: int | None, stated: int | None, **more: Any) -> RoundResult:
    """A round of single crochet."""
    number = int(label.split()[-1].split("-")[0])
    more.setdefault("first", number)
    more.setdefault("last", number)
    return RoundResult(
        label,
        "round",
        line,
        _NO_SYNTAX,
        uses=(uses,),
        makes=(makes,),
        stated=(stated,),
        stitches=Counter({("A", "sc"): (makes or 0) * more.get("worked", 1)}),
        **more,
    )


def pattern_syntax(*excuses: Any) -> syntax.Pattern:
    return syntax.Pattern(syntax.Header(), excuses=list(excuses))


SEAL = """\
---
title: Moss vole
---
```crochet
Title: Moss vole
Terms: US
# Body
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 5 (18)
Rnds 4-6: sc in each st around (18)
Rnd 7: (dec, sc) x 6 (13)
Rnd 8: dec x 6 (6)
>> right as written: it is a bud
Insert 6 mm safety eyes between Rnds 4 and 5.
```
"""


def vole() -> FileResult:
    """A page with a slip of two problems, one of one problem, a warning, an excuse and a caution."""
    title = "Moss vole"
    findings = [
        Finding(
            "stitches-left-over",
            Severity.ERROR,
            at(10, 8, 21),
            "Rnd 3 works into 10 of 12 stitches; 2 are left over.",
            "Rnd 4 works into 18, so write x 6.",
            edits=(Edit(at(10, 20, 21), "6"),),
            sure=True,
            label="works into 10 stitches and makes 15",
            group=1,
            pattern=title,
            piece="Body",
            round=3,
        ),
        Finding(
            "count-mismatch",
            Severity.ERROR,
            at(10, 22, 26),
            "It makes 15 stitches; you wrote 18.",
            "Rnd 4 works into 18, so write x 6.",
            edits=(Edit(at(10, 20, 21), "6"),),
            sure=True,
            group=1,
            pattern=title,
            piece="Body",
            round=3,
        ),
        Finding(
            "count-mismatch",
            Severity.ERROR,
            at(12, 22, 26),
            "Rnd 7 makes 12 stitches; you wrote 13.",
            "Rnd 8 works into 12, so the count is the likely slip: write (12).",
            edits=(Edit(at(12, 23, 25), "12"),),
            label="",
            also=(Label(at(12, 8, 21), "works into 18 stitches and makes 12"),),
            group=2,
            pattern=title,
            piece="Body",
            round=7,
            follows=("Rnd 8 would begin with 13 stitches.",),
        ),
        Finding(
            "closed-before-stuffing",
            Severity.ADVICE,
            at(13, 1, 19),
            "Body closes to 6 stitches and nothing says to stuff it.",
            "Stuff it before, or say so: do not stuff.",
            pattern=title,
            piece="Body",
            round=8,
            excused="it is a bud",
        ),
        Finding(
            "unlisted-material",
            Severity.WARNING,
            at(15, 8, 24),
            "6 mm safety eyes are not in the materials.",
            "Add a line: Notions: 6 mm safety eyes (2).",
            pattern=title,
        ),
        Finding(
            "small-parts", Severity.CAUTION, at(15, 13, 24), "Safety eyes come off and can be swallowed.", pattern=title
        ),
    ]
    rounds = [
        worked("Rnd 1", 8, 0, 6, 6, status=Status.CHECKED),
        worked("Rnd 2", 9, 6, 12, 12, status=Status.CHECKED),
        worked("Rnd 3", 10, 10, 15, 18, status=Status.MISMATCH),
        worked("Rnds 4-6", 11, 18, 18, 18, status=Status.CHECKED, worked=3, last=6),
        worked("Rnd 7", 12, 18, 12, 13, status=Status.MISMATCH),
        worked("Rnd 8", 13, 12, 6, 6, status=Status.CHECKED),
    ]
    pattern = PatternResult(
        title,
        5,
        pattern_syntax(),
        [PieceResult("Body", 2, 7, _NO_SYNTAX, rounds)],
        [Reading("turning-chain hdc", "does not count", "declared")],
        list(findings),
        end_line=15,
    )
    return FileResult("docs/moss-vole.md", [pattern], findings, SEAL)


def hat() -> FileResult:
    """A right pattern in a plain text file, in two sizes, one line of it without a count and one on trust."""
    text = "Title: Hearth cap\nSizes: S (M)\nRnd 1: 6 (8) sc in ring\nRnds 2-3: inc evenly around\n"
    rounds = [
        RoundResult(
            "Rnd 1",
            "round",
            3,
            _NO_SYNTAX,
            1,
            1,
            uses=(0, 0),
            makes=(6, 8),
            stated=(None, None),
            status=Status.COUNTED,
            stitches=Counter({("", "sc"): 6}),
        ),
        RoundResult(
            "Rnds 2-3",
            "round",
            4,
            _NO_SYNTAX,
            2,
            3,
            worked=2,
            uses=(6, 8),
            makes=(None, None),
            stated=(None, None),
            each=((6, 12), (12, None)),
            status=Status.ON_TRUST,
            trust="evenly without a number",
        ),
    ]
    finding = Finding(
        "on-trust",
        Severity.INFO,
        at(4, 15, 28),
        'Rnds 2-3 are on trust: "evenly" has no number.',
        pattern="Hearth cap",
        round=2,
    )
    pattern = PatternResult(
        "Hearth cap",
        1,
        pattern_syntax(),
        [PieceResult("Cap", 1, 3, _NO_SYNTAX, rounds)],
        findings=[finding],
        end_line=4,
    )
    return FileResult("hearth-cap.txt", [pattern], [finding], text)


def waiting() -> list[FileResult]:
    """A draft, and a page that is not yet cleared."""
    text = "```crochet\nTitle: Fen frog\nDraft: yes\nRnd 1: 6 sc in ring (7)\n```\n"
    slip = Finding(
        "count-mismatch",
        Severity.ERROR,
        at(4, 21, 24),
        "Rnd 1 makes 6 stitches; you wrote 7.",
        "Write (6).",
        pattern="Fen frog",
        waits="draft",
    )
    rounds = [worked("Rnd 1", 4, 0, 6, 7, status=Status.MISMATCH)]
    draft = PatternResult(
        "Fen frog",
        2,
        pattern_syntax(),
        [PieceResult("", 1, 4, _NO_SYNTAX, rounds)],
        findings=[slip],
        draft=True,
        end_line=4,
    )
    old = Finding(
        "unknown-stitch",
        Severity.ERROR,
        at(3, 1, 4),
        "I don't know the stitch scc; sc is near.",
        edits=(Edit(at(3, 1, 4), "sc"),),
        waits="not-yet",
    )
    return [
        FileResult("docs/fen-frog.md", [draft], [slip], text),
        FileResult("docs/old/rook.md", [], [old], "\n\nscc\n", not_yet=True),
    ]


def awkward() -> FileResult:
    """Places that are hard to show: tabs, wide letters, several lines, long lines, control signs, the end of a file."""
    long = "Rnd 9: " + "sc, " * 200 + "dcc, " + "sc, " * 200
    text = (
        "\t> Rnd 1:\tsc x 6 (7)\n"
        "Rnd 2: \u7de8\u307f\u56f3 sc\u0301 x 6 (7)\n"
        f"Rnd 3: [sc,\n    inc) x 6 (18)\n{long}\n"
        "Rnd 5: \x1b[31msc\u202e (6)\n"
    )
    places = [
        ("count-mismatch", at(1, 18, 21), "After tabs."),
        ("count-mismatch", at(2, 20, 23), "After wide and combining letters."),
        ("unbalanced-mark", at(3, 8, 9, 4), "Over two lines."),
        ("unknown-stitch", at(5, 808, 811), "In a long line."),
        ("count-mismatch", at(5, 1, 6), "At the front of a long line."),
        ("count-mismatch", at(6, 17, 20), "After \x1b[31mcontrol signs\x1b[0m\nand a line end."),
        ("unclosed-block", at(7, 1, 1), "At the end of the file."),
        ("checker-fault", at(99, 5, 5), "Beyond the end of the file."),
    ]
    return FileResult(
        "a\x1b[2Jb.md", [], [Finding(rule, Severity.ERROR, span, said) for rule, span, said in places], text
    )


def two_marks() -> FileResult:
    """A message with two places that each have something to say."""
    text = "Rnds 5-7 (4 rnds): sc around (24)\n"
    finding = Finding(
        "range-length",
        Severity.ERROR,
        at(1, 11, 12),
        "Rnds 5-7 are 3 rounds; you wrote 4.",
        "Write 3, or Rnds 5-8.",
        edits=(Edit(at(1, 11, 12), "3"),),
        alternatives=((Edit(at(1, 11, 12), "3"),), (Edit(at(1, 8, 9), "8"),)),
        label="4 is written here",
        also=(Label(at(1, 6, 9), "5, 6 and 7"),),
    )
    return FileResult("two.txt", [], [finding], text)


def all_samples() -> list[FileResult]:
    """Every file of the golden tests, in order."""
    return [vole(), hat(), *waiting(), two_marks(), FileResult("empty.md")]

"""The command line as its user has it: a process, its output and its exit code."""

from __future__ import annotations

import io
import json
import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from golden_files import compare

from mkdocs_stitchcheck.hosts.checking import Progress, run
from mkdocs_stitchcheck.hosts.commands.explain import explained
from mkdocs_stitchcheck.hosts.options import COMMANDS
from mkdocs_stitchcheck.language.meanings import meaning
from mkdocs_stitchcheck.rules import catalogue

RIGHT = "Title: Acorn cap\nTerms: US\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
WRONG = RIGHT.replace("(12)", "(13)")


def page(pattern: str) -> str:
    return f"---\ntitle: A page\n---\n\nSome words.\n\n```crochet\n{pattern}```\n\nMore words.\n"


def stitchcheck(*arguments: object, code: int = 0, cwd: Path | None = None, stdin: bytes = b"", **env: str) -> str:
    """What ``stitchcheck`` says on standard output, after its exit code was seen to be *code*."""
    return both(*arguments, code=code, cwd=cwd, stdin=stdin, **env)[0]


def both(*arguments: object, code: int, cwd: Path | None = None, stdin: bytes = b"", **env: str) -> tuple[str, str]:
    ended = subprocess.run(
        [sys.executable, "-m", "mkdocs_stitchcheck", *map(str, arguments)],
        capture_output=True,
        cwd=cwd,
        input=stdin,
        env={**os.environ, "COLUMNS": "100", **env},
        timeout=60,
        check=False,
    )
    told = ended.stdout.decode(), ended.stderr.decode()
    assert ended.returncode == code, told
    assert "Traceback" not in told[1]
    return told


@pytest.fixture
def blog(tmp_path: Path) -> Path:
    """A folder with what lies in one: right and wrong pages, plain patterns, other texts, hidden and made folders."""
    write(tmp_path / "docs/right.md", page(RIGHT))
    write(tmp_path / "docs/posts/wrong.markdown", page(WRONG))
    write(tmp_path / "docs/cap.txt", WRONG)
    write(tmp_path / "docs/shopping.txt", "Buy milk (2), row over to the island: 3 miles.\nDate: today\n")
    write(tmp_path / "docs/words.md", "# Only words\n")
    write(tmp_path / "docs/.hidden/wrong.md", page(WRONG))
    write(tmp_path / "docs/node_modules/wrong.md", page(WRONG))
    write(tmp_path / "site/sitemap.xml", "<urlset/>")
    write(tmp_path / "site/wrong.md", page(WRONG))
    write(tmp_path / "docs/cover.jpg", "no text")
    return tmp_path


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="")
    return path


def heads(told: str) -> list[str]:
    """Path, line, severity and rule of each finding."""
    return [re.sub(r":\d+: ", ": ", line.partition("]: ")[0] + "]") for line in told.splitlines() if "]: " in line]


def test_a_folder(blog: Path) -> None:
    told = stitchcheck("check", ".", "--format", "short", code=1, cwd=blog)
    assert heads(told) == [
        "docs/cap.txt:4: error[count-mismatch]",
        "docs/posts/wrong.markdown:11: error[count-mismatch]",
    ]


def test_nothing_said_is_the_folder_one_is_in(blog: Path) -> None:
    assert stitchcheck("check", code=1, cwd=blog) == stitchcheck("check", ".", code=1, cwd=blog)


def test_a_right_page(blog: Path) -> None:
    told = stitchcheck("check", "docs/right.md", cwd=blog)
    assert told == "1 pattern, 2 rounds: 2 checked. Nothing to mend.\n"
    assert stitchcheck("check", "docs/right.md", "--quiet", cwd=blog) == ""


def test_a_wrong_page_in_full(blog: Path) -> None:
    told = stitchcheck("check", "docs/posts/wrong.markdown", code=1, cwd=blog)
    lines = told.splitlines()
    assert lines[0].startswith("docs/posts/wrong.markdown:11:")
    assert "error[count-mismatch]: " in lines[0]
    assert lines[1] == "     11 | Rnd 2: inc x 6 (13)"
    assert set(lines[2].partition("|")[2].split("^^")[0]) == {" "}
    assert lines[-1].startswith("1 pattern, 2 rounds: 1 checked, 1 wrong. 1 error")


def test_a_file_is_read_once_and_a_named_one_always(blog: Path) -> None:
    told = json.loads(
        stitchcheck(
            "check", "docs/words.md", "docs/shopping.txt", "docs/words.md", "--format", "json", code=1, cwd=blog
        )
    )
    assert [file["path"] for file in told["files"]] == ["docs/words.md", "docs/shopping.txt"]
    assert (
        json.loads(stitchcheck("check", "docs/words.md", ".", "--format", "json", code=1, cwd=blog))["files"][0]["path"]
        == "docs/words.md"
    )


def test_no_pattern_is_said(blog: Path) -> None:
    assert stitchcheck("check", "docs/words.md", cwd=blog) == "No crochet pattern found.\n"


def test_an_unreadable_path_is_said_after_all_others(blog: Path) -> None:
    told, complained = both("check", "gone.md", "docs/right.md", "docs/cap.txt", code=2, cwd=blog)
    assert "docs/cap.txt:4:" in told
    assert complained == "stitchcheck: gone.md can't be read: No such file or directory.\n"


def test_a_file_too_large_to_be_a_page(blog: Path) -> None:
    with open(blog / "film.md", "wb") as film:
        film.truncate(65 * 1024 * 1024)
    _told, complained = both("check", "film.md", code=2, cwd=blog)
    assert (
        complained == "stitchcheck: film.md can't be read: it is larger than 64 MB, which no page with a pattern is.\n"
    )


def test_the_pipe(blog: Path) -> None:
    assert stitchcheck("check", "-", stdin=WRONG.encode(), code=1).startswith("<stdin>:4:")
    assert stitchcheck("check", "-", stdin=page(WRONG).encode(), code=1).startswith("<stdin>:11:")
    told = stitchcheck("check", "-", "--stdin-name", "docs/cap.txt", stdin=WRONG.encode(), code=1)
    assert told.startswith("docs/cap.txt:4:")
    assert stitchcheck("check", "-", stdin=b"") == "No crochet pattern found.\n"


def test_bytes_that_are_no_text(blog: Path) -> None:
    """A letter of another encoding is one finding with its place, and the rest is still read."""
    (blog / "old.txt").write_bytes(WRONG.replace("Acorn", "Löwe").encode("latin-1"))
    told = stitchcheck("check", "old.txt", code=1, cwd=blog)
    assert told.startswith(
        "old.txt:1:9: error[unreadable-line]: This file is not UTF-8 text: here stands the byte 0xf6"
    )
    assert "old.txt:4:" in told
    (blog / "noise.md").write_bytes(bytes(range(256)) * 40)
    assert stitchcheck("check", "noise.md", cwd=blog) == "No crochet pattern found.\n"


def test_byte_order_marks_and_utf_16(blog: Path) -> None:
    for name, encoding in (("bom.txt", "utf-8-sig"), ("wide.txt", "utf-16")):
        (blog / name).write_bytes(WRONG.encode(encoding))
        assert stitchcheck("check", name, code=1, cwd=blog).startswith(f"{name}:4:")


def test_several_reports_at_once(blog: Path) -> None:
    told = stitchcheck(
        "check",
        "docs",
        "--format",
        "sarif=out.sarif",
        "--format",
        "short",
        "--format",
        "junit=out.xml",
        code=1,
        cwd=blog,
    )
    assert len(told.splitlines()) == 2
    assert json.loads((blog / "out.sarif").read_text())["version"] == "2.1.0"
    assert "<testsuites" in (blog / "out.xml").read_text()
    assert stitchcheck("check", "docs", "--format", "short", "--output", "out.txt", code=1, cwd=blog) == ""
    assert (blog / "out.txt").read_text() == told


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check", "--format", "jsn"], "There is no format 'jsn'; did you mean json?"),
        (["check", "--format", "json", "--format", "text"], "Two reports can't both go to the screen"),
        (["check", "--format", "json=a", "--format", "text=a"], "Two reports can't both go to a"),
        (["check", "--format", "json", "--format", "text", "--output", "a"], "--output takes one report"),
        (["check", "--output", "no/such/folder/a"], "no/such/folder/a can't be written: No such file or directory."),
        (["check", "--strikt"], "Unrecognized arguments: --strikt."),
        (["check", "--watch", "-"], "--watch needs files"),
        (["check", "--config-file", "none.yml"], "none.yml can't be read"),
        (["chekc"], "There is no command 'chekc'; did you mean check?"),
        ([], "The following arguments are required: COMMAND."),
        (["explain", "cups-and"], "There is no rule 'cups-and'; did you mean cups?"),
        (["stitches", "hcd"], "'hcd' is no stitch that is known; did you mean hdc?"),
        (["fix", "gone.md"], "gone.md was left as it is: No such file or directory."),
    ],
)
def test_what_cannot_be_done_is_said_plainly(tmp_path: Path, arguments: list[str], said: str) -> None:
    _told, complained = both(*arguments, code=2, cwd=tmp_path)
    assert f"stitchcheck: {said}" in complained


def test_settings_of_the_nearest_project(blog: Path) -> None:
    write(
        blog / "pyproject.toml",
        '[tool.stitchcheck]\nnot_yet = ["docs/posts/"]\nseverities = {count-mismatch = "warning"}\n',
    )
    told = stitchcheck("check", "docs", cwd=blog)
    assert "1 page not yet cleared." in told
    assert "docs/cap.txt:4:" in told and "warning[count-mismatch]" in told
    stitchcheck("check", "docs", "--strict", code=1, cwd=blog)
    write(blog / "pyproject.toml", "[tool.stitchcheck]\nstrickt = true\n")
    _told, complained = both("check", "docs", code=2, cwd=blog)
    assert (
        complained
        == "stitchcheck: pyproject.toml, [tool.stitchcheck]: there is no setting 'strickt'; did you mean strict?\n"
    )


def test_settings_of_the_site(blog: Path) -> None:
    site = write(blog / "mkdocs.yml", "plugins:\n  - stitchcheck:\n      not_yet: [cap.txt, posts/wrong.markdown]\n")
    told = stitchcheck("check", "docs", "--config-file", site.name, cwd=blog)
    assert "2 pages not yet cleared: 2 errors shown that don't fail." in told


def test_no_colors_and_no_progress_outside_of_a_terminal(blog: Path) -> None:
    told, complained = both("check", "docs", code=1, cwd=blog)
    assert "\x1b" not in told and complained == ""
    assert "\x1b[1;31m" in stitchcheck("check", "docs", "--color", "always", code=1, cwd=blog)


def on_terminal(arguments: list[str], cwd: Path, **env: str) -> str:
    """What a terminal shows of ``stitchcheck``."""
    here, there = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "mkdocs_stitchcheck", *arguments],
        stdout=there,
        stderr=there,
        cwd=cwd,
        env={**os.environ, "TERM": "xterm", "CI": "1", **env},
    )
    os.close(there)
    told = b"".join(iter(lambda: _read(here), b""))
    process.wait(timeout=60)
    os.close(here)
    return told.decode()


def _read(handle: int) -> bytes:
    try:
        return os.read(handle, 65536)
    except OSError:  # the other end is closed
        return b""


def test_colors_on_a_terminal(blog: Path) -> None:
    assert "\x1b[1;31merror[count-mismatch]" in on_terminal(["check", "docs"], blog)
    assert "\x1b" not in on_terminal(["check", "docs"], blog, NO_COLOR="1")


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_progress_of_long_runs(blog: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal only, not in CI, and gone when the run is over."""
    monkeypatch.setattr(Progress, "_AFTER", 0.0)
    monkeypatch.chdir(blog)

    def told(stream: io.StringIO, *, ci: str = "", quietly: bool = False) -> str:
        monkeypatch.setattr(sys, "stderr", stream)
        monkeypatch.setenv("CI", ci)
        run(["docs"], quietly=quietly)
        return stream.getvalue()

    shown = told(Terminal())
    assert shown.startswith("\r\x1b[K1 files ... cap.txt")
    assert shown.endswith("\r\x1b[K")
    assert told(io.StringIO()) == told(Terminal(), ci="true") == told(Terminal(), quietly=True) == ""


def test_a_reader_that_has_seen_enough(blog: Path) -> None:
    many = "".join(f"Rnd {number}: 6 sc in magic ring (7)\n" for number in range(1, 500))
    write(blog / "many.txt", many)
    process = subprocess.Popen(
        [sys.executable, "-m", "mkdocs_stitchcheck", "check", "many.txt"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=blog,
    )
    assert process.stdout is not None and process.stderr is not None
    process.stdout.read(10)
    process.stdout.close()
    assert process.stderr.read() == b""
    assert process.wait(timeout=60) in (0, 1)


def test_watching(blog: Path) -> None:
    """Runs again when a file changes, and Ctrl-C ends it with the code of the last run."""
    process = subprocess.Popen(
        [sys.executable, "-u", "-m", "mkdocs_stitchcheck", "check", "docs", "--format", "short", "--watch"],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        cwd=blog,
        bufsize=0,
        # A shell that runs the tests in the background has Ctrl-C ignored, and its children with it.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509 - one thread here
    )
    try:
        lines = _lines(process)
        assert _until(lines, "Watching") == 2
        write(blog / "docs/cap.txt", RIGHT)
        assert _until(lines, "Watching") == 1
        write(blog / "docs/new.md", page(WRONG) + page(WRONG))
        assert _until(lines, "Watching") >= 2
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=20) == 1
    finally:
        process.kill()


def _lines(process: subprocess.Popen[bytes]) -> Iterator[str]:
    assert process.stdout is not None
    end = time.monotonic() + 60
    while time.monotonic() < end:
        if select.select([process.stdout], [], [], 1)[0]:
            yield process.stdout.readline().decode()
    raise AssertionError("nothing more came")


def _until(lines: Iterator[str], beginning: str) -> int:
    """How many findings are told before the line that begins so."""
    findings = 0
    for line in lines:
        if line.startswith(beginning):
            return findings
        findings += "error[" in line
    raise AssertionError(beginning)


# --- explain, stitches, completion, help --------------------------------------------------------------------------


def test_all_rules_explained() -> None:
    """Every explanation in one file, to be read aloud as a maker would."""
    parts = ["\n".join(explained(rule)) for rule in catalogue().values()]
    compare("explain.txt", f"\n\n{'-' * 88}\n\n".join(parts) + "\n")
    assert stitchcheck("explain", "count-mismatch") == "\n".join(explained(catalogue()["count-mismatch"])) + "\n"


def test_the_list_of_rules() -> None:
    compare("explain-list.txt", stitchcheck("explain"))


def test_help() -> None:
    told = [stitchcheck("--help", COLUMNS="88")]
    told += [stitchcheck(command, "--help", COLUMNS="88") for command in COMMANDS]
    if sys.version_info < (3, 13):  # later ones draw the list of options a little otherwise
        compare("help.txt", "\n".join(told))
    assert all(command in told[0] for command in COMMANDS)


def test_stitches() -> None:
    compare("stitches.txt", stitchcheck("stitches") + stitchcheck("stitches", "dc") + stitchcheck("stitches", "treble"))


@pytest.mark.parametrize(
    ("word", "system", "uses", "makes"),
    [("sc", "US", 1, 1), ("dc2tog", "UK", 2, 1), ("inc", "US", 1, 2), ("sc3tog", "US", 3, 1), ("FPdc", "US", 1, 1)],
)
def test_stitches_of_either_terms(word: str, system: str, uses: int, makes: int) -> None:
    """Craft Yarn Council, Standards & Guidelines (2018): names; numbers: common practice, no source."""
    stitch = meaning(word, system)
    assert stitch is not None
    assert (stitch.uses, stitch.makes) == (uses, makes)


def test_a_word_of_one_terms_only() -> None:
    assert meaning("sc", "UK") is None
    assert meaning("sc1tog", "US") is None
    assert "sc in US terms: single crochet; UK: dc" in stitchcheck("stitches", "sc")


def test_completion_in_bash(blog: Path) -> None:
    script = stitchcheck("completion", "bash")

    def completed(*words: str) -> set[str]:
        listed = " ".join(f"'{word}'" for word in ("stitchcheck", *words))
        run = f"{script}\nCOMP_WORDS=({listed}); COMP_CWORD={len(words)}; _stitchcheck; printf '%s\\n' \"${{COMPREPLY[@]}}\""
        told = subprocess.run(["bash", "-c", run], capture_output=True, text=True, check=True, cwd=blog)
        assert told.stderr == ""
        return set(told.stdout.split())

    assert completed("") >= set(COMMANDS)
    assert completed("ch") == {"check"}
    assert completed("check", "--st") == {"--strict", "--stdin-name"}
    assert completed("check", "--format", "s") == {"short", "sarif"}
    assert completed("check", "d") == {"docs"}
    assert completed("check", "--output", "d") == {"docs"}
    assert completed("explain", "count-") == {"count-left-out", "count-mismatch", "count-missing"}
    assert completed("completion", "") >= {"bash", "zsh", "fish"}


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_completion_in_other_shells(shell: str) -> None:
    """Compared with what was tried by hand; where the shell is at hand it reads the script."""
    import shutil

    script = stitchcheck("completion", shell)
    compare(f"completion.{shell}", script)
    if shutil.which(shell):
        subprocess.run(
            [shell, "-n", "-c", script] if shell == "zsh" else [shell, "-n"], input=script, text=True, check=True
        )


# --- what it costs ------------------------------------------------------------------------------------------------


def test_it_imports_none_of_the_hosts(blog: Path) -> None:
    """Not for any command, format or file: start-up is most of what a commit hook costs."""
    code = (
        "import sys; from mkdocs_stitchcheck.hosts.commandline import main; main(sys.argv[1:]);"
        "print('*', sorted({'markdown', 'mkdocs', 'pymdownx', 'pydantic', 'attrs', 'attr', 'click', 'yaml'} & set(sys.modules)))"
    )
    for arguments in (
        ["check", "docs"],
        ["check", "docs", "--format", "sarif"],
        ["fix", "docs"],
        ["explain"],
        ["stitches", "dc"],
    ):
        told = subprocess.run(
            [sys.executable, "-c", code, *arguments], capture_output=True, text=True, cwd=blog, check=True
        )
        assert told.stdout.splitlines()[-1] == "* []"

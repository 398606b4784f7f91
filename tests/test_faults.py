"""A full disk, a folder that can't be written, a build that is killed, a bug of ours: one plain error, nothing half-written."""

from __future__ import annotations

import json
import os
import posixpath
import re
import resource
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from site_kit import HEADER, RIGHT, SLIP, WRONG, Built, Site, environment, fence, line_of, page

from mkdocs_stitchcheck.files import write_whole
from mkdocs_stitchcheck.printing import record

GOOD = page(fence(HEADER, RIGHT))
BAD = page(fence(HEADER, WRONG))
SURE = GOOD.replace("x 6 (12)", "x 6 (13)")  # both neighbours say so: fix mends it without asking
ROOT = Path(__file__).parent.parent
SHOP = "plugins:\n  - stitchcheck: {pdf: shop}\n"
needs_full = pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device of Linux")


def small_files(limit: int) -> None:
    """In a new process: no file may grow beyond *limit* bytes, as on a disk that is full then."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))


def run(folder: Path, *command: str, limit: int | None = None, planted: str = "", stdout: object = subprocess.PIPE) -> Built:
    """A program in *folder*. *limit*: see :func:`small_files`; *planted*: Python that runs before it, for bugs."""
    around = environment()
    if planted:
        (folder / "planted").mkdir(exist_ok=True)
        (folder / "planted" / "sitecustomize.py").write_text(planted, encoding="utf-8")
        around["PYTHONPATH"] = os.pathsep.join([str(folder / "planted"), str(ROOT)])
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=folder, env=around, check=False, timeout=120, text=True, stdout=stdout,  # type: ignore[call-overload]
        stderr=subprocess.STDOUT if stdout == subprocess.PIPE else subprocess.PIPE,
        preexec_fn=(lambda: small_files(limit)) if limit is not None else None,
    )  # fmt: skip
    return Built(done.returncode, (done.stdout or "") + (done.stderr or ""), folder / "site")


# Printing takes seconds: where it is the names and the writing that count, what would be printed is written instead.
UNPRINTED = """\
import mkdocs_stitchcheck.hosts.pdfs, mkdocs_stitchcheck.hosts.commands.pdf
def unprinted(order, limit=0):
    return order.html.encode(), ""
mkdocs_stitchcheck.hosts.pdfs.make_pdf = mkdocs_stitchcheck.hosts.commands.pdf.make_pdf = unprinted
"""


def build(folder: Path, planted: str = "") -> Built:
    """A build that prints nothing."""
    return run(folder, "mkdocs", "build", planted=UNPRINTED + planted)


def leftovers(folder: Path) -> list[Path]:
    return [path for path in folder.rglob(".stitchcheck-*")]


# --- a full disk --------------------------------------------------------------------------------------------------


@needs_full
@pytest.mark.parametrize(
    "words", ["check docs", "check docs --format json", "fix docs", "tidy docs", "adopt docs", "explain", "css", "js", "points", "yarn docs/index.md",
              "proofread docs", "stitches", "film docs/index.md", "corrections docs/index.md docs/wrong.md"],
)  # fmt: skip
def test_output_to_a_full_disk(tmp_path: Path, words: str) -> None:
    """Never 1, which says that something is wrong with a pattern."""
    untidy = GOOD.replace("Rnd 3: sc around (12)", "R3-  sc around=12")
    Site(tmp_path).write(**{"index.md": untidy, "wrong.md": BAD, "old.md": "Old\n\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"})
    with open("/dev/full", "w", encoding="utf-8") as full:
        ended = run(tmp_path, "mkdocs_stitchcheck", *words.split(), stdout=full)
    assert ended.code == 2
    assert ended.said == "stitchcheck: What there is to say can't be written: No space left on device.\n"


@pytest.mark.parametrize("command", ["fix", "tidy"])
def test_a_file_that_is_mended_on_a_full_disk_stays_as_it_was(tmp_path: Path, command: str) -> None:
    text = SURE if command == "fix" else GOOD.replace("Rnd 3: sc around (12)", "R3-  sc around=12")
    Site(tmp_path).write(**{"page.md": text})
    ended = run(tmp_path, "mkdocs_stitchcheck", command, "docs/page.md", "--save", limit=100)
    assert ended.code == 2 and "docs/page.md was left as it is: File too large." in ended.said, ended.said
    assert (tmp_path / "docs/page.md").read_text(encoding="utf-8") == text and not leftovers(tmp_path)


def test_a_report_on_a_full_disk_is_whole_or_the_old_one(tmp_path: Path) -> None:
    Site(tmp_path).write(**{"wrong.md": BAD})
    (tmp_path / "report.json").write_text("[]", encoding="utf-8")
    ended = run(tmp_path, "mkdocs_stitchcheck", "check", "docs", "--format", "json", "--output", "report.json", limit=100)
    assert ended.code == 2 and ended.said == "stitchcheck: report.json can't be written: File too large.\n"
    assert (tmp_path / "report.json").read_text(encoding="utf-8") == "[]" and not leftovers(tmp_path)


def test_a_shop_on_a_full_disk(tmp_path: Path) -> None:
    """The site is written, the PDF is not, and the next build makes it."""
    made = Site(tmp_path, SHOP).write(**{"index.md": GOOD})
    planted = (
        "import mkdocs_stitchcheck.files as files, mkdocs_stitchcheck.printing.record as record\n"
        "def full(path, data):\n"
        "    import resource, signal\n"
        "    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "    resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))\n"
        "    files.write_whole(path, data)\n"
        "record.write_whole = full\n"
    )
    ended = run(tmp_path, "mkdocs", "build", planted=planted)
    assert ended.code == 1 and "pebble-US-A4.pdf can't be written: File too large." in ended.said and "Traceback" not in ended.said
    assert list((tmp_path / "shop").iterdir()) == []
    built = made.build()
    assert built.code == 0 and (tmp_path / "shop/pebble-US-A4.pdf").read_bytes().rstrip().endswith(b"%%EOF")


# --- folders that can't be written -----------------------------------------------------------------------------------


def test_a_site_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """MkDocs says so itself; what was found is told before. (A file stands in the folder's place: for root no folder is
    closed.)"""
    warned = GOOD + "\n```crohet\nRnd 1: 6 sc in magic ring (6)\n```\n"
    made = Site(tmp_path, "site_dir: shut/site\nplugins: [stitchcheck]\n").write(**{"index.md": warned})
    (tmp_path / "shut").write_text("", encoding="utf-8")
    built = made.build()
    assert built.code != 0 and "warning[fence-not-read]" in built.said


def test_a_shop_that_cannot_be_written(tmp_path: Path) -> None:
    made = Site(tmp_path, SHOP).write(**{"index.md": GOOD})
    (tmp_path / "shop").write_text("", encoding="utf-8")
    built = made.build()
    assert built.code == 1 and "pebble-US-A4.pdf can't be written" in built.said and "Traceback" not in built.said
    assert "index.html" in built.pages


# --- killed --------------------------------------------------------------------------------------------------------

KILLED = """\
import os
import mkdocs_stitchcheck.files
def killed(*given):
    os._exit(9)
os.{call} = killed
"""


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_build_killed_while_a_pdf_is_written(tmp_path: Path, call: str) -> None:
    made = Site(tmp_path, SHOP).write(**{"index.md": GOOD})
    assert build(tmp_path).code == 0
    pdf = tmp_path / "shop/pebble-US-A4.pdf"
    whole = pdf.read_bytes()
    made.put("index.md", GOOD.replace("# Body", "# Stone"))
    assert build(tmp_path, KILLED.format(call=call)).code == 9
    assert pdf.read_bytes() == whole and json.loads((tmp_path / "shop/made-from.json").read_text(encoding="utf-8"))
    pdf.unlink()
    assert build(tmp_path, KILLED.format(call=call)).code == 9
    assert not pdf.exists()
    assert build(tmp_path).code == 0 and b"Stone" in pdf.read_bytes()


def test_a_mending_killed_leaves_the_old_page(tmp_path: Path) -> None:
    Site(tmp_path).write(**{"page.md": SURE})
    assert run(tmp_path, "mkdocs_stitchcheck", "fix", "docs", "--save", planted=KILLED.format(call="replace")).code == 9
    assert (tmp_path / "docs/page.md").read_text(encoding="utf-8") == SURE
    checked = run(tmp_path, "mkdocs_stitchcheck", "check", "docs")
    assert checked.code == 1 and checked.count(SLIP) == 1, "what was left over is no page"


def test_a_damaged_record_is_no_record(tmp_path: Path) -> None:
    Site(tmp_path, SHOP).write(**{"index.md": GOOD})
    assert build(tmp_path).code == 0
    path = tmp_path / "shop" / record.NAME
    whole = path.read_text(encoding="utf-8")
    for damaged in ("", whole[:40], "[]", '{"pebble-US-A4.pdf": 3}', '{"pebble-US-A4.pdf": {"text": 1}}', "\x00" * 100, "[" * 100_000):
        path.write_text(damaged, encoding="utf-8")
        assert record.Record.of(tmp_path / "shop").made.get("pebble-US-A4.pdf", {}).get("text") in (None, "1")
    assert build(tmp_path).code == 0 and path.read_text(encoding="utf-8") == whole


def test_written_whole_or_not_at_all(tmp_path: Path) -> None:
    plain, link = tmp_path / "a.txt", tmp_path / "b.txt"
    write_whole(plain, b"one")
    os.chmod(plain, 0o640)
    link.symlink_to(plain)
    write_whole(link, b"two")
    assert plain.read_bytes() == b"two" and link.is_symlink() and plain.stat().st_mode & 0o777 == 0o640
    with pytest.raises(OSError):
        write_whole(tmp_path / "none" / "c.txt", b"three")
    reader, writer = os.pipe()
    write_whole(f"/dev/fd/{writer}", b"four")
    os.close(writer)
    with os.fdopen(reader, "rb") as read:
        assert read.read() == b"four"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.txt", "b.txt"]


# --- bugs of ours -----------------------------------------------------------------------------------------------------

BUG = """\
import {module} as broken
whole = broken.{name}
def planted(*given, **more):
    if {when}:
        raise ZeroDivisionError("a bug")
    return whole(*given, **more)
broken.{name} = planted
"""
TOLD = "error[checker-fault]"


@pytest.mark.parametrize(
    ("module", "name", "when"),
    [
        ("mkdocs_stitchcheck.checker", "count_pattern", "given[0].title == 'Unlucky'"),
        ("mkdocs_stitchcheck.checker", "read_patterns", "any('Unlucky' in line.text for lines in given[0] for line in lines)"),
        ("mkdocs_stitchcheck.language.labelled_lines", "read_instruction", "'hdc around' in given[0].text"),
        ("mkdocs_stitchcheck.checker", "settle_file", "'unlucky' in given[0].path"),
        ("mkdocs_stitchcheck.hosts.showing", "render_block", "'unlucky' in given[0].path"),
    ],
    ids=["counting", "reading", "a round", "the whole check", "showing"],
)
def test_a_bug_of_ours_names_page_and_block_and_hides_no_other_finding(tmp_path: Path, module: str, name: str, when: str) -> None:
    unlucky = page(fence(HEADER.replace("Pebble", "Unlucky"), RIGHT.replace("Rnd 4: dec x 6 (6)", "Rnd 4: hdc around (12)")))
    made = Site(tmp_path).write(**{"a-unlucky.md": unlucky, "b.md": BAD, "index.md": GOOD})
    built = run(tmp_path, "mkdocs", "build", planted=BUG.format(module=module, name=name, when=when))
    assert built.code == 1 and "Traceback" not in built.said, built.said
    assert f"docs/b.md:{line_of(BAD, '(7)')}" in built.places and built.count(SLIP) >= 1
    faults = [line for line in built.said.splitlines() if TOLD in line]
    assert len(faults) == 1 and "docs/a-unlucky.md:" in faults[0], built.said
    assert built.pages == []
    if module.endswith("showing"):
        return
    checked = run(tmp_path, "mkdocs_stitchcheck", "check", "docs", planted=BUG.format(module=module, name=name, when=when))
    assert checked.code == 1 and "Traceback" not in checked.said
    assert checked.count(TOLD) == 1 and f"docs/b.md:{line_of(BAD, '(7)')}" in checked.places, checked.said
    assert made.folder == tmp_path


@pytest.mark.parametrize("name", ["render_sheet", "machine_data", "render_index"])
def test_a_bug_in_what_is_made_of_a_page_ends_the_build_in_plain_words(tmp_path: Path, name: str) -> None:
    module = {"render_sheet": "hosts.sheets", "machine_data": "hosts.mkdocs_plugin", "render_index": "hosts.index_page"}[name]
    config = "plugins:\n  - stitchcheck: {index: all.md}\n"
    Site(tmp_path, config).write(**{"index.md": GOOD, "b.md": GOOD + "\n```crohet\nRnd 1: 6 sc in magic ring (6)\n```\n"})
    when = "len(given[0]) > 1 or 'b/' in given[0][0].address" if name == "render_index" else "True"
    built = run(tmp_path, "mkdocs", "build", planted=BUG.format(module=f"mkdocs_stitchcheck.{module}", name=name, when=when))
    assert built.code == 1 and "Traceback" not in built.said, built.said
    assert re.search(rf"docs/b\.md:{line_of(GOOD, 'Title')}:1: error\[checker-fault\].*fault of stitchcheck", built.said), built.said
    assert "warning[fence-not-read]" in built.said and built.count(TOLD) == (1 if name == "render_index" else 2)
    assert built.pages == []


# --- patterns of one title ----------------------------------------------------------------------------------------------


def stone(grey: str) -> str:
    """A page of the title Pebble and Version 2 with a colour of its own, by which its PDF is known."""
    return page(fence(HEADER, f"Version: 2\nColor A: {grey}, 5 g\n\n", RIGHT.replace("# Body", "# Body (color A)")))


def everything(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*.pdf")}


def says(pdf: bytes) -> str:
    return pdf.decode()


@pytest.mark.parametrize("addresses", ["true", "false"])
def test_downloads_of_one_title_do_not_overwrite_each_other(tmp_path: Path, addresses: str) -> None:
    """On two pages, and twice on one page."""
    config = f"use_directory_urls: {addresses}\nplugins:\n  - stitchcheck: {{pdf: download}}\n"
    twice = stone("ochre") + "\n" + stone("sepia").replace("# Pebble\n", "", 1)
    Site(tmp_path, config).write(**{"a.md": stone("russet"), "b.md": stone("indigo"), "c.md": twice, "index.md": "# Home\n"})
    built = build(tmp_path)
    assert built.code == 0, built.said
    pdfs = everything(tmp_path / "site")
    assert len(pdfs) == 4
    for name, hues in {"a": ["russet"], "b": ["indigo"], "c": ["ochre", "sepia"]}.items():
        at = f"{name}/index.html" if addresses == "true" else f"{name}.html"
        links = re.findall(r'href="([^"]+\.pdf)"', built.read(at))
        told = [says(pdfs[posixpath.normpath(posixpath.join(posixpath.dirname(at), link))]) for link in links]
        assert [hue in text for hue, text in zip(hues, told, strict=True)] == [True] * len(hues), (name, links)
    again = build(tmp_path)
    assert again.code == 0 and "New: " not in again.said and "Made anew" not in again.said and everything(tmp_path / "site") == pdfs


def test_a_shop_with_patterns_of_one_title(tmp_path: Path) -> None:
    """Each keeps its file, whatever page is added before it; a page that was moved takes its file along."""
    made = Site(tmp_path, SHOP).write(**{"b.md": stone("indigo")})
    shop = tmp_path / "shop"
    assert build(tmp_path).code == 0
    assert list(everything(shop)) == ["pebble-US-A4-v2.pdf"]
    before = everything(shop)
    made.put("a.md", stone("russet"))
    built = build(tmp_path)
    assert built.code == 0 and "changed since" not in built.said
    now = everything(shop)
    assert now.keys() == {"pebble-US-A4-v2.pdf", "pebble-2-US-A4-v2.pdf"} and now.items() >= before.items()
    assert "indigo" in says(now["pebble-US-A4-v2.pdf"]) and "russet" in says(now["pebble-2-US-A4-v2.pdf"])
    assert "New: " not in build(tmp_path).said and everything(shop) == now
    (tmp_path / "docs/b.md").rename(tmp_path / "docs/c.md")
    assert build(tmp_path).code == 0
    assert everything(shop).keys() == now.keys() and "indigo" in says(everything(shop)["pebble-US-A4-v2.pdf"])


def test_the_command_with_patterns_of_one_title(tmp_path: Path) -> None:
    Site(tmp_path).write(**{"a.md": stone("russet"), "b.md": stone("indigo")})
    for _ in range(2):
        ended = run(tmp_path, "mkdocs_stitchcheck", "pdf", "docs", "--to", "out", planted=UNPRINTED)
        assert ended.code == 0, ended.said
        found = everything(tmp_path / "out")
        assert found.keys() == {"pebble-US-A4-v2.pdf", "pebble-2-US-A4-v2.pdf"}
        assert "russet" in says(found["pebble-US-A4-v2.pdf"]) and "indigo" in says(found["pebble-2-US-A4-v2.pdf"])


def test_a_page_of_the_writers_where_a_sheet_would_stand(tmp_path: Path) -> None:
    Site(tmp_path).write(**{"pebble.md": GOOD, "pebble/sheet.md": "# My own sheet\n", "index.md": "# Home\n"})
    built = build(tmp_path)
    assert built.code == 0 and "pebble/sheet.md stands where stitchcheck would put a file of its own" in built.said
    assert "My own sheet" in built.read("pebble/sheet/index.html") and "pebble/large-print/index.html" in built.pages


TITLES = ["../../index", "..", "/etc/passwd", "C:\\con", "index.html", "a" * 190, "long words " * 30, "\U00020000" * 200, "\u0915\u094d" * 200, "%2e%2e%2f", "\u202e\u200b", "nul\x00l", "<script>", "{{ config }}"]


def test_no_title_leaves_its_folder(tmp_path: Path) -> None:
    """Titles by guests: every file of theirs lies below their own page or among the drawings, and has a name that systems take."""
    config = "plugins:\n  - stitchcheck: {pdf: shop, index: all.md, charts: all}\n"
    blog = tmp_path / "blog"
    blog.mkdir()
    guests = {f"guest-{n}.md": page(fence(HEADER.replace("Pebble", title), RIGHT), fence(HEADER, RIGHT)) for n, title in enumerate(TITLES)}
    Site(blog, config).write(**guests, **{"index.md": "# Home\n"})
    built = build(blog)
    assert "Traceback" not in built.said and built.code == 0, built.said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["blog"]
    assert {path.name for path in blog.iterdir()} == {"docs", "mkdocs.yml", "site", "shop", "planted"}
    assert {name for name in built.pages if not name.startswith("guest-")} == {"index.html", "404.html", "all/index.html"}
    assert "Home" in built.read() and len(everything(blog / "shop")) == 2 * len(TITLES)
    assert all(path.parent == blog / "shop" for path in (blog / "shop").rglob("*"))

"""Nothing leaves the machine: no build and no command asks the network, and no page tells anybody that it is read."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from lowest import EXTRAS, PROJECT, lowest
from site_kit import HEADER, RIGHT, Site, environment, fence, page

from mkdocs_stitchcheck.render.assets import script, stylesheet

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "mkdocs_stitchcheck"
# CPython's audit events (PEP 578): raised for every socket, whatever library opens it.
ALONE = """\
import sys
def alone(event, args):
    if event in ("socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto", "urllib.Request", "http.client.connect"):
        raise SystemExit(f"asked the network: {event} {args}")
sys.addaudithook(alone)
"""


def run_alone(folder: Path, cwd: Path, *command: str) -> subprocess.CompletedProcess[str]:
    """A program for which every way to the network is shut."""
    (folder / "alone").mkdir(exist_ok=True)
    (folder / "alone" / "sitecustomize.py").write_text(ALONE, encoding="utf-8")
    around = {**environment(), "PYTHONPATH": os.pathsep.join([str(folder / "alone"), str(ROOT)])}
    return subprocess.run([sys.executable, *command], cwd=cwd, env=around, check=False, capture_output=True, text=True, timeout=240)


def test_the_way_is_shut(tmp_path: Path) -> None:
    ended = run_alone(tmp_path, tmp_path, "-c", "import urllib.request; urllib.request.urlopen('http://127.0.0.1:9/')")
    assert ended.returncode == 1 and "asked the network" in ended.stderr


def test_the_example_site_is_built_without_the_network(tmp_path: Path) -> None:
    built = run_alone(tmp_path, ROOT, "-m", "mkdocs", "build", "-q", "-f", "site_example/mkdocs.yml", "-d", str(tmp_path / "site"))
    assert built.returncode == 0, built.stdout + built.stderr
    assert (tmp_path / "site/index.html").is_file()


def test_pdfs_are_printed_without_the_network(tmp_path: Path) -> None:
    """Also where a page names a picture elsewhere."""
    away = page(fence(HEADER, RIGHT)) + "\n![A stone](https://pictures.invalid/stone.jpg)\n"
    Site(tmp_path, "plugins:\n  - stitchcheck: {pdf: shop}\n").write(**{"index.md": away})
    built = run_alone(tmp_path, tmp_path, "-m", "mkdocs", "build")
    assert built.returncode == 0, built.stdout + built.stderr
    assert (tmp_path / "shop/pebble-US-A4.pdf").is_file()


@pytest.mark.parametrize("words", ["check docs", "fix docs", "tidy docs", "proofread docs", "yarn docs/index.md", "film docs/index.md"])
def test_commands_ask_nobody(tmp_path: Path, words: str) -> None:
    Site(tmp_path).write(**{"index.md": page(fence(HEADER, RIGHT))})
    assert "network" not in run_alone(tmp_path, tmp_path, "-m", "mkdocs_stitchcheck", *words.split()).stderr


NETWORK = {"socket", "ssl", "http", "ftplib", "smtplib", "poplib", "imaplib", "telnetlib", "socketserver", "xmlrpc", "webbrowser",
           "requests", "httpx", "aiohttp", "urllib3"}  # fmt: skip


def test_no_module_of_ours_can_reach_the_network() -> None:
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [one.name for one in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) and not node.level else []
            for name in names:
                assert name.partition(".")[0] not in NETWORK, (path, name)
                assert not name.startswith("urllib") or name == "urllib.parse", (path, name)


def test_no_page_tells_that_it_is_read() -> None:
    """Neither script nor style sheet loads or sends anything."""
    assert not re.search(r"\bfetch\(|XMLHttpRequest|sendBeacon|WebSocket|EventSource|\bimport\(|importScripts|new Image|RTCPeer", script())
    assert not re.search(r"@import|url\(\s*['\"]?(?:https?:)?//", stylesheet())


def test_every_dependency_has_a_lower_bound() -> None:
    """So that there is a lowest version to test: ``python -m tests.lowest`` does, and ``test_packaging.py`` in small."""
    for wanted in [*PROJECT["dependencies"], *(one for extra in EXTRAS for one in PROJECT["optional-dependencies"][extra])]:
        assert re.fullmatch(r"[\w.-]+==\d+(\.\d+)+", lowest(wanted))

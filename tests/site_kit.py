"""Small sites in temporary folders, built by the real programs."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path
from types import TracebackType
from typing import Self

HEADER = """\
Title: Pebble
Terms: US
Yarn: light (3), 50 g = 125 m
Hook: 2.5 mm
Gauge: 26 sc x 28 rnds = 10 cm
"""
RIGHT = """\
# Body
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: sc around (12)
Rnd 4: dec x 6 (6)
Fasten off.
"""
# One slip: the count of round 1.
WRONG = RIGHT.replace("ring (6)", "ring (7)")
SLIP = "error[count-mismatch]"


def fence(*parts: str) -> str:
    """A pattern block of *parts*."""
    return "```crochet\n" + "".join(parts) + "```\n"


def page(*blocks: str, title: str = "Pebble") -> str:
    """A page with pattern *blocks* and prose around them."""
    return f"# {title}\n\nA stone for the pocket.\n\n" + "\nSome prose.\n\n".join(blocks)


def line_of(text: str, words: str) -> int:
    """The line of *text*, from 1, that holds *words*."""
    return next(number for number, line in enumerate(text.split("\n"), 1) if words in line)


def environment() -> dict[str, str]:
    return {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONUNBUFFERED": "1", "COLUMNS": "200", "NO_COLOR": "1"}


@dataclass
class Built:
    """How a build ended."""

    code: int
    said: str
    site: Path

    def read(self, path: str = "index.html") -> str:
        return (self.site / path).read_text(encoding="utf-8")

    @property
    def pages(self) -> list[str]:
        """The HTML files written."""
        return sorted(str(p.relative_to(self.site)) for p in self.site.rglob("*.html"))

    def count(self, words: str) -> int:
        return self.said.count(words)

    @property
    def places(self) -> list[str]:
        """``path:line`` of every error and warning told, in order."""
        return re.findall(r"(\S+?(?: \(after preprocessing\))?:\d+):\d+: (?:error|warning)\[", self.said)


@dataclass
class Site:
    """A site in *folder*. ``config`` is what its mkdocs.yml holds besides its name."""

    folder: Path
    config: str = "plugins: [stitchcheck]\n"
    pages: dict[str, str] = field(default_factory=dict)

    def write(self, **more: str) -> Site:
        (self.folder / "mkdocs.yml").write_text(f"site_name: Pockets\n{self.config}", encoding="utf-8")
        for name, text in {**self.pages, **more}.items():
            self.put(name, text)
        return self

    def put(self, name: str, text: str | bytes) -> None:
        path = self.folder / "docs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())

    def build(self, *options: str, tool: str = "mkdocs") -> Built:
        done = subprocess.run(
            [sys.executable, "-m", tool, "build", *options], cwd=self.folder, env=environment(), timeout=120,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8", check=False,
        )
        return Built(done.returncode, done.stdout, self.folder / "site")


class Server:
    """``mkdocs serve`` (or another tool's) on a free port of this machine, ended with the block."""

    def __init__(self, site: Site, tool: str = "mkdocs", *options: str) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self._log = (site.folder / "serve.log").open("w+", encoding="utf-8")
        self._process = subprocess.Popen(
            [sys.executable, "-m", tool, "serve", "-a", f"127.0.0.1:{self.port}", *options],
            cwd=site.folder, env=environment(), stdout=self._log, stderr=subprocess.STDOUT,
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._process.terminate()
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(10)
        self._log.close()

    @property
    def said(self) -> str:
        self._log.flush()
        return Path(self._log.name).read_text(encoding="utf-8")

    @property
    def alive(self) -> bool:
        return self._process.poll() is None

    def wait_for(self, words: str, absent: str = "", seconds: float = 40) -> str:
        """The first page that holds *words* and not *absent*; fails after *seconds*."""
        until, html = time.monotonic() + seconds, ""
        while time.monotonic() < until:
            assert self.alive, self.said
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/", timeout=5) as answer:
                    html = answer.read().decode()
                if words in html and (not absent or absent not in html):
                    return html
            except (urllib.error.URLError, OSError):
                pass
            time.sleep(0.3)
        raise AssertionError(f"{words!r} never came; the page was:\n{html}\nand the server said:\n{self.said}")

"""The system's Chromium for the tests: pages looked at through ``browser/look.mjs``, sheets printed to PDF.

What is needed is installed by the tests' own files: ``npm install`` in ``tests/browser``, and Debian's chromium and
poppler-utils. Where one is missing the tests that need it are skipped with its name, except with CI=true: then they fail.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent / "browser"
_FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--no-pdf-header-footer",
]  # fmt: skip


def need(*programs: str) -> None:
    """Skip where one of *programs* is missing; fail on CI."""
    missing = [name for name in programs if shutil.which(name) is None]
    if missing and os.environ.get("CI") != "true":
        pytest.skip(f"needs {', '.join(missing)}")
    assert not missing, f"install {', '.join(missing)}"


def look(pages: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """What Chromium says of each page, in order."""
    need("chromium", "node", "npm")
    if not (HERE / "node_modules" / "playwright-core").is_dir():
        install = ["npm", "install", "--no-audit", "--no-fund", "--ignore-scripts"]
        subprocess.run(install, cwd=HERE, check=True, capture_output=True, timeout=300)
    order = json.dumps({"chromium": shutil.which("chromium"), "pages": pages})
    done = subprocess.run(
        ["node", "look.mjs"], cwd=HERE, input=order, capture_output=True, text=True, timeout=300, check=False
    )
    assert done.returncode == 0, done.stderr
    answers: list[dict[str, Any]] = json.loads(done.stdout)
    return answers


def print_pdf(html: str, folder: Path, name: str) -> Path:
    """*html* printed to a PDF file by Chromium."""
    need("chromium", "pdftotext")
    page, pdf = folder / f"{name}.html", folder / f"{name}.pdf"
    page.write_text(html, encoding="utf-8")
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        command = ["chromium", *_FLAGS, f"--user-data-dir={profile}", f"--print-to-pdf={pdf}", page.as_uri()]
        subprocess.run(command, check=True, capture_output=True, timeout=120)
    return pdf


def pdf_pages(pdf: Path) -> list[str]:
    """The text of each page, laid out as on paper."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True, timeout=60)
    return done.stdout.split("\f")[:-1]


def pdf_words(pdf: Path) -> list[list[tuple[str, float, float, float, float]]]:
    """The words of each page with their places in points: (word, left, top, right, bottom)."""
    from xml.etree import ElementTree

    command = ["pdftotext", "-bbox", str(pdf), "-"]
    text = subprocess.run(command, check=True, capture_output=True, text=True, timeout=60).stdout
    tree = ElementTree.fromstring(text.replace('xmlns="http://www.w3.org/1999/xhtml"', ""))
    return [
        [
            (word.text or "", *(float(word.attrib[key]) for key in ("xMin", "yMin", "xMax", "yMax")))  # type: ignore[misc]
            for word in page.iter("word")
        ]
        for page in tree.iter("page")
    ]

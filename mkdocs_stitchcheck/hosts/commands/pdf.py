"""``stitchcheck pdf``: patterns as PDF, in the editions that are asked for."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from ...files import write_whole
from ...printing import Edition, Order, PdfMissing, make_pdf, orders, read_editions
from ...printing.make import MEGABYTE, weasyprint
from ...printing.names import Names
from ...printing.orders import named
from ...printing.photographs import Found, beside, photographs
from ...render.options import PageOptions
from ...report.display import one_line
from ...results import FileResult
from ..checking import Configuration, run, say_unreadable
from ..site_address import address_of


def command(arguments: argparse.Namespace) -> int:
    """Make the PDFs; 2 for a wrong option, a file that can't be read or written, or without WeasyPrint; 1 where one was
    not made, else 0."""
    try:
        if not 0 <= arguments.test <= 999 or arguments.limit < 0:
            raise ValueError("--test is a number from 1 to 999, and --limit is not below 0.")
        editions = read_editions(arguments.edition or ["A4"])
        weasyprint()
    except (ValueError, PdfMissing) as error:
        print(f"stitchcheck: {error}", file=sys.stderr)
        return 2
    editions = tuple(replace(edition, test=arguments.test) for edition in editions)
    outcome = run(arguments.paths, config_file=arguments.config_file, quietly=True)
    say_unreadable(outcome.unreadable)
    failed, names = 0, Names()
    try:
        for result in outcome.results:
            failed += _page(result, editions, names, arguments)
    except OSError as error:
        print(f"stitchcheck: {error.filename or arguments.to} can't be written: {error.strerror or error}.", file=sys.stderr)
        return 2
    if not any(result.patterns for result in outcome.results) and not outcome.unreadable:
        print("No pattern there.")
    return 2 if outcome.unreadable else int(failed > 0)


def _page(result: FileResult, editions: Sequence[Edition], names: Names, arguments: argparse.Namespace) -> int:
    """How many PDFs of a page were not made."""
    settings = Configuration(arguments.config_file).of(result.path)
    found, missing = _photographs(result, arguments)
    failed = 0
    for address in missing:
        print(f"stitchcheck: {one_line(result.path)}: there is no photograph {one_line(address)} here; it is left out.",
              file=sys.stderr)  # fmt: skip
    for index, pattern in enumerate(result.patterns):
        why = "is a draft" if pattern.draft else "has errors; `stitchcheck check` says where" if result.fails() else ""
        if why and not arguments.test:
            print(f"stitchcheck: {one_line(result.path)} {why}, so no PDF is made of it.", file=sys.stderr)
            failed += 1
            continue
        made = orders(
            result, index, editions, text=result.text, settings=settings,
            address=arguments.address or address_of(result.path), options=PageOptions(), photographs=found,
        )  # fmt: skip
        for order in made:
            name = names.of(f"{result.path}#{index}", lambda nth: named(pattern, order.edition, nth)[1])  # noqa: B023
            failed += not _make(replace(order, name=name), Path(arguments.to), arguments.limit)
    return failed


def _photographs(result: FileResult, arguments: argparse.Namespace) -> tuple[list[Found], list[str]]:
    if arguments.no_photographs:
        return [], []
    page = Path(result.path)
    root = next((folder / "docs" for folder in page.resolve().parents if (folder / "mkdocs.yml").is_file()), page.parent)
    return photographs(result.text, beside(page.resolve(), root if page.resolve().is_relative_to(root) else page.parent))


def _make(order: Order, folder: Path, limit: float) -> bool:
    if order.problem:
        print(f"stitchcheck: {one_line(order.problem)}", file=sys.stderr)
        return False
    pdf, said = make_pdf(order, limit)
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / order.name, pdf)
    print(f"{folder / order.name}  {len(pdf) / MEGABYTE:.2f} MB" + (f"; {said}" if said else ""))
    return True

"""From a checked page to the documents to be printed: each edition in its terms, with its name and its pictures."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from ..checker import check_text
from ..language.other_terms import OTHER_TERMS
from ..render.options import PageOptions, Picture
from ..render.printed import Photograph, Printed
from ..render.sheet import render_sheet
from ..results import FileResult, PatternResult
from ..retold import can_be_retold, retold
from ..settings import Settings
from .editions import Edition
from .photographs import Found

_STYLE = re.compile(r"<style>.*?</style>", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Order:
    """One PDF to be made: its file name, its HTML, and the pictures that its HTML names, by their address there.

    ``problem`` says in a plain sentence why it can't be made; then there is no HTML.
    """

    name: str
    edition: Edition
    html: str = ""
    pictures: Mapping[str, Path] = field(default_factory=dict)
    problem: str = ""

    @property
    def text_mark(self) -> str:
        """A mark of everything that is printed but its looks: another text has another mark."""
        return _mark(_STYLE.sub("", self.html))

    @property
    def look_mark(self) -> str:
        """A mark of the looks: style sheets and pictures."""
        seen = [f"{name} {_size(path)}" for name, path in sorted(self.pictures.items())]
        return _mark("\n".join([*_STYLE.findall(self.html), *seen]))


def _mark(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()[:24]


def _size(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()[:24]
    except OSError:
        return "missing"


def orders(
    result: FileResult, index: int, editions: Sequence[Edition], *, text: str, settings: Settings, address: str,
    options: PageOptions, photographs: Sequence[Found] = (),
) -> list[Order]:
    """The documents of the pattern number *index* (from 0) of a page, one an edition.

    *text* is the page as it was checked, *photographs* are those of the page in order; the first one goes on the cover.
    """
    pattern = result.patterns[index]
    told: dict[str, tuple[FileResult, str]] = {}
    made = []
    for edition in editions:
        whole, name = named(pattern, edition)
        if whole.terms not in told:
            told[whole.terms] = _told(result, index, whole.terms, text, settings)
        own, problem = told[whole.terms]
        if problem:
            made.append(Order(name, whole, problem=problem))
        else:
            made.append(_order(own, index, whole, name, address, options, photographs))
    return made


def named(pattern: PatternResult, edition: Edition, nth: int = 1) -> tuple[Edition, str]:
    """An edition of *pattern* with its terms, and the name of its file, where *nth* patterns have that name."""
    whole = replace(edition, terms=edition.terms or own_terms(pattern))
    return whole, whole.file_name(pattern.title, version_of(pattern), nth)


def can_be_told(result: FileResult, index: int, edition: Edition, text: str, settings: Settings) -> str:
    """Why an edition of the pattern number *index* can't be made; "" where it can."""
    return _told(result, index, edition.terms or own_terms(result.patterns[index]), text, settings)[1]


def own_terms(pattern: PatternResult) -> str:
    """The terms in which a pattern is written, as a file name has them: US, UK, de, letters."""
    declared = pattern.syntax.header.terms
    return declared if declared in OTHER_TERMS else pattern.syntax.system


def version_of(pattern: PatternResult) -> str:
    """What ``Version:`` says; "" without."""
    line = pattern.syntax.header.first("version")
    return line.value if line is not None else ""


def _told(result: FileResult, index: int, terms: str, text: str, settings: Settings) -> tuple[FileResult, str]:
    """The page in *terms*, and why it can't be told so."""
    pattern = result.patterns[index]
    if terms == own_terms(pattern):
        return result, ""
    if not can_be_retold(pattern):
        return result, f"{pattern.title or 'The pattern'} is not in US or UK terms, so there is no edition in {terms} terms."

    def check(written: str, site_terms: str) -> FileResult:
        return check_text(written, result.path, settings.with_(terms=site_terms))

    other = retold(result, text, terms, check)
    left = [line for line in other.left if pattern.line <= line <= pattern.end_line]
    if left:
        lines = f"Line {left[0]}" if len(left) == 1 else "Lines " + ", ".join(map(str, left))
        return result, f"{lines} can't be told in {terms} terms, so there is no such edition of {pattern.title or 'the pattern'}."
    return other.result, ""


def _order(
    result: FileResult, index: int, edition: Edition, name: str, address: str, options: PageOptions,
    photographs: Sequence[Found],
) -> Order:
    pattern = result.patterns[index]
    pictures = {f"picture-{number}": found.path for number, found in enumerate(photographs)}
    first = Picture("picture-0", photographs[0].words) if photographs else None
    others = tuple(
        Photograph(f"picture-{number}", found.words, found.line)
        for number, found in enumerate(photographs) if number and not edition.large
    )
    html = render_sheet(
        result, pattern, address=address, paper=edition.paper, large=edition.large,
        options=replace(options, picture=first), printed=Printed(True, others, edition.test),
    )
    used = {name: path for name, path in pictures.items() if f'src="{name}"' in html}
    return Order(name, edition, html, used)

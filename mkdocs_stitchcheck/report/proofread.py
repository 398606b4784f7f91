"""An editor's letter as plain text and as Markdown."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from .. import late_re as re
from ..proofreading import Entry, Letter
from .display import one_line

_MARKS = re.compile(r"([\\`*_{}\[\]<>#|&~!$])")


def as_text(letters: Sequence[Letter], width: int = 88) -> str:
    """The letters as plain text, for a terminal or a mail."""
    return "\n".join("".join(f"{line}\n" for line in _text(letter, width)) for letter in letters)


def _text(letter: Letter, width: int) -> Iterator[str]:
    title = one_line(f"{letter.title} ({letter.path})")
    yield from (title, "=" * min(len(title), width), "")
    yield from textwrap.wrap(one_line(" ".join(letter.opening)), width)
    for section in letter.sections:
        yield ""
        if section.level == 1:
            yield section.title.upper()
        else:
            yield section.title
        if section.told:
            yield from textwrap.wrap(section.told, width)
        for entry in section.entries:
            yield from textwrap.wrap(one_line(_said(entry)), width, initial_indent="  - ", subsequent_indent="    ",
                                     break_on_hyphens=False)


def _said(entry: Entry) -> str:
    head = ", ".join(part for part in (entry.place, entry.weight) if part)
    parts = [f"{head}:" if head else "", entry.words, entry.mend, f"[{entry.rule}]" if entry.rule else ""]
    said = " ".join(part for part in parts if part)
    return said[:1].upper() + said[1:]


def as_markdown(letters: Sequence[Letter]) -> str:
    """The letters as Markdown; nothing that a writer typed becomes a mark of it."""
    return "\n".join("".join(f"{line}\n" for line in _markdown(letter)) for letter in letters)


def _markdown(letter: Letter) -> Iterator[str]:
    yield from (f"# Proofreading: {_plain(letter.title)}", "", _plain(letter.path), "", _plain(" ".join(letter.opening)))
    for section in letter.sections:
        yield from ("", f"{'#' * (section.level + 1)} {section.title}", "")
        if section.told:
            yield from (section.told, "") if section.entries else (section.told,)
        yield from (f"- {_marked(entry)}" for entry in section.entries)


def _marked(entry: Entry) -> str:
    head = ", ".join(part for part in (entry.place, entry.weight) if part)
    said = " ".join(part for part in (_plain(entry.words), _plain(entry.mend)) if part)
    return f"{f'**{_plain(head)}:** ' if head else ''}{said}{f' `{entry.rule}`' if entry.rule else ''}"


def _plain(text: str) -> str:
    return _MARKS.sub(r"\\\1", one_line(text))

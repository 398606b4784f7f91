"""Changes in words: a paragraph that is ready for the post."""

from __future__ import annotations

from collections.abc import Iterator

from ..language.terms import TERMS_IN_WORDS
from .compare import Change, Compared
from .dates import corrected_on

_LONGEST = 160


def paragraph(compared: Compared) -> str:
    """What a reader who has the old state needs to know, in Markdown."""
    old, new = compared.old, compared.new
    if new is None or old is None:
        gone = old is not None
        name = (old or new).title or "The pattern"  # type: ignore[union-attr]
        return f"{name} is {'no longer' if gone else 'now'} on this page."
    sentences = [_opening(compared)]
    if compared.other_terms:
        sentences.append(_terms(compared))
    told = list(_sentences(compared))
    sentences += told
    if compared.words and not compared.other_terms:
        lines = "one line" if compared.words == 1 else f"{compared.words} lines"
        more = "Besides, the words of" if told else "Only the words of"
        sentences.append(f"{more} {lines} changed; what you make by them is the same.")
    elif not told and not compared.other_terms:
        sentences.append("Nothing changed in what you make.")
    return " ".join(sentence for sentence in sentences if sentence)


def _opening(compared: Compared) -> str:
    assert compared.new is not None
    header = compared.new.syntax.header
    date = corrected_on(header)
    version = header.first("version")
    state = f" (version {' '.join(version.value.split())})" if version is not None else ""
    if compared.same_making and not compared.words and not compared.other_terms:
        return ""
    word = "Corrected" if compared.changes else "Reworded"
    return f"**{word}{f' {date}' if date else ''}{state}.**" if date or state or compared.changes else ""


def _terms(compared: Compared) -> str:
    assert compared.old is not None and compared.new is not None
    before, after = (TERMS_IN_WORDS.get(p.syntax.header.terms or p.syntax.system, "other terms") for p in (compared.old, compared.new))
    if compared.same_making:
        return f"The same making in other words: {before} before, {after} now."
    return f"It was in {before} and is in {after} now. Besides the words, this changed:"


def _sentences(compared: Compared) -> Iterator[str]:
    for change in compared.changes:
        yield _sentence(change)


def _sentence(change: Change) -> str:
    where = ", ".join(part for part in (change.piece, change.label) if part)
    before, after = _quoted(change.before), _quoted(change.after)
    if change.kind == "count":
        return f"{where}: the count is {_bare(change.after)}, not {_bare(change.before)}."
    if change.kind == "round":
        return f"{where} is now {after}; it was {before}."
    if change.kind == "unsure":
        return f"{where} is written otherwise, now {after}, with as many stitches as before; it was {before}."
    if change.kind == "make":
        return f"{change.piece}: make {change.after}, not {change.before}."
    if change.kind == "numbers":
        return f"{change.piece}: what was {change.before} is now {change.after}, otherwise the same."
    if change.kind == "header":
        return _header(change)
    if change.kind == "step":
        return f"{change.piece}: the step {before} is now {after}."
    if not change.before and not change.after:
        return f"The piece {change.piece} is {'new' if change.kind == 'new' else 'no longer there'}."
    if change.kind == "new":
        return f"{where} is new: {after}." if change.label else f"{change.piece} has a new step: {after}."
    return f"{where} is no longer there: {before}." if change.label else f"{change.piece} no longer has the step {before}."


def _header(change: Change) -> str:
    where = ", ".join(part for part in (change.piece, change.label) if part)
    if not change.before:
        return f"{where} is new: {_quoted(change.after)}."
    if not change.after:
        return f"{where} is no longer listed; it was {_quoted(change.before)}."
    return f"{where} is now {_quoted(change.after)}, not {_quoted(change.before)}."


def _short(text: str) -> str:
    text = " ".join(text.split()).rstrip(".")
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "…"


def _quoted(text: str) -> str:
    return f"“{_short(text)}”"


def _bare(count: str) -> str:
    return _short(count).strip("()[]{}<>=. ")

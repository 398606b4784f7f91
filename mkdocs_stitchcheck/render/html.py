"""HTML from a tree of calls: every text is escaped by construction, so that a pattern's words never become markup.

Neither the tag nor an attribute's name ever comes from a pattern. Text loses its control characters: besides NUL they
hold the marks with which Markdown stands for stashed HTML.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import TypeAlias

_VOID = frozenset({"br", "hr", "img", "input", "meta", "link", "col"})
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#x27;"})
_SPECIAL = re.compile(r"[&<>\"']")
_SCHEME = re.compile(r"[a-zA-Z][a-zA-Z0-9+.\-]*:")
_SAFE_SCHEMES = ("http:", "https:", "mailto:")


class Html:
    """A finished piece of HTML. Only this module makes one from a string."""

    __slots__ = ("text",)

    def __init__(self, text: str) -> None:
        self.text = text

    def __str__(self) -> str:
        return self.text

    def __bool__(self) -> bool:
        return bool(self.text)


Child: TypeAlias = "str | int | Html | Iterable[Child] | None"
Attribute: TypeAlias = "str | int | bool | None"


@lru_cache(maxsize=2048)
def _opening(tag: str, attributes: tuple[tuple[str, Attribute], ...]) -> str:
    """The opening tag; the same few are made for every row."""
    parts = [f"<{tag}"]
    for name, value in attributes:
        if value is None or value is False:
            continue
        name = name.rstrip("_").replace("_", "-")
        parts.append(f" {name}" if value is True else f' {name}="{escape(str(value))}"')
    return "".join(parts) + ">"


def escape(text: str) -> str:
    """*text* as it may stand in an element or in a quoted attribute."""
    if not text.isprintable():
        text = _CONTROL.sub("", text)
    return text.translate(_ESCAPES) if _SPECIAL.search(text) else text


def _join(child: Child) -> str:
    if child is None:
        return ""
    if isinstance(child, Html):
        return child.text
    if isinstance(child, str):
        return escape(child)
    if isinstance(child, int):
        return str(child)
    return "".join([_join(item) for item in child])


def el(tag: str, *children: Child, **attributes: Attribute) -> Html:
    """An element. Attribute names may end in ``_`` (``class_``) and have ``_`` for ``-``; None and False leave one out."""
    opening = _opening(tag, tuple(attributes.items()))
    if tag in _VOID:
        return Html(opening)
    return Html(f"{opening}{_join(children)}</{tag}>")


def element(tag: str, attributes: Iterable[tuple[str, str]], *children: Child) -> Html:
    """An element whose attributes are long and its own, as those of drawings are; names as they stand."""
    given = "".join(f' {name}="{escape(value)}"' for name, value in attributes)
    return Html(f"<{tag}{given}>{_join(children)}</{tag}>")


def join(*children: Child) -> Html:
    """Children without an element around them."""
    return Html(_join(children))


def lines(*children: Child) -> Html:
    """Children on lines of their own: white space between cells, which a search index needs to keep words apart."""
    return Html("\n".join(text for text in _each(children) if text))


def _each(children: Iterable[Child]) -> Iterator[str]:
    for child in children:
        if child is None or isinstance(child, (str, int, Html)):
            yield _join(child)
        else:
            yield from _each(child)


def safe_address(address: str) -> str | None:
    """*address* if a link or picture may lead there: relative, http, https or mailto; else None."""
    address = _CONTROL.sub("", address).strip()
    scheme = _SCHEME.match(address)
    if scheme and scheme.group().lower() not in _SAFE_SCHEMES:
        return None
    return address or None

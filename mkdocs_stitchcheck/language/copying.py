"""Copies of what was read: reading and counting change nodes, and one written number is one node wherever it stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from operator import attrgetter
from typing import Any, TypeVar, cast

from .. import late_re as re
from . import syntax
from .syntax import Node

_N = TypeVar("_N", bound=Node)
_Kind = tuple[Callable[[Any], tuple[Any, ...]], tuple[str, ...]]
_KINDS: dict[type[Node], _Kind] = {}


class Copies:
    """Makes copies that stand *by* characters further on; one node stays one, wherever it hangs.

    What stands before *first* stays there: a place that was never known is 0.
    """

    __slots__ = ("_by", "_first", "_made")

    def __init__(self, first: int = 0, by: int = 0) -> None:
        self._first, self._by = first, by
        self._made: dict[int, Any] = {}

    def of(self, node: _N) -> _N:
        """*node* and all that hangs on it, new."""
        known = self._made.get(id(node))
        if known is not None:
            return cast(_N, known)
        kind = node.__class__
        values, deep = _KINDS.get(kind) or _kind(kind)
        made = self._made[id(node)] = kind(*values(node))
        if self._by:
            made.start, made.end = self.place(made.start), self.place(made.end)
        for name in deep:
            value = getattr(made, name)
            if value:
                setattr(made, name, self._all(value) if value.__class__ is tuple else self.of(value))
        return made

    def all(self, nodes: tuple[_N, ...]) -> tuple[_N, ...]:
        """All *nodes* as new ones."""
        return tuple([self.of(node) for node in nodes])

    def place(self, at: int) -> int:
        """Where a place of the text stands for the copy."""
        return at + self._by if at >= self._first else at

    def _all(self, values: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple([
            self.of(value) if isinstance(value, Node) else self._all(value) if isinstance(value, tuple) else value
            for value in values
        ])  # fmt: skip


def _kind(kind: type[Node]) -> _Kind:
    """What fetches the fields of a kind of node in the order in which it is made of them, and those that hold nodes."""
    names = [field.name for field in fields(kind)]
    deep = tuple(field.name for field in fields(kind) if any(_is_node(word) for word in re.findall(r"\w+", str(field.type))))
    _KINDS[kind] = attrgetter(*names), deep
    return _KINDS[kind]


def _is_node(name: str) -> bool:
    of = getattr(syntax, name, None)
    return isinstance(of, type) and issubclass(of, Node)
